"""The full-blind dovetail: a case by hand, its proportions, and that outside only a mitre shows."""

import pytest

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails.full_blind_dovetail import KIND
from joinery_templates.joints.kind import Request
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Surface, at_least, at_most
from tests.joints.solids import board_solid, convex, mate
from tests.joints.worked import face, lines, request

SOUND = {
    "slope": "1:5",
    "tails": 3,
    "half_pin": "8 mm",
    "pin": "6 mm",
    "lap": "10 mm",
    "mitre": "5 mm",
}


def box(
    thicknesses: tuple[str, str] = ("20 mm", "20 mm"), units: Units = Units.MM, **raw: object
) -> Request:
    return request(KIND, "110 mm", thicknesses, units, **raw)


def sound(thicknesses: tuple[str, str] = ("20 mm", "20 mm"), **changes: object) -> Joint:
    return KIND.build(box(thicknesses, **(SOUND | changes)))


# 110 less two mitres of 5: 100 = 8 + 3 t + 2 * 6 + 8, so t = 24. The tails are
# 20 - 10 = 10 long from the step on, and come in by 2 on each side.
TAILS = [(13, 37), (43, 67), (73, 97)]


def test_the_tail_boards_inside_face_by_hand():
    inside = face(sound(), 0, Face.INSIDE)
    sides = {
        frozenset(((wide, 10), (narrow, 20)))
        for left, right in TAILS
        for wide, narrow in ((left, left + 2), (right, right - 2))
    }
    mitres = {frozenset(((0, 20), (5, 20))), frozenset(((105, 20), (110, 20)))}
    beside = {frozenset(((x, 10), (x, 20))) for x in (5, 105)}
    assert lines(inside, Surface.SIDE) == sides | mitres | beside
    rebate = {frozenset(((0, 10), (110, 10)))}
    spaces = [(5, 15), (35, 45), (65, 75), (95, 105)]
    baseline = {frozenset(((left, 20), (right, 20))) for left, right in spaces}
    assert lines(inside, Surface.SHOULDER) == rebate | baseline


def test_the_pin_boards_inside_face_by_hand():
    inside = face(sound(), 1, Face.INSIDE)
    assert {(x, 20) for left, right in TAILS for x in (left + 2, right - 2)} <= {
        end for e in lines(inside, Surface.SIDE) for end in e
    }
    assert frozenset(((0, 10), (110, 10))) in lines(inside, Surface.SHOULDER)


@pytest.mark.parametrize("member", [0, 1], ids=["tail board", "pin board"])
def test_outside_nothing_shows_and_both_edges_show_the_rebate_and_the_mitre(member):
    joint = sound()
    assert face(joint, member, Face.OUTSIDE).waste == ()
    for edge in (Face.REFERENCE_EDGE, Face.FAR_EDGE):
        layout = face(joint, member, edge)
        mitre = {frozenset(((0, 0), (10, 10))), frozenset(((10, 10), (20, 20)))}
        rebate = {frozenset(((10, 0), (10, 10))), frozenset(((10, 10), (20, 10)))}
        assert lines(layout, Surface.SIDE) == mitre
        assert lines(layout, Surface.SHOULDER) == rebate


def test_the_outer_half_is_mitred_and_the_inner_half_dovetailed():
    """Noyes 1910, p. 167: about half is dovetailed, the outer part mitred."""
    joint = KIND.build(box(tails=3))
    named = {size.name: size.length for size in joint.sizes}
    assert named["lap, on the outside of both boards"] == 10
    assert any("half of the thinner board" in rule for rule in joint.rules)
    inches = KIND.build(box(("3/4 in", "3/4 in"), Units.INCH, tails=3))
    named = {size.name: size.length for size in inches.sizes}
    assert named["lap, on the outside of both boards"] == Fraction(3, 8) * INCH


def test_each_board_holds_half_of_the_mitred_corner_and_all_of_its_lap():
    mated = mate(sound())
    between = (at_least(0, Fraction(20)), at_most(0, Fraction(30)))  # in the first tail
    ten = Fraction(10)
    outer = (*between, at_most(1, ten), at_most(2, ten))
    tail_lap = (*between, at_least(1, ten), at_most(1, 2 * ten), at_most(2, ten))
    pin_lap = (*between, at_most(1, ten), at_least(2, ten), at_most(2, 2 * ten))
    for region, tails, pins in ((outer, 500, 500), (tail_lap, 1000, 0), (pin_lap, 0, 1000)):
        assert convex(region, mated.first).volume() == pytest.approx(tails, abs=1e-6)
        assert convex(region, mated.second).volume() == pytest.approx(pins, abs=1e-6)


def test_the_tail_boards_wood_by_volume():
    """30 long, 20 thick; the strips lose half of 20 x 20, the rest a step, a mitre and spaces."""
    strips = 2 * 5 * 20 * 20 / 2
    step_and_mitre = 100 * (10 * 10 + 10 * 10 / 2)
    spaces = (100 - 3 * 24 + 3 * 2) * 10 * 10
    solid = board_solid(sound().members[0].part)
    assert solid.volume() == pytest.approx(110 * 30 * 20 - strips - step_and_mitre - spaces)


@pytest.mark.parametrize("thicknesses", [("16 mm", "20 mm"), ("20 mm", "16 mm")])
def test_boards_of_two_thicknesses_mate_and_are_advised_against(thicknesses):
    joint = KIND.build(box(thicknesses, tails=3))
    mated = mate(joint)
    assert max(mated.overlap, abs(mated.missing)) < 1e-4
    assert [(f.code, f.place) for f in joint.findings] == [("mitre-not-to-the-corner", "mitre")]
    assert {size.length for size in joint.sizes if "lap, on" in size.name} == {8}


def test_the_lap_by_rule_is_never_advised_against_for_its_thickness():
    for tenths in range(60, 300, 7):
        joint = KIND.build(box((f"{tenths / 10} mm",) * 2, tails=3))
        assert "lap-thick" not in [finding.code for finding in joint.findings]


@pytest.mark.parametrize(
    ("changes", "found"),
    [
        ({"lap": "20 mm"}, ("lap-too-thick", "lap")),
        ({"mitre": "55 mm"}, ("no-room", "mitre")),
        ({"start": "half-tail", "half_pin": None}, ("not-with-this-start", "start")),
        ({"tails": 40}, ("no-room", "tail")),
    ],
)
def test_what_cannot_be_cut_is_refused_by_name(changes, found):
    with pytest.raises(InputError) as caught:
        sound(**changes)
    assert [(f.code, f.place) for f in caught.value.findings] == [found]


def test_a_lap_that_breaks_or_takes_most_of_the_board_is_advised_against():
    for lap, codes in (("2.3 mm", ["lap-thin"]), ("13.4 mm", ["lap-thick"]), ("13.3 mm", [])):
        assert [f.code for f in sound(lap=lap).findings] == codes


def test_every_piece_of_advice_stands_at_a_parameter():
    names = {parameter.name for parameter in KIND.parameters}
    poor = sound(("20 mm", "22 mm"), slope="1:4", pin="1 mm", half_pin="0.5 mm", lap="2 mm")
    assert len(poor.findings) > 3
    assert {finding.place for finding in poor.findings} <= names


def test_the_pins_are_cut_first_and_the_laps_mitred_last():
    steps = [step.heading for step in sound().steps]
    order = [
        "Lay the templates on the tail board (SIDE) and the pin board (END)",
        "Rebate both ends",
        "Saw and chop the pins",
        "Mark the tail board (SIDE) from the pins",
        "Saw and chop the tails",
        "Mitre the edges and the laps",
        "Fit and glue",
    ]
    assert [steps.index(heading) for heading in order] == sorted(map(steps.index, order))
    words = " ".join(step.words for step in sound().steps)
    for figure in (
        "gauge to 10 mm",
        "Set a gauge to 20 mm for the tail board (SIDE) and the pin board (END) alike",
        "at 1:5",
        "a strip 5 mm wide",
    ):
        assert figure in words
