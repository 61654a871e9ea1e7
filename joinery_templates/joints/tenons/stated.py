"""A mortise and tenon of any kind of the family: all that is stated of it."""

from collections.abc import Callable, Iterator

from msgspec.structs import replace

from joinery_templates.joint import Detail, Joint, Member
from joinery_templates.joints.kind import Request
from joinery_templates.joints.layout import RAIL, pose
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.tenons import advice, checks, figures, settings
from joinery_templates.joints.tenons.cuts import bared_cheeks, rail_end, stile_part, wedge
from joinery_templates.joints.tenons.filled import filled
from joinery_templates.joints.tenons.parameters import Parameters
from joinery_templates.joints.tenons.steps import order_of_work
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.upright import BY_INSIDE
from joinery_templates.wood.board import Face, Hand
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


class Stated(Tenon, frozen=True, dict=True):
    """All that is stated of a mortise and tenon."""

    stance = pose(up=(1, 0, 0), front=(0, 7, -9), apart=(0, 1, 0))
    impossible = checks.impossible
    filled = filled
    rows = figures.rows
    sizes = figures.sizes
    lengths = settings.lengths
    slopes = settings.slopes
    clearings = settings.clearings
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
    def _rail_hand(self) -> Hand:
        """On a leg's inside face the rail's other end, so that the leg is the other rails' too."""
        return Hand.RIGHT if self.upright is BY_INSIDE else Hand.LEFT

    def members(self, *parts: Part) -> tuple[Member, ...]:
        """Both boards, the rail first."""
        rail, stile = super().members(*parts)
        return replace(rail, hand=self._rail_hand), stile

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """Holes come out of the stile's inside, and are bored from outside alone."""
        if not (number and self.given.drawbore):
            return ()
        return tuple(face for face in part.faces if face is not self.upright.within)

    def details(self) -> Iterator[Detail]:
        """The tenon's cheeks, seen at the rail's own end, and a wedge."""
        for cheek in bared_cheeks(self):
            yield Detail(Member(RAIL, cheek, self._rail_hand), board=0)
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
