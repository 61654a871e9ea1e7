"""Spans that no pin may touch: a groove must lie wholly inside a tail.

A drawer's side has a groove for the bottom; were it to run out through a pin, a hole
would show (Noyes 1910, no. 49). A rebate runs along an edge,
and lies wholly inside the half pin or the half tail there.
"""

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from joinery_templates.errors import COMMON, Finding, advice, mistake, refuse
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.gauge import at_least_as_a_gauge_is_set
from joinery_templates.joints.grooves.parameters import Channel
from joinery_templates.joints.sources import NOYES_49
from joinery_templates.joints.spacing.parameters import SpacingParameters
from joinery_templates.joints.spacing.terms import Ground, Spacing

Span = tuple[Fraction, Fraction]
"""From and to, in mm from where the spacing begins."""


def is_clear(spacing: Spacing, span: Span, lean: Fraction) -> bool:
    """Whether a span lies wholly inside one tail, at the tail's narrowest.

    One that is open at an edge may lie inside the half pin there, at its narrowest.
    """
    return in_a_tail(spacing, span, lean) or in_a_half_pin(spacing, span)


def in_a_tail(spacing: Spacing, span: Span, lean: Fraction) -> bool:
    """Whether a span lies wholly inside one tail, at the tail's narrowest."""
    cores = (tail.between(lean) for tail in spacing.tails)
    return any(low <= span[0] and span[1] <= high for low, high in cores)


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
    low, high = _limits(spacing, lean)
    shifts = {ZERO, low, high}
    # The least move brings an end of a span onto the boundary of where it is clear.
    for start, end in spans:
        for left, right in (tail.between(lean) for tail in spacing.tails):
            shifts |= {start - left, end - right}
        shifts |= {end - spacing.tails[0].left, start - spacing.tails[-1].right}
    for shift in sorted(shifts, key=lambda shift: (abs(shift), shift)):
        if low <= shift <= high:
            moved = replace(spacing, tails=tuple(tail.moved(shift) for tail in spacing.tails))
            if all(is_clear(moved, span, lean) for span in spans):
                return moved
    return spacing


def _limits(spacing: Spacing, lean: Fraction) -> Span:
    """How far the tails may move, towards the reference edge and away from it."""
    if spacing.half_pins:
        first, last = spacing.half_pins
        least = min(*spacing.pins, first, last) if spacing.pins else min(first, last) / 2
        return least - first, last - least
    first, last = spacing.tails[0].width, spacing.tails[-1].width
    return -(first - lean) / 2, (last - lean) / 2


def clear_of_channels(spacing: Spacing, given: SpacingParameters, ground: Ground) -> Spacing:
    """The spacing that suits the groove and the rebate, with advice where none does.

    Half pins and half tails that the person gave are not changed.

    Raises:
        InputError: where the groove or the rebate does not lie on the board.
    """
    channels = ground.channels
    if not channels:
        return spacing
    for channel in channels:
        refuse(_not_among_the_tails(channel, ground))
    spans = [channel.span(ground.margins[0]) for channel in channels]
    edges = (given.half_pin, given.half_pin_far, given.half_tail)
    free = all(edge is None for edge in edges)
    moved = keep_clear(spacing, spans, ground.lean) if free else spacing
    unclear = tuple(
        _unclear(channel, free, moved, ground)
        for channel, span in zip(channels, spans, strict=True)
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
    return replace(moved, rules=(*moved.rules, f"Edges: moved by {by}, so that {reason}."))


def _not_among_the_tails(channel: Channel, ground: Ground) -> Iterator[Finding]:
    """A rebate that does not lie on the board, a groove that does not lie among the tails."""
    text, width = ground.text, ground.board_width
    if channel.name == "groove" and channel.high <= width and channel.is_open(width):
        yield _groove_at_edge(channel)
        return
    low, high = channel.low, channel.high
    if channel.name == "rebate":
        on_board = low >= 0 and high <= width and high - low < ground.width
    else:
        near, far = ground.margins
        on_board = low >= near and high <= width - far
    if not on_board:
        yield mistake(
            f"{channel.name}-off-board",
            f"A {channel.name} from {text(low)} to {text(high)} does not fit on the tail board, of "
            f"whose width {text(ground.width)} is dovetailed.",
            f"Check where the {channel.name} is.",
            channel.name,
        )


def _groove_at_edge(channel: Channel) -> Finding:
    """A groove has wood on both its sides."""
    is_far = channel.low > 0
    edge = ' and `edge = "far"`' if is_far else ""
    instead = (
        "Move it away from the edge, or leave it out: a rebate round the outside is cut when the "
        "corner is glued."
        if channel.outside
        else f"Write `rebate` in place of `groove`, with its width and depth{edge}, or move it "
        "away from the edge."
    )
    return mistake(
        "groove-at-edge",
        f"A groove that lies open at the {'far' if is_far else 'reference'} edge is a rebate.",
        instead,
        "groove",
    )


def _unclear(channel: Channel, free: bool, spacing: Spacing, ground: Ground) -> Finding:
    """A groove or rebate that runs into a tail's side, with the figure that helps."""
    span, leave_out = channel.span(ground.margins[0]), "leave out the width at the edges"
    if channel.name == "rebate":
        edge = span[1] if channel.low <= 0 else spacing.width - span[0]
        piece = "half pin" if spacing.half_pins else "half tail"
        least = ground.text(edge if spacing.half_pins else edge + ground.lean)
        return advice(
            "rebate-across-a-side",
            f"The rebate is wider than the {piece} at its edge: it cuts into the side of a tail.",
            COMMON,
            f"Give a {piece} of at least {least}, or a mitred edge as wide as the rebate."
            if free
            else f"Give a {piece} of at least {least}, or {leave_out}, to have it worked out.",
            "rebate",
        )
    moves_aside = free and len(ground.channels) == 1
    aside = _limits(spacing, ground.lean) if moves_aside else (ZERO, ZERO)
    by = _least_move(spacing, span, ground, aside)
    remedy = "Give fewer or wider tails, or a narrower groove."
    if by:
        way = "away from" if by > 0 else "towards"
        remedy = f"Move the groove {ground.text(abs(by))} {way} the reference edge"
        remedy += "." if free else f", or {leave_out}, to have it worked out."
    return advice(
        "groove-not-in-a-tail",
        "The groove does not lie wholly inside a tail at its narrowest: it would run out through "
        "a pin, or weaken a tail's side.",
        NOYES_49,
        remedy,
        "groove",
    )


def _least_move(spacing: Spacing, span: Span, ground: Ground, aside: Span) -> Fraction:
    """What brings a groove into a tail, in figures of a gauge; 0 where no tail is wide enough.

    Args:
        spacing: the tails, as they stand.
        span: the groove.
        ground: what they stand on.
        aside: how far they may move aside for it, towards the reference edge and away from it.
    """
    start, end = span
    back, on = aside
    moves = []
    for tail in spacing.tails:
        if end - start <= tail.width_at(ground.lean):
            low = tail.moved(back).between(ground.lean)[0]
            high = tail.moved(on).between(ground.lean)[1]
            by = low - start if start < low else high - end
            even = at_least_as_a_gauge_is_set(abs(by), ground.units) * (1 if by > 0 else -1)
            moves.append(even if low <= start + even and end + even <= high else by)
    return min(moves, key=abs, default=ZERO)
