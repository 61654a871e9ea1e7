"""Joints worked by hand: requests as a person writes them, and the lines on their faces."""

from fractions import Fraction

from joinery_templates.joint import Joint
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units, read_length
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import Surface
from joinery_templates.wood.faces import FaceLayout, lay_out

Lines = set[frozenset[tuple[Fraction, Fraction]]]


def request(
    kind: Kind,
    width: str,
    thicknesses: tuple[str, str],
    units: Units = Units.MM,
    *,
    tools: Tools | None = None,
    names: tuple[str, str] = ("side", "end"),
    **raw: object,
) -> Request:
    """A request for two boards of one width; a parameter that is None is left out."""
    across = read_length(width, units)
    first, second = (
        Board(name, across, read_length(thickness, units))
        for name, thickness in zip(names, thicknesses, strict=True)
    )
    told = {name: value for name, value in raw.items() if value is not None}
    given = read_parameters(kind.parameter_class, told, units)
    return Request((first, second), given, units, tools or Tools())


def face(joint: Joint, member: int, which: Face) -> FaceLayout:
    """A board's face, shown 10 mm past the joint."""
    end = joint.members[member].part
    return lay_out(end, which, end.reach + 10)


def lines(layout: FaceLayout, surface: Surface) -> Lines:
    """A face's lines of one surface, each as its two ends."""
    return {frozenset((line.start, line.end)) for line in layout.lines if line.surface is surface}
