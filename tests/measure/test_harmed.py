"""`measure` on templates that another program or a slip has harmed, or only written anew."""

import io
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pypdf
import pytest

from joinery_templates.measure.compare import compare_pages
from joinery_templates.measure.plane import Segment
from tests.cli.command_line import Ran, run
from tests.measure.laid_out_once import laid_out_once
from tests.measure.measured_pages import expected_page, read, template

MM = 72 / 25.4
JOB = """
title = "Wide box"
[boards.side]
width = 260
thickness = 12
[boards.end]
width = 260
thickness = 12
[[joints]]
kind = "through-dovetail"
corners = ["A", "C"]
views = ["wrap"]
tail_board = "side"
pin_board = "end"
tails = 3
slope = "1:7"
"""
"""A and C have the same ends, so their pages expect the same lines; A4 cuts them into tiles."""


@pytest.fixture(scope="module", autouse=True)
def _laid_out_once():
    """Every file here carries the same job: its pages are not laid out anew for each."""
    with laid_out_once():
        yield


@pytest.fixture(scope="module")
def sample(tmp_path_factory) -> bytes:
    return drawn(tmp_path_factory.mktemp("sample"))


def drawn(folder: Path, *more: object) -> bytes:
    (folder / "job.toml").write_text(JOB, encoding="utf-8")
    ran = run("draw", folder / "job.toml", "-o", folder / "out.pdf", *more)
    assert ran.code == 0, ran.messages
    return (folder / "out.pdf").read_bytes()


def measured(folder: Path, content: bytes) -> Ran:
    (folder / "given.pdf").write_bytes(content)
    return run("measure", folder / "given.pdf")


Harm = Callable[[pikepdf.Pdf], None]


def changed(content: bytes, harm: Harm) -> bytes:
    with pikepdf.open(io.BytesIO(content)) as pdf:
        harm(pdf)
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


def shrunk(pdf: pikepdf.Pdf) -> None:
    for page in pdf.pages:
        page.contents_add(b"q .97 0 0 .97 6.3 8.9 cm\n", prepend=True)
        page.contents_add(b"\nQ")


def without_a_page(pdf: pikepdf.Pdf) -> None:
    del pdf.pages[7]


def cropped(pdf: pikepdf.Pdf) -> None:
    left, low, right, high = (float(one) for one in pdf.pages[7].mediabox)
    pdf.pages[7].cropbox = (left + 60, low, right, high)


def without_fonts(pdf: pikepdf.Pdf) -> None:
    for thing in pdf.objects:
        if isinstance(thing, pikepdf.Dictionary) and "/FontFile2" in thing:
            del thing["/FontFile2"]


def in_another_order(pdf: pikepdf.Pdf) -> None:
    page = pdf.pages[5]
    del pdf.pages[5]
    pdf.pages.append(page)


def with_a_page_too_many(pdf: pikepdf.Pdf) -> None:
    pdf.pages.append(pdf.pages[7])


def without_rulers_on_the_first_page(pdf: pikepdf.Pdf) -> None:
    content = pdf.pages[0].Contents.read_bytes()
    less = content.replace(b"/FormXob.figure0 Do", b"", 1)
    assert less != content
    pdf.pages[0].Contents = pdf.make_stream(less)


def mirrored(pdf: pikepdf.Pdf) -> None:
    page = pdf.pages[7]
    page.contents_add(f"q -1 0 0 1 {page.mediabox[2]} 0 cm\n".encode(), prepend=True)
    page.contents_add(b"\nQ")


def with_a_tile_moved(pdf: pikepdf.Pdf, page: int = 7, mm: float = 0.5) -> None:
    """The last drawing on a page that is seen through a window, moved to the right."""
    place = re.compile(rb"(W\*? n\s+1 0 0 1 )([-.\d]+)( [-.\d]+ cm)")
    content = pdf.pages[page].Contents.read_bytes()
    found = list(place.finditer(content))
    assert found, "the page has a tile that lies upright"
    for tile in reversed(found):  # the layers of one tile
        x = f"{float(tile[2]) + mm * MM:.5f}".encode()
        content = content[: tile.start(2)] + x + content[tile.end(2) :]
    pdf.pages[page].Contents = pdf.make_stream(content)


HARMS = [
    (shrunk, ["WRONG scale across 97.000 %", "fit to page", "Do not cut"]),
    (without_a_page, ["Pages missing: 8.", "Do not cut"]),
    (without_rulers_on_the_first_page, ["Pages missing: 1.", "No rulers to measure by on page 1:"]),
    (mirrored, ["Pages missing: 8.", "No rulers to measure by on page 8:", "mirrored"]),
    (with_a_page_too_many, ["do not belong", "Do not cut"]),
    (with_a_tile_moved, ["page   8: WRONG", "is 0.500 mm from its place", "Do not cut"]),
    (cropped, ["page   8: WRONG", "outside the visible page", "Do not cut"]),
    (without_fonts, ["fonts are missing", "not as it was drawn"]),
    (in_another_order, ["another order", "not as it was drawn"]),
]


@pytest.mark.parametrize(("harm", "told"), HARMS, ids=lambda one: getattr(one, "__name__", ""))
def test_a_harm_is_found_and_named(tmp_path, sample, harm, told):
    ran = measured(tmp_path, changed(sample, harm))
    assert ran.code == 1, ran.text + ran.messages
    for words in told:
        assert words in ran.text, ran.text


def test_a_harm_on_one_page_leaves_the_others_at_their_places(tmp_path, sample):
    """Of pages that expect the same lines each is held against the one in its own place."""
    ran = measured(tmp_path, changed(sample, with_a_tile_moved))
    assert ran.text.count("WRONG") == 1
    assert "another order" not in ran.text
    assert "another version" not in ran.text
    both = measured(tmp_path, changed(changed(sample, with_a_tile_moved), without_a_page))
    assert "Pages missing: 8." in both.text
    assert "WRONG" not in both.text


def test_a_harmed_page_does_not_change_places_with_one_that_has_little_on_it():
    """Page 1 has rulers and waste, which is not held; page 2's drawing was moved by 0.5 mm.

    Page 1 is then more like what is found on the second page than on the first: of the
    two, taken together, that is no better.
    """
    expected = (expected_page(1, plain=True), expected_page(2))
    bare, moved = read(template(2, plain=(1,), moved=(0.5, 0)))
    waste = tuple(Segment(40 + 2 * n, 100, 45 + 2 * n, 105) for n in range(60))
    first = bare._replace(segments=bare.segments + waste)
    report = compare_pages(expected, [first, moved])
    assert [page.found_number for page in report.pages] == [1, 2]
    assert report.pages[1].worst_error == pytest.approx(0.5, abs=0.001)
    assert report.in_order
    assert not report.true_to_size


@pytest.mark.parametrize("mm", [0.06, -0.06])
def test_a_tile_moved_by_more_than_a_twentieth_of_a_millimetre_is_found(tmp_path, sample, mm):
    ran = measured(tmp_path, changed(sample, lambda pdf: with_a_tile_moved(pdf, mm=mm)))
    assert ran.code == 1
    assert "is 0.060 mm from its place" in ran.text


def with_its_job_changed(pdf: pikepdf.Pdf) -> None:
    """As if this version of the program laid the pages out otherwise than the one that drew."""
    names = pdf.Root.Names.EmbeddedFiles.Names
    stream = names[1].EF.F
    text = stream.read_bytes()
    assert text.count(b"tails = 3") == 1
    stream.write(text.replace(b"tails = 3", b"tails = 4"))


def test_pages_of_another_version_are_not_called_wrong(tmp_path, sample):
    ran = measured(tmp_path, changed(sample, with_its_job_changed))
    assert ran.code == 1
    assert "another version" in ran.text
    assert "Do not cut" not in ran.text


def cloned(content: bytes, folder: Path) -> bytes:
    out = io.BytesIO()
    pypdf.PdfWriter(clone_from=io.BytesIO(content)).write(out)
    return out.getvalue()


def saved(content: bytes, folder: Path) -> bytes:
    return changed(content, lambda pdf: None)


def program(*words: str) -> Callable[[bytes, Path], bytes]:
    def rewritten(content: bytes, folder: Path) -> bytes:
        if shutil.which(words[0]) is None:
            pytest.skip(f"{words[0]} is not installed")
        (folder / "in.pdf").write_bytes(content)
        subprocess.run(words, cwd=folder, check=True, capture_output=True)
        return (folder / "out.pdf").read_bytes()

    return rewritten


GHOSTSCRIPT = program("gs", "-q", "-sDEVICE=pdfwrite", "-o", "out.pdf", "in.pdf")
CAIRO = program("pdftocairo", "-pdf", "in.pdf", "out.pdf")
REWRITERS = {
    "pypdf": cloned,
    "pikepdf": saved,
    "qpdf linearized": program("qpdf", "--linearize", "in.pdf", "out.pdf"),
    "qpdf object streams": program("qpdf", "--object-streams=generate", "in.pdf", "out.pdf"),
}


@pytest.mark.parametrize("by", REWRITERS)
def test_a_file_that_is_only_written_anew_is_true(tmp_path, sample, by):
    ran = measured(tmp_path, REWRITERS[by](sample, tmp_path))
    assert ran.code == 0, ran.text + ran.messages
    assert ran.text.rstrip().endswith("True to size.")


@pytest.mark.parametrize("by", [GHOSTSCRIPT, CAIRO], ids=["ghostscript", "pdftocairo"])
def test_a_program_that_takes_the_job_out_is_told_of_and_one_that_keeps_it_passes(
    tmp_path, sample, by
):
    rewritten = by(sample, tmp_path)
    with pikepdf.open(io.BytesIO(rewritten)) as pdf:
        kept = "job.toml" in pdf.attachments
    ran = measured(tmp_path, rewritten)
    if kept:
        assert ran.code == 0, ran.text
    else:
        assert ran.code == 2
        assert "another program has taken the job out" in ran.messages


@pytest.mark.parametrize("more", [(), ("--one-per-page", "--paper", "A3")])
def test_pages_drawn_for_a_printer_are_true_against_themselves(tmp_path, monkeypatch, more):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    readings = ("--across", "163", "--along", "215", "--rising", "270.6", "--falling", "269")
    assert run("calibrate", "Press", *readings, "--date", "1 May").code == 0
    content = drawn(tmp_path, "--printer", "Press", *more)
    ran = measured(tmp_path, content)
    assert ran.code == 0, ran.text
