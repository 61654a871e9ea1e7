"""A spline: a loose tongue in grooves square to the mitre, nearer to the inner corner."""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import Clearing, LengthSetting, Loose, Pose, Size, Step, Task
from joinery_templates.joints.checks import first_told
from joinery_templates.joints.corners.closing import check_the_angle
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.layout import let_between
from joinery_templates.joints.mitres import splined
from joinery_templates.joints.mitres.mitre import on_inside, shaping
from joinery_templates.joints.mitres.splined import ALONG_CORNER, ROOT_2, SplinedMitre
from joinery_templates.joints.words import PEEL, beside
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import HalfSpace, Part, Stage, Surface, at_most
from joinery_templates.wood.placement import Placement

SPARE = Fraction(1, 2)
"""So much less than both grooves are deep, for the glue (our judgement)."""
LEFT_OUTSIDE = Fraction(1, 6)
"""Of the thickness, what is left between a groove and the outside face (our judgement)."""
_LAY_ON = (
    "Trim each template along its outer lines. Lay it on the face that it names, its end flush "
    "with the squared end and, on the inside face, its reference edge flush with the board's; tape "
    "it, and prick through the small rings."
)


class Splined(SplinedMitre, frozen=True):
    """A spline in both mitres."""

    not_given = splined.FEATHERS_ONLY
    other_form = splined.FEATHERS
    stage = Stage(2, "groove")

    @property
    def pose(self) -> Pose:
        """Apart square to the mitre, or along the spline, where that can go."""
        also = ALONG_CORNER[: 1 if self.given.stop else 2]
        return replace(super().pose, apart=(ZERO, ONE, -ONE), also=also)

    @property
    def spline(self) -> Fraction:
        """Its thickness: by the nearest chisel, or a quarter."""
        quarter = self.thick / 4
        chisel = self.request.tools.nearest_chisel(quarter, self.thick / 6, self.thick / 3)
        return self.given.spline or chisel or as_a_gauge_is_set(quarter, self.units)

    @property
    def from_corner(self) -> Fraction:
        """From the inner corner to the groove, along the mitre."""
        return self.given.from_corner or as_a_gauge_is_set(self.thick / 4, self.units)

    @property
    def depth(self) -> Fraction:
        """Of each groove."""
        return self.given.depth or as_a_gauge_is_set(self.thick * 2 / 5, self.units)

    @property
    def across(self) -> Fraction:
        """Of the spline, across the joint: a little less than both grooves are deep."""
        return 2 * self.depth - SPARE

    @property
    def nearer(self) -> Fraction:
        """From the outer corner to the groove's nearer side, along the mitre."""
        return self.thick * ROOT_2 - self.from_corner - self.spline

    @property
    def left_outside(self) -> Fraction:
        """Between the groove and the outside face."""
        return (self.nearer - self.depth) / ROOT_2

    @property
    def long(self) -> Fraction:
        """Length of groove and spline along the corner."""
        return self.width - self.given.stop

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """Those with lines of the grooves; the end grain is sawn off."""
        return Face.INSIDE, Face.REFERENCE_EDGE, Face.FAR_EDGE

    def waste(self, number: int) -> Iterator[tuple[HalfSpace, ...]]:
        """One groove."""
        near, far = self.nearer * ROOT_2, (self.nearer + self.spline) * ROOT_2
        sides = splined.along_mitre(near).turned(), splined.along_mitre(far)
        floor = HalfSpace((ZERO, ONE, -ONE), self.depth * ROOT_2, Surface.SHOULDER)
        stopped = (at_most(0, self.long, Surface.WALL),) if self.given.stop else ()
        yield (*sides, floor, *stopped)

    def loose(self) -> tuple[Loose, ...]:
        """The spline, with its grain across the joint."""
        one, half = 1 / ROOT_2, self.across / 2
        rows = ((ONE, ZERO, ZERO), (ZERO, one, one), (ZERO, -one, one))
        shift = (ZERO, (self.nearer - half) * one, (self.nearer + half) * one)
        at = Placement(rows, shift)
        return (let_between("spline", self.long, self.spline, self.across, at),)

    def impossible(self) -> Iterator[Finding]:
        """Grooves that break out."""
        yield from super().impossible()
        if self.left_outside <= 0:
            yield mistake(
                "no-room",
                f"A groove {self.text(self.depth)} deep would break through the outside face.",
                "Make it shallower, or set it nearer to the inner corner.",
                first_told(self.given, "depth", "from_corner") or "spline",
            )
        if self.across <= 0:
            yield mistake(
                "no-room",
                f"A groove {self.text(self.depth)} deep leaves nothing of the spline.",
                "Make it deeper.",
                "depth",
            )
        if self.long <= 0:
            yield mistake(
                "no-room",
                f"Stopped {self.text(self.given.stop)} from the far edge, nothing is left of the "
                f"groove: the boards are {self.text(self.width)} wide.",
                "Stop it sooner.",
                "stop",
            )

    def advise(self) -> Iterator[Finding]:
        """A groove too near to the outside face."""
        if self.left_outside < self.thick * LEFT_OUTSIDE:
            yield advice(
                "groove-near-face",
                f"Only {self.text(self.left_outside)} of wood is left between the groove and the "
                "outside face.",
                OURS,
                "Make it shallower, or set it nearer to the inner corner, where the wood is "
                "thickest.",
                "depth",
            )

    def rules(self) -> Iterator[str]:
        """Sizes that were not given."""
        given, text = self.given, self.text
        if given.spline is None:
            owned = ", one of your chisels" if self.spline in self.request.tools.chisels else ""
            yield (
                f"Spline: {text(self.spline)} thick, about a quarter of the boards{owned} ({OURS})."
            )
        if given.from_corner is None:
            yield (
                f"Grooves: {text(self.from_corner)} from the inner corner, where the wood is "
                f"thickest ({COMMON}; the figure: {OURS})."
            )
        if given.depth is None:
            yield f"Grooves: {text(self.depth)} deep, about two fifths of the boards ({OURS})."

    def sizes(self) -> Iterator[Size]:
        """Mitre, spline and grooves."""
        yield from super().sizes()
        yield Size("spline, thickness", self.spline)
        yield Size("spline, across the joint", self.across)
        yield Size("grooves, from the inner corner along the mitre", self.from_corner)
        yield Size("between the grooves and the outside faces", self.left_outside)

    def lengths(self) -> Iterator[LengthSetting]:
        """How deep, and how far."""
        yield LengthSetting("depth stop", "the grooves, square to the mitre", self.depth)
        if self.given.stop:
            yield LengthSetting("rule", "end of the grooves, from the reference edge", self.long)

    def clearings(self) -> Iterator[Clearing]:
        """The grooves."""
        yield Clearing("grooves", self.spline, self.spline, "spline", sawn=not self.given.stop)

    def steps(self) -> Iterator[Step]:
        """Grooves before the glue (common practice, no source)."""
        text, stop = self.text, self.given.stop
        edges = "the reference edge" if stop else "both edges"
        yield from shaping(self, f"{_LAY_ON} {on_inside(self)}")
        ends = (
            f"Knife its end across, {text(self.long)} from the reference edge; chop the last of it "
            "there, and then plough or chop the rest."
            if stop
            else f"Saw both sides {beside('the lines')}, and clear it with a chisel or a router "
            "plane; or plough it, the fence on a block planed to the mitre."
        )
        yield Step(
            Task.CUT_SECOND,
            "Cut the grooves",
            f"Draw the groove on {edges} from its pricks, and from there knife its two sides "
            f"along the mitre of {self.named(0)} and of {self.named(1)}: the nearer one is "
            f"{text(self.from_corner)} from the inner corner. Cut it {text(self.depth)} deep, "
            f"square to the mitre. {ends} Both must be alike, or the corner does not close flush.",
            (0, 1),
        )
        yield Step(
            Task.MAKE_KEYS,
            "Make the spline",
            f"Plane wood to {text(self.spline)}, so that it goes into the grooves with the push of "
            f"a thumb, and cut it {text(self.across)} across: its grain crosses the joint, for a "
            "spline with its grain along the corner splits. Thin plywood will do as well. Short "
            "lengths may follow each other in the groove.",
        )
        yield Step(
            Task.GLUE,
            "Fit and glue",
            f"{PEEL} The corner closes square to the mitre and no other way: put the splines in, "
            "and draw all four corners of the piece together at once with a band clamp. Try it "
            "dry, size the end grain with thin glue and let it draw in, glue grooves and mitres, "
            f"and {check_the_angle(self)}.",
        )
