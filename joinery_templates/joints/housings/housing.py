"""The housing, or dado: through or stopped, for a whole shelf or for a tongue on its end."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.joint import Clearing, LengthSetting, Size
from joinery_templates.joints.checks import loose_fit, too_short
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.housings.boards import DADO
from joinery_templates.joints.housings.housing_steps import order_of_work
from joinery_templates.joints.housings.trench import Housing, Parameters
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import pose
from joinery_templates.joints.sources import JOYCE, NOYES

WIDTH = f"{NOYES}, pp. 157-158: as wide as the shelf itself, which is laid on"
FULL = f"{JOYCE}, chapter on housings: it takes the full thickness; a groove takes a tongue"
DEEPEST_SHOULDER = Fraction(1, 2)
"""A shelf that loses more of its thickness hangs on a weak tongue (our judgement)."""


class Stated(Housing, frozen=True):
    """All that is stated of a housing."""

    stance = pose(up=(0, 0, -1), front=(-2, 1, 0), apart=(0, 1, 0))
    rules = Housing.depth_rule
    steps = order_of_work

    def clearings(self) -> Iterator[Clearing]:
        """The housing."""
        yield Clearing("housing", self.width, self.width, "fit")

    def sizes(self) -> Iterator[Size]:
        """Of the housing, and of the shelf's end."""
        yield Size("how far each end of the shelf is let in", self.depth)
        yield Size("wood that the side keeps behind it", self.side.thickness - self.depth)
        if self.given.shoulder:
            yield Size("tongue on the shelf's end", self.tongue)
        if self.start:
            yield Size("shelf's corner cut back, from the front edge", self.start)

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges, and dividers for the width."""
        given = self.given
        yield gauge("depth of the housing, from the inside face", self.depth)
        yield LengthSetting("dividers", "width of the housing", self.width)
        if given.stop:
            yield gauge("stop of the housing, from the front edge", given.stop)
        if given.shoulder:
            use = "lower side of the tongue on the end grain, from the upper face"
            yield gauge(use, self.tongue)
            yield gauge("tongue's shoulder, from the shelf's end", self.depth)
        if self.start:
            yield gauge("shelf's corner cut back, from the front edge", self.start)
        if self.behind:
            yield gauge("rebate, from the back edge", self.behind)
            depth = "depth of the rebate, from the inside face"
            yield gauge(depth, self.rebate_depth)

    def impossible(self) -> Iterator[Finding]:
        """What cannot be cut."""
        shelf, side, text = self.shelf, self.side, self.text
        yield from self.too_wide()
        yield from self.too_deep()
        yield from self.stopped_too_late("The shelf's end")
        if self.width <= 0 or self.tongue <= 0:
            place = "shoulder" if self.given.shoulder else "fit"
            taken = f"a shoulder of {text(self.given.shoulder)} and " if place == "shoulder" else ""
            yield mistake(
                "no-room",
                f"{taken}a fit of {text(self.given.fit)}".capitalize()
                + f" leaves no housing for a shelf {text(shelf.thickness)} thick.",
                "Give a fit nearer to 0."
                if place == "fit"
                else f"Give a shoulder of at most {text(shelf.thickness * DEEPEST_SHOULDER)}.",
                place,
            )
        if self.behind and shelf.width <= side.width < shelf.width + self.behind:
            yield mistake(
                "widths-differ",
                f'The shelf "{shelf.name}", {text(shelf.width)} wide, runs into the rebate: the '
                f'side "{side.name}" leaves {text(side.width - self.behind)}.',
                "Make the shelf narrower by the rebate, or the rebate narrower.",
                "rebate",
            )
        if self.rebate_depth >= side.thickness:
            yield mistake(
                "rebate-too-deep",
                f"A rebate {text(self.rebate_depth)} deep goes right through the side, "
                f"{text(side.thickness)} thick.",
                "About a third is usual.",
                "rebate",
            )
        yield from too_short(self, (self.depth, self.width))

    def advise(self) -> Iterator[Finding]:
        """What is unwise though it can be cut."""
        text, shelf = self.text, self.shelf
        yield from self.deep()
        yield from self.stopped_too_soon()
        if shelf.width + self.behind < self.side.width:
            yield advice(
                "housing-open",
                f"The housing runs on behind the shelf, {text(shelf.width)} wide, to the back edge "
                "and stays open there.",
                OURS,
                "Let a back cover it, or make both of one width.",
            )
        if self.given.shoulder > shelf.thickness * DEEPEST_SHOULDER:
            yield advice(
                "tongue-thin",
                f"The tongue is {text(self.tongue)} thick, less than half of the shelf.",
                OURS,
                "Give a narrower shoulder.",
                "shoulder",
            )
        yield from loose_fit(self, self.given.fit, "below the shelf shows at the front edge")


KIND = Kind(
    name="housing",
    title="Housing",
    summary="A square trench across a side takes a shelf's end or a tongue on it, through or "
    "stopped (dado): shelves and divisions.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
    example=Example(
        width="250 mm",
        thicknesses=("18 mm", "20 mm"),
        parameters=(("depth", "6 mm"),),
        corners=(("Left end", "A"), ("Right end", "B")),
    ),
    also=("dado", "trench"),
    sources=(WIDTH, FULL, DADO, f"depth of a third: {COMMON}"),
)
