"""What can be told of keys, and the key that it settles on."""

from collections.abc import Iterator

from joinery_templates.errors import Finding, mistake, refuse
from joinery_templates.exact import Fraction
from joinery_templates.joints.checks import first_told
from joinery_templates.joints.gauge import as_a_gauge_is_set, at_most_as_a_gauge_is_set
from joinery_templates.joints.keys.key import Key
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import (
    count_parameter,
    fit_parameter,
    proud_parameter,
    size_parameter,
    sizes_parameter,
)

SLOPE = Fraction(1, 6)
WIDTH_SHARE = Fraction(5, 12)
"""How wide a key is for its length where nothing is told."""

ROOM_EACH = 3
"""In widths of a key: no more of them is proposed than leave each so much of the joint line."""
LONGEST_ACROSS = Fraction(100)
"""A key longer than this is glued across too much moving wood (our judgement)."""

THICK_RULE = (
    "3 times the thinner board's thickness, where the boards have room for that (our judgement)"
)
SLOPE_RULE = "1:6 at each side of the waist (common practice, no source)"
WIDTH_RULE = "5/12 of the key's length, rounded to a gauge setting (our judgement)"
DEPTH_RULE = (
    "half the thinner board's thickness, rounded to a gauge setting (common practice, no source)"
)


LONGEST = 1000
"""In mm: nobody cuts a longer key, and units were mixed up (our judgement)."""


class KeyParameters(Table):
    """What can be told of keys and their row, whatever boards they join."""

    keys: int | None = count_parameter(
        "How many keys lie across the joint line.",
        "as many as the joint line has room for (our judgement)",
        low=1,
        high=200,
    )
    positions: tuple[Fraction, ...] | None = sizes_parameter(
        "Where the middle of each key comes on the joint line, in order from its start.",
        "evenly spaced",
    )
    end_distance: Fraction | None = size_parameter(
        "From each end of the joint line to the middle of the key next to it.",
        "half the distance between two keys",
    )
    key_length: Fraction | None = size_parameter(
        "Length of a key from tip to tip, square to the joint line and along the key's grain.",
        "3 times the thinner board's thickness, or half the width of a mitred frame's boards, "
        "where there is room for that (our judgement)",
        high=LONGEST,
    )
    key_width: Fraction | None = size_parameter("Width of a key at its two ends.", WIDTH_RULE)
    waist: Fraction | None = size_parameter(
        "Width of a key at its waist, on the joint line.", "what the slope leaves"
    )
    slope: Fraction | None = parameter(
        Quantity.SLOPE,
        "Slope of a key's sides, as a ratio or an angle.",
        rule=SLOPE_RULE,
    )
    depth: Fraction | None = size_parameter(
        "How deep the sockets are, from the outside face.", DEPTH_RULE
    )
    through: bool = parameter(
        Quantity.FLAG,
        "Whether keys go right through both boards.",
        rule="false",
        default=False,
    )
    proud: Fraction = proud_parameter(
        "How far a key stands above the face, to be planed flush; a through key above both faces."
    )
    fit: Fraction = fit_parameter("all round a key, added to the sockets")


def thick_rule(
    layout: Layout, line: Fraction | None, *most: Fraction | None
) -> tuple[Fraction, str]:
    """A key's length by the thickness of the boards, and the rule.

    Args:
        layout: the boards.
        line: length of the joint line, None where nobody told it.
        most: what a key is not to be longer than, each None where it is not known.
    """
    limits = [one for one in most if one is not None]
    if line is not None:
        limits.append(line / ROOM_EACH / WIDTH_SHARE)
    length = min(3 * layout.thinner.thickness, *limits)
    return at_most_as_a_gauge_is_set(length, layout.units), THICK_RULE


def settle_key(layout: Layout, usual_length: tuple[Fraction, str]) -> tuple[Key, tuple[str, ...]]:
    """The key, and the rules that decided on it.

    Args:
        layout: the boards that it joins, with what was told.
        usual_length: its length where neither length nor width is told, and the rule.

    Raises:
        InputError: where it is no key, or does not suit the boards.
    """
    given: KeyParameters = layout.given
    rules, thinner = [], layout.thinner.thickness
    length, width = given.key_length, given.key_width
    if length is None:
        length, rule = usual_length
        if width is not None:
            length, rule = width / WIDTH_SHARE, "12/5 of its width (our judgement)"
        rules.append(f"Length of a key: {rule}.")
    if width is None:
        width = as_a_gauge_is_set(length * WIDTH_SHARE, layout.units)
        rules.append(f"Width of a key: {WIDTH_RULE}.")
    waist = given.waist
    if waist is None:
        if given.slope is None:
            rules.append(f"Slope of a key: {SLOPE_RULE}.")
        waist = width - length * (SLOPE if given.slope is None else given.slope)
    depth = thinner if given.through else given.depth
    if depth is None:
        depth = as_a_gauge_is_set(thinner / 2, layout.units)
        rules.append(f"Depth of the sockets: {DEPTH_RULE}.")
    key = Key(length, width, waist, depth, given.through, given.proud, given.fit)
    refuse((*_on_shape(layout, key), *_on_depth(layout, key)))
    return key, tuple(rules)


def _on_shape(layout: Layout, key: Key) -> Iterator[Finding]:
    given: KeyParameters = layout.given
    told = f"{layout.text(key.waist)} at the waist"
    if given.waist is not None and given.slope not in (None, key.slope):
        yield mistake(
            "does-not-add-up",
            f"A key {told} and {layout.text(key.width)} at its ends has a slope other than the "
            "one given.",
            "Leave waist or slope out and it will be worked out.",
            "waist",
        )
    elif key.waist <= 0:
        yield mistake(
            "no-room",
            f"The slope leaves nothing of the waist of a key {layout.text(key.width)} "
            f"wide and {layout.text(key.length)} long.",
            "Give a flatter slope, or a wider or shorter key.",
            first_told(given, "slope", "waist", "key_length", "key_width"),
        )
    elif key.waist >= key.width:
        yield mistake(
            "no-taper",
            f"A key {told} is no narrower there than at its ends and holds nothing.",
            "Give a smaller waist or a wider key.",
            first_told(given, "waist", "key_width", "slope"),
        )
    elif key.half_mouth <= 0 or key.reach <= 0:
        yield mistake(
            "no-room",
            "The fit allowance closes the sockets.",
            "Give a smaller fit or a larger key.",
            "fit",
        )


def _on_depth(layout: Layout, key: Key) -> Iterator[Finding]:
    given, (first, second) = layout.given, layout.boards
    thinner = layout.thinner.thickness
    if given.through and given.depth is not None:
        yield mistake(
            "does-not-add-up",
            "Both a depth and through keys are given.",
            "Leave one of the two out.",
            "depth",
        )
    elif given.through and first.thickness != second.thickness:
        yield mistake(
            "thicknesses-differ",
            f'Board "{first.name}" is {layout.text(first.thickness)} thick and "{second.name}" '
            f"{layout.text(second.thickness)}: a key cannot go right through both.",
            "Plane them to one thickness, or give a depth.",
            "through",
        )
    elif not given.through and key.depth >= thinner:
        yield mistake(
            "no-room",
            f"Sockets {layout.text(key.depth)} deep go through the thinner board, which is "
            f"{layout.text(thinner)} thick.",
            "Give a smaller depth, or through = true.",
            "depth",
        )


def too_narrow(
    layout: Layout, key: Key, across: tuple[Fraction | None, Fraction | None]
) -> Iterator[Finding]:
    """Boards that have no wood left behind the tips of the sockets.

    Args:
        layout: the boards.
        key: that is let in.
        across: how much of each board there is, away from the joint line; None if not told.
    """
    for board, wood in zip(layout.boards, across, strict=True):
        if wood is not None and wood <= key.reach:
            yield mistake(
                "no-room",
                f'Sockets reach {layout.text(key.reach)} into board "{board.name}", which '
                f"is only {layout.text(wood)} across there.",
                "Give shorter keys.",
                first_told(layout.given, "key_length", "key_width"),
            )
