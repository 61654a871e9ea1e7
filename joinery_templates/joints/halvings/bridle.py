"""The bridle: the mortise and tenon's lines, with the opposite parts taken away; open at the end.

At a corner the stile's end has the slot and the rail's the tongue; in a tee the rail's end is
slotted and straddles what is left in the middle of the stile. See `crossing` for the shape.
"""

from collections.abc import Iterator

from joinery_templates import joint
from joinery_templates.errors import Finding
from joinery_templates.exact import Fraction
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.halvings import crossing
from joinery_templates.joints.halvings import crossing_work as work
from joinery_templates.joints.halvings.crossing import Crossing, CrossingParameters
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import FRAME_CORNERS, RAIL, STILE, pose
from joinery_templates.joints.shared_parameters import choice_parameter, size_parameter
from joinery_templates.joints.sources import FAIRHAM, SELDEN
from joinery_templates.joints.tenons.figures import BAND, BY_CHISEL, THIRDS
from joinery_templates.joints.tongues import no_room_beside, unusual_tongue, usual_tongue
from joinery_templates.lengths import INCH, Units

GAUGED = f"{SELDEN}, lesson XXXII: gauged as a through mortise and tenon"
OVERLAP = f"{FAIRHAM}: both ends of a piece together are left about 3/8 in over"
OVERHANG = {Units.MM: Fraction(5), Units.INCH: INCH * 3 / 16}


class Parameters(CrossingParameters):
    """The parameters of a bridle."""

    form: str = choice_parameter(
        "A corner, or a tee where the rail's slotted end straddles the stile.",
        crossing.CORNER,
        crossing.TEE,
    )
    tongue: Fraction | None = size_parameter(
        "Thickness of the tongue, and width of the slot.",
        "a third of the thinner board, by the nearest of your chisels or else rounded to a gauge "
        f"setting ({THIRDS})",
    )
    at: Fraction | None = crossing.place_parameter(
        STILE, RAIL, "not told: the rail goes where you square its line"
    )
    overhang: Fraction | None = crossing.overhang_parameter(f"5 mm, or 3/16 in ({OVERLAP})")


class Bridle(Crossing, frozen=True, dict=True):
    """A rail and a stile in three layers."""

    waste = "cheek"
    usual_overhang = OVERHANG
    given: Parameters

    @property
    def pose(self) -> joint.Pose:
        """Flat on the bench; the rail is drawn out along its grain."""
        return self.drawn_off(pose(up=(0, 0, -1), front=(-2, 1, 0), apart=(0, 1, 0)))

    @property
    def tongue(self) -> Fraction:
        """Its thickness, given or usual."""
        return self.given.tongue or usual_tongue(self)

    @property
    def low(self) -> Fraction:
        """From the outside face of both boards to the tongue."""
        return (self.thinner.thickness - self.tongue) / 2

    @property
    def tongued(self) -> int:
        """Which board keeps the tongue: at a corner the rail, in a tee the stile."""
        return crossing.RAILS if self.given.form == crossing.CORNER else crossing.STILES

    @property
    def layers(self) -> tuple[crossing.Layer, ...]:
        """The slot's cheeks outside and inside, and the tongue between them."""
        slotted, low, high = 1 - self.tongued, self.low, self.low + self.tongue
        outer = crossing.Layer(None if self.given.mitred else slotted, high=low)
        return outer, crossing.Layer(self.tongued, low, high), crossing.Layer(slotted, low=high)

    def clearings(self) -> Iterator[joint.Clearing]:
        """The slot, and what boards have between walls that run through."""
        is_stiles = self.tongued == crossing.RAILS
        task = joint.Task.CUT_SECOND if is_stiles else joint.Task.SAW_FIRST
        what = f"{self.role(1 - self.tongued)}, slot"
        yield joint.Clearing(what, self.tongue, self.tongue, "tongue", task)
        yield from super().clearings()

    def lengths(self) -> Iterator[joint.LengthSetting]:
        """The gauges for tongue and slot, and those of the shoulders."""
        use = "nearer side of tongue and slot, from the outside face of both"
        yield joint.LengthSetting("mortise gauge", "its points, for tongue and slot", self.tongue)
        yield gauge(use, self.low)
        yield from super().lengths()

    def steps(self) -> Iterator[joint.Step]:
        """The order of work."""
        return work.order_of_work(self, self._gauging(), self._fitting())

    def sizes(self) -> Iterator[joint.Size]:
        """Of tongue and slot, and where the boards cross."""
        slotted = 1 - self.tongued
        role, thick = self.role(slotted), self.boards[slotted].thickness
        yield joint.Size("thickness of the tongue", self.tongue)
        yield joint.Size(f"{role}, outside of the slot", self.low)
        yield joint.Size(f"{role}, inside of the slot", thick - self.low - self.tongue)
        yield from super().sizes()

    def rules(self) -> Iterator[str]:
        """What was decided by a rule."""
        given, text = self.given, self.text
        if given.tongue is None:
            yield (
                f"Thickness of the tongue: {text(self.tongue)}, about a third of the thinner "
                f"board{self.by_chisel(self.tongue)} ({THIRDS}; {BAND}; {BY_CHISEL})."
            )
        if given.overhang is None:
            yield f"Overhang: {text(self.overhang)} ({OVERLAP})."

    def rows(self) -> Iterator[joint.SettingOut]:
        """Slot and tongue through the thickness of the ends."""
        for number, role in enumerate(self.roles):
            if self.is_end(number):
                what = "tongue" if number == self.tongued else "slot"
                marks = joint.starts_and_ends(what, self.low, self.low + self.tongue)
                yield joint.SettingOut(
                    "end grain, from face to face",
                    role.words,
                    self.boards[number].thickness,
                    marks,
                    start="outside face",
                    along_end=False,
                )
        yield from super().rows()

    def impossible(self) -> Iterator[Finding]:
        """A tongue with nothing beside it, and what no crossing can have."""
        yield from no_room_beside(self, self.tongue)
        yield from work.impossible(self)

    def advise(self) -> Iterator[Finding]:
        """An unusual tongue, and what is unwise at any crossing."""
        yield from unusual_tongue(self, self.tongue, f"{THIRDS}; {BAND}; {BY_CHISEL}")
        yield from work.advise(self)

    def _gauging(self) -> str:
        slotted, tongued = (self.named(number) for number in (1 - self.tongued, self.tongued))
        return (
            f"Set the points of a mortise gauge {self.text(self.tongue)} apart, by a chisel that "
            f"wide if you have one, and the nearer one {self.text(self.low)} from the stock; leave "
            "it so. With the stock on the outside face each time, scribe "
            f"{work.scribed(self)}. What is between the lines stays on {tongued} and goes from "
            f"{slotted}."
        )

    def _fitting(self) -> str:
        slotted, tongued = (self.named(number) for number in (1 - self.tongued, self.tongued))
        return (
            f"Push {self.named(crossing.RAILS)} in along its length: the slot of {slotted} goes "
            f"over the tongue of {tongued} by hand, with pressure and no blows, or its cheeks "
            "split off. In a frame put all rails on one stile, then the other stile on all of "
            "them at once."
        )


KIND = Kind(
    name="bridle",
    title="Bridle joint",
    summary="A slot that is open at the end, over a tongue a third as thick as the boards: corners "
    "and tees of frames, at any angle.",
    roles=Bridle.roles,
    parameter_class=Parameters,
    lay_out=Bridle.joint_of,
    example=Example(
        width="50 mm",
        thicknesses=("21 mm", "21 mm"),
        parameters=(("tongue", "7 mm"), ("overhang", "5 mm")),
        second_width="60 mm",
        corners=FRAME_CORNERS,
    ),
    also=("open-mortise", "slip-joint"),
    sources=(GAUGED, THIRDS, BAND, BY_CHISEL, OVERLAP),
)
