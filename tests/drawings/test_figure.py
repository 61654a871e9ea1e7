"""Strokes told apart, and rows in columns."""

from itertools import groupby

from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.drawings.figure import Columns, Figure, Role, Section, Text, distinct, line
from joinery_templates.exact import Fraction
from tests.strategies import PROPERTY

ONE = Fraction(1)


def test_each_stroke_is_drawn_once_at_its_first_place():
    fine = Fraction(1, 10**30)  # more digits than a machine's whole number holds
    one = line(Role.SAW, 0, 1, Fraction(1, 3), -2)
    others = (
        line(Role.HATCH, 0, 1, Fraction(1, 3), -2),
        line(Role.SAW, Fraction(1, 3), -2, 0, 1),
        line(Role.SAW, 0, 1 + fine, Fraction(1, 3), -2),
    )
    again = line(Role.SAW, 0, 1, Fraction(2, 6), -2)
    assert distinct((one, *others, again)) == (one, *others)


HEADINGS = ("Lines", "Sheets", "Taped together")


def told(words: str, high: int) -> Figure:
    return Figure(
        Fraction(50), Fraction(high), texts=(Text(words, (Fraction(0), Fraction(0)), ONE),)
    )


def in_columns(sections: list[list[int]], count: int, again: int = 8) -> Columns:
    """Rows so high in each section, below headings 8 mm high, or so high where rows go on."""
    return Columns(
        tuple(
            Section(
                tuple(told(f"{name} {number}", high) for number, high in enumerate(rows)),
                told(name, 8),
                told(f"{name}, continued", again),
            )
            for name, rows in zip(HEADINGS, sections, strict=False)
        ),
        Fraction(4),
        count,
    )


SECTIONS = st.lists(st.lists(st.integers(4, 20), max_size=12), min_size=1, max_size=3)


@PROPERTY
@given(SECTIONS)
def test_two_columns_with_room_are_as_low_as_any_way_to_part_the_rows(sections):
    """All ways are tried here: between sections, or with two rows at least on each side."""

    def high(parts: list[list[int]]) -> int:
        return sum(8 + sum(rows) for rows in parts if rows)

    ways = [
        max(high([*sections[:n], rows[:at]]), high([rows[at:], *sections[n + 1 :]]))
        for n, rows in enumerate(sections)
        for at in (0, *range(2, len(rows) - 1), len(rows))
    ]
    page, left = in_columns(sections, 2).down_to(Fraction(1000))
    assert left.rows == 0
    assert (page.height if page else 0) == min(ways)


@PROPERTY
@given(
    SECTIONS,
    st.integers(70, 150),
    st.sampled_from((1, 2)),
    st.sampled_from((8, 14)),
)
def test_every_column_begins_with_a_heading_and_no_row_stands_alone(sections, depth, count, again):
    """Down each column in turn: all rows once and in order, each under its own heading.

    One at the top of the first column is the second's too: not said again, its rows level.
    """

    def top(row: Text) -> Fraction:
        name, _, number = row.words.rpartition(" ")
        return row.at[1] + sections[HEADINGS.index(name)][int(number)]

    left = in_columns(sections, count, again)
    columns = []
    while left.rows:
        page, left = left.down_to(Fraction(depth))
        assert page
        assert page.height <= depth
        by_left = sorted({text.at[0] for text in page.texts})
        assert len(by_left) <= count
        found = [
            [t for t in sorted(page.texts, key=lambda t: -t.at[1]) if t.at[0] == x] for x in by_left
        ]
        said_of = [[text.words for text in column] for column in found]
        if len(found) == 2:
            (heading, row, *_), (first, *_) = found
            goes_on = heading.words.partition(",")[0] + ", continued"
            assert first.words != goes_on
            if first.words not in HEADINGS and not first.words.endswith("continued"):
                assert top(first) == top(row)
                said_of[1].insert(0, goes_on)
        columns += said_of
    said = []
    for column in columns:
        parts = [
            [*part]
            for _, part in groupby(
                column, key=lambda words: words.split(",")[0].rstrip(" 0123456789")
            )
        ]
        for heading, *rows in parts:
            name, _, more = heading.partition(",")
            assert rows
            assert all(row.startswith(f"{name} ") for row in rows)
            assert bool(more) == any(row.startswith(f"{name} ") for row in said)
            whole = sections[HEADINGS.index(name)]
            assert len(rows) > 1 or len(whole) == 1
            said += rows
    assert said == [
        f"{name} {number}"
        for name, rows in zip(HEADINGS, sections, strict=False)
        for number in range(len(rows))
    ]


def test_each_point_is_moved_by_as_much_also_one_that_lines_share() -> None:
    x, y = Fraction(1), Fraction(2)
    strokes = line(Role.SAW, x, y, x, 5), line(Role.SAW, x, y, 4, y)
    texts = (Text("here", (x, y), Fraction(3)),)
    moved = Figure(Fraction(9), Fraction(9), strokes, texts).moved(Fraction(10), Fraction(-1, 2))
    corner = 11, Fraction(3, 2)
    assert [(one.start, one.end) for one in moved.strokes] == [
        (corner, (11, Fraction(9, 2))),
        (corner, (14, Fraction(3, 2))),
    ]
    assert moved.texts[0].at == corner
