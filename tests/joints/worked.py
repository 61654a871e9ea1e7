"""Joints worked by hand: requests as a person writes them, and the lines on their faces."""

from collections.abc import Callable, Iterable

import pytest
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Corner, Joint
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
    """A request for two boards of one width."""
    first, second = ((width, thickness) for thickness in thicknesses)
    return request_of(kind, first, second, units, tools, names, **raw)


def request_of(
    kind: Kind,
    one: tuple[str, str],
    other: tuple[str, str],
    units: Units = Units.MM,
    tools: Tools | None = None,
    names: tuple[str, str] = ("bar", "post"),
    **raw: object,
) -> Request:
    """A request from width and thickness of both boards; a parameter that is None is left out."""
    first, second = (
        Board(name, *(read_length(size, units) for size in sizes))
        for name, sizes in zip(names, (one, other), strict=True)
    )
    told = {name: value for name, value in raw.items() if value is not None}
    given = read_parameters(kind.parameter_class, told, units)
    return Request((first, second), given, units, tools or Tools())


def corners_like(letters: str) -> tuple[Corner, ...]:
    """Corners of a four-sided piece."""
    return tuple(Corner(one, mirrored=one in "BD", letter=one, like=one) for one in letters)


def sizes(joint: Joint) -> dict[str, Fraction]:
    """What a joint's sizes are, by name."""
    return {size.name: size.length for size in joint.sizes}


def codes_of(findings: Iterable[Finding]) -> list[str]:
    """Of findings; each of them names its source and a remedy."""
    told = list(findings)
    assert all(finding.source and finding.remedy for finding in told)
    return [finding.code for finding in told]


def refused(request: Request, build: Callable[[Request], Joint]) -> list[Finding]:
    """What a joint is refused for."""
    with pytest.raises(InputError) as caught:
        build(request)
    return list(caught.value.findings)


def with_lengths(request: Request, *lengths: object) -> Request:
    """The same for boards so long."""
    pairs = zip(request.boards, lengths, strict=True)
    boards = tuple(replace(board, length=Fraction(length)) for board, length in pairs)
    return replace(request, boards=boards)


def face(joint: Joint, member: int, which: Face) -> FaceLayout:
    """A board's face, shown 10 mm past the joint."""
    end = joint.members[member].part
    return lay_out(end, which, end.reach + 10)


def lines(layout: FaceLayout, surface: Surface) -> Lines:
    """A face's lines of one surface, each as its two ends; of shoulders the sawn ones too."""
    surfaces = {surface}
    if surface is Surface.SHOULDER:
        surfaces.add(Surface.SAWN_SHOULDER)
    return {frozenset((line.start, line.end)) for line in layout.lines if line.surface in surfaces}
