"""The file itself: version, print settings, fonts, attachment, outline, bytes."""

import getpass
import io
import os
import re
import shutil
import socket
import subprocess
import sys
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from joinery_templates.build import missing_signs_of, pdf_of
from joinery_templates.jobs.reader import read_job
from joinery_templates.pdf.fonts import printable
from tests.pdf.drawn_jobs import SAMPLES, pages_from, pdf_from, sample_text
from tests.pdf.page_reading import SAW, PageRead, read_pages
from tests.pdf.wrap_reading import labels_of

ROOT = Path(__file__).parents[2]
NAMES = [path.stem for path in SAMPLES]
A4, LETTER, TABLOID = (595, 841), (612, 792), (792, 1224)
SIZES = dict.fromkeys(NAMES, A4) | {"blanket_chest": TABLOID, "tea_box": LETTER}

ODD_WORDS = "Bræt ⅜ ½ 12° ≈ ◄ ► Łódź Ж ⌀ ′ ″ ▲ ✂"
SMALL_JOB = """
title = "{title}"
[boards.side]
width = 60
thickness = 10
[boards.end]
width = 60
thickness = 12
[[joints]]
kind = "through-dovetail"
name = "Box"
corners = ["A"]
tail_board = "side"
pin_board = "end"
slope = "1:6"
tails = 2
half_pin = 5
pin = 3
"""


def opened(name: str) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(pdf_from(sample_text(name))))


@pytest.mark.parametrize("name", NAMES)
def test_the_version_is_1_7(name):
    assert pdf_from(sample_text(name)).startswith(b"%PDF-1.7\n")


@pytest.mark.parametrize("name", NAMES)
def test_viewers_are_asked_not_to_scale_and_to_print_on_one_side(name):
    with opened(name) as pdf:
        wishes = pdf.Root.ViewerPreferences
        assert wishes.PrintScaling == "/None"
        assert wishes.Duplex == "/Simplex"
        assert wishes.PickTrayByPDFSize is True
        assert wishes.DisplayDocTitle is True
    document = pypdfium2.PdfDocument(pdf_from(sample_text(name)))
    assert not pypdfium2.raw.FPDF_VIEWERREF_GetPrintScaling(document.raw)
    document.close()


@pytest.mark.parametrize("name", NAMES)
def test_every_font_is_embedded_and_none_is_helvetica(name):
    with opened(name) as pdf:
        fonts = [
            one
            for one in pdf.objects
            if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/Font"
        ]
        assert fonts
        for font in fonts:
            assert "DejaVuSansCondensed" in str(font.BaseFont)
            assert "/FontFile2" in font.FontDescriptor
            assert "/ToUnicode" in font
    assert b"Helvetica" not in unpacked(pdf_from(sample_text(name)))


@pytest.mark.parametrize("name", NAMES)
def test_all_pages_are_of_one_size_in_whole_points_and_upright(name):
    with opened(name) as pdf:
        for page in pdf.pages:
            assert [float(number) for number in page.MediaBox] == [0, 0, *SIZES[name]]
            assert "/CropBox" not in page
            assert "/UserUnit" not in page
            assert int(page.get("/Rotate", 0)) == 0


@pytest.mark.parametrize("name", NAMES)
def test_title_and_subject_say_what_it_is(name):
    with opened(name) as pdf:
        title = re.search('^title = "(.*)"', sample_text(name), re.M)
        assert title
        assert str(pdf.docinfo.Title) == title[1]
        assert "print at 100 %" in str(pdf.docinfo.Subject)


def unpacked(content: bytes) -> bytes:
    """The file with all streams uncompressed."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(content)) as pdf:
        pdf.save(out, compress_streams=False, stream_decode_level=pikepdf.StreamDecodeLevel.all)
    return out.getvalue()


@pytest.mark.parametrize("name", NAMES)
def test_no_clock_and_nothing_of_this_machine_is_in_the_file(name):
    content = unpacked(pdf_from(sample_text(name)))
    dates = re.findall(rb"\(D:(\d{4})", content)
    assert set(dates) == {b"2000"}
    for trace in (str(ROOT), str(Path.home()), "/tmp", sys.prefix):
        assert trace.encode() not in content
    for word in (socket.gethostname(), getpass.getuser()):
        assert re.search(rb"\b" + re.escape(word.encode()) + rb"\b", content) is None


DRAW = """
import sys
from pathlib import Path
from joinery_templates.build import pdf_of
from joinery_templates.jobs.reader import read_job
sys.stdout.buffer.write(pdf_of(read_job(Path(sys.argv[1]).read_text("utf-8")))[0])
"""


def test_another_process_on_another_day_and_place_writes_the_same_bytes(tmp_path):
    surroundings = {
        **os.environ,
        "PYTHONPATH": str(ROOT),
        "PYTHONHASHSEED": "4711",
        "TZ": "Pacific/Kiritimati",
        "LANG": "tr_TR.UTF-8",
        "LC_ALL": "C",
        "SOURCE_DATE_EPOCH": "1234567890",
        "HOME": str(tmp_path),
    }
    path = next(path for path in SAMPLES if path.stem == "tea_box")
    second = subprocess.run(
        [sys.executable, "-c", DRAW, str(path)],
        cwd=tmp_path,
        env=surroundings,
        check=True,
        capture_output=True,
        timeout=120,
    )
    assert second.stdout == pdf_from(sample_text("tea_box"))


def test_a_second_run_writes_the_same_bytes_whatever_date_the_environment_names(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    job = read_job(sample_text("tea_box"))
    assert pdf_of(job)[0] == pdf_from(sample_text("tea_box"))


@pytest.mark.parametrize("name", NAMES)
def test_the_attachment_is_the_job_file_to_the_byte(name):
    path = next(path for path in SAMPLES if path.stem == name)
    with opened(name) as pdf:
        assert list(pdf.attachments) == ["job.toml"]
        attached = pdf.attachments["job.toml"]
        assert attached.get_file().read_bytes() == path.read_bytes()
        assert attached.description


def test_a_job_file_in_any_script_is_attached_to_the_byte():
    text = SMALL_JOB.format(title=ODD_WORDS) + "# Überblattung 蟻組み 😀\n"
    with pikepdf.open(io.BytesIO(pdf_from(text))) as pdf:
        assert pdf.attachments["job.toml"].get_file().read_bytes() == text.encode()


@pytest.mark.parametrize("name", NAMES)
def test_the_outline_leads_by_corner_and_board_to_the_page_with_that_pattern(name):
    pages = pages_from(sample_text(name))
    found = 0
    with opened(name) as pdf, pdf.open_outline() as outline:
        numbers = {page.objgen: number for number, page in enumerate(pdf.pages)}
        for group in outline.root:
            for entry in group.children:
                page = pages[numbers[page_of(pdf, entry)]]
                if str(group.title).startswith(("Corner", "Back")):
                    assert str(entry.title) in patterns_of(page, str(group.title))
                    found += 1
        titles = [str(group.title) for group in outline.root]
    assert titles[0] == "Overview"
    assert found >= 4


def patterns_of(page: PageRead, corner: str) -> set[str]:
    """The patterns of one corner on a page, by board, and by face where it shows but one."""
    found = set()
    for placement in page.placements:
        labels = labels_of(placement)
        for words in placement.words:
            name, _, board = words.text.partition(" · ")
            if name == corner and labels:
                found.add(f"{board} template" if len(labels) > 1 else f"{board} {labels[0][1]}")
    return found


def page_of(pdf: pikepdf.Pdf, entry: pikepdf.OutlineItem) -> tuple[int, int]:
    target = entry.destination if entry.destination is not None else entry.action.D
    if not isinstance(target, pikepdf.Array):
        target = pdf.Root.Dests[str(target)]
        target = target.D if isinstance(target, pikepdf.Dictionary) else target
    page: tuple[int, int] = target[0].objgen
    return page


@pytest.mark.parametrize("name", NAMES)
def test_qpdf_finds_nothing_wrong(name, tmp_path):
    with opened(name) as pdf:
        assert pdf.check_pdf_syntax() == []
    if shutil.which("qpdf"):
        (tmp_path / "in.pdf").write_bytes(pdf_from(sample_text(name)))
        told = subprocess.run(
            ["qpdf", "--check", "in.pdf"], check=False, cwd=tmp_path, capture_output=True, text=True
        )
        assert told.returncode == 0, told.stdout + told.stderr
        assert "No syntax or stream encoding errors found" in told.stdout


def test_a_damaged_file_is_found_damaged():
    content = pdf_from(sample_text("tea_box")).replace(b"/MediaBox [ 0 0", b"/MediaBox [ 0 x", 1)
    with pikepdf.open(io.BytesIO(content)) as pdf:
        assert pdf.check_pdf_syntax() != []


def test_words_come_out_of_the_file_sign_for_sign(tmp_path):
    content = pdf_from(SMALL_JOB.format(title=ODD_WORDS))
    assert ODD_WORDS in [words.text for words in read_pages(content)[0].words]
    document = pypdfium2.PdfDocument(content)
    assert ODD_WORDS in document[0].get_textpage().get_text_range()
    document.close()
    if shutil.which("pdftotext"):
        (tmp_path / "in.pdf").write_bytes(content)
        told = subprocess.run(
            ["pdftotext", "-enc", "UTF-8", "-layout", "in.pdf", "-"],
            cwd=tmp_path,
            check=True,
            capture_output=True,
            timeout=60,
        )
        assert ODD_WORDS in told.stdout.decode()


@pytest.mark.parametrize("sign", ["ก", "😀", "\U0001d5a0", "\U0010fffd"])
def test_a_sign_that_the_fonts_lack_is_printed_as_a_box_and_reported(sign):
    text = SMALL_JOB.format(title=f"Box {sign} one")
    if not sign.isprintable():
        assert printable(sign) == "□"
        return
    (finding,) = missing_signs_of(read_job(text))
    assert finding.code == "sign-not-in-font"
    assert sign in finding.message
    assert "□" in finding.message
    words = [words.text for words in read_pages(pdf_from(text))[0].words]
    assert "Box □ one" in words


def test_eastern_names_come_out_of_the_file():
    document = pypdfium2.PdfDocument(pdf_from(SMALL_JOB.format(title="Box 桐の箱 one")))
    assert "Box 桐の箱 one" in document[0].get_textpage().get_text_range()
    document.close()


def test_no_sign_is_reported_that_the_fonts_have():
    assert missing_signs_of(read_job(SMALL_JOB.format(title=ODD_WORDS))) == ()


def test_four_corners_of_two_boards_and_two_hands_share_four_drawings():
    """A and C are alike, and B and D: 2 boards x 2 hands; everything else is words."""
    pages = pages_from(sample_text("tea_box"))
    placed = [
        placement
        for page in pages
        for placement in page.placements
        if placement.saying("· outside face ·")
    ]
    assert len(placed) == 8
    assert len({placement.forms[0] for placement in placed}) == 4
    assert all(placement.drawn_with(SAW) for placement in placed)
    with opened("tea_box") as pdf:
        rulers = {page.placements[0].forms[0] for page in pages}
        assert len(rulers) == 1
        forms = [
            one
            for one in pdf.objects
            if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Form"
        ]
    # Rulers, 4 drawings, 8 words, strip and card; of each page its head and what is read.
    assert len(forms) <= 1 + 4 + 8 + 2 + 2 * len(pages)
    assert len(pdf_from(sample_text("tea_box"))) < 120_000
