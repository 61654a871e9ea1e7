"""Splined mitres: what their figures must be, measured on the wood.

A probe along the mitre runs a hair behind it; y and z grow alike there, and a way of 1 in each
is the root of 2 long.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, SettingOut
from tests.joints.probes import HAIR, ZERO, Span, Wood, board_of, joined, left_of, lengths
from tests.joints.told_figures import equal, rule, same
from tests.joints.told_steps import sentence

ONE = Fraction(1)
ALONG, INTO = (ZERO, ONE, ONE), (ZERO, ONE, -ONE)
ROOT = math.sqrt(2)


def both(joint: Joint) -> list[Wood]:
    return [board_of(joint, member.role) for member in joint.members]


def groove(wood: Wood) -> tuple[Fraction, Fraction, Fraction]:
    """Where it begins and ends along the mitre, in y, and how deep it is, in y."""
    start = (wood.width / 9, HAIR, ZERO)
    ((low, high),) = wood.gone(start, ALONG, wood.thickness)
    middle = (low + high) / 2
    ((_, deep),) = wood.gone((wood.width / 9, middle + HAIR, middle), INTO, wood.thickness)
    return low, high, deep


def of_both(joint: Joint, measure) -> list[float]:
    one, other = (measure(wood, *groove(wood)) for wood in both(joint))
    return same([float(one)], [float(other)])


@rule(r"spline, thickness")
def _spline(joint):
    wide = of_both(joint, lambda _, low, high, __: (high - low) * ROOT)
    return same(wide, [board_of(joint, "spline").thickness])


@rule(r"spline, across the joint")
def _across(joint):
    """Less than both grooves are deep, so that the mitre closes before the spline strikes."""
    ((low, _),) = board_of(joint, "spline").gone((HAIR, ZERO, HAIR), (ZERO, ONE, ZERO), 500 * ONE)
    (deep,) = _depth(joint)
    assert low < 2 * deep
    return [low]


@rule(r"grooves, from the inner corner along the mitre")
def _from_corner(joint):
    return of_both(joint, lambda wood, _, high, __: (wood.thickness - high) * ROOT)


@rule(r"between the grooves and the outside faces")
def _left_outside(joint):
    return of_both(joint, lambda _, low, __, deep: low - deep)


@rule(r"depth stop, the grooves, square to the mitre")
def _depth(joint):
    return of_both(joint, lambda _, __, ___, deep: deep * ROOT)


@rule(r"rule, end of the grooves, from the reference edge")
def _ends(joint):
    def end(wood, low, high, _):
        middle = (low + high) / 2
        ((start, end),) = wood.gone((ZERO, middle + HAIR, middle), (ONE, ZERO, ZERO), wood.width)
        assert start == 0
        return end

    return of_both(joint, end)


def slots(wood: Wood, y: Fraction = HAIR) -> list[Span]:
    """On the outside face, that far from the corner."""
    return wood.gone((ZERO, y, ZERO), (ONE, ZERO, ZERO), wood.width)


def along_the_corner(joint: Joint, row: SettingOut) -> list[Span]:
    assert row.start == "reference edge"
    one, other = (slots(wood) for wood in both(joint))
    pairs = zip(one, other, strict=True)
    assert all(abs(a - b) < 1e-6 for spans in pairs for a, b in zip(*spans, strict=True))
    return one


def lean(wood: Wood) -> list[float]:
    """Of each slot, for each mm from the corner."""
    return [float(b - a) for (a, _), (b, _) in zip(slots(wood), slots(wood, ONE), strict=True)]


@rule(r"slots, off square to the corner, stock on the other board's outside face")
def _slot_slope(joint):
    """Neighbours lean the other way, and so does the slot on the other board."""
    one, other = map(lean, both(joint))
    assert all(a * b < 0 for a, b in pairwise(one))
    assert all(abs(a + b) < 1e-8 for a, b in zip(one, other, strict=True))
    return equal(list(map(abs, one)))


@rule(r"slots and feathers, thickness")
def _slot(joint):
    (wood, _), (feather,) = both(joint), feathers(joint)
    (mouth,) = equal(lengths(slots(wood)))
    return same([float(mouth) / math.hypot(1, ROOT * lean(wood)[0])], [feather.thickness])


@rule(r"gauge, ends of the slots, on both outside faces, from the corner")
def _slot_reach(joint):
    found = []
    for wood in both(joint):
        (low, high), *_ = slots(wood)
        way = (Fraction(lean(wood)[0]), ONE, ZERO)
        ((_, end),) = wood.gone(((low + high) / 2, HAIR, ZERO), way, wood.member.part.reach + ONE)
        found.append(end)
    return same(*([one] for one in found))


@rule(r"from one slot to the next, on the corner")
def _pitch(joint):
    starts = [low for low, _ in slots(both(joint)[0])]
    return equal([b - a for a, b in pairwise(starts)])


def feathers(joint: Joint) -> list[Wood]:
    return [board_of(joint, loose.member.role) for loose in joint.loose]


@rule(r"feather, long side")
def _long_side(joint):
    (feather,) = feathers(joint)
    far = 500 * ONE
    left = left_of(feather.gone((HAIR, ZERO, ZERO), (ZERO, ONE, ZERO), far), far)
    return lengths(left)


@rule(r"feather, from there to its point")
def _height(joint):
    """In its middle all of the stock is left; and it reaches past both outside faces."""
    (feather,) = feathers(joint)
    (long,) = _long_side(joint)
    assert not feather.gone((ZERO, long / 2, ZERO), (ONE, ZERO, ZERO), feather.width - HAIR)
    (reach,) = _slot_reach(joint)
    assert long > ROOT * reach * math.hypot(1, ROOT * lean(both(joint)[0])[0])
    return [feather.width]


def to_halves(length: float, rounded) -> float:
    """A figure that a rule is set to, by half millimetres."""
    return rounded(2 * length) / 2


def sloping(wood: Wood) -> Iterator[Span]:
    """All that slots take of a board's width, from the mitre to their ends on the outside face."""
    (low, high), *_ = slots(wood)
    way = (Fraction(lean(wood)[0]), ONE, ZERO)
    ((_, end),) = wood.gone(((low + high) / 2, HAIR, ZERO), way, wood.member.part.reach + ONE)
    return (span for share in range(9) for span in slots(wood, HAIR + (end - 2 * HAIR) * share / 8))


@sentence(
    r"Up to N mm deep it clears the slots .* within N mm of either edge\.",
    r"Up to N mm deep it clears the slots .* within N mm of either edge, "
    r"or between N mm and N mm from it\.",
)
def _groove_of_a_bottom(joint):
    """It runs round the corner at one height, so it must clear the slots of both boards."""
    woods = both(joint)
    ((under,),) = _under_the_corner(joint)
    deep = to_halves(float(woods[0].thickness) - under / ROOT, math.floor)
    width = woods[0].width
    room = left_of(joined(span for wood in woods for span in sloping(wood)), width)
    turned = [(width - high, width - low) for low, high in reversed(room)]
    (near, *between) = zip(room, turned, strict=True)
    found = [[deep], [to_halves(min(float(high) for _, high in near), math.floor)]]
    if len(between) > 1:
        found.append([to_halves(max(float(low) for low, _ in between[0]), math.ceil)])
        found.append([to_halves(min(float(high) for _, high in between[0]), math.floor)])
    return found


@sentence(r"across, N mm from the reference edge; chop")
def _chopped_end(joint):
    return [_ends(joint)]


@sentence(r"Draw the groove on (both edges|the reference edge) from")
def _shown_on(joint, edges):
    """On those where it runs out."""
    ends = _ends(joint)
    assert all((wood.width in ends) == (edges == "both edges") for wood in both(joint))
    return []


@sentence(r"the nearer one is N mm from the inner corner")
def _nearer(joint):
    return [_from_corner(joint)]


@sentence(r"Cut it N mm deep, square to the mitre")
def _deep(joint):
    return [_depth(joint)]


@sentence(r"Plane wood to N mm, so that it goes into the grooves .* cut it N mm across")
def _make_spline(joint):
    return [_spline(joint), _across(joint)]


@sentence(r"Mark their ends N mm from the corner on the outside face")
def _scribe_ends(joint):
    return [_slot_reach(joint)]


@sentence(
    r"straight-grained wood to N mm, a sliding fit in the slots.* Cut N for each corner by the "
    r"template, N mm"
)
def _make_feathers(joint):
    return [_slot(joint), [len(slots(both(joint)[0]))], _long_side(joint)]


@sentence(
    r"one cut N mm wide",
)
def _one_cut(joint):
    return [_slot(joint)]


@sentence(r"nearest to the reference edge (falls|rises)[^;]* and (falls|rises) on")
def _which_way(joint, *ways):
    """Falling is towards the reference edge, the farther from the corner."""
    assert [*ways] == ["falls" if lean(wood)[0] < 0 else "rises" for wood in both(joint)]
    return []


@sentence(r"between them, N mm deep under the corner")
def _under_the_corner(joint):
    """Along the mitre, in the middle of a slot."""
    (wood, _) = both(joint)
    (low, high), *_ = slots(wood)
    ((_, deep),) = wood.gone(((low + high) / 2, HAIR, ZERO), ALONG, wood.thickness)
    return [[deep * ROOT]]
