"""A folder full of files that a command may be pointed at, and what became of them."""

import os
import random
import stat
from functools import cache
from pathlib import Path

import pikepdf

from tests.cli.command_line import run
from tests.jobs.job_texts import small_job

Chance = random.Random
State = dict[str, tuple[str, object]]
"""By name in the folder: what it is with its rights, and its content."""

HERE, HOME, CONFIG = "here", "home", "config"
KEPT = "joinery-templates"
OLD = "old.pdf"
"""The one file that this program wrote, so that it may write it anew."""
TOOLS = '# mine\n[tools]\nkerf = "0.6 mm"\nchisels = ["6 mm", "12 mm"]\n'
PRINTERS = """\
[Press]
date = "1 May"
paper = "A4"
by_line = false
stated_across = "162 mm"
stated_along = "216 mm"
across = "163 mm"
along = "215 mm"
rising = "270 mm"
falling = "270 mm"
"""
HARMFUL = "open('executed', 'w').close()\n"
"""A program that waits in the folder to be run by mistake."""


@cache
def job() -> bytes:
    return small_job(joint_corners="['A']").encode()


@cache
def templates() -> bytes:
    return run("draw", "-", "-o", "-", given=job()).output


@cache
def other_pdf() -> bytes:
    import io

    out = io.BytesIO()
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        pdf.save(out)
    return out.getvalue()


def stock(folder: Path, chance: Chance) -> None:
    """Fill an empty folder: the current one, a home, and settings."""
    here = folder / HERE
    for name in (HERE, HOME, f"{HERE}/folder", f"{HERE}/folder.pdf", f"{CONFIG}/{KEPT}"):
        (folder / name).mkdir(parents=True)
    files = {
        "job.toml": job(),
        "bad.toml": job().replace(b"90", b"-90"),
        "latin.toml": job().replace(b"Box", b"K\xfcche"),
        "empty.toml": b"",
        "ünï cödé.toml": job(),
        "a\nb.toml": job(),
        "\x1b[31mred.toml": job(),
        "\udcff.toml": job(),
        "-x.toml": job(),
        "read_only.toml": job(),
        "read_only.pdf": templates(),
        OLD: templates(),
        "harmed.pdf": templates()[:-3000],
        "other.pdf": other_pdf(),
        "text.pdf": job(),
        "notes.txt": b"Do not lose these.\n",
        "log.txt": b"Earlier lines.\n",
        "json.py": HARMFUL.encode(),
    }
    for name, content in files.items():
        (here / name).write_bytes(content)
    for name in ("read_only.toml", "read_only.pdf"):
        (here / name).chmod(0o444)
    for name, to in (("link.toml", "job.toml"), ("link.pdf", OLD), ("loop.pdf", "loop.pdf"),
                     ("dangling.pdf", "nowhere.pdf"), ("link_other.pdf", "other.pdf")):  # fmt: skip
        (here / name).symlink_to(to)
    for name in ("fifo_in", "fifo_out"):
        os.mkfifo(here / name)
    _keep_settings(folder / CONFIG / KEPT, chance)


def _keep_settings(kept: Path, chance: Chance) -> None:
    match chance.randrange(8):
        case 0:
            (kept / "tools.toml").write_text("[tools\nkerf = 3", encoding="utf-8")
        case 1:
            (kept / "printers.toml").write_text("Press = 3\n[x", encoding="utf-8")
        case 2:
            (kept / "tools.toml").mkdir()
            (kept / "printers.toml").mkdir()
        case 3:
            (kept / "tools.toml").write_bytes(b"\xff\xfe\0")
            (kept / "printers.toml").write_bytes(b"\xff\xfe\0")
        case 4:
            kept.rmdir()
            kept.write_bytes(b"a file")
        case _:
            (kept / "tools.toml").write_text(TOOLS, encoding="utf-8")
            (kept / "printers.toml").write_text(PRINTERS, encoding="utf-8")


def state(folder: Path) -> State:
    """Everything in a folder."""
    found: State = {}
    for root, folders, files in os.walk(folder):
        for name in (*folders, *files):
            path = Path(root, name)
            mode = path.lstat().st_mode
            content: object = None
            if stat.S_ISREG(mode):
                content = path.read_bytes()
            elif stat.S_ISLNK(mode):
                content = os.readlink(path)
            found[os.path.relpath(path, folder)] = (stat.filemode(mode), content)
    return found
