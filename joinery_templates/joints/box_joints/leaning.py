"""A box joint where the boards lean or the corner is not square in plan.

The fingers' sides run along the grain of both boards, so they are level where the boards
stand in the piece. With every angle square this is the plain box joint.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from joinery_templates.joints.box_joints.fingers import FINGER, Given, Piece, lay_fingers
from joinery_templates.joints.box_joints.work import Work, advise
from joinery_templates.joints.corners.angles import Angles, pair_of
from joinery_templates.joints.corners.closing import join_fingers
from joinery_templates.joints.corners.pair import LeaningPair, Sides
from joinery_templates.joints.corners.work import (
    LeaningWork,
    check_room,
    cut_ends,
    flush_words,
    lay_on,
    level_the_edges,
    prepare,
    scribe_baselines,
)
from joinery_templates.joints.joint import (
    Clearing,
    Joint,
    LengthSetting,
    Mark,
    Member,
    Request,
    Role,
    SettingOut,
    Size,
    SlopeSetting,
    Step,
)
from joinery_templates.wood.board import Hand
from joinery_templates.wood.cut import HalfSpace
from joinery_templates.wood.leaning import SQUARE

ZERO = Fraction(0)
ROLES = (Role("first_board", "first board"), Role("second_board", "second board"))


def leaning_fingers(kind: tuple[str, str], request: Request, given: Given, angles: Angles) -> Joint:
    """The whole layout.

    Args:
        kind: the kind's name and title.
        request: boards, units and tools.
        given: what fixes the fingers.
        angles: of the corner.

    Raises:
        InputError: where it cannot be cut.
    """
    pair = pair_of(request, angles, (given.first_proud, given.second_proud))
    first, second = request.boards
    level = replace(first, width=first.width - sum(pair.level_edges))
    pieces, rules = lay_fingers(given, (level, second), request.units)
    return _Layout(kind, request, given, angles, pair, pieces, rules).joint()


@dataclass(frozen=True, slots=True)
class _Layout:
    """The fingers on two boards, and all that follows from them."""

    kind: tuple[str, str]
    request: Request
    given: Given
    angles: Angles
    pair: LeaningPair
    pieces: tuple[Piece, ...]
    rules: tuple[str, ...]

    @property
    def sides(self) -> Sides:
        """For each finger of the first board its sawn sides; none at the board's edges."""
        shift, end = self.pair.level_edges[0], self.pieces[-1].high
        return tuple(
            (
                self.pair.side(piece.low + shift, ZERO, lower=True) if piece.low else None,
                self.pair.side(piece.high + shift, ZERO, lower=False) if piece.high < end else None,
            )
            for piece in self.pieces
            if piece.finger
        )

    @property
    def walls(self) -> Sides:
        """The same, as the walls of the second board's spaces."""
        fit = self.given.fit

        def carried(side: HalfSpace | None) -> HalfSpace | None:
            return self.pair.carried(side, fit) if side else None

        return tuple((carried(lower), carried(upper)) for lower, upper in self.sides)

    @property
    def work(self) -> LeaningWork:
        """The words' figures."""
        return LeaningWork(self.pair, (ROLES[0].words, ROLES[1].words), self.request.units)

    @property
    def through(self) -> tuple[Fraction, Fraction]:
        """Both ends through the thickness."""
        return self.pair.end_bevel, self.pair.end_bevel

    def row(self, number: int, inside: bool) -> SettingOut:
        """The marks along a board's end on one face."""
        board, pair = self.request.boards[number], self.pair
        z = board.thickness if inside else ZERO
        name = "space for finger" if number else "finger"
        marks = tuple(
            Mark(
                pair.where_side_meets(number, side, pair.end_plane(number), z),
                f"{name} {told} {verb}",
            )
            for told, both in enumerate(self.walls if number else self.sides, start=1)
            for side, verb in zip(both, ("starts", "ends"), strict=True)
            if side
        )
        return SettingOut(
            f"{'inside' if inside else 'outside'} face, along the end",
            ROLES[number].words,
            board.width,
            marks,
            main=not number and not inside,
            stretch=pair.along_end(number),
        )

    @property
    def rows(self) -> tuple[SettingOut, ...]:
        """Along the ends of both faces of both boards."""
        return tuple(self.row(number, inside) for number in (0, 1) for inside in (False, True))

    def check_fit(self) -> None:
        """Wood must be left of every finger, on both faces, and room in every space.

        Raises:
            InputError: where the marks along a line are not in order.
        """
        place = "fit" if self.given.fit else "finger"
        check_room(self.rows, "a finger or a space", "Give wider fingers, or another fit.", place)

    def sizes(self) -> Iterator[Size]:
        """Fingers square across the board, and how far the ends run out."""
        edge = self.pieces[0]
        across = self.work.square_across(0)
        level = ", edges planed level" if any(self.pair.level_edges) else ""
        if len(self.pieces) > 2:
            yield Size(f"finger{across}", self.pieces[1].width)
        if len(self.pieces) == 2 or level or edge.width != self.pieces[1].width:
            yield Size(f"finger or space at each edge{across}{level}", edge.width)
        for lost, name in zip(self.pair.level_edges, ("reference", "far"), strict=True):
            if lost:
                yield Size(f"{name} edge, planed off the first board's outside face", lost)
        yield from self.work.run_outs()

    def slopes(self) -> tuple[SlopeSetting, ...]:
        """Every bevel of the corner."""
        return (*self.work.end_bevels(self.through), *self.work.edge_bevels())

    def lengths(self) -> tuple[LengthSetting, ...]:
        """Gauges, and dividers along the slanting end."""
        if len(self.pieces) <= 2:
            return self.work.gauges()
        step = self.pieces[1].width * self.pair.along_end(0)
        use = f"one finger, stepped off along the {self.work.end_of(0)}"
        if any(self.pair.level_edges) or self.pieces[0].width != self.pieces[1].width:
            use += " from the first mark"
        return (*self.work.gauges(), LengthSetting("dividers", use, step))

    def clearings(self) -> Iterator[Clearing]:
        """The spaces between two fingers; one at an edge is sawn off."""
        inner = self.pieces[1:-1]
        for number, role in enumerate(ROLES):
            gap = 2 * self.given.fit if number else ZERO
            for width in sorted({p.width + gap for p in inner if p.finger == bool(number)}):
                yield Clearing(f"{role.words}, space for a finger", width, width, FINGER)

    def joint(self) -> Joint:
        """The whole layout.

        Raises:
            InputError: where a finger or a space comes to nothing.
        """
        self.check_fit()
        pair, fit = self.pair, self.given.fit
        ends = (
            pair.end(0, tuple(pair.spaces(self.sides))),
            pair.end(1, tuple(pair.sockets(self.sides, fit))),
        )
        depths = pair.depth_along(0), pair.depth_along(1)
        return Joint(
            kind=self.kind[0],
            title=self.kind[1],
            members=(
                Member(ROLES[0].words, ends[0], Hand.RIGHT, faces=pair.drawn_faces),
                Member(ROLES[1].words, ends[1], Hand.LEFT, faces=pair.drawn_faces),
            ),
            placement=pair.placement,
            filled=pair.filled(),
            allowance=fit,
            rows=self.rows,
            sizes=tuple(self.sizes()),
            lengths=self.lengths(),
            slopes=self.slopes(),
            rules=self.rules,
            findings=advise(Work(self.request, self.given, self.pieces, depths)),
            steps=tuple(self.steps()),
            at_corner=self.angles.plan == SQUARE,
            clearings=tuple(self.clearings()),
        )

    def steps(self) -> Iterator[Step]:
        """The order of work (common practice, no source)."""
        work = self.work
        first, second = work.board(0), work.board(1)
        own = sum(piece.finger for piece in self.pieces)
        yield prepare(work)
        yield cut_ends(work, self.through)
        yield scribe_baselines(work)
        yield lay_on(work, 0)
        yield Step(
            f"Saw and chop {first}",
            f"It keeps {own} finger{'' if own == 1 else 's'}. Saw along the grain in the waste, so "
            "that the line just stays: down the line on the face and along the line on the end "
            "grain, which is not square across it, and stop at the baseline. Clear the spaces with "
            "a chisel, half way from each face, leaning as the end leans through the thickness.",
        )
        yield Step(
            f"Lay on {second}",
            f"Put the templates of {second} on in the same way: it has a space wherever {first} "
            "has a finger. Then lay the cut fingers in their place on its end: where line and "
            "finger differ, the finger is right. Knife round the fingers themselves.",
        )
        yield Step(
            f"Saw and chop {second}",
            "In the same way. Saw on the waste side of the knife line: the sides of the fingers "
            "are all that the glue holds.",
        )
        proud = flush_words(work, ("first board's fingers", "second board's fingers"))
        yield from join_fingers(work, proud)
        yield from level_the_edges(work)
