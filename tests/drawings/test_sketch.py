"""A sketch of characters shows as much wood and waste as the face that is drawn to scale."""

import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from joinery_templates.drawings.sketch import PAST, WASTE, sketched
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import lay_out
from tests.joints.varied import varied

NEAR = 0.03
"""Of a face: signs along a line are half wood, half waste."""


def areas(part: Part, face: Face) -> tuple[float, float]:
    """Which shares of a face are waste, and which lie past the end."""
    length = part.reach + (part.reach - part.shown_from(part.reach)) / 4
    layout = lay_out(part, face, length)
    is_end = face is Face.END_GRAIN
    down = part.board.thickness if is_end else length - part.shown_from(length)
    is_edge = face in (Face.REFERENCE_EDGE, Face.FAR_EDGE)
    whole = float(down * (part.board.thickness if is_edge else part.board.width))
    waste = unary_union([Polygon([*map(_floats, piece.corners)]) for piece in layout.waste])
    outline = Polygon([_floats(edge.start) for edge in layout.outline.edges])
    return waste.area / whole, 1 - outline.area / whole


def _floats(point) -> tuple[float, float]:
    return float(point[0]), float(point[1])


@pytest.mark.parametrize("kind", ["lapped-dovetail", "canted-dovetail"])
def test_shares_of_waste_and_of_paper_past_a_slanted_end_are_those_of_the_face(kind):
    for member in varied(kind)[-1].members:
        part = member.part
        for face in part.faces:
            if face is Face.END_GRAIN and part.slant:
                continue  # it lies in a plane of its own
            signs = "".join(sketched(part, face, columns=300))
            found = [signs.count(sign) / len(signs) for sign in (WASTE, PAST)]
            assert found == pytest.approx(areas(part, face), abs=NEAR), (member.role, face)
