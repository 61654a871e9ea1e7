"""Routed dovetails for tests: requests as a person writes them, and widths read off the wood."""

from fractions import Fraction

from joinery_templates.errors import Finding
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails import lapped_dovetail, through_dovetail
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units, read_length
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.faces import lay_out

THROUGH, LAPPED = through_dovetail.KIND, lapped_dovetail.KIND
HALF_INCH = {"diameter": "12.7 mm", "angle": 14}


def request(kind: Kind, width: str, thicknesses: tuple[str, str], **raw: object) -> Request:
    units = raw.pop("units", Units.MM)
    tools = raw.pop("tools", Tools())
    assert isinstance(units, Units)
    assert isinstance(tools, Tools)
    first, second = (read_length(thickness, units) for thickness in thicknesses)
    across = read_length(width, units)
    boards = (Board("side", across, first), Board("end", across, second))
    return Request(boards, read_parameters(kind.parameter_class, raw, units), units, tools)


def through(width: str = "202 mm", thickness: str = "12 mm", **raw: object) -> Joint:
    raw = {"cutter": HALF_INCH} | raw
    raw = {name: value for name, value in raw.items() if value is not None}
    return THROUGH.build(request(THROUGH, width, (thickness, thickness), **raw))


def lapped(width: str = "202 mm", **raw: object) -> Joint:
    raw = {"cutter": HALF_INCH, "lap": "7 mm"} | raw
    return LAPPED.build(request(LAPPED, width, ("12 mm", "19 mm"), **raw))


def findings_of(joint: Joint) -> dict[str, Finding]:
    return {finding.code: finding for finding in joint.findings}


def spaces(joint: Joint, y: Fraction) -> list[float]:
    """Widths of the tail board's spaces between two tails, on its outside face at `y`.

    Read off the waste on the wood, not off the layout.
    """
    end = joint.members[0].part
    found = []
    for shape in lay_out(end, Face.OUTSIDE, end.reach + 10).waste:
        xs = sorted(x for x, at in shape.corners if at == y)
        if xs and xs[0] > 0 and xs[-1] < end.board.width:
            found.append(float(xs[-1] - xs[0]))
    return found
