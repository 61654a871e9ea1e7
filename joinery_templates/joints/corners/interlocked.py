"""Boards that interlock at a corner: tails or fingers of one stand in spaces of the other."""

from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import pairwise

from joinery_templates.errors import OURS, Finding, advice, mistake
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import At, LengthSetting, Mark, SettingOut, Size
from joinery_templates.joints.corners.layout import CornerLayout, longer_edge
from joinery_templates.joints.corners.pair import Side, Sides, where_side_meets
from joinery_templates.joints.gauge import gauge
from joinery_templates.wood.board import EDGES
from joinery_templates.wood.cut import AT_ONCE, BoardEnd, Cut, HalfSpace, Stage

OUTSIDE = "outside face, along the end"
INSIDE = "inside face, along the end"
_CHECK_OR_KNIFE = "Mark must meet line. Without templates, knife the marks."

WEAK_STRIP = Fraction(3)
"""Narrower than 3 mm, what runs on beside a space is weak (our judgement)."""

Piece = tuple[str, At, tuple[Side, Side]]
"""A tail or finger, or a space for one: its name, what it is, and its sides, if it has them."""
Named = tuple[Side, tuple[str, bool | None, At]]
"""A side, and what its `Mark` says of it."""


class InterlockedCorner(CornerLayout, frozen=True, dict=True):
    """Two boards that pass each other at a corner, and all that follows from the sides."""

    @property
    def sides(self) -> Sides:
        """For each tail or finger of the first board its sides; none at the board's edges."""
        raise NotImplementedError

    @cached_property
    def walls(self) -> Sides:
        """The same, as the walls of the second board's spaces."""
        return self.pair.carried(self.sides, self.given.fit)

    def pieces(self, number: int) -> Iterable[Piece]:
        """What is marked on a board, from the reference edge on."""
        raise NotImplementedError

    def mitred_edges(self, number: int) -> tuple[Side, Side]:
        """What of a board is mitred right through at the reference edge and at the far edge."""
        del number
        return None, None

    @property
    def parts(self) -> tuple[BoardEnd, BoardEnd]:
        """Both ends, with nothing but spaces."""
        return self.ends()

    def ends(
        self, first: tuple[Cut, ...] = (), second: tuple[Cut, ...] = (), stage: Stage = AT_ONCE
    ) -> tuple[BoardEnd, BoardEnd]:
        """Both boards: the spaces, when they are cut, and before them what the kind adds."""
        spaces = self.pair.spaces(self.sides, self.mitred_edges(0), stage)
        sockets = self.pair.sockets(self.walls, stage)
        return self.pair.end(0, (*first, *spaces)), self.pair.end(1, (*second, *sockets))

    def row(
        self,
        number: int,
        title: str,
        plane: HalfSpace | None = None,
        z: Fraction = ZERO,
        main: bool = False,
    ) -> SettingOut:
        """The marks where a board's sides meet a line across a face.

        Args:
            number: the board, in whose frame the plane is.
            title: of the row.
            plane: the line's, the board's end unless given.
            z: the depth that the line lies at.
            main: whether it is drawn as a strip.
        """
        line = plane or self.pair.end_plane(number)
        sides = *self._at_edge(number, 0), *self._of_pieces(number), *self._at_edge(number, 1)
        marks = (Mark(where_side_meets(side, line, z), *said) for side, said in sides if side)
        stretch, width = self.pair.along_end(number), self.boards[number].width
        return SettingOut(
            title,
            self.role(number),
            width,
            tuple(marks),
            main,
            stretch=stretch,
            use=_CHECK_OR_KNIFE,
        )

    def _of_pieces(self, number: int) -> Iterator[Named]:
        for name, at, (lower, upper) in self.pieces(number):
            yield lower, (name, True, at)
            yield upper, (name, False, at)

    def _at_edge(self, number: int, place: int) -> Iterator[Named]:
        """The wood that stays beside a board's waste at its edge 0 or 1, if any."""
        mitre, wood = self.mitred_edges(number)[place], self.pair.running_on(number)[place]
        if mitre:
            yield mitre, (f"mitred {EDGES[place]}", bool(place), At.MITRE)
        elif wood and self.stopped_at(number)[place]:
            yield wood, (f"{self.role(1 - number)}'s {EDGES[place]}", None, At.EDGE)

    def spaces_at_edges(self, number: int) -> tuple[bool, bool]:
        """Whether a board's waste reaches as far as both meet, at either edge.

        The first board's does where it has no piece at the edge, the second's where the first
        has one; beside a mitre none does.
        """
        outermost = self.sides[0][0], self.sides[-1][1]
        near, far = (
            bool(side) != bool(number) and not mitred
            for side, mitred in zip(outermost, self.mitred_edges(0), strict=True)
        )
        return near, far

    def spaces_between(self, number: int) -> int:
        """How many of a board's spaces lie between two of its own pieces."""
        if number:
            return sum(all(both) for both in self.walls)
        return len(self.sides) - 1

    def stopped_at(self, number: int) -> tuple[bool, bool]:
        """Whether that waste stops there at wood that runs on past the other board."""
        wood = self.pair.running_on(number)
        near, far = (
            is_space and bool(side)
            for is_space, side in zip(self.spaces_at_edges(number), wood, strict=True)
        )
        return near, far

    def open_edges(self, number: int) -> str:
        """The edges of a board that its waste runs out at, in words; empty where at none."""
        return self.flush_edges(number, self.spaces_at_edges(number))

    def flush_edges(self, number: int, those: tuple[bool, bool] = (True, True)) -> str:
        """Those edges of a board that do not stand past the other, in words; empty where none."""
        wood = self.pair.running_on(number)
        names = [
            f"the {edge}"
            for edge, is_one, side in zip(EDGES, those, wood, strict=True)
            if is_one and not side
        ]
        return "both edges" if len(names) > 1 else "".join(names)

    def inset_gauges(self) -> Iterator[LengthSetting]:
        """Where the narrower board's edges come on the wider one."""
        narrow, wide = (self.role(n) for n in (1 - self.pair.wider, self.pair.wider))
        for inset, edge in zip(self.pair.insets, EDGES, strict=True):
            if inset:
                yield gauge(f"{narrow}'s {edge}, from the {wide}'s {edge}", inset)

    def advise_on_strips(self) -> Iterator[Finding]:
        """Wood that runs on beside a space, and is too narrow to last till the glue is hard."""
        strips = {
            (number, own)
            for number in (0, 1)
            for own, is_stopped in zip(
                self.pair.past_the_other(number), self.stopped_at(number), strict=True
            )
            if is_stopped and own < WEAK_STRIP
        }
        for number, own in sorted(strips):
            other = self.boards[1 - number].name
            yield advice(
                "strip-narrow",
                f'Past "{other}", {self.text(own)} of "{self.boards[number].name}" runs on beside '
                "a space: so narrow a strip breaks away.",
                OURS,
                "Plane the boards level at that edge, or let one stand in more.",
                "offset",
            )

    def from_edge(self, number: int) -> str:
        """Added to what stands at an edge, 0 or 1, of the narrower board."""
        narrow = self.role(1 - self.pair.wider)
        return f", from the {narrow}'s edge" if self.pair.insets[number] else ""

    def dividers(self, what: str, step: Fraction, start: str) -> LengthSetting:
        """Dividers that step off along the first board's end.

        Args:
            what: a step is, in words.
            step: square across the board.
            start: where they begin, in words.
        """
        slanting = "slanting " if self.pair.end_slope(0) else ""
        along = f" along the {self.role(0)}'s {slanting}end" if self.pair.is_slanted else ""
        use = f"{what}, stepped off{along} from the {start}"
        return LengthSetting("dividers", use, step * self.pair.along_end(0))

    def planed_level(self, piece: str, widths: tuple[Fraction, Fraction]) -> Iterator[Size]:
        """What the first board's edges lose where they are planed level, and what is left then.

        Args:
            piece: what stands at an edge, in words.
            widths: of what stands at the reference edge and at the far edge, edges planed level.
        """
        pair = self.pair
        for lost, edge, width in zip(pair.level_edges, EDGES, widths, strict=True):
            if lost:
                what = f"{edge}, planed off the {self.role(0)}'s outside face"
                yield Size(what, lost)
                before = f"{self.square_across}, before that edge is planed"
                yield Size(f"{piece} at the {edge}{before}", width + lost)
        if not any(pair.level_edges):
            return
        left = self.boards[0].width - sum(pair.level_edges)
        yield Size("height, edges planed level", left * pair.angles.frames[0].across[2])
        one, other = zip(self.boards, pair.angles.leans_deg, strict=True)
        if one[0].thickness != other[0].thickness or one[1] != other[1]:
            return  # the second board loses something else
        for number, board in enumerate(self.boards):
            slope = pair.end_slope(number)
            if board.length and pair.is_square_in_plan:
                # The longer edge, at which a length is measured, loses nothing outside.
                what = f"outside along the {longer_edge(-slope)}, both ends alike"
                length = board.length - 2 * abs(slope) * left
                yield Size(f"{self.role(number)}, {what}, edges planed level", length)

    @property
    def square_across(self) -> str:
        """Added to what is measured square to the first board's edges, where its end is not."""
        return ", square to the edges" if self.pair.end_slope(0) else ""

    @property
    def edges_level(self) -> str:
        """Added to what stands at an edge that is planed level."""
        return ", edges planed level" if any(self.pair.level_edges) else ""

    def flush_words(self, names: tuple[str, str]) -> str:
        """What is planed flush at the end, if anything.

        Args:
            names: what stands proud of the second board, and of the first.
        """
        proud: dict[str, list[str]] = {}
        for name, length in zip(names, self.pair.past, strict=True):
            if length > 0:
                proud.setdefault(self.text(length), []).append(f"the {name}")
        if not proud:
            return ""
        told = (f"{' and '.join(who)} stand {length} proud" for length, who in proud.items())
        words = " and ".join(told)
        return f" {words[0].upper()}{words[1:]}: plane them flush when the glue is hard."


def no_room(rows: Iterable[SettingOut], what: str, remedy: str, place: str) -> Iterator[Finding]:
    """A layout of which something comes to nothing: the first line on which marks meet.

    Args:
        rows: the marks along each line.
        what: what would come to nothing, in words.
        remedy: how to mend it.
        place: the parameter to look at.
    """
    for row in rows:
        places = [ZERO, *(mark.position for mark in row.marks), row.width]
        if any(high <= low for low, high in pairwise(places)):
            message = f"On the {row.role} ({row.title}) {what} comes to nothing."
            yield mistake("no-room", message, remedy, place)
            return
