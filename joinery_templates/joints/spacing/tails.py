"""Spacing of tails across a board, however the person fixes it.

Whatever is given, the result is the same fully stated `Spacing`, in which every
width is exact and they add up to the board.
"""

from collections.abc import Iterator

from joinery_templates.errors import Finding, mistake, refusal, refuse
from joinery_templates.joints.parameter import names_of
from joinery_templates.joints.spacing import parameters
from joinery_templates.joints.spacing.keep_clear import clear_of_channels
from joinery_templates.joints.spacing.rounding import rounded
from joinery_templates.joints.spacing.solver import Asked, Run
from joinery_templates.joints.spacing.styles import STYLES
from joinery_templates.joints.spacing.terms import Ground, Spacing


def space_tails(given: parameters.SpacingParameters, ground: Ground) -> Spacing:
    """The spacing that follows from what is given.

    Raises:
        InputError: where too much is given and does not add up, or nothing that
            can be cut follows.
    """
    if given.edges == parameters.HALF_PIN and given.tails == 0:
        raise refusal("no-tail", "There must be at least 1 tail.", "Give more tails.", "tails")
    refuse(_strange_to_the_style(given))
    refuse(_strange_to_the_edges(given))
    asked = Asked(given, ground)
    run = STYLES[given.chosen.style].run(asked)
    _check_run(run, ground)
    spacing = rounded(run, asked).spaced(asked.rules)
    assert spacing.width == ground.width
    narrowest = min(spacing.tails, key=lambda tail: tail.width_at(ground.lean))
    if narrowest.width_at(ground.lean) <= 0:
        raise refusal(
            "tails-cross",
            f"A tail {ground.text(narrowest.width)} wide at the end runs to a point before the "
            f"baseline: each side comes in by {ground.text(ground.lean)}.",
            "Give fewer tails, narrower pins, or a flatter slope.",
            "tails",
        )
    return clear_of_channels(spacing, given, ground)


def _check_run(run: Run, ground: Ground) -> None:
    """Something is left for every piece."""
    near, far = ("half_tail",) * 2 if run.half_tails else ("half_pin", "half_pin_far")
    for name, widths in (
        ("pin", run.pins),
        ("tail", run.tails),
        (near, (run.first,)),
        (far, (run.last,)),
    ):
        for width in widths:
            if width <= 0:
                raise refusal(
                    "no-room",
                    f"Nothing is left for the {name.replace('_', ' ')}: "
                    f"the rest takes up all {ground.text(ground.width)}.",
                    "Give fewer or narrower tails, narrower pins, or a wider board.",
                    name,
                )


def _strange_to_the_style(given: parameters.SpacingParameters) -> Iterator[Finding]:
    """What has no meaning beside the style."""
    chosen, style = given.chosen, STYLES[given.chosen.style]
    strange = [
        f"spacing.{name}"
        for name in names_of(parameters.StyleParameters)
        if name not in ("style", *style.parts) and getattr(chosen, name) is not None
    ]
    strange += [name for name in style.follows if getattr(given, name) is not None]
    if style.tail_follows and given.tails is not None and given.tail is not None:
        strange.append("tail")
    for name in strange:
        yield mistake(
            "not-with-this-style",
            f'This does not go with the style "{chosen.style}".',
            "Leave it out, or choose another style.",
            name,
        )
    if chosen.round is not None and chosen.round_to is None and not strange:
        yield mistake(
            "not-without-rounding",
            "Nothing says what to round to.",
            'Give round_to as well, such as "1 mm".',
            "spacing.round",
        )


def _strange_to_the_edges(given: parameters.SpacingParameters) -> Iterator[Finding]:
    """Half pins beside half tails at the edges, and the other way round."""
    names: tuple[str, ...] = ("half_tail",)
    other = parameters.HALF_TAIL
    if given.edges == parameters.HALF_TAIL:
        names, other = ("half_pin", "half_pin_far"), parameters.HALF_PIN
    for name in names:
        if getattr(given, name) is not None:
            yield mistake(
                "not-with-this-start",
                f"This does not go with {given.edges.replace('-', ' ')}s at the edges.",
                f'Leave it out, or set start = "{other}".',
                name,
            )
