"""Joints that lean or are not square in plan, at both hands, held to distances worked by hand."""

import pytest

from tests.drawings import angled_faces_by_hand, leaning_faces_by_hand
from tests.drawings.faces_by_hand import HANDS, PIN, SECOND, SIDES
from tests.drawings.seen_faces import as_seen, single_faces
from tests.pdf.page_reading import KNIFE, SAW
from tests.pdf.wrap_reading import unmatched

CASES = leaning_faces_by_hand.CASES | angled_faces_by_hand.CASES
EACH = [(kind, role, face) for kind, (_, faces) in CASES.items() for role, face in faces]


@pytest.mark.parametrize("corner", ["A", "B"])
@pytest.mark.parametrize(("kind", "role", "face"), EACH)
def test_every_face_at_both_hands_has_its_lines_where_they_were_worked_out(
    kind, role, face, corner
):
    job, faces = CASES[kind]
    hand, placement = single_faces(job)[corner, role, face]
    assert hand == HANDS[corner][role in (PIN, SECOND)]
    saws, bases = faces[role, face][SIDES[hand][face]]
    assert unmatched(as_seen(placement, SAW), saws) == []
    assert unmatched(as_seen(placement, KNIFE), bases) == []


@pytest.mark.parametrize("corner", ["A", "B"])
@pytest.mark.parametrize("kind", CASES)
def test_no_further_face_is_drawn(kind, corner):
    job, faces = CASES[kind]
    assert {(role, face) for at, role, face in single_faces(job) if at == corner} == faces.keys()


@pytest.mark.parametrize(("kind", "role", "face"), EACH)
def test_figures_of_the_other_hand_do_not_match(kind, role, face):
    """But where a mitre runs square across a face: that face is the same from both sides."""
    (saws, bases), (others, other_bases) = CASES[kind][1][role, face].values()
    differ = unmatched([*saws, *bases], [*others, *other_bases]) != []
    assert differ == (kind != "angled-mitre" or "edge" in face)
