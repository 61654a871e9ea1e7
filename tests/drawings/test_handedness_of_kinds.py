"""Every joint of two board ends at all four corners, held to distances worked by hand."""

import pytest

from tests.drawings.faces_by_hand import (
    CASES,
    END,
    HANDS,
    INSIDE,
    NONE,
    OUTSIDE,
    PIN,
    SECOND,
    SIDES,
)
from tests.drawings.seen_faces import as_seen, single_faces
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import KNIFE, SAW
from tests.pdf.wrap_reading import unmatched, wraps_on


def hand_at(corner: str, role: str) -> str:
    return HANDS[corner][role in (PIN, SECOND)]


@pytest.mark.parametrize("corner", HANDS)
@pytest.mark.parametrize("kind", CASES)
def test_every_face_at_every_corner_has_its_lines_where_they_were_worked_out(kind, corner):
    case = CASES[kind]
    drawn = single_faces(case.job(kind))
    found = {(role, face): drawn[at, role, face] for at, role, face in drawn if at == corner}
    assert found.keys() == case.faces.keys()
    for (role, face), (saws, bases) in case.faces.items():
        hand, placement = found[role, face]
        assert hand == hand_at(corner, role)
        side = SIDES[hand][face]
        assert unmatched(as_seen(placement, SAW), saws.seen(side)) == [], (role, face)
        assert unmatched(as_seen(placement, KNIFE), bases.seen(side)) == [], (role, face)


@pytest.mark.parametrize("corner", HANDS)
@pytest.mark.parametrize("kind", CASES)
def test_wraps_hold_the_same_distances_from_the_reference_edge_at_every_corner(kind, corner):
    """Every wrap, left or right, holds the figures seen with the reference edge on the left."""
    case = CASES[kind]
    wraps = [w for w in wraps_on(pages_from(case.job(kind))) if w.corner == f"Corner {corner}"]
    assert len(wraps) == 2
    for wrap in wraps:
        assert wrap.hand == hand_at(corner, wrap.role)
        assert wrap.reference_on_left == (wrap.hand == "left-hand end")
        thickness = case.thicknesses[wrap.role in (PIN, SECOND)]
        for pen, number in ((SAW, 0), (KNIFE, 1)):
            wanted = []
            for face in (OUTSIDE, END, INSIDE):
                lines = case.faces.get((wrap.role, face), (NONE, NONE))[number]
                wanted += [
                    tuple((s, up_the_wrap(face, t, thickness)) for s, t in line)
                    for line in lines.seen("left")
                ]
            assert unmatched(wrap.lines(pen), wanted) == [], wrap.role


def up_the_wrap(face: str, down: float, thickness: int) -> float:
    """From the fold at the outside face; the other fold takes up 0.1 of paper."""
    if face == OUTSIDE:
        return -down
    return thickness - down if face == END else thickness + 0.1 + down


@pytest.mark.parametrize("kind", CASES)
def test_every_face_across_the_board_shows_its_hand(kind):
    """A figure that were the same from both sides would hold nothing to its hand."""
    for (_, face), drawn in CASES[kind].faces.items():
        if face in (OUTSIDE, INSIDE):
            left, right = (
                [line for part in drawn for line in part.seen(s)] for s in ("left", "right")
            )
            assert unmatched(left, right) != []
