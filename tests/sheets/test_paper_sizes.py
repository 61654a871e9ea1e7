"""Paper sizes against their standards and three other people's tables."""

import itertools
import re
import shutil
import subprocess
from pathlib import Path

import pypdf
import pytest
from reportlab.lib import pagesizes

from joinery_templates.exact import Fraction
from joinery_templates.sheets.papers import find_paper, known_papers

KNOWN = {paper.name: paper for paper in known_papers()}
MM_PER_INCH = Fraction("25.4")


# -- the standards -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # ISO 216, from memory.
        ("2A0", 1189, 1682),
        ("A0", 841, 1189),
        ("A1", 594, 841),
        ("A2", 420, 594),
        ("A3", 297, 420),
        ("A4", 210, 297),
        ("A5", 148, 210),
        ("A6", 105, 148),
        ("A7", 74, 105),
        ("B0", 1000, 1414),
        ("B1", 707, 1000),
        ("B2", 500, 707),
        ("B3", 353, 500),
        ("B4", 250, 353),
        ("B5", 176, 250),
        ("B6", 125, 176),
        ("B7", 88, 125),
        # ISO 217 and JIS P 0138, from memory.
        ("SRA3", 320, 450),
        ("JIS B4", 257, 364),
        ("JIS B5", 182, 257),
    ],
)
def test_metric_sheets_have_their_standard_size(name, width, height):
    paper = KNOWN[name]
    assert (paper.width, paper.height) == (width, height)


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # ANSI/ASME Y14.1, from memory; 1 in = 72 points.
        ("ANSI A", 612, 792),
        ("ANSI B", 792, 1224),
        ("ANSI C", 1224, 1584),
        ("ANSI D", 1584, 2448),
        ("ANSI E", 2448, 3168),
        ("ANSI F", 2016, 2880),
        # Architectural and office sizes, from memory.
        ("Arch A", 648, 864),
        ("Arch B", 864, 1296),
        ("Arch C", 1296, 1728),
        ("Arch D", 1728, 2592),
        ("Arch E", 2592, 3456),
        ("Arch E1", 2160, 3024),
        ("Arch E2", 1872, 2736),
        ("Arch E3", 1944, 2808),
        ("Letter", 612, 792),
        ("Legal", 612, 1008),
        ("Tabloid", 792, 1224),
        ("Executive", 522, 756),
        ("Statement", 396, 612),
        ("Super B", 936, 1368),
    ],
)
def test_sheets_in_inches_are_whole_points_exactly(name, width, height):
    paper = KNOWN[name]
    assert (paper.width_pt, paper.height_pt) == (width, height)
    assert paper.width == width * MM_PER_INCH / 72
    assert paper.height == height * MM_PER_INCH / 72


@pytest.mark.parametrize("series", ["A", "B"])
def test_each_iso_sheet_cut_across_gives_two_of_the_next(series):
    sheets = [KNOWN[f"{series}{number}"] for number in range(8)]
    for larger, smaller in itertools.pairwise(sheets):
        assert smaller.height == larger.width
        assert larger.height - 2 * smaller.width in {0, 1}


def test_iso_sheets_keep_their_shape_of_one_to_root_two():
    """Rounding down to whole millimetres moves the ratio by at most one in the width."""
    for name, paper in KNOWN.items():
        if re.fullmatch(r"2A0|[AB]\d", name):
            assert 2 * (paper.width - 1) ** 2 < paper.height**2 < 2 * (paper.width + 1) ** 2


def test_a0_is_a_square_metre_and_b0_a_metre_wide():
    assert abs(KNOWN["A0"].width * KNOWN["A0"].height - 1_000_000) < 1000
    assert KNOWN["B0"].width == 1000


def test_pages_are_whole_points_rounded_down():
    """A4 is 595.28 x 841.89 pt; a page larger than the printer's A4 may be shrunk."""
    a4 = find_paper("A4")
    assert (a4.width_pt, a4.height_pt) == (595, 841)
    for paper in known_papers():
        for points, mm in ((paper.width_pt, paper.width), (paper.height_pt, paper.height)):
            assert isinstance(points, int)
            assert points * MM_PER_INCH <= 72 * mm < (points + 1) * MM_PER_INCH


# -- other people's tables -----------------------------------------------------------


def test_sizes_agree_with_the_table_of_pypdf():
    """That table rounds points to the nearest whole, ours rounds down."""
    theirs = {
        name: size for name, size in vars(pypdf.PaperSize).items() if re.fullmatch(r"A[0-7]", name)
    }
    assert len(theirs) == 8
    for name, (width, height) in theirs.items():
        assert (width, height) == (
            round_points(KNOWN[name].width),
            round_points(KNOWN[name].height),
        )


def round_points(mm: Fraction) -> int:
    return round(mm * 72 / MM_PER_INCH)


def test_sizes_agree_with_the_table_of_reportlab():
    """All but its half letter, 5.5 x 8 in, where the sheet is half of 8.5 x 11: 5.5 x 8.5."""
    theirs = {name: getattr(pagesizes, name) for name in dir(pagesizes)}
    compared = 0
    for name, paper in KNOWN.items():
        size = theirs.get(name.upper())
        if isinstance(size, tuple):
            ours = (float(paper.width) * 72 / 25.4, float(paper.height) * 72 / 25.4)
            assert size == pytest.approx(ours, abs=1e-6)
            compared += 1
    assert compared == 19  # A0 to A7, B0 to B7, Letter, Legal, Tabloid
    half_letter = find_paper("Half letter")
    assert half_letter.height * 2 == 17 * MM_PER_INCH
    assert half_letter.height == KNOWN["Letter"].width


OUR_NAMES = {
    "csheet": "ANSI C",
    "dsheet": "ANSI D",
    "esheet": "ANSI E",
    "11x17": "Tabloid",
    **{f"arch{letter}": f"Arch {letter.upper()}" for letter in "abcde"},
}


def debian_sizes() -> list[str]:
    """Lines of `name width height unit` from Debian's libpaper, old form or new."""
    specs = Path("/etc/paperspecs")
    if specs.exists():
        text = specs.read_text(encoding="utf-8")
        lines = [line for line in text.splitlines() if line.count(",") >= 3]
        return [line.replace(",", " ") for line in lines if not line.startswith("#")]
    program = shutil.which("paperconf")
    if program is None:
        pytest.skip("Debian's libpaper is not installed")
    found = subprocess.run(
        [program, "-a", "-n", "-s", "-m"], capture_output=True, text=True, check=True
    )
    # Old form: "a4 210 mm 297 mm".
    return [
        re.sub(r"^(\S+) (\S+) mm (\S+) mm$", r"\1 \2 \3 mm", line)
        for line in found.stdout.splitlines()
    ]


def test_sizes_agree_with_debians_libpaper():
    compared = set()
    ours = {name.casefold(): paper for name, paper in KNOWN.items()}
    for line in debian_sizes():
        name, width, height, unit = line.split()[:4]
        key = OUR_NAMES.get(name.casefold(), name).casefold()
        if key in ours:
            mm = MM_PER_INCH if unit == "in" else 1
            assert sorted((Fraction(width) * mm, Fraction(height) * mm)) == [
                ours[key].width,
                ours[key].height,
            ], line
            compared.add(key)
    assert {"a4", "a0", "b5", "letter", "legal", "tabloid"} <= compared
