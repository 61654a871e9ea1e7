"""Every kind that takes a spacing, in every style: its boards mate, and show what they should.

Whatever is drawn, a joint is refused kindly or its two boards, as solids, fill the corner
without sharing wood; every mark stands at a corner of the wood; and the faces that are seen
show what the kind is for.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.spacing.parameters import StyleParameters
from tests.joints.shown_faces import (
    SHOWN,
    corner_of,
    wrong_beyond,
    wrong_on_edges,
    wrong_on_faces,
    wrong_when_pulled,
)
from tests.joints.solids import CLOSE_MM3, board_solid, mate
from tests.joints.spaced_corners import (
    HALF_TAIL,
    LEFT_OUT,
    OURS,
    OWN,
    SPACED,
    STYLES,
    WITH_HALF_PINS_ONLY,
    spaced,
    starts,
)
from tests.strategies import PROPERTY, cases

FEW = cases(2)
"""For each kind, style and start; there are some 80 of these."""
ALL_OF = "through-dovetail"
SAME_MM = 1e-5
"""The kernel keeps its corners in single precision."""
CASES = [
    (name, style, start)
    for name, kind in SPACED.items()
    for style in STYLES
    for start in starts(kind)
    if start != HALF_TAIL or style not in WITH_HALF_PINS_ONLY
]


def built_or_refused(kind: Kind, request: Request) -> Joint | None:
    """The joint; None where it was refused, which must be told with a remedy."""
    try:
        return kind.build(request)
    except InputError as error:
        unkind = [one for one in error.findings if not (one.code and one.message and one.remedy)]
        if unkind or not error.findings:
            raise
        return None


def misplaced_marks(joint: Joint) -> list[str]:
    """Marks out of order or off their board, or where no corner of the wood is."""
    found = []
    corners = {
        member.role: np.array(board_solid(member.part).to_mesh64().vert_properties)[:, 0]
        for member in joint.members
    }
    is_grooved = any("how deep" in size.name for size in joint.sizes)
    for row in joint.rows:
        places = [Fraction(0), *(mark.position for mark in row.marks), row.width]
        if places != sorted(set(places)):
            found.append(f"{row.role}, {row.title}: not in order, {places}")
        for mark in row.marks:
            # A groove takes corners away.
            apart = np.abs(corners[row.role] - float(mark.position)).min()
            if apart > SAME_MM and not is_grooved:
                found.append(f"{row.role}, {row.title}: no corner where {mark.what}")
    return found


def often(number: int, name: str) -> bool:
    """One kind in every style, the others in every third one: one solver serves all of them."""
    return name == ALL_OF or number % 3 == 0


@pytest.mark.parametrize(
    ("name", "style", "start"),
    [
        pytest.param(*case, marks=() if often(number, case[0]) else pytest.mark.exhaustive)
        for number, case in enumerate(CASES)
    ],
)
def test_boards_mate_marks_stand_in_order_and_faces_show_what_they_should(name, style, start):
    kind, built = SPACED[name], []

    @FEW
    @given(spaced(kind, style, start))
    def hold(request: Request) -> None:
        joint = built_or_refused(kind, request)
        built.append(joint is not None)
        if joint is None:
            return
        mated = mate(joint)
        if joint.allowance >= 0:
            assert mated.overlap < CLOSE_MM3
        if joint.allowance <= 0:
            assert abs(mated.missing) < CLOSE_MM3
        assert misplaced_marks(joint) == []
        corner = corner_of(joint, request)
        assert list(wrong_on_faces(name, corner)) == []
        assert list(wrong_on_edges(name, corner)) == []
        assert list(wrong_beyond(corner)) == []
        assert list(wrong_when_pulled(corner)) == []

    hold()
    assert sum(built) * 2 >= len(built), "most of what is drawn must be possible to cut"


@pytest.mark.parametrize("name", SPACED)
@PROPERTY
@given(st.data())
def test_boards_too_narrow_for_what_is_told_are_refused_with_a_remedy(name, data):
    """Or cut all the same, with every mark in order."""
    _, style, start = data.draw(st.sampled_from([case for case in CASES if case[0] == name]))
    request = data.draw(spaced(SPACED[name], style, start))
    part = data.draw(st.integers(1, 9)) / Fraction(10)
    one, other = (replace(board, width=board.width * part) for board in request.boards)
    joint = built_or_refused(SPACED[name], replace(request, boards=(one, other)))
    if joint is not None:
        assert misplaced_marks(joint) == []


def test_every_style_and_every_kind_with_a_spacing_is_among_these():
    (style,) = (p for p in SPACED["through-dovetail"].parameters if p.name == "spacing")
    words = next(part for part in style.parts if part.name == "style").choices
    assert style.table is StyleParameters
    assert set(words) == STYLES.keys()
    assert SPACED.keys() == SHOWN.keys()
    assert {HALF_TAIL in starts(kind) for kind in SPACED.values()} == {True, False}


@pytest.mark.parametrize("kind", SPACED.values(), ids=SPACED)
def test_everything_that_a_kind_can_be_told_is_drawn(kind):
    names = {parameter.name for parameter in kind.parameters}
    assert names - OURS - LEFT_OUT <= OWN.keys()
