"""The order of work for a sliding dovetail, with the layout's own figures."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.housings.tail import Tail
from joinery_templates.joints.joint import Step, Task
from joinery_templates.lengths import INCH, Units, decimal_text, length_text

BACK = "at the shelf's back edge"
SHAVING = {Units.MM: Fraction(1, 10), Units.INCH: INCH / 256}
GLUED = {Units.MM: Fraction(50), Units.INCH: 2 * INCH}
"""The last of the way, over which alone glue is spread."""
SAWN_FROM = {Units.MM: Fraction(30), Units.INCH: INCH * 5 / 4}
"""How long a space is chopped behind the stop, for the saw's toe."""


@dataclass(frozen=True, slots=True)
class Work:
    """A tail that is to be cut, and the units that its figures are told in."""

    tail: Tail
    units: Units

    @property
    def shelf(self) -> str:
        """The shelf, with its board's name."""
        return _named("shelf", self.tail.shelf.name)

    @property
    def side(self) -> str:
        """The side, with its board's name."""
        return _named("side", self.tail.side.name)

    @property
    def one_in(self) -> str:
        """The slope as a ratio."""
        return f"1:{decimal_text(1 / self.tail.slope, 2)}"

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.units)


def _named(role: str, name: str) -> str:
    return f"the {role}" if name == role else f"the {role} ({name})"


def order_of_work(work: Work) -> tuple[Step, ...]:
    """Housing first, then the tail is fitted to it (common practice, no source)."""
    return (*_housing_steps(work), *_tail_steps(work))


def _housing_steps(work: Work) -> Iterator[Step]:
    tail = work.tail
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"Mark the front edge of all boards, the upper face of {work.shelf}, the inside face and "
        f"the top of {work.side}; lay the two sides as a pair. On the templates the front edge is "
        "called the reference edge and the back edge the far edge; the shelf's upper face is its "
        "outside face, its lower face the inside face. Make the shelf as long as the space "
        f"between the sides and {work.text(2 * tail.depth)} more for its two tails, ends square. "
        "If a thickness is not what the job says, correct it and print again.",
    )
    yield Step(
        Task.GAUGE,
        "Square the line",
        "Clamp both sides together and square the line of the shelf's upper face across their "
        "edges, then across each inside face.",
    )
    edges = "the front and the back edge" if not tail.stop else "the back edge"
    yield Step(
        Task.LAY_ON,
        f"Lay on {work.side}",
        "Lay the inside face's template with its dashed line on the squared line, ▲ towards the "
        "top end, flush with the front edge; glue it, or tape it and prick it through at the small "
        f"crosses. So too the one for {edges}: it shows the section.",
    )
    yield from _stop_step(work)
    taper = " They are not parallel: set the block anew for each." if tail.taper else ""
    yield Step(
        Task.CUT_SECOND,
        "Saw the walls",
        f"Plane the edge of a wooden block to the slope of {work.one_in} for the sloping side, "
        "clamp it along the line, hold the saw flat against it and saw in the waste, so that the "
        f"line just stays, down to {work.text(tail.depth)}.{taper}{_square_wall(work)}",
    )
    yield Step(
        Task.CUT_SECOND,
        "Clear the housing",
        "Chisel out the middle, then both sides under the slope, and bring the bottom level with "
        f"a hand router set to {work.text(tail.depth)}; a shaving deeper does no harm, for the "
        "shoulders must close first. Try the walls with the bevel.",
    )


def _stop_step(work: Work) -> Iterator[Step]:
    tail = work.tail
    if tail.stop:
        yield Step(
            Task.CUT_SECOND,
            "Chop the stop",
            f"The housing stops {work.text(tail.stop)} from the front edge. Behind that, bore and "
            f"chop a space about {work.text(SAWN_FROM[work.units])} long to the full depth and "
            "width: the saw's toe runs out into it.",
        )


def _square_wall(work: Work) -> str:
    upper, lower = work.tail.sloped
    if upper and lower:
        return ""
    face = "lower" if upper else "upper"
    return f" The wall at the shelf's {face} face is square: saw it against a square block."


def _tail_steps(work: Work) -> Iterator[Step]:
    tail = work.tail
    notch = (
        f" Saw out the front corner: {work.text(tail.start)} from the front edge, down to the "
        "baseline."
        if tail.stop
        else ""
    )
    yield Step(
        Task.LAY_ON,
        f"Lay on {work.shelf}",
        "Trim the template along its outer lines, crease both folds over a rule, printed side out, "
        "fold it over the end, flush with the front edge, and glue it, or tape it and prick it "
        f"through. Gauge {work.text(tail.depth)} from the end on {_faces(work)}: the printed "
        "baseline must fall on it.",
    )
    yield Step(
        Task.SAW_FIRST,
        "Saw the shoulders",
        f"Saw along the baseline on {_faces(work)}, against a square block, "
        f"{_shoulder_depths(work)}.{notch}",
    )
    yield Step(
        Task.SAW_FIRST,
        "Shape the tail",
        f"{_shaping(work)} Pare most of the waste away first; the arris at the end must be sharp "
        "and the corner at the shoulder clean.",
    )
    yield Step(Task.FIT, "Fit", _fitting(work))
    yield Step(
        Task.GLUE,
        "Glue",
        f"Slide the shelf in dry until {work.text(_glued(work))} remain, brush glue into the "
        "housing before it and on the back of the tail as far as it still shows, and push it "
        "home; glued all along it would seize half way. A solid shelf in a solid side swells and "
        "shrinks alike. Where one is plywood, or its grain runs the other way, glue the front "
        "alone, so that the rest can move.",
    )


def _glued(work: Work) -> Fraction:
    """The last of the way: 50 mm, or half of a short tail."""
    return min(GLUED[work.units], (work.tail.shelf.width - work.tail.start) / 2)


def _faces(work: Work) -> str:
    upper, lower = work.tail.sloped
    if upper and lower:
        return "both faces"
    return f"the {'upper' if upper else 'lower'} face"


def _shoulder_depths(work: Work) -> str:
    """How deep the saw goes at each sloping side; with a taper not evenly."""
    tail, told = work.tail, []
    for number, face in enumerate(("upper", "lower")):
        if not tail.sloped[number]:
            continue
        back, front = (
            work.text(tail.inset(number, x, tail.depth)) for x in (tail.shelf.width, tail.start)
        )
        begins = "at the front edge"
        if tail.start:
            begins = f"where the tail begins, {work.text(tail.start)} from the front edge"
        ends = f" {BACK} and {front} {begins}" if tail.tapered[number] else ""
        told.append(f"at the {face} face {back} deep{ends}")
    return "; ".join(told)


def _shaping(work: Work) -> str:
    """Which side is planed first, to which line, and which is left for fitting."""
    tail = work.tail
    tool = f"a shoulder plane against a block of {work.one_in}, or with a dovetail plane"
    if not all(tail.sloped):
        return f"Plane the sloping side with {tool}, to a hair outside its line on the end grain."
    if tail.taper:
        return (
            f"Plane the upper side to its line on the end grain, with {tool}. Plane the lower "
            "side, which is tapered, to a hair outside its line: it is fitted last."
        )
    return f"Plane both sides with {tool}, to a hair outside their lines on the end grain."


def _fitting(work: Work) -> str:
    tail, shaving = work.tail, SHAVING[work.units]
    start = "Enter the shelf from the back and push it forward by hand. "
    if not tail.taper:
        return (
            f"{start}It must slide with pressure and stay straight. Where it binds and shines, "
            "take a shaving; printed lines show where to stop, and the housing decides."
        )
    which = "lower" if tail.tapered[1] else "upper"
    return (
        f"{start}It runs freely and tightens only at the end: at 1 in "
        f"{decimal_text(tail.taper, 2)}, {work.text(shaving)} off the tail's {which} side lets it "
        f"go {work.text(shaving * tail.taper)} further. Take even shavings from that side, over "
        "its whole length, until the front edges are flush just when it is tight."
    )
