"""Tongue and groove: what the figures must be, measured on the wood, at one place along it."""

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.wood.board import Hand
from tests.joints.probes import HAIR, ZERO, Span, Wood, board_of, inner, left_of, lengths
from tests.joints.told_figures import rule, same
from tests.joints.told_steps import sentence

ONE = Fraction(1)


def boards(joint: Joint) -> tuple[Wood, Wood]:
    return board_of(joint, "first board"), board_of(joint, "second board")


def is_solid(joint: Joint) -> bool:
    return not joint.loose


def middle(joint: Joint, number: int) -> Span:
    """Tongue or groove at the edge that meets the other board."""
    wood = boards(joint)[number]
    gone = wood.through(HAIR if number else wood.width - HAIR, ONE)
    solid = is_solid(joint) and not number
    (span,) = inner(left_of(gone, wood.thickness) if solid else gone, wood.thickness)
    return span


def across(joint: Joint, number: int) -> list[Span]:
    """What is gone from edge to edge: of the tongue's shoulders, or in the groove."""
    wood = boards(joint)[number]
    z = HAIR if is_solid(joint) and not number else sum(middle(joint, number)) / 2
    return wood.gone((ZERO, ONE, z), (ONE, ZERO, ZERO), wood.width)


@rule(r"tongue, thickness", r"mortise gauge, its points, for tongue and groove")
def _tongue(joint):
    one, other = (lengths([middle(joint, number)]) for number in (0, 1))
    loose = [board_of(joint, "tongue").thickness] if joint.loose else one
    return same(same(one, other), loose)


@rule(r"gauge, nearer side of tongue and groove, from the outside face of both")
def _nearer(joint):
    return same(*([middle(joint, number)[0]] for number in (0, 1)))


@rule(r"tongue, length", r"gauge, tongue's shoulders, from the first board's far edge")
def _length(joint):
    """Shorter than the groove is deep, so that the shoulders close."""
    (length,) = lengths(across(joint, 0))
    assert length < _depth(joint)[0]
    return [length]


@rule(r"first board, width without the tongue")
def _shows(joint):
    return [boards(joint)[0].width - _length(joint)[0]]


@rule(r"loose tongue, across the joint")
def _across(joint):
    ((low, _),) = board_of(joint, "tongue").gone((HAIR, ZERO, HAIR), (ZERO, ONE, ZERO), 500 * ONE)
    assert low < 2 * _depth(joint)[0]
    return [low]


@rule(r"depth stop, groove")
def _depth(joint):
    depths = [lengths(across(joint, number)) for number in (0, 1)]
    return depths[1] if is_solid(joint) else same(*depths)


@rule(r"(first board|second board), behind the (tongue|groove) on the inside")
def _behind(joint, role, what):
    number = ("first board", "second board").index(role)
    assert (what == "tongue") == (is_solid(joint) and not number)
    return [board_of(joint, role).thickness - middle(joint, number)[1]]


@sentence(r"loses N mm of what shows to its tongue", r"scribe the shoulders N mm from the edge")
def _shoulders(joint):
    return [_length(joint)]


@sentence(r"Of the (\d+) boards .* [Tt]he whole measures N mm across")
def _all_together(joint, count):
    """The second stands where the first shows no more, and the next where the second does so."""
    first, second = (wood.width for wood in boards(joint))
    hidden = first - joint.placement.point((ZERO, ZERO, ZERO))[0]
    return [[first + (int(count) - 1) * (second - hidden)]]


@sentence(
    r"(?:those between have|and) a groove in the (\w+) edge and a (tongue|groove) \w+ the (\w+)"
)
def _both_edges(joint, groove, what, other):
    """As the second and as the first board are worked."""
    one, two = (wood.member.part.place(Hand.LEFT).words for wood in boards(joint))
    assert f"{groove} edge" in two
    assert f"{what} " in one
    assert f"{other} edge" in one
    return []


@sentence(r"mortise gauge to N mm, by the chisel.* nearer point N mm from the stock")
def _gauge(joint):
    return [_tongue(joint), _nearer(joint)]


@sentence(r"N mm deep, with a plough plane")
def _plough(joint):
    return [_depth(joint)]


@sentence(
    r"the groove is not deep enough\. Inside, the (first board|second board) is the thicker and "
    r"stands N mm past the (first board|second board)\."
)
def _past_inside(joint, thick, thin):
    """Their outside faces lie in one plane, and are gauged from."""
    assert joint.placement.point((ZERO, ZERO, ZERO))[2] == 0
    past = board_of(joint, thick).thickness - board_of(joint, thin).thickness
    assert past > 0
    return [[past]]


@sentence(r"Plane wood to N mm, to go in with.* cut it N mm across, its grain")
def _make_tongue(joint):
    return [_tongue(joint), _across(joint)]


@sentence(r"(?<!outside face and the )(far|reference) edge of the (first|second)(?: board)?\b")
def _edge(joint, edge, which):
    """The first is worked along its far edge, the second along its reference edge."""
    if joint.kind == "tongue-and-groove":
        assert (edge, which) in {("far", "first"), ("reference", "second")}
    return []
