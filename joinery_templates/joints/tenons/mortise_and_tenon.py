r"""The stopped mortise and tenon of a frame: a rail's tenon in a blind mortise of a stile's edge.

Reference edges look into the frame; outside faces are flush. From outside, and along the rail::

      stile's end                             rail's end, outside faces up
    +------------+                                     stile          rail
    |    horn    |                              +----------------+-----------
    +- - - - - - +-------- y = 0, far edge      |       +--------+  cheek
    |    +-------|  shoulder_far                |       | tenon
    |    | tenon |         rail                 |       +--------+
    |    +-------|  shoulder                    |                | shoulder
    |            +-------- reference edge       +----------------+-----------
    |   stile    |                                    extra_depth

The tenon stands in the middle of the rail's thickness. The stile's y runs from the line of the
rail's far edge away from the stile's end.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.joint import (
    Clearing,
    Joint,
    LengthSetting,
    Mark,
    SettingOut,
    Size,
    Step,
    Task,
)
from joinery_templates.joints.checks import loose_fit, refuse, too_short
from joinery_templates.joints.gauge import as_a_gauge_is_set, rule_steps
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import (
    PEEL,
    PRINT_AGAIN,
    RAIL,
    STILE,
    RailAndStile,
    dashed_line,
    fold_over,
    pose,
)
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import fit_parameter, size_parameter
from joinery_templates.joints.sources import (
    BUILDING_CONSTRUCTION,
    CASSELL,
    FAIRHAM,
    JOYCE,
    NOYES,
    ZERBE,
)
from joinery_templates.joints.spread import thin_and_thick_tenons
from joinery_templates.lengths import INCH, Units, decimal_text
from joinery_templates.wood.cut import (
    BoardEnd,
    Cut,
    HalfSpace,
    Stage,
    Stretch,
    Surface,
    at_least,
    at_most,
)
from joinery_templates.wood.placement import Placement

ZERO, ONE = Fraction(0), Fraction(1)
LINE = "rail's far edge"
HANDS = ("towards its right-hand end", "towards its left-hand end")
"""Which end of the stile the joint is near: where the rail's is a left-hand end, and the other."""

THIRDS = f"{NOYES}, p. 160: three equal parts, the mortise a little deeper"
BAND = f"{BUILDING_CONSTRUCTION}: a quarter to a third of the frame's thickness"
BY_CHISEL = f"{JOYCE}, chapter on tenons: a little over a third, by the chisel"
HALF_TO_WHOLE = f"{CASSELL}: half to the whole of a rail up to 5 in wide"
HALF = f"{NOYES}, no. 42: half, with a haunch"
IN_A_LEG = f"{ZERBE}, ch. V: 1 1/2 in deep in a leg of 2 in"
SEVEN_EIGHTHS = f"{FAIRHAM}: about seven eighths of the way through"
FIVE = f"{BUILDING_CONSTRUCTION}: not wider than five times its thickness"
TO_THE_TOP = f"{NOYES}, p. 207: a wide shoulder, or the end shears"

THINNEST, THICKEST = Fraction(1, 4), Fraction(2, 5)
"""Of the rail's thickness: books have a quarter to a little over a third (our judgement)."""
WIDEST_RAIL = 5 * INCH
"""A wider rail has two tenons rather than one, and none is wider than such a rail (Cassell)."""
DEEPEST = Fraction(7, 8)
SHORTEST, SHORT = Fraction(1, 2), 2 * INCH
"""A short tenon, less than half way through the stile, holds little (our judgement)."""
LONG_ENOUGH = {Units.MM: Fraction(75), Units.INCH: 3 * INCH}
"""No longer tenon is proposed, however wide the stile (our judgement)."""
END_WOOD = Fraction(15)
"""Less wood between a mortise and the stile's end splits under the chisel (our judgement)."""
A_LITTLE = {Units.MM: Fraction(2), Units.INCH: INCH / 16}
"""Depth below the tenon; left at a mortise's ends while chips are levered out (our judgement)."""


def shoulder_parameter(words: str) -> Any:
    """A shoulder at one of the rail's edges, which may be none."""
    rule = (
        "a sixth of the rail's width, rounded to a gauge setting; more on a rail over 5 in wide, "
        "so that the tenon grows no wider (our judgement)"
    )
    return parameter(Quantity.LENGTH, words, rule=rule, low=0)


class Parameters(Table):
    """The parameters of a stopped mortise and tenon."""

    tenon_thickness: Fraction | None = size_parameter(
        "Width of the mortise; the tenon is as thick, less the fit.",
        "a third of the rail's thickness, by the nearest of your chisels or else rounded to a "
        "gauge setting; down to a quarter in a thinner stile",
    )
    tenon_length: Fraction | None = size_parameter(
        "From the rail's shoulder to the tenon's end.",
        "three quarters of the stile's width less the extra depth, rounded to a gauge setting, and "
        "at most 75 mm or 3 in (our judgement)",
    )
    shoulder: Fraction | None = shoulder_parameter(
        "How far the tenon stands in from the rail's reference edge; 0 for no shoulder there."
    )
    shoulder_far: Fraction | None = shoulder_parameter(
        "The same at the far edge, which is towards the stile's end."
    )
    horn: Fraction | None = parameter(
        Quantity.LENGTH,
        "The horn, from the stile's end to the rail's far edge: sawn off last.",
        rule="not told: the rail goes where you square its line",
        low=0,
    )
    extra_depth: Fraction | None = parameter(
        Quantity.LENGTH,
        "How much deeper the mortise is than the tenon is long.",
        rule="2 mm, or 1/16 in (our judgement)",
        low=0,
        high=20,
    )
    fit: Fraction = fit_parameter("at each cheek, square to it, taken off the tenon")


class Tenon(RailAndStile, frozen=True):
    """A rail and a stile, with all that a rule decides decided."""

    given: Parameters

    @property
    def mortise_width(self) -> Fraction:
        """Across the stile's edge: a chisel's width where one comes near a third."""
        if self.given.tenon_thickness is not None:
            return self.given.tenon_thickness
        thick = self.rail.thickness
        thinnest, third = thick * THINNEST, as_a_gauge_is_set(thick / 3, self.units)
        # More would leave less than half of it between the mortise and the inside face.
        room = max(self.stile.thickness - thick / 2, thinnest)
        near = (
            chisel
            for chisel in self.request.tools.chisels
            if thinnest <= chisel <= min(thick * THICKEST, room)
        )
        chisel = min(near, key=lambda one: (abs(one - thick / 3), one), default=None)
        if chisel or third <= room:
            return chisel or third
        tried = (room // step * step for step in rule_steps(self.units))
        return next((width for width in tried if width >= thinnest), room)

    @property
    def mortise_from(self) -> Fraction:
        """From the outside face of both boards to the mortise's nearer side."""
        return (self.rail.thickness - self.mortise_width) / 2

    @property
    def mortise_to(self) -> Fraction:
        """From the outside face of both boards to the mortise's farther side."""
        return self.mortise_from + self.mortise_width

    @property
    def thickness(self) -> Fraction:
        """The tenon's own thickness."""
        return self.mortise_width - 2 * self.given.fit

    @property
    def length(self) -> Fraction:
        """From the rail's end to its shoulders."""
        if self.given.tenon_length is not None:
            return self.given.tenon_length
        usual = self.stile.width * 3 / 4 - self.extra
        return min(as_a_gauge_is_set(usual, self.units), LONG_ENOUGH[self.units])

    @property
    def extra(self) -> Fraction:
        """How much deeper the mortise is than the tenon is long."""
        given = self.given.extra_depth
        return A_LITTLE[self.units] if given is None else given

    @property
    def depth(self) -> Fraction:
        """Of the mortise."""
        return self.length + self.extra

    @property
    def shoulders(self) -> tuple[Fraction, Fraction]:
        """At the rail's reference edge and at its far edge."""
        wide = self.rail.width
        over = max(wide - WIDEST_RAIL, ZERO) / 3
        usual = as_a_gauge_is_set(wide / 6 + over, self.units)
        near, far = self.given.shoulder, self.given.shoulder_far
        return usual if near is None else near, usual if far is None else far

    @property
    def width(self) -> Fraction:
        """The tenon's width, and the mortise's length."""
        return self.rail.width - sum(self.shoulders)

    @property
    def placement(self) -> Placement:
        """The stile on the rail: outside faces level, its reference edge at the shoulder."""
        rows = ((ZERO, -ONE, ZERO), (-ONE, ZERO, ZERO), (ZERO, ZERO, ONE))
        return Placement(rows, (self.rail.width, self.length, ZERO))

    def rail_end(self) -> BoardEnd:
        """The rail with all but the tenon taken away."""
        fit, (near, far) = self.given.fit, self.shoulders
        shoulder = at_most(1, self.length, Surface.SAWN_SHOULDER)
        cheeks = at_most(2, self.mortise_from + fit), at_least(2, self.mortise_to - fit)
        between = tuple(cheek.turned() for cheek in cheeks)
        sides = (near, at_most(0, near)), (far, at_least(0, self.rail.width - far))
        # Cheeks are sawn right across, before the wood at the edges goes.
        cuts = (
            *(Cut((cheek, shoulder), Stage(1, "cheek")) for cheek in cheeks),
            *(Cut((side, *between, shoulder), Stage(2, "side")) for inset, side in sides if inset),
        )
        return BoardEnd(self.rail, cuts, self.length)

    def stile_part(self) -> Stretch:
        """The stile with the mortise, which is chopped."""
        near, far = self.shoulders
        walls = (
            at_most(0, self.depth, Surface.SHOULDER),
            at_least(1, far, Surface.WALL),
            at_most(1, self.rail.width - near, Surface.WALL),
            at_least(2, self.mortise_from, Surface.WALL),
            at_most(2, self.mortise_to, Surface.WALL),
        )
        return Stretch(
            board=self.stile,
            cuts=(Cut(walls),),
            start=ZERO,
            reach=self.rail.width,
            line=LINE,
            up="that end",
            hands=HANDS,
            along=self.given.horn,
            is_paired=True,
        )

    def filled(self) -> tuple[tuple[HalfSpace, ...], ...]:
        """Where the tenon goes into the stile, and the rail just past its shoulders."""
        across = (at_least(0, ZERO), at_most(0, self.rail.width), at_least(2, ZERO))
        past = self.length + 1
        return (
            (*across, at_least(1, ZERO), at_most(1, self.length), at_most(2, self.stile.thickness)),
            (
                *across,
                at_least(1, self.length),
                at_most(1, past),
                at_most(2, self.rail.thickness),
            ),
        )


def build(request: Request) -> Joint:
    """The layout of a stopped mortise and tenon.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Parameters)
    tenon = Tenon(request, given)
    refuse(_impossible(tenon))
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=tenon.members(tenon.rail_end(), tenon.stile_part()),
        placements=(tenon.placement,),
        filled=tenon.filled(),
        allowance=given.fit,
        rows=tuple(_rows(tenon)),
        sizes=tuple(_sizes(tenon)),
        lengths=tuple(_lengths(tenon)),
        slopes=(),
        rules=tuple(_rules(tenon)),
        findings=tuple(_advice(tenon)),
        steps=(*_mortising(tenon), *_tenoning(tenon)),
        pose=pose(up=(1, 0, 0), front=(0, 1, -1), apart=(0, 1, 0)),
        at_corner=False,
        clearings=(
            Clearing(
                "stile, mortise",
                tenon.mortise_width,
                tenon.mortise_width,
                "tenon_thickness",
                sawn=False,
            ),
        ),
    )


def _impossible(tenon: Tenon) -> Iterator[Finding]:
    given, text = tenon.given, tenon.text
    thinner = min(tenon.rail, tenon.stile, key=lambda board: board.thickness)
    if tenon.mortise_width >= tenon.rail.thickness or tenon.mortise_to >= tenon.stile.thickness:
        yield mistake(
            "tenon-too-thick",
            f"A tenon {text(tenon.mortise_width)} thick, in the middle of the rail, leaves nothing "
            f'beside it of "{thinner.name}", {text(thinner.thickness)} thick.',
            "Give a thinner tenon: about a third is usual.",
            "tenon_thickness",
        )
    elif tenon.thickness <= 0 or tenon.mortise_from + given.fit <= 0:
        yield mistake(
            "no-room",
            f"A fit of {text(given.fit)} at both cheeks leaves no tenon, or no shoulder.",
            "Give a fit nearer to 0.",
            "fit",
        )
    if tenon.width <= 0:
        near, far = tenon.shoulders
        yield mistake(
            "no-room",
            f"Shoulders of {text(near)} and {text(far)} leave nothing of the tenon on a rail "
            f"{text(tenon.rail.width)} wide.",
            "Give narrower shoulders.",
            "shoulder" if given.shoulder is not None else "shoulder_far",
        )
    if tenon.depth >= tenon.stile.width:
        yield mistake(
            "mortise-through",
            f"A mortise {text(tenon.depth)} deep comes out of the stile, "
            f"{text(tenon.stile.width)} wide.",
            f"Give a tenon shorter than {text(tenon.stile.width - tenon.extra)}, or less "
            "extra depth.",
            "tenon_length" if given.tenon_length is not None else "extra_depth",
        )
    reaches = (tenon.length, tenon.rail.width + (given.horn or 0))
    yield from too_short(tenon, reaches)


def _advice(tenon: Tenon) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    yield from _on_thickness(tenon)
    yield from _on_width_and_length(tenon)
    yield from _on_end(tenon)
    yield from loose_fit(tenon, tenon.given.fit, "at each cheek is more than glue fills well")


def _on_thickness(tenon: Tenon) -> Iterator[Finding]:
    text, wide = tenon.text, tenon.mortise_width
    share = wide / tenon.rail.thickness
    if not THINNEST <= share <= THICKEST:
        yield advice(
            "tenon-thin" if share < THINNEST else "tenon-thick",
            f"A tenon {text(wide)} thick is {decimal_text(100 * share, 0)} % of the rail's "
            f"thickness, {text(tenon.rail.thickness)}.",
            f"{THIRDS}; {BAND}; {BY_CHISEL}",
            "About a third is usual.",
            "tenon_thickness",
        )
    wall = tenon.stile.thickness - tenon.mortise_to
    if wall < wide / 2:
        told = tenon.given.tenon_thickness is not None
        yield advice(
            "mortise-wall-thin",
            f"Only {text(wall)} of the stile is left between the mortise and the inside face.",
            OURS,
            "Give a thinner tenon or a thicker stile." if told else "Take a thicker stile.",
            "tenon_thickness" if told else "",
        )
    chisels = tenon.request.tools.chisels
    if wide not in chisels and any(chisel < wide for chisel in chisels):
        yield advice(
            "mortise-between-chisels",
            f"None of your chisels is as wide as the mortise, {text(wide)}; a mortise is best "
            "chopped with a chisel of its own width.",
            BY_CHISEL,
            "Take the width of one of your chisels, or chop narrower and pare to the middle of the "
            "lines.",
            "tenon_thickness",
        )


def _on_width_and_length(tenon: Tenon) -> Iterator[Finding]:
    text = tenon.text
    if tenon.rail.width > WIDEST_RAIL:
        yield advice(
            "rail-wide",
            f"A rail {text(tenon.rail.width)} wide usually has two tenons, with a gap between "
            "them; this joint has one.",
            HALF_TO_WHOLE,
            "Take a narrower rail, or see that it cannot twist.",
        )
    if tenon.width > max(WIDEST_RAIL, 5 * tenon.mortise_width):
        yield advice(
            "tenon-wide",
            f"A tenon {text(tenon.width)} wide may bend and shrink.",
            f"{FIVE}; {HALF_TO_WHOLE}",
            "Give wider shoulders.",
            "shoulder",
        )
    if tenon.depth > tenon.stile.width * DEEPEST:
        yield advice(
            "mortise-deep",
            f"Only {text(tenon.stile.width - tenon.depth)} of the stile is left below the mortise.",
            SEVEN_EIGHTHS,
            "Give a shorter tenon.",
            "tenon_length",
        )
    if tenon.length < min(tenon.stile.width * SHORTEST, SHORT):
        yield advice(
            "tenon-short",
            f"A tenon {text(tenon.length)} long goes less than half way through the stile.",
            OURS,
            "Give a longer one.",
            "tenon_length",
        )
    if not tenon.extra:
        yield advice(
            "no-extra-depth",
            "A mortise no deeper than the tenon is long may keep the shoulders open.",
            THIRDS,
            "Make it a little deeper.",
            "extra_depth",
        )


def _on_end(tenon: Tenon) -> Iterator[Finding]:
    """A mortise near the stile's end: while it is chopped, and when the horn is off."""
    text, horn, far = tenon.text, tenon.given.horn, tenon.shoulders[1]
    if horn is None:
        return
    if horn + far < END_WOOD:
        yield advice(
            "end-splits",
            f"Only {text(horn + far)} of wood stands between the mortise and the stile's end, and "
            "may split while you chop.",
            OURS,
            "Leave a longer horn, to be sawn off last.",
            "horn",
        )
    if far < tenon.mortise_width:
        yield advice(
            "end-weak",
            f"Once the horn is off, only {text(far)} of wood closes the mortise.",
            f"{TO_THE_TOP}; how wide: {OURS}",
            "Give a wider shoulder at the far edge.",
            "shoulder_far",
        )


def _rules(tenon: Tenon) -> Iterator[str]:
    given, text, near = tenon.given, tenon.text, ", the nearest of your chisels"
    if given.tenon_thickness is None:
        nearest = near if tenon.mortise_width in tenon.request.tools.chisels else ""
        yield (
            f"Thickness of the tenon: {text(tenon.mortise_width)}, about a third of the "
            f"rail's{nearest} ({THIRDS}; {BAND}; {BY_CHISEL})."
        )
    if given.tenon_length is None:
        yield (
            f"Length of the tenon: {text(tenon.length)}, so that the mortise goes about three "
            "quarters of the way through the stile, or deep enough in a wide one (the books "
            f"differ: {IN_A_LEG}; {SEVEN_EIGHTHS})."
        )
    told = (("reference", given.shoulder), ("far", given.shoulder_far))
    edges = [edge for edge, shoulder in told if shoulder is None]
    if edges:
        where = "both edges" if len(edges) > 1 else f"the {edges[0]} edge"
        yield (
            f"Shoulder at {where}: {text(tenon.shoulders[edges[0] == 'far'])}, which "
            f"makes the tenon {_share(tenon)} (the books differ: {HALF_TO_WHOLE}; {HALF})."
        )


def _share(tenon: Tenon) -> str:
    if tenon.rail.width > WIDEST_RAIL:
        return "as wide as on a rail of 5 in"
    return "two thirds of the rail's width"


def _rows(tenon: Tenon) -> Iterator[SettingOut]:
    """Where the tenon and the mortise begin and end."""
    near, far = tenon.shoulders
    wide, fit = tenon.rail.width, tenon.given.fit
    yield from _row("end grain, across the width", RAIL, wide, near, far, "tenon")
    yield from _row(
        "end grain, through the thickness",
        RAIL,
        tenon.rail.thickness,
        tenon.mortise_from + fit,
        tenon.rail.thickness - tenon.mortise_to + fit,
        "tenon",
        "outside face",
    )
    yield from _row("reference edge, along it", STILE, wide, far, near, "mortise", LINE)


def _row(
    title: str,
    role: str,
    width: Fraction,
    before: Fraction,
    behind: Fraction,
    what: str,
    start: str = "reference edge",
) -> Iterator[SettingOut]:
    marks = (
        *((Mark(before, f"{what} starts"),) if before else ()),
        *((Mark(width - behind, f"{what} ends"),) if behind else ()),
    )
    if marks:
        yield SettingOut(title, role, width, marks, start=start, along_end=False)


def _sizes(tenon: Tenon) -> Iterator[Size]:
    yield Size("thickness of the tenon", tenon.thickness)
    yield Size("width of the tenon, length of the mortise", tenon.width)
    yield Size("left of the stile below the mortise", tenon.stile.width - tenon.depth)
    yield Size("left between mortise and inside face", tenon.stile.thickness - tenon.mortise_to)


def _lengths(tenon: Tenon) -> Iterator[LengthSetting]:
    given = tenon.given
    yield LengthSetting("mortise gauge", "between its points", tenon.mortise_width)
    use = "nearer side of the mortise, from the outside face"
    if not given.fit:
        use = "nearer side of mortise and tenon, from the outside face of both"
    yield LengthSetting("gauge", use, tenon.mortise_from)
    if given.fit:
        use = "nearer cheek of the tenon, from the outside face"
        yield LengthSetting("gauge", use, tenon.mortise_from + given.fit)
    yield LengthSetting("gauge", "rail's shoulder, from its end", tenon.length)
    for edge, inset in zip(("reference", "far"), tenon.shoulders, strict=True):
        if inset:
            yield LengthSetting("gauge", f"tenon's side, from the rail's {edge} edge", inset)
    yield LengthSetting("rule", "depth of the mortise, marked on the chisel", tenon.depth)
    if given.horn:
        yield LengthSetting("rule", f"horn: from the stile's end to the {LINE}", given.horn)


def _mortising(tenon: Tenon) -> Iterator[Step]:
    """The mortise is chopped first, and the tenon fitted to it (common practice, no source)."""
    given, text = tenon.given, tenon.text
    wide = text(tenon.mortise_width)
    horn = ""
    if given.horn:
        horn = (
            f" Leave the stile longer than the frame is high: {text(given.horn)} for the horn, at "
            "each end that a rail meets."
        )
    yield Step(
        Task.PREPARE,
        "Prepare",
        "Mark the outside face and the reference edge of all pieces, and the joint's name: the "
        f"reference edges face into the frame. Make {tenon.named(0)} as long as the space between "
        f"the stiles and {text(tenon.length)} more for the tenon at each of its ends, ends "
        f"square.{horn} Measure width and thickness of {tenon.named(0)} and {tenon.named(1)} "
        f"again: if they are not {PRINT_AGAIN}.",
    )
    at = "" if given.horn is None else f", {text(given.horn)} from the stile's end"
    yield Step(
        Task.GAUGE,
        "Square the rail's lines",
        "Clamp both stiles together, ends level and reference edges up. For each rail square two "
        f"pencil lines across these edges: one where the {LINE} comes{at}, and a second "
        f"{text(tenon.rail.width)} beyond the first, where the rail's reference edge comes.",
    )
    yield Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(1)}",
        "Trim the template along its outer lines and lay it on the stile's reference edge, between "
        f"the arrises, its {dashed_line(not tenon.shoulders[1])} on the line of the {LINE}, ▲ "
        "towards the nearer end. Glue it, or tape it and prick it through at the small rings.",
    )
    yield Step(
        Task.GAUGE,
        "Set the mortise gauge",
        f"Set both points to the chisel itself, {wide}, then the stock so that the nearer point "
        f"stands {text(tenon.mortise_from)} from it. With the stock on the stile's outside face, "
        "gauge the sides of the mortise: the points must run in the printed lines. Knife its two "
        "ends across. Leave the gauge set.",
    )
    below = f", {text(tenon.extra)} more than the tenon is long" if tenon.extra else ""
    little = A_LITTLE[tenon.units]
    left = f" and {text(little)} inside both end lines" if tenon.width > 4 * little else ""
    yield Step(
        Task.CUT_SECOND,
        "Chop the mortise",
        f"Clamp the stile over the bench's leg, reference edge up. Mark {text(tenon.depth)} on the "
        f"chisel with tape{below}. Keep between the gauged lines{left}; hold the chisel upright, "
        "its cutting edge across the grain and its sides in line with the gauged lines. Chop in "
        "small steps from one end to the other, lever out the chips, and go down in layers. When "
        "the depth is reached, chop both ends upright to the middle of "
        "their lines. Try the sides with a square on the reference edge; pare bumps, but make it "
        "no wider.",
    )


def _tenoning(tenon: Tenon) -> Iterator[Step]:
    given, text = tenon.given, tenon.text
    gauge = "With the mortise gauge still set and its stock on the outside face, gauge"
    if given.fit:
        gauge = (
            f"Set the mortise gauge to {text(tenon.thickness)} and its stock to "
            f"{text(tenon.mortise_from + given.fit)}; with the stock on the outside face, gauge"
        )
    yield Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(0)}",
        f"{fold_over()} {gauge} the cheeks on the end grain and down both edges to the shoulder: "
        "there they must fall on the printed lines.",
    )
    yield Step(
        Task.GAUGE,
        "Knife the shoulder",
        f"Knife the shoulder, {text(tenon.length)} from the end, against a square all round: both "
        "faces and both edges. On the faces pare a small groove to it from the waste, for the saw.",
    )
    yield Step(
        Task.SAW_FIRST,
        "Saw the cheeks",
        "Clamp the rail upright. Saw beside both cheek lines, on the waste side: aslant from the "
        "near edge, turn the rail, aslant from the other edge, then level down to the shoulder.",
    )
    edges = zip(("reference", "far"), tenon.shoulders, strict=True)
    told = [f"{text(inset)} from the {edge} edge" for edge, inset in edges if inset]
    sides, them = ("sides", "them") if len(told) > 1 else ("side", "it")
    more = (
        f" Gauge the tenon's {sides} on its cheeks, {' and '.join(told)}; saw down beside {them}, "
        "on the waste side, and across beside the shoulder."
        if told
        else ""
    )
    yield Step(
        Task.SAW_FIRST,
        "Saw the shoulders",
        "Saw across the outside and the inside face in the groove beside the knifed shoulder, "
        f"down to the cheek and no deeper.{more} Chamfer the tenon's end a little.",
    )
    yield Step(
        Task.FIT,
        "Fit the tenon to the mortise",
        f"{PEEL} The tenon goes in by hand with pressure and stays when you lift the stile. Where "
        "a cheek shines, "
        "pare it across the grain; leave the mortise. The outside faces must come flush: take from "
        "the cheek that keeps them apart. Where a shoulder stays open, pare what holds it off.",
    )
    horn = " When it is hard, saw off the horn and plane the end flush." if given.horn else ""
    yield Step(
        Task.GLUE,
        "Glue",
        "Brush glue on the mortise's sides and thinly on the cheeks, clamp "
        "along the rail till all shoulders are shut, measure both diagonals, and sight across the "
        f"frame for twist.{horn} Plane the outside faces flush.",
    )


KIND = Kind(
    name="mortise-and-tenon",
    title="Stopped mortise and tenon",
    summary="A rail's tenon in a blind mortise of a stile's edge, faces flush: frames and doors.",
    roles=Tenon.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="60 mm",
        thicknesses=("21 mm", "21 mm"),
        parameters=(
            ("tenon_thickness", "7 mm"),
            ("tenon_length", "43 mm"),
            ("shoulder", "6 mm"),
            ("shoulder_far", "14 mm"),
            ("horn", "20 mm"),
            ("extra_depth", "2 mm"),
        ),
        second_width="60 mm",
        corners=(
            ("Top left", "A"),
            ("Top right", "B"),
            ("Bottom right", "C"),
            ("Bottom left", "D"),
        ),
    ),
    sources=(
        THIRDS,
        BAND,
        BY_CHISEL,
        HALF_TO_WHOLE,
        HALF,
        IN_A_LEG,
        SEVEN_EIGHTHS,
        FIVE,
        f"horn: {COMMON}",
    ),
    spread=thin_and_thick_tenons,
)
