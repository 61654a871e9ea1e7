"""Steps of work that several dovetails share, with the layout's own figures.

All are common practice, no source, where nothing else stands beside them.
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.corners.grooves import CornerGroove, Ending
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.joint import Step
from joinery_templates.joints.spacing.keep_clear import Channel
from joinery_templates.joints.spacing.tails import Spacing
from joinery_templates.lengths import Units, decimal_text, length_text


@dataclass(frozen=True, slots=True)
class Work:
    """A corner that is to be cut, and the units that its figures are told in."""

    corner: DovetailCorner
    units: Units

    @property
    def tail(self) -> str:
        """The tail board, with its name."""
        return f"the tail board ({self.corner.tail_board.name})"

    @property
    def pin(self) -> str:
        """The pin board, with its name."""
        return f"the pin board ({self.corner.pin_board.name})"

    @property
    def starts_with_half_pins(self) -> bool:
        """With half pins the tail board's edges are cut, with half tails the pin board's."""
        return bool(self.corner.spacing.half_pins)

    @property
    def one_in(self) -> str:
        """The slope as a ratio."""
        return f"1:{decimal_text(1 / self.corner.slope, 2)}"

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.units)


def prepare(work: Work) -> Step:
    """Square ends, marked faces, thickness measured again."""
    return Step(
        "Prepare",
        "Plane the ends square. Mark the outside face and the reference edge of every board, "
        f"and the corner's letter on both its boards. Measure the thickness of {work.tail} and "
        f"{work.pin} again: if it is not what the job says, correct the job file and print again.",
    )


def gauge_both_baselines(work: Work) -> Step:
    """Baselines on both faces of both boards."""
    cut_edges = work.tail if work.starts_with_half_pins else work.pin
    return Step(
        "Baselines",
        f"Set a gauge to {work.text(work.corner.depth)} for {work.tail} and another to "
        f"{work.text(work.corner.pin_depth)} for {work.pin}. Scribe lightly on both faces, and on "
        f"both edges of {cut_edges}. The printed baseline must fall on the scribed one.",
    )


def lay_on_tails(work: Work) -> Step:
    """The tail board's template."""
    return Step(f"Lay on {work.tail}", LAY_ON)


LAY_ON = (
    "Trim the template along its outer lines and crease both folds over a rule, printed side "
    "out. Fold it over the end so that the two fold lines sit on the arrises, bring its reference "
    "edge flush with the board's, and glue it, or tape it and prick through the small crosses."
)


def saw_tails(work: Work, at_edges: str = "along the baseline at both edges") -> Step:
    """Down the sides of the tails, and off with the waste beside them."""
    return Step(
        "Saw the tails",
        f"{count_words(work.corner.spacing)} at {work.one_in}. Saw in the waste, so "
        "that the line just stays; square across the end, sloping down the face, and stop at "
        "the baseline."
        + (f" Saw off the half-pin waste {at_edges}." if work.starts_with_half_pins else ""),
    )


def chop_between_tails(work: Work) -> tuple[Step, ...]:
    """The spaces for whole pins, where there are any."""
    if not work.corner.spacing.pins:
        return ()
    return (
        Step(
            "Chop between the tails",
            "Knife the baseline in the waste only, clamp the board down, and chop half way from "
            "each face, a little at a time, a hair inside the line first. Pare to the line last, "
            "and test with a square.",
        ),
    )


def lay_on_pins(work: Work, how: str = "") -> Step:
    """The pin board's template, and the tails themselves laid on it."""
    return Step(
        f"Lay on {work.pin}",
        f"Put the template of {work.pin} on in the same way, and peel the paper off the tails' "
        "inside face. Hold the pin board upright in the vice, its outside face away from you; lay "
        "the tail board flat on its end, inside face down, its baseline on the inside arris, the "
        f"reference edges level, the same letter on both{how}. Where line and tail differ, the "
        "tail is right: knife round the tails themselves.",
    )


def saw_and_chop_pins(work: Work) -> Step:
    """Sockets right through."""
    return Step(
        "Saw and chop the pins",
        "Saw straight down along the grain, in the waste, at the slope on the end. Chop from "
        "both faces, half way each."
        + (
            ""
            if work.starts_with_half_pins
            else " Saw off the half-tail waste along the baseline at both edges."
        ),
    )


def saw_and_chop_sockets(work: Work) -> Step:
    """Sockets that stop at the pin board's lap."""
    return Step(
        "Saw and chop the sockets",
        "Saw in the waste at the slope on the end, with the saw held at a slant: from the inside "
        "arris down to the lap line and the baseline at once, and no further, so that the lap "
        "stays whole. The saw reaches half of each side; the chisel does the rest. Lay the board "
        "down with its inside face up, chop across the grain at the baseline, a thin slice at a "
        "time, and split each slice off from the end, down to the lap line. Clear the far corners "
        "with a narrow chisel, and pare to the lines last."
        + (
            ""
            if work.starts_with_half_pins
            else " The half-tail waste at both edges is taken out in the same way."
        ),
    )


def mark_from_pins(work: Work, how: str) -> Step:
    """Where a lap covers the tails they cannot be knifed round: pins come first."""
    return Step(
        f"Mark {work.tail} from the pins",
        f"Lay {work.tail} down with its inside face up and stand the cut pins on it, {how}, the "
        "reference edges level: where line and pin differ, the pin is right. Knife along both "
        "sides of every pin.",
    )


def saw_and_chop_hidden_spaces(work: Work) -> Step:
    """Spaces for the pins that stop at the tail board's lap."""
    return Step(
        "Saw and chop the tails",
        f"{count_words(work.corner.spacing)} at {work.one_in}. Saw in the waste, square to the "
        "inside face and at the slope drawn on it, with the saw held at a slant: down to the lap "
        "and the baseline at once, and no further. Chop at the baseline, a thin slice at a time, "
        "split each slice off down to the lap, and clear the far corners with a narrow chisel."
        + (
            " The half-pin waste at both edges is taken out in the same way."
            if work.starts_with_half_pins
            else ""
        ),
    )


def fit_and_glue(work: Work) -> Step:
    """Trying, gluing, and what is planed flush."""
    return Step(
        "Fit and glue",
        "Try each corner once, part of the way, and ease only where it rubs and shines. Peel or "
        "plane off the paper, glue, and check that the diagonals are equal before it sets."
        + _flush(work),
    )


def with_ploughing(
    work: Work,
    steps: tuple[Step, ...],
    grooves: tuple[CornerGroove, ...],
    outside: tuple[Channel, ...],
) -> tuple[Step, ...]:
    """The steps with the grooves inside before the glue, and those outside after it."""
    ploughed = (_plough(work, groove) for groove in grooves)
    return (*steps[:-1], *ploughed, steps[-1], *(_round_the_corner(work, one) for one in outside))


def _plough(work: Work, groove: CornerGroove) -> Step:
    """A groove is ploughed; a rebate, open at an edge, is planed."""
    is_rebate = groove.channel.name == "rebate"
    verb = "plane" if is_rebate else "plough"
    channel, ends = groove.channel, (groove.tail_ending, groove.pin_ending)
    boards = zip((work.tail, work.pin), ends, (groove.tail_start, groove.pin_start), strict=True)
    words = [
        f"On both inside faces, {_gauged(work, channel)}, {work.text(groove.depth)} deep.",
        *(f"On {board} it {_ending(work, ending, start)}." for board, ending, start in boards),
    ]
    if Ending.STOPPED in ends:
        words.append(
            f"Where it is stopped, knife a line across at that distance and, before you {verb}, "
            "chop the last of it out with a chisel, as long as the plane's toe needs: were it to "
            "run on, a hole would show outside."
        )
    else:
        words.append(f"Nothing shows: {verb} from end to end.")
    if is_rebate:
        words.insert(1, "Use a fillister plane, or a rebate plane against a fence.")
    lies_in = "the bottom or the lid" if is_rebate else "the bottom"
    words.append(f"Try {lies_in} in the corner before you glue.")
    return Step(f"{verb.capitalize()} the {channel.name}", " ".join(words))


def _gauged(work: Work, channel: Channel) -> str:
    """Where a groove or rebate lies, as it is gauged from an edge."""
    if channel.name == "groove":
        low, high = work.text(channel.low), work.text(channel.high)
        return f"from {low} to {high} from the reference edge"
    edge = "far" if channel.low else "reference"
    return f"{work.text(channel.high - channel.low)} from the {edge} edge"


def _ending(work: Work, ending: Ending, start: Fraction) -> str:
    return f"{ending} {work.text(start)} from the end" if ending is Ending.STOPPED else str(ending)


def _round_the_corner(work: Work, channel: Channel) -> Step:
    return Step(
        f"Cut the {channel.name} outside",
        f"It is not drawn. When the glue is hard and the corner planed flush, cut it right round "
        f"the outside, {_gauged(work, channel)}.",
    )


def count_words(spacing: Spacing) -> str:
    """How many tails there are."""
    whole = len(spacing.whole_tails)
    parts = [f"{whole} tail{'' if whole == 1 else 's'}"] if whole else []
    if not spacing.half_pins:
        parts.append("a half tail at each edge")
    return " and ".join(parts)


def _flush(work: Work) -> str:
    reaches = (("tails", work.corner.tails.past), ("pins", work.corner.pins.past))
    proud = [f"{name} stand {work.text(length)} proud" for name, length in reaches if length > 0]
    if not proud:
        return ""
    return f" The {' and the '.join(proud)}: plane them flush when the glue is hard."
