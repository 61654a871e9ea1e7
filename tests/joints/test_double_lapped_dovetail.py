"""The double-lapped dovetail: a case by hand, what is refused or advised against, order of work."""

import pytest

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails.double_lapped_dovetail import KIND
from joinery_templates.joints.kind import Request
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Surface, at_least, at_most
from tests.joints.solids import board_solid, convex, mate
from tests.joints.worked import face, lines, request

SOUND = {
    "slope": "1:7",
    "tails": 3,
    "half_pin": "8 mm",
    "pin": "6 mm",
    "lap": "5 mm",
    "tail_lap": "4 mm",
}


def box(
    thicknesses: tuple[str, str] = ("18 mm", "19 mm"), units: Units = Units.MM, **raw: object
) -> Request:
    return request(KIND, "120 mm", thicknesses, units, names=("top", "end"), **raw)


def sound(**changes: object) -> Joint:
    return KIND.build(box(**(SOUND | changes)))


# Three tails on 120 less two half pins of 8 and two pins of 6: 92/3 each. They are
# 19 - 5 = 14 long from the rebate, and come in by 2 on each side.
TAILS = [(8 + n * Fraction(110, 3), 8 + n * Fraction(110, 3) + Fraction(92, 3)) for n in range(3)]


def test_the_tail_board_by_hand():
    joint = sound()
    inside, grain = face(joint, 0, Face.INSIDE), face(joint, 0, Face.END_GRAIN)
    assert lines(grain, Surface.SHOULDER) == {frozenset(((0, 4), (120, 4)))}
    assert lines(inside, Surface.SIDE) == {
        frozenset(((wide, 5), (narrow, 19)))
        for left, right in TAILS
        for wide, narrow in ((left, left + 2), (right, right - 2))
    }
    assert frozenset(((0, 5), (120, 5))) in lines(inside, Surface.SHOULDER)
    edge = face(joint, 0, Face.REFERENCE_EDGE)
    # The rebate, then the half pin's space, both down to the lap of 4.
    assert {y for shape in edge.waste for _, y in shape.corners} == {0, 5, 19}
    assert {z for shape in edge.waste for z, _ in shape.corners} == {4, 18}


def test_the_pin_board_by_hand():
    """It ends under the lap of 4: 18 - 4 = 14 from its end to its baseline."""
    joint = sound()
    inside, grain = face(joint, 1, Face.INSIDE), face(joint, 1, Face.END_GRAIN)
    assert lines(grain, Surface.SHOULDER) == {
        frozenset(((left, 5), (right, 5))) for left, right in TAILS
    }
    assert lines(inside, Surface.SHOULDER) == {
        frozenset(((left + 2, 14), (right - 2, 14))) for left, right in TAILS
    }
    assert joint.placement.point((Fraction(0), Fraction(0), Fraction(0))) == (0, 0, 4)


def test_both_laps_are_a_quarter_by_rule():
    joint = KIND.build(box(tails=3))
    named = {size.name: size.length for size in joint.sizes}
    assert named["lap, on the pin board's outside"] == 5  # 19 / 4 = 4.75
    assert named["lap, on the tail board's outside"] == Fraction("4.5")  # 18 / 4
    assert sum("lap" in rule for rule in joint.rules) == 2


def test_all_that_shows_is_a_line_of_the_tail_boards_end_grain():
    """Looked at square to the pin board's outside face, the tail board fills its lap and no more.

    That way runs the tail board's grain, so what is seen there is its end grain.

    Noyes 1910, on the stopped lap: seen outside is only a lap.
    """
    joint = sound()
    skin = Fraction(1, 100)
    mated = mate(joint)
    front = (at_least(1, Fraction(0)), at_most(1, skin), at_most(2, Fraction(18)))
    seen = convex(front, mated.first).volume() / float(skin)
    assert seen == pytest.approx(120 * 4)
    assert joint.members[0].part.board.name == "top"
    assert "the tail board's end grain" in KIND.summary
    assert face(joint, 0, Face.OUTSIDE).waste == face(joint, 1, Face.OUTSIDE).waste == ()


def test_the_tail_boards_wood_by_volume():
    """29 long, 18 thick: less a rebate of 5 x 14, and four spaces 14 long and 14 deep."""
    whole = 120 * 29 * 18
    rebate = 120 * 5 * 14
    spaces = (120 - 92 + 3 * 2) * 14 * 14  # their mean width is at half the tails' length
    solid = board_solid(sound().members[0].part)
    assert solid.volume() == pytest.approx(whole - rebate - spaces)


@pytest.mark.parametrize(
    ("changes", "place", "board"),
    [({"lap": "19 mm"}, "lap", "end"), ({"tail_lap": "18 mm"}, "tail_lap", "top")],
)
def test_a_lap_as_thick_as_its_board_is_refused_by_its_name(changes, place, board):
    with pytest.raises(InputError) as caught:
        sound(**changes)
    (finding,) = caught.value.findings
    assert (finding.code, finding.place) == ("lap-too-thick", place)
    assert f'"{board}"' in finding.message


@pytest.mark.parametrize("name", ["lap", "tail_lap"])
def test_each_lap_is_advised_on_by_its_name(name):
    for length, code in (("2.3 mm", "lap-thin"), ("10 mm", "lap-thick")):
        assert [(f.code, f.place) for f in sound(**{name: length}).findings] == [(code, name)]


def test_a_tail_is_weak_by_the_thickness_that_is_left_of_its_board():
    """A quarter of 26 less a lap of 10 is 4; our judgement."""
    # At 1:7 tails 14 long are 4 narrower at the baseline.
    given = {"tail_lap": "10 mm", "tails": 8, "half_pin": None, "pin": "6 mm"}
    for tail, found in (("7.99 mm", True), ("8 mm", False)):
        raw = SOUND | given | {"tail": tail}
        codes = {finding.code for finding in KIND.build(box(("26 mm", "19 mm"), **raw)).findings}
        assert ("tail-weak" in codes) is found


def test_every_piece_of_advice_stands_at_a_parameter():
    names = {parameter.name for parameter in KIND.parameters}
    poor = sound(lap="2 mm", tail_lap="2 mm", slope="1:4", pin="1 mm", half_pin="0.5 mm", tails=12)
    assert len(poor.findings) > 4
    assert {finding.place for finding in poor.findings} <= names


def test_pins_are_cut_first_and_mark_the_tails():
    joint = sound()
    headings = [step.heading for step in joint.steps]
    assert headings.index("Saw and chop the sockets") < headings.index(
        "Mark the tail board (TOP) from the pins"
    )
    assert headings.index("Rebate the end of the tail board (TOP)") < headings.index(
        "Mark the tail board (TOP) from the pins"
    )
    assert joint.main_row.role == "pin board"


def test_the_order_of_work_names_its_figures():
    words = " ".join(step.words for step in sound().steps)
    for figure in ("twice 4 mm", "gauge to 14 mm", "gauge 5 mm for the rebate", "19 mm for the"):
        assert figure in words
    assert "proud" not in words


def test_half_tails_at_the_edges_mate_too():
    joint = sound(start="half-tail", tails=2, half_pin=None)
    mated = mate(joint)
    assert max(mated.overlap, abs(mated.missing)) < 1e-4
    assert "half-tail waste" in " ".join(step.words for step in joint.steps)
