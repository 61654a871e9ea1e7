"""The bridle: the mortise and tenon's lines, with the opposite parts taken away; open at the end.

At a corner the stile's end has the slot and the rail's the tongue; in a tee the rail's end is
slotted and straddles what is left in the middle of the stile. See `crossing` for the shape.
"""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import Finding, refuse
from joinery_templates.joint import Clearing, Joint, LengthSetting, Mark, SettingOut, Size, Task
from joinery_templates.joints.halvings import crossing_work as work
from joinery_templates.joints.halvings.crossing import (
    CORNER,
    RAILS,
    STILES,
    TEE,
    Crossing,
    CrossingParameters,
    Layer,
    angle_parameter,
    mitred_parameter,
    overhang_parameter,
    place_parameter,
)
from joinery_templates.joints.kind import Example, Kind, Request
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
        "A corner, or a tee where the rail's slotted end straddles the stile.", CORNER, TEE
    )
    angle: Fraction = angle_parameter()
    mitred: bool = mitred_parameter()
    tongue: Fraction | None = size_parameter(
        "Thickness of the tongue, and width of the slot.",
        "a third of the thinner board, by the nearest of your chisels or else rounded to a gauge "
        f"setting ({THIRDS})",
    )
    at: Fraction | None = place_parameter(
        STILE, RAIL, "not told: the rail goes where you square its line"
    )
    overhang: Fraction | None = overhang_parameter(f"5 mm, or 3/16 in ({OVERLAP})")


class Bridle(Crossing, frozen=True, dict=True):
    """A rail and a stile in three layers."""

    waste = "cheek"
    usual_overhang = OVERHANG
    given: Parameters

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
        return RAILS if self.given.form == CORNER else STILES

    @property
    def layers(self) -> tuple[Layer, ...]:
        """The slot's cheeks outside and inside, and the tongue between them."""
        slotted, low, high = 1 - self.tongued, self.low, self.low + self.tongue
        outer = Layer(None if self.given.mitred else slotted, high=low)
        return outer, Layer(self.tongued, low, high), Layer(slotted, low=high)


def build(request: Request) -> Joint:
    """The layout of a bridle.

    Raises:
        InputError: where it cannot be cut.
    """
    given: Parameters = request.given
    bridle = Bridle(request, given)
    refuse(_impossible(bridle))
    use = "nearer side of tongue and slot, from the outside face of both"
    slot = Clearing(
        f"{bridle.roles[1 - bridle.tongued].words}, slot",
        bridle.tongue,
        bridle.tongue,
        "tongue",
        Task.CUT_SECOND if bridle.tongued == RAILS else Task.SAW_FIRST,
    )
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=bridle.cut_members(),
        placements=(bridle.placement,),
        filled=tuple(bridle.filled()),
        rows=(*_rows(bridle), *bridle.rows()),
        sizes=(*_sizes(bridle), *bridle.sizes()),
        lengths=(
            LengthSetting("mortise gauge", "its points, for tongue and slot", bridle.tongue),
            LengthSetting("gauge", use, bridle.low),
            *bridle.gauges(),
        ),
        slopes=tuple(bridle.bevels()),
        rules=tuple(_rules(bridle)),
        findings=tuple(_advice(bridle)),
        steps=tuple(work.order_of_work(bridle, _gauging(bridle), _fitting(bridle))),
        pose=pose(up=(0, 0, -1), front=(-2, 1, 0), apart=(0, 1, 0)),
        faces=bridle.wrapped,
        at_corner=False,
        clearings=(slot, *bridle.notches()),
    )


def _impossible(bridle: Bridle) -> Iterator[Finding]:
    yield from no_room_beside(bridle, bridle.tongue)
    yield from work.impossible(bridle)


def _advice(bridle: Bridle) -> Iterator[Finding]:
    yield from unusual_tongue(bridle, bridle.tongue, f"{THIRDS}; {BAND}; {BY_CHISEL}")
    yield from work.advise(bridle)


def _rules(bridle: Bridle) -> Iterator[str]:
    given, text = bridle.given, bridle.text
    if given.tongue is None:
        yield (
            f"Thickness of the tongue: {text(bridle.tongue)}, about a third of the thinner "
            f"board{bridle.by_chisel(bridle.tongue)} ({THIRDS}; {BAND}; {BY_CHISEL})."
        )
    if given.overhang is None:
        yield f"Overhang: {text(bridle.overhang)} ({OVERLAP})."


def _rows(bridle: Bridle) -> Iterator[SettingOut]:
    """Slot and tongue through the thickness of the ends."""
    for number, role in enumerate(bridle.roles):
        if bridle.is_end(number):
            what = "tongue" if number == bridle.tongued else "slot"
            marks = (
                Mark(bridle.low, f"{what} starts"),
                Mark(bridle.low + bridle.tongue, f"{what} ends"),
            )
            yield SettingOut(
                "end grain, from face to face",
                role.words,
                bridle.boards[number].thickness,
                marks,
                start="outside face",
                along_end=False,
            )


def _sizes(bridle: Bridle) -> Iterator[Size]:
    slotted = 1 - bridle.tongued
    role, thick = bridle.roles[slotted].words, bridle.boards[slotted].thickness
    yield Size("thickness of the tongue", bridle.tongue)
    yield Size(f"{role}, outside of the slot", bridle.low)
    yield Size(f"{role}, inside of the slot", thick - bridle.low - bridle.tongue)


def _gauging(bridle: Bridle) -> str:
    return (
        f"Set the points of a mortise gauge {bridle.text(bridle.tongue)} apart, by the chisel "
        f"itself where it is as wide, and the nearer one {bridle.text(bridle.low)} from the "
        f"stock; leave it so. With the stock on the outside face each time, scribe "
        f"{work.scribed(bridle)}. What is between the lines stays on one board and goes from the "
        "other."
    )


def _fitting(bridle: Bridle) -> str:
    slotted, tongued = (bridle.named(number) for number in (1 - bridle.tongued, bridle.tongued))
    return (
        f"Push {bridle.named(RAILS)} in along its length: the slot of {slotted} goes over the "
        f"tongue of {tongued} by hand, with pressure and no blows, or its cheeks split off."
    )


KIND = Kind(
    name="bridle",
    title="Bridle joint",
    summary="A slot that is open at the end, over a tongue a third as thick as the boards: corners "
    "and tees of frames, at any angle.",
    roles=Bridle.roles,
    parameter_class=Parameters,
    build=build,
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
