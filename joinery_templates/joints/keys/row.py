"""Where keys stand along a joint line."""

import math
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joints.checks import refuse
from joinery_templates.joints.keys.key import Key
from joinery_templates.joints.keys.parameters import KeyParameters, first_told
from joinery_templates.lengths import Units, length_text

MOST_KEYS = 200


class KeyGround(Struct, frozen=True):
    """The line that keys are spread along.

    Attributes:
        length: of the line; None where nobody told it.
        share: room for one key where their number is not told.
        share_rule: how the number follows from `share`.
        nearest: how near a key's middle may come to the line's start, and to its end.
        line: what it is called.
        limits: what it starts and ends at.
    """

    length: Fraction | None
    share: Fraction
    share_rule: str
    nearest: tuple[Fraction, Fraction]
    line: str
    limits: tuple[str, str]


class KeyRow(Struct, frozen=True):
    """Keys along a line: its length, the middles from its start, and the rules."""

    length: Fraction
    positions: tuple[Fraction, ...]
    rules: tuple[str, ...]

    @property
    def pitch(self) -> Fraction | None:
        """From one key's middle to the next, where that is one distance."""
        steps = {after - before for before, after in pairwise(self.positions)}
        return steps.pop() if len(steps) == 1 else None


def lay_keys(given: KeyParameters, key: Key, ground: KeyGround, units: Units) -> KeyRow:
    """The row of keys.

    Raises:
        InputError: where keys do not fit on the line, or what is told disagrees.
    """
    refuse(_on_order(given, ground, units))
    row = _listed(given, ground) if given.positions else _even(given, key, ground)
    refuse(_on_places(row, key, ground, units, given))
    return row


def _listed(given: KeyParameters, ground: KeyGround) -> KeyRow:
    positions = given.positions or ()
    if given.keys not in (None, len(positions)):
        raise InputError(
            mistake(
                "does-not-add-up",
                f"{len(positions)} positions are listed for {given.keys} keys.",
                "Leave keys out, or list as many positions.",
                "positions",
            )
        )
    if given.end_distance not in (None, positions[0]):
        raise InputError(
            mistake(
                "does-not-add-up",
                "The first position is not the end distance.",
                "Leave one of the two out.",
                "end_distance",
            )
        )
    if ground.length is not None:
        return KeyRow(ground.length, positions, ())
    rule = "as much after the last key as before the first (our judgement)"
    return KeyRow(positions[-1] + positions[0], positions, (f"Length of the joint line: {rule}.",))


def _even(given: KeyParameters, key: Key, ground: KeyGround) -> KeyRow:
    """All at one distance; half of it at each end unless told otherwise."""
    rules, count, length = [], given.keys, ground.length
    # At the outer corner of a mitre a socket breaks out before its side meets the corner.
    left_out = ground.nearest[0] - key.half_width
    if count is None:
        count = 3
        if length is not None:
            count = max(1, math.floor((length - left_out) / ground.share + Fraction(1, 2)))
        told = "3" if length is None else ground.share_rule
        rules.append(f"Number of keys: {told} (our judgement).")
    if count > MOST_KEYS:
        raise InputError(
            mistake(
                "too-many-keys",
                f"That would be {count} keys; this program lays out at most {MOST_KEYS}.",
                "Give keys, fewer of them.",
                first_told(given, "keys"),
            )
        )
    if length is None:
        length = count * ground.share
        rules.append(f"Length of the joint line: not told, so {ground.share_rule} (our judgement).")
    end = given.end_distance
    if end is None:
        skipped = ", the start left out where a socket would break out" if left_out else ""
        rules.append(f"Places: each in the middle of an equal share{skipped} (our judgement).")
        share = (length - left_out) / count
        first = left_out + share / 2
        return KeyRow(length, tuple(first + share * n for n in range(count)), tuple(rules))
    step = (length - 2 * end) / (count - 1) if count > 1 else Fraction(0)
    return KeyRow(length, tuple(end + step * n for n in range(count)), tuple(rules))


def _on_order(given: KeyParameters, ground: KeyGround, units: Units) -> Iterator[Finding]:
    """What would put keys behind one another: told as it was given."""
    for before, after in pairwise(given.positions or ()):
        if after <= before:
            yield mistake(
                "not-in-order",
                f"The positions are not in order: {length_text(before, units)} is followed by "
                f"{length_text(after, units)}.",
                f"List them from the {ground.limits[0]} on, each one once.",
                "positions",
            )
            return
    end, length = given.end_distance, ground.length
    if given.positions is None and end and length and end > length / 2:
        yield mistake(
            "no-room",
            f"An end distance of {length_text(end, units)} lies beyond the middle of "
            f"{ground.line}, which is {length_text(length, units)} long.",
            f"Give less than {length_text(length / 2, units)}.",
            "end_distance",
        )


def _on_places(
    row: KeyRow, key: Key, ground: KeyGround, units: Units, given: KeyParameters
) -> Iterator[Finding]:
    wide = 2 * key.half_width
    steps = [after - before for before, after in pairwise(row.positions)]
    if steps and min(steps) <= wide:
        yield mistake(
            "no-room",
            f"Two keys stand {length_text(min(steps), units)} apart from middle to middle, and a "
            f"socket is {length_text(wide, units)} wide.",
            "Give fewer or narrower keys, or places further apart.",
            first_told(given, "positions", "keys", "end_distance", "key_width", "key_length"),
        )
    ends = (row.positions[0], row.length - row.positions[-1])
    for distance, nearest, limit in zip(ends, ground.nearest, ground.limits, strict=True):
        if distance <= nearest:
            line = f"{ground.line} is {length_text(row.length, units)} long"
            yield mistake(
                "no-room",
                f"A key's middle would lie beyond the {limit}: {line}."
                if distance < 0
                else f"A socket would break out at the {limit}, {length_text(distance, units)} "
                f"from its key's middle; {line}.",
                f"Keep the middle more than {length_text(nearest, units)} from there, or give "
                "fewer or smaller keys.",
                first_told(given, "positions", "end_distance", "keys", "key_width", "key_length"),
            )
            return
