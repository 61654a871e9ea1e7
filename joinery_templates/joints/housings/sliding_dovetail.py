r"""The sliding dovetail, or dovetail housing: a shelf's end slides into a housing from the back.

Seen from the front edge, both sides sloped; the side stands on the left::

      side        shelf
    |     |    +---------------------  z = 0, the shelf's upper face, the squared line
    |     |____| shoulder
    |    /  tail
    |    \_____
    |     |    | shoulder
    |     |    +---------------------  z = its thickness
    |     |    y = depth, the baseline
         y = 0, the tail's wide end and the bottom of the housing

The side's own y runs down from the squared line, as the shelf's z does. With a taper
one side of the tail comes in towards the front, by 1 in so many.
"""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from joinery_templates.joint import (
    Clearing,
    Joint,
    LengthSetting,
    Mark,
    Member,
    SettingOut,
    Size,
    SlopeSetting,
)
from joinery_templates.joints.housings.checks import DADO, SLOPED_DADO, advise, settle
from joinery_templates.joints.housings.tail import ROLES, SHELF, SIDE, ZERO, Parameters, SlidingTail
from joinery_templates.joints.housings.work import BACK, order_of_work
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import (
    BoardEnd,
    Cut,
    HalfSpace,
    Stretch,
    Surface,
    at_least,
    at_most,
)
from joinery_templates.wood.faces import lay_out
from joinery_templates.wood.placement import Placement, end_to_end

LINE = "the shelf's upper face"


def build(request: Request) -> Joint:
    """The layout of a sliding dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    tail, rules = settle(request)
    layout = _Wood(tail)
    return Joint(
        kind=KIND.name,
        title=KIND.title,
        members=(
            Member(SHELF, layout.shelf(), Hand.LEFT, "front edge"),
            Member(SIDE, layout.side(), Hand.RIGHT, "front edge"),
        ),
        placements=(layout.placement,),
        filled=tuple(layout.filled()),
        allowance=tail.fit,
        rows=tuple(layout.rows()),
        sizes=tuple(layout.sizes()),
        lengths=tuple(layout.lengths()),
        slopes=(SlopeSetting("sides of the tail and of the housing", tail.slope),),
        rules=rules,
        findings=advise(tail),
        steps=order_of_work(tail),
        faces=tuple(layout.faces()),
        at_corner=False,
        clearings=(
            Clearing("housing", tail.mouth(tail.stop), tail.bottom(tail.shelf.width), "shoulder"),
        ),
    )


class _Wood(Struct, frozen=True):
    """All that follows from a tail and its housing."""

    tail: SlidingTail

    @property
    def placement(self) -> Placement:
        """The side on the shelf: the shelf's end stands at the bottom of the housing."""
        return end_to_end(self.tail.depth - self.tail.side.thickness, ZERO)

    def shelf(self) -> BoardEnd:
        """The shelf's end: a tail between its shoulders, cut back at a stopped front."""
        tail = self.tail
        shoulder = at_most(1, tail.depth, Surface.SHOULDER)
        behind = (at_least(0, tail.start),) if tail.stop else ()
        cuts = [Cut((wall.moved(tail.fit), shoulder, *behind)) for wall in tail.sloped_walls]
        if tail.stop:
            cuts.append(Cut((at_most(0, tail.start), shoulder)))
        return BoardEnd(tail.shelf, tuple(cuts), tail.depth)

    def side(self) -> Stretch:
        """The housing: what the tail's walls leave between them, to the side's back edge."""
        tail, to_side = self.tail, self.placement.reversed()
        walls = [to_side.half_space(wall.turned()) for wall in tail.walls]
        walls.append(at_least(2, tail.side.thickness - tail.depth, Surface.SHOULDER))
        if tail.stop:
            walls.append(at_least(0, tail.stop, Surface.WALL))
        widest = max(tail.edges(tail.side.width, ZERO))
        return Stretch(
            board=tail.side,
            cuts=(Cut(tuple(walls)),),
            start=ZERO,
            reach=max(tail.shelf.thickness, widest),
            line=LINE,
            up="top end",
            hands=("left side", "right side"),
        )

    def filled(self) -> Iterator[tuple[HalfSpace, ...]]:
        """Where the shelf's end crosses the side, but for the clearance before the tail."""
        tail = self.tail
        stretches = [(tail.start, tail.shelf.width)]
        if tail.stop:
            stretches.append((ZERO, tail.stop))
        for low, high in stretches:
            yield (
                at_least(0, low),
                at_most(0, high),
                at_least(1, ZERO),
                at_most(1, tail.depth),
                at_least(2, ZERO),
                at_most(2, tail.shelf.thickness),
            )

    def faces(self) -> Iterator[Face]:
        """The faces of the shelf that a wrap folds over and that carry lines."""
        end = self.shelf()
        for face in (Face.OUTSIDE, Face.END_GRAIN, Face.INSIDE):
            if lay_out(end, face, end.reach + 1).lines:
                yield face

    def rows(self) -> Iterator[SettingOut]:
        """The housing's two lines, measured down the side; the squared line is no mark."""
        tail = self.tail
        for words, x in self.places(of_tail=False):
            edges = zip(tail.edges(x, tail.depth), ("starts", "ends"), strict=True)
            marks = (
                Mark(at, f"housing {what}") for at, what in edges if 0 < at < tail.shelf.thickness
            )
            yield SettingOut(
                f"inside face, down the side{words}",
                SIDE,
                tail.shelf.thickness,
                tuple(marks),
                start=f"line of {LINE}",
                along_end=False,
            )

    def places(self, of_tail: bool) -> tuple[tuple[str, Fraction], ...]:
        """Where a width is told: at the back, and with a taper at the front as well.

        Args:
            of_tail: of the tail, which starts behind a stopped housing's beginning.
        """
        back = self.tail.shelf.width
        if not self.tail.taper:
            return (("", back),)
        front, what = (self.tail.start, "tail") if of_tail else (self.tail.stop, "housing")
        where = f"where the {what} begins" if front else "at the front edge"
        return ((f", {BACK}", back), (f", {where}", front))

    def sizes(self) -> Iterator[Size]:
        """The tail at both its widths, and the shoulders; the housing's mouth is a tool setting."""
        tail = self.tail
        for words, x in self.places(of_tail=True):
            yield Size(f"tail at its end (wide){words}", tail.width_at(x, ZERO))
            yield Size(f"tail at the shoulders (narrow){words}", tail.width_at(x, tail.depth))
        for number, face in enumerate(("upper", "lower")):
            if not tail.sloped[number]:
                continue
            for words, x in self.places(of_tail=True) if tail.tapered[number] else (("", ZERO),):
                yield Size(f"shoulder at the {face} face{words}", tail.inset(number, x, tail.depth))

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges; a taper is too fine for a bevel and is set as two lengths."""
        tail = self.tail
        yield LengthSetting("gauge", "depth of the housing and length of the tail", tail.depth)
        for number, face in enumerate(("upper", "lower")):
            if not tail.sloped[number]:
                continue
            tool = "rule" if tail.tapered[number] else "gauge"
            for words, x in self.places(of_tail=True) if tail.tapered[number] else (("", ZERO),):
                length = tail.inset(number, x, ZERO)
                if length > 0:
                    use = f"{face} side of the tail on the end grain, from the {face} face{words}"
                    yield LengthSetting(tool, use, length)
        for words, x in self.places(of_tail=False):
            yield LengthSetting("dividers", f"mouth of the housing{words}", tail.mouth(x))
        if tail.stop:
            begins = (("housing", "its stop, ", tail.stop), ("tail", "", tail.start))
            for what, more, length in begins:
                use = f"where the {what} begins, {more}from the front edge"
                yield LengthSetting("gauge", use, length)


KIND = Kind(
    name="sliding-dovetail",
    title="Sliding dovetail",
    summary="A shelf's end slides into a dovetailed housing from the back, through or stopped, "
    "parallel or tapered: shelves and divisions.",
    roles=ROLES,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="250 mm",
        thicknesses=("18 mm", "20 mm"),
        parameters=(
            ("slope", "1:6"),
            ("depth", "6 mm"),
            ("shoulder", "2 mm"),
            ("stop", "15 mm"),
            ("taper", "1:100"),
        ),
        corners=(("Left end", "A"), ("Right end", "B")),
    ),
    sources=(SLOPED_DADO, DADO, "taper on the lower side: common practice, no source"),
)
