"""Paper sizes against their standards and three other people's tables."""

import itertools
import re
import shutil
import subprocess
from fractions import Fraction
from pathlib import Path

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.lib import pagesizes

from joinery_templates.errors import InputError
from joinery_templates.lengths import Units
from joinery_templates.sheets.papers import Family, Paper, find_paper, known_papers

KNOWN = {paper.name: paper for paper in known_papers()}
MM_PER_INCH = Fraction("25.4")


def refusal(text, units=Units.MM):
    with pytest.raises(InputError) as caught:
        find_paper(text, units)
    (finding,) = caught.value.findings
    return finding


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
        return [line.replace(",", " ") for line in text.splitlines() if not line.startswith("#")]
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


# -- what people write ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("A4", "A4"),
        (" a 4 ", "A4"),
        ("Ａ４", "A4"),
        ("DIN A4", "A4"),
        ("iso a4", "A4"),
        ("letter", "Letter"),
        ("US letter", "Letter"),
        ("ansi-c", "ANSI C"),
        ("ArchD", "Arch D"),
        ("Half letter", "Statement"),
        ("ledger", "Tabloid"),
        ("11 x 17", "Tabloid"),
        ("11×17", "Tabloid"),
        ("A3+", "Super B"),
        ("b4 jis", "JIS B4"),
    ],
)
def test_names_are_found_in_any_usual_spelling(text, name):
    assert find_paper(text) == KNOWN[name]


@pytest.mark.parametrize("paper", known_papers(), ids=lambda paper: paper.name)
def test_every_listed_paper_is_found_by_its_name(paper):
    assert find_paper(paper.name) == paper
    assert find_paper(paper.name.upper().replace(" ", "")) == paper


@pytest.mark.parametrize(
    ("text", "name", "width", "height"),
    [
        ("300 x 420 mm", "300 x 420 mm", "300", "420"),
        ("420x300", "300 x 420 mm", "300", "420"),
        ("300 mm × 42 cm", "300 x 420 mm", "300", "420"),
        ("300 mm x 420", "300 x 420 mm", "300", "420"),
        ("300 by 420 mm", "300 x 420 mm", "300", "420"),
        ("12 x 18 in", "12 x 18 in", "304.8", "457.2"),
        ("18 x 12 in.", "12 x 18 in", "304.8", "457.2"),
        ("8 1/2 x 11 in", "8 1/2 x 11 in", "215.9", "279.4"),
        ('8½" x 11"', "8 1/2 x 11 in", "215.9", "279.4"),
        ("8½ x 11″", "8 1/2 x 11 in", "215.9", "279.4"),
        ("1' x 1' 6\"", "12 x 18 in", "304.8", "457.2"),
    ],
)
def test_sizes_of_ones_own_are_turned_to_portrait(text, name, width, height):
    assert find_paper(text) == Paper(name, Fraction(width), Fraction(height), Family.CUSTOM)


def test_a_size_without_units_is_in_the_units_of_the_file():
    assert find_paper("12 x 18", Units.INCH) == find_paper("12 x 18 in")
    assert find_paper("300 x 420 mm", Units.INCH) == find_paper("300 x 420")


SIDES = st.integers(10_500, 508_000).map(lambda hundredths: Fraction(hundredths, 100))


@given(SIDES, SIDES)
def test_a_size_of_ones_own_is_portrait_and_its_name_leads_back_to_it(one, other):
    paper = find_paper(f"{float(one)} x {float(other)} mm")
    assert [paper.width, paper.height] == sorted([one, other])
    assert find_paper(paper.name, Units.INCH) == paper


@pytest.mark.parametrize(
    ("text", "width"),
    [
        ("roll 610", "610"),
        ("Roll 914 mm", "914"),
        ("roll-610", "610"),
        ("roll 24 in", "609.6"),
        ('24" roll', "609.6"),
        ("roll 80", "80"),
    ],
)
def test_a_roll_has_an_open_length_until_one_is_chosen(text, width):
    roll = find_paper(text)
    assert roll.is_open_roll
    assert (roll.width, roll.height, roll.family) == (Fraction(width), 0, Family.ROLL)
    assert find_paper(roll.name) == roll
    piece = roll.with_length(Fraction(2000))
    assert not piece.is_open_roll
    assert (piece.width, piece.height, piece.family) == (roll.width, 2000, Family.ROLL)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("roll 610 x 2000 mm", "roll 610 mm x 2000 mm"),
        ("roll 610 x 2 m", "roll 610 mm x 2000 mm"),
        ("roll 24 x 60 in", "roll 24 in x 60 in"),
        ("roll 24 in x 2000 mm", "roll 609.6 mm x 2000 mm"),
    ],
)
def test_a_piece_of_a_roll_is_named_so_that_it_is_found_again(text, name):
    piece = find_paper(text)
    assert piece.name == name
    assert find_paper(name) == piece


def test_the_name_of_a_piece_may_mix_units():
    piece = find_paper("roll 24 in").with_length(Fraction(2000))
    assert piece.name == "roll 24 in x 2000 mm"
    again = find_paper(piece.name)
    assert (again.width, again.height) == (piece.width, piece.height)


def test_a_roll_with_a_length_is_a_piece_of_that_roll():
    assert find_paper("roll 610 x 2000 mm") == find_paper("roll 610").with_length(Fraction(2000))


def test_a_short_piece_keeps_its_width_across_the_roll():
    piece = find_paper("roll 914 x 300 mm")
    assert (piece.width, piece.height) == (914, 300)


def test_only_an_open_roll_is_given_a_length():
    for paper in (find_paper("A4"), find_paper("roll 610 x 2000 mm")):
        with pytest.raises(ValueError, match="not a roll of open length"):
            paper.with_length(Fraction(1000))


def test_a_landscape_sheet_cannot_be_made():
    with pytest.raises(ValueError, match="portrait"):
        Paper("sideways", Fraction(420), Fraction(297), Family.CUSTOM)


# -- refusals ------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    ["A8", "a10", "B8", "73.99 x 200", "74 x 104.99", "12 x 18", "roll 24", "-300 x 420", "0 x 0"],
)
def test_paper_smaller_than_a7_is_refused(text):
    assert refusal(text).code == "paper-too-small"


@pytest.mark.parametrize("length", [-5, 0, 10])
def test_a_roll_is_not_cut_to_nothing(length):
    with pytest.raises(InputError, match="too small"):
        find_paper("roll 610").with_length(Fraction(length))


@pytest.mark.parametrize("text", ["5080.01 x 300", "201 x 36 in", "roll 5081", "roll 610 x 6 m"])
def test_paper_longer_than_viewers_take_is_refused(text):
    assert refusal(text).code == "paper-too-large"


def test_the_limits_themselves_are_accepted():
    assert find_paper("74 x 105").width == 74
    largest = find_paper("200 x 200 in")
    assert (largest.width_pt, largest.height_pt) == (14_400, 14_400)
    with pytest.raises(InputError, match="5080 mm"):
        find_paper("roll 610").with_length(Fraction(5081))


@pytest.mark.parametrize(
    ("text", "guess"),
    [("leter", "Letter"), ("Ach D", "Arch D"), ("tabliod", "Tabloid"), ("ANSI G", "ANSI")],
)
def test_an_unknown_name_is_answered_with_the_nearest_one(text, guess):
    finding = refusal(text)
    assert finding.code == "paper-unknown"
    assert f'Did you mean "{guess}' in finding.remedy


@pytest.mark.parametrize(
    "text", ["", "x", "210", "210 x", "1 x 2 x 3", "roll", "nan x 3", "wallpaper", "A4" * 1000]
)
def test_nonsense_is_refused_without_a_wild_guess(text):
    finding = refusal(text)
    assert finding.code == "paper-unknown"
    assert "Did you mean" not in finding.remedy
    assert len(finding.told()) < 300


@given(st.text(alphabet="a4xroll ×0123456789./\"'in-½m", max_size=70), st.sampled_from(Units))
def test_any_text_is_either_a_paper_or_a_kind_refusal(text, units):
    try:
        paper = find_paper(text, units)
    except InputError:
        return  # any other error fails the test
    assert 74 <= paper.width <= 5080
    assert paper.height == 0 or 74 <= paper.height <= 5080
