"""Spacing of tails across a board, however the person fixes it.

Whatever is given, the result is the same fully stated `Spacing`, in which every
width is exact and they add up to the board. The terms stand in `terms`, what
can be given in `given`; each style has a function of its own.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joints.spacing import styles, weighted
from joinery_templates.joints.spacing.keep_clear import with_groove
from joinery_templates.joints.spacing.parameters import (
    CLUSTERS,
    EQUAL,
    EVEN,
    GRADED,
    HALF_PIN,
    HALF_TAIL,
    LISTED,
    SHOULDER,
    SMALL_EDGES,
    SpacingParameters,
    StyleParameters,
)
from joinery_templates.joints.spacing.rounding import rounded
from joinery_templates.joints.spacing.solver import Asked
from joinery_templates.joints.spacing.terms import (
    Ground,
    Run,
    Spacing,
    check_widths,
    refuse_other_start,
)

_STYLES: Mapping[str, Callable[[Asked], Run]] = {
    EVEN: styles.even,
    SHOULDER: styles.by_shoulder,
    EQUAL: styles.equal_to_pins,
    LISTED: styles.as_listed,
    GRADED: weighted.graded,
    SMALL_EDGES: weighted.small_edges,
    CLUSTERS: weighted.clusters,
}

_ROUNDING = ("round_to", "round")
_PARTS: Mapping[str, tuple[str, ...]] = {
    EVEN: _ROUNDING,
    SHOULDER: ("socket", *_ROUNDING),
    EQUAL: ("at", *_ROUNDING),
    LISTED: ("widths", "mirrored"),
    GRADED: ("ratio", "mirrored", *_ROUNDING),
    SMALL_EDGES: ("ratio", "edge_tails", "mirrored", *_ROUNDING),
    CLUSTERS: ("pins_together", "groups", "narrow_tail", *_ROUNDING),
}
"""What may stand beside each style in its table."""

_FOLLOWS: Mapping[str, tuple[str, ...]] = {
    SHOULDER: ("half_pin", "half_pin_far", "half_tail"),
    LISTED: ("tails", "tail", "pin"),
}
"""What follows from a style and cannot be given as well."""

_TAIL_FOLLOWS = frozenset({SHOULDER, GRADED, SMALL_EDGES, CLUSTERS})
"""Styles in which the tails' width follows when their number is given."""


def space_tails(given: SpacingParameters, ground: Ground) -> Spacing:
    """The spacing that follows from what is given.

    Raises:
        InputError: where too much is given and does not add up, or nothing that
            can be cut follows.
    """
    _check_style(given)
    refuse_other_start(given)
    spacing = _spaced(given, ground)
    narrowest = min(tail.width_at(ground.lean) for tail in spacing.tails)
    if narrowest <= 0:
        raise InputError(_crossing_tails(spacing, ground))
    return with_groove(spacing, given, ground)


def _spaced(given: SpacingParameters, ground: Ground) -> Spacing:
    asked = Asked(given, ground)
    run = _STYLES[given.chosen.style](asked)
    _check_run(run, ground)
    run, more = rounded(run, given, ground)
    _check_run(run, ground)
    spacing = run.spaced((*asked.rules, *more))
    assert spacing.width == ground.width
    return spacing


def _check_run(run: Run, ground: Ground) -> None:
    """Something is left for every piece.

    Raises:
        InputError: `no-tail` or `no-room`.
    """
    if run.start == HALF_PIN and not run.tails:
        raise InputError(_no_tail())
    halves = run.start == HALF_TAIL
    check_widths(
        ground,
        *(("pin", pin) for pin in run.pins),
        *(("tail", tail) for tail in run.tails),
        ("half_tail" if halves else "half_pin", run.first),
        ("half_tail" if halves else "half_pin_far", run.last),
    )


def _check_style(given: SpacingParameters) -> None:
    """Nothing is given that has no meaning beside the style.

    Raises:
        InputError: `not-with-this-style`, for each, or `not-without-rounding`.
    """
    style = given.chosen.style
    parts = [name for name in StyleParameters.__dataclass_fields__ if name != "style"]
    strange = [
        f"spacing.{name}"
        for name in parts
        if getattr(given.chosen, name) is not None and name not in _PARTS[style]
    ]
    names = _FOLLOWS.get(style, ())
    strange += [name for name in names if getattr(given, name) is not None]
    if style in _TAIL_FOLLOWS and given.tails is not None and given.tail is not None:
        strange.append("tail")
    if given.edges == HALF_PIN and given.tails == 0:
        raise InputError(_no_tail())
    findings = [
        mistake(
            "not-with-this-style",
            f'This does not go together with the style "{style}".',
            "Leave it out, or choose another style.",
            name,
        )
        for name in strange
    ]
    if given.chosen.round is not None and given.chosen.round_to is None and not findings:
        findings.append(
            mistake(
                "not-without-rounding",
                "Nothing says what to round to.",
                'Give round_to as well, such as "1 mm".',
                "spacing.round",
            )
        )
    if findings:
        raise InputError(*findings)


def _no_tail() -> Finding:
    return mistake("no-tail", "There must be at least 1 tail.", "Give more tails.", "tails")


def _crossing_tails(spacing: Spacing, ground: Ground) -> Finding:
    tail = min(spacing.tails, key=lambda tail: tail.width_at(ground.lean))
    return mistake(
        "tails-cross",
        f"A tail {ground.text(tail.width)} wide at the end runs out before the "
        f"baseline: its sides come in by {ground.text(ground.lean)} each.",
        "Give fewer tails, narrower pins, or a slope that leans less.",
        "tails",
    )


def marks_of(spacing: Spacing, lean: Fraction) -> tuple[tuple[Fraction, int, bool], ...]:
    """The marks where sloping sides stand when they have come in by `lean`.

    Returns:
        For each mark: its place from the reference edge, the number of its tail
        among all tails (1 is the first), and whether that tail starts there.
    """
    marks = []
    for number, tail in enumerate(spacing.tails, start=1):
        if tail.left_slopes:
            marks.append((tail.left + lean, number, True))
        if tail.right_slopes:
            marks.append((tail.right - lean, number, False))
    return tuple(marks)
