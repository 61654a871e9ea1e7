"""What every keyed joint states, whatever boards it joins: sizes, settings, the whole joint."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates import joint
from joinery_templates.errors import Finding
from joinery_templates.joints.along_line import dividers_along, sizes_along
from joinery_templates.joints.keys.row import KeyedJoint
from joinery_templates.joints.keys.work import MOVEMENT, advise, order_of_work
from joinery_templates.joints.layout import pose
from joinery_templates.joints.sources import JOYCE
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import HalfSpace, Part

SOURCES = (
    "proportions of a key, depth of a third to a half: common practice, no source",
    f"slopes: {JOYCE}",
    f"movement across the grain: {MOVEMENT}",
)


def keyed_joint(
    keyed: KeyedJoint,
    parts: tuple[Part, Part],
    filled: tuple[tuple[HalfSpace, ...], ...],
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
        filled: the regions that must be full.
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
        filled=filled,
        allowance=key.fit,
        rows=rows,
        sizes=tuple(_sizes(keyed)),
        lengths=tuple(_lengths(keyed)),
        slopes=(
            joint.SlopeSetting("sides of the keys, stock on the key's end", key.slope, "slope"),
        ),
        rules=rules,
        findings=(*advise(keyed), *findings),
        steps=tuple(order_of_work(keyed)),
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
