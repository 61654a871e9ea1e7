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

from msgspec.structs import replace

from joinery_templates import joint
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.housings import sliding_checks
from joinery_templates.joints.housings.boards import DADO, SAWN_FROM, SIDE
from joinery_templates.joints.housings.sliding_steps import BACK, order_of_work
from joinery_templates.joints.housings.tail import FACES, Parameters, SlidingTail
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import pose
from joinery_templates.joints.spread import usual_slopes
from joinery_templates.wood.cut import BoardEnd, Cut, Stretch, Surface, at_least, at_most

BEVEL = "sides of the tail, stock on the shelf's end; of the housing, stock on the inside face"


class Stated(SlidingTail, frozen=True):
    """All that is stated of a sliding dovetail."""

    impossible = sliding_checks.impossible
    rules = sliding_checks.rules_of
    advise = sliding_checks.advise
    steps = order_of_work

    @property
    def pose(self) -> joint.Pose:
        """The shelf slides out at the back, and in front too where nothing stops or wedges it."""
        forwards = [] if self.given.stop or self.taper else [(-1, 0, 0)]
        return pose((0, 0, -1), (2, 1, 0), (1, 0, 0), *forwards)

    @property
    def parts(self) -> tuple[BoardEnd, Stretch]:
        """The shelf's end and the side."""
        return _shelf(self), _side(self)

    def slopes(self) -> Iterator[joint.SlopeSetting]:
        """One bevel for both boards."""
        yield joint.SlopeSetting(BEVEL, self.slope, "slope")

    def clearings(self) -> Iterator[joint.Clearing]:
        """The housing, from its mouth in front to its bottom at the back."""
        mouth = self.housing_width(self.given.stop, self.depth)
        bottom = self.housing_width(self.shelf.width, ZERO)
        yield joint.Clearing("housing", mouth, bottom, "shoulder")

    def rows(self) -> Iterator[joint.SettingOut]:
        """The housing's two lines, measured down the side; the squared line is no mark."""
        thickness = self.shelf.thickness
        for words, x in _places(self, "housing", self.given.stop):
            both = joint.starts_and_ends("housing", *self.edges(x, self.depth))
            yield joint.SettingOut(
                f"inside face, down the side{words}",
                SIDE,
                thickness,
                tuple(mark for mark in both if 0 < mark.position < thickness),
                start=f"line of {self.line}",
                along_end=False,
            )

    def sizes(self) -> Iterator[joint.Size]:
        """The tail at both its widths, and the shoulders; the housing's mouth is a tool setting."""
        for words, x in _places(self, "tail", self.start):
            yield joint.Size(f"tail at its end (wide){words}", self.width_at(x, ZERO))
            yield joint.Size(f"tail at the shoulders (narrow){words}", self.width_at(x, self.depth))
        for number in self.sloping:
            for words, x in _places_of_side(self, number):
                shoulder = f"shoulder at the {self.shelf_faces[number]}{words}"
                yield joint.Size(shoulder, self.inset(number, x, self.depth))

    def lengths(self) -> Iterator[joint.LengthSetting]:
        """Gauges; a taper is too fine for a bevel and is set as two lengths."""
        yield gauge("depth of the housing and length of the tail", self.depth)
        for number in self.sloping:
            # No rule reads hundredths: dividers pick it off its card.
            tool, face = "dividers" if number == self.tapered else "gauge", self.shelf_faces[number]
            for words, x in _places_of_side(self, number):
                length = self.inset(number, x, ZERO)
                if length > 0:
                    use = (
                        f"{FACES[number]} side of the tail on the end grain, from the {face}{words}"
                    )
                    yield joint.LengthSetting(tool, use, length)
        stop = self.given.stop
        for words, x in _places(self, "housing", stop):
            mouth = self.housing_width(x, self.depth)
            yield joint.LengthSetting("dividers", f"mouth of the housing{words}", mouth)
        if stop:
            yield gauge("stop of the housing, from the front edge", stop)
            yield gauge("where the tail begins, from the front edge", self.start)


def _shelf(tail: SlidingTail) -> BoardEnd:
    """The shelf's end: a tail between its shoulders, cut back at a stopped front."""
    shoulder = at_most(1, tail.depth, Surface.SAWN_SHOULDER)
    behind = (at_least(0, tail.start),) if tail.start else ()
    # The sloping sides are planed.
    walls = (
        replace(tail.walls[number].moved(tail.given.fit), surface=Surface.WALL)
        for number in tail.sloping
    )
    sides = (Cut((wall, shoulder, *behind), tail.after_corner("side")) for wall in walls)
    return BoardEnd(tail.shelf, (*tail.cut_back(shoulder), *sides), tail.depth)


def _side(tail: SlidingTail) -> Stretch:
    """The housing: what the tail's walls leave between them, to the side's back edge."""
    to_side = tail.placement.reversed()
    walls = [to_side.half_space(wall.turned()) for wall in tail.walls]
    walls.append(at_least(2, tail.side.thickness - tail.depth, Surface.SHOULDER))
    sawn = None
    if tail.given.stop:
        walls.append(at_least(0, tail.given.stop, Surface.WALL))
        sawn = at_least(0, tail.given.stop + SAWN_FROM[tail.units])
    widest = max(tail.edges(tail.side.width, ZERO))
    return tail.housed((Cut(tuple(walls)),), max(tail.shelf.thickness, widest), sawn)


def _places(tail: SlidingTail, what: str, front: Fraction) -> tuple[tuple[str, Fraction], ...]:
    """Where a width is told, in words and from the front edge; with a taper at both ends.

    Args:
        tail: the joint.
        what: the width of what, the tail or the housing.
        front: where it begins.
    """
    back = tail.shelf.width
    if tail.tapered is None:
        return (("", back),)
    where = f"where the {what} begins" if front else "at the front edge"
    return ((f", {BACK}", back), (f", {where}", front))


def _places_of_side(tail: SlidingTail, number: int) -> tuple[tuple[str, Fraction], ...]:
    """Where a sloping side of the tail is told: a parallel one is alike everywhere."""
    return _places(tail, "tail", tail.start) if number == tail.tapered else (("", ZERO),)


KIND = Kind(
    name="sliding-dovetail",
    title="Sliding dovetail",
    summary="A shelf's end slides into a dovetailed housing from the back, through or stopped, "
    "parallel or tapered: shelves and divisions.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
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
    also=("dovetail-housing", "dovetail-dado"),
    sources=(
        sliding_checks.SLOPED_DADO,
        DADO,
        "taper on the lower side: common practice, no source",
    ),
    spread=usual_slopes,
)
