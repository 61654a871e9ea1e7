"""How people name paper, what is found, and what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction, as_float
from joinery_templates.lengths import Units
from joinery_templates.sheets.papers import Family, Paper, find_paper, known_papers

KNOWN = {paper.name: paper for paper in known_papers()}


def refusal(text, units=Units.MM):
    with pytest.raises(InputError) as caught:
        find_paper(text, units)
    (finding,) = caught.value.findings
    return finding


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


def test_every_listed_paper_is_found_by_its_name():
    for paper in known_papers():
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
    paper = find_paper(f"{as_float(one)} x {as_float(other)} mm")
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
