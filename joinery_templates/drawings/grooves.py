"""Grooves and rebates on a face: how far their lines run, and the word beside them."""

from collections.abc import Iterator

from joinery_templates.drawings.face_view import Lie
from joinery_templates.drawings.figure import Align, Point, Text
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.trimming import HOLD
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units, told_text
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import FaceLayout, laid_out
from joinery_templates.wood.polygons import Waste

GROOVE, REBATE = "groove", "rebate"
BESIDE = Fraction(3, 2)
"""From the groove to the word beside it."""


def groove_words(end: Part, lie: Lie, ground: Ground, units: Units) -> Iterator[Text]:
    """What every groove of an inside face is and how deep, just past the baseline.

    It stands on the side of the board's middle, else on the other.

    Args:
        end: the board's part.
        lie: where the face lies on the paper; read upside down where y runs up.
        ground: what stands on the paper.
        units: of the depth.
    """
    layout = laid_out(end, Face.INSIDE)
    for shape in (shape for shape in layout.waste if shape.is_groove):
        (low, _), (high, _) = shape.extent
        deep, is_rebate = _deep(shape, units), _is_rebate(shape, layout)
        name = REBATE if is_rebate else GROOVE
        sides = [(high + BESIDE, 1), (low - BESIDE, -1)]
        if low + high >= layout.width:
            sides.reverse()
        yield from ground.placed(
            _beside(words, lie, (x, end.reach + HOLD / 2), away)
            for words in dict.fromkeys((name + deep, name))
            for x, away in sides[: 1 if is_rebate else 2]
        )


def groove_in_label(end: Part, face: Face, units: Units) -> str:
    """What a label says of an edge's groove, or of a rebate, whose depth the inside face tells."""
    layout = laid_out(end, face)
    names = {
        REBATE if _is_rebate(one, layout) else GROOVE + _deep(one, units): None
        for one in layout.waste
        if one.is_groove
    }
    return f"dashed along the edge: {' and '.join(names)}" if names else ""


def _is_rebate(shape: Waste, layout: FaceLayout) -> bool:
    """Whether it lies along an edge of the face."""
    (low, _), (high, _) = shape.extent
    return low <= 0 or high >= layout.width


def _deep(shape: Waste, units: Units) -> str:
    """The depth of its floor: it is less only where the end of a stopped one slants."""
    return f", {told_text(shape.depth[1], units)} deep" if shape.depth else ""


def _beside(name: str, lie: Lie, at: Point, away: int) -> Text:
    """A word that runs away from a place on a face, the right way up for who reads the face."""
    turn = 180 if lie.v_sign > 0 else 0
    u, v = lie.point(at)
    is_start = (away == lie.u_sign) == (turn == 0)
    middle = v + lie.v_sign * BODY / 2
    align = Align.LEFT if is_start else Align.RIGHT
    return Text(name, (u, middle), BODY, align, turn, stays=True)
