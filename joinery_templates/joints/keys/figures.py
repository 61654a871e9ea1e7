"""What every keyed joint states, whatever boards it joins: sizes, settings, the whole joint."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joint import (
    Clearing,
    Joint,
    LengthSetting,
    Mark,
    Member,
    SettingOut,
    Size,
    SlopeSetting,
)
from joinery_templates.joints.keys.key import JointLine, Key
from joinery_templates.joints.keys.layout import KeyedJoint
from joinery_templates.joints.keys.parameters import KeyParameters, first_told
from joinery_templates.joints.keys.row import KeyRow
from joinery_templates.joints.keys.work import advise, order_of_work
from joinery_templates.joints.kind import Kind
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import HalfSpace, Part, at_least, at_most

ROLES = KeyedJoint.roles
SOURCES = (
    "proportions of a key, depth of a third to a half: common practice, no source",
    "slopes: The Technique of Furniture Making, chapter on dovetailing",
    "movement across the grain: Wood Handbook, FPL-GTR-190, table 13-5",
)
WIDEST_DIVIDERS = Fraction(100)
"""A longer step is taken from the rule or the strip (our judgement)."""


def keyed_joint(
    kind: Kind,
    keyed: KeyedJoint,
    line: JointLine,
    ends: tuple[Part, Part],
    filled: tuple[tuple[HalfSpace, ...], ...],
    rows: tuple[SettingOut, ...],
    rules: tuple[str, ...],
    shown: tuple[Fraction, ...] | None = None,
    faces: tuple[Face, ...] = (),
    drawn: tuple[Face, ...] = (),
    reference: str = "",
    findings: tuple[Finding, ...] = (),
) -> Joint:
    """The whole layout.

    Args:
        kind: of the joint.
        keyed: its keys.
        line: that they lie across.
        ends: what of both boards takes part, with all cuts.
        filled: the regions that must be full.
        rows: setting-out rows.
        rules: what was decided by a rule besides the row of keys.
        shown: the middles of the keys that the boards are drawn with, unless all of them.
        faces: those that carry lines, where the boards fold.
        drawn: those to which the patterns are limited; none where they are not.
        reference: what the reference edges are on the piece, where that is settled.
        findings: advice of the kind's own.
    """
    key, row = keyed.key, keyed.row
    one, other = (
        Member(role.words, end, hand, reference, drawn)
        for role, end, hand in zip(keyed.roles, ends, (Hand.RIGHT, Hand.LEFT), strict=True)
    )
    sockets = Clearing("sockets", 2 * key.half_mouth, 2 * key.half_width, "waist", sawn=False)
    return Joint(
        kind=kind.name,
        title=kind.title,
        members=(one, other),
        placements=(line.placement,),
        filled=filled,
        allowance=key.fit,
        rows=rows,
        sizes=tuple(_sizes(keyed)),
        lengths=tuple(_lengths(keyed)),
        slopes=(SlopeSetting("sides of the keys", key.slope),),
        rules=(*rules, *row.rules),
        findings=(*advise(keyed), *findings),
        steps=order_of_work(keyed),
        faces=faces,
        loose=(line.loose(key, shown or row.positions, keyed.count),),
        at_corner=False,
        clearings=(sockets,),
    )


def _sizes(keyed: KeyedJoint) -> Iterator[Size]:
    key, row = keyed.key, keyed.row
    yield Size("key, from tip to tip", key.length)
    yield Size("key, at its ends", key.width)
    yield Size("key, at its waist", key.waist)
    yield Size("key, thickness of its stock", key.thickness)
    if key.fit:
        yield Size("socket, from tip to tip", 2 * key.reach)
        yield Size("socket, at its waist", 2 * key.half_mouth)
    if row.pitch is not None:
        yield Size("from one key's middle to the next", row.pitch)
    first, last = ("first key's", "last key's") if keyed.count > 1 else ("key's", "key's")
    start, end = keyed.limits
    yield Size(f"from the {start} to the {first} middle", row.positions[0])
    yield Size(f"from the {last} middle to the {end}", row.length - row.positions[-1])


def _lengths(keyed: KeyedJoint) -> Iterator[LengthSetting]:
    key, pitch = keyed.key, keyed.row.pitch
    yield LengthSetting("gauge", f"tips of the sockets, from {keyed.line}", key.reach)
    if not key.through:
        yield LengthSetting("router or gauge", "depth of the sockets", key.depth)
    if pitch is not None and pitch <= WIDEST_DIVIDERS:
        yield LengthSetting("dividers", "from one key's middle to the next", pitch)


def middles(row: KeyRow, title: str, start: str) -> SettingOut:
    """The keys' middles along the joint line, as the first board's row to make a strip of."""
    marks = tuple(
        Mark(position, f"middle of key {number}")
        for number, position in enumerate(row.positions, start=1)
    )
    return SettingOut(
        title, ROLES[0].words, row.length, marks, main=True, start=start, along_end=False
    )


def mouths(row: KeyRow, key: Key) -> tuple[Mark, ...]:
    """The sockets' sides on the joint line, in order."""
    return tuple(
        mark
        for number, middle in enumerate(row.positions, start=1)
        for mark in (
            Mark(middle - key.half_mouth, f"socket {number} starts"),
            Mark(middle + key.half_mouth, f"socket {number} ends"),
        )
    )


def block(
    low: tuple[Fraction, Fraction], high: tuple[Fraction, Fraction], thickness: Fraction
) -> tuple[HalfSpace, ...]:
    """A region as thick as the boards, from its least to its greatest x and y."""
    return (
        at_least(0, low[0]),
        at_most(0, high[0]),
        at_least(1, low[1]),
        at_most(1, high[1]),
        at_least(2, Fraction(0)),
        at_most(2, thickness),
    )


def check_reach(
    board: Board, across: Fraction, reach: Fraction, given: KeyParameters, units: Units
) -> None:
    """Wood must be left behind the tips of the sockets.

    Args:
        board: that they are cut in.
        across: how much of it there is, away from the joint line.
        reach: from the joint line to the tips.
        given: what was told.
        units: for words.

    Raises:
        InputError: `no-room`.
    """
    if across <= reach:
        raise InputError(
            mistake(
                "no-room",
                f'Sockets reach {length_text(reach, units)} into board "{board.name}", which '
                f"is only {length_text(across, units)} across there.",
                "Give shorter keys.",
                first_told(given, "key_length", "key_width"),
            )
        )
