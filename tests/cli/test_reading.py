"""What is given to read, and told plainly where it cannot be read."""

import io
import os
from pathlib import Path

import pikepdf
import pytest

from joinery_templates.cli.files import is_own_pdf
from tests.cli.command_line import SAMPLE, run

AS_ROOT = os.geteuid() == 0


def test_draw_names_the_pdf_after_the_job_and_writes_it_where_you_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run("draw", SAMPLE)
    assert (ran.code, ran.output) == (0, b"")
    assert [path.name for path in tmp_path.iterdir()] == ["handrail.pdf"]
    assert "handrail.pdf: " in ran.messages


def test_draw_never_writes_over_what_it_draws_from(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    job = tmp_path / "job.toml"
    job.write_bytes(SAMPLE.read_bytes())
    Path("link.toml").symlink_to(job)
    for output in ("job.toml", "./job.toml", "link.toml"):
        ran = run("draw", job, "-o", output)
        assert ran.code == 2
        assert "written over the job file" in ran.messages
    assert job.read_bytes() == SAMPLE.read_bytes()
    assert run("draw", job).code == 0
    before = Path("job.pdf").read_bytes()
    again = run("draw", "job.pdf", "--paper", "A3")
    assert again.code == 2
    assert "--output" in again.messages
    assert Path("job.pdf").read_bytes() == before


@pytest.mark.parametrize(
    "name", ["missing.toml", "missing/x.toml", "missing.pdf", "", "a\0b", "x" * 5000]
)
@pytest.mark.parametrize("command", ["draw", "check", "measure"])
def test_a_missing_input_is_told(command: str, name: str, tmp_path: Path) -> None:
    ran = run(command, tmp_path / name if name and len(name) < 100 and "\0" not in name else name)
    assert ran.code in (1, 2)
    assert ran.output == b""
    assert len(ran.messages.splitlines()) == 1
    assert any(
        words in ran.messages for words in ("no such file", "a folder", "File name too long")
    )


@pytest.mark.parametrize("command", ["draw", "check", "measure"])
def test_a_folder_as_input_is_told(command: str, tmp_path: Path) -> None:
    ran = run(command, tmp_path)
    assert ran.code == 2
    assert "This is a folder." in ran.messages


@pytest.mark.skipif(AS_ROOT, reason="root may read everything")
def test_an_unreadable_input_is_told(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_bytes(SAMPLE.read_bytes())
    job.chmod(0)
    ran = run("check", job)
    assert ran.code == 1
    assert "cannot be read: Permission denied" in ran.messages


def test_an_input_without_end_is_refused(tmp_path: Path) -> None:
    ran = run("check", "/dev/zero")
    assert ran.code == 2
    assert "over 100 MB" in ran.messages


@pytest.mark.parametrize("command", ["draw", "check", "measure"])
def test_a_text_file_named_pdf_is_called_no_pdf(command: str, tmp_path: Path) -> None:
    pdf = tmp_path / "box.PDF"
    pdf.write_bytes(SAMPLE.read_bytes())
    ran = run(command, pdf)
    assert (ran.code, ran.output) == (2, b"")
    assert "This is not a PDF file." in ran.messages


@pytest.mark.parametrize("command", ["draw", "check", "measure"])
def test_a_pdf_without_a_job_inside_is_told(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from reportlab.pdfgen.canvas import Canvas

    monkeypatch.chdir(tmp_path)
    canvas = Canvas("other.pdf")
    canvas.drawString(100, 100, "not from here")
    canvas.save()
    ran = run(command, tmp_path / "other.pdf", *(("-o", "x.pdf") if command == "draw" else ()))
    assert (ran.code, ran.output) == (2, b"")
    assert "carries no job file" in ran.messages
    assert [path.name for path in tmp_path.iterdir()] == ["other.pdf"]


DIVIDED = ("--width", "140 mm", "--thickness", "12 mm", "--tails", "3..4")


@pytest.mark.parametrize(
    "drawn", [("sizing",), ("calibrate",), ("compare", "through-dovetail", *DIVIDED)]
)
def test_an_own_sheet_of_no_job_is_told_for_what_it_is(drawn, tmp_path):
    pdf = tmp_path / "sheet.pdf"
    assert run(*drawn, "-o", pdf).code == 0
    ran = run("measure", pdf)
    assert (ran.code, ran.output) == (2, b"")
    assert "sheet that sizing, calibrate or compare drew" in ran.messages
    assert "not from this program" not in ran.messages
    assert "true by a steel rule" in ran.messages


def test_templates_that_lost_their_job_are_no_such_sheet(tmp_path):
    pdf = tmp_path / "lost.pdf"
    with pikepdf.open(io.BytesIO(run("draw", SAMPLE, "-o", "-").output)) as drawn:
        del drawn.attachments["job.toml"]
        drawn.save(pdf)
    assert is_own_pdf(pdf.read_bytes())
    assert "another program has taken the job out" in run("measure", pdf).messages


@pytest.mark.parametrize("command", ["draw", "check", "measure"])
def test_a_torn_off_pdf_is_told(command: str, tmp_path: Path) -> None:
    pdf = tmp_path / "half.pdf"
    pdf.write_bytes(run("draw", SAMPLE, "-o", "-").output[:9000])
    ran = run(command, pdf, *(("-o", "-") if command == "draw" else ()))
    assert (ran.code, ran.output) == (2, b"")
    assert "half.pdf: " in ran.messages
    assert "Traceback" not in ran.messages
