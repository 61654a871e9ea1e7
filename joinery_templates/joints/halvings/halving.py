"""The halving, or lap joint: half of each board's thickness is notched out where they cross.

At a corner, in a tee or across each other, at any angle and of any two widths; the faces that
are marked come flush, whatever the boards' thicknesses. See `crossing` for the shape.
"""

from collections.abc import Iterator

from joinery_templates.errors import COMMON, Finding, advice, mistake
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import LengthSetting, Pose, Size, Step
from joinery_templates.joints.checks import only_with
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.halvings import crossing
from joinery_templates.joints.halvings import crossing_work as work
from joinery_templates.joints.halvings.crossing import Crossing, CrossingParameters
from joinery_templates.joints.halvings.dovetail_shape import HALVINGS, INSIDE, OUTSIDE
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import FRAME_CORNERS, RAIL, STILE, pose
from joinery_templates.joints.shared_parameters import choice_parameter, size_parameter
from joinery_templates.joints.sources import BUILDING_CONSTRUCTION, NOYES
from joinery_templates.lengths import INCH, Units

HALF = f"{HALVINGS}; {BUILDING_CONSTRUCTION}"
MIDDLE = f"{NOYES}, p. 156"
OVERLAP = f"{NOYES}, p. 156: an end is left 1/16 in over"
THIRD = Fraction(1, 3)
"""Of its own thickness, what a lap keeps at the least (our judgement)."""
OVERHANG = {Units.MM: Fraction(3, 2), Units.INCH: INCH / 16}
IN_THE_MIDDLE = (
    "of a cross, the middle of the board where its length is told (Noyes 1910, p. 156); else not "
    "told: the joint goes where you square its line"
)


class Parameters(CrossingParameters):
    """The parameters of a halving."""

    form: str = choice_parameter(
        "A corner, a tee where the rail's end meets the stile, or both crossing each other.",
        crossing.CORNER,
        crossing.TEE,
        crossing.CROSS,
    )
    depth: Fraction | None = size_parameter(
        "From the outside face of both boards to where they meet.",
        f"half of the thinner board's thickness ({HALF})",
    )
    shows: str = choice_parameter(
        "On which face the rail runs whole across the stile; behind a mitre lies the stile's lap, "
        "or, with inside, the rail's.",
        OUTSIDE,
        INSIDE,
    )
    at: Fraction | None = crossing.place_parameter(STILE, RAIL, IN_THE_MIDDLE)
    rail_at: Fraction | None = crossing.place_parameter(RAIL, STILE, IN_THE_MIDDLE)
    overhang: Fraction | None = crossing.overhang_parameter(f"1.5 mm, or 1/16 in ({OVERLAP})")


class Halving(Crossing, frozen=True, dict=True):
    """A rail and a stile, half of each taken away."""

    waste = "lap"
    usual_overhang = OVERHANG
    given: Parameters

    @property
    def depth(self) -> Fraction:
        """From the outside face of both to where they meet."""
        return self.thinner.thickness / 2 if self.given.depth is None else self.given.depth

    @property
    def layers(self) -> tuple[crossing.Layer, ...]:
        """The rail's and the stile's; a mitre takes the place of the one outside."""
        keeps = (
            (crossing.RAILS, crossing.STILES)
            if self.given.shows == OUTSIDE
            else (crossing.STILES, crossing.RAILS)
        )
        outer = None if self.given.mitred else keeps[0]
        return crossing.Layer(outer, high=self.depth), crossing.Layer(keeps[1], low=self.depth)

    def along(self, number: int) -> Fraction | None:
        """From a board's end to its line: where told, or so that a cross is in the middle."""
        told = self.given.at if number == crossing.STILES else self.given.rail_at
        length = self.boards[number].length
        if told is not None or length is None or self.given.form != crossing.CROSS:
            return told
        ys = self.ys(number)
        return length / 2 - sum(ys, ZERO) / len(ys)

    def thicknesses(self) -> Iterator[tuple[int, Fraction]]:
        """How thick each board is at the crossing, by its number."""
        for number, board in enumerate(self.boards):
            is_inner = self.layers[-1].kept_by == number
            yield number, board.thickness - self.depth if is_inner else self.depth

    @property
    def pose(self) -> Pose:
        """Flat on the bench; the rail is lifted off where it shows."""
        up = (0, 0, -1 if self.given.shows == OUTSIDE else 1)
        return self.drawn_off(pose(up, front=(-2, 1, 0), apart=up))

    def lengths(self) -> Iterator[LengthSetting]:
        """The gauge that serves for both, and those of the shoulders."""
        yield gauge("both boards, from the outside face", self.depth)
        yield from super().lengths()

    def steps(self) -> Iterator[Step]:
        """The order of work."""
        return work.order_of_work(self, self._gauging(), self._fitting())

    def sizes(self) -> Iterator[Size]:
        """Of the joint's own, and what is left of both boards at it."""
        for number, left in self.thicknesses():
            yield Size(f"{self.role(number)}, thickness left at the joint", left)
        yield from super().sizes()

    def rules(self) -> Iterator[str]:
        """What was decided by a rule."""
        given, text = self.given, self.text
        if given.depth is None:
            yield (
                f"Depth: {text(self.depth)} from the outside face, half of the thinner board's "
                f"thickness ({HALF})."
            )
        if given.overhang is None and given.form != crossing.CROSS:
            yield f"Overhang: {text(self.overhang)} ({OVERLAP})."
        if given.form == crossing.CROSS:
            for number, told in ((crossing.RAILS, given.rail_at), (crossing.STILES, given.at)):
                along = self.along(number)
                if told is None and along is not None:
                    yield (
                        f"Place: in the middle of {self.named(number)}, so that the "
                        f"{self.mate(number)} starts {text(along)} from its end ({MIDDLE})."
                    )

    def impossible(self) -> Iterator[Finding]:
        """A notch right through, and what no crossing can have."""
        given, text, thinner = self.given, self.text, self.thinner
        if self.depth >= thinner.thickness:
            yield mistake(
                "no-room",
                f"At a depth of {text(self.depth)} nothing is left of one board: "
                f'"{thinner.name}" is {text(thinner.thickness)} thick.',
                f"Give less: half of the thinner board is usual, {text(thinner.thickness / 2)}.",
                "depth",
            )
        if given.rail_at is not None and given.form != crossing.CROSS:
            yield only_with("rail_at", crossing.CROSS, "The rail's place is told of a cross only.")
        yield from work.impossible(self)

    def advise(self) -> Iterator[Finding]:
        """A thin lap, and what is unwise at any crossing."""
        for number, left in self.thicknesses():
            board = self.boards[number]
            if left < board.thickness * THIRD:
                told = self.given.depth is not None
                yield advice(
                    "lap-thin",
                    f'Only {self.text(left)} of "{board.name}" is left at the joint, less than a '
                    f"third of its {self.text(board.thickness)}.",
                    f"{HALF}: half of each; the third is our judgement",
                    "Gauge nearer to the middle." if told else "Take boards nearer in thickness.",
                    "depth" if told else "",
                )
        yield from work.advise(self)

    def _gauging(self) -> str:
        """One setting for both, so that an error on the one is made good by the other."""
        return (
            f"Set a gauge to {self.text(self.depth)} and leave it so. With its stock on the "
            f"outside face each time, scribe {work.scribed(self)}. If the setting is a hair out, "
            "one gets thicker by what the other gets thinner, and the outside faces stay flush."
            f"{self.stands_inside}"
        )

    def _fitting(self) -> str:
        return (
            f"Lay {self.named(crossing.RAILS)} into {self.named(crossing.STILES)} from the "
            f"{self.given.shows} face, square to that face; it goes down with light taps on a "
            "block."
        )


KIND = Kind(
    name="halving",
    title="Halving",
    summary="Half of each board notched out, so that both lie in one plane (lap joint): corners, "
    "tees and crosses of frames, at any angle.",
    roles=Halving.roles,
    parameter_class=Parameters,
    lay_out=Halving.joint_of,
    example=Example(
        width="50 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(("overhang", "1.5 mm"),),
        second_width="60 mm",
        corners=FRAME_CORNERS,
    ),
    also=("lap-joint", "half-lap", "cross-lap"),
    sources=(HALF, OVERLAP, f"the mate laid on for its own width: {COMMON}"),
)
