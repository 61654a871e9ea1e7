"""Dowels: boards edge to edge, a rail on a stile, and ends on faces, by one row of holes."""

from collections.abc import Iterator

from joinery_templates.errors import COMMON
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import Joint, LengthSetting, Mark, SettingOut, Size
from joinery_templates.joints.along_line import dividers_along, sizes_along
from joinery_templates.joints.dowels import boards
from joinery_templates.joints.dowels.boards import CORNER, EDGE, FRAME, TEE, Dowelled, Parameters
from joinery_templates.joints.dowels.checks import advise, impossible
from joinery_templates.joints.dowels.steps import order_of_work
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import FRAME_CORNERS, pose
from joinery_templates.joints.spread import Layouts
from joinery_templates.joints.tool_fit import BIT
from joinery_templates.joints.upright import LEGS, TOP
from joinery_templates.joints.words import past_far_edge
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Part, Stretch, Vector
from joinery_templates.wood.placement import AGAINST, Placement, end_to_end


class Stated(Dowelled, frozen=True):
    """All that is stated of dowels, however the boards meet."""

    impossible = impossible
    advise = advise
    steps = order_of_work

    def rows(self) -> Iterator[SettingOut]:
        """One row for both boards: it is laid along the line on which both are pricked."""
        marks = tuple(
            Mark(at, f"middle of hole {number}")
            for number, at in enumerate(self.positions, start=1)
        )
        check = "Mark must meet prick."
        use = f"Pencil the marks. Later: {check}" if self.given.form == EDGE else check
        for number, role in enumerate(self.roles):
            yield SettingOut(
                "the line of the holes",
                role.words,
                self.line,
                marks,
                main=not number,
                start=self.limits[0],
                along_end=False,
                use=use,
            )

    def sizes(self) -> Iterator[Size]:
        """Of the dowels, and where they stand."""
        yield Size("dowel, diameter", self.diameter)
        yield Size("dowel, length", self.dowel)
        yield from sizes_along("dowel", self.positions, self.line, self.limits)

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauge, bit, depth stops and dividers."""
        use = f"line of the holes, from the outside face{self.on_second}"
        yield LengthSetting("gauge", use, self.thick / 2)
        yield LengthSetting(BIT, "holes for the dowels", self.diameter)
        for role, depth in zip(self.roles, self.depths, strict=True):
            yield LengthSetting("depth stop", f"{role.words}'s holes", depth)
        yield from dividers_along("dowel", self.positions)

    def rules(self) -> Iterator[str]:
        """What was decided by a rule."""
        given, text = self.given, self.text
        listed = given.positions is not None
        if not listed and given.dowels is None and given.pitch is None:
            why = f"as many as stand well apart ({boards.APART})"
            yield f"Number of dowels: {len(self.positions)}, {why}."
        if not listed and given.pitch is None and given.end_distance is None:
            yield "Places: each dowel in the middle of an equal share (our judgement)."
        if given.diameter is None:
            owned = ", one of your bits" if self.diameter in self.request.tools.bits else ""
            yield f"Diameter: {text(self.diameter)}{owned} ({boards.BAND})."
        told = (given.depth, given.second_depth)
        for role, one, depth in zip(self.roles, told, self.depths, strict=True):
            if one is None:
                yield f"Holes in the {role.words}: {text(depth)} deep ({boards.MIDDLE})."
        if given.spare is None:
            yield f"Length of a dowel: {text(self.spare)} less than both holes ({boards.SHORTER})."


class OnEnd(Stated, frozen=True):
    """Dowels in the first board's end."""

    @property
    def line_told(self) -> Fraction:
        """The first board's width."""
        return self.boards[0].width

    def end(self) -> BoardEnd:
        """The first board's end; no line is carried round it."""
        return BoardEnd(self.boards[0], self.holes(0), self.depths[0], gauged=False)


class Frame(OnEnd, frozen=True):
    """A rail's end on a stile's edge, whose reference edges face into the frame; or on a leg."""

    into = ((1, 1), (0, 1))
    stance = pose(up=(1, 0, 0), front=(0, 1, -1), apart=(0, 1, 0))
    limits = ("first board's reference edge", "first board's far edge")

    @property
    def met(self) -> Board:
        """The second board as the rail meets it."""
        return self.upright.met(self.boards[1])

    @property
    def thick(self) -> Fraction:
        """The thinner one's, as they meet."""
        return min(self.boards[0].thickness, self.met.thickness)

    @property
    def rooms(self) -> tuple[Fraction | None, Fraction | None]:
        """Along the first board, across the second."""
        return self.boards[0].length, self.met.width

    @property
    def as_met(self) -> Placement:
        """Outside faces level, the stile's reference edge at the rail's end."""
        rows = ((ZERO, -ONE, ZERO), (-ONE, ZERO, ZERO), (ZERO, ZERO, ONE))
        return Placement(rows, (self.line, ZERO, ZERO))

    @property
    def placement(self) -> Placement:
        """The same in the frame of a leg's own marks."""
        return self.upright.on_rail(self.as_met, self.boards[1])

    @property
    def on_second(self) -> str:
        """On a leg's inside face it is gauged from its far edge."""
        face = self.upright.gauged
        return "" if face is Face.OUTSIDE else f"; on the leg from its {face}"

    @property
    def parts(self) -> tuple[Part, Part]:
        """The rail's end, and the stile from the line of the rail's far edge on."""
        at, is_leg = self.given.at, self.upright.is_leg
        stile = Stretch(
            board=self.boards[1],
            cuts=tuple(self.upright.as_marked(self.met, hole) for hole in self.holes(1)),
            start=ZERO,
            reach=self.line,
            line="" if at == 0 and not is_leg else "first board's far edge",
            up=TOP if is_leg else past_far_edge(self.role(0)),
            hands=LEGS if is_leg else ("towards its right-hand end", "towards its left-hand end"),
            along=at,
            is_paired=not at and not is_leg,
            on_leg=is_leg,
            is_upright=not (is_leg or self.request.first_in_front),
        )
        return self.end(), stile

    @property
    def hands(self) -> tuple[Hand, Hand]:
        """As the stile or leg has them."""
        return self.upright.hands


class Corner(OnEnd, frozen=True):
    """An end on the inside face of another board, flush with that one's end."""

    hands = (Hand.RIGHT, Hand.LEFT)
    into = ((1, 1), (2, -1))
    at_corner = True

    @property
    def thick(self) -> Fraction:
        """The first board's."""
        return self.boards[0].thickness

    @property
    def rooms(self) -> tuple[Fraction | None, Fraction | None]:
        """Along the first board, through the second."""
        return self.boards[0].length, self.boards[1].thickness

    @property
    def placement(self) -> Placement:
        """The first board's end on the inside face, its outside face at y = 0."""
        return end_to_end(-self.boards[1].thickness)

    @property
    def parts(self) -> tuple[Part, Part]:
        """Both ends."""
        return self.end(), BoardEnd(self.boards[1], self.holes(1), self.thick)


class Tee(Corner, frozen=True):
    """An end on the inside face of another board, away from its ends."""

    hands = (Hand.LEFT, Hand.RIGHT)
    at_corner = False

    @property
    def parts(self) -> tuple[Part, Part]:
        """The end, and the other board from the line of the first one's outside face down."""
        other = Stretch(
            board=self.boards[1],
            cuts=self.holes(1),
            start=ZERO,
            reach=self.thick,
            line="first board's outside face",
            up=TOP,
            hands=("left side", "right side"),
            along=self.given.at,
            is_lying=self.request.first_in_front,
        )
        return self.end(), other


class Edge(Stated, frozen=True):
    """The first board's far edge on the second's reference edge, measured from the first hole.

    The frames of two parts that meet are mirror images: the second one's runs the other way.
    """

    hands = (Hand.RIGHT, Hand.LEFT)
    into = ((0, -1), (0, 1))
    most = (Fraction(1, 2), Fraction(1, 2))
    stance = pose(up=(0, 0, -1), front=(-2, -1, 0), apart=(-1, 0, 0))
    limits = ("start of the seam", "end of the seam")
    usual_pitch = boards.USUAL_IN_A_SEAM

    @property
    def line_told(self) -> Fraction | None:
        """Of the seam."""
        told = [board.length for board in self.boards if board.length is not None]
        return self.given.seam or min(told, default=None)

    @property
    def shown(self) -> tuple[Fraction, ...]:
        """The first dowel alone, unless the whole row is wished for."""
        return self.positions if self.given.drawn == boards.WHOLE_ROW else self.positions[:1]

    @property
    def rooms(self) -> tuple[Fraction | None, Fraction | None]:
        """Across both boards."""
        return self.boards[0].width, self.boards[1].width

    @property
    def placement(self) -> Placement:
        """Outside faces level."""
        return Placement(AGAINST, (self.boards[0].width, ZERO, ZERO))

    def mouth(self, position: Fraction) -> Vector:
        """On the first board's far edge."""
        return self.boards[0].width, position - self.positions[0], self.thick / 2

    @property
    def parts(self) -> tuple[Part, Part]:
        """From half a diameter before the first hole to as much past the last that is shown."""
        low, high = -self.diameter / 2, self.shown[-1] - self.shown[0] + self.diameter / 2
        line = "middle of hole 1" if len(self.shown) > 1 else "middle of the hole"
        start, end = self.limits
        ends = ((low, high, start, "far"), (-high, -low, end, "reference"))
        one, other = (
            Stretch(
                self.boards[number],
                self.holes(number),
                start,
                reach,
                line,
                up,
                (f"joint at {edge} edge",) * 2,
            )
            for number, (start, reach, up, edge) in enumerate(ends)
        )
        return one, other


FORMS: dict[str, type[Stated]] = {FRAME: Frame, EDGE: Edge, CORNER: Corner, TEE: Tee}


def lay_out(request: Request) -> Joint:
    """The layout of a dowelled joint.

    Raises:
        InputError: where it cannot be bored.
    """
    given: Parameters = request.given
    return FORMS[given.form](request, given).joint()


def _bolder_and_finer(joint: Joint, units: Units) -> Layouts:
    """The next thicker dowels that are sold, also one fewer; the next thinner, also one more."""
    count, diameter = joint.loose[0].made, joint.loose[0].member.part.board.width
    thick = min(member.part.board.thickness for member in joint.members)
    sold = [
        size
        for size in boards.SIZES[units]
        if thick * boards.THINNEST <= size <= thick * boards.THICKEST
    ]
    thicker = min((size for size in sold if size > diameter), default=diameter)
    thinner = max((size for size in sold if size < diameter), default=diameter)
    sizes = ((-1, thicker), (0, thicker), (0, diameter), (0, thinner), (1, thinner))
    told = dict.fromkeys(("pitch", "end_distance", "positions"))
    yield from ({"dowels": count + more, "diameter": size, **told} for more, size in sizes)


KIND = Kind(
    name="dowel",
    title="Dowelled joint",
    summary="Dowels in bored holes: boards edge to edge, a rail on a stile, shelves and sides.",
    roles=Dowelled.roles,
    parameter_class=Parameters,
    lay_out=lay_out,
    example=Example(
        width="60 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(
            ("form", "frame"),
            ("dowels", 2),
            ("end_distance", "15 mm"),
            ("diameter", "8 mm"),
            ("depth", "25 mm"),
            ("spare", "3 mm"),
        ),
        second_width="60 mm",
        corners=FRAME_CORNERS,
    ),
    also=("dowels", "dowel-joint"),
    spread=_bolder_and_finer,
    sources=(
        boards.MIDDLE,
        boards.APART,
        boards.SHORTER,
        boards.BAND,
        boards.THIN_STOCK,
        boards.RODS,
        f"grooves, countersinking: {COMMON}",
    ),
)
