"""Where keys stand along a joint line."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joints.keys.given import KeyGiven
from joinery_templates.joints.keys.key import Key
from joinery_templates.lengths import Units, length_text

MOST_KEYS = 200


@dataclass(frozen=True, slots=True)
class Ground:
    """The line that keys are spread along.

    Attributes:
        length: of the line; None where nobody told it.
        share: room for one key where their number is not told.
        share_rule: how the number follows from `share`.
        nearest: how near a key's middle may come to the line's start, and to its end.
    """

    length: Fraction | None
    share: Fraction
    share_rule: str
    nearest: tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Row:
    """Keys along a line: its length, the middles from its start, and the rules."""

    length: Fraction
    positions: tuple[Fraction, ...]
    rules: tuple[str, ...]

    @property
    def pitch(self) -> Fraction | None:
        """From one key's middle to the next, where that is one distance."""
        steps = {after - before for before, after in pairwise(self.positions)}
        return steps.pop() if len(steps) == 1 else None


def lay_keys(given: KeyGiven, key: Key, ground: Ground, units: Units) -> Row:
    """The row of keys.

    Raises:
        InputError: where keys do not fit on the line, or what is told disagrees.
    """
    row = _listed(given, ground) if given.positions else _even(given, key, ground)
    findings = tuple(
        _on_places(row, key, ground, units, "positions" if given.positions else "keys")
    )
    if findings:
        raise InputError(*findings)
    return row


def _listed(given: KeyGiven, ground: Ground) -> Row:
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
        return Row(ground.length, positions, ())
    rule = "as much after the last key as before the first (our judgement)"
    return Row(positions[-1] + positions[0], positions, (f"Length of the joint line: {rule}.",))


def _even(given: KeyGiven, key: Key, ground: Ground) -> Row:
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
                "keys",
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
        return Row(length, tuple(first + share * n for n in range(count)), tuple(rules))
    step = (length - 2 * end) / (count - 1) if count > 1 else Fraction(0)
    return Row(length, tuple(end + step * n for n in range(count)), tuple(rules))


def _on_places(row: Row, key: Key, ground: Ground, units: Units, place: str) -> Iterator[Finding]:
    wide = 2 * key.half_width
    steps = [after - before for before, after in pairwise(row.positions)]
    if steps and min(steps) <= wide:
        yield mistake(
            "no-room",
            f"Two keys stand {length_text(min(steps), units)} apart from middle to middle, and a "
            f"socket is {length_text(wide, units)} wide.",
            "Give fewer or narrower keys, or list their positions in order.",
            place,
        )
    before, after = row.positions[0], row.length - row.positions[-1]
    if before <= ground.nearest[0] or after <= ground.nearest[1]:
        yield mistake(
            "no-room",
            "A socket would break out at an end of the joint line, which is "
            f"{length_text(row.length, units)} long.",
            "Give fewer or smaller keys, or places further in.",
            "end_distance",
        )
