"""Words that fit, with letters that are all as wide as their capitals are high."""

import itertools
import textwrap
import unicodedata

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from joinery_templates.drawings.direction import isolated
from joinery_templates.drawings.figure import Align, Text
from joinery_templates.drawings.lettering import (
    ASCENT,
    DESCENT,
    LINE_PITCH,
    Paragraph,
    column,
    largest_cap,
    shortened,
    text_corners,
    wrapped,
)
from joinery_templates.exact import Fraction


class Square:
    """Lettering of squares; bold ones are twice as wide."""

    def width(self, words: str, cap: Fraction, bold: bool = False) -> Fraction:
        return len(words) * cap * (2 if bold else 1)


class Counting(Square):
    """The same, with a count of all letters that were ever measured."""

    def __init__(self) -> None:
        self.letters = 0

    def width(self, words: str, cap: Fraction, bold: bool = False) -> Fraction:
        self.letters += len(words)
        return super().width(words, cap, bold)


SQUARE = Square()
CAP = Fraction(2)
sentences = st.text(st.sampled_from("abc  "), max_size=60)


def test_words_are_broken_where_the_next_would_not_fit():
    # Room for five letters of 2 mm.
    assert wrapped("ab cd ef ghijk l", Fraction(10), CAP, SQUARE) == ("ab cd", "ef", "ghijk", "l")


def test_a_word_too_long_for_a_line_goes_on_in_the_next():
    assert wrapped("ab cdefghij k", Fraction(10), CAP, SQUARE) == ("ab", "cdefg", "hij k")


def test_a_figure_is_not_broken_because_another_word_is():
    lines = ("abcde", "fgh", "1 1/2", "k")
    assert wrapped("abcdefgh 1 1/2 k", Fraction(10), CAP, SQUARE) == lines


def test_the_largest_letters_are_taken_with_which_words_fit_unbroken():
    caps = (Fraction(5), Fraction(3), Fraction(2))
    # Bold: "abcd efgh" in 40 mm: at 5 mm each word fills a line, at 2 mm both fit on one.
    assert largest_cap("abcd efgh", Fraction(40), caps, SQUARE, lines=2) == 5
    assert largest_cap("abcd efgh", Fraction(40), caps, SQUARE, lines=1) == 2
    assert largest_cap("abcde fgh", Fraction(40), caps, SQUARE, lines=2) == 3
    assert largest_cap("abcdefghijkl", Fraction(40), caps, SQUARE, lines=2) == 2


def test_no_words_take_no_line():
    assert wrapped("  ", Fraction(10), CAP, SQUARE) == ()


def test_bold_words_take_more_room():
    assert wrapped("ab cd", Fraction(10), CAP, SQUARE, True) == ("ab", "cd")


@given(sentences, st.integers(1, 30))
@example("abcd abcd a b c d e f abcd abcd", 10)
def test_no_line_is_wider_than_the_room_and_no_letter_is_lost(words, letters):
    lines = wrapped(words, letters * CAP, CAP, SQUARE)
    assert all(len(line) <= letters for line in lines)
    assert "".join(lines).replace(" ", "") == "".join(words.split())
    if all(len(word) <= letters for word in words.split()):
        assert list(lines) == textwrap.wrap(" ".join(words.split()), letters)


LONG = {
    "one word": "W" * 4000,
    "words of a line each": "abcdefghi " * 400,
    "short words": "ab " * 1333,
    "words that belong together": "▲ " * 2000,
}


@pytest.mark.parametrize("words", LONG.values(), ids=LONG)
@pytest.mark.parametrize("letters", [1, 10, 100, 5000])
def test_what_is_measured_grows_as_the_text_does(words, letters):
    """Each letter a few times for a line of any length: at most 12 for each halving of a line."""
    lettering = Counting()
    lines = wrapped(words, letters * CAP, CAP, lettering)
    assert "".join("".join(lines).split()) == "".join(words.split())
    assert lettering.letters <= 12 * len(words) * min(letters, len(words)).bit_length() + 100
    lettering = Counting()
    shortened(words, letters * CAP, CAP, lettering)
    assert lettering.letters <= 4 * len(words) + 100


# e with a dot below and an acute accent: no sign of Unicode has both.
MARKED = st.lists(st.sampled_from(["a", "e\u0323\u0301", "\u05d1\u05b8", " "]), max_size=20).map(
    "".join
)


@settings(derandomize=True, deadline=None)
@given(MARKED, st.integers(1, 12))
def test_no_letter_is_cut_from_its_marks(words, letters):
    for line in wrapped(words, letters * CAP, CAP, SQUARE):
        assert not unicodedata.combining(line[0])
    short = shortened(words, letters * CAP, CAP, SQUARE)
    rest = words.removeprefix(short.removesuffix("…").rstrip()).lstrip()
    assert not rest or short == words or not unicodedata.combining(rest[0])


def test_letters_that_were_typed_in_parts_stay_whole():
    """Hangul: three signs make one (Unicode Standard, 3.12); each line has room for two."""
    lines = wrapped("\u1112\u1161\u11ab" * 3, 2 * CAP, CAP, SQUARE)
    assert lines == ("한한", "한")


def test_a_name_that_runs_leftwards_does_so_on_each_of_its_lines():
    name = isolated("אבגד הוזח")
    assert wrapped(f"to {name}, 5", Fraction(14), CAP, SQUARE) == (
        "to",
        "\u2067אבגד",
        "\u2067הוזח\u2069,",
        "5",
    )


def test_words_that_fit_exactly_are_left_alone():
    assert shortened("abcde", Fraction(10), CAP, SQUARE) == "abcde"


def test_words_that_do_not_fit_end_in_a_mark():
    assert shortened("abcdef", Fraction(10), CAP, SQUARE) == "abcd…"


def test_no_space_stands_before_the_mark():
    assert shortened("abc def", Fraction(10), CAP, SQUARE) == "abc…"


@given(st.text(st.sampled_from("abc "), max_size=40), st.integers(1, 30))
def test_shortened_words_fit_and_begin_alike(words, letters):
    short = shortened(words, letters * CAP, CAP, SQUARE)
    assert len(short) <= letters
    assert words.startswith(short.removesuffix("…"))


def test_a_column_is_as_high_as_its_lines_and_gaps():
    paragraphs = (Paragraph("ab cd ef", CAP, after=Fraction(3)), Paragraph("gh", Fraction(4)))
    figure = column(paragraphs, Fraction(10), SQUARE)
    assert [text.words for text in figure.texts] == ["ab cd", "ef", "gh"]
    assert figure.height == 2 * CAP * LINE_PITCH + 3 + 4 * LINE_PITCH
    tops = [text.at[1] + text.cap for text in figure.texts]
    assert tops == [
        figure.height,
        figure.height - CAP * LINE_PITCH,
        figure.height - 2 * CAP * LINE_PITCH - 3,
    ]


def test_lines_of_a_column_do_not_touch():
    figure = column((Paragraph("ab cd ef gh", CAP),), Fraction(10), SQUARE)
    boxes = [text_corners(text, SQUARE) for text in figure.texts]
    for (low, _), (_, high) in itertools.pairwise(boxes):
        assert high[1] < low[1]
    assert boxes[-1][0][1] >= 0


@pytest.mark.parametrize(("align", "left"), [(Align.LEFT, 0), (Align.CENTRE, 8), (Align.RIGHT, 16)])
def test_words_stand_at_the_left_in_the_middle_or_at_the_right(align, left):
    (text,) = column((Paragraph("ab", CAP, align=align),), Fraction(20), SQUARE).texts
    low, high = text_corners(text, SQUARE)
    assert (low[0], high[0]) == (left, left + 4)


@pytest.mark.parametrize(
    ("turn", "corners"),
    [
        (0, ((10, 20 - 2 * DESCENT), (16, 20 + 2 * ASCENT))),
        (90, ((10 + 2 * DESCENT, 20), (10 - 2 * ASCENT, 26))),
        (180, ((10, 20 + 2 * DESCENT), (4, 20 - 2 * ASCENT))),
        (270, ((10 - 2 * DESCENT, 20), (10 + 2 * ASCENT, 14))),
    ],
)
def test_the_corners_of_three_letters_turned(turn, corners):
    """Three letters of 2 mm run 6 mm from (10, 20): right, up, left or down."""
    text = Text("abc", (Fraction(10), Fraction(20)), CAP, Align.LEFT, turn)
    assert text_corners(text, SQUARE) == corners
