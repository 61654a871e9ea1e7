"""What every joint is made of, fully stated: facts alone, which all that draws reads.

A joint's file turns parameters into a `Joint`; nothing after it asks what kind it is.
"""

from collections.abc import Iterator
from enum import StrEnum
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import Finding
from joinery_templates.exact import Fraction
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import Part, Place, Vector
from joinery_templates.wood.placement import Placement

REFERENCE_EDGE = "reference edge"
WRAP, FACES, END_GRAIN = "wrap", "faces", "end-grain"
VIEWS = (WRAP, FACES, END_GRAIN)
"""Ways to draw an end: folded over it, each face by itself, or the end grain alone."""
UPRIGHT_ENDS = {"A": "top end", "B": "top end", "C": "bottom end", "D": "bottom end"}
"""Which end of a stile is nearer to a corner; reference edges of rails face into the frame."""


class Member(Struct, frozen=True):
    """One of the boards of a joint.

    Attributes:
        role: in words, such as ``tail board``.
        part: the board's end, or a stretch of the board, with its waste.
        hand: which end it is at corners A and C; at B and D it is the other.
        reference: what the reference edge is on the piece, such as ``front edge``, where
            the joint decides that.
        faces: those that stand for the wrap; none where there is a wrap, or where every
            face that carries lines does.
        pieces: how many of its board lie side by side, where the joint tells that.
    """

    role: str
    part: Part
    hand: Hand
    reference: str = ""
    faces: tuple[Face, ...] = ()
    pieces: int = 0

    @property
    def also_called(self) -> str:
        """What it is called besides its board's name; empty where the name says so."""
        return "" if self.role in self.part.board.name.lower() else self.role


class Loose(Struct, frozen=True):
    """A piece that belongs to the joint and is made from wood of its own, such as a key.

    Attributes:
        member: the piece, cut from the end of its stock.
        placements: its frame in the first member's frame, once for each such piece.
        is_inside: whether it lies in both boards, as a dowel: it comes out when these are apart.
        count: how many of it there are; 0 where each has its placement.
        runs_on: whether it is as wide as a whole seam, of which a stretch is shown.
    """

    member: Member
    placements: tuple[Placement, ...]
    is_inside: bool = False
    count: int = 0
    runs_on: bool = False

    @property
    def made(self) -> int:
        """How many are made for each corner."""
        return self.count or len(self.placements)


class Detail(Struct, frozen=True):
    """A pattern of what no board's own faces show; no picture has it.

    Attributes:
        member: what is drawn.
        board: the number of the board that it is a face of, which comes to light when other
            waste is gone; None for a piece of its own, such as a wedge.
        count: how many pieces of its own are made for one corner.
    """

    member: Member
    board: int | None = None
    count: int = 1

    @property
    def name(self) -> str:
        """The face, or the piece."""
        part = self.member.part
        return self.member.role if self.board is None else part.called(part.faces[0])


class At(StrEnum):
    """What stands at a mark of a setting-out row."""

    PIECE = "piece or space"
    TAIL = "tail"
    SOCKET = "space for a tail"
    MITRE = "mitred edge"
    EDGE = "edge or face of a board"


class Mark(Struct, frozen=True):
    """One mark of a setting-out row.

    Attributes:
        position: how far from the row's start.
        name: of what stands there.
        starts: whether it starts there, or ends; None where it does neither.
        at: what it is.
    """

    position: Fraction
    name: str
    starts: bool | None = None
    at: At = At.PIECE

    @property
    def what(self) -> str:
        """What starts or ends there, in words."""
        return self.name + {None: "", True: " starts", False: " ends"}[self.starts]

    @property
    def is_of_tail(self) -> bool:
        """Whether a tail, or a space for one, starts or ends there."""
        return self.at in (At.TAIL, At.SOCKET)


def starts_and_ends(name: str, low: Fraction, high: Fraction) -> tuple[Mark, Mark]:
    """The two marks of a piece or a space that goes from one place to another."""
    return Mark(low, name, starts=True), Mark(high, name, starts=False)


class SettingOut(Struct, frozen=True):
    """A row of marks along one line, most often across a board.

    Attributes:
        title: which line it is.
        role: the member that it belongs to.
        width: where the row ends: the board's width.
        marks: in order from the row's start, its two ends left out.
        main: True for the row that is stepped off first and drawn as a strip.
        start: where the row is measured from.
        along_end: False where the strip is laid elsewhere than along a board's end.
        stretch: how much longer the line is than the width that it crosses, where it
            slants; marks and width are measured square across.
        waste: where along the line waste lies, where no end tells it.
        face: the face along which it runs, where it is of a board's own lines.
        back: whether it runs from a squared line towards what lies up, and not away from it.
        use: what is done with its marks when it is laid on as a strip, as the steps do it.
    """

    title: str
    role: str
    width: Fraction
    marks: tuple[Mark, ...]
    main: bool = False
    start: str = REFERENCE_EDGE
    along_end: bool = True
    stretch: Fraction = Fraction(1)
    waste: tuple[tuple[Fraction, Fraction], ...] = ()
    face: Face | None = None
    back: bool = False
    use: str = "Knife the marks."

    @property
    def along_line(self) -> "SettingOut":
        """The same, all measured along the line itself: as it is stepped off and drawn."""
        if self.stretch == 1:
            return self
        longer = self.stretch
        return replace(
            self,
            width=self.width * longer,
            marks=tuple(replace(mark, position=mark.position * longer) for mark in self.marks),
            waste=tuple((low * longer, high * longer) for low, high in self.waste),
            stretch=Fraction(1),
        )


class LengthSetting(Struct, frozen=True):
    """A tool set to a length: ``tool`` such as gauge or dividers, ``use`` says for which line."""

    tool: str
    use: str
    length: Fraction


class SlopeSetting(Struct, frozen=True):
    """A sliding bevel set to a slope: it leans `slope` for each millimetre along the side.

    Attributes:
        use: for which lines.
        slope: of the blade, from a square to the stock.
        parameter: what of the joint decides it, where a marker of another slope would do.
        leans_to: where the blade's tip leans from a square, where that is one way only.
    """

    use: str
    slope: Fraction
    parameter: str = ""
    leans_to: str = ""


class Size(Struct, frozen=True):
    """A named size for the table of sizes."""

    name: str
    length: Fraction


class Task(StrEnum):
    """Which piece of work a step is, whatever its heading says; first board, then second."""

    PREPARE = "prepare"
    CUT_ENDS = "cut the ends"
    GAUGE = "gauge the lines"
    """Those that are carried across: baselines, or a squared line."""
    SCRIBE = "scribe along the grain"
    LAY_ON = "lay the templates on"
    SAW_DOWN = "saw down the lines"
    """All waste is still there when it is done."""
    SAW_FIRST = "saw the first board"
    CLEAR_FIRST = "clear the first board"
    CUT_SECOND = "saw and clear the second board"
    REBATE = "rebate the ends"
    MITRE = "cut the mitres"
    MAKE_KEYS = "make the keys"
    JOIN = "join the boards"
    PLOUGH = "plough"
    FIT = "fit"
    GLUE = "glue"
    FINISH = "finish"


class Clearing(Struct, frozen=True):
    """A space that is cleared with a chisel, most often when its sides are sawn.

    Attributes:
        what: which spaces, in words; those of one sort are called the same.
        narrowest: between its sides, where they come nearest to each other.
        widest: where they are farthest apart.
        parameter: what of the joint makes it wider.
        task: the step in which it is cleared.
        sawn: False where it is chopped out, sides and all.
    """

    what: str
    narrowest: Fraction
    widest: Fraction
    parameter: str
    task: Task = Task.CUT_SECOND
    sawn: bool = True

    @property
    def is_parallel(self) -> bool:
        """Whether its sides are sawn, and parallel."""
        return self.sawn and self.narrowest == self.widest


class Step(Struct, frozen=True):
    """One step in the order of work.

    Attributes:
        task: which it is.
        heading: in short.
        words: what to do.
        pieces: that it is shown by, as their number among all members: those that it works
            on, and what they are marked from; none where its task says it.
        sign: what stands in other steps' words for the number of the sheet that has this one.
        is_shown: whether a picture would show all its lines, and none where none belongs.
    """

    task: Task
    heading: str
    words: str
    pieces: tuple[int, ...] = ()
    sign: str = ""
    is_shown: bool = True


class Pose(Struct, frozen=True):
    """How the pieces stand to be looked at, and come apart; directions in the first one's frame.

    Attributes:
        up: what is up when they stand on the bench as they are built.
        front: towards who looks at them; made level.
        apart: the way in which what is let in comes off, or the first board where nothing is,
            without rubbing on anything.
        also: further ways in which the first board can be drawn off the second; where something
            is let in, before it is, first the one in which they are shown apart.
    """

    up: Vector
    front: Vector
    apart: Vector
    also: tuple[Vector, ...] = ()


class Joint(Struct, frozen=True, dict=True):
    """A fully stated layout.

    Attributes:
        members: the boards, first the one that is set out first. One that loses no wood
            has no cuts, and no pattern.
        placements: for each board but the first its frame in the first one's.
        sizes: named sizes for the table.
        steps: the order of work.
        pose: how the pieces stand and come apart.
        allowance: the clearance at each sloped face, negative where pressed.
        rows: the setting-out rows.
        lengths: tools set to lengths.
        slopes: bevels set to slopes.
        rules: what was decided by a rule, in words with the source.
        findings: advice on this layout.
        loose: pieces made from wood of their own.
        at_corner: whether it joins two ends at a corner of a four-sided piece.
        clearings: the spaces that chisels and saw must suit; none where one side is open.
        details: patterns of what the pieces' faces do not show.
        is_mitred: whether it closes in a mitre between two outside faces, if only at an edge: a
            hair in the boards' thickness or length shows there.
        kind: the name in job files of the kind that it was built by.
        title: that kind, in words.
    """

    members: tuple[Member, ...]
    placements: tuple[Placement, ...]
    sizes: tuple[Size, ...]
    steps: tuple[Step, ...]
    pose: Pose
    allowance: Fraction = Fraction(0)
    rows: tuple[SettingOut, ...] = ()
    lengths: tuple[LengthSetting, ...] = ()
    slopes: tuple[SlopeSetting, ...] = ()
    rules: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    loose: tuple[Loose, ...] = ()
    at_corner: bool = True
    clearings: tuple[Clearing, ...] = ()
    details: tuple[Detail, ...] = ()
    is_mitred: bool = False
    kind: str = ""
    title: str = ""

    @property
    def placement(self) -> Placement:
        """The second board's frame in the first one's."""
        return self.placements[0]

    @property
    def main_row(self) -> SettingOut | None:
        """The row that is stepped off first, where there is one."""
        return next((row for row in self.rows if row.main), None)

    @property
    def let_in(self) -> tuple[Loose, ...]:
        """The loose pieces that come off before the boards come apart."""
        return tuple(one for one in self.loose if not one.is_inside)

    @property
    def all_members(self) -> tuple[Member, ...]:
        """The boards, and the pieces made from wood of their own."""
        return (*self.members, *(loose.member for loose in self.loose))

    @property
    def boards(self) -> tuple[str, ...]:
        """The names of its boards."""
        return tuple(member.part.board.name for member in self.members)

    @property
    def of_own_wood(self) -> Iterator[tuple[Member, int, bool]]:
        """What is made of wood of its own, how many for one corner, and whether as a whole seam."""
        for loose in self.loose:
            yield loose.member, loose.made, loose.runs_on
        for detail in self.details:
            if detail.board is None:
                yield detail.member, detail.count, False

    @cached_property
    def at_leg(self) -> bool:
        """Whether one of the boards is a leg, so that corners A to D are four of these."""
        return any(one.part.place(one.hand).on_leg for one in self.members)

    def placed(self, corner: "Corner") -> tuple["Placed", ...]:
        """The boards at one corner, then the faces that come to light on them."""
        mates = [tuple(mate for mate in self.members if mate is not one) for one in self.members]
        boards = (
            Placed(one, corner, others) for one, others in zip(self.members, mates, strict=True)
        )
        details = (
            Placed(one.member, corner, mates[one.board])
            for one in self.details
            if one.board is not None
        )
        return (*boards, *details)


class Corner(Struct, frozen=True):
    """A place of the piece of furniture where a joint stands.

    Attributes:
        name: what it is called.
        mirrored: whether its ends are the mirror image of A's.
        letter: A to D where it was given as a corner of a four-sided piece, else empty.
        like: A to D, the corner that it is like; empty where no corner was given.
    """

    name: str
    mirrored: bool
    letter: str = ""
    like: str = ""

    @property
    def told(self) -> str:
        """What it is called where only corners are told."""
        return self.letter or self.name


def other_end(letter: str, at_side: bool) -> str:
    """The corner at the other end of a board of a four-sided piece, at its sides or across it."""
    return ("BADC" if at_side else "DCBA")["ABCD".index(letter)]


class Placed(Struct, frozen=True):
    """A piece of a joint at one of its corners.

    Attributes:
        member: the piece.
        corner: where.
        mates: the boards that it meets there; a loose piece has none.
        made: how many are made of a loose piece.
    """

    member: Member
    corner: Corner
    mates: tuple[Member, ...] = ()
    made: int = 1

    @property
    def board(self) -> Board:
        """What it is cut from."""
        return self.member.part.board

    @property
    def hand(self) -> Hand:
        """Which end of a board it is, or is built like."""
        return self.member.hand.other if self.corner.mirrored else self.member.hand

    @property
    def place(self) -> Place:
        """Where on its board it stands."""
        return self.member.part.place(self.hand)

    @property
    def up_end(self) -> str:
        """What lies up, on the board and on the paper."""
        part, letter = self.member.part, self.corner.like
        if part.is_lying and letter:
            return str(self.hand)
        return (part.is_upright and UPRIGHT_ENDS.get(letter)) or part.up

    @property
    def is_loose(self) -> bool:
        """Whether it is cut from wood of its own: it has no end and no edge to tell."""
        return not self.mates
