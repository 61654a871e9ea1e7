"""A mortise and tenon of any kind of the family: all that is known of it, put together."""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.errors import refuse
from joinery_templates.joint import Detail, Joint, Member
from joinery_templates.joints.kind import Request
from joinery_templates.joints.layout import RAIL, pose
from joinery_templates.joints.tenons import figures, settings
from joinery_templates.joints.tenons.advice import advise
from joinery_templates.joints.tenons.checks import impossible
from joinery_templates.joints.tenons.cuts import bared_cheeks, rail_end, stile_part, wedge
from joinery_templates.joints.tenons.filled import filled
from joinery_templates.joints.tenons.parameters import Parameters
from joinery_templates.joints.tenons.steps import steps
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.upright import BY_INSIDE
from joinery_templates.wood.board import Face, Hand

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


def tenoned(name: str, title: str, request: Request, given: Parameters) -> Joint:
    """The layout of a mortise and tenon.

    Args:
        name: of the kind.
        title: of the kind.
        request: boards, units and tools.
        given: what is told of it, with what makes the kind filled in.

    Raises:
        InputError: where it cannot be cut.
    """
    tenon = Tenon(request, given)
    refuse(impossible(tenon))
    members = _members(tenon)
    return Joint(
        kind=name,
        title=title,
        members=members,
        placements=(tenon.upright.on_rail(tenon.placement, tenon.boards[1]),),
        filled=tuple(filled(tenon)),
        allowance=given.fit,
        rows=tuple(figures.rows(tenon)),
        sizes=tuple(figures.sizes(tenon)),
        lengths=tuple(settings.lengths(tenon)),
        slopes=tuple(settings.slopes(tenon)),
        rules=tuple(figures.rules(tenon)),
        findings=tuple(advise(tenon)),
        steps=tuple(steps(tenon)),
        pose=pose(up=(1, 0, 0), front=(0, 7, -9), apart=(0, 1, 0)),
        at_corner=False,
        clearings=tuple(settings.clearings(tenon)),
        details=tuple(_details(tenon, members[0].hand)),
    )


def _members(tenon: Tenon) -> tuple[Member, Member]:
    """Both boards. Holes come out of the stile's inside, and are bored from outside alone."""
    rail, stile = tenon.members(rail_end(tenon), stile_part(tenon))
    stile = replace(stile, role=tenon.upright.name)
    if tenon.upright is BY_INSIDE:
        # At corner A this is the rail's other end, and the same leg as the other rails have.
        rail = replace(rail, hand=rail.hand.other)
    if tenon.given.drawbore:
        faces = tuple(face for face in stile.part.faces if face is not tenon.upright.within)
        stile = replace(stile, faces=faces)
    return rail, stile


def _details(tenon: Tenon, rail_hand: Hand) -> Iterator[Detail]:
    """The tenon's cheeks, seen at the rail's own end, and a wedge."""
    for cheek in bared_cheeks(tenon):
        yield Detail(Member(RAIL, cheek, rail_hand), board=0)
    if tenon.given.wedges:
        stock = Member("wedge", wedge(tenon), Hand.LEFT, faces=(Face.OUTSIDE,))
        yield Detail(stock, count=2 * len(tenon.cheeks))
