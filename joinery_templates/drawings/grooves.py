"""Grooves and rebates on a face: how far their lines run, and the word beside them."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.drawings.face_view import Lie, lie_across
from joinery_templates.drawings.figure import Align, Figure, Text
from joinery_templates.drawings.labels import TINY_CAP
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.drawings.trimming import HOLD, SIDE
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import FaceLayout, laid_out

BESIDE = Fraction(3, 2)
"""From the groove to the word beside it."""


def groove_words(
    layout: FaceLayout, lie: Lie, middle: Fraction, turn: int, lettering: Lettering
) -> Figure:
    """The word beside every groove of a face, on the side of the board's middle.

    Args:
        layout: the face.
        lie: where it lies on the paper.
        middle: how far from the board's end the words stand.
        turn: 0, or 180 where the face is read upside down.
        lettering: how wide words run.
    """
    texts = tuple(_words(layout, lie, middle, turn, lettering))
    return Figure(Fraction(0), Fraction(0), texts=texts)


def inside_groove_words(
    end: Part, mirrored: bool, zero: Fraction, v_sign: int, lettering: Lettering
) -> Figure:
    """The words beside the grooves of an inside face, just past the baseline.

    Args:
        end: the board's part.
        mirrored: whether x runs to the left on the paper.
        zero: where y = 0 lies on the paper.
        v_sign: 1 where y runs up and the face is read upside down, else -1.
        lettering: how wide words run.
    """
    u0, sign = lie_across(SIDE, end.board.width, mirrored)
    layout = laid_out(end, Face.INSIDE)
    turn = 180 if v_sign > 0 else 0
    return groove_words(layout, Lie(u0, sign, zero, v_sign), end.reach + HOLD / 2, turn, lettering)


def _words(
    layout: FaceLayout, lie: Lie, middle: Fraction, turn: int, lettering: Lettering
) -> Iterator[Text]:
    for low, high in groove_spans(layout):
        is_rebate = low <= 0 or high >= layout.width
        name = "rebate" if is_rebate else "groove"
        near_start = low + high < layout.width
        x = high + BESIDE if near_start else low - BESIDE
        if lettering.width(name, TINY_CAP) > (layout.width - x if near_start else x):
            continue
        runs_right = near_start == (lie.u_sign > 0)
        u, v = lie.point((x, middle))
        upright = turn == 0
        align = Align.LEFT if runs_right == upright else Align.RIGHT
        at = (u, v - TINY_CAP / 2 if upright else v + TINY_CAP / 2)
        yield Text(name, at, TINY_CAP, align, turn)


def groove_spans(layout: FaceLayout) -> tuple[tuple[Fraction, Fraction], ...]:
    """Where the grooves of a face lie across it."""
    extents = [shape.extent for shape in layout.waste if shape.is_groove]
    return tuple((low, high) for (low, _), (high, _) in extents)
