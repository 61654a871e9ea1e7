"""Scarfs: what their figures must be, measured on the wood, at one place across it."""

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from tests.joints.probes import HAIR, ZERO, Wood, board_of
from tests.joints.told_figures import equal, rule, same
from tests.joints.told_steps import sentence

ONE = Fraction(1)
FAR = Fraction(5000)
STEP = Fraction(1, 100)


def boards(joint: Joint) -> tuple[Wood, Wood]:
    return board_of(joint, "first board"), board_of(joint, "second board")


def from_waste(wood: Wood, number: int, depth: Fraction) -> Fraction:
    """The z that lies so far behind the face from which the waste goes."""
    return wood.thickness - depth if number else depth


def along(joint: Joint, number: int, depth: Fraction) -> Fraction:
    """How far the waste goes along a board, so far behind that face."""
    wood = boards(joint)[number]
    start = (ONE, ZERO, from_waste(wood, number, depth))
    return wood.gone(start, (ZERO, ONE, ZERO), FAR)[-1][1]


def down(joint: Joint, number: int, y: Fraction) -> Fraction:
    """How deep it goes at a place along the board."""
    wood = boards(joint)[number]
    way = (ZERO, ZERO, -ONE if number else ONE)
    ((_, deep),) = wood.gone((ONE, y, from_waste(wood, number, ZERO)), way, wood.thickness)
    return deep


def of_both(joint: Joint, measure) -> list:
    return same(*([measure(number)] for number in (0, 1)))


@rule(r"scarf, length along the boards")
def _length(joint):
    return of_both(joint, lambda number: along(joint, number, HAIR))


def step(joint: Joint, number: int) -> Fraction:
    """Where the hook stands up: at half the thickness the waste begins there a second time."""
    wood = boards(joint)[number]
    start = (ONE, ZERO, wood.thickness / 2)
    _, (low, _) = wood.gone(start, (ZERO, ONE, ZERO), FAR)
    return low


@rule(r"from the scarf's ends to the hook")
def _before(joint):
    return of_both(joint, lambda number: step(joint, number))


@rule(r"gauge, hook, from the outside and from the inside face of both")
def _hook_side(joint):
    """The waste's depth just before the hook, and what is left just behind it."""
    before = of_both(joint, lambda n: down(joint, n, step(joint, n) - HAIR))
    left = of_both(
        joint, lambda n: boards(joint)[n].thickness - down(joint, n, step(joint, n) + HAIR)
    )
    return same(before, left)


@rule(r"hook, depth")
def _hook(joint):
    return [boards(joint)[0].thickness - 2 * _hook_side(joint)[0]]


@rule(r"gauge, square ends, from the face that they stand at")
def _nib(joint):
    """The tip's thickness at its end, and the depth of what it stands against."""
    tips = of_both(joint, lambda n: boards(joint)[n].thickness - down(joint, n, ZERO))
    return same(tips, of_both(joint, lambda n: down(joint, n, _length(joint)[0] - HAIR)))


@rule(r"key, width")
def _key(joint):
    """What is left between the hooks of both boards; two wedges head to tail are as wide."""
    wide = _length(joint)[0] - 2 * _before(joint)[0]
    long = wedge_length(joint)
    at = (HAIR, long / 3, long - HAIR)
    return same(*([wide], equal([wedge_at(joint, y) + wedge_at(joint, long - y) for y in at])))


def wedge_at(joint: Joint, y: Fraction) -> Fraction:
    """How wide a wedge is so far from the end of its stock, from its straight side."""
    ((low, high),) = board_of(joint, "wedge").pieces(y, ZERO)
    assert low == 0
    return high


def wedge_length(joint: Joint) -> Fraction:
    ((low, _),) = board_of(joint, "wedge").gone((HAIR, ZERO, ZERO), (ZERO, ONE, ZERO), FAR)
    return low


@rule(r"drawn slants, before they are sawn, stock on the squared end")
def _slope(joint):
    return of_both(joint, lambda n: (down(joint, n, ZERO) - down(joint, n, STEP)) / STEP)


@sentence(r"Both together are N mm longer than the whole")
def _longer(joint):
    return [_length(joint)]


@sentence(r"the whole, which is N mm long")
def _whole(joint):
    return [[sum(wood.member.part.board.length for wood in boards(joint)) - _length(joint)[0]]]


@sentence(
    r"N mm from the end, on the (out|in)side face of the first board and on the (out|in)side face"
)
def _to_a_face(joint, *faces):
    """There the waste of either board ends, right across the face that it is on."""
    found: list = []
    for wood, face in zip(boards(joint), faces, strict=True):
        z = ZERO if face == "out" else wood.thickness
        found += [wood.gone((x, ZERO, z), (ZERO, ONE, ZERO), FAR) for x in (ONE, wood.width / 2)]
    ends = {spans[0][1] if spans else ZERO for spans in found}
    assert len(ends) == 1
    return [ends]


@sentence(r"Scribe the hook N mm from both faces, and the square ends N mm from")
def _scribe(joint):
    return [_hook_side(joint), _nib(joint)]


@sentence(r"flat for the key lies N mm to N mm from the end")
def _flat(joint):
    """As far as all is gone that lies just before the hook's farther side."""
    deep = _hook_side(joint)[0] + _hook(joint)[0] - HAIR
    return [_before(joint), of_both(joint, lambda number: along(joint, number, deep))]


@sentence(r"Make two for each scarf\. Plane [a-z, -]+ to N mm × N mm")
def _stock_of_wedges(joint):
    """As wide as a wedge is at its thick end, where it is cut off, and as thick as the hook."""
    (loose,) = joint.loose
    assert loose.made == 2
    stock = board_of(joint, "wedge")
    at_its_end = wedge_at(joint, wedge_length(joint) - HAIR)
    return [same([stock.width], [at_its_end]), same(_hook(joint), [stock.thickness])]


@sentence(
    r"at the line across, N mm from the end; mark the other from the first\. From N mm a wedge "
    r"grows to N mm: head to tail, slope on slope and their ends level, the two are N mm wide all "
    r"along\. They are to stand N mm past each edge"
)
def _wedges(joint):
    long = wedge_length(joint)
    (loose,) = joint.loose
    past = set()
    for at in loose.placements:
        low, high = sorted(at.point((ZERO, y, ZERO))[0] for y in (ZERO, long))
        past |= {-low, high - boards(joint)[0].width}
    return [[long], [wedge_at(joint, HAIR)], [wedge_at(joint, long - HAIR)], _key(joint), [*past]]


@sentence(
    r"Saw the scarf of the (first|second) board.*The waste is on the (out|in)side face",
)
def _goes(joint, which, face):
    wood = boards(joint)[which == "second"]
    outside = wood.gone((ONE, HAIR, ZERO), (ZERO, ZERO, ONE), wood.thickness)[0][0] == 0
    assert outside == (face == "out")
    return []
