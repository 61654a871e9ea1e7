r"""The box joint, or corner locking: square fingers of both boards pass each other.

The first board's end, outside face, with 5 fingers and spaces in all::

    +----+    +----+    +----+  y = 0, the end
    |    |    |    |    |    |
    |    |____|    |____|    |  y = baseline
    finger space finger space finger

The second board has a finger where the first has a space, and the other way round.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.box_joints.fingers import FINGER, Given, Piece, lay_fingers
from joinery_templates.joints.box_joints.work import Work, advise, order_of_work
from joinery_templates.joints.joint import (
    Clearing,
    Example,
    Joint,
    Kind,
    LengthSetting,
    Mark,
    Member,
    Request,
    Role,
    SettingOut,
    Size,
)
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most
from joinery_templates.wood.placement import Placement, end_to_end

NOYES = (
    "Noyes, Handwork in Wood, 1910, ch. VII, no. 46: the slip joint, which multiplied is "
    "called corner locking"
)


def build(request: Request) -> Joint:
    """The layout of a box joint.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    _check_boards(request.boards, given, request.units)
    pieces, rules = lay_fingers(given, request.boards, request.units)
    return _Layout(request, given, pieces, rules).joint()


def _check_boards(boards: tuple[Board, Board], given: Given, units: Units) -> None:
    first, second = boards
    findings = []
    if first.width != second.width:
        findings.append(
            mistake(
                "widths-differ",
                f'Board "{first.name}" is {length_text(first.width, units)} wide and '
                f'"{second.name}" {length_text(second.width, units)}.',
                "At a box-jointed corner both are of one width; plane them together.",
            )
        )
    for board, reach in (
        (first, second.thickness + given.first_proud),
        (second, first.thickness + given.second_proud),
    ):
        if board.length is not None and board.length <= reach:
            findings.append(
                mistake(
                    "board-too-short",
                    f'Board "{board.name}" is {length_text(board.length, units)} long and the '
                    f"joint alone takes {length_text(reach, units)}.",
                    "Check the board's length.",
                )
            )
    if findings:
        raise InputError(*findings)


@dataclass(frozen=True, slots=True)
class _Layout:
    """The pieces on two boards, and all that follows from them."""

    request: Request
    given: Given
    pieces: tuple[Piece, ...]
    rules: tuple[str, ...]

    @property
    def width(self) -> Fraction:
        return self.request.boards[0].width

    @property
    def depths(self) -> tuple[Fraction, Fraction]:
        """From each board's end to its baseline."""
        first, second = self.request.boards
        return (
            second.thickness + self.given.first_proud,
            first.thickness + self.given.second_proud,
        )

    @property
    def placement(self) -> Placement:
        """The second board on the first."""
        return end_to_end(self.given.first_proud, self.given.second_proud)

    def end(self, number: int) -> BoardEnd:
        """One board: 0, where the spaces go, or 1, where the first's fingers go, with the fit."""
        depth, gap = self.depths[number], self.given.fit if number else Fraction(0)
        shoulder = at_most(1, depth, Surface.SHOULDER)
        cuts = tuple(
            Cut((*(side.moved(gap) for side in self.sides(piece)), shoulder))
            for piece in self.pieces
            if piece.finger == bool(number)
        )
        return BoardEnd(self.request.boards[number], cuts, depth)

    def sides(self, piece: Piece) -> Iterator[HalfSpace]:
        """The sawn sides of a piece; at the board's edges there is none."""
        if piece.low > 0:
            yield at_least(0, piece.low)
        if piece.high < self.width:
            yield at_most(0, piece.high)

    def sawn(self, piece: Piece) -> int:
        """How many sides of a piece are sawn."""
        return len(tuple(self.sides(piece)))

    def row(self, number: int) -> SettingOut:
        """The marks along one board's end."""
        own_finger, gap = not number, self.given.fit if number else Fraction(0)
        marks, told = [], 0
        for piece in self.pieces:
            if piece.finger != own_finger:
                continue
            told += 1
            if piece.low > 0:
                marks.append(Mark(piece.low + gap, f"finger {told} starts"))
            if piece.high < self.width:
                marks.append(Mark(piece.high - gap, f"finger {told} ends"))
        return SettingOut(
            "outside face, along the end",
            ROLES[number].words,
            self.width,
            tuple(marks),
            main=not number,
        )

    def filled(self) -> tuple[tuple[HalfSpace, ...], ...]:
        """The corner where the boards cross: no wood may be missing in it when `fit` is 0."""
        first, second = self.request.boards
        low = self.given.first_proud
        return (
            (
                at_least(0, Fraction(0)),
                at_most(0, self.width),
                at_least(1, low),
                at_most(1, low + second.thickness),
                at_least(2, Fraction(0)),
                at_most(2, first.thickness),
            ),
        )

    def sizes(self) -> tuple[Size, ...]:
        """Widths of fingers and spaces, by board where they differ."""
        fit, edge = self.given.fit, self.pieces[0]
        sizes = []
        if len(self.pieces) > 2:
            sizes.append(Size("finger", self.pieces[1].width))
        if len(self.pieces) == 2 or edge.width != self.pieces[1].width:
            sizes.append(Size("finger or space at each edge", edge.width))
        if fit and len(self.pieces) > 2:
            middle = self.pieces[1].width
            sizes.append(Size("finger of the second board, less the fit", middle - 2 * fit))
            sizes.append(Size("space in the second board, with the fit", middle + 2 * fit))
        return tuple(sizes)

    def clearings(self) -> Iterator[Clearing]:
        """The spaces between two fingers; one at an edge is sawn off."""
        for number, role in enumerate(ROLES):
            gap = self.given.fit if number else Fraction(0)
            widths = {
                piece.width + 2 * gap
                for piece in self.pieces
                if piece.finger == bool(number) and self.sawn(piece) == 2
            }
            for width in sorted(widths):
                yield Clearing(f"{role.words}, space for a finger", width, width, FINGER)

    def lengths(self) -> tuple[LengthSetting, ...]:
        """Gauges and dividers."""
        lengths = [
            LengthSetting("gauge", f"{role.words}'s baseline, from its end", depth)
            for role, depth in zip(ROLES, self.depths, strict=True)
        ]
        if len(self.pieces) > 2:
            use = "one finger, stepped off"
            if self.pieces[0].width != self.pieces[1].width:
                use += " from the first mark"
            lengths.append(LengthSetting("dividers", use, self.pieces[1].width))
        return tuple(lengths)

    def joint(self) -> Joint:
        """The whole layout.

        Raises:
            InputError: where the fit allowance eats a finger or closes a space.
        """
        self._check_fit()
        work = Work(self.request, self.given, self.pieces, self.depths)
        return Joint(
            kind=KIND.name,
            title=KIND.title,
            members=(
                Member(ROLES[0].words, self.end(0), Hand.RIGHT),
                Member(ROLES[1].words, self.end(1), Hand.LEFT),
            ),
            placement=self.placement,
            filled=self.filled(),
            allowance=self.given.fit,
            rows=(self.row(0), self.row(1)),
            sizes=self.sizes(),
            lengths=self.lengths(),
            slopes=(),
            rules=self.rules,
            findings=advise(work),
            steps=order_of_work(work),
            clearings=tuple(self.clearings()),
        )

    def _check_fit(self) -> None:
        """Wood must be left of every finger of the second board, and room in every space."""
        for piece in self.pieces:
            change = self.sawn(piece) * self.given.fit
            left = piece.width + change if piece.finger else piece.width - change
            if left <= 0:
                lost = "no room for a finger" if piece.finger else "nothing of a finger"
                raise InputError(
                    mistake(
                        "no-room",
                        f"The fit allowance leaves {lost}.",
                        "Give a smaller fit or wider fingers.",
                        "fit",
                    )
                )


ROLES = (Role("first_board", "first board"), Role("second_board", "second board"))

KIND = Kind(
    name="box-joint",
    title="Box joint",
    summary="Square fingers of both boards pass each other (corner locking): boxes and trays.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(
        width="84 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("fingers", 7),
            ("first_proud", "0.3 mm"),
            ("second_proud", "0.3 mm"),
        ),
    ),
    sources=(NOYES, "finger about as wide as the stock is thick: common practice, no source"),
)
