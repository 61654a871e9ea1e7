"""Feathers: thin triangles in slots that are sawn across the corner when its mitre is glued."""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates import joint
from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.joints.gauge import (
    at_least_as_a_gauge_is_set,
    at_most_as_a_gauge_is_set,
    gauge,
    nearest_whole,
)
from joinery_templates.joints.mitres.mitre import fold_up, shaping
from joinery_templates.joints.mitres.splined import (
    ALONG_CORNER,
    ROOT_2,
    SPLINE,
    SPLINE_ONLY,
    SplinedMitre,
    along_mitre,
)
from joinery_templates.joints.words import beside, slope_text
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Stage
from joinery_templates.wood.placement import Placement

SLOT = {Units.MM: Fraction(1), Units.INCH: INCH / 32}
OVER = Fraction(2)
"""How far feathers stand out at the least, to be planed flush."""
DEEPEST = Fraction(3, 4)
"""Of the mitre, how far slots go at the most (our judgement)."""


class Feathered(SplinedMitre, frozen=True):
    """A row of feathers across the corner."""

    not_given = SPLINE_ONLY
    other_form = SPLINE
    stage = Stage(2, "slots")

    @property
    def pose(self) -> joint.Pose:
        """Feathers come out at the corner; the mitre comes apart only before they go in."""
        pose = super().pose
        return replace(pose, apart=(ZERO, -ONE, -ONE), also=(pose.apart, *ALONG_CORNER))

    @property
    def count(self) -> int:
        """How many there are."""
        usual = max(2, nearest_whole(self.width / self.thick / 2))
        return self.given.feathers or usual

    @property
    def slot(self) -> Fraction:
        """Width of a slot, square to its sides."""
        return self.given.slot or self.request.tools.kerf or SLOT[self.units]

    @property
    def slot_reach(self) -> Fraction:
        """From the corner to a slot's end, on both outside faces."""
        usual = at_most_as_a_gauge_is_set(self.thick * 4 / 3, self.units)
        return self.given.slot_reach or usual

    @property
    def reach(self) -> Fraction:
        """Mitre or slots, whichever go further."""
        return max(self.thick, self.slot_reach)

    @property
    def slope(self) -> Fraction:
        """On the outside faces; 0 where they are level."""
        return self.given.slope or ZERO

    @property
    def slant(self) -> Fraction:
        """How long square to the mitre's line a slot is for each mm across the mitre."""
        return square_root(1 + 2 * self.slope**2)

    @property
    def mouth(self) -> Fraction:
        """Width of a slot along the corner."""
        return self.slot * self.slant

    @property
    def starts(self) -> tuple[Fraction, ...]:
        """Where each slot begins on the corner: in the middle of an equal share."""
        share = self.width / self.count
        return tuple(share * n + (share - self.mouth) / 2 for n in range(self.count))

    @property
    def groove_kept_clear(self) -> str:
        """How deep a groove inside passes under the slots, and where they leave room for more.

        The slots come as near to the inside faces as half their reach, at the mitre. They stand
        alike from both edges, and each takes as much again as it leans, on the one board below
        its mouth and on the other above.
        """
        first, lean = self.starts[0], self.slope * self.slot_reach
        deep, low = (
            self.text(at_most_as_a_gauge_is_set(one, self.units))
            for one in (self.thick - self.slot_reach / 2, first - lean)
        )
        between = ""
        if self.count > 1:
            start = at_least_as_a_gauge_is_set(first + self.mouth + lean, self.units)
            end = at_most_as_a_gauge_is_set(self.starts[1] - lean, self.units)
            if start < end:
                between = f", or between {self.text(start)} and {self.text(end)} from it"
        return (
            f" Up to {deep} deep it clears the slots that are sawn later, wherever it lies. A "
            f"deeper one must lie within {low} of either edge{between}."
        )

    def way(self, number: int) -> int:
        """Of a slot: whether it falls on the first board, or rises."""
        return -1 if number % 2 else 1

    @property
    def height(self) -> Fraction:
        """Of a feather, from its long side to its point, with what is planed off."""
        deep = self.slot_reach / ROOT_2 * self.slant + self.slot * self.slope * ROOT_2
        return at_least_as_a_gauge_is_set(deep + OVER, self.units)

    def waste(self, number: int) -> Iterator[tuple[HalfSpace, ...]]:
        """The slots, which fall on the one board where they rise on the other."""
        floor = along_mitre(self.slot_reach)
        for count, start in enumerate(self.starts):
            lean = self.slope * self.way(count) * (-1 if number else 1)
            side = HalfSpace((ONE, lean, -lean), start)
            yield side.turned(), HalfSpace(side.normal, start + self.mouth), floor

    def loose(self) -> tuple[joint.Loose, ...]:
        """Triangles with their grain along the long side, across the corner."""
        high = self.height
        legs = (
            Cut((HalfSpace((-ONE, ONE, ZERO), ZERO),)),
            Cut((HalfSpace((-ONE, -ONE, ZERO), -2 * high),)),
        )
        end = BoardEnd(Board("feather", high, self.slot), legs, 2 * high, gauged=False)
        stock = joint.Member("feather", end, Hand.LEFT, faces=(Face.OUTSIDE,))
        frames = (self._frame(number, start) for number, start in enumerate(self.starts))
        return (joint.Loose(stock, tuple(frames), count=self.count),)

    def _frame(self, number: int, start: Fraction) -> Placement:
        """A feather's place in the first board's frame: its long side on the slot's floor."""
        lean, long, root = self.slope * ROOT_2 * self.way(number), self.slant, 1 / ROOT_2
        rows = (
            (ZERO, -lean / long, 1 / long),
            (-root, root / long, root * lean / long),
            (-root, -root / long, -root * lean / long),
        )
        half, deep = self.height / long, self.slot_reach / ROOT_2
        return Placement(rows, (start + lean * half, root * (deep - half), root * (deep + half)))

    def impossible(self) -> Iterator[Finding]:
        """Slots that come through, or into each other."""
        yield from super().impossible()
        if self.slot_reach >= 2 * self.thick:
            yield mistake(
                "no-room",
                f"Slots that reach {self.text(self.slot_reach)} along the outside faces come "
                "through at the inner corner.",
                f"Give less than {self.text(2 * self.thick)}.",
                "slot_reach",
            )
        # They lean to and fro, so that on each face every other two come nearer to each other.
        if self.width / self.count - self.mouth <= 2 * self.slope * self.slot_reach:
            yield mistake(
                "no-room",
                f"{self.count} slots have no room beside each other on a corner "
                f"{self.text(self.width)} long.",
                "Give fewer feathers, thinner ones, or a flatter slope.",
                "feathers" if self.given.feathers else "slope" if self.slope else "slot",
            )

    def advise(self) -> Iterator[Finding]:
        """Slots that nearly come through, or that the saw cannot cut."""
        kerf = self.request.tools.kerf
        if self.slot_reach > 2 * self.thick * DEEPEST:
            left = self.thick * ROOT_2 - self.slot_reach / ROOT_2
            yield advice(
                "slots-deep",
                f"Only {self.text(left)} of the mitre is left inside of the slots.",
                OURS,
                "Let them reach less far.",
                "slot_reach",
            )
        if kerf is not None and self.slot < kerf:
            yield advice(
                "slot-below-kerf",
                f"Your saw cuts {self.text(kerf)} wide, and a slot is {self.text(self.slot)}.",
                COMMON,
                "Make slots and feathers as thick as the saw's cut, or use a thinner saw.",
                "slot",
            )

    def rules(self) -> Iterator[str]:
        """Sizes that were not given."""
        given, text = self.given, self.text
        if given.feathers is None:
            yield f"Feathers: {self.count}, one for about twice the boards' thickness ({OURS})."
        if given.slot is None:
            kerf = ", your saw's cut" if self.request.tools.kerf else ""
            yield f"Slots: {text(self.slot)} wide{kerf} ({OURS})."
        if given.slot_reach is None:
            yield (
                f"Slots: {text(self.slot_reach)} along the outside faces, two thirds of the way in "
                f"({OURS})."
            )

    def rows(self) -> Iterator[joint.SettingOut]:
        """Both sides of each slot, on the corner."""
        marks = tuple(
            mark
            for number, start in enumerate(self.starts, start=1)
            for mark in joint.starts_and_ends(f"slot {number}", start, start + self.mouth)
        )
        yield joint.SettingOut(
            "along the outer corner",
            self.role(0),
            self.width,
            marks,
            main=True,
            along_end=False,
            use="Pencil the marks on that arris alone.",
        )

    def sizes(self) -> Iterator[joint.Size]:
        """Mitre, slots and feathers."""
        yield from super().sizes()
        yield joint.Size("slots and feathers, thickness", self.slot)
        yield joint.Size("feather, long side", 2 * self.height)
        yield joint.Size("feather, from there to its point", self.height)
        if self.count > 1:
            yield joint.Size("from one slot to the next, on the corner", self.width / self.count)

    def lengths(self) -> Iterator[joint.LengthSetting]:
        """How far the slots reach."""
        yield gauge("ends of the slots, on both outside faces, from the corner", self.slot_reach)

    def slopes(self) -> Iterator[joint.SlopeSetting]:
        """The ends, and slots that slant."""
        yield from super().slopes()
        if self.slope:
            use = "slots, off square to the corner, stock on the other board's outside face"
            yield joint.SlopeSetting(use, self.slope)

    def steps(self) -> Iterator[joint.Step]:
        """Slots after the glue (common practice, no source)."""
        text, kerf = self.text, self.request.tools.kerf
        first, second = self.named(0), self.named(1)
        yield from shaping(self)
        yield joint.Step(
            joint.Task.JOIN, "Glue the mitres", f"{fold_up(self)} Let the glue harden."
        )
        lines = "Square them, in pencil too, across both outside faces"
        if self.slope:
            lines = (
                f"Draw the slots on both outside faces with a bevel set to "
                f"{slope_text(self.slope)}, its stock on the other board's outside face. The slot "
                f"nearest to the reference edge falls towards that edge on {first} and rises on "
                f"{second}; the next one goes the other way, and so on, as the templates show"
            )
        yield joint.Step(
            joint.Task.LAY_ON,
            "Mark the slots",
            "Lay the setting-out strip along the outer corner, from the reference edge, and pencil "
            f"its marks on that arris alone. {lines}. Mark their ends {text(self.slot_reach)} from "
            f"the corner on the outside face of {first} and of {second}, between the two lines of "
            "a slot and nowhere else, for these faces show.",
            (0, 1),
        )
        cut = f"Saw {beside('both lines')}, and break out the strip between"
        if self.slot == kerf:
            cut = f"Saw between the lines, in one cut {text(kerf)} wide: try it in waste"
        elif kerf is None:
            cut = "Saw between the lines, in one cut where your saw's cut is as wide, else in two"
        yield joint.Step(
            joint.Task.CUT_SECOND,
            "Saw the slots",
            f"Clamp the piece with the corner up. {cut}. Go down to the marked ends on both faces "
            f"and straight between them, {text(self.slot_reach / ROOT_2)} deep under the corner. "
            "File or scrape the floor flat, where the feather's long side stands.",
            (0, 1),
        )
        yield joint.Step(
            joint.Task.MAKE_KEYS,
            "Make the feathers",
            f"Plane straight-grained wood to {text(self.slot)}, a sliding fit in the slots. Its "
            f"grain runs along the long side of the feather. Cut {self.count} for each corner by "
            f"the template, {text(2 * self.height)} along the long side: they stand out all round.",
        )
        yield joint.Step(
            joint.Task.GLUE,
            "Glue the feathers in",
            "Brush glue into the slots and on both faces of each feather, and press it down to the "
            "floor; thin wood swells at once, so do not wait. When the glue is hard, saw off what "
            "stands out, and plane it flush from the corner inwards, so that the feather does not "
            "split away at the corner.",
        )
