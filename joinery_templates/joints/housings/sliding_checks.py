"""What decides a sliding dovetail's figures, what is refused, and what is advised against."""

from collections.abc import Iterator
from itertools import chain

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.exact import Fraction
from joinery_templates.joints.checks import first_found, loose_fit, too_short, unusual_slope
from joinery_templates.joints.housings.tail import FACES, LONGEST_PARALLEL, SlidingTail
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.spacing.terms import weakest_tail
from joinery_templates.joints.words import slope_text
from joinery_templates.lengths import decimal_text

SLOPED_DADO = f"{NOYES}, no. 28 and p. 206: one sloped side is usually enough"

SLOPES = Fraction(1, 10), Fraction(1, 4)
"""Outside these a housing's edge is short grain, or holds little (our judgement)."""
NARROWEST_SHOULDER = Fraction(1)
"""A narrower shoulder is pared away by a knife and covers no slip (our judgement)."""
STEEPEST_TAPER = 20
"""A steeper taper than 1 in 20 does not hold the shelf in place (our judgement)."""


def impossible(tail: SlidingTail) -> Iterator[Finding]:
    """What cannot be cut; what has no sound boards and no room is not asked for its fit."""
    on_boards = chain(tail.too_wide(), too_short(tail, (tail.depth, tail.shelf.thickness)))
    return first_found(on_boards, _on_sizes(tail), _on_room(tail))


def rules_of(tail: SlidingTail) -> Iterator[str]:
    """What was decided by a rule."""
    given = tail.given
    yield from tail.depth_rule()
    if given.shoulder is None:
        yield (
            f"Shoulder: {tail.text(tail.shoulder)}, what the tail's side leans over its "
            f"length and about 1 mm more ({OURS})."
        )
    if tail.tapered is not None:
        yield (
            f"Taper: 1 in {decimal_text(tail.taper, 2)}, all of it on the {FACES[tail.tapered]} "
            f"side of the tail; the other runs square across the boards ({COMMON})."
        )


def _on_sizes(tail: SlidingTail) -> Iterator[Finding]:
    yield from tail.too_deep()
    if tail.shoulder < tail.lean:
        yield mistake(
            "shoulder-too-narrow",
            f"The tail's side leans {tail.text(tail.lean)} over its length: with a "
            f"shoulder of {tail.text(tail.shoulder)} the tail would be wider than the "
            "shelf is thick.",
            f"Give at least {tail.text(tail.lean)}, or leave it out.",
            "shoulder",
        )
    if 0 < tail.taper < STEEPEST_TAPER:
        yield mistake(
            "taper-too-steep",
            f"A taper of 1 in {decimal_text(tail.taper, 2)} is so steep that the shelf slips out "
            "again.",
            f"Give {STEEPEST_TAPER} or more, such as 100, or 0 for none.",
            "taper",
        )
    yield from tail.stopped_too_late("The tail")


def _on_room(tail: SlidingTail) -> Iterator[Finding]:
    mouth = tail.housing_width(tail.given.stop, tail.depth)
    left = min(tail.width_at(tail.start, tail.depth), mouth)
    if left <= 0:
        yield mistake(
            "no-room",
            "Nothing is left of the tail between its shoulders at the front.",
            "Give narrower shoulders, a gentler taper or a smaller fit.",
            "shoulder",
        )
    back = tail.shelf.width
    if any(tail.inset(number, back, tail.depth) <= 0 for number in tail.sloping):
        yield mistake(
            "no-room",
            f"A fit of {tail.text(tail.given.fit)} leaves no shoulder.",
            "Give a looser fit, or wider shoulders.",
            "fit",
        )


def advise(tail: SlidingTail) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    yield from tail.deep()
    shown = f"A slope of {slope_text(tail.slope)}"
    yield from unusual_slope(
        tail.slope,
        f"{shown} leaves weak short grain along the tail's end and a weak arris at the housing's "
        "mouth.",
        f"{shown} holds little on a tail so short.",
        OURS,
        "1:6 to 1:8 is usual (common practice, no source).",
        SLOPES,
    )
    yield from _on_widths(tail)
    yield from _on_length(tail)


def _on_widths(tail: SlidingTail) -> Iterator[Finding]:
    if tail.shoulder < NARROWEST_SHOULDER:
        yield advice(
            "shoulder-narrow",
            f"A shoulder of {tail.text(tail.shoulder)} barely covers the housing's edge.",
            OURS,
            f"Make it {tail.text(NARROWEST_SHOULDER)} or more.",
            "shoulder",
        )
    narrowest = tail.width_at(tail.start, tail.depth)
    # On a thin shelf as thick as a tenon would be: a third (Noyes 1910, p. 160).
    if narrowest < min(weakest_tail(tail.shelf.thickness), tail.shelf.thickness / 3):
        yield advice(
            "tail-weak",
            f"The tail is only {tail.text(narrowest)} thick between its shoulders at the front.",
            OURS,
            "Give narrower shoulders or a gentler taper.",
            "shoulder",
        )
    yield from loose_fit(tail, tail.given.fit, "at each sloping side leaves the shelf loose")


def _on_length(tail: SlidingTail) -> Iterator[Finding]:
    yield from tail.stopped_too_soon()
    yield from tail.near_an_end()
    yield from tail.open_behind(tail.side.thickness)  # a back may lie in rebates no wider
    long = tail.shelf.width - tail.start
    if not tail.taper and long > LONGEST_PARALLEL:
        yield advice(
            "long-and-parallel",
            f"A parallel tail {tail.text(long)} long binds before it is home.",
            f"{OURS}; a taper for long ones: {COMMON}",
            'Give a taper, such as "1:100".',
            "taper",
        )
