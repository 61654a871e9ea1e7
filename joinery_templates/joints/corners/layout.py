"""What is told of every corner, square or not: bevels, gauges and run-outs."""

from collections.abc import Iterator, Sequence

from joinery_templates import joint
from joinery_templates.exact import ZERO, Fraction, degrees_of, tangent
from joinery_templates.joints.corners.pair import BoardPair
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.layout import Layout
from joinery_templates.lengths import decimal_text
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import Part
from joinery_templates.wood.leaning import SQUARE
from joinery_templates.wood.placement import Placement

ASIDE = Fraction(13, 9)
"""So much more is seen of the first board's face than of the second's."""
PAST_THE_END, PAST_THE_EDGE = "to the end", "to the edge"
"""Where a bevel's blade leans whose stock lies where a board is shorter, or narrower."""


class CornerLayout(Layout, frozen=True):
    """Two boards that meet at a corner.

    Attributes:
        pair: the boards in it.
    """

    hands = (Hand.RIGHT, Hand.LEFT)
    pair: BoardPair

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """Where no wrap can be folded, each face by itself.

        Edges are left out: the lines across them join those of both faces.
        """
        is_folded = self.pair.mitred or not self.pair.is_slanted
        return () if is_folded else (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN)

    @property
    def placement(self) -> Placement:
        """As the corner has it."""
        return self.pair.placement

    @property
    def at_corner(self) -> bool:
        """Whether four of these make a piece with four sides."""
        return self.pair.is_square_in_plan

    @property
    def pose(self) -> joint.Pose:
        """As the piece stands, seen from where the joint shows; apart along the second's grain."""
        angles, pair = self.pair.angles, self.pair
        x, y, z = angles.outward_of_other(0)
        outside = x, y, z - ASIDE
        inside = -x, -y, ASIDE - z
        is_hidden = bool(pair.lap(0) and pair.lap(1))
        right, along, through = angles.grain_of_second
        up = angles.frames[0].seen((ZERO, ZERO, Fraction(1)))
        return joint.Pose(up, inside if is_hidden else outside, (-right, -along, -through))

    def slopes(self) -> Iterator[joint.SlopeSetting]:
        """The ends, the edges where they are to lie level, the corner inside if it is not square.

        Of an end there is one across the faces and one through the thickness.
        """
        pair, plan = self.pair, self.pair.angles.plan_deg
        for bevel_of, words, leans_to in (
            (pair.end_slope, _across, PAST_THE_END),
            (pair.end_bevel, _through, PAST_THE_END),
            (self.edge_bevel, _edges, PAST_THE_EDGE),
        ):
            for name, slope in self._told_once((bevel_of(0), bevel_of(1))):
                use = f"{name}: {words(slope)}"
                yield joint.SlopeSetting(use, abs(slope), leans_to=leans_to)
        if plan != SQUARE:
            turned = (
                f"{'opened' if plan > SQUARE else 'closed'} from square to {decimal_text(plan, 2)}°"
            )
            use = f"every corner inside, {turned}: stock on an inside face"
            yield joint.SlopeSetting(use, abs(tangent(plan - SQUARE)))

    def arrises_off(self) -> Iterator[str]:
        """Which arris of each edge is planed down, where the edges are to lie level."""
        for name, bevel in self._told_once((self.edge_bevel(0), self.edge_bevel(1))):
            low, high = _arrises_off(bevel)
            whose = "" if name.startswith("both") else f" of the {name}"
            yield (
                f"At the reference edge{whose} plane down the {low} arris, at the far edge the "
                f"{high} one."
            )

    def edge_bevel(self, number: int) -> Fraction:
        """How far a board's edges are off square to its faces, for each mm of its thickness."""
        return tangent(self.pair.angles.leans_deg[number])

    def _told_once(self, values: Sequence[Fraction]) -> Iterator[tuple[str, Fraction]]:
        """What each board has, by its name, or both where they are alike; nothing is not told."""
        named = zip((self.role(0), self.role(1)), values, strict=True)
        if values[0] == values[1]:
            named = zip(("both boards",), values, strict=False)
        yield from ((name, value) for name, value in named if value)

    def gauges(self) -> tuple[joint.LengthSetting, ...]:
        """From each board's end to its baseline, square to the line of the end; face by face."""
        how = "square to its end" if self.pair.is_slanted else "from its end"
        return tuple(
            gauge(f"{role.words}'s baseline{face}, {how}", length)
            for number, role in enumerate(self.roles)
            for face, length in self._gauged_on(number)
        )

    def _gauged_on(self, number: int) -> Iterator[tuple[str, Fraction]]:
        """On which faces a gauge serves at which setting."""
        bevel = self.pair.end_bevel(number)
        yield f" on the {longer_face(bevel)}" if bevel else "", self.pair.gauge(number)
        if bevel:
            yield f" on the {longer_face(-bevel)}", self.pair.gauge_over(number)

    def run_outs(self) -> tuple[joint.Size, ...]:
        """How far the ends run out of square over the whole width."""
        slopes = (self.pair.end_slope(number) for number in (0, 1))
        lengths = [abs(one) * board.width for one, board in zip(slopes, self.boards, strict=True)]
        return tuple(self.told_of_both("end, out of square over its width", lengths))

    def told_of_both(self, what: str, lengths: Sequence[Fraction]) -> Iterator[joint.Size]:
        """A size of each board, told once where both are alike; none where it is nothing."""
        for name, length in self._told_once(lengths):
            yield joint.Size(f"{name}'{'' if name.endswith('s') else 's'} {what}", length)


def degrees(slope: Fraction) -> str:
    """A slope as an angle."""
    return f"{round(degrees_of(abs(slope), Fraction(1)), 2):g}°"


def longer_edge(slope: Fraction) -> str:
    """Where a board is longer whose end slants across the faces."""
    return "reference edge" if slope > 0 else "far edge"


def longer_face(bevel: Fraction) -> str:
    """Where a board is longer whose end is off square through the thickness."""
    return "outside face" if bevel > 0 else "inside face"


def _across(slope: Fraction) -> str:
    longer, stock = longer_edge(slope), longer_edge(-slope)
    return f"end, across the faces; longer at the {longer}: stock on the {stock}"


def _through(bevel: Fraction) -> str:
    longer, stock = longer_face(bevel), longer_face(-bevel)
    return (
        f"end, through the thickness; longer on the {longer}: stock on the {stock}, square to the "
        "line of the end"
    )


def _edges(bevel: Fraction) -> str:
    low, high = _arrises_off(bevel)
    return (
        f"edges, to lie level: stock on the {low} face at the reference edge, on the {high} face "
        "at the far edge"
    )


def _arrises_off(bevel: Fraction) -> tuple[str, str]:
    """Which arris is planed down at the reference edge, and at the far edge."""
    low, high = (longer_face(one).removesuffix(" face") for one in (bevel, -bevel))
    return low, high
