"""Packing: right of or below what comes before, groups together, nothing on anything else."""

from itertools import combinations, pairwise

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from joinery_templates.exact import Fraction
from joinery_templates.sheets.packing import Piece, Spot, pack
from tests.strategies import cases

F = Fraction
PAGE = (F(100), F(100))
sides = st.fractions(min_value=1, max_value=100, max_denominator=8)
pieces = st.builds(Piece, sides, sides, st.booleans())
jobs = st.lists(st.lists(pieces, min_size=1, max_size=8), max_size=8)
gaps = st.sampled_from([F(0), F(6), F(7, 3), F(200)])


def spots(groups, gap=0, area=PAGE, used=0, may_turn=False):
    """Where every piece lies, as page, x and y, and "turned" where it is."""
    lengths = [[Piece(F(across), F(up), may_turn) for across, up in group] for group in groups]
    laid = pack(lengths, area, F(gap), F(used))
    return [
        [(spot.page, spot.x, spot.y, *(["turned"] if spot.turned else [])) for spot in group]
        for group in laid
    ]


def faults(groups, laid, gap):
    """What is wrong with a layout on pages of 100 x 100, by geometry alone."""
    page = box(0, 0, 100, 100).buffer(1e-9)
    lying = [
        (spot.page, box(*map(float, (spot.x, spot.y, spot.x + across, spot.y + up))))
        for group, found in zip(groups, laid, strict=True)
        for piece, spot in zip(group, found, strict=True)
        for across, up in [(piece.width, piece.height)[:: -1 if spot.turned else 1]]
    ]
    told = [f"{one} leaves the page" for one, (_, it) in enumerate(lying) if not it.within(page)]
    for (one, (a_page, a)), (two, (b_page, b)) in combinations(enumerate(lying), 2):
        if a_page == b_page and (a.intersection(b).area > 1e-9 or a.distance(b) < gap - 1e-9):
            told.append(f"{one} and {two} are too close")
    return told


def test_the_checker_of_these_tests_sees_a_bad_layout():
    groups = [[Piece(F(40), F(20))] * 2]
    for second, fault in (
        (Spot(0, F(44), F(0)), "0 and 1 are too close"),
        (Spot(0, F(39), F(5)), "0 and 1 are too close"),
        (Spot(0, F(0), F(81)), "1 leaves the page"),
    ):
        assert faults(groups, [(Spot(0, F(0), F(0)), second)], 5) == [fault]
    assert faults(groups, [(Spot(0, F(0), F(0)), Spot(1, F(1), F(0)))], 5) == []


@given(jobs, gaps, st.sampled_from([F(0), F(40)]))
@cases(12)
def test_pieces_lie_apart_right_of_or_below_all_that_come_before(groups, gap, used):
    laid = pack(groups, PAGE, gap, used)
    above = [[Piece(PAGE[0], used)]] if used else []
    assert faults([*above, *groups], [*([Spot(0, F(0), F(0))] for _ in above), *laid], gap) == []
    read = [
        (piece, spot)
        for one in zip(groups, laid, strict=True)
        for piece, spot in zip(*one, strict=True)
    ]
    for (before, one), (_, other) in combinations(read, 2):
        across, up = (before.width, before.height)[:: -1 if one.turned else 1]
        assert other.page > one.page or (
            other.page == one.page and (other.x >= one.x + across or other.y >= one.y + up)
        )
    for piece, spot in read:
        assert piece.may_turn or not spot.turned
    pages = [[spot.page for spot in group] for group in laid]
    assert all(after[0] in (before[-1], before[-1] + 1) for before, after in pairwise(pages))
    held = {page for group in pages for page in group} | {0}
    assert held == set(range(max(held) + 1)), "no page is empty"


def test_pieces_stand_beside_each_other_then_in_the_next_row():
    """60 + 30 with a gap of 10 fill 100; the row is as deep as its deepest piece."""
    assert spots([[(60, 20), (30, 35), (10, 10), (100, 5)]], 10) == [
        [(0, 0, 0), (0, 70, 0), (0, 0, 45), (0, 0, 65)]
    ]
    hair = F(1, 10**12)
    assert spots([[(60, 20), (30 + hair, 35)]], 10) == [[(0, 0, 0), (0, 0, 30)]]


def test_what_has_no_room_below_begins_the_next_page():
    assert spots([[(100, 60), (100, 40), (100, 1)]]) == [[(0, 0, 0), (0, 0, 60), (1, 0, 0)]]
    assert spots([[(100, 60), (60, 30), (41, 41)]]) == [[(0, 0, 0), (0, 0, 60), (1, 0, 0)]]


def test_a_piece_goes_below_another_that_is_less_deep_than_its_row():
    assert spots([[(60, 50), (30, 10), (30, 10), (50, 5)]], 10) == [
        [(0, 0, 0), (0, 70, 0), (0, 70, 20), (0, 0, 60)]
    ]


def test_columns_are_taken_where_they_save_a_page():
    """In rows the last has 50 left below the others; in columns all of the height beside them."""
    assert spots([[(50, 50), (50, 50), (50, 10), (50, 90)]]) == [
        [(0, 0, 0), (0, 0, 50), (0, 50, 0), (0, 50, 10)]
    ]


def test_pieces_that_may_are_turned_where_that_saves_a_page():
    """100 x 120 hold two of 61 x 60 one below the other; one of 100 x 61 and two of 50 x 40."""
    area = (F(100), F(120))
    assert spots([[(60, 61), (60, 61)]], 0, area) == [[(0, 0, 0), (1, 0, 0)]]
    assert spots([[(60, 61), (60, 61)]], 0, area, may_turn=True) == [
        [(0, 0, 0, "turned"), (0, 0, 60, "turned")]
    ]
    assert spots([[(100, 61), (40, 50), (40, 50)]], 0, (F(100), F(101)), may_turn=True) == [
        [(0, 0, 0), (0, 0, 61, "turned"), (0, 50, 61, "turned")]
    ]
    assert spots([[(60, 50), (60, 50)]], may_turn=True) == [[(0, 0, 0), (0, 0, 50)]]


def test_pieces_are_turned_alike_where_that_costs_no_page():
    """120 lie in 100 x 150 only turned; 100 x 60 and two of 40 x 50 fill a page only if mixed."""
    assert spots([[(120, 40), (50, 30)]], 0, (F(100), F(150)), may_turn=True) == [
        [(0, 0, 0, "turned"), (0, 40, 0, "turned")]
    ]
    one = [(100, 60), (40, 50), (40, 50)]
    assert spots([one], may_turn=True) == [[(0, 0, 0, "turned"), (0, 60, 0), (0, 60, 50)]]
    assert spots([one, [(100, 50)]], may_turn=True) == [
        [(0, 0, 0), (1, 0, 0), (1, 40, 0)],
        [(1, 0, 50)],
    ]


def test_quarters_with_the_gap_fill_a_page_exactly():
    """Four of 98 x 148 and gaps of 4 fill 200 x 300; a hair more and each has a row."""
    area = (F(200), F(300))
    assert spots([[(98, 148)] * 4], 4, area) == [
        [(0, 0, 0), (0, 102, 0), (0, 0, 152), (0, 102, 152)]
    ]
    wide = [(98 + F(1, 10**12), 148)] * 3
    assert spots([wide], 4, area) == [[(0, 0, 0), (0, 0, 152), (1, 0, 0)]]


def test_a_group_begins_on_what_is_left_of_a_page_where_that_saves_one():
    """50 are left: 20 + 30 fit; 20 + 31 stay together; 20 + 90 are parted in any case."""
    assert spots([[(90, 50)], [(90, 20), (90, 30)]])[1] == [(0, 0, 50), (0, 0, 70)]
    assert spots([[(90, 50)], [(90, 20), (90, 31)]])[1] == [(1, 0, 0), (1, 0, 20)]
    assert spots([[(90, 50)], [(90, 20), (90, 90)]])[1] == [(0, 0, 50), (1, 0, 0)]
    assert spots([[(90, 10)], [(90, 91), (90, 20)], [(90, 80)]])[1:] == [
        [(1, 0, 0), (2, 0, 0)],
        [(2, 0, 20)],
    ]


def test_a_page_may_be_used_already():
    assert spots([[(90, 50)]], 5, used=45) == [[(0, 0, 50)]]
    assert spots([[(90, 50)]], 5, used=46) == [[(1, 0, 0)]]


def test_a_group_begins_a_row_of_its_own():
    """So that scissors part two corners by one cut across the page."""
    assert spots([[(30, 30)], [(30, 30)]], 5) == [[(0, 0, 0)], [(0, 0, 35)]]


def test_a_gap_as_wide_as_the_page_leaves_every_piece_alone():
    assert spots([[(1, 1), (1, 1)], [(1, 1)]], 200) == [[(0, 0, 0), (1, 0, 0)], [(2, 0, 0)]]
