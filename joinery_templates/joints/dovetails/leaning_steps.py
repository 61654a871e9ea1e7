"""The order of work on a dovetail that leans or is not square in plan."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.joints.corners.closing import join_tails
from joinery_templates.joints.corners.work import (
    LeaningWork,
    cut_ends,
    flush_words,
    lay_on,
    level_the_edges,
    prepare,
    scribe_baselines,
)
from joinery_templates.joints.dovetails.steps import count_words
from joinery_templates.joints.joint import Step
from joinery_templates.joints.spacing.tails import Spacing
from joinery_templates.lengths import decimal_text


def order_of_work(
    work: LeaningWork, spacing: Spacing, slope: Fraction, through: tuple[Fraction, Fraction]
) -> Iterator[Step]:
    """The steps, in order (common practice, no source).

    Args:
        work: the boards' figures.
        spacing: the tails.
        slope: lean of their sides from the grain.
        through: both ends through the thickness, off square.
    """
    pins = work.board(1)
    yield prepare(work)
    yield cut_ends(work, through)
    yield scribe_baselines(work)
    yield lay_on(work, 0)
    yield Step(
        "Saw the tails",
        f"{count_words(spacing)} at 1:{decimal_text(1 / slope, 2)} from the grain"
        + (", and not from the slanting end" if work.pair.end_slope(0) else "")
        + ". Saw in the waste, so that the line just stays: down "
        "the line on the face and along the line on the end grain"
        + (", which is not square across it" if work.pair.end_slope(1) else "")
        + ", and stop at the baseline."
        + (" Saw off the half-pin waste along the baseline." if spacing.half_pins else ""),
    )
    if spacing.pins:
        yield Step(
            "Chop between the tails",
            "Knife the baseline in the waste only and chop half way from each face, the chisel "
            "leaning as the end leans through the thickness, for the shoulder is parallel to the "
            "end. Test it with that bevel and not with a square.",
        )
    yield Step(
        f"Lay on {pins}",
        f"Put the templates of {pins} on in the same way. Then lay the tail board in its place "
        "on the end of the pin board, the arrises together and the same corner on both: where "
        "line and tail differ, the tail is right. Knife round the tails themselves.",
    )
    yield Step(
        "Saw and chop the pins",
        "On both faces the lines run along the grain: saw along them, in the waste, at the "
        "slope on the end, and stop at the baseline. Chop from both faces, half way each."
        + ("" if spacing.half_pins else " Saw off the half-tail waste along the baseline."),
    )
    yield from join_tails(work, flush_words(work, ("tails", "pins")))
    yield from level_the_edges(work)
