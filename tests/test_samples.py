"""Every sample job's wraps, held line by line to positions worked out here from its numbers."""

import math
import tomllib

import pytest

from tests.pdf.dovetail_table import Corner, corner_of, pin_wrap, tail_wrap
from tests.pdf.drawn_jobs import SAMPLES, pages_from, sample_text
from tests.pdf.page_reading import FOLD, GUIDE, KNIFE, SAW, THIN
from tests.pdf.wrap_reading import NEAR, Wrap, unmatched, wraps_on

NAMES = [path.stem for path in SAMPLES]

# Which ends meet, from the description of the corners: at A and C the tail board's
# right-hand end, at B and D its left-hand end; the pin board's other one each time.
RIGHT_HAND_TAILS = {
    "Corner A": True,
    "Corner B": False,
    "Corner C": True,
    "Corner D": False,
    "Back left": False,
    "Back right": True,
}


def wraps(name: str) -> tuple[Corner, list[Wrap]]:
    job = tomllib.loads(sample_text(name))
    return corner_of(job), list(wraps_on(pages_from(sample_text(name))))


def depth(corner: Corner, wrap: Wrap) -> float:
    """From the board's end to its baseline."""
    if wrap.role == "tail board":
        return corner.pin_thickness + corner.tails_proud
    return corner.tail_thickness + corner.pins_proud


def test_the_samples_are_there():
    assert NAMES == [
        "blanket_chest",
        "record_crate",
        "tea_box",
        "wide_carcase",
        "workshop_drawer",
    ]


def test_the_table_of_lines_by_hand_for_the_drawer():
    """W 140, 4 tails, half pin 7, pin 3: step (140 - 14 + 3) / 4 = 32.25, tail 29.25."""
    corner = corner_of(tomllib.loads(sample_text("workshop_drawer")))
    starts = [tail[0].at for tail in corner.tails]
    assert starts == [7, 39.25, 71.5, 103.75]
    assert corner.tails[-1][1].at == 133  # 7 from the far edge
    saws, bases = tail_wrap(corner)
    # Baseline 18 + 0.4; a side leans 18.4 / 6 = 3.0667.
    assert (
        unmatched(
            [saws[0], bases[0]],
            [((7, 0), (10.06667, -18.4)), ((0, -18.4), (10.06667, -18.4))],
            0.00001,
        )
        == []
    )
    saws, _ = pin_wrap(corner)
    # Outside face: 0.4 / 6 = 0.0667 further in; inside face: 18.4 / 6.
    assert (
        unmatched(
            [saws[0], saws[2]],
            [((7.06667, 0), (7.06667, -20.4)), ((10.06667, 18.1), (10.06667, 38.5))],
            0.00001,
        )
        == []
    )


def test_the_table_of_lines_by_hand_for_the_chest():
    """17 less half pins of 1/2, ten pins of 1/4 and five tails of 3/4: six tails of 1 5/8."""
    corner = corner_of(tomllib.loads(sample_text("blanket_chest")))
    inches = [side.at / 25.4 for tail in corner.tails for side in tail]
    cluster = [0.5, 2.125, 2.375, 3.125]  # wide tail, narrow tail: again 2 7/8 further on
    by_hand = [x + 2.875 * n for n in range(6) for x in cluster][:-2]
    assert inches == pytest.approx(by_hand, abs=1e-12)
    assert by_hand[-1] == 16.5
    saws, bases = tail_wrap(corner)
    # Baseline 7/8 = 22.225; a side leans an eighth, 3.175, from 12.7 to 15.875.
    assert (
        unmatched(
            [saws[0], bases[0]],
            [((12.7, 0), (15.875, -22.225)), ((0, -22.225), (15.875, -22.225))],
            0.00001,
        )
        == []
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_corner_has_a_wrap_for_each_board_with_the_right_hand(name):
    job = tomllib.loads(sample_text(name))
    joint = job["joints"][0]
    corners = [c["name"] if isinstance(c, dict) else f"Corner {c}" for c in joint["corners"]]
    _, found = wraps(name)
    said = {(wrap.corner, wrap.board, wrap.role, wrap.hand) for wrap in found}
    wanted = set()
    for corner in corners:
        # Tails on the front and back of the piece instead of on its sides: the other hand.
        tails_right = RIGHT_HAND_TAILS[corner] != (joint.get("front") == joint["tail_board"])
        for role, right in (("tail board", tails_right), ("pin board", not tails_right)):
            board = joint[role.replace(" ", "_")].upper()
            wanted.add((corner, board, role, f"{'right' if right else 'left'}-hand end"))
    assert said == wanted


@pytest.mark.parametrize("name", NAMES)
def test_the_reference_edge_is_on_the_left_of_left_hand_ends_only(name):
    """Seen from outside with its end turned up, a left-hand end has that edge on the left."""
    _, found = wraps(name)
    for wrap in found:
        assert wrap.reference_on_left == (wrap.hand == "left-hand end"), wrap.corner


@pytest.mark.parametrize("name", NAMES)
def test_every_sawn_line_and_baseline_is_within_a_thousandth_of_its_place(name):
    corner, found = wraps(name)
    assert found
    for wrap in found:
        saws, bases = (tail_wrap if wrap.role == "tail board" else pin_wrap)(corner)
        told = (wrap.corner, wrap.role)
        assert unmatched(wrap.lines(SAW), saws) == [], told
        assert unmatched(wrap.lines(KNIFE), bases) == [], told


def test_a_narrower_back_is_printed_at_its_own_height_on_the_side():
    """As on a side of its own 95 mm, 16 mm up; the side's wood ends square at 16 and at 111."""
    job = tomllib.loads(sample_text("kitchen_drawer"))
    back = job["boards"]["back"]
    job["boards"]["side"]["width"] = back["width"]
    corner, inset, far = corner_of(job, 1), 16, 16 + back["width"]
    pages = pages_from(sample_text("kitchen_drawer"))
    found = [wrap for wrap in wraps_on(pages) if wrap.corner.startswith("Back")]
    assert {(wrap.role, round(wrap.width)) for wrap in found} == {
        ("tail board", 115),
        ("pin board", 95),
    }
    deep, thick = back["thickness"], corner.tail_thickness
    for wrap in found:
        if wrap.role == "pin board":
            saws, bases = pin_wrap(corner)
        else:
            level = (
                [((a + inset, s), (b + inset, t)) for (a, s), (b, t) in lines]
                for lines in tail_wrap(corner)
            )
            saws, bases = level
            for x in (inset, far):
                heights = (0, -deep), (0, thick), (thick + 0.1, thick + 0.1 + deep)
                saws += [((x, low), (x, high)) for low, high in heights]
        assert unmatched(wrap.lines(SAW), saws) == []
        assert unmatched(wrap.lines(KNIFE), bases) == []
    printed = [
        " ".join(words.text for words in placement.words)
        for page in pages
        for placement in page.placements
    ]
    (strip,) = (words for words in printed if "Setting-out strip for SIDE · Back" in words)
    assert f"pin board's reference edge comes at {inset}" in strip
    assert f"pin board's far edge comes at {far}" in strip
    (walk,) = (words for words in printed if "Divider walk for SIDE · Back" in words)
    assert "line 23 mm, the 16 mm to the pin board's reference edge included" in walk
    assert "line 11 mm, the 4 mm to the pin board's far edge included" in walk


@pytest.mark.parametrize("name", NAMES)
def test_folds_and_edges_are_as_far_apart_as_the_board_is_thick_and_wide(name):
    corner, found = wraps(name)
    for wrap in found:
        tails = wrap.role == "tail board"
        thick = corner.tail_thickness if tails else corner.pin_thickness
        assert abs(wrap.width - corner.width) <= NEAR
        assert abs(wrap.between_folds - thick - 0.1) <= NEAR  # and a sheet of paper
        for (s0, _), (s1, _) in wrap.lines(FOLD):  # over the whole width, and past it alike
            assert abs(min(s0, s1) + max(s0, s1) - corner.width) <= NEAR
            assert abs(s1 - s0) >= corner.width
        deep = depth(corner, wrap)
        across = [((0, t), (corner.width, t)) for t in (-deep, thick + 0.1 + deep)]
        assert unmatched(wrap.lines(GUIDE), across) == []


@pytest.mark.parametrize("name", NAMES)
def test_a_prick_point_stands_at_both_ends_of_every_line(name):
    """Each has a dot in its middle, 0.35 mm high; they are as many as distinct ends."""
    corner, found = wraps(name)
    for wrap in found:
        saws, bases = (tail_wrap if wrap.role == "tail board" else pin_wrap)(corner)
        dots = [line for line in wrap.lines(THIN) if abs(math.dist(*line) - 0.35) < NEAR]
        middles = {(round((a[0] + b[0]) / 2, 2), round((a[1] + b[1]) / 2, 2)) for a, b in dots}
        ends = {end for line in (*saws, *bases) for end in line}
        for s, t in ends:
            assert any(abs(s - x) < 0.006 and abs(t - y) < 0.006 for x, y in middles), (s, t)
        assert all(
            any(abs(s - x) < 0.006 and abs(t - y) < 0.006 for s, t in ends) for x, y in middles
        )


def test_the_comparison_sees_a_line_that_is_two_thousandths_off():
    corner, found = wraps("workshop_drawer")
    wrap = next(one for one in found if one.role == "tail board")
    saws, _ = tail_wrap(corner)
    (start, end), *others = saws
    shifted = [((start[0] + 0.002, start[1]), (end[0] + 0.002, end[1])), *others]
    assert len(unmatched(wrap.lines(SAW), shifted)) == 2
    assert len(unmatched(wrap.lines(SAW), others)) == 1


@pytest.mark.parametrize("name", NAMES)
def test_the_setting_out_strip_has_a_mark_at_every_tail_and_its_distance_in_figures(name):
    corner, _ = wraps(name)
    marks = sorted(side.at for tail in corner.tails for side in tail if side.lean)
    strips = [
        placement
        for page in pages_from(sample_text(name))
        for placement in page.placements
        if placement.saying("Setting-out strip")
    ]
    assert strips
    for strip in strips:
        turned = strip.saying("Setting-out strip")[0].turn == 90
        along = 1 if turned else 0
        ticks = [line for line in strip.drawn_with(SAW) if abs(line.length - 7) < NEAR]
        edges = [
            line
            for line in strip.drawn_with(THIN)
            if abs(line.start[along] - line.end[along]) < NEAR
        ]
        zero = min(line.start[along] for line in edges)
        assert abs(max(line.start[along] for line in edges) - zero - corner.width) <= NEAR
        found = sorted(line.start[along] - zero for line in ticks)
        wanted = sorted([*marks, *marks])  # on both long edges
        assert len(found) == len(wanted)
        assert max(abs(a - b) for a, b in zip(found, wanted, strict=True)) <= NEAR
