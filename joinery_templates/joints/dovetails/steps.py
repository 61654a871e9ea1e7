"""Steps of work that several dovetails share, with the layout's own figures.

All are common practice, no source, where nothing else stands beside them.
"""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.corners import closing
from joinery_templates.joints.corners import steps as corners
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.layout import BESIDE


def gauge_both_baselines(corner: DovetailCorner) -> Step:
    """Baselines on both faces of both boards."""
    cut_edges = corner.at_edges(half_pins=corner.the_tail_board, half_tails=corner.the_pin_board)
    return Step(
        Task.GAUGE,
        "Baselines",
        f"Set a gauge to {corner.text(corner.depth)} for {corner.the_tail_board} and another to "
        f"{corner.text(corner.pin_depth)} for {corner.the_pin_board}. Scribe lightly on both "
        f"faces, and on both edges of {cut_edges}. The printed baseline must fall on the scribed "
        "one.",
    )


def saw_tails(
    corner: DovetailCorner, at_edges: str = "beside the baseline at both edges, on the waste side"
) -> Step:
    """Down the sides of the tails, and off with the waste beside them."""
    return Step(
        Task.SAW_FIRST,
        "Saw the tails",
        f"{count_words(corner)} at {corner.slope_text}. Saw {BESIDE}; square across the end grain, "
        "sloping down the face, and stop at the baseline. Then knife the baseline across the "
        "waste, on both faces"
        + corner.at_edges(half_pins=f" and both edges. Last, saw off the half-pin waste {at_edges}")
        + ".",
    )


def chop_between_tails(corner: DovetailCorner) -> Iterator[Step]:
    """The spaces for whole pins, where there are any."""
    if corner.spacing.pins:
        yield Step(
            Task.CLEAR_FIRST,
            "Chop between the tails",
            "Clamp the board down and chop half way from each face, a little at a time, beside "
            "the knifed baseline, on the waste side. Pare to its middle last, and test with a "
            "square.",
        )


def lay_on_pins(corner: DovetailCorner, how: str = "") -> Step:
    """The pin board's template, and the tails themselves laid on it."""
    return Step(
        Task.LAY_ON,
        f"Lay on {corner.the_pin_board}",
        f"Put the template of {corner.the_pin_board} on in the same way, and peel the paper off "
        "the tails' inside face. Hold the pin board upright in the vice, its outside face away "
        "from you; lay the tail board flat on its end grain, inside face down, its baseline on the "
        f"inside arris, the reference edges level, the same letter on both{how}. Where line and "
        "tail differ, the tail is right: knife round the tails themselves.",
    )


def saw_and_chop_pins(corner: DovetailCorner) -> Step:
    """Sockets right through."""
    return Step(
        Task.CUT_SECOND,
        "Saw and chop the pins",
        f"Saw straight down along the grain, {BESIDE}, at the slope on the end grain. Knife the "
        "baseline across the waste, chop from both faces, half way each, and pare to the middle of "
        "the baseline."
        + corner.at_edges(
            half_tails=" Saw off the half-tail waste beside the baseline at both edges."
        ),
    )


def saw_and_chop_sockets(corner: DovetailCorner) -> Step:
    """Sockets that stop at the pin board's lap."""
    return Step(
        Task.CUT_SECOND,
        "Saw and chop the sockets",
        f"Saw {BESIDE}, at the slope on the end grain, with the saw held at a slant: from the "
        "inside "
        "arris down to the lap line and the baseline at once, and no further, so that the lap "
        "stays whole. The saw reaches half of each side; the chisel does the rest. Lay the board "
        "down with its inside face up, chop across the grain at the baseline, a thin slice at a "
        "time, and split each slice off from the end, down to the lap line. Clear the far corners "
        "with a narrow chisel, and pare to the middle of the lines last."
        + corner.at_edges(
            half_tails=" The half-tail waste at both edges is taken out in the same way."
        ),
    )


def mark_from_pins(corner: DovetailCorner, how: str) -> Step:
    """Where a lap covers the tails they cannot be knifed round: pins come first."""
    return Step(
        Task.LAY_ON,
        f"Mark {corner.the_tail_board} from the pins",
        f"Lay {corner.the_tail_board} down with its inside face up and stand the cut pins on it, "
        f"{how}, the reference edges level: where line and pin differ, the pin is right. Knife "
        "along both sides of every pin.",
    )


def saw_and_chop_hidden_spaces(corner: DovetailCorner) -> Step:
    """Spaces for the pins that stop at the tail board's lap."""
    return Step(
        Task.SAW_FIRST,
        "Saw and chop the tails",
        f"{count_words(corner)} at {corner.slope_text}. Saw {BESIDE}, square to the "
        "inside face and at the slope drawn on it, with the saw held at a slant: down to the lap "
        "and the baseline at once, and no further. Chop at the baseline, a thin slice at a time, "
        "split each slice off down to the lap, and clear the far corners with a narrow chisel."
        + corner.at_edges(
            half_pins=" The half-pin waste at both edges is taken out in the same way."
        ),
    )


def fit_and_glue(corner: DovetailCorner) -> Step:
    """Trying, gluing, and what is planed flush."""
    return Step(
        Task.GLUE,
        "Fit and glue",
        f"{corners.TRY} Glue, and check that the diagonals are equal before it sets."
        + corner.flush_words(("tails", "pins")),
    )


def count_words(corner: DovetailCorner) -> str:
    """How many tails there are."""
    whole = len(corner.spacing.whole_tails)
    parts = (
        f"{whole} tail{'' if whole == 1 else 's'}" if whole else "",
        corner.at_edges(half_tails="a half tail at each edge"),
    )
    return " and ".join(filter(None, parts))


def through_steps(corner: DovetailCorner) -> tuple[Step, ...]:
    """The order of work right through, tails first (common practice, no source)."""
    if corner.pair.is_slanted:
        return tuple(_slanted_steps(corner))
    return (
        corners.prepare(corner),
        gauge_both_baselines(corner),
        corners.lay_on(corner, 0, corners.setting_out_strip()),
        saw_tails(corner),
        *chop_between_tails(corner),
        lay_on_pins(corner),
        saw_and_chop_pins(corner),
        fit_and_glue(corner),
    )


def _slanted_steps(corner: DovetailCorner) -> Iterator[Step]:
    """The same where the ends are not square."""
    yield corners.prepare(corner)
    yield corners.cut_ends(corner)
    yield corners.scribe_slanting_baselines(corner)
    yield corners.lay_on(corner, 0, corners.setting_out_strip())
    yield Step(
        Task.SAW_FIRST,
        "Saw the tails",
        f"{count_words(corner)} at {corner.slope_text} from the grain"
        + (", and not from the slanting end" if corner.pair.end_slope(0) else "")
        + f". Saw {BESIDE}: down the face and along the line on the end grain"
        + (", which is not square across it" if corner.pair.end_slope(1) else "")
        + ", and stop at the baseline. Then knife the baseline across the waste"
        + corner.at_edges(
            half_pins=". Last, saw off the half-pin waste beside it, on the waste side"
        )
        + ".",
    )
    if corner.spacing.pins:
        yield Step(
            Task.CLEAR_FIRST,
            "Chop between the tails",
            "Chop half way from each face, the chisel leaning as the end leans through the "
            "thickness, for the shoulder is parallel to the end of the board. Pare to the middle "
            "of the baseline, and test with that bevel and not with a square.",
        )
    yield Step(
        Task.LAY_ON,
        f"Lay on {corner.the_pin_board}",
        f"Put the templates of {corner.the_pin_board} on in the same way. Then lay the tail board "
        "in its place on the end of the pin board, the arrises together and the same corner on "
        "both: where line and tail differ, the tail is right. Knife round the tails themselves.",
    )
    yield Step(
        Task.CUT_SECOND,
        "Saw and chop the pins",
        f"On both faces the lines run along the grain: saw {BESIDE}, at the slope on the end "
        "grain, and stop at the baseline. Knife the baseline across the waste, chop from both "
        "faces, half way each, and pare to the middle of the baseline."
        + corner.at_edges(half_tails=" Saw off the half-tail waste beside the baseline."),
    )
    yield from closing.join_tails(corner, corner.flush_words(("tails", "pins")))
    yield from corners.level_the_edges(corner)
