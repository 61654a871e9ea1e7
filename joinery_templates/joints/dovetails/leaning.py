"""A through dovetail where the boards lean or the corner is not square in plan.

Tails and pins stand along the grain of their boards and not square to the slanting ends;
they are spaced over what is left of the width when the edges are planed level, and their
places are measured square across the tail board's outside face, at its end. With every
angle square this is the plain through dovetail.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from joinery_templates.errors import InputError
from joinery_templates.joints.corners.angles import Angles, check_no_groove, pair_of
from joinery_templates.joints.corners.pair import LeaningPair, Sides
from joinery_templates.joints.corners.work import LeaningWork, check_room
from joinery_templates.joints.dovetails.advice import advise
from joinery_templates.joints.dovetails.figures import (
    BASELINE,
    INSIDE,
    PIN_BOARD,
    TAIL_BOARD,
    socket_names,
    tail_names,
)
from joinery_templates.joints.dovetails.leaning_steps import order_of_work
from joinery_templates.joints.dovetails.parameters import ground_of
from joinery_templates.joints.joint import (
    Clearing,
    Joint,
    LengthSetting,
    Mark,
    Member,
    Request,
    SettingOut,
    Size,
    SlopeSetting,
)
from joinery_templates.joints.spacing.tails import Spacing, SpacingGiven, space_tails
from joinery_templates.lengths import length_text
from joinery_templates.wood.board import Hand
from joinery_templates.wood.cut import HalfSpace
from joinery_templates.wood.leaning import SQUARE

ZERO, ONE = Fraction(0), Fraction(1)
OUTSIDE = "outside face, along the end"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a leaning dovetail is built from.

    Attributes:
        spacing: what fixes the tails.
        angles: of the corner.
        slope: lean of the tails' sides from the grain.
        past: how far tails and pins stand proud.
        fit: gap at each sloping side.
        rules: what was decided by a rule, in words with the source.
    """

    spacing: SpacingGiven
    angles: Angles
    slope: Fraction
    past: tuple[Fraction, Fraction]
    fit: Fraction
    rules: tuple[str, ...] = ()


def leaning_dovetail(kind: tuple[str, str], request: Request, wanted: Wanted) -> Joint:
    """The whole layout.

    Args:
        kind: the kind's name and title.
        request: boards, units and tools.
        wanted: parameters.

    Raises:
        InputError: where it cannot be cut.
    """
    check_no_groove(wanted.spacing)
    pair = pair_of(request, wanted.angles, wanted.past)
    edges = pair.level_edges
    lean = max(_leans(pair, wanted.slope))
    room = request.boards[0].width - sum(edges)
    try:
        spacing = space_tails(wanted.spacing, ground_of(request, lean, room, edges[0]))
    except InputError as error:
        if not any(edges):
            raise
        # The spacing speaks of the board's width and means what planing the edges leaves.
        left = (
            f"Planing the edges level leaves {length_text(room, request.units)} for tails and "
            "pins: leave one of the widths out, so that it can follow."
        )
        findings = (replace(f, remedy=f"{left} {f.remedy}".rstrip()) for f in error.findings)
        raise InputError(*findings) from None
    return _Layout(kind, request, wanted, pair, spacing).joint()


def _leans(pair: LeaningPair, slope: Fraction) -> tuple[Fraction, Fraction]:
    """How far the sides of a tail come in up to the baseline: lower side, upper side."""
    across, depth = pair.end_slope(0), pair.depth_along(0)
    # Along a side the slanting baseline comes nearer or goes away.
    return depth * slope / (1 - across * slope), depth * slope / (1 + across * slope)


@dataclass(frozen=True, slots=True)
class _Layout:
    """The tails on two boards, and all that follows from them."""

    kind: tuple[str, str]
    request: Request
    wanted: Wanted
    pair: LeaningPair
    spacing: Spacing

    @property
    def sides(self) -> Sides:
        """For each tail its half-spaces towards the reference and the far edge."""
        shift, slope = self.pair.level_edges[0], self.wanted.slope
        return tuple(
            (
                self.pair.side(tail.left + shift, slope, lower=True) if tail.left_slopes else None,
                self.pair.side(tail.right + shift, slope, lower=False)
                if tail.right_slopes
                else None,
            )
            for tail in self.spacing.tails
        )

    @property
    def sockets(self) -> Sides:
        """The same, as the walls of the pin board's sockets."""
        fit = self.wanted.fit

        def carried(side: HalfSpace | None) -> HalfSpace | None:
            return self.pair.carried(side, fit) if side else None

        return tuple((carried(lower), carried(upper)) for lower, upper in self.sides)

    @property
    def work(self) -> LeaningWork:
        """The words' figures."""
        return LeaningWork(self.pair, (TAIL_BOARD, PIN_BOARD), self.request.units)

    @property
    def through(self) -> tuple[Fraction, Fraction]:
        """Both ends through the thickness."""
        return self.pair.end_bevel, self.pair.end_bevel

    def row(
        self, number: int, title: str, plane: HalfSpace, inside: bool, main: bool = False
    ) -> SettingOut:
        """The marks where tails or sockets meet a line across a face.

        Args:
            number: the board.
            title: of the row.
            plane: the end, or the baseline.
            inside: whether on the inside face.
            main: whether it is drawn as a strip.
        """
        board = self.request.boards[number]
        walls, name = (
            (self.sockets, socket_names(self.spacing))
            if number
            else (self.sides, tail_names(self.spacing))
        )
        z = board.thickness if inside else ZERO
        marks = tuple(
            Mark(self.pair.where_side_meets(number, side, plane, z), f"{name(tail)} {verb}")
            for tail, pair in enumerate(walls, start=1)
            for side, verb in zip(pair, ("starts", "ends"), strict=True)
            if side
        )
        stretch = self.pair.along_end(number)
        role = PIN_BOARD if number else TAIL_BOARD
        return SettingOut(title, role, board.width, marks, main, stretch=stretch)

    @property
    def rows(self) -> tuple[SettingOut, ...]:
        """Along the ends of both faces of both boards, and the tail board's baseline."""
        pair = self.pair
        return (
            self.row(0, OUTSIDE, pair.end_plane(0), inside=False, main=True),
            self.row(0, INSIDE, pair.end_plane(0), inside=True),
            self.row(0, f"outside face, {BASELINE}", pair.baseline(0), inside=False),
            self.row(1, OUTSIDE, pair.end_plane(1), inside=False),
            self.row(1, INSIDE, pair.end_plane(1), inside=True),
        )

    def check_pins(self) -> None:
        """Wood must be left of every pin, on both faces, and room in every socket.

        Raises:
            InputError: where the marks along a line are not in order.
        """
        remedy = "Give wider pins, fewer tails, a slope that leans less, or another fit."
        place = "fit" if self.wanted.fit else "tails"
        check_room(self.rows, "a tail or a pin", remedy, place)

    def sizes(self) -> Iterator[Size]:
        """Tails and pins square across the board, and how far the ends run out."""
        spacing, edges = self.spacing, self.pair.level_edges
        low, high = _leans(self.pair, self.wanted.slope)
        pieces = [("half pin", width) for width in spacing.half_pins]
        pieces = pieces or [("half tail", spacing.tails[n].width) for n in (0, -1)]
        where, across = ("reference", "far"), self.work.square_across(0)
        level = ", edges planed level" if any(edges) else ""
        for (piece, width), edge in zip(pieces, where, strict=True):
            yield Size(f"{piece} at the {edge} edge, at the end{across}{level}", width)
        for lost, edge in zip(edges, where, strict=True):
            if lost:
                yield Size(f"{edge} edge, planed off the tail board's outside face", lost)
        widths = sorted({tail.width for tail in spacing.whole_tails})
        named = (
            zip((widths[0], widths[-1]), ("narrowest ", "widest "), strict=True) if widths else ()
        )
        for width, which in named:
            words = which if len(widths) > 1 else ""
            yield Size(f"{words}tail at the end, outside face (wide){across}", width)
            what = f"{words}tail at the baseline, outside face (narrow){across}"
            yield Size(what, width - low - high)
            if len(widths) == 1:
                break
        if spacing.pins:
            yield Size(f"space for a pin at the tail board's end{across}", min(spacing.pins))
        yield from self.work.run_outs()

    def slopes(self) -> Iterator[SlopeSetting]:
        """Every bevel of the corner."""
        slope, across = self.wanted.slope, self.pair.end_slope(0)
        yield from self.work.end_bevels(self.through)
        yield from self.work.edge_bevels()
        yield SlopeSetting("sides of the tails, from the grain", slope)
        if not across:
            return
        # The bevel's stock lies on the slanting end and not on an edge.
        for edge, own in (("reference", slope), ("far", -slope)):
            from_end = (own + across) / (1 - own * across)
            if from_end:
                towards = "reference" if from_end > 0 else "far"
                yield SlopeSetting(
                    f"tails' sides that face the {edge} edge, stock on the slanting end; towards "
                    f"the {towards} edge at the end",
                    abs(from_end),
                )

    def lengths(self) -> tuple[LengthSetting, ...]:
        """Gauges, and dividers along the slanting end."""
        step = self.spacing.step
        if step is None:
            return self.work.gauges()
        use = f"one tail and one pin, stepped off along the {self.work.end_of(0)}"
        return (
            *self.work.gauges(),
            LengthSetting("dividers", use, step * self.pair.along_end(0)),
        )

    def clearings(self) -> Iterator[Clearing]:
        """What stands between two sawn sides."""
        lean = sum(_leans(self.pair, self.wanted.slope))
        for pin in sorted(set(self.spacing.pins)):
            yield Clearing(f"{TAIL_BOARD}, space for a pin", pin, pin + lean, "pin")
        for tail in sorted({tail.width for tail in self.spacing.whole_tails}):
            yield Clearing(f"{PIN_BOARD}, socket for a tail", tail - lean, tail, "tail")

    def joint(self) -> Joint:
        """The whole layout.

        Raises:
            InputError: where a tail or pin comes to nothing.
        """
        self.check_pins()
        pair, wanted, request = self.pair, self.wanted, self.request
        tails = pair.end(0, tuple(pair.spaces(self.sides)))
        pins = pair.end(1, tuple(pair.sockets(self.sides, wanted.fit)))
        depth = max(_leans(pair, wanted.slope)) / wanted.slope
        thickness = request.boards[0].thickness
        return Joint(
            kind=self.kind[0],
            title=self.kind[1],
            members=(
                Member(TAIL_BOARD, tails, Hand.RIGHT, faces=pair.drawn_faces),
                Member(PIN_BOARD, pins, Hand.LEFT, faces=pair.drawn_faces),
            ),
            placement=pair.placement,
            filled=pair.filled(),
            allowance=wanted.fit,
            rows=self.rows,
            sizes=tuple(self.sizes()),
            lengths=self.lengths(),
            slopes=tuple(self.slopes()),
            rules=(*wanted.rules, *self.spacing.rules),
            findings=(
                *advise(self.spacing, wanted.slope, depth, thickness, request.tools, request.units),
                *self.spacing.findings,
            ),
            steps=tuple(order_of_work(self.work, self.spacing, wanted.slope, self.through)),
            at_corner=wanted.angles.plan == SQUARE,
            clearings=tuple(self.clearings()),
        )
