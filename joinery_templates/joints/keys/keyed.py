"""What every keyed joint states, whatever boards it joins: figures, advice, the order of work."""

from collections.abc import Iterator
from itertools import pairwise

from joinery_templates import joint
from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.exact import Fraction
from joinery_templates.joint import Step, Task
from joinery_templates.joints.along_line import dividers_along, sizes_along
from joinery_templates.joints.checks import loose_fit, unusual_slope
from joinery_templates.joints.keys.parameters import LONGEST_ACROSS
from joinery_templates.joints.keys.row import KeyedJoint
from joinery_templates.joints.layout import pose
from joinery_templates.joints.sources import JOYCE, WOOD_HANDBOOK
from joinery_templates.joints.words import BESIDE, PEEL, beside, measure_again, slope_text
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import Part

SLOPES = f"{JOYCE}, of dovetails"
MOVEMENT = f"{WOOD_HANDBOOK}, table 13-5"
THINNEST_WAIST = Fraction(2, 5)
"""A waist of less than this share of the key's width is weak (our judgement)."""
CHERRY = Fraction(248, 100_000)
"""Black cherry, tangential: how much it moves for each percent of moisture (MOVEMENT)."""
SEASONS = 4
"""Percent of moisture between a damp and a dry season (our judgement)."""
SOURCES = (
    "proportions of a key, depth of a third to a half: common practice, no source",
    f"slopes: {JOYCE}",
    f"movement across the grain: {MOVEMENT}",
)


def keyed_joint(
    keyed: KeyedJoint,
    parts: tuple[Part, Part],
    rows: tuple[joint.SettingOut, ...],
    rules: tuple[str, ...],
    shown: tuple[Fraction, ...] | None = None,
    reference: str = "",
    findings: tuple[Finding, ...] = (),
) -> joint.Joint:
    """The whole layout.

    Args:
        keyed: its keys.
        parts: what of both boards takes part, with all cuts.
        rows: setting-out rows.
        rules: what was decided by a rule.
        shown: the middles of the keys that the boards are drawn with, unless all of them.
        reference: what the reference edges are on the piece, where that is settled.
        findings: advice of the kind's own.
    """
    key, line, row = keyed.key, keyed.line, keyed.row
    with_sockets = (Face.OUTSIDE, Face.INSIDE) if key.through else (Face.OUTSIDE,)
    # Where no wrap goes over an end, the edges carry no lines that the faces do not.
    one, other = (
        joint.Member(role.words, part, hand, reference, () if part.folds else with_sockets)
        for role, part, hand in zip(keyed.roles, parts, (Hand.RIGHT, Hand.LEFT), strict=True)
    )
    stock = joint.Member("key", key.end(), Hand.LEFT, faces=(Face.OUTSIDE,))
    keys = tuple(line.key_at(key, position) for position in shown or row.positions)
    return joint.Joint(
        members=(one, other),
        placements=(line.placement,),
        allowance=key.fit,
        rows=rows,
        sizes=tuple(_sizes(keyed)),
        lengths=tuple(_lengths(keyed)),
        slopes=(
            joint.SlopeSetting("sides of the keys, stock on the key's end", key.slope, "slope"),
        ),
        rules=rules,
        findings=(*_advise(keyed), *findings),
        steps=tuple(_order_of_work(keyed)),
        pose=pose(up=(0, 0, -1), front=(-2, -1, 0), apart=(0, 0, -1)),
        loose=(joint.Loose(stock, keys, count=keyed.count),),
        at_corner=False,
        clearings=(
            joint.Clearing("sockets", 2 * key.half_mouth, 2 * key.half_width, "waist", sawn=False),
        ),
    )


def _sizes(keyed: KeyedJoint) -> Iterator[joint.Size]:
    key, row = keyed.key, keyed.row
    yield joint.Size("key, from tip to tip", key.length)
    yield joint.Size("key, at its ends", key.width)
    yield joint.Size("key, at its waist", key.waist)
    yield joint.Size("key, thickness of its stock", key.thickness)
    if key.fit:
        yield joint.Size("socket, from tip to tip", 2 * key.reach)
        yield joint.Size("socket, at its waist", 2 * key.half_mouth)
    yield from sizes_along("key", row.positions, row.length, keyed.line.limits)


def _lengths(keyed: KeyedJoint) -> Iterator[joint.LengthSetting]:
    key = keyed.key
    yield joint.LengthSetting("rule", f"tips of the sockets, from {keyed.line.name}", key.reach)
    if not key.through:
        yield joint.LengthSetting("router or gauge", "depth of the sockets", key.depth)
    yield from dividers_along("key", keyed.row.positions)


def mouths(keyed: KeyedJoint) -> tuple[joint.Mark, ...]:
    """The sockets' sides on the joint line, in order."""
    half = keyed.key.half_mouth
    return tuple(
        mark
        for number, middle in enumerate(keyed.row.positions, start=1)
        for mark in joint.starts_and_ends(f"socket {number}", middle - half, middle + half)
    )


def _advise(keyed: KeyedJoint) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    key, text = keyed.key, keyed.text
    shown = f"The keys' sides lean {slope_text(key.slope)}"
    yield from unusual_slope(
        key.slope,
        f"{shown}: the corners at the keys' ends and beside the sockets' waists are short grain "
        "and break away.",
        f"{shown}: so little taper holds little.",
        SLOPES,
        "Take 1:5 to 1:8.",
    )
    if key.waist < THINNEST_WAIST * key.width:
        yield advice(
            "waist-thin",
            f"A waist of {text(key.waist)} is thin for a key {text(key.width)} wide, and the waist "
            "alone holds the joint.",
            OURS,
            "Leave half of the key's width there, by a flatter slope or a shorter key.",
            "waist",
        )
    if not key.through:
        yield from _on_depth(keyed)
    yield from _on_places(keyed)
    if keyed.across_grain and key.length > LONGEST_ACROSS:
        yield advice(
            "key-long-across-grain",
            f"The keys' grain crosses the boards'. Over {text(key.length)} flat-sawn black "
            f"cherry moves {text(key.length * CHERRY * SEASONS)} when its moisture changes by "
            f"{SEASONS} %, and a key does not: it may split the board or come loose.",
            f"{MOVEMENT}; the limit of {text(LONGEST_ACROSS)} is our judgement",
            "Take shorter keys, or more of them.",
            "key_length",
        )
    yield from loose_fit(
        keyed,
        key.fit,
        "all round is more than glue fills well, and lets the joint open before the key holds",
    )


def _on_depth(keyed: KeyedJoint) -> Iterator[Finding]:
    depth, thick = keyed.key.depth, keyed.thinner.thickness
    if depth < thick / 3:
        yield advice(
            "depth-shallow",
            f"Sockets {keyed.text(depth)} deep in wood {keyed.text(thick)} thick give the keys "
            "little hold.",
            f"{COMMON}: a third to a half of the thickness",
            f"Make them at least {keyed.text(thick / 3)} deep.",
            "depth",
        )
    elif depth > thick * 3 / 4:
        yield advice(
            "floor-thin",
            f"Sockets {keyed.text(depth)} deep leave a floor of {keyed.text(thick - depth)}, which "
            "a chisel may break through.",
            OURS,
            "Make them half as deep as the wood is thick, or let the keys go right through.",
            "depth",
        )


def _on_places(keyed: KeyedJoint) -> Iterator[Finding]:
    key, places = keyed.key, keyed.row.positions
    between = min((b - a - 2 * key.half_width for a, b in pairwise(places)), default=key.width)
    if between < key.width:
        yield advice(
            "keys-close",
            f"Only {keyed.text(between)} of wood is left between two sockets.",
            f"{OURS}: at least as much as a key is wide",
            "Give fewer or narrower keys.",
            "keys",
        )
    end = min(places[0], keyed.row.length - places[-1]) - key.half_width
    if end < key.width / 2:
        yield advice(
            "key-near-end",
            f"Only {keyed.text(max(end, Fraction(0)))} of wood is left between a socket and an end "
            f"of {keyed.line.name}; it may split away when the key is driven in.",
            f"{OURS}: at least half of a key's width",
            "Move the outermost keys further in.",
            "end_distance",
        )


def _order_of_work(keyed: KeyedJoint) -> Iterator[Step]:
    """The steps, in order (common practice, no source)."""
    key, several = keyed.key, keyed.count > 1
    each = f"for each {keyed.line.name.removeprefix('the ')}"
    yield Step(
        Task.PREPARE,
        "Prepare",
        "Mark the outside face, from which the keys are let in, and the reference edge of "
        f"{keyed.named(0)} and of {keyed.named(1)}. {measure_again(with_width=False)}",
    )
    yield keyed.meet
    yield Step(
        Task.MAKE_KEYS,
        f"Make the key{'s' if several else ''}",
        f"Plane straight-grained hardwood to {keyed.text(key.width)} × "
        f"{keyed.text(key.thickness)}, its grain along the length. Square the "
        "end, glue the key's template on the face, the edge that ▲ points to on that end, "
        f"saw all four slopes {BESIDE}, and pare to the middle of the line, square to the face. "
        "Test the two at the end with the bevel. Saw the key off squarely at the line across, "
        f"{keyed.text(key.length)} from the end, and test the others."
        + (
            f" Make {keyed.count} {each}, off an end that is squared anew for each, all marked "
            "from the first, and number them."
            if several
            else f" Make one {each}, all marked from the first."
        ),
    )
    yield Step(
        Task.JOIN,
        "Join the boards",
        "Glue the boards together, their outside faces up and flush, and let the glue harden; or "
        "clamp them so, dry, until every socket is marked, and glue them when the keys go in."
        f"{_pack(keyed)} A key crosses a joint that fits; it does not close one that gapes.",
    )
    check = f"Check: {keyed.text(key.reach)} from {keyed.line.name} to a socket's tip."
    if key.through:
        check += (
            " The keys go right through: turn the boards over, and lay on and prick likewise what "
            "the templates show of the inside face."
        )
    yield Step(Task.LAY_ON, "Lay on the templates", f"{keyed.lay_on} {check}")
    yield Step(
        Task.LAY_ON,
        "Mark from the key itself",
        f"Lay {'each' if several else 'the'} key between its pricks with its waist on "
        f"{keyed.line.name}, and knife round it. Where line and key differ, the key is right. "
        "Give socket and key the same number and mark which way round."
        + (
            " On the inside face knife round the same key, its other face up and the same end over "
            "the same board."
            if key.through
            else ""
        ),
        (0, 1, 2),
    )
    deep = f"Take out the waste {keyed.text(key.depth)} deep"
    floor = "Level the floor with a router plane or a gauge-set chisel, and pare the walls square"
    glued, down, faces = "walls and floor", "down to the floor", "the face"
    if key.through:
        deep = "Bore out the waste half way from each face"
        floor = "Pare the walls square from both faces"
        glued, down, faces = "the walls", "until it comes flush with the inside face", "both faces"
        if key.proud:
            down = f"until it stands {keyed.text(key.proud)} out of the inside face too"
    yield Step(
        Task.CUT_SECOND,
        "Chop the sockets",
        f"{deep}, {beside('the knifed line')}, chopping across the grain before along it. {floor}, "
        "to the middle of the line. Keep the edges at the waist whole: they hold the joint.",
        (0, 1),
    )
    proud = f"Plane {faces} level when the glue is hard."
    if key.proud:
        they_stand, them = ("The keys stand", "them") if several else ("The key stands", "it")
        proud = (
            f"{they_stand} {keyed.text(key.proud)} proud of {faces}: plane {them} flush when the "
            "glue is hard, from the tips towards the waist."
        )
    yield Step(
        Task.GLUE,
        "Fit and glue",
        f"{PEEL} Ease the lower arrises of each key and try it a third of the way, no deeper: "
        "leave enough standing to take hold of and rock it out. Glue "
        f"{glued}, set the key on its socket and drive it in with a block and a mallet, level and "
        f"square to the face, {down}. {proud}",
    )


def _pack(keyed: KeyedJoint) -> str:
    """What lies under the thinner board, where they differ."""
    thin, thick = sorted(keyed.boards, key=lambda board: board.thickness)
    short = thick.thickness - thin.thickness
    return f" Pack {thin.called} up by {keyed.text(short)}." if short else ""
