"""A mortise and tenon of any kind of the family: all that is stated of it."""

from collections.abc import Callable, Iterator
from itertools import pairwise

from joinery_templates.exact import ONE
from joinery_templates.joint import Clearing, Detail, Joint, LengthSetting, Member, SlopeSetting
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Request
from joinery_templates.joints.layout import RAIL, pose
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.tenons import advice, checks, figures
from joinery_templates.joints.tenons.cuts import LINE, bared_cheeks, rail_end, stile_part, wedge
from joinery_templates.joints.tenons.parameters import Parameters
from joinery_templates.joints.tenons.steps import order_of_work
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.tool_fit import BIT
from joinery_templates.joints.upright import BY_INSIDE
from joinery_templates.wood.board import EDGES, Face, Hand
from joinery_templates.wood.cut import Part
from joinery_templates.wood.placement import Placement

SOURCES = (
    figures.THIRDS,
    figures.BAND,
    figures.BY_CHISEL,
    figures.HALF_TO_WHOLE,
    figures.HALF,
    figures.IN_A_LEG,
    figures.SEVEN_EIGHTHS,
    figures.FIVE,
)
"""What every kind of the family goes by."""


def _lengths(tenon: Tenon) -> Iterator[LengthSetting]:
    """Tools set to lengths, in the order of work."""
    yield from _cheeks(tenon)
    yield from _shoulders(tenon)
    yield from _in_stile(tenon)
    yield from _wedges_and_pegs(tenon)


def _cheeks(tenon: Tenon) -> Iterator[LengthSetting]:
    yield LengthSetting("mortise gauge", "between its points", tenon.mortise_width)
    on_stile = f"{tenon.upright.name}'s {tenon.upright.gauged}"
    both = "outside face of both"
    if tenon.upright is BY_INSIDE:
        both = f"rail's outside face and the {on_stile}"
    pairs = zip(tenon.sides, tenon.cheeks, strict=True)
    for number, ((start, _), (low, _)) in enumerate(pairs, start=1):
        the, which = ("the ", "") if number == 1 else ("", f" {number}")
        near = tenon.given.set_back + start
        if low == near:
            yield gauge(f"nearer cheek of mortise and tenon{which}, from the {both}", near)
            continue
        yield gauge(f"nearer cheek of {the}mortise{which}, from the {on_stile}", near)
        if low:
            yield gauge(f"nearer cheek of {the}tenon{which}, from the rail's outside face", low)


def _shoulders(tenon: Tenon) -> Iterator[LengthSetting]:
    edge = "" if tenon.is_square else ", along the far edge"
    yield LengthSetting("rule", f"rail's shoulder, from its end{edge}", tenon.length)
    if tenon.given.rebate:
        use = "rail's inside shoulder, from its end"
        yield LengthSetting("rule", use, tenon.length - tenon.channel_depth)
    for edge, inset in zip(EDGES, tenon.sawn_shoulders, strict=True):
        if inset:
            yield gauge(f"tenon's edge, from the rail's {edge}", inset)
    for number, sides in enumerate(tenon.gaps, start=1):
        which = f" {number}" if len(tenon.gaps) > 1 else ""
        for side, at in zip(("nearer", "farther"), sides, strict=True):
            yield gauge(
                f"gap{which} between tenons, its {side} side, from the rail's reference edge", at
            )
    if tenon.given.haunch:
        yield LengthSetting("rule", "haunch's end, from the shoulder", tenon.haunch_length)
    if tenon.ends_mitred:
        yield gauge("mitre, on the tenon's inside cheek, from its end", tenon.mitre)


def _in_stile(tenon: Tenon) -> Iterator[LengthSetting]:
    if not tenon.given.through:
        slant = "" if tenon.is_square else " along its slant"
        use = f"depth of the mortise{slant}, marked on the chisel"
        yield LengthSetting("rule", use, tenon.depth / tenon.lean[1])
    if tenon.given.horn:
        yield LengthSetting(
            "rule", f"horn: from the {tenon.upright.end} to the {LINE}", tenon.given.horn
        )


def _wedges_and_pegs(tenon: Tenon) -> Iterator[LengthSetting]:
    given = tenon.given
    if given.wedges:
        yield gauge("kerfs, from the tenon's edges", tenon.from_side)
        yield gauge("kerfs' floor, from the tenon's end", tenon.kerf_depth)
        use = "flare, past each end of the mortise where it is longest"
        yield LengthSetting("rule", use, tenon.flare)
    if given.drawbore:
        yield LengthSetting(BIT, "holes for the pegs", tenon.peg)
        use = f"holes of the {tenon.role(1)}, from its {tenon.upright.entered}"
        yield gauge(use, tenon.from_shoulder)
        if tenon.is_square:
            yield gauge("holes of the tenon, from its shoulder", tenon.from_shoulder - tenon.offset)


def _slopes(tenon: Tenon) -> Iterator[SlopeSetting]:
    """Bevels set to slopes."""
    if not tenon.is_square:
        yield SlopeSetting(
            "rail's shoulder, off square, stock on an edge", abs(tenon.lean[0] / tenon.lean[1])
        )
    if tenon.ends_mitred:
        yield SlopeSetting("mitre of the tenon's end, stock on the outside cheek", ONE)
    if tenon.given.haunch and not tenon.is_haunch_square and tenon.is_square:
        falls = tenon.haunch_length / tenon.shoulders[1]
        yield SlopeSetting("sloped haunch, from the shoulder, stock on the far edge", falls)


def _clearings(tenon: Tenon) -> Iterator[Clearing]:
    """What is chopped, and what is cleared between tenons."""
    wide = tenon.mortise_width
    yield Clearing(f"{tenon.role(1)}, mortise", wide, wide, "tenon_thickness", sawn=False)
    for one, other in pairwise(tenon.cheeks):
        between = other[0] - one[1]
        yield Clearing("rail, between tenons side by side", between, between, "tenon_thickness")
    for low, high in tenon.gaps:
        yield Clearing("rail, between tenons", high - low, high - low, "gap")


class Stated(Tenon, frozen=True, dict=True):
    """All that is stated of a mortise and tenon."""

    stance = pose(up=(1, 0, 0), front=(0, 7, -9), apart=(0, 1, 0))
    impossible = checks.impossible
    rows = figures.rows
    sizes = figures.sizes
    lengths = _lengths
    slopes = _slopes
    clearings = _clearings
    rules = figures.rules
    advise = advice.advise
    steps = order_of_work

    @property
    def parts(self) -> tuple[Part, Part]:
        """The rail's end and the stile."""
        return rail_end(self), stile_part(self)

    @property
    def placement(self) -> Placement:
        """The stile or leg on the rail, in the frame of its own marks."""
        return self.upright.on_rail(self.as_met, self.boards[1])

    @property
    def hands(self) -> tuple[Hand, Hand]:
        """As the stile or leg has them."""
        return self.upright.hands

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """Holes come out of the stile's inside, and are bored from outside alone."""
        if not (number and self.given.drawbore):
            return ()
        return tuple(face for face in part.faces if face is not self.upright.within)

    def details(self) -> Iterator[Detail]:
        """The tenon's cheeks, seen at the rail's own end, and a wedge."""
        for cheek in bared_cheeks(self):
            yield Detail(Member(RAIL, cheek, self.hands[0]), board=0)
        if self.given.wedges:
            count = 2 * len(self.cheeks)
            stock = Member("wedge", wedge(self), Hand.LEFT, faces=(Face.OUTSIDE,))
            yield Detail(stock, count=count)


def held_by(name: str, by_rule: type[Table]) -> Callable[[Request], Joint]:
    """A kind whose tenons always have a haunch, wedges or pegs: by their rules where not told.

    Args:
        name: of the parameter.
        by_rule: its table.
    """

    def lay_out(request: Request) -> Joint:
        given: Parameters = request.given
        return Stated(request, given.but(**{name: getattr(given, name) or by_rule()})).joint()

    return lay_out
