"""What a scarf can be told, and the cut that both boards share."""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import Loose, Member, Pose
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.layout import Layout, pose
from joinery_templates.joints.parameter import Table
from joinery_templates.joints.shared_parameters import choice_parameter, size_parameter
from joinery_templates.joints.sources import BUILDING_CONSTRUCTION, WOOD_HANDBOOK
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import EDGES, Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Part, Surface, at_least, at_most
from joinery_templates.wood.placement import ACROSS, AGAINST, Placement

PLAIN, HOOKED, KEYED = "plain", "hooked", "keyed"
GLUE, NOTHING, BOLTS = "glue", "nothing", "bolts"
HARD, STRAIGHT = "hard", "straight-grained"
TREDGOLD = f"{BUILDING_CONSTRUCTION}, Tredgold's rules"
GLUED = f"{WOOD_HANDBOOK}, chapter 10: 1 in 12 or flatter is strongest"
STEEPEST_GLUED = 8
FLATTEST_GLUED = 12
TIMES = {
    HARD: {NOTHING: 6, BOLTS: 3, "bolts and indents": 2},
    STRAIGHT: {NOTHING: 12, BOLTS: 6, "bolts and indents": 4},
}
"""How many times as long as deep a scarf is (Tredgold's rules)."""
WEDGE_TAPER = Fraction(1, 40)
"""Of a key's wedges (our judgement)."""
THINNEST = Fraction(1, 3)
"""Of a key, what each of its wedges keeps at its thin end at the least (our judgement)."""
STANDS_OUT = {Units.MM: Fraction(20), Units.INCH: INCH * 3 / 4}
"""How far wedges stand past each edge of the boards, to be driven (our judgement)."""
SHEAR = {HARD: 8, STRAIGHT: 16}
"""Wood before a hook, along the grain, for each mm of its depth, at the least (the same)."""


class Parameters(Table):
    """The parameters of a scarf."""

    form: str = choice_parameter(
        "One slant, or two with a hook between them, or with a key in the hook that draws them up.",
        PLAIN,
        HOOKED,
        KEYED,
    )
    wood: str = choice_parameter(
        "Hard wood such as oak, ash and elm, or fir and other straight-grained wood.",
        STRAIGHT,
        HARD,
    )
    held_by: str = choice_parameter(
        "What holds it besides its own shape: the usual length follows from that.",
        GLUE,
        BOLTS,
        NOTHING,
    )
    scarf_length: Fraction | None = size_parameter(
        "Length of the scarf along the boards.",
        f"glued, 12 times the thickness ({GLUED}); else in hard wood 6 times, with bolts 3 times, "
        f"with bolts and a hook twice; in straight-grained wood double that ({TREDGOLD})",
    )
    hook: Fraction | None = size_parameter(
        "Depth of the hook, and of a key in it.",
        f"a third of the thickness ({TREDGOLD})",
    )
    nib: Fraction | None = size_parameter(
        "Depth of the square ends of a hooked or keyed scarf.",
        "half of the hook (our judgement)",
    )
    key: Fraction | None = size_parameter(
        "Width of the key along the scarf.",
        "one and a half times its depth, rounded to a gauge setting (our judgement)",
    )


class Scarf(Layout, frozen=True):
    """Two pieces of one section, end on end."""

    hands = (Hand.RIGHT, Hand.LEFT)
    given: Parameters

    @property
    def pose(self) -> Pose:
        """One piece is lifted off the other; it slides off at an edge too, or along the grain."""
        endways = [(0, 1, 0)] if self.is_plain else []
        across = (1, 0, 0), (-1, 0, 0)
        return pose((0, 0, -1), (-3, 1, -2), (0, 0, 1), *across, *endways)

    @property
    def deep(self) -> Fraction:
        """Thickness of both."""
        return self.boards[0].thickness

    @property
    def is_plain(self) -> bool:
        """Whether it has no hook."""
        return self.given.form == PLAIN

    @property
    def times(self) -> int:
        """The usual length, in thicknesses."""
        held = self.given.held_by
        if held == GLUE:
            return FLATTEST_GLUED
        is_indented = held == BOLTS and not self.is_plain
        return TIMES[self.given.wood]["bolts and indents" if is_indented else held]

    @property
    def long(self) -> Fraction:
        """Of the scarf."""
        return self.given.scarf_length or self.deep * self.times

    @property
    def hook(self) -> Fraction:
        """How deep it is; 0 where there is none."""
        return ZERO if self.is_plain else self.given.hook or self.deep / 3

    @property
    def nib(self) -> Fraction:
        """Depth of the square ends; 0 where they run out sharp."""
        return ZERO if self.is_plain else self.given.nib or self.hook / 2

    @property
    def key(self) -> Fraction:
        """How wide it is; 0 where there is none."""
        usual = as_a_gauge_is_set(self.hook * 3 / 2, self.units)
        return (self.given.key or usual) if self.given.form == KEYED else ZERO

    @property
    def stands_out(self) -> Fraction:
        """How far both wedges of a key reach past each edge of the boards."""
        return STANDS_OUT[self.units]

    @property
    def wedge_length(self) -> Fraction:
        """Of both wedges."""
        return self.boards[0].width + 2 * self.stands_out

    @property
    def wedge_ends(self) -> tuple[Fraction, Fraction]:
        """Width of a wedge at its thin and at its thick end, which together are the key's."""
        rise = min(self.wedge_length * WEDGE_TAPER, self.key * (1 - 2 * THINNEST))
        return (self.key - rise) / 2, (self.key + rise) / 2

    @property
    def before(self) -> Fraction:
        """From either end of the scarf to the hook."""
        return (self.long - self.key) / 2

    @property
    def high(self) -> Fraction:
        """From the outside face to the nearer side of the hook."""
        return (self.deep - self.hook) / 2

    @property
    def low(self) -> Fraction:
        """From there to its farther side."""
        return self.high + self.hook

    @property
    def slope(self) -> Fraction:
        """Of the slants, for each mm along."""
        if self.is_plain:
            return self.deep / self.long
        return (self.low - self.nib) / self.before

    def _outside_of(self, y: Fraction, z: Fraction) -> HalfSpace:
        """What lies outside of a slant through a point, in the first board's frame."""
        return HalfSpace((ZERO, self.slope, ONE), z + self.slope * y)

    def _waste(self) -> Iterator[tuple[HalfSpace, ...]]:
        """What leaves the first board, from its tip on."""
        if self.is_plain:
            yield (self._outside_of(ZERO, self.deep),)
            return
        near, far = self.before, self.long - self.before
        yield self._outside_of(ZERO, self.deep - self.nib), at_most(1, near)
        step = at_least(1, near, Surface.SHOULDER)
        if self.key:
            yield step, at_most(1, far), at_most(2, self.low, Surface.SHOULDER)
            step = at_least(1, far)
        shoulder = at_most(1, self.long, Surface.SAWN_SHOULDER)
        yield self._outside_of(far, self.low), step, shoulder

    @property
    def parts(self) -> tuple[Part, Part]:
        """Both boards; turned end for end and face for face the second is like the first."""
        first = tuple(self._waste())
        second = (map(self._turned, sides) for sides in first)
        one, other = (
            BoardEnd(board, tuple(Cut(tuple(sides)) for sides in waste), self.long, gauged=False)
            for board, waste in zip(self.boards, (first, second), strict=True)
        )
        return one, other

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """The edges, which show the cut."""
        return EDGES

    @property
    def placement(self) -> Placement:
        """The second board on the first, end to end."""
        return Placement(AGAINST, (ZERO, self.long, ZERO))

    def _turned(self, side: HalfSpace) -> HalfSpace:
        """The same from the inside face."""
        x, y, z = side.normal
        return replace(side, normal=(x, y, -z), limit=side.limit - z * self.deep)

    def loose(self) -> tuple[Loose, ...]:
        """The key: two wedges, head to tail across the boards, with their slopes together."""
        if not self.key:
            return ()
        (thin, thick), long, out = self.wedge_ends, self.wedge_length, self.stands_out
        slope = HalfSpace((-ONE, (thick - thin) / long, ZERO), -thin)
        end = BoardEnd(
            Board("wedge", thick, self.hook),
            (Cut((slope,)), Cut((at_least(1, long),))),
            long,
            gauged=False,
        )
        stock = Member("wedge", end, Hand.LEFT, faces=(Face.OUTSIDE,))
        one = Placement(ACROSS, (-out, self.before, self.high))
        shift = (self.boards[0].width + out, self.before + self.key, self.high)
        other = Placement(((ZERO, -ONE, ZERO), (-ONE, ZERO, ZERO), (ZERO, ZERO, ONE)), shift)
        return (Loose(stock, (one, other), is_inside=True),)
