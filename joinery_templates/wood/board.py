"""Boards, their faces, and the hand of a board's end.

The frame of a board end, in millimetres::

        reference edge                     far edge
             x = 0                           x = W
               +-------------------------------+  end, y = 0
               |  outside face, z = 0          |
               |                               |
               |     y runs down, into the     |
               |     board; z runs away from   |
               |     you, through the wood     |

Seen like this, with the end at the top, it is a board's *left-hand* end (as
named from outside with the reference edge down). The right-hand end is its
mirror image: the reference edge stays the reference edge.
"""

from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import Fraction


class Face(StrEnum):
    """The faces of a board end that carry lines."""

    OUTSIDE = "outside face"
    INSIDE = "inside face"
    END_GRAIN = "end grain"
    REFERENCE_EDGE = "reference edge"
    FAR_EDGE = "far edge"


EDGES = Face.REFERENCE_EDGE, Face.FAR_EDGE
"""Of a board, in the order in which they are told."""
BROAD = Face.OUTSIDE, Face.INSIDE
"""The two broad faces; of an edge they give its arrises, in the order in which these lie across."""


class Hand(StrEnum):
    """Which end of a board, as seen from outside the piece with the reference edge down."""

    LEFT = "left-hand end"
    RIGHT = "right-hand end"

    @property
    def other(self) -> "Hand":
        """The board's other end."""
        return Hand.LEFT if self is Hand.RIGHT else Hand.RIGHT


class Board(Struct, frozen=True):
    """A board as measured with a caliper.

    Attributes:
        name: the person's own name for it.
        width: across the grain.
        thickness: from outside face to inside face.
        length: along the grain, or None where it is not needed.
        is_round: whether it is round stock, as thick as it is wide.
        pieces: how many there are of it, where that is told.
    """

    name: str
    width: Fraction
    thickness: Fraction
    length: Fraction | None = None
    is_round: bool = False
    pieces: int | None = None

    @property
    def turned(self) -> "Board":
        """The same piece with its thickness across: as it is seen round the corner of an edge."""
        return replace(self, width=self.thickness, thickness=self.width)

    @property
    def called(self) -> str:
        """Its name where a page names it: in capitals, so that a board called end is no place."""
        return "".join(sign.upper() if _has_capitals(sign) else sign for sign in self.name)


def _has_capitals(sign: str) -> bool:
    """Whether capitals of this script are in use: Latin, Greek, Cyrillic, Armenian."""
    return sign < "\u0590" or "\u1e00" <= sign <= "\u1fff"
