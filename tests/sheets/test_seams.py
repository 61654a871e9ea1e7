"""Seams: fewest tiles, clear of lines, through the middle of wood that stays, even; exactly."""

import itertools
import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.sheets.seams import checked_seams, choose_seams, tile_spans
from tests.strategies import cases

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
        ([(150, 150)], 125),  # 125 and 175 are both 25 away and equally near 150: the left one
        ([(145, 155)], 120),
        ([(100, 152)], 177),
        ([(149, 149)], 174),  # 174 is 24 from the middle, 124 is 26
        ([(124, 164)], 189),
        ([(100, 110), (138, 300)], 124),  # midway
        ([(0, 100), (160, 300)], 135),  # 25 from either: then the nearest to even
        ([(0, 100), (190, 300)], 150),  # 25 and more from either: then even
        ([(0, F(295, 2)), (149, 300)], F(593, 4)),  # midway; 148 would be 1/2 clear, not 3/4
        ([(0, 300)], 150),  # nowhere clear: then even
        ([(-50, 400)], 150),
        ([(0, 190)], 150),  # the page does not reach further than the line
        ([(0, 188), (200, 200)], 190),
        ([(p, p) for p in (112, 129, 141, 160, 172, 188)], F(301, 2)),
    ],
)
def test_a_seam_keeps_clear_of_lines_then_midway_then_even_then_left(avoid, seam):
    """300 long in two tiles of at most 200: the seam can be anywhere from 110 to 190."""
    lines = [(F(low), F(high)) for low, high in avoid]
    assert choose_seams(F(300), F(200), F(20), lines) == (seam,)


@pytest.mark.parametrize(
    ("waste", "seam"),
    [
        ([(137, 163)], 125),  # the middle of the wood beside the waste from 136 to 164
        ([(150, 151)], 125),  # between two lines a little hatching tells that all of it goes
        ([(100, 110), (115, 130)], 150),  # waste beside it is of no account
        ([(100, 200)], 150),  # waste wherever the page reaches: then the middle of the widest
    ],
)
def test_a_seam_goes_through_the_middle_of_the_wood_that_stays(waste, seam):
    lines = [(F(at), F(at)) for at in (114, 136, 164, 182)]
    assert choose_seams(F(300), F(200), F(20), lines, [(F(a), F(b)) for a, b in waste]) == (seam,)


@pytest.mark.parametrize(("overlap", "seam"), [(20, 180), (10, F(151))])
def test_wood_that_stays_comes_first_where_the_shared_paper_reaches_no_line(overlap, seam):
    """From 144 to 158 wood stays, 7 to either side; the 44 mm to the right of it go."""
    lines = [(F(0), F(144)), (F(158), F(158)), (F(202), F(300))]
    found = choose_seams(F(300), F(200), F(overlap), lines, [(F(158), F(202))])
    assert found == (seam,)


@pytest.mark.parametrize(
    ("words", "seam"),
    [
        ([(140, 155)], 156),  # in the middle: the next whole millimetre past them
        ([(140, 170), (120, 130)], 139),
        ([(100, 200)], 150),  # wherever the page reaches: then even
    ],
)
def test_a_seam_goes_round_words(words, seam):
    assert choose_seams(F(300), F(200), F(20), [], [], [(F(a), F(b)) for a, b in words]) == (seam,)


def test_a_seam_goes_through_waste_before_a_row_of_words_that_runs_along_it():
    """Between lines at 150 and 152 waste on the left, on the right a label from 155 to 200."""
    lines, waste, label = [(F(150), F(152))], [(F(90), F(150))], [(F(155), F(200))]
    assert choose_seams(F(300), F(200), F(20), lines, waste, label) == (177,)
    assert choose_seams(F(300), F(200), F(20), lines, waste, label, label) == (125,)


def test_clear_of_lines_counts_before_wood_that_stays():
    """Pins of 6 mm stay, the 40 mm between go: in a pin a seam is clear by 3, in waste by 20."""
    lines = [(F(at), F(at)) for at in (68, 74, 114, 120, 160, 166, 206)]
    waste = [(F(74), F(114)), (F(120), F(160)), (F(166), F(206))]
    assert choose_seams(F(300), F(200), F(20), lines, waste) == (140,)


def test_clear_of_words_counts_before_the_middle():
    """Between lines at 130 and 170 words stand from 145 to 159: 160 is 10 from a line."""
    lines = [(F(0), F(130)), (F(170), F(300))]
    assert choose_seams(F(300), F(200), F(20), lines, [], [(F(145), F(159))]) == (144,)
    assert choose_seams(F(300), F(200), F(20), lines, [], [(F(138), F(159))]) == (160,)


def test_the_seam_that_stands_worst_counts_more_than_all_others_together():
    """In reach of each other: 84 and 155, clear by 4 and 5; 95 and 190, clear by 1 and 10."""
    lines = [(F(0), F(80)), (F(88), F(94)), (F(96), F(150)), (F(160), F(180)), (F(200), F(220))]
    assert choose_seams(F(220), F(100), F(0), lines) == (84, 155)


def test_full_pages_leave_no_choice_even_on_a_line():
    """Three rooms of 500/3 less two overlaps of 7 just hold the length."""
    room, overlap = F(500, 3), F(7)
    seams = choose_seams(3 * room - 2 * overlap, room, overlap, [(F(163), F(164))])
    assert seams == (room - F(7, 2), 2 * room - F(21, 2))


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


def _within(place, stretches):
    return any(low <= place <= high for low, high in stretches)


def _clear(seam, stretches, most):
    return min([F(most), *(max(low - seam, seam - high, F(0)) for low, high in stretches)])


def _is_waste(seam, avoid, waste):
    """Whether any wood goes between the lines before and after a place."""
    low = max([F(-1000), *(b for a, b in avoid if a <= seam)])
    high = min([F(5000), *(a for a, b in avoid if a > seam)])
    return any(max(a, low) < min(b, high) for a, b in waste)


def _brute(length, room, overlap, avoid, waste, words):
    """The seams by trying every set of candidates; written from the wish, not from the code."""
    half = overlap / 2
    gaps = []
    for (_, high), (low, _) in itertools.product(avoid, repeat=2):
        middle = (high + low) / 2
        if high < low and not any(a < low and b > high for a, b in avoid):
            gaps.append(middle)
    for tiles in itertools.count(1):
        step = (length - overlap) / tiles
        even = [half + seam * step for seam in range(1, tiles)]
        places = sorted({*map(F, range(int(length) + 1)), *gaps, *even})
        # Half an overlap from its end a pattern is not cut: both tiles would show it all.
        places = [place for place in places if half < place < length - half]

        def standing(seam):
            near, goes = _clear(seam, avoid, 10), _is_waste(seam, avoid, waste)
            if not goes and near >= min(half, 10):
                return 0, math.ceil(20 - 2 * near), False
            return 1, math.ceil(20 - 2 * near), goes

        def cost(seams, even=even):
            worst_first = sorted(map(standing, seams), reverse=True)
            through = sum(_within(seam, words) for seam in seams)
            off = -sum(_clear(seam, avoid, 25) for seam in seams)
            aside = sum(abs(seam - at) for seam, at in zip(seams, even, strict=True))
            return worst_first, through, off, aside, seams

        found = [cost(seams) for seams in _ways(length, room, half, places, tiles - 1)]
        if found:
            return min(found)[-1]
    raise AssertionError


def _stretches(rng, length, parts):
    for _ in range(rng.randrange(5)):
        low = F(rng.randrange(int(length * parts)), parts)
        yield low, low + rng.choice([0, 0, F(1, parts), 2, 5])


@pytest.mark.parametrize("parts", [1, 2, 7, 64])
def test_small_patterns_agree_with_trying_everything(parts):
    rng = random.Random(parts)
    counts = set()
    for _ in range(60):
        tiles = rng.choice([2, 2, 3, 3, 4])
        overlap = F(rng.randrange(0, 4 * parts), parts)
        step = F(rng.randrange(5 * parts, (40 // tiles) * parts), parts)
        length = overlap + step * tiles - F(rng.randrange(0, 3 * parts), parts)
        avoid, waste, words = (list(_stretches(rng, length, parts)) for _ in range(3))
        seams = choose_seams(length, step + overlap, overlap, avoid, waste, words)
        assert seams == _brute(length, step + overlap, overlap, avoid, waste, words)
        counts.add(len(seams))
    assert counts >= {1, 2, 3}


lengths = st.fractions(min_value=20, max_value=2000, max_denominator=1000)


@given(
    lengths,
    st.fractions(min_value=31, max_value=300, max_denominator=64),
    st.fractions(min_value=0, max_value=20, max_denominator=64),
    st.lists(st.tuples(lengths, st.integers(0, 9)), max_size=30),
)
@cases(25)
def test_every_tile_fits_the_page_and_together_they_cover_the_pattern(length, room, overlap, at):
    seams = choose_seams(length, room, overlap, [(low, low + size) for low, size in at])
    spans = tile_spans(length, overlap, seams)
    assert max(end - start for start, end in spans) <= room
    assert spans[0][0] == 0
    assert spans[-1][1] == length
    for (_, end), (start, _) in itertools.pairwise(spans):
        assert end - start == overlap
    # No fewer would do: as many full pages less one do not reach.
    assert not seams or len(seams) * (room - overlap) + overlap < length


def test_given_seams_are_used_in_order():
    assert checked_seams(F(300), F(200), F(20), [F(200), F(100)]) == (100, 200)
    assert checked_seams(F(300), F(200), F(20), [F(190)]) == (190,), "the page to the full"


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
        checked_seams(F(300), F(200), F(20), [F(seam) for seam in seams])
    findings = caught.value.findings
    assert [finding.place for finding in findings] == places
    assert {finding.code for finding in findings} == {"seam-impossible"}
    assert all(finding.remedy for finding in findings)
    assert word in findings[0].message


@pytest.mark.parametrize("room", [20, 19, F(2001, 100)])
def test_a_page_too_small_is_told(room):
    """No more room than overlap; or so little that it would take thousands of pages."""
    with pytest.raises(InputError) as caught:
        choose_seams(F(300), F(room), F(20), [])
    assert caught.value.findings[0].code == "page-too-small"
    assert caught.value.findings[0].remedy
