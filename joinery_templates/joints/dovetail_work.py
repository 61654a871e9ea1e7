"""The order of work for a dovetail cut tails first, with the layout's own figures."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.joint import Step
from joinery_templates.joints.spacing import Spacing
from joinery_templates.lengths import Units, decimal_text, length_text


@dataclass(frozen=True, slots=True)
class Sizes:
    """The figures that the order of work names."""

    spacing: Spacing
    slope: Fraction
    tail_baseline: Fraction
    pin_baseline: Fraction
    tails_proud: Fraction
    pins_proud: Fraction
    tail_board: str
    pin_board: str
    units: Units

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.units)


def order_of_work(sizes: Sizes) -> tuple[Step, ...]:
    """The steps, in order (common practice, no source)."""
    return tuple(_steps(sizes))


def _steps(sizes: Sizes) -> Iterator[Step]:
    tail, pin = sizes.tail_board, sizes.pin_board
    # With half pins the tail board's edges are cut, with half tails the pin board's.
    cut_edges = tail if sizes.spacing.half_pins else pin
    yield Step(
        "Prepare",
        "Plane the ends square. Mark the outside face and the reference edge of every board, "
        f"and the corner's letter on both its boards. Measure the thickness of {tail} and {pin} "
        "again: if it is not what the job says, mend the job and print again.",
    )
    yield Step(
        "Baselines",
        f"Set a gauge to {sizes.text(sizes.tail_baseline)} for {tail} and another to "
        f"{sizes.text(sizes.pin_baseline)} for {pin}. Scribe lightly on both faces, and on both "
        f"edges of {cut_edges}. The printed baseline must fall on the scribed one.",
    )
    yield Step(
        f"Lay on {tail}",
        "Trim the template along its outer lines. Fold it over the end so that the two fold "
        "lines sit on the arrises, bring its reference edge flush with the board's, and glue it, "
        "or tape it and prick through the small crosses.",
    )
    yield Step(
        "Saw the tails",
        f"{_count(sizes.spacing)} at 1:{decimal_text(1 / sizes.slope, 2)}. Saw in the waste, so "
        "that the line just stays; square across the end, sloping down the face, and stop at "
        "the baseline."
        + (
            " Saw off the half-pin waste along the baseline at both edges."
            if sizes.spacing.half_pins
            else ""
        ),
    )
    if sizes.spacing.pins:
        yield Step(
            "Chop between the tails",
            "Knife the baseline, clamp the board down, and chop half way from each face, a little "
            "at a time, a hair inside the line first. Pare to the line last, and test with a "
            "square.",
        )
    yield Step(
        f"Lay on {pin}",
        f"Put the template of {pin} on in the same way. Then stand the cut tails on its end: "
        "where line and tail differ, the tail is right. Knife round the tails themselves.",
    )
    yield Step(
        "Saw and chop the pins",
        "Saw straight down along the grain, in the waste, at the slope on the end. Chop from "
        "both faces, half way each."
        + (
            ""
            if sizes.spacing.half_pins
            else " Saw off the half-tail waste along the baseline at both edges."
        ),
    )
    yield Step(
        "Fit and glue",
        "Try each corner once, part of the way, and ease only where it rubs and shines. Peel or "
        "plane off the paper, glue, and check that the diagonals are equal before it sets."
        + _flush(sizes),
    )


def _count(spacing: Spacing) -> str:
    whole = len(spacing.whole_tails)
    parts = [f"{whole} tail{'' if whole == 1 else 's'}"] if whole else []
    if not spacing.half_pins:
        parts.append("a half tail at each edge")
    return " and ".join(parts)


def _flush(sizes: Sizes) -> str:
    proud = [
        f"{name} stand {sizes.text(length)} proud"
        for name, length in (("tails", sizes.tails_proud), ("pins", sizes.pins_proud))
        if length
    ]
    if not proud:
        return ""
    return f" The {' and the '.join(proud)}: plane them flush when the glue is hard."
