"""No command waits for a library that it does not use."""

from pathlib import Path

import pytest

from tests.cli.command_line import SAMPLE, run, run_apart
from tests.jobs.job_texts import small_job

HEAVY = ["reportlab", "pypdf", "tomlkit", "jsonschema", "PIL"]


@pytest.mark.parametrize(
    ("words", "heavy"),
    [
        (("--help",), HEAVY),
        (("papers",), HEAVY),
        (("joints", "through-dovetail"), HEAVY),
        (("schema",), HEAVY),
        (("check", SAMPLE), ["pypdf", "tomlkit", "jsonschema"]),
        (("draw", SAMPLE, "-o", "-"), ["pypdf", "tomlkit", "jsonschema"]),
        (("measure", "x.pdf"), ["tomlkit", "jsonschema"]),
    ],
    ids=lambda value: str(value[0]),
)
def test_no_command_imports_more_than_it_needs(
    words: tuple[object, ...], heavy: list[str], tmp_path: Path
) -> None:
    (tmp_path / "x.pdf").write_bytes(run("draw", "-", given=small_job().encode()).output)
    code = (
        "import sys\n"
        "from joinery_templates.cli import run\n"
        "names = sys.argv.pop().split()\n"
        "code = run()\n"
        "print('LOADED', [n for n in names if n in sys.modules], file=sys.stderr)\n"
        "sys.exit(code)"
    )
    ran = run_apart(*words, " ".join(heavy), code=code, cwd=tmp_path)
    assert ran.code == 0
    assert ran.messages.splitlines()[-1] == "LOADED []"


def test_draw_is_seen_to_import_the_writer_of_pdfs() -> None:
    """The check above can fail."""
    code = (
        "import sys; from joinery_templates.cli.app import app; app(standalone_mode=False);"
        "assert 'reportlab' in sys.modules"
    )
    assert run_apart("draw", SAMPLE, "-o", "-", code=code).code == 0
