"""Properties of routed layouts over random cutters and boards."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import TANGENT_BOUND, Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails import lapped_dovetail
from joinery_templates.joints.dovetails.routing.cutter import Cutter
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board
from tests.joints.routed import LAPPED, THROUGH, findings_of, spaces
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.strategies import lengths
from tests.strategies import PROPERTY, SOLID_PROPERTY


@st.composite
def routed(draw: st.DrawFn, kinds: tuple[Kind, ...] = (THROUGH, LAPPED)) -> Request:
    """Boards and a cutter that has a neck; nothing else of the spacing is given."""
    kind = draw(st.sampled_from(kinds))
    angle = draw(st.integers(8, 80).map(lambda half: Fraction(half, 2)))
    cutter = Cutter(diameter=draw(lengths(6, 30)), included_angle=angle)
    thicknesses = draw(lengths(6, 25)), draw(lengths(6, 25))
    width = draw(lengths(40, 200))
    more: dict[str, Fraction] = {}
    depth = thicknesses[1]
    if kind is LAPPED:
        more["lap"] = draw(lengths(2, 5))
        depth -= more["lap"]
    else:
        more["tails_proud"] = draw(st.sampled_from([Fraction(0), Fraction(3, 10)]))
        depth += more["tails_proud"]
    assume(cutter.diameter - 2 * depth * cutter.slope > Fraction(1, 10))
    assume(width > cutter.diameter + 2 * depth * cutter.slope)
    boards = (Board("side", width, thicknesses[0]), Board("end", width, thicknesses[1]))
    given_ = kind.parameter_class(cutter=cutter, **more)
    return Request(boards, given_, draw(st.sampled_from(list(Units))), Tools())


def built(one: Request) -> Joint:
    kind = LAPPED if isinstance(one.given, lapped_dovetail.Parameters) else THROUGH
    return kind.build(one)


@PROPERTY
@given(routed())
def test_every_space_is_one_pass_of_the_cutter(one):
    joint = built(one)
    end, cutter = joint.members[0].part, one.given.cutter
    at_baseline = spaces(joint, end.reach)
    assert at_baseline == pytest.approx([float(cutter.diameter)] * len(at_baseline), abs=1e-9)
    assert len(at_baseline) == len(spaces(joint, Fraction(0))) >= 1
    # What leaves a space at the end is trigonometry, not the program's own tangent.
    angle = math.radians(float(cutter.included_angle) / 2)
    narrow = float(cutter.diameter) - 2 * float(end.reach) * math.tan(angle)
    assert spaces(joint, Fraction(0)) == pytest.approx([narrow] * len(at_baseline), abs=1e-8)
    assert not {"cutter-pin-narrow", "cutter-socket-narrow"} & set(findings_of(joint))


@PROPERTY
@given(routed())
def test_the_layout_is_symmetrical_and_begins_and_ends_with_half_tails(one):
    joint = built(one)
    for row in joint.rows:
        places = [mark.position for mark in row.marks]
        assert places == [row.width - place for place in reversed(places)]
    main = joint.main_row
    assert main.marks[0].what == "half tail at the reference edge ends"
    assert main.marks[-1].what == "half tail at the far edge starts"
    # Wood is left of the half tails at the baseline, where they are narrowest.
    (baseline,) = (row for row in joint.rows if row.title == "along the baseline")
    assert baseline.marks[0].position > 0


@PROPERTY
@given(routed())
def test_neighbouring_spaces_lie_one_pitch_apart(one):
    joint = built(one)
    depth, cutter = joint.members[0].part.reach, one.given.cutter
    starts = [float(mark.position) for mark in joint.main_row.marks[::2]]
    pitch = 2 * (cutter.diameter - depth * cutter.slope)
    steps = [after - before for before, after in pairwise(starts)]
    assert steps == pytest.approx([float(pitch)] * len(steps), abs=1e-9)


@PROPERTY
@given(routed(kinds=(LAPPED,)))
def test_sockets_of_whole_tails_are_as_wide_as_the_cutter_at_the_lap_line(one):
    joint = built(one)
    (row,) = (row for row in joint.rows if "lap line" in row.title)
    inner = [mark.position for mark in row.marks][1:-1]
    widths = [right - left for left, right in zip(inner[::2], inner[1::2], strict=True)]
    assert all(width == one.given.cutter.diameter for width in widths)


@SOLID_PROPERTY
@given(routed())
def test_routed_boards_mate(one):
    mated = mate(built(one))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@PROPERTY
@given(st.integers(40, 400).map(lambda tenths: Fraction(tenths, 10)))
def test_the_slope_is_the_tangent_of_half_the_included_angle(angle):
    slope = Cutter(diameter=Fraction(12), included_angle=angle).slope
    expected = math.tan(math.radians(float(angle) / 2))
    assert float(slope) == pytest.approx(expected, abs=2 * float(TANGENT_BOUND))


@PROPERTY
@given(routed(), st.integers(1, 6))
def test_a_stated_number_of_tails_keeps_every_space_at_least_a_pass_wide(one, tails):
    try:
        joint = built(replace(one, given=one.given.but(tails=tails)))
    except InputError:
        return  # so many do not fit on this board
    widths = spaces(joint, joint.members[0].part.reach)
    assert len(widths) == tails - 1
    assert all(width >= float(one.given.cutter.diameter) - 1e-9 for width in widths)
