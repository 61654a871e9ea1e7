"""What is unwise about a dovetail though it can be cut: each with its reason and source."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.joints.dovetails.corner import DovetailCorner

NOYES = "Noyes, Handwork in Wood, 1910, ch. VII, no. 48"
NOYES_LAPPED = "Noyes, Handwork in Wood, 1910, ch. VII, no. 49"
NOYES_BLIND = "Noyes, Handwork in Wood, 1910, ch. VII, nos. 50 and 51"
RAKES = "The Technique of Furniture Making, chapter on dovetailing"
AMATEUR_WORK = "Amateur Work, vol. 5, Dovetail Joints"

WIDEST_TAIL = Fraction(7, 4) * Fraction(127, 5)
"""1 3/4 in: a tail is ordinarily not wider (Noyes, no. 48)."""
MOST_TAIL_TO_PIN = 4
"""For looks a tail is up to four times as wide as the space (Noyes, no. 48)."""
WEAK_PIN = Fraction(3, 2)
"""A pin narrower than this at its narrow side breaks easily (our judgement)."""
DOVETAIL_SAW = Fraction(22, 1000) * Fraction(127, 5)
"""Blade of a dovetail saw, 0.022 in (Holtzapffel's table): no kerf is narrower."""


def weakest_tail(thickness: Fraction) -> Fraction:
    """A tail narrower than this at the baseline is weak on a board so thick (our judgement)."""
    return max(Fraction(3), thickness / 4)


def advise(corner: DovetailCorner) -> tuple[Finding, ...]:
    """All advice on a dovetail's proportions."""
    return (
        *_on_slope(corner),
        *_on_pins(corner),
        *_on_half_pins(corner),
        *_on_tails(corner),
    )


def _on_slope(corner: DovetailCorner) -> Iterator[Finding]:
    slope, shown = corner.slope, f"A slope of {corner.one_in}"
    woods = (
        "For hard against soft wood the sources disagree: two old texts give hard wood more "
        "splay, today's school rule gives it less; so choose by use and by a trial joint."
    )
    if slope > Fraction(1, 5):
        yield advice(
            "slope-steep",
            f"{shown} leaves weak short grain at the corners of the tails.",
            RAKES,
            f"Custom is 1:5 to 1:8. {woods}",
            "slope",
        )
    if slope < Fraction(1, 8):
        yield advice(
            "slope-flat",
            f"{shown} has little hold.",
            RAKES,
            f"Custom is 1:5 to 1:8. {woods}",
            "slope",
        )


def _on_pins(corner: DovetailCorner) -> Iterator[Finding]:
    if not corner.spacing.pins:
        return
    tools, narrowest = corner.request.tools, min(corner.spacing.pins)
    shown = corner.text(narrowest)
    # The person's own kerf is held against every space by `tool_fit`.
    if narrowest < DOVETAIL_SAW and tools.kerf is None:
        yield advice(
            "pin-below-kerf",
            f"Pins of {shown} are narrower than the cut of a dovetail saw, "
            f"{corner.text(DOVETAIL_SAW)} or more.",
            f"{AMATEUR_WORK}; Holtzapffel's table of saws",
            "Give wider pins, or your saw's own kerf in [tools].",
            "pin",
        )
    elif narrowest < WEAK_PIN:
        yield advice(
            "pin-weak",
            f"Pins of {shown} at their narrow side break easily.",
            OURS,
            "Give wider pins, or handle them with care until they are glued.",
            "pin",
        )
    wanted = tools.smallest_pin
    if wanted is not None and narrowest < wanted:
        yield advice(
            "pin-below-smallest",
            f"Pins of {shown} are narrower than your smallest pin, {corner.text(wanted)}.",
            "your own tools",
            "Give wider pins, or a smaller smallest_pin.",
            "pin",
        )


def _on_half_pins(corner: DovetailCorner) -> Iterator[Finding]:
    spacing = corner.spacing
    if not spacing.half_pins:
        return
    half = min(spacing.half_pins)
    pin = max(spacing.pins, default=None)
    if pin is None and half < WEAK_PIN:
        yield advice(
            "half-pin-narrow",
            f"A half pin of {corner.text(half)} at its narrow side may split away.",
            OURS,
            "Make it wider.",
            "half_pin",
        )
    if pin is not None and half < pin:
        yield advice(
            "half-pin-narrow",
            f"A half pin of {corner.text(half)} is narrower than a whole pin of "
            f"{corner.text(pin)}: it may split away.",
            COMMON,
            "A half pin is half a pin in shape, not in width; make it wider.",
            "half_pin",
        )


def _on_tails(corner: DovetailCorner) -> Iterator[Finding]:
    spacing, lean = corner.spacing, corner.lean
    thickness = corner.tail_board.thickness - corner.tail_lap
    narrowest = min(tail.width_at(lean) for tail in spacing.tails)
    if narrowest < weakest_tail(thickness):
        yield advice(
            "tail-weak",
            f"The narrowest tail is only {corner.text(narrowest)} wide at the baseline.",
            OURS,
            "Give fewer tails, or a slope that leans less.",
            "tails",
        )
    whole = spacing.whole_tails
    if not whole:
        return
    widest = max(tail.width for tail in whole)
    if widest > WIDEST_TAIL:
        yield advice(
            "tail-wide",
            f"Tails of {corner.text(widest)} are wider than the "
            f"{corner.text(WIDEST_TAIL)} that is ordinary.",
            NOYES,
            "More tails make a stronger joint.",
            "tails",
        )
    if spacing.pins and widest > MOST_TAIL_TO_PIN * (min(spacing.pins) + 2 * lean):
        yield advice(
            "tail-to-pin",
            f"Tails of {corner.text(widest)} are more than {MOST_TAIL_TO_PIN} times as wide "
            f"as the spaces of {corner.text(min(spacing.pins) + 2 * lean)} between them, "
            "both at their widest.",
            NOYES,
            "Strongest is a tail as wide as the space; give wider pins or more tails.",
            "tails",
        )
