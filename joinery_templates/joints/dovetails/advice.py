"""What is unwise about a dovetail though it can be cut: each with its reason and source."""

from collections.abc import Iterator
from operator import add

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.exact import Fraction
from joinery_templates.joints.checks import unusual_slope
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.sources import AMATEUR_WORK, HOLTZAPFFEL, JOYCE, NOYES_48
from joinery_templates.joints.spacing.proposal import MOST_TAIL_TO_PIN, WEAK_PIN, WIDEST_TAIL
from joinery_templates.joints.spacing.terms import weakest_tail
from joinery_templates.joints.words import slope_text
from joinery_templates.lengths import INCH

DOVETAIL_SAW = Fraction(22, 1000) * INCH
"""Thickness of a dovetail saw's blade (Holtzapffel's table): its kerf is at least that."""


def advise(corner: DovetailCorner) -> Iterator[Finding]:
    """All advice on a dovetail's proportions."""
    shown = f"A slope of {slope_text(corner.slope)}"
    yield from unusual_slope(
        corner.slope,
        f"{shown} leaves weak short grain at the corners of the tails.",
        f"{shown} holds little.",
        JOYCE,
        "1:5 to 1:8 is usual. On hard and soft wood the books disagree: two old ones give hard "
        "wood more slope, today's school rule gives it less. Choose by use, and cut a trial joint.",
    )
    if corner.spacing.pins:
        yield from _on_pins(corner)
    if corner.spacing.half_pins:
        yield from _on_half_pins(corner)
    yield from _on_narrow_tails(corner)
    if corner.spacing.whole_tails:
        yield from _on_wide_tails(corner)


def _on_pins(corner: DovetailCorner) -> Iterator[Finding]:
    tools, narrowest = corner.request.tools, min(corner.spacing.pins)
    shown = corner.text(narrowest)
    # The person's own kerf is held against every space by `tool_fit`.
    if narrowest < DOVETAIL_SAW and tools.kerf is None:
        yield advice(
            "pin-below-kerf",
            f"Pins of {shown} are narrower than the blade of a dovetail saw, "
            f"{corner.text(DOVETAIL_SAW)}; no saw cut is narrower than its blade.",
            f"{AMATEUR_WORK}; {HOLTZAPFFEL}",
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
    past = corner.pair.past_the_other(1)
    half = min(map(add, corner.spacing.half_pins, past))
    pin = max(corner.spacing.pins, default=None)
    shown = f"A half pin of {corner.text(half)}"
    least, source, remedy = WEAK_PIN, OURS, "Make it wider."
    fault = f"{shown} at its narrow side may split away."
    if pin is not None:
        least, source = pin, COMMON
        remedy = "An edge pin is held on one side only; make it at least as wide as a whole pin."
        fault = f"{shown} is narrower than a whole pin of {corner.text(pin)}: it may split away."
    if half < least:
        yield advice("half-pin-narrow", fault, source, remedy, "half_pin")


def _on_narrow_tails(corner: DovetailCorner) -> Iterator[Finding]:
    thickness = corner.tail_board.thickness - corner.tail_lap
    widths = [tail.width_at(corner.lean) for tail in corner.spacing.tails]
    if not corner.spacing.half_pins:
        for place, past in zip((0, -1), corner.pair.past_the_other(0), strict=True):
            widths[place] += past
    narrowest = min(widths)
    if narrowest < weakest_tail(thickness):
        yield advice(
            "tail-weak",
            f"The narrowest tail is only {corner.text(narrowest)} wide at the baseline.",
            OURS,
            "Give fewer tails, or a flatter slope.",
            "tails",
        )


def _on_wide_tails(corner: DovetailCorner) -> Iterator[Finding]:
    widest = max(tail.width for tail in corner.spacing.whole_tails)
    if widest > WIDEST_TAIL:
        yield advice(
            "tail-wide",
            f"Tails of {corner.text(widest)} are wider than the usual {corner.text(WIDEST_TAIL)}.",
            NOYES_48,
            "More tails make a stronger joint.",
            "tails",
        )
    if not corner.spacing.pins:
        return
    space = min(corner.spacing.pins) + 2 * corner.lean
    if widest > MOST_TAIL_TO_PIN * space:
        yield advice(
            "tail-to-pin",
            f"Tails of {corner.text(widest)} are more than {MOST_TAIL_TO_PIN} times as wide "
            f"as the spaces of {corner.text(space)} between them, both at their widest.",
            NOYES_48,
            "The joint is strongest with tails as wide as the spaces: give wider pins or more "
            "tails.",
            "tails",
        )
