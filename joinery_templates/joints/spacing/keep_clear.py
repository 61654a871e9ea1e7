"""Spanes that no pin may touch: a groove must lie wholly inside a tail.

A drawer's side has a groove for the bottom; were it to run out through a pin, a hole
would show (Noyes, Handwork in Wood, 1910, ch. VII, no. 49). A rebate runs along an edge,
and lies wholly inside the half pin or the half tail there.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec.structs import replace

from joinery_templates.errors import COMMON, Finding, InputError, advice, mistake
from joinery_templates.joints.grooves.parameters import Channel, channels_of
from joinery_templates.joints.spacing.parameters import SpacingParameters
from joinery_templates.joints.spacing.terms import Ground, Spacing, Tail

Span = tuple[Fraction, Fraction]
"""From and to, in mm from where the spacing begins."""

NOYES_49 = "Noyes, Handwork in Wood, 1910, ch. VII, no. 49"


def is_clear(spacing: Spacing, span: Span, lean: Fraction) -> bool:
    """Whether a span lies wholly inside one tail, at the tail's narrowest.

    One that is open at an edge may lie inside the half pin there, at its narrowest.
    """
    return in_a_tail(spacing, span, lean) or in_a_half_pin(spacing, span)


def in_a_tail(spacing: Spacing, span: Span, lean: Fraction) -> bool:
    """Whether a span lies wholly inside one tail, at the tail's narrowest."""
    return any(low <= span[0] and span[1] <= high for low, high in _cores(spacing, lean))


def in_a_half_pin(spacing: Spacing, span: Span) -> bool:
    """Whether a span is open at an edge and lies wholly inside the half pin there."""
    first, last = spacing.tails[0].left, spacing.tails[-1].right
    at_first = span[0] <= 0 and span[1] <= first
    return at_first or (span[0] >= last and span[1] >= spacing.width)


def keep_clear(spacing: Spacing, spans: Sequence[Span], lean: Fraction) -> Spacing:
    """The spacing moved sideways as little as will bring every span inside a tail.

    Tails and pins keep their widths; what stands at one edge becomes wider by what the
    other loses. A half pin is not made narrower than it is or than a pin, whichever is
    less; a lone tail's half pins, and half tails, not by more than about half.

    Args:
        spacing: the tails.
        spans: what must be clear.
        lean: how far a side comes in between the end and the baseline.

    Returns:
        The moved spacing, or the same one where no move helps.
    """
    shifts = {Fraction(0), *_limits(spacing, lean)}
    for span in spans:
        shifts |= set(_touching(spacing, span, lean))
    low, high = _limits(spacing, lean)
    for shift in sorted(shifts, key=lambda shift: (abs(shift), shift)):
        if low <= shift <= high:
            moved = _moved(spacing, shift)
            if all(is_clear(moved, span, lean) for span in spans):
                return moved
    return spacing


def with_groove(spacing: Spacing, given: SpacingParameters, ground: Ground) -> Spacing:
    """The spacing that suits the groove and the rebate, with advice where none does.

    Half pins and half tails that the person gave are not changed.

    Raises:
        InputError: where the groove or the rebate does not lie on the board.
    """
    channels = channels_of(given, _board_width(ground))
    if not channels:
        return spacing
    spans = {channel: _span(channel, ground) for channel in channels}
    edges = (given.half_pin, given.half_pin_far, given.half_tail)
    free = all(edge is None for edge in edges)
    moved = keep_clear(spacing, tuple(spans.values()), ground.lean) if free else spacing
    unclear = tuple(
        _unclear(channel, free)
        for channel, span in spans.items()
        if not is_clear(moved, span, ground.lean)
    )
    if unclear:
        return replace(moved, findings=(*moved.findings, *unclear))
    if moved == spacing:
        return spacing
    by = ground.text(abs(moved.tails[-1].left - spacing.tails[-1].left))
    names = " and the ".join(channel.name for channel in channels)
    reason = f"the groove lies in a tail ({NOYES_49})"
    if names != "groove":
        reason = f"no tail's side runs into the {names} ({COMMON})"
    rule = f"Edges: moved by {by} so that {reason}."
    return replace(moved, rules=(*moved.rules, rule))


def _span(channel: Channel, ground: Ground) -> Span:
    """Where a channel lies on the ground.

    Raises:
        InputError: where it does not lie on the board, or a groove not among the tails.
    """
    low, high = channel.low - ground.from_edge, channel.high - ground.from_edge
    width = _board_width(ground)
    _check_not_open(channel, width)
    if channel.name == "rebate":
        on_board = channel.low >= 0 and channel.high <= width and high - low < width
    else:
        on_board = low >= 0 and high <= ground.width
    if not on_board:
        raise InputError(
            mistake(
                f"{channel.name}-off-board",
                f"A {channel.name} from {ground.text(channel.low)} to "
                f"{ground.text(channel.high)} does not lie within the tails' "
                f"board, {ground.text(ground.width)} of which is dovetailed.",
                f"Check where the {channel.name} is.",
                channel.name,
            )
        )
    return low, high


def _check_not_open(channel: Channel, width: Fraction) -> None:
    """A groove has wood on both its sides.

    Raises:
        InputError: where it lies open at an edge of the board.
    """
    at_edge = channel.low == 0 or channel.high == width
    if channel.name != "groove" or not at_edge or channel.high > width:
        return
    is_far = channel.low > 0
    edge = ' and `edge = "far"`' if is_far else ""
    instead = (
        "Move it away from the edge, or leave it out: a rebate round the outside is cut when the "
        "corner is glued."
        if channel.outside
        else f"Write `rebate` in place of `groove`, with its width and depth{edge}, or move it "
        "away from the edge."
    )
    raise InputError(
        mistake(
            "groove-at-edge",
            f"A groove that lies open at the {'far' if is_far else 'reference'} edge is a rebate.",
            instead,
            "groove",
        )
    )


def _board_width(ground: Ground) -> Fraction:
    return ground.board_width or ground.from_edge + ground.width


def _unclear(channel: Channel, free: bool) -> Finding:
    leave_out = "Leave out the width at the edges and it will be worked out, or "
    if channel.name == "rebate":
        return advice(
            "rebate-across-a-side",
            "The rebate does not lie wholly inside the half pin or half tail at its edge where "
            "that is narrowest: it cuts into the side of a tail.",
            COMMON,
            "Give a wider half pin or half tail, or a mitred edge as wide as the rebate."
            if free
            else f"{leave_out}give a wider one.",
            "rebate",
        )
    return advice(
        "groove-not-in-a-tail",
        "The groove does not lie wholly inside a tail where that is narrowest: it would run out "
        "through a pin, or weaken a tail's side.",
        NOYES_49,
        "Move the groove, or give fewer or wider tails."
        if free
        else f"{leave_out}move the groove.",
        "groove",
    )


def _cores(spacing: Spacing, lean: Fraction) -> Iterator[Span]:
    for tail in spacing.tails:
        yield tail.left + lean * tail.left_slopes, tail.right - lean * tail.right_slopes


def _touching(spacing: Spacing, span: Span, lean: Fraction) -> Iterator[Fraction]:
    """The moves that bring an end of the span onto the boundary of where it is clear."""
    for low, high in _cores(spacing, lean):
        yield span[0] - low
        yield span[1] - high
    yield span[1] - spacing.tails[0].left
    yield span[0] - spacing.tails[-1].right


def _limits(spacing: Spacing, lean: Fraction) -> Span:
    """How far the tails may move, towards the reference edge and away from it."""
    if spacing.half_pins:
        first, last = spacing.half_pins
        least = min(*spacing.pins, first, last) if spacing.pins else min(first, last) / 2
        return least - first, last - least
    first, last = spacing.tails[0].width, spacing.tails[-1].width
    return -(first - lean) / 2, (last - lean) / 2


def _moved(spacing: Spacing, shift: Fraction) -> Spacing:
    """Every sloping side moved; the board's edges stay."""
    tails = tuple(
        Tail(
            tail.left + shift * tail.left_slopes,
            tail.right + shift * tail.right_slopes,
            tail.left_slopes,
            tail.right_slopes,
        )
        for tail in spacing.tails
    )
    return replace(spacing, tails=tails)
