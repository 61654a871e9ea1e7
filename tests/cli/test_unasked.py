"""No file that was not named is run or read, and the environment changes no page."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.command_line import TOP, run
from tests.jobs.job_texts import small_job

JOB = small_job(joint_corners="'A'").encode()
POISONED = (
    "json",
    "array",
    "base64",
    "pypdf",
    "typer",
    "reportlab",
    "reportlab_settings",
    "reportlab_mods",
    "sitecustomize",
    "usercustomize",
    "tomlkit",
    "joinery_templates/__init__",
)
READINGS = [
    "--across",
    "162.6",
    "--along",
    "215.1",
    "--rising",
    "270.1",
    "--falling",
    "269.3",
    "--date",
    "May",
]
HARM = "import pathlib; pathlib.Path(__file__).with_suffix('.hit').touch()\n"


@pytest.fixture
def old_pdf(tmp_path: Path) -> Path:
    (tmp_path / "old.pdf").write_bytes(run("draw", "-", given=JOB).output)
    return tmp_path / "old.pdf"


@pytest.fixture
def poisoned(tmp_path: Path) -> Path:
    """A folder whose files would be imported, could they be found."""
    folder = tmp_path / "poisoned"
    for name in POISONED:
        path = folder / f"{name}.py"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(HARM)
    for name in (".reportlab_settings", ".reportlab_mods"):
        (folder / name).write_text(f"open({str(folder / 'home.hit')!r}, 'w')\n")
    return folder


def command(folder: Path, *words: object, **environment: str) -> subprocess.CompletedProcess[bytes]:
    """Run the program as its installed command does, which puts its own folder on the path."""
    entry = folder.parent / "bin" / "joinery-templates"
    entry.parent.mkdir(exist_ok=True)
    start = f"import sys; sys.path.append({str(TOP)!r})\nfrom joinery_templates.cli import main\n"
    entry.write_text(f"{start}main()\n")
    return subprocess.run(
        [sys.executable, entry, *map(str, words)],
        cwd=folder,
        capture_output=True,
        check=False,
        timeout=60,
        env={**os.environ, **environment},
    )


@pytest.mark.parametrize("way", ["command", "module"])
def test_nothing_in_the_current_folder_or_at_home_is_run(
    way: str, poisoned: Path, old_pdf: Path
) -> None:
    for words in (("measure", old_pdf), ("draw", old_pdf, "--paper", "A3", "-o", "-")):
        if way == "command":
            done = command(poisoned, *words, HOME=str(poisoned))
        else:  # where the package itself comes from somewhere else
            shutil.rmtree(poisoned / "joinery_templates", ignore_errors=True)
            done = subprocess.run(
                [sys.executable, "-m", "joinery_templates", *map(str, words)],
                cwd=poisoned,
                capture_output=True,
                check=False,
                env={**os.environ, "HOME": str(poisoned), "PYTHONPATH": str(TOP)},
            )
        assert done.returncode == 0, done.stderr
    assert list(poisoned.rglob("*.hit")) == []


def test_the_reading_process_takes_nothing_from_the_environment(
    poisoned: Path, old_pdf: Path
) -> None:
    """Not even what the person's own shell sets for other programs of this language."""
    from joinery_templates.measure.reader import read_apart

    code = (
        "import sys, pathlib\n"
        f"sys.path.append({str(TOP)!r})\n"
        "from joinery_templates.measure.reader import read_apart\n"
        f"print(len(read_apart(pathlib.Path({str(old_pdf)!r}).read_bytes()).pages))"
    )
    done = subprocess.run(
        [sys.executable, "-I", "-c", code],
        cwd=poisoned,
        capture_output=True,
        check=False,
        env={
            **os.environ,
            "PYTHONPATH": str(poisoned),
            "PYTHONSTARTUP": str(poisoned / "json.py"),
            "PYTHONINSPECT": "",
            "PYTHONHOME": "",
        },
    )
    assert done.stderr == b""
    assert int(done.stdout) == len(read_apart(old_pdf.read_bytes()).pages)
    assert list(poisoned.rglob("*.hit")) == []


def test_the_check_can_see_a_file_that_runs(poisoned: Path) -> None:
    subprocess.run([sys.executable, "-c", "import json"], cwd=poisoned, check=True)
    assert [path.name for path in poisoned.rglob("*.hit")] == ["json.hit"]


@pytest.mark.parametrize(
    "setting",
    [
        {"RL_useA85": "1", "RL_pageCompression": "0", "RL_invariant": "0", "PYTHONHASHSEED": "1"},
        {
            "RL_defaultPageSize": "nonsense",
            "RL_xmlParser": "nonsense",
            "SOURCE_DATE_EPOCH": "nonsense",
            "PYTHON_ARABIC_RESHAPER_CONFIGURATION_FILE": "/dev/zero",
        },
        {
            "SOURCE_DATE_EPOCH": "1700000000",
            "TZ": "Asia/Kathmandu",
            "LC_ALL": "C",
            "LANG": "xx",
            "PYTHONHASHSEED": "2",
        },
    ],
    ids=["its own settings", "nonsense", "clock and place"],
)
def test_the_environment_changes_no_byte(setting: dict[str, str], tmp_path: Path) -> None:
    job = small_job(joint_corners="'A'").replace("Test", "صندوق")
    (tmp_path / "job.toml").write_text(job)
    (tmp_path / "here").mkdir()
    done = command(tmp_path / "here", "draw", tmp_path / "job.toml", "-o", "-", **setting)
    assert done.returncode == 0, done.stderr
    assert done.stdout == run("draw", "-", given=job.encode()).output


def test_the_environment_decides_no_mistake(tmp_path: Path) -> None:
    (tmp_path / "here").mkdir()
    (tmp_path / "job.toml").write_text(small_job(paper_margin="7" * 2000))
    words = ("check", tmp_path / "job.toml")
    plain = command(tmp_path / "here", *words)
    strict = command(tmp_path / "here", *words, PYTHONINTMAXSTRDIGITS="640")
    assert (strict.returncode, strict.stderr) == (2, plain.stderr)
    assert b"paper.margin" in plain.stderr


@pytest.mark.parametrize("home", ["", "relative", "/dev/null"])
def test_settings_are_looked_for_at_home_and_nowhere_else(home: str, tmp_path: Path) -> None:
    """A folder that happens to be here is no home; without one the job is drawn all the same."""
    for name in ("~/.config", "relative/.config", ".config", "joinery-templates"):
        folder = tmp_path / name / "joinery-templates"
        folder.mkdir(parents=True)
        (folder / "tools.toml").write_text("broken")
    (tmp_path / "job.toml").write_bytes(JOB)
    done = command(tmp_path, "draw", "job.toml", "-o", "-", XDG_CONFIG_HOME=home, HOME="/dev/null")
    assert (done.returncode, done.stdout) == (0, run("draw", "-", given=JOB).output), done


def test_where_no_settings_can_be_kept_one_line_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for folder, code in (
        (tmp_path / "file" / "inside", "cannot-write"),
        (Path("~"), "no-settings"),
    ):
        (tmp_path / "file").touch()
        monkeypatch.setattr("platformdirs.user_config_path", lambda *_, at=folder, **__: at)
        for words in (("tools", "--kerf", "0.5"), ("calibrate", "P", *READINGS)):
            ran = run(*words)
            assert ran.code == 1
            assert code in ran.messages.splitlines()[-1]
            assert len(ran.messages.splitlines()) == 1
        assert run("draw", "-", given=JOB).code == 0
