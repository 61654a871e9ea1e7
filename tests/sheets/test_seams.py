"""Seams: fewest tiles, clear of layout lines, even, leftmost; and all of it exactly."""

import itertools
import random
import time
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.sheets.seams import ENOUGH, choose_seams, seam_clearance, tile_spans

F = Fraction


def test_a_pattern_that_fits_the_page_has_no_seam():
    assert choose_seams(F(180), F(180), F(20), []) == ()


def test_without_lines_the_tiles_are_equal():
    """300 long, overlap 20: two tiles of 160, so the seam is at 150; thirds stay exact."""
    assert choose_seams(F(300), F(200), F(20), []) == (150,)
    # Three tiles: (500 + 2 * 20) / 3 = 180 each, seams at 180 - 10 and 170 + 160.
    assert choose_seams(F(500), F(200), F(20), []) == (170, 330)
    # (500 + 2 * 10) / 3 = 520/3 each: seams at 520/3 - 5 and 500 - 520/3 + 5.
    assert choose_seams(F(500), F(200), F(10), []) == (F(505, 3), F(995, 3))


@pytest.mark.parametrize(
    ("avoid", "seam"),
    [
        ([(150, 150)], 140),  # 140 and 160 are both 10 away and equally even: the left one
        ([(145, 155)], 135),
        ([(148, 200)], 138),
        ([(100, 152)], 162),
        ([(149, 149)], 159),  # 159 is 9 from the middle, 139 is 11
        ([(140, 160)], 130),  # exactly 10 away counts in full
        ([(0, F(295, 2)), (149, 300)], F(593, 4)),  # midway; 148 would be 1/2 clear, not 3/4
        ([(0, 300)], 150),  # nowhere clear: then even
        ([(-50, 400)], 150),
        ([(0, 190)], 150),  # the page does not reach further than the line
        ([(0, 188), (200, 200)], 190),
        ([(p, p) for p in (112, 129, 141, 160, 172, 188)], F(301, 2)),
    ],
)
def test_a_seam_keeps_clear_of_lines_then_even_then_left(avoid, seam):
    """300 long in two tiles of at most 200: the seam can be anywhere from 110 to 190."""
    lines = [(F(low), F(high)) for low, high in avoid]
    assert choose_seams(F(300), F(200), F(20), lines) == (seam,)


@pytest.mark.parametrize(
    ("length", "room", "avoid", "seams"),
    [
        # 10 clear: first seam at most 6 or at 26, second 29 to 33.
        # Tiles 6, 24, 25 and 26, 7, 22 both differ by 19.
        (55, 26, [(16, 16), (43, 43), (54, 55)], (6, 30)),
        # 2 clear at most: 52 or more for the second would need the first at 24 or beyond.
        # Tiles 22, 22, 28 and 24, 27, 21 both differ by 6.
        (72, 28, [(26, 29), (46, 49), (65, 71)], (22, 44)),
    ],
)
def test_of_equally_even_tiles_the_leftmost_are_taken(length, room, avoid, seams):
    lines = [(F(low), F(high)) for low, high in avoid]
    assert choose_seams(F(length), F(room), F(0), lines) == seams


def test_full_pages_leave_no_choice_even_on_a_line():
    """Three rooms of 500/3 less two overlaps of 7 just hold the length."""
    room, overlap = F(500, 3), F(7)
    seams = choose_seams(3 * room - 2 * overlap, room, overlap, [(F(163), F(164))])
    assert seams == (room - F(7, 2), 2 * room - F(21, 2))


def test_clearance_is_measured_to_the_nearest_line_up_to_ten():
    lines = [(F(10), F(12)), (F(20), F(20))]
    clearances = [seam_clearance(F(seam), lines) for seam in (0, 4, 10, 11, 12, 15, 17, 50)]
    assert clearances == [10, 6, 0, 0, 0, 3, 3, 10]
    assert seam_clearance(F(5), []) == ENOUGH == 10


def _lengths(spans):
    return [end - start for start, end in spans]


def _tile(length, half, left, right):
    return min(length, right + half) - max(F(0), left - half)


def _ways(length, room, half, places, count, seams=()):
    """Every choice of so many places that leaves no tile longer than the room."""
    last = seams[-1] if seams else F(0)
    if not count:
        if _tile(length, half, last, length) <= room:
            yield seams
        return
    for place in places:
        if place > last and _tile(length, half, last, place) <= room:
            yield from _ways(length, room, half, places, count - 1, (*seams, place))


def _brute(length, room, overlap, avoid):
    """The seams by trying every set of candidates; written from the wish, not from the code."""
    half = overlap / 2
    joined = []
    for low, high in sorted(avoid):
        if joined and low <= joined[-1][1]:
            joined[-1][1] = max(joined[-1][1], high)
        else:
            joined.append([low, high])
    middles = {(one[1] + two[0]) / 2 for one, two in itertools.pairwise(joined)}
    for tiles in itertools.count(1):
        tile = (length + (tiles - 1) * overlap) / tiles
        even = {seam * (tile - overlap) + half for seam in range(1, tiles)}
        places = sorted(p for p in {*map(F, range(int(length) + 1))} | middles | even if p > 0)
        found = []
        for seams in _ways(length, room, half, [p for p in places if p < length], tiles - 1):
            marks = [F(0), *seams, length]
            sizes = [_tile(length, half, *pair) for pair in itertools.pairwise(marks)]
            near = [max(low - seam, seam - high, F(0)) for seam in seams for low, high in avoid]
            found.append((-min([F(10), *near]), max(sizes) - min(sizes), seams))
        if found:
            return min(found)
    raise AssertionError


def _case(rng, parts):
    tiles = rng.choice([2, 2, 3, 3, 4])
    overlap = F(rng.randrange(0, 4 * parts), parts)
    step = F(rng.randrange(5 * parts, (40 // tiles) * parts), parts)
    length = overlap + step * tiles - F(rng.randrange(0, 3 * parts), parts)
    avoid = []
    for _ in range(rng.randrange(5)):
        low = F(rng.randrange(int(length * parts)), parts)
        avoid.append((low, low + rng.choice([0, 0, F(1, parts), 2, 5])))
    return length, step + overlap, overlap, avoid


@pytest.mark.parametrize("parts", [1, 2, 64])
def test_three_hundred_small_patterns_agree_with_trying_everything(parts):
    """Same number of tiles, same clearance, same evenness, same seams."""
    rng = random.Random(parts)
    counts = set()
    for _ in range(100):
        length, room, overlap, avoid = _case(rng, parts)
        seams = choose_seams(length, room, overlap, avoid)
        minus_clear, spread, expected = _brute(length, room, overlap, avoid)
        sizes = _lengths(tile_spans(length, overlap, seams))
        assert len(seams) == len(expected)
        assert min((seam_clearance(s, avoid) for s in seams), default=F(10)) == -minus_clear
        assert max(sizes) - min(sizes) == spread
        assert seams == expected
        counts.add(len(seams))
    assert counts >= {1, 2, 3}


def test_lines_of_odd_fractions_cost_at_most_a_millionth():
    """Sevenths are not among the search's parts of a mm: the lines are taken a little wider."""
    rng = random.Random(7)
    for _ in range(40):
        length, room, overlap, avoid = _case(rng, 7)
        seams = choose_seams(length, room, overlap, avoid)
        minus_clear, _, expected = _brute(length, room, overlap, avoid)
        clear = min((seam_clearance(s, avoid) for s in seams), default=F(10))
        assert len(seams) == len(expected)
        assert -minus_clear - F(1, 10**6) <= clear <= -minus_clear


lengths = st.fractions(min_value=20, max_value=2000, max_denominator=1000)


@given(
    lengths,
    st.fractions(min_value=31, max_value=300, max_denominator=64),
    st.fractions(min_value=0, max_value=20, max_denominator=64),
    st.lists(st.tuples(lengths, st.integers(0, 9)), max_size=30),
)
@settings(max_examples=150, deadline=None)
def test_every_tile_fits_the_page_and_together_they_cover_the_pattern(length, room, overlap, at):
    avoid = [(low, low + size) for low, size in at]
    seams = choose_seams(length, room, overlap, avoid)
    spans = tile_spans(length, overlap, seams)
    assert max(_lengths(spans)) <= room
    assert spans[0][0] == 0
    assert spans[-1][1] == length
    for (_, end), (start, _) in itertools.pairwise(spans):
        assert end - start == overlap
    # No fewer would do: as many full pages less one do not reach.
    assert not seams or len(seams) * (room - overlap) + overlap < length


def test_given_seams_are_used_in_order():
    assert choose_seams(F(300), F(200), F(20), [(F(0), F(300))], [F(170)]) == (170,)
    assert choose_seams(F(300), F(200), F(20), [], [F(200), F(100)]) == (100, 200)
    assert choose_seams(F(150), F(200), F(20), [], [F(60)]) == (60,)


@pytest.mark.parametrize(
    ("seams", "places", "word"),
    [
        ([191], ["seams[0]"], "201 mm"),
        ([109], ["seams[0]"], "201 mm"),
        ([0], ["seams[0]"], "0 mm"),
        ([150, 300], ["seams[1]"], "300 mm"),
        ([-5, 150, 301], ["seams[0]", "seams[2]"], "-5 mm"),
        ([150, 150], ["seams[1]"], "150 mm"),
        ([280, 20], ["seams[0]"], "280 mm long"),
    ],
)
def test_impossible_given_seams_are_told_with_place_value_and_remedy(seams, places, word):
    with pytest.raises(InputError) as caught:
        choose_seams(F(300), F(200), F(20), [], [F(seam) for seam in seams])
    findings = caught.value.findings
    assert [finding.place for finding in findings] == places
    assert {finding.code for finding in findings} == {"seam-impossible"}
    assert all(finding.remedy for finding in findings)
    assert word in findings[0].message


def test_given_seams_may_use_the_page_to_the_full():
    assert choose_seams(F(300), F(200), F(20), [], [F(190)]) == (190,)


@pytest.mark.parametrize("room", [20, 19, F(2001, 100)])
def test_a_page_too_small_is_told(room):
    """No more room than overlap; or so little that it would take thousands of pages."""
    with pytest.raises(InputError) as caught:
        choose_seams(F(300), F(room), F(20), [])
    assert caught.value.findings[0].code == "page-too-small"
    assert caught.value.findings[0].remedy


def test_five_metres_with_three_hundred_lines_take_well_under_half_a_second():
    """Measured: about 0.05 s of processor time."""
    rng = random.Random(3)
    starts = [F(rng.randrange(5000 * 64), 64) for _ in range(300)]
    avoid = [(low, low + rng.choice([F(0), F(1, 3), F(5)])) for low in starts]
    begun = time.process_time()
    seams = choose_seams(F(5000), F(180), F(20), avoid)
    assert time.process_time() - begun < 0.5
    assert len(seams) == 31
