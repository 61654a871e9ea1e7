"""The housing, or dado: through or stopped, for a whole shelf or for a tongue on its end."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake, refuse
from joinery_templates.joint import Clearing, Joint, LengthSetting, Size
from joinery_templates.joints.checks import loose_fit, too_short
from joinery_templates.joints.housings.boards import DADO
from joinery_templates.joints.housings.housing_steps import order_of_work
from joinery_templates.joints.housings.trench import Housing, Parameters
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import faces_with_lines, pose
from joinery_templates.joints.sources import JOYCE, NOYES

WIDTH = f"{NOYES}, pp. 157-158: as wide as the shelf itself, which is laid on"
FULL = f"{JOYCE}, chapter on housings: it takes the full thickness; a groove takes a tongue"
DEEPEST_SHOULDER = Fraction(1, 2)
"""A shelf that loses more of its thickness hangs on a weak tongue (our judgement)."""


def build(request: Request) -> Joint:
    """The layout of a housing.

    Raises:
        InputError: where it cannot be cut.
    """
    given: Parameters = request.given
    housing = Housing(request, given)
    refuse(_impossible(housing))
    shelf = housing.shelf_end()
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=housing.members(shelf, housing.side_part()),
        placements=(housing.placement,),
        filled=tuple(housing.filled(max(housing.shelf.thickness, housing.width))),
        allowance=given.fit,
        sizes=tuple(_sizes(housing)),
        lengths=tuple(_lengths(housing)),
        rules=tuple(housing.depth_rule()),
        findings=tuple(_advice(housing)),
        steps=tuple(order_of_work(housing)),
        pose=pose(up=(0, 0, -1), front=(-2, 1, 0), apart=(0, 1, 0)),
        faces=faces_with_lines(shelf),
        at_corner=False,
        clearings=(Clearing("housing", housing.width, housing.width, "fit"),),
    )


def _sizes(housing: Housing) -> Iterator[Size]:
    yield Size("length that each end of the shelf is let in", housing.depth)
    yield Size("wood that the side keeps behind it", housing.side.thickness - housing.depth)
    if housing.given.shoulder:
        yield Size("tongue on the shelf's end", housing.tongue)
    if housing.start:
        yield Size("shelf's corner cut back, from the front edge", housing.start)


def _lengths(housing: Housing) -> Iterator[LengthSetting]:
    given = housing.given
    yield LengthSetting("gauge", "depth of the housing, from the inside face", housing.depth)
    yield LengthSetting("dividers", "width of the housing", housing.width)
    if given.stop:
        use = "where the housing begins, its stop, from the front edge"
        yield LengthSetting("gauge", use, given.stop)
    if given.shoulder:
        use = "lower side of the tongue on the end grain, from the upper face"
        yield LengthSetting("gauge", use, housing.tongue)
        yield LengthSetting("gauge", "tongue's shoulder, from the shelf's end", housing.depth)
    if housing.start:
        use = "shelf's corner cut back, from the front edge"
        yield LengthSetting("gauge", use, housing.start)
    if housing.behind:
        yield LengthSetting("gauge", "rebate, from the back edge", housing.behind)
        depth = "depth of the rebate, from the inside face"
        yield LengthSetting("gauge", depth, housing.rebate_depth)


def _impossible(housing: Housing) -> Iterator[Finding]:
    shelf, side, text = housing.shelf, housing.side, housing.text
    yield from housing.too_wide()
    yield from housing.too_deep()
    yield from housing.stopped_too_late("The shelf's end")
    if housing.width <= 0 or housing.tongue <= 0:
        place = "shoulder" if housing.given.shoulder else "fit"
        taken = f"a shoulder of {text(housing.given.shoulder)} and " if place == "shoulder" else ""
        yield mistake(
            "no-room",
            f"{taken}a fit of {text(housing.given.fit)}".capitalize()
            + f" leaves no housing for a shelf {text(shelf.thickness)} thick.",
            "Give a fit nearer to 0."
            if place == "fit"
            else f"Give a shoulder of at most {text(shelf.thickness * DEEPEST_SHOULDER)}.",
            place,
        )
    if housing.behind and shelf.width <= side.width < shelf.width + housing.behind:
        yield mistake(
            "widths-differ",
            f'The shelf "{shelf.name}", {text(shelf.width)} wide, runs into the rebate: the side '
            f'"{side.name}" leaves {text(side.width - housing.behind)}.',
            "Make the shelf narrower by the rebate, or the rebate narrower.",
            "rebate",
        )
    if housing.rebate_depth >= side.thickness:
        yield mistake(
            "rebate-too-deep",
            f"A rebate {text(housing.rebate_depth)} deep goes right through the side, "
            f"{text(side.thickness)} thick.",
            "About a third is usual.",
            "rebate",
        )
    yield from too_short(housing, (housing.depth, housing.width))


def _advice(housing: Housing) -> Iterator[Finding]:
    text, shelf = housing.text, housing.shelf
    yield from housing.deep()
    yield from housing.stopped_too_soon()
    if shelf.width + housing.behind < housing.side.width:
        yield advice(
            "housing-open",
            f"The housing runs on behind the shelf, {text(shelf.width)} wide, to the back edge and "
            "stays open there.",
            OURS,
            "Let a back cover it, or make both of one width.",
        )
    if housing.given.shoulder > shelf.thickness * DEEPEST_SHOULDER:
        yield advice(
            "tongue-thin",
            f"The tongue is {text(housing.tongue)} thick, less than half of the shelf.",
            OURS,
            "Give a narrower shoulder.",
            "shoulder",
        )
    yield from loose_fit(housing, housing.given.fit, "below the shelf shows at the front edge")


KIND = Kind(
    name="housing",
    title="Housing",
    summary="A square trench across a side takes a shelf's end or a tongue on it, through or "
    "stopped (dado): shelves and divisions.",
    roles=Housing.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="250 mm",
        thicknesses=("18 mm", "20 mm"),
        parameters=(("depth", "6 mm"),),
        corners=(("Left end", "A"), ("Right end", "B")),
    ),
    also=("dado", "trench"),
    sources=(WIDTH, FULL, DADO, f"depth of a third: {COMMON}"),
)
