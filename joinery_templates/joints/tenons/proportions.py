"""How thick, wide and long a rail's tenons are: as it is told, or by rule."""

from functools import cached_property
from itertools import pairwise

from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.gauge import (
    as_a_gauge_is_set,
    at_least_as_a_gauge_is_set,
    at_most_as_a_gauge_is_set,
    rule_steps,
)
from joinery_templates.joints.layout import RailAndStile
from joinery_templates.joints.tenons import parameters
from joinery_templates.joints.tenons.parameters import Parameters
from joinery_templates.joints.upright import UPRIGHTS, Upright
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board
from joinery_templates.wood.leaning import sine_and_cosine

HALF = Fraction(1, 2)
LESS, MORE = Fraction(3, 4), Fraction(6, 5)
"""Of the usual thickness: of a third, books have a quarter to a little over (our judgement)."""
WIDEST_RAIL = 5 * INCH
"""A wider rail has two tenons rather than one, and none is wider than such a rail (Cassell)."""
END_WOOD = Fraction(15)
"""Less wood between a mortise and the stile's end splits under the chisel (our judgement)."""
LONG_ENOUGH = {Units.MM: Fraction(75), Units.INCH: 3 * INCH}
"""No longer tenon is proposed, however wide the stile (our judgement)."""
A_LITTLE = {Units.MM: Fraction(2), Units.INCH: INCH / 16}
"""Depth below the tenon; left at a mortise's ends while chips are levered out (our judgement)."""
BARE_SHOULDER = {Units.MM: Fraction(3, 2), Units.INCH: INCH / 16}
"""Below a haunched tenon, at the rail's reference edge (Joyce)."""
MOST_FLARE = {Units.MM: Fraction(3), Units.INCH: INCH / 8}
"""Of a mortise with wedges, at each end (our judgement)."""
TRIMMED = {Units.MM: Fraction(3), Units.INCH: INCH / 8}
"""What a through tenon stands out, to be planed off (Ross)."""
CLEAR_OF_TIP = {Units.MM: Fraction(1), Units.INCH: INCH / 32}
"""Left before a mitred tenon's tip, so that no tip keeps a shoulder open (our judgement)."""
Span = tuple[Fraction, Fraction]
"""From where to where, from the reference edge or from the outside face."""


class Proportions(RailAndStile, frozen=True, dict=True):
    """How thick, wide and long the tenons are; across, through and along the rail."""

    given: Parameters

    @property
    def upright(self) -> Upright:
        """What the rail comes to is called, and its faces."""
        return UPRIGHTS[self.given.on]

    @property
    def stile(self) -> Board:
        """The stile or leg as the rail meets it: its width is how deep the wood is there."""
        return self.upright.met(self.boards[1])

    def role(self, number: int) -> str:
        """What a board is called."""
        return self.upright.name if number else super().role(number)

    # Through the thickness

    @cached_property
    def mortise_width(self) -> Fraction:
        """Across the stile's edge: a chisel's width where one comes near the usual share."""
        given, thick = self.given, self.rail.thickness
        outside, inside = given.shoulder_outside, given.shoulder_inside
        if given.tenon_thickness is not None:
            return given.tenon_thickness
        if outside is not None and inside is not None:
            return (thick - outside - inside) / (2 * given.twins - 1)
        usual = thick / (2 * given.twins + (0 not in (outside, inside)))
        thinnest, rounded = usual * LESS, as_a_gauge_is_set(usual, self.units)
        room = usual * MORE
        if given.twins == 1 and outside is inside is None:
            # More would leave less than half of it between the mortise and the inside face.
            room = max(self.stile.thickness - given.set_back - thick / 2, thinnest)
        most = min(usual * MORE, room)
        chisel = self.request.tools.nearest_chisel(usual, thinnest, most)
        if chisel or rounded <= room:
            return chisel or rounded
        tried = (room // step * step for step in rule_steps(self.units))
        return next((width for width in tried if width >= thinnest), room)

    @cached_property
    def sides(self) -> tuple[Span, ...]:
        """Where the tenons that stand side by side are, from the rail's outside face."""
        given, wide, thick = self.given, self.mortise_width, self.rail.thickness
        outside, inside, many = given.shoulder_outside, given.shoulder_inside, given.twins
        apart = wide
        if many > 1 and outside is not None and inside is not None:
            apart = (thick - outside - inside - many * wide) / (many - 1)
        over_all = many * wide + (many - 1) * apart
        start = (thick - over_all) / 2
        if outside is not None:
            start = outside
        elif inside is not None:
            start = thick - over_all - inside
        starts = (start + number * (wide + apart) for number in range(many))
        return tuple((low, low + wide) for low in starts)

    @cached_property
    def cheeks(self) -> tuple[Span, ...]:
        """Where the tenons' own wood is, from the rail's outside face: less the fit where sawn."""
        fit, thick = self.given.fit, self.rail.thickness
        return tuple(
            (low + fit if low else low, high - fit if high < thick else high)
            for low, high in self.sides
        )

    @property
    def is_bare(self) -> bool:
        """Whether the tenon has no shoulder on one face of the rail."""
        return not self.sides[0][0] or self.sides[-1][1] == self.rail.thickness

    @property
    def between_sides(self) -> tuple[Span, ...]:
        """Between mortises side by side, from the rail's outside face."""
        return tuple((one[1], other[0]) for one, other in pairwise(self.sides))

    @property
    def mortise_from(self) -> Fraction:
        """From the stile's outside face to the first mortise's nearer side."""
        return self.given.set_back + self.sides[0][0]

    @property
    def mortise_to(self) -> Fraction:
        """From the stile's outside face to the last mortise's farther side."""
        return self.given.set_back + self.sides[-1][1]

    # Across the width

    @cached_property
    def channel_depth(self) -> Fraction:
        """How far a groove or rebate goes in from both reference edges; 0 without one."""
        groove, rebate = self.given.groove, self.given.rebate
        if rebate:
            return rebate.width
        if not groove:
            return ZERO
        wide = groove.width or self.mortise_width
        return groove.depth or as_a_gauge_is_set(wide, self.units)

    @property
    def flare(self) -> Fraction:
        """How much longer a wedged mortise is at each end, where it is longest."""
        wedges = self.given.wedges
        usual = as_a_gauge_is_set(self.stile.width / 20, self.units)
        return (wedges and wedges.flare) or min(usual, MOST_FLARE[self.units])

    @cached_property
    def shoulders(self) -> tuple[Fraction, Fraction]:
        """At the rail's reference edge and at its far edge."""
        wide, haunch, channel = self.rail.width, self.given.haunch, self.channel_depth
        over = max(wide - WIDEST_RAIL, ZERO) / 3
        if self.given.count > 1:
            over = ZERO
        near = far = as_a_gauge_is_set(wide / 6 + over, self.units)
        if self.along is not None and self.given.horn is None:
            clear = at_least_as_a_gauge_is_set(END_WOOD - self.along, self.units)
            far = max(far, min(clear, wide / 2))
        if haunch:
            near = BARE_SHOULDER[self.units]
            far = as_a_gauge_is_set(wide / 3 + 2 * over, self.units)
        if self.given.horn is not None:  # so much closes the mortise when the horn is off
            closes = at_least_as_a_gauge_is_set(self.mortise_width, self.units)
            far = max(far, min(closes, wide / 2))
        near = channel or near
        if haunch and haunch.divide == parameters.HALF_LESS_GROOVE:
            far = wide / 2
        elif haunch and haunch.divide == parameters.HALF_OF_REST:
            far = (wide - channel) / 2
        if self.given.wedges:  # the mortise stays behind the rail, also where it flares
            least = min(self.flare, wide / 4)
            near, far = max(near, least), max(far, least)
        told = self.given.shoulder, self.given.shoulder_far
        return near if told[0] is None else told[0], far if told[1] is None else told[1]

    @cached_property
    def pieces(self) -> tuple[Span, ...]:
        """Where the tenons one above another are, from the rail's reference edge."""
        many, (near, far) = self.given.count, self.shoulders
        room = self.rail.width - near - far
        apart = self.given.gap or as_a_gauge_is_set(room / (2 * many - 1), self.units)
        wide = (room - (many - 1) * apart) / many
        starts = (near + number * (wide + apart) for number in range(many))
        return tuple((low, low + wide) for low in starts)

    @property
    def width(self) -> Fraction:
        """The width of each tenon, and the length of its mortise."""
        low, high = self.pieces[0]
        return high - low

    @property
    def gaps(self) -> tuple[Span, ...]:
        """Between tenons one above another."""
        return tuple((one[1], other[0]) for one, other in pairwise(self.pieces))

    # Along the rail

    @property
    def ends_mitred(self) -> bool:
        """Whether the tenon's end is cut at 45 degrees, its outer cheek the longer one."""
        return self.given.tenon_end == parameters.MITRED

    @property
    def mitre(self) -> Fraction:
        """How much shorter the inner cheek of a mitred tenon is: as much as it is thick."""
        low, high = self.cheeks[0]
        return high - low

    @cached_property
    def lean(self) -> tuple[Fraction, Fraction]:
        """Sine and cosine of the angle by which the rail leans: its reference edge is longer."""
        return sine_and_cosine(90 - self.given.angle)

    @property
    def is_square(self) -> bool:
        """Whether rail and stile meet at a right angle."""
        return self.given.angle == 90

    def deeper(self, x: Fraction) -> Fraction:
        """How much deeper in the stile the rail's end lies at x than at the far edge."""
        return self.lean[0] * (self.rail.width - x)

    @cached_property
    def _deeper(self) -> tuple[Fraction, Fraction]:
        """The least and the greatest of that, over all tenons."""
        low, high = sorted(self.deeper(x) for x in (self.pieces[0][0], self.pieces[-1][1]))
        return low, high

    @cached_property
    def length(self) -> Fraction:
        """From the rail's end to its shoulders, along the far edge."""
        if self.given.tenon_length is not None:
            return self.given.tenon_length
        least, most = self._deeper
        if self.given.through:
            long = (self.stile.width + self.proud - least) / self.lean[1]
            return long if self.is_square else at_least_as_a_gauge_is_set(long, self.units)
        usual = (self.stile.width * 3 / 4 - self.extra - most) / self.lean[1]
        if self.ends_mitred:
            tip = self.stile.width - self.mortise_from - CLEAR_OF_TIP[self.units]
            usual = at_most_as_a_gauge_is_set(min(usual, tip), self.units)
        return min(as_a_gauge_is_set(usual, self.units), LONG_ENOUGH[self.units])

    @property
    def lets_in(self) -> Fraction:
        """How deep the tenons go into the stile, where they go deepest."""
        return self.length * self.lean[1] + self._deeper[1]

    @property
    def lets_in_least(self) -> Fraction:
        """How deep they go where they go least deep."""
        return self.length * self.lean[1] + self._deeper[0]

    @property
    def reach(self) -> Fraction:
        """From the rail's end to its shoulder, along its longer edge."""
        run_out = self.lean[0] / self.lean[1] * self.rail.width
        return self.length + max(run_out, ZERO)

    @property
    def proud(self) -> Fraction:
        """How far a through tenon stands out at least."""
        given = self.given.proud
        return TRIMMED[self.units] if given is None else given

    @property
    def extra(self) -> Fraction:
        """How much deeper the mortise is than the tenon is long."""
        given = self.given.extra_depth
        return A_LITTLE[self.units] if given is None else given

    @property
    def depth(self) -> Fraction:
        """Of the mortise."""
        return self.stile.width if self.given.through else self.lets_in + self.extra

    @property
    def across_stile(self) -> Fraction:
        """How much of the stile's edge the rail covers."""
        return self.rail.width / self.lean[1]

    @property
    def along(self) -> Fraction | None:
        """From the stile's end to the line of the rail's far edge, where that is told."""
        if self.given.middle and self.stile.length is not None:
            return (self.stile.length - self.across_stile) / 2
        given, length = self.given, self.stile.length
        if given.from_end == parameters.BOTTOM and given.at is not None and length is not None:
            return length - given.at - self.across_stile
        return given.horn if given.at is None else given.at
