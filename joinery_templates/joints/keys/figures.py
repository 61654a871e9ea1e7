"""What every keyed joint states, whatever boards it joins: sizes, settings, the whole joint."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joints.joint import (
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
from joinery_templates.joints.keys.parameters import KeyGiven, first_told
from joinery_templates.joints.keys.row import Row
from joinery_templates.joints.keys.work import Work, advise, order_of_work
from joinery_templates.joints.kind import BoardRole
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import HalfSpace, Part, at_least, at_most

ROLES = (BoardRole("first_board", "first board"), BoardRole("second_board", "second board"))
SOURCES = (
    "proportions of a key, depth of a third to a half: common practice, no source",
    "slopes: The Technique of Furniture Making, chapter on dovetailing",
    "movement across the grain: Wood Handbook, FPL-GTR-190, table 13-5",
)
WIDEST_DIVIDERS = Fraction(100)
"""A longer step is taken from the rule or the strip (our judgement)."""


@dataclass(frozen=True, slots=True)
class Told:
    """What a kind says besides its keys.

    Attributes:
        kind: its name and title.
        ends: what of both boards takes part, with all cuts.
        shown: the middles of the keys that the boards are drawn with, along the line.
        filled: the regions that must be full.
        rows: setting-out rows.
        rules: what was decided by a rule.
        faces: those that carry lines, where the boards fold.
        drawn: those to which the patterns are limited; none where they are not.
        reference: what the reference edges are on the piece, where that is settled.
        findings: advice of its own.
    """

    kind: tuple[str, str]
    ends: tuple[Part, Part]
    shown: tuple[Fraction, ...]
    filled: tuple[tuple[HalfSpace, ...], ...]
    rows: tuple[SettingOut, ...]
    rules: tuple[str, ...]
    faces: tuple[Face, ...] = ()
    drawn: tuple[Face, ...] = ()
    reference: str = ""
    findings: tuple[Finding, ...] = ()


def keyed_joint(work: Work, line: JointLine, told: Told) -> Joint:
    """The whole layout."""
    key = work.key
    return Joint(
        kind=told.kind[0],
        title=told.kind[1],
        members=(
            Member(ROLES[0].words, told.ends[0], Hand.RIGHT, told.reference, told.drawn),
            Member(ROLES[1].words, told.ends[1], Hand.LEFT, told.reference, told.drawn),
        ),
        placement=line.placement,
        filled=told.filled,
        allowance=key.fit,
        rows=told.rows,
        sizes=tuple(_sizes(work)),
        lengths=tuple(_lengths(work)),
        slopes=(SlopeSetting("sides of the keys", key.slope),),
        rules=told.rules,
        findings=(*advise(work), *told.findings),
        steps=order_of_work(work),
        faces=told.faces,
        loose=(line.loose(key, told.shown, work.count),),
        at_corner=False,
        clearings=(Clearing("sockets", 2 * key.half_mouth, 2 * key.half_width, "waist"),),
    )


def _sizes(work: Work) -> Iterator[Size]:
    key, row = work.key, work.row
    yield Size("key, from tip to tip", key.length)
    yield Size("key, at its ends", key.width)
    yield Size("key, at its waist", key.waist)
    yield Size("key, thickness of its stock", key.thickness)
    if key.fit:
        yield Size("socket, from tip to tip", 2 * key.reach)
        yield Size("socket, at its waist", 2 * key.half_mouth)
    if row.pitch is not None:
        yield Size("from one key's middle to the next", row.pitch)
    first, last = ("first key's", "last key's") if work.count > 1 else ("key's", "key's")
    start, end = work.limits
    yield Size(f"from the {start} to the {first} middle", row.positions[0])
    yield Size(f"from the {last} middle to the {end}", row.length - row.positions[-1])


def _lengths(work: Work) -> Iterator[LengthSetting]:
    key, pitch = work.key, work.row.pitch
    yield LengthSetting("gauge", f"tips of the sockets, from {work.line}", key.reach)
    if not key.through:
        yield LengthSetting("router or gauge", "depth of the sockets", key.depth)
    if pitch is not None and pitch <= WIDEST_DIVIDERS:
        yield LengthSetting("dividers", "from one key's middle to the next", pitch)


def middles(row: Row, title: str, start: str) -> SettingOut:
    """The keys' middles along the joint line, as the first board's row to make a strip of."""
    marks = tuple(
        Mark(position, f"middle of key {number}")
        for number, position in enumerate(row.positions, start=1)
    )
    return SettingOut(
        title, ROLES[0].words, row.length, marks, main=True, start=start, along_end=False
    )


def mouths(row: Row, key: Key) -> tuple[Mark, ...]:
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


def check_widths(boards: tuple[Board, Board], units: Units, what: str) -> None:
    """Both boards must be of one width.

    Raises:
        InputError: `widths-differ`.
    """
    first, second = boards
    if first.width != second.width:
        raise InputError(
            mistake(
                "widths-differ",
                f'Board "{first.name}" is {length_text(first.width, units)} wide and '
                f'"{second.name}" {length_text(second.width, units)}.',
                f"{what} both are of one width; plane them together.",
            )
        )


def check_reach(
    board: Board, across: Fraction, reach: Fraction, given: KeyGiven, units: Units
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
                f'Sockets reach {length_text(reach, units)} into board "{board.name}", which is '
                f"only {length_text(across, units)} across there.",
                "Give shorter keys.",
                first_told(given, "key_length", "key_width"),
            )
        )
