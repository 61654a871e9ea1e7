"""What every family's layout stands on: two boards, their joint put together, and plain wood."""

from collections.abc import Iterable, Iterator
from typing import Any, ClassVar

from msgspec import Struct

from joinery_templates.errors import Finding, refuse
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import (
    FACES,
    REFERENCE_EDGE,
    WRAP,
    Clearing,
    Detail,
    Joint,
    LengthSetting,
    Loose,
    Member,
    Placed,
    Pose,
    SettingOut,
    Size,
    SlopeSetting,
    Step,
    other_end,
)
from joinery_templates.joints.kind import BoardRole, Request
from joinery_templates.joints.words import END_LAID_ON, LAID_FLAT, fold_over
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import (
    BoardEnd,
    Cut,
    Part,
    at_least,
)
from joinery_templates.wood.placement import Placement


class Layout(Struct, frozen=True):
    """Two boards on which a joint is laid out; 0 is the first board and 1 the second.

    What follows `joint` are the parts of a `Joint`, as most joints have them: a family states
    those that are its own, as methods or as functions that take the layout.

    Attributes:
        roles: what they are called; a family whose boards differ has words of its own.
        reference: what the reference edges are on the piece, where the joint decides that.
        stance: how the pieces stand and come apart, where all joints of the family are alike.
        is_mitred: see `Joint`.
        request: what the person gave.
        given: what is told of the joint, with what follows from that alone.
    """

    roles: ClassVar[tuple[BoardRole, BoardRole]] = (
        BoardRole("first_board", "first board"),
        BoardRole("second_board", "second board"),
    )
    reference: ClassVar[str] = ""
    stance: ClassVar[Pose]
    is_mitred: ClassVar[bool] = False
    request: Request
    given: Any

    @property
    def hands(self) -> tuple[Hand, Hand]:
        """Which end of a board, or which hand of a stretch, each is at corner A."""
        return Hand.LEFT, Hand.RIGHT

    @property
    def boards(self) -> tuple[Board, Board]:
        """Both of them."""
        return self.request.boards

    @property
    def units(self) -> Units:
        """That figures are told in."""
        return self.request.units

    @property
    def thinner(self) -> Board:
        """The thinner board, the first where both are alike."""
        return min(self.boards, key=lambda board: board.thickness)

    @property
    def stands_inside(self) -> str:
        """Where boards whose outside faces are flush differ in thickness: by how much, inside."""
        more = self.boards[0].thickness - self.boards[1].thickness
        if not more:
            return ""
        thick, thin = (self.role(number) for number in ((0, 1) if more > 0 else (1, 0)))
        return (
            f" Inside, the {thick} is the thicker and stands {self.text(abs(more))} past the "
            f"{thin}."
        )

    def up_end(self, number: int) -> str:
        """The end of a board that its line is measured from, as far as corners tell it."""
        member = [*self.members()][number]
        ends = {Placed(member, corner).up_end for corner in self.request.corners}
        if len(ends) == 1:
            return ends.pop()
        return "end that its template names" if member.part.is_lying else member.part.up

    @property
    def has_faces(self) -> bool:
        """Whether an end's faces have templates, folded or flat, and not the end grain alone."""
        return not {WRAP, FACES}.isdisjoint(self.request.views)

    def laid_on(self, folded: str = "") -> str:
        """How templates are laid on an end; `folded` says it of those that fold otherwise."""
        if WRAP in self.request.views:
            return folded or fold_over(self.reference or REFERENCE_EDGE)
        return LAID_FLAT if self.has_faces else END_LAID_ON

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.request.units)

    def role(self, number: int) -> str:
        """What a board is called."""
        return self.roles[number].words

    def named(self, number: int) -> str:
        """A board by its role, with its own name where that is another."""
        role, board = self.role(number), self.boards[number]
        return f"the {role}" if board.name == role else f"the {role} ({board.called})"

    def by_chisel(self, width: Fraction) -> str:
        """Added to a width by rule, where a chisel of the person's decided it."""
        return ", the nearest of your chisels" if width in self.request.tools.chisels else ""

    @classmethod
    def joint_of(cls, request: Request) -> Joint:
        """The joint that is laid out so.

        Raises:
            InputError: where it cannot be cut.
        """
        return cls(request, request.given).joint()

    def joint(self) -> Joint:
        """All that is stated of the joint, put together.

        Raises:
            InputError: where it cannot be cut.
        """
        refuse(self.impossible())
        return Joint(
            members=tuple(self.members()),
            placements=(self.placement,),
            sizes=tuple(self.sizes()),
            steps=tuple(self.steps()),
            pose=self.pose,
            allowance=self.allowance,
            rows=tuple(self.rows()),
            lengths=tuple(self.lengths()),
            slopes=tuple(self.slopes()),
            rules=tuple(self.rules()),
            findings=tuple(self.advise()),
            loose=tuple(self.loose()),
            at_corner=self.at_corner,
            clearings=tuple(self.clearings()),
            details=tuple(self.details()),
            is_mitred=self.is_mitred,
        )

    def impossible(self) -> Iterable[Finding]:
        """What cannot be cut."""
        return ()

    @property
    def parts(self) -> tuple[Part, Part]:
        """Both boards, as far as they take part, with their waste."""
        raise NotImplementedError

    def members(self) -> Iterator[Member]:
        """Both boards as they leave this room."""
        for number, (part, hand) in enumerate(zip(self.parts, self.hands, strict=True)):
            drawn = self.drawn(number, part)
            yield Member(self.role(number), part, hand, self.reference, drawn)

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """The faces of a board that stand for the wrap; see `Member`."""
        return ()

    @property
    def placement(self) -> Placement:
        """The second board's frame in the first one's."""
        raise NotImplementedError

    @property
    def pose(self) -> Pose:
        """How the pieces stand and come apart."""
        return self.stance

    @property
    def allowance(self) -> Fraction:
        """The clearance, where one can be told."""
        return getattr(self.given, "fit", ZERO)

    @property
    def at_corner(self) -> bool:
        """Whether two ends meet at a corner of a four-sided piece."""
        return False

    def rows(self) -> Iterable[SettingOut]:
        """Marks along lines."""
        return ()

    def sizes(self) -> Iterable[Size]:
        """What follows, by name."""
        return ()

    def lengths(self) -> Iterable[LengthSetting]:
        """Tools set to lengths."""
        return ()

    def slopes(self) -> Iterable[SlopeSetting]:
        """Bevels."""
        return ()

    def clearings(self) -> Iterable[Clearing]:
        """The spaces that chisels and saw must suit."""
        return ()

    def loose(self) -> Iterable[Loose]:
        """The pieces that have wood of their own."""
        return ()

    def details(self) -> Iterable[Detail]:
        """What no board's own faces show."""
        return ()

    def rules(self) -> Iterable[str]:
        """What was decided by a rule, with its source."""
        return ()

    def advise(self) -> Iterable[Finding]:
        """What is unwise though it can be cut."""
        return ()

    def steps(self) -> Iterable[Step]:
        """The order of work."""
        raise NotImplementedError


RAIL, STILE = "rail", "stile"
FRAME_CORNERS = (
    ("Top left", "A"),
    ("Top right", "B"),
    ("Bottom right", "C"),
    ("Bottom left", "D"),
)
"""Like A is the left-hand end of a rail, which meets the right-hand end of a stile."""


class RailAndStile(Layout, frozen=True):
    """Two boards of a frame: the rail's end meets the stile."""

    roles = (BoardRole(RAIL, RAIL), BoardRole(STILE, STILE))

    @property
    def rail(self) -> Board:
        """The board whose end is worked."""
        return self.boards[0]

    @property
    def stile(self) -> Board:
        """The board that it is let into."""
        return self.boards[1]

    @property
    def runs_across(self) -> bool:
        """Whether the rail runs from left to right, and not up between others."""
        return not self.request.first_in_front

    @property
    def is_at_both_ends(self) -> bool:
        """Whether every rail has the joint at both its ends, as far as corners tell."""
        letters = {corner.like for corner in self.request.corners if corner.like}
        return all(other_end(letter, self.runs_across) in letters for letter in letters)


Steps = tuple[int, int, int]


def pose(up: Steps, front: Steps, apart: Steps, *also: Steps) -> Pose:
    """How pieces stand and come apart, from directions in whole numbers; see `Pose`."""
    given = (up, front, apart, *also)
    first, second, third, *rest = ((Fraction(x), Fraction(y), Fraction(z)) for x, y, z in given)
    return Pose(first, second, third, tuple(rest))


def let_between(
    name: str, width: Fraction, thickness: Fraction, length: Fraction, at: Placement
) -> Loose:
    """A plain piece that lies in both boards: it is sawn off its stock, the grain along it."""
    cut = Cut((at_least(1, length),))
    end = BoardEnd(Board(name, width, thickness), (cut,), length, gauged=False)
    stock = Member(name, end, Hand.LEFT, faces=(Face.OUTSIDE,))
    return Loose(stock, (at,), is_inside=True)
