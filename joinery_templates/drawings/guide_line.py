"""The line that is carried across a stretch of board: what it is, told where it stands."""

from joinery_templates.drawings.face_view import Lie
from joinery_templates.drawings.figure import Align, Text
from joinery_templates.drawings.lettering import LINE_PITCH, Lettering, wrapped
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import Ground
from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import FaceLayout, laid_out

CLEAR = Fraction(7, 5)
"""Between the line and the words above it."""
FROM_EDGE = Fraction(2)
SOLID = ", solid where it is cut"


def guide_words(end: Part, face: Face) -> str:
    """What the dashed line is: at an end the baseline needs no telling, elsewhere it does.

    Where a wall of the joint stands on the line, a cut hides its dashes.
    """
    if end.folds or not end.guide:
        return ""
    at, name = end.guide
    lines = () if end.slant else laid_out(end, face).lines
    is_cut = any(edge.start[1] == edge.end[1] == at for edge in lines)
    return f"dashed line{SOLID if is_cut else ''}: {name}"


def above_guide(
    end: Part, lie: Lie, ground: Ground, layout: FaceLayout, lettering: Lettering
) -> tuple[Text, ...]:
    """The line's name just above it; nothing where there is no room.

    It stands at the first edge, or at the other one where wood is cut away at the first alone.

    Args:
        end: the board's part.
        lie: where the face lies on the paper, read upright.
        ground: what stands on the paper.
        layout: of the face.
        lettering: how wide words run.
    """
    if end.folds or not end.guide:
        return ()
    at, name = end.guide
    rows = wrapped(name, layout.width - 2 * FROM_EDGE, BODY, lettering)[::-1]
    pitch = BODY * LINE_PITCH
    wide, high = max(lettering.width(row, BODY) for row in rows), CLEAR + len(rows) * pitch

    def is_cut(edge: tuple[Fraction, int]) -> bool:
        """Whether the words would stand in waste there."""
        start, stop = sorted((edge[0], edge[0] + edge[1] * wide))
        extents = (waste.extent for waste in layout.waste)
        return any(
            start < right and left < stop and at - high < bottom and top < at
            for (left, top), (right, bottom) in extents
        )

    def told(x: Fraction, inwards: int) -> tuple[Text, ...]:
        u, v = lie.point((x, at))
        align = Align.LEFT if lie.u_sign * inwards > 0 else Align.RIGHT
        return tuple(
            Text(words, (u, v + CLEAR + number * pitch), BODY, align, opaque=True, paragraph=name)
            for number, words in enumerate(rows)
        )

    edges = sorted(((FROM_EDGE, 1), (layout.width - FROM_EDGE, -1)), key=is_cut)
    return ground.placed_together(told(*edge) for edge in edges)
