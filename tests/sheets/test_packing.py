"""Packing: rows in reading order, groups together, nothing on anything else."""

from fractions import Fraction
from itertools import combinations, pairwise

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from joinery_templates.sheets.packing import Spot, pack
from tests.strategies import cases

F = Fraction
PAGE = (F(100), F(100))
sizes = st.tuples(*[st.fractions(min_value=1, max_value=100, max_denominator=8)] * 2)
jobs = st.lists(st.lists(sizes, min_size=1, max_size=8), max_size=8)
gaps = st.sampled_from([F(0), F(6), F(7, 3), F(200)])


def spots(groups, gap=0, area=PAGE):
    """Where every piece lies, as page, x and y."""
    lengths = [[(F(across), F(up)) for across, up in group] for group in groups]
    laid = pack(lengths, area, F(gap))
    return [[(spot.page, spot.x, spot.y) for spot in group] for group in laid]


def faults(groups, laid, gap):
    """What is wrong with a layout on pages of 100 x 100, by geometry alone."""
    page = box(0, 0, 100, 100).buffer(1e-9)
    lying = [
        (spot.page, box(*map(float, (spot.x, spot.y, spot.x + across, spot.y + up))))
        for group, found in zip(groups, laid, strict=True)
        for (across, up), spot in zip(group, found, strict=True)
    ]
    told = [f"{one} leaves the page" for one, (_, it) in enumerate(lying) if not it.within(page)]
    for (one, (a_page, a)), (two, (b_page, b)) in combinations(enumerate(lying), 2):
        if a_page == b_page and (a.intersection(b).area > 1e-9 or a.distance(b) < gap - 1e-9):
            told.append(f"{one} and {two} are too close")
    return told


def test_the_checker_of_these_tests_sees_a_bad_layout():
    groups = [[(F(40), F(20))] * 2]
    for second, fault in (
        (Spot(0, F(44), F(0)), "0 and 1 are too close"),
        (Spot(0, F(39), F(5)), "0 and 1 are too close"),
        (Spot(0, F(0), F(81)), "1 leaves the page"),
    ):
        assert faults(groups, [(Spot(0, F(0), F(0)), second)], 5) == [fault]
    assert faults(groups, [(Spot(0, F(0), F(0)), Spot(1, F(1), F(0)))], 5) == []


@given(jobs, gaps)
@cases(25)
def test_pieces_lie_apart_in_reading_order_and_groups_begin_where_all_of_them_fits(groups, gap):
    laid = pack(groups, PAGE, gap)
    assert faults(groups, laid, float(gap)) == []
    for group in laid:
        assert all((a.page, a.y, a.x) < (b.page, b.y, b.x) for a, b in pairwise(group)), (
            "as words are read"
        )
    pages = [[spot.page for spot in group] for group in laid]
    for before, after in pairwise(pages):
        # On the same page only whole, else on the next one.
        assert after[0] == before[-1] + 1 or set(after) == {before[-1]}
    held = [page for group in pages for page in group]
    assert sorted(set(held)) == list(range(max(held, default=-1) + 1)), "no page is empty"


def test_pieces_stand_beside_each_other_then_in_the_next_row():
    """60 + 30 with a gap of 10 fill 100; the row is as deep as its deepest piece."""
    assert spots([[(60, 20), (30, 35), (10, 10), (100, 5)]], 10) == [
        [(0, 0, 0), (0, 70, 0), (0, 0, 45), (0, 0, 65)]
    ]
    hair = F(1, 10**12)
    assert spots([[(60, 20), (30 + hair, 35)]], 10) == [[(0, 0, 0), (0, 0, 30)]]


def test_what_has_no_room_below_begins_the_next_page():
    """Also where it would have had room beside what stands above, had it been less deep."""
    assert spots([[(100, 60), (100, 40), (100, 1)]]) == [[(0, 0, 0), (0, 0, 60), (1, 0, 0)]]
    assert spots([[(100, 60), (40, 30), (40, 41)]]) == [[(0, 0, 0), (0, 0, 60), (1, 0, 0)]]


def test_quarters_with_the_gap_fill_a_page_exactly():
    """Four of 98 x 148 and gaps of 4 fill 200 x 300; a hair more and each has a row."""
    area = (F(200), F(300))
    assert spots([[(98, 148)] * 4], 4, area) == [
        [(0, 0, 0), (0, 102, 0), (0, 0, 152), (0, 102, 152)]
    ]
    wide = [(98 + F(1, 10**12), 148)] * 3
    assert spots([wide], 4, area) == [[(0, 0, 0), (0, 0, 152), (1, 0, 0)]]


def test_a_group_shares_a_page_only_where_all_of_it_fits():
    """50 are left below the first: 20 + 30 fit, 20 + 31 do not, though the 20 alone would."""
    assert spots([[(90, 50)], [(90, 20), (90, 30)]])[1] == [(0, 0, 50), (0, 0, 70)]
    assert spots([[(90, 50)], [(90, 20), (90, 31)]])[1] == [(1, 0, 0), (1, 0, 20)]


def test_a_group_larger_than_a_page_begins_its_own_and_the_next_may_share_its_last():
    laid = spots([[(90, 10)], [(90, 90), (90, 20)], [(90, 80)]])
    assert laid == [[(0, 0, 0)], [(1, 0, 0), (2, 0, 0)], [(2, 0, 20)]]


def test_a_group_begins_a_row_of_its_own():
    """So that scissors part two corners by one cut across the page."""
    assert spots([[(30, 30)], [(30, 30)]], 5) == [[(0, 0, 0)], [(0, 0, 35)]]


def test_a_gap_as_wide_as_the_page_leaves_every_piece_alone():
    assert spots([[(1, 1), (1, 1)], [(1, 1)]], 200) == [[(0, 0, 0), (1, 0, 0)], [(2, 0, 0)]]
