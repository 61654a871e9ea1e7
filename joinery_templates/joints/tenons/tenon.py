r"""A rail's tenons and a stile's mortises: all that a rule decides, decided.

Reference edges face into the frame. From outside, and along the rail::

      stile's end                             rail's end, outside faces up
    +------------+                                     stile          rail
    |    horn    |                              +----------------+-----------
    +- - - - - - +-------- y = 0, far edge      |       +--------+  shoulder_outside
    |    | haunch+  shoulder_far                |       | tenon
    |    | tenon |         rail                 |       +--------+
    |    +-------|  shoulder                    |                | shoulder
    |            +-------- reference edge       +----------------+-----------
    |   stile    |                                    extra_depth

The stile's y runs from the line of the rail's far edge away from the stile's end. A rail that
leans turns about its far edge, in the frame's plane: its end and its tenons stay square to it,
and the shoulders follow the stile. How deep something lies is measured square to the stile's
reference edge.
"""

from functools import cached_property

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joints.gauge import (
    as_a_gauge_is_set,
    at_least_as_a_gauge_is_set,
    at_most_as_a_gauge_is_set,
)
from joinery_templates.joints.tenons.parameters import SQUARE
from joinery_templates.joints.tenons.proportions import A_LITTLE, Proportions, Span
from joinery_templates.joints.upright import BY_INSIDE
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import HalfSpace, Surface, Vector
from joinery_templates.wood.placement import Placement

MOST_KERF = {Units.MM: Fraction(60), Units.INCH: INCH * 5 / 2}
MOST_FROM_SIDE = {Units.MM: Fraction(8), Units.INCH: INCH * 5 / 16}
TO_DRIVE = {Units.MM: Fraction(10), Units.INCH: INCH * 3 / 8}
BESIDE_WEDGE = Fraction(6)
"""Of its stock, so that the pattern can be read (our judgement)."""
MOST_PEG = {Units.MM: Fraction(10), Units.INCH: INCH * 3 / 8}
USUAL_KERF = Fraction(4, 5)
"""Of a tenon saw, where nothing is told of it: its blade in Holtzapffel's table, 0.032 in."""


class Tenon(Proportions, frozen=True, dict=True):
    """A rail and a stile, with all that a rule decides decided."""

    @property
    def runs_across(self) -> bool:
        """Whether the rail runs from left to right, which of legs tells the face that it enters."""
        return self.upright is BY_INSIDE if self.upright.is_leg else super().runs_across

    # Planes and places

    @cached_property
    def shoulder(self) -> HalfSpace:
        """All that lies before the rail's shoulders, in the rail's frame."""
        sine, cosine = self.lean
        limit = sine * self.rail.width + cosine * self.length
        return HalfSpace((sine, cosine, ZERO), limit, Surface.SAWN_SHOULDER)

    def at_depth(self, x: Fraction, deep: Fraction) -> Vector:
        """The point of the rail's outside face at x that lies so deep in the stile."""
        sine, cosine = self.lean
        return x, (self.shoulder.limit - deep - sine * x) / cosine, ZERO

    @cached_property
    def as_met(self) -> Placement:
        """The stile on the rail, as the rail meets it: its reference edge at the shoulder."""
        sine, cosine = self.lean
        rows = ((-sine, -cosine, ZERO), (-cosine, sine, ZERO), (ZERO, ZERO, ONE))
        return Placement(rows, (self.rail.width, self.length, -self.given.set_back))

    @property
    def bared(self) -> tuple[Face, ...]:
        """The faces whose cheeks show what neither end grain nor edges do, by the rail's faces.

        A bare cheek is the rail's own face, and the wrap shows it all.
        """
        given, (low, _), (_, high) = self.given, self.cheeks[0], self.cheeks[-1]
        has_detail = any((given.haunch, given.wedges, given.drawbore, self.gaps))
        shown = {
            Face.OUTSIDE: has_detail and low > 0,
            Face.INSIDE: self.ends_mitred and high < self.rail.thickness,
        }
        return tuple(face for face, is_shown in shown.items() if is_shown)

    # Haunch, groove and rebate

    @cached_property
    def haunch_length(self) -> Fraction:
        """From the shoulder to the haunch's end; 0 without one."""
        haunch, groove = self.given.haunch, self.given.groove
        if not haunch:
            return ZERO
        usual = min(self.mortise_width, as_a_gauge_is_set(self.length / 2, self.units))
        return haunch.length or (self.channel_depth if groove else usual)

    @property
    def is_haunch_square(self) -> bool:
        """Whether there is a haunch as long at the rail's far edge as at the tenon."""
        return self.given.haunch is not None and self.given.haunch.form == SQUARE

    @property
    def haunch_lies_in_groove(self) -> bool:
        """Whether the stile needs no socket for the haunch: its groove is there already."""
        low, high = self.channel
        is_between = low <= self.sides[0][0] and self.sides[-1][1] <= high
        is_short = self.haunch_length <= self.channel_depth
        return self.given.groove is not None and is_between and is_short

    @property
    def sawn_shoulders(self) -> tuple[Fraction, Fraction]:
        """What is sawn off beside the tenons at both edges: 0 where the groove has done it."""
        (low, high), (near, far) = self.channel, self.shoulders
        is_between = low <= self.cheeks[0][0] and self.cheeks[-1][1] <= high
        is_gone = self.given.groove is not None and is_between and near <= self.channel_depth
        return ZERO if is_gone else near, far

    @property
    def channel(self) -> Span:
        """From the rail's outside face, where its groove or rebate begins and ends."""
        groove, rebate, back = self.given.groove, self.given.rebate, self.stile.thickness
        if rebate:
            deep = rebate.depth or back - self.mortise_to
            return back - deep - self.given.set_back, self.rail.thickness
        if not groove:
            return ZERO, ZERO
        start = self.sides[0][0] if groove.from_outside is None else groove.from_outside
        return start, start + (groove.width or self.mortise_width)

    def ploughed_off(self, face: Face) -> Fraction:
        """How far from the reference edge a cheek begins, where groove or rebate took its edge.

        Args:
            face: of the rail, that the cheek looks the way of.
        """
        low, high = self.channel
        is_gone = low < self.cheeks[-1][1] <= high
        if face is Face.OUTSIDE:
            is_gone = low <= self.cheeks[0][0] < high
        return self.channel_depth if is_gone else ZERO

    # Wedges

    @property
    def kerf_depth(self) -> Fraction:
        """Of the kerfs, from the tenon's end."""
        wedges = self.given.wedges
        usual = as_a_gauge_is_set(self.length * 3 / 4, self.units)
        return (wedges and wedges.depth) or min(usual, MOST_KERF[self.units])

    @property
    def from_side(self) -> Fraction:
        """From each side of a tenon to the middle of its kerf."""
        wedges = self.given.wedges
        usual = as_a_gauge_is_set(self.width / 6, self.units)
        return (wedges and wedges.from_side) or min(usual, MOST_FROM_SIDE[self.units])

    @property
    def kerf(self) -> Fraction:
        """How wide the saw cuts."""
        return self.request.tools.kerf or USUAL_KERF

    @property
    def _flared(self) -> Fraction:
        """From the kerfs' floor to where the mortise holds the tenon last."""
        return min(self.depth, self.length) - self.flare_from

    @property
    def short_of_floor(self) -> Fraction:
        """Left before a wedge's thin end: one that met the floor first would never be tight."""
        return min(A_LITTLE[self.units], self._flared / 4)

    @property
    def wedge_held(self) -> Fraction:
        """From the thin end of a wedge that is driven home to where the mortise holds it."""
        return self._flared - self.short_of_floor

    @property
    def wedge_end(self) -> Fraction:
        """How thick a wedge is there: it fills its kerf and the flare."""
        return self.kerf + self.flare * self._flared / (self.depth - self.flare_from)

    @property
    def wedge_length(self) -> Fraction:
        """Of a wedge, with what is left over to be driven; a mortise's floor drives it home."""
        if not self.given.through:
            return self.depth - self.flare_from - self.short_of_floor
        return self.kerf_depth + TO_DRIVE[self.units]

    @property
    def wedge_stock(self) -> Board:
        """What wedges are cut from."""
        thickest = self.wedge_end * self.wedge_length / self.wedge_held
        return Board("wedge", thickest + BESIDE_WEDGE, self.mortise_width)

    @property
    def flare_from(self) -> Fraction:
        """How deep in the stile the mortise begins to widen: where the kerfs end."""
        return self.length - self.kerf_depth

    # Pegs

    @property
    def peg(self) -> Fraction:
        """Their diameter: that of a bit, where one comes near what is usual."""
        drawbore, bits = self.given.drawbore, self.request.tools.bits
        usual = min(self.mortise_width, MOST_PEG[self.units], self.width / 4, self.length / 4)
        near = max((bit for bit in bits if usual / 2 <= bit <= usual), default=None)
        rounded = at_most_as_a_gauge_is_set(usual, self.units)
        return (drawbore and drawbore.peg) or near or rounded

    @property
    def peg_length(self) -> Fraction:
        """Of a peg: where it goes right through a third is tapered; some is left to drive."""
        deep = self.given.drawbore and self.given.drawbore.depth
        long = deep or self.stile.thickness * 3 / 2
        return at_least_as_a_gauge_is_set(long + TO_DRIVE[self.units], self.units)

    @property
    def point(self) -> Fraction:
        """The taper of a peg in a hole that stops: half its thickness (our judgement)."""
        return self.peg / 2

    @property
    def offset(self) -> Fraction:
        """How much nearer to the shoulder the tenon's holes are."""
        drawbore, usual = self.given.drawbore, self.peg / 6
        rounded = as_a_gauge_is_set(usual, self.units)
        return (drawbore and drawbore.offset) or (rounded if rounded <= 2 * usual else usual)

    @property
    def from_shoulder(self) -> Fraction:
        """How deep in the stile its holes are."""
        drawbore = self.given.drawbore
        return (drawbore and drawbore.from_shoulder) or self.usual_from_shoulder

    @property
    def usual_from_shoulder(self) -> Fraction:
        """The same by rule: behind any groove or rebate."""
        return self.channel_depth + as_a_gauge_is_set(self.peg * 3 / 2, self.units)

    @property
    def peg_places(self) -> tuple[Fraction, ...]:
        """The middles of all pegs, from the rail's reference edge."""
        many = self.given.drawbore.pegs if self.given.drawbore else 0
        return tuple(
            low + self.width * (2 * number + 1) / (2 * many)
            for low, _ in self.pieces
            for number in range(many)
        )
