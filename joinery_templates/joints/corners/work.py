"""Bevels, gauges and steps of work for corners that lean or are not square in plan.

The steps are common practice, no source; the bevels are computed from the solids.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from joinery_templates.errors import InputError, mistake
from joinery_templates.exact import degrees_of, tangent
from joinery_templates.joints.corners.pair import LeaningPair
from joinery_templates.joints.dovetails.steps import LAY_ON
from joinery_templates.joints.joint import LengthSetting, SettingOut, Size, SlopeSetting, Step
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.leaning import SQUARE

ONE = Fraction(1)


@dataclass(frozen=True, slots=True)
class LeaningWork:
    """A corner that is to be cut.

    Attributes:
        pair: the boards in it.
        roles: what the boards are called in this joint.
        units: that figures are told in.
    """

    pair: LeaningPair
    roles: tuple[str, str]
    units: Units

    def board(self, number: int) -> str:
        """A board by its role and its name."""
        return f"the {self.roles[number]} ({self.pair.boards[number].name})"

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.units)

    def end_bevels(self, through: tuple[Fraction, Fraction]) -> tuple[SlopeSetting, ...]:
        """The ends across the faces and through the thickness.

        Args:
            through: for each board its bevel through the thickness, off square.
        """
        return (
            *self._merged([self.pair.end_slope(0), self.pair.end_slope(1)], _across),
            *self._merged(list(through), _through),
        )

    def edge_bevels(self) -> tuple[SlopeSetting, ...]:
        """The edges, where they are to lie level."""
        leans = [tangent(lean) for lean in self.pair.corner.leans_deg]
        return tuple(self._merged(leans, _edges))

    def _merged(
        self, slopes: list[Fraction], words: Callable[[str, bool], str]
    ) -> Iterator[SlopeSetting]:
        """One setting for both boards where they are alike; none where there is no bevel."""
        if slopes[0] == slopes[1]:
            named = [("both boards", slopes[0])]
        else:
            named = list(zip(self.roles, slopes, strict=True))
        for name, slope in named:
            if slope:
                yield SlopeSetting(words(name, slope > 0), abs(slope))

    def gauges(self) -> tuple[LengthSetting, ...]:
        """From each board's end to its baseline, square to the line of the end."""
        depths = [self.pair.gauge(0), self.pair.gauge(1)]
        return tuple(
            LengthSetting("gauge", f"{role}'s baseline, square to its end", depth)
            for role, depth in zip(self.roles, depths, strict=True)
        )

    def run_outs(self) -> tuple[Size, ...]:
        """How far the ends run out of square over the whole width."""
        return tuple(
            Size(f"{role}'s end, out of square over its width", abs(slope) * board.width)
            for number, (role, board) in enumerate(zip(self.roles, self.pair.boards, strict=True))
            if (slope := self.pair.end_slope(number))
        )

    @property
    def edges_lean(self) -> bool:
        """Whether the edges have to be planed to lie level."""
        return any(self.pair.corner.leans_deg)

    @property
    def is_square_in_plan(self) -> bool:
        """Whether the boards meet at a right angle seen from above."""
        return self.pair.corner.plan_deg == SQUARE

    def end_of(self, number: int) -> str:
        """A board's end, and whether it slants across the faces."""
        return f"{self.roles[number]}'s {'slanting ' if self.pair.end_slope(number) else ''}end"

    def square_across(self, number: int) -> str:
        """Added to what is measured square to the edges, where the end is not."""
        return ", square to the edges" if self.pair.end_slope(number) else ""

    def degrees(self, slope: Fraction) -> str:
        """A slope as an angle."""
        return f"{degrees_of(abs(slope), ONE):.2f}°"


def _across(name: str, positive: bool) -> str:
    longer = "reference" if positive else "far"
    return f"{name}: end across the faces, off square; longer at the {longer} edge"


def _through(name: str, positive: bool) -> str:
    longer = "outside" if positive else "inside"
    return (
        f"{name}: end through the thickness, off square, held square to the line of the end; "
        f"longer on the {longer} face"
    )


def _edges(name: str, positive: bool) -> str:
    low, high = ("outside", "inside") if positive else ("inside", "outside")
    return (
        f"{name}: edges, to lie level; plane the reference edge down on its {low} face and the "
        f"far edge on its {high} face"
    )


_LAY_ON_FACES = (
    "Trim the templates of its faces along their outer lines. Lay each with the line of its end on "
    "the arris and its reference edge flush with the board's, and tape it. The outside face, the "
    "inside face and the end grain must meet at the arrises; then prick through the small crosses."
)


def lay_on(work: LeaningWork, number: int) -> Step:
    """A board's templates: single faces where the end slants, else a wrap."""
    words = _LAY_ON_FACES if work.pair.is_slanted else LAY_ON
    return Step(f"Lay on {work.board(number)}", words)


def flush_words(work: LeaningWork, names: tuple[str, str]) -> str:
    """What is planed flush at the end, if anything.

    Args:
        work: the corner.
        names: what stands proud of the second board, and of the first.
    """
    proud = [
        f"{name} stand {work.text(length)} proud"
        for name, length in zip(names, work.pair.past, strict=True)
        if length
    ]
    if not proud:
        return ""
    return f" The {' and the '.join(proud)}: plane them flush when the glue is hard."


def prepare(work: LeaningWork) -> Step:
    """Flat boards with square edges, marked and measured again."""
    return Step(
        "Prepare",
        "Plane the boards to size with edges square to the faces. Mark the outside face and the "
        "reference edge, which is the lower one, of every board, and the corner's letter or name "
        f"on both its boards. Measure {work.board(0)} and {work.board(1)} again: if width or "
        "thickness is not what the job says, correct the job file and print again.",
    )


def cut_ends(work: LeaningWork, through: tuple[Fraction, Fraction]) -> Step:
    """The ends, before anything is set out on them."""
    slanting = any(work.pair.end_slope(number) for number in (0, 1))
    bevels = " with the bevels" if slanting or any(through) else ""
    fits = (
        " The slanting end of the outside face's template must fit on it."
        if slanting
        else " The end grain's template must cover it from arris to arris."
        if any(through)
        else ""
    )
    return Step(
        "Cut the ends",
        f"{ends_words(work, through)} {length_words(work, through)} Knife the line round the "
        f"board{bevels}, saw, and plane the end to it.{fits}",
    )


def length_words(work: LeaningWork, through: tuple[Fraction, Fraction]) -> str:
    """At which arris the length of either board is measured.

    Args:
        work: the corner.
        through: for each board its bevel through the thickness, off square.
    """
    first, second = (_arris(work.pair.end_slope(n), through[n]) for n in (0, 1))
    if first == second:
        return f"Measure a board's length {first}."
    return f"Measure the length of {work.board(0)} {first}; that of {work.board(1)} {second}."


def _arris(slope: Fraction, through: Fraction) -> str:
    """Outside, where the piece is measured too; on a slanting end at the longer edge."""
    if slope:
        longer = "reference" if slope > 0 else "far"
        place = f"on the outside face along its arris at the {longer} edge"
    else:
        place = "on the outside face"
    if through < 0:
        return f"{place}, and leave the stock longer, for the inside face is longer still"
    return place


def ends_words(work: LeaningWork, through: tuple[Fraction, Fraction]) -> str:
    """How both boards' ends are off square.

    Args:
        work: the corner.
        through: for each board its bevel through the thickness, off square.
    """
    first, second = (_end_words(work, number, through[number]) for number in (0, 1))
    if first == second:
        return f"The ends of {work.board(0)} and {work.board(1)} are {first}."
    return f"The end of {work.board(0)} is {first}; that of {work.board(1)} is {second}."


def _end_words(work: LeaningWork, number: int, through: Fraction) -> str:
    slope, parts = work.pair.end_slope(number), []
    if slope:
        longer = "reference" if slope > 0 else "far"
        parts.append(f"{work.degrees(slope)} across the faces, longer at the {longer} edge")
    if through:
        longer = "outside" if through > 0 else "inside"
        parts.append(f"{work.degrees(through)} through the thickness, longer on the {longer} face")
    return f"off square by {', and by '.join(parts)}" if parts else "square"


def scribe_baselines(work: LeaningWork) -> Step:
    """Baselines on both faces of both boards."""
    return Step(
        "Baselines",
        f"Scribe lines at {work.text(work.pair.gauge(0))} from the end of {work.board(0)} and at "
        f"{work.text(work.pair.gauge(1))} from that of {work.board(1)}, square to the line of the "
        "end and on both faces. A gauge follows the end as it runs; the printed baseline must fall "
        "on the scribed one. Where waste reaches an edge of the board, join both across it.",
    )


def level_the_edges(work: LeaningWork) -> tuple[Step, ...]:
    """Lower and upper edges, where the boards lean."""
    if not work.edges_lean:
        return ()
    return (
        Step(
            "Level the edges",
            "When the glue is hard, plane the lower and the upper edges level all round, to the "
            "printed bevel.",
        ),
    )


def check_room(rows: Iterable[SettingOut], what: str, remedy: str, place: str) -> None:
    """Refuse a layout of which something comes to nothing on one of its lines.

    Args:
        rows: the marks along each line.
        what: what would come to nothing, in words.
        remedy: how to mend it.
        place: the parameter to look at.

    Raises:
        InputError: where the marks along a line are not in order.
    """
    for row in rows:
        places = [Fraction(0), *(mark.position for mark in row.marks), row.width]
        if any(high <= low for low, high in pairwise(places)):
            message = f"On the {row.role} ({row.title}) {what} comes to nothing."
            raise InputError(mistake("no-room", message, remedy, place))
