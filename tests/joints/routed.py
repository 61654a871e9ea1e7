"""Routed dovetails for tests: requests as a person writes them, and widths read off the wood."""

from joinery_templates.errors import Finding
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dovetails import lapped_dovetail, through_dovetail
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import lay_out
from tests.joints.worked import request

THROUGH, LAPPED = through_dovetail.KIND, lapped_dovetail.KIND
HALF_INCH = {"diameter": "12.7 mm", "included_angle": 14}


def through(width: str = "202 mm", thickness: str = "12 mm", **raw: object) -> Joint:
    raw = {"cutter": HALF_INCH} | raw
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
