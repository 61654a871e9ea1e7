r"""Tongue and groove: boards edge to edge, with a tongue on the one or loose in both.

Seen on the ends; the first board's far edge meets the second's reference edge, so that a third
follows in the same way. Both are gauged from the outside face::

         outside faces                            outside faces
    ----------+-----------------             --------+-------------------
       first  +---.  second                      .---+---.
              +---'                              `---+---'  loose
    ----------+-----------------             --------+-------------------
"""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.joint import Clearing, Joint, LengthSetting, Loose, Member, Size, Step, Task
from joinery_templates.joints.checks import refuse
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import PEEL, PRINT_AGAIN, Layout, block, faces_with_lines, pose
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import choice_parameter, size_parameter
from joinery_templates.joints.sources import NOYES
from joinery_templates.lengths import INCH, Units, decimal_text
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Place, Surface, at_least, at_most
from joinery_templates.wood.placement import Placement

ZERO, ONE = Fraction(0), Fraction(1)
SOLID, LOOSE = "solid", "loose"
CENTRED = f"{NOYES}, p. 174: in the middle of the edge"
THIRD = f"a third: {COMMON}"
AS_DEEP = f"{NOYES}, p. 164: a groove about as deep as it is wide"
THINNEST, THICKEST = Fraction(1, 4), Fraction(2, 5)
"""Of the thickness (our judgement)."""
SPARE = {Units.MM: ONE, Units.INCH: INCH / 32}
"""How much deeper than the tongue is long a groove is (our judgement)."""
SHOWN = Fraction(20)
"""Of the board's length, for the picture: the joint runs on to the other end."""


class AlongEdge(BoardEnd, frozen=True, cache_hash=True):
    """A board that is worked along an edge; its end shows the section, and stays free."""

    @property
    def faces(self) -> tuple[Face, ...]:
        """The end alone: along the edge all lines are gauged, for they are as long as the board."""
        return (Face.END_GRAIN,)

    def place(self, hand: Hand) -> Place:
        """No end of the board is taken."""
        return Place("joint along the edge")


class Parameters(Table):
    """The parameters of tongue and groove."""

    form: str = choice_parameter(
        "A tongue on the first board's far edge, or a loose one in grooves in both.", SOLID, LOOSE
    )
    tongue: Fraction | None = size_parameter(
        "Thickness of the tongue, and width of the groove.",
        "a third of the thinner board, by the nearest of your chisels or plough irons or else "
        f"rounded to a gauge setting ({THIRD})",
    )
    tongue_length: Fraction | None = size_parameter(
        "How far the tongue goes into a groove.", f"as long as it is thick ({AS_DEEP})"
    )
    depth: Fraction | None = size_parameter(
        "How deep a groove is: more than the tongue is long.",
        "1 mm, or 1/32 in, more than the tongue is long (our judgement)",
    )


class Edges(Layout, frozen=True):
    """Two boards edge to edge."""

    given: Parameters

    @property
    def thin(self) -> Fraction:
        """The thinner board's thickness."""
        return self.thinner.thickness

    @property
    def is_solid(self) -> bool:
        """Whether the tongue is the first board's own."""
        return self.given.form == SOLID

    @property
    def tongue(self) -> Fraction:
        """Its thickness."""
        third, low, high = self.thin / 3, self.thin * THINNEST, self.thin * THICKEST
        near = (one for one in self.request.tools.chisels if low <= one <= high)
        chisel = min(near, key=lambda one: (abs(one - third), one), default=None)
        return self.given.tongue or chisel or as_a_gauge_is_set(third, self.units)

    @property
    def low(self) -> Fraction:
        """From the outside face of both boards to the tongue."""
        return (self.thin - self.tongue) / 2

    @property
    def high(self) -> Fraction:
        """From the outside face to the tongue's other side."""
        return self.low + self.tongue

    @property
    def long(self) -> Fraction:
        """How far the tongue goes into a groove."""
        return self.given.tongue_length or self.tongue

    @property
    def depth(self) -> Fraction:
        """Of a groove."""
        return self.given.depth or self.long + SPARE[self.units]

    @property
    def shows(self) -> Fraction:
        """Of the first board's width."""
        return self.boards[0].width - (self.long if self.is_solid else ZERO)

    def member(self, number: int) -> Member:
        """A board with its edge worked; both lie the same way round."""
        board = self.boards[number]
        floor = self.depth
        within = (at_least(2, self.low, Surface.WALL), at_most(2, self.high, Surface.WALL))
        if number:
            cuts = [Cut((*within, at_most(0, floor, Surface.SHOULDER)))]
        elif self.is_solid:
            shoulder = at_least(0, self.shows, Surface.SHOULDER)
            cuts = [Cut((shoulder, side.turned())) for side in within]
        else:
            cuts = [Cut((*within, at_least(0, board.width - floor, Surface.SHOULDER)))]
        part = AlongEdge(board, tuple(cuts), SHOWN, gauged=False)
        return Member(self.roles[number].words, part, Hand.LEFT, faces=(Face.END_GRAIN,))

    @property
    def placement(self) -> Placement:
        """The second board on the first, their ends in one line."""
        rows = ((ONE, ZERO, ZERO), (ZERO, ONE, ZERO), (ZERO, ZERO, ONE))
        return Placement(rows, (self.shows, ZERO, ZERO))

    def loose(self) -> tuple[Loose, ...]:
        """A loose tongue, its grain across the joint."""
        if self.is_solid:
            return ()
        across = 2 * self.long
        board = Board("tongue", SHOWN, self.tongue)
        end = BoardEnd(board, (Cut((at_least(1, across),)),), across, gauged=False)
        rows = ((ZERO, ONE, ZERO), (ONE, ZERO, ZERO), (ZERO, ZERO, ONE))
        at = Placement(rows, (self.boards[0].width - self.long, ZERO, self.low))
        stock = Member("tongue", end, Hand.LEFT, faces=(Face.OUTSIDE,))
        return (Loose(stock, (at,), is_inside=True),)

    def filled(self) -> Iterator[tuple[HalfSpace, ...]]:
        """All but the bottoms of the grooves."""
        right = self.shows + self.boards[1].width
        start = self.shows if self.is_solid else self.shows - self.long
        yield block((ZERO, ZERO, ZERO), (right, SHOWN, self.low))
        yield block((ZERO, ZERO, self.high), (right, SHOWN, self.thin))
        yield block((start, ZERO, self.low), (self.shows + self.long, SHOWN, self.high))


def build(request: Request) -> Joint:
    """The layout of tongue and groove.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Parameters)
    edges = Edges(request, given)
    refuse(_impossible(edges))
    one, other = edges.member(0), edges.member(1)
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=(one, other),
        placements=(edges.placement,),
        filled=tuple(edges.filled()),
        allowance=ZERO,
        rows=(),
        sizes=tuple(_sizes(edges)),
        lengths=tuple(_lengths(edges)),
        slopes=(),
        rules=tuple(_rules(edges)),
        findings=tuple(_advice(edges)),
        steps=tuple(_steps(edges)),
        pose=pose(up=(0, 0, -1), front=(-1, -2, 0), apart=(-1, 0, 0)),
        faces=faces_with_lines(one.part, other.part),
        loose=edges.loose(),
        at_corner=False,
        clearings=(Clearing("groove", edges.tongue, edges.tongue, "tongue", sawn=False),),
    )


def _impossible(edges: Edges) -> Iterator[Finding]:
    text = edges.text
    if edges.tongue >= edges.thin:
        yield mistake(
            "no-room",
            f"A tongue {text(edges.tongue)} thick leaves nothing beside it of "
            f'"{edges.thinner.name}", {text(edges.thin)} thick.',
            f"Give a thinner one: about a third is usual, {text(edges.thin / 3)}.",
            "tongue",
        )
    if edges.depth <= edges.long:
        yield mistake(
            "no-room",
            f"A groove {text(edges.depth)} deep is no deeper than the tongue is long, "
            f"{text(edges.long)}: the tongue would strike before the edges close.",
            f"Make it a little deeper, such as {text(edges.long + SPARE[edges.units])}.",
            "depth",
        )
    for number, board in enumerate(edges.boards):
        taken = edges.long if edges.is_solid and not number else edges.depth
        if taken >= board.width:
            yield mistake(
                "no-room",
                f"The joint takes {text(taken)} of the width of "
                f'"{board.name}", which is {text(board.width)} wide.',
                "Give a shorter tongue, or a wider board.",
                "tongue_length" if edges.given.tongue_length else "",
            )


def _advice(edges: Edges) -> Iterator[Finding]:
    share = edges.tongue / edges.thin
    if not THINNEST <= share <= THICKEST:
        yield advice(
            "tongue-thin" if share < THINNEST else "tongue-thick",
            f"A tongue {edges.text(edges.tongue)} thick is {decimal_text(100 * share, 0)} % of "
            f'"{edges.thinner.name}", {edges.text(edges.thin)} thick.',
            f"{THIRD}; a quarter to two fifths: {OURS}",
            "About a third is usual.",
            "tongue",
        )


def _rules(edges: Edges) -> Iterator[str]:
    given, text = edges.given, edges.text
    if given.tongue is None:
        owned = (
            ", the nearest of your chisels" if edges.tongue in edges.request.tools.chisels else ""
        )
        yield f"Tongue: {text(edges.tongue)} thick, about a third of the board{owned} ({THIRD})."
    if given.tongue_length is None:
        yield f"Tongue: {text(edges.long)} long, as long as it is thick ({AS_DEEP})."
    if given.depth is None:
        yield f"Groove: {text(edges.depth)} deep, a little more than the tongue is long ({OURS})."


def _sizes(edges: Edges) -> Iterator[Size]:
    yield Size("tongue, thickness", edges.tongue)
    if edges.is_solid:
        yield Size("tongue, length", edges.long)
        yield Size("first board, width without the tongue", edges.shows)
    else:
        yield Size("loose tongue, across the joint", 2 * edges.long)
    for number, role in enumerate(edges.roles):
        left = edges.boards[number].thickness - edges.high
        yield Size(f"{role.words}, behind tongue or groove on the inside", left)


def _lengths(edges: Edges) -> Iterator[LengthSetting]:
    use = "nearer side of tongue and groove, from the outside face of both"
    yield LengthSetting("mortise gauge", "its points, for tongue and groove", edges.tongue)
    yield LengthSetting("gauge", use, edges.low)
    if edges.is_solid:
        use = "tongue's shoulders, from the first board's far edge"
        yield LengthSetting("gauge", use, edges.long)
    yield LengthSetting("depth stop", "groove", edges.depth)


def _steps(edges: Edges) -> Iterator[Step]:
    """The order of work (common practice, no source)."""
    text, (one, other) = edges.text, (edges.named(0), edges.named(1))
    more = (
        f" {one[0].upper()}{one[1:]} loses {text(edges.long)} of what shows to its tongue: reckon "
        "with that in the width of the whole."
        if edges.is_solid
        else ""
    )
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"Mark the outside face and the reference edge of {one} and {other}. Shoot the far edge of "
        "the first and the reference edge of the second straight and square, until they close "
        f"without light between them.{more} Measure width and thickness of both again: if they are "
        f"not {PRINT_AGAIN}.",
    )
    yield Step(
        Task.LAY_ON,
        "Lay on the templates",
        f"Set a mortise gauge to {text(edges.tongue)}, by the chisel or plough iron itself, and "
        f"its nearer point {text(edges.low)} from the stock; leave it so. With the "
        "stock on the outside face each time, scribe both edges that meet, and their ends. "
        "Lay each template on the end of its board: its lines must meet the scribed ones.",
        (0, 1),
    )
    plough = (
        f"{text(edges.depth)} deep, with a plough plane whose fence runs on the outside face. "
        "Begin at the far end with short strokes and work backwards"
    )
    if edges.is_solid:
        yield Step(
            Task.SAW_FIRST,
            "Plane the tongue",
            f"Along the far edge of {one}, scribe the shoulders {text(edges.long)} from the edge "
            "on both faces, deep enough to cut the fibres. Plane the rebate on either side of the "
            "tongue with a rebate plane, down to the middle of the scribed lines; then take a "
            "shaving off each arris of the tongue.",
        )
        yield Step(
            Task.CUT_SECOND, "Plough the groove", f"Plough the reference edge of {other} {plough}."
        )
        fit = "The tongue goes in by hand over its whole length, and the shoulders close on both"
    else:
        yield Step(
            Task.SAW_FIRST, "Plough the first board", f"Plough the far edge of {one} {plough}."
        )
        yield Step(
            Task.CUT_SECOND,
            "Plough the second board",
            f"Plough the reference edge of {other} as deep, the fence on the outside face again.",
        )
        yield Step(
            Task.MAKE_KEYS,
            "Make the tongue",
            f"Plane wood to {text(edges.tongue)}, to go in with the push of a thumb, and cut it "
            f"{text(2 * edges.long)} across, its grain across the joint; thin plywood will do. "
            "Short lengths follow each other along the groove.",
        )
        fit = "Put the tongue into one groove and the other board on it; the edges close on both"
    yield Step(
        Task.GLUE,
        "Fit and glue",
        f"{PEEL} {fit} faces; where they do not, the groove is not deep enough. Glue a panel along "
        "the edges and clamp it flat. Boards of a back or a floor are not glued to each other: "
        "fix each along its middle or at one edge, so that it can swell and shrink.",
    )


KIND = Kind(
    name="tongue-and-groove",
    title="Tongue and groove",
    summary="Boards edge to edge, a tongue on the one in a groove of the other, or a loose tongue "
    "in both: panels, backs and floors.",
    roles=Edges.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="120 mm",
        thicknesses=("18 mm", "18 mm"),
        parameters=(("tongue", "6 mm"), ("tongue_length", "6 mm"), ("depth", "7 mm")),
        second_width="100 mm",
        corners=(("Seam 1", "A"),),
    ),
    sources=(CENTRED, THIRD, AS_DEEP),
)
