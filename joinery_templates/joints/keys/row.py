"""Where keys stand along a joint line, and the joint that they hold."""

from collections.abc import Iterator

from msgspec import Struct

from joinery_templates.errors import Finding, mistake, refusal, refuse
from joinery_templates.exact import Fraction
from joinery_templates.joint import Step
from joinery_templates.joints.along_line import not_in_order, steps_between
from joinery_templates.joints.checks import first_told
from joinery_templates.joints.gauge import nearest_whole
from joinery_templates.joints.keys.key import JointLine, Key
from joinery_templates.joints.keys.parameters import KeyParameters
from joinery_templates.joints.layout import Layout

MOST_KEYS = 200


class KeyRow(Struct, frozen=True):
    """Keys along a line: its length, the middles from its start, and the rules."""

    length: Fraction
    positions: tuple[Fraction, ...]
    rules: tuple[str, ...] = ()


class KeyedJoint(Layout, frozen=True):
    """Keys across a joint line.

    Attributes:
        key: the keys.
        line: that they lie across.
        row: where they stand.
        meet: the step in which the boards are made to meet, before any key is let in.
        lay_on: how the socket templates are laid on.
        across_grain: whether the keys lie across the grain of the boards.
    """

    key: Key
    line: JointLine
    row: KeyRow
    meet: Step
    lay_on: str
    across_grain: bool = False

    @property
    def count(self) -> int:
        """How many keys."""
        return len(self.row.positions)


def lay_keys(layout: Layout, key: Key, line: JointLine) -> KeyRow:
    """The row of keys that lie across a line.

    Raises:
        InputError: where keys do not fit on the line, or what is told disagrees.
    """
    given: KeyParameters = layout.given
    refuse(_on_told(layout, line))
    row = _listed(given.positions, line) if given.positions else _even(given, key, line)
    refuse(_on_places(layout, key, line, row))
    return row


def _listed(positions: tuple[Fraction, ...], line: JointLine) -> KeyRow:
    if line.length is not None:
        return KeyRow(line.length, positions)
    rule = "as much after the last key as before the first (our judgement)"
    return KeyRow(positions[-1] + positions[0], positions, (f"Length of the joint line: {rule}.",))


def _even(given: KeyParameters, key: Key, line: JointLine) -> KeyRow:
    """All at one distance; half of it at each end unless told otherwise."""
    rules, count, length, end = [], given.keys, line.length, given.end_distance
    share = line.widths_each * key.width
    share_rule = f"about {line.widths_each} key widths for each"
    # At the outer corner of a mitre a socket breaks out before its side meets the corner.
    left_out = line.nearest[0] - key.half_width
    if count is None:
        count = 3
        if length is not None:
            count = max(1, nearest_whole((length - left_out) / share))
        told = "3" if length is None else share_rule
        rules.append(f"Number of keys: {told} (our judgement).")
    if count > MOST_KEYS:
        raise refusal(
            "too-many-keys",
            f"That would be {count} keys; this program lays out at most {MOST_KEYS}.",
            "Give fewer keys.",
            first_told(given, "keys"),
        )
    if length is None:
        length = count * share
        rules.append(f"Length of the joint line: not told, so {share_rule} (our judgement).")
    if end is None:
        skipped = ", the start left out where a socket would break out" if left_out else ""
        rules.append(f"Places: each in the middle of an equal share{skipped} (our judgement).")
        step = (length - left_out) / count
        end = left_out + step / 2
    else:
        step = (length - 2 * end) / (count - 1) if count > 1 else Fraction(0)
    return KeyRow(length, tuple(end + step * n for n in range(count)), tuple(rules))


def _on_told(layout: Layout, line: JointLine) -> Iterator[Finding]:
    """What is told that disagrees, or would put keys behind one another."""
    given: KeyParameters = layout.given
    positions, end, length = given.positions, given.end_distance, line.length
    if positions is None:
        if end and length and end > length / 2:
            yield mistake(
                "no-room",
                f"An end distance of {layout.text(end)} lies beyond the middle of "
                f"{line.name}, which is {layout.text(length)} long.",
                f"Give less than {layout.text(length / 2)}.",
                "end_distance",
            )
        return
    if found := tuple(not_in_order(layout, positions, line.limits[0])):
        yield from found
        return
    if given.keys not in (None, len(positions)):
        yield mistake(
            "does-not-add-up",
            f"{len(positions)} positions are listed for {given.keys} keys.",
            "Leave keys out, or list as many positions.",
            "positions",
        )
    if end not in (None, positions[0]):
        yield mistake(
            "does-not-add-up",
            "The first position is not the end distance.",
            "Leave one of the two out.",
            "end_distance",
        )


def _on_places(layout: Layout, key: Key, line: JointLine, row: KeyRow) -> Iterator[Finding]:
    given, wide = layout.given, 2 * key.half_width
    steps = steps_between(row.positions)
    if steps and min(steps) <= wide:
        yield mistake(
            "no-room",
            f"Two keys stand {layout.text(min(steps))} apart from middle to middle, and a "
            f"socket is {layout.text(wide)} wide.",
            "Give fewer or narrower keys, or places further apart.",
            first_told(given, "positions", "keys", "end_distance", "key_width", "key_length"),
        )
    ends = (row.positions[0], row.length - row.positions[-1])
    for distance, nearest, limit in zip(ends, line.nearest, line.limits, strict=True):
        if distance <= nearest:
            long = f"{line.name} is {layout.text(row.length)} long"
            yield mistake(
                "no-room",
                f"A key's middle would lie beyond the {limit}: {long}."
                if distance < 0
                else f"A socket would break out at the {limit}, {layout.text(distance)} "
                f"from its key's middle; {long}.",
                f"Keep the middle more than {layout.text(nearest)} from there, or give "
                "fewer or smaller keys.",
                first_told(given, "positions", "end_distance", "keys", "key_width", "key_length"),
            )
            return
