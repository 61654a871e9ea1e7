r"""The through housing, or dado: a trench across a side takes the full thickness of a shelf's end.

Seen from the front edge; the side stands on the left::

      side        shelf
    |     |
    |  +--+---------------------  z = 0, the shelf's upper face, the squared line
    |  |
    |  +--+---------------------  z = its thickness; the fit is below it
    |     |
    |     y = depth
       y = 0, the shelf's end and the bottom of the housing

The shelf's end loses no wood. The side's y runs down from the squared line, as the shelf's z.
"""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.joint import Clearing, Joint, LengthSetting, Size, Step, Task
from joinery_templates.joints.checks import loose_fit, refuse, too_short
from joinery_templates.joints.housings.boards import (
    DADO,
    LINE,
    ShelfInSide,
    depth_parameter,
    place_parameter,
)
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import BESIDE, PEEL, PRINT_AGAIN, block, dashed_line, pose
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import fit_parameter
from joinery_templates.joints.sources import NOYES
from joinery_templates.wood.cut import BoardEnd, Cut, Stretch, Surface, at_least, at_most

ZERO = Fraction(0)
WIDTH = f"{NOYES}, pp. 157-158: as wide as the shelf itself, which is laid on"


class Parameters(Table):
    """The parameters of a through housing."""

    depth: Fraction | None = depth_parameter("Depth of the housing.")
    at: Fraction | None = place_parameter()
    fit: Fraction = fit_parameter("at the shelf's lower face, taken off the side")


class Housing(ShelfInSide, frozen=True):
    """A shelf whose end loses no wood, and the trench that takes it."""

    given: Parameters

    @property
    def width(self) -> Fraction:
        """Of the housing, across its walls."""
        return self.shelf.thickness + self.given.fit

    def side_part(self) -> Stretch:
        """The side with the trench right across its inside face."""
        floor = at_least(2, self.side.thickness - self.depth, Surface.SHOULDER)
        trench = Cut((at_least(1, ZERO), at_most(1, self.width), floor))
        return self.housed(trench, self.width)


def build(request: Request) -> Joint:
    """The layout of a through housing.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Parameters)
    housing = Housing(request, given)
    refuse(_impossible(housing))
    shelf = housing.shelf
    let_in = block(
        (ZERO, ZERO, ZERO),
        (shelf.width, housing.depth, max(shelf.thickness, housing.width)),
    )
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=housing.members(BoardEnd(shelf, (), housing.depth), housing.side_part()),
        placements=(housing.placement,),
        filled=(let_in,),
        allowance=given.fit,
        rows=(),
        sizes=(
            Size("length that each end of the shelf is let in", housing.depth),
            Size("left of the side's thickness", housing.side.thickness - housing.depth),
        ),
        lengths=(
            LengthSetting("gauge", "depth of the housing, from the inside face", housing.depth),
            LengthSetting("dividers", "width of the housing", housing.width),
        ),
        slopes=(),
        rules=tuple(housing.depth_rule()),
        findings=tuple(_advice(housing)),
        steps=tuple(_steps(housing)),
        pose=pose(up=(0, 0, -1), front=(-2, 1, 0), apart=(0, 1, 0)),
        at_corner=False,
        clearings=(Clearing("housing", housing.width, housing.width, "fit"),),
    )


def _impossible(housing: Housing) -> Iterator[Finding]:
    shelf, text = housing.shelf, housing.text
    yield from housing.too_wide()
    yield from housing.too_deep()
    if housing.width <= 0:
        yield mistake(
            "no-room",
            f"A fit of {text(housing.given.fit)} leaves no housing for a shelf "
            f"{text(shelf.thickness)} thick.",
            "Give a fit nearer to 0.",
            "fit",
        )
    yield from too_short(housing, (housing.depth, housing.width))


def _advice(housing: Housing) -> Iterator[Finding]:
    text = housing.text
    yield from housing.deep()
    if housing.shelf.width < housing.side.width:
        yield advice(
            "housing-open",
            f"The housing runs on behind the shelf, {text(housing.shelf.width)} wide, to the back "
            "edge and stays open there.",
            OURS,
            "Let a back cover it, or make both of one width.",
        )
    yield from loose_fit(housing, housing.given.fit, "below the shelf shows at the front edge")


def _steps(housing: Housing) -> Iterator[Step]:
    text, shelf, side = housing.text, housing.named(0), housing.named(1)
    depth = text(housing.depth)
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"Mark the front edge of all boards, the upper face of {shelf}, the inside face and the "
        f"top of {side}; lay the two sides as a pair. On the templates the front edge is called "
        "the reference edge and the back edge the far edge. Make the shelf as long as the space "
        f"between the sides and {text(2 * housing.depth)} more in all, ends square, and plane it "
        "to its last thickness before you mark from it. Measure the thickness of both again: if it "
        f"is not {PRINT_AGAIN}.",
    )
    yield Step(
        Task.GAUGE,
        "Square the line",
        f"Clamp both sides together, inside faces out, and square the line of {LINE} across their "
        f"front edges{housing.line_place}; carry it from there across each inside face and the "
        f"back edge. Gauge the depth, {depth}, on both edges with the stock on the inside face.",
        (1,),
    )
    yield Step(
        Task.LAY_ON,
        f"Lay on {side}",
        f"Lay the inside face's template with its {dashed_line(is_cut=True)} on the squared line, "
        "▲ towards the top end, flush with the front edge; glue it, or tape it and prick it "
        "through at the small crosses. So too those for both edges: they show how deep it goes.",
    )
    yield Step(
        Task.GAUGE,
        "Try the shelf itself",
        "Stand the shelf's end on the inside face, its upper face on the squared line. Its "
        f"lower face must come to the lower line{_less_fit(housing)}; where they differ the shelf "
        "is right. Knife both lines against a square, and pare a small groove to each from the "
        "waste.",
    )
    yield Step(
        Task.SAW_DOWN,
        "Saw the walls",
        "Clamp a straight block along the knifed line, its edge square, and saw against it, "
        f"{BESIDE}, down to the gauged lines on both edges, {depth}; then the other wall.",
        (1,),
    )
    yield Step(
        Task.CUT_SECOND,
        "Clear the housing",
        "Chisel out the middle from both edges, so that neither breaks away, and bring the bottom "
        f"level with a hand router set to {depth}. Try the walls with a square.",
    )
    yield Step(
        Task.FIT,
        "Fit",
        f"{PEEL} The shelf goes in by hand, square to the inside face, with light taps. If it is a "
        "hair too thick, plane a shaving off its lower face; the housing stays.",
    )
    yield Step(
        Task.GLUE,
        "Glue",
        "Brush glue on the bottom and both walls, and clamp across the sides "
        "with a stiff block over the joint. Check both diagonals. End grain holds little: what "
        "carries the shelf is the lower wall.",
    )


def _less_fit(housing: Housing) -> str:
    fit = housing.given.fit
    if not fit:
        return ""
    return f" but for {housing.text(abs(fit))} {'of gap' if fit > 0 else 'that presses'}"


KIND = Kind(
    name="housing",
    title="Through housing",
    summary="A square trench right across a side takes the full thickness of a shelf's end (dado): "
    "shelves and divisions.",
    roles=Housing.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="250 mm",
        thicknesses=("18 mm", "20 mm"),
        parameters=(("depth", "6 mm"),),
        corners=(("Left end", "A"), ("Right end", "B")),
    ),
    sources=(WIDTH, DADO, f"depth of a third: {COMMON}"),
)
