"""Two boards in one frame: where the second board of a joint stands on the first."""

from msgspec import Struct

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import HalfSpace, Vector, dot

Rows = tuple[Vector, Vector, Vector]
ORIGIN: Vector = (ZERO, ZERO, ZERO)
AS_IT_IS: Rows = ((ONE, ZERO, ZERO), (ZERO, ONE, ZERO), (ZERO, ZERO, ONE))
"""Both frames run the same way."""
ACROSS: Rows = ((ZERO, ONE, ZERO), (ONE, ZERO, ZERO), (ZERO, ZERO, ONE))
"""What is along the one is across the other."""
AGAINST: Rows = ((ONE, ZERO, ZERO), (ZERO, -ONE, ZERO), (ZERO, ZERO, ONE))
"""Along they run against each other."""


class Placement(Struct, frozen=True):
    """Carries points of the second board's frame into the first board's frame.

    ``first = rows · second + shift``. The rows are orthonormal; their determinant
    may be -1, since the two ends that meet are of opposite hand.
    """

    rows: Rows
    shift: Vector

    def point(self, second: Vector) -> Vector:
        """A point of the second board, in the first board's frame."""
        x, y, z = self.turned(second)
        return (x + self.shift[0], y + self.shift[1], z + self.shift[2])

    def turned(self, way: Vector) -> Vector:
        """A direction of the second board, in the first board's frame."""
        x, y, z = (dot(row, way) for row in self.rows)
        return x, y, z

    def half_space(self, second: HalfSpace) -> HalfSpace:
        """A half-space of the second board, in the first board's frame."""
        normal = self.turned(second.normal)
        return HalfSpace(normal, second.limit + dot(normal, self.shift), second.surface)

    @property
    def _columns(self) -> tuple[Vector, Vector, Vector]:
        one, two, three = self.rows
        return (
            (one[0], two[0], three[0]),
            (one[1], two[1], three[1]),
            (one[2], two[2], three[2]),
        )

    @property
    def along(self) -> Vector:
        """The way along the second board from its end, in the first board's frame."""
        return self._columns[1]

    @property
    def runs(self) -> tuple[int, bool]:
        """The axis of the first board that the second runs along most, and whether up it."""
        ways = self.along
        axis = max(range(3), key=lambda each: abs(ways[each]))
        return axis, ways[axis] > 0

    def reversed(self) -> "Placement":
        """The placement of the first board in the second board's frame."""
        x, y, z = (-dot(column, self.shift) for column in self._columns)
        return Placement(self._columns, (x, y, z))

    def of(self, third: "Placement") -> "Placement":
        """Carries points of a third frame, which `third` carries into the second one, on."""
        columns = third._columns
        one, two, three = (
            (dot(row, columns[0]), dot(row, columns[1]), dot(row, columns[2])) for row in self.rows
        )
        return Placement((one, two, three), self.point(third.shift))


def round_the_corner(board: Board) -> Placement:
    """Carries points of a leg into its frame as a rail on the inside face meets it.

    To that rail the inside face is the reference edge, and the far edge the outside face:
    ``x = thickness - z``, ``z = width - x``. The hand changes: a leg that stands left of one rail
    stands right of the other.

    Args:
        board: the leg.
    """
    rows = ((ZERO, ZERO, -ONE), (ZERO, ONE, ZERO), (-ONE, ZERO, ZERO))
    return Placement(rows, (board.thickness, ZERO, board.width))


def end_to_end(stands_past: Fraction) -> Placement:
    """Two board ends meeting at a right-angled corner, reference edges level.

    Along the first board the second board's thickness is met, and the other way
    round: ``x1 = x2``, ``y1 = z2 + stands_past``, ``z1 = y2``.

    Args:
        stands_past: how far the first board's end stands past the second board's outside face.
    """
    rows = ((ONE, ZERO, ZERO), (ZERO, ZERO, ONE), (ZERO, ONE, ZERO))
    return Placement(rows, (ZERO, stands_past, ZERO))
