"""What shows of a glued corner planed flush, by kind: worked out from what each joint is for.

A thin skin under each of the corner's faces is looked at as a solid. The corner is where
the two boards, taken as whole as they are bought, would lie in one place; nothing of the
layout's lines is used, but for how many tails it says that there are.

      tail board's face: pins' ends?       y from the pin board's outside face
        +-------------------+----          z from the tail board's outside face
    pin |  the corner, seen |
  board |  on its edge      | tail board
 's face+-------------------+----
  tails'|   pin board       |
   ends?
"""

from collections.abc import Iterator
from dataclasses import dataclass

from manifold3d import Manifold

from joinery_templates.exact import Fraction, exactly
from joinery_templates.joint import Joint
from joinery_templates.joints.kind import Request
from joinery_templates.wood.board import Board
from joinery_templates.wood.cut import HalfSpace, at_least, at_most
from tests.joints.solids import CLOSE_MM3, SHY_MM, board_solid, convex, placed

SKIN = Fraction(1, 100)
"""How deep a face is looked into. A mitre at 45 degrees runs out within it, so that much is
left out beside the corner's arris."""
EVERYWHERE = Manifold.cube((900.0, 500.0, 500.0)).translate((-100.0, -200.0, -200.0))
ZERO = Fraction(0)

PULL = 0.1

NOTHING = "nothing"
ENDS = "the ends of tails or pins"
LAP = "the end of a lap, along the arris"
ENDS_AND_LAP = "both"

IN_LAP = "in the pin board's lap"
BEHIND_TAIL_LAP = "behind the tail board's lap"
UNDER_MITRE = "on the pin board's side of the mitre"
ALL, NONE = (), None
"""All of the corner on its edge, and nothing of it."""
TAILS, PINS = 0, 1
NAMES = ("tail board", "pin board")


@dataclass(frozen=True)
class Shown:
    """What shows of one board on the other one's outside face, and on the corner's edges.

    Attributes:
        pins: of the pin board, on the tail board's outside face.
        tails: of the tail board, on the pin board's outside face.
        pins_at_half_pin: where on an edge pin board is seen beside a half pin.
        pins_at_half_tail: where beside a half tail; the same for a kind that has none.
        pins_at_mitre: where an edge is mitred.
        edges: False where the two boards' edges lie in two planes, as when boards lean.
    """

    pins: str
    tails: str
    pins_at_half_pin: tuple[str, ...] | None = ALL
    pins_at_half_tail: tuple[str, ...] | None = NONE
    pins_at_mitre: tuple[str, ...] | None = (UNDER_MITRE,)
    edges: bool = True


THROUGH = Shown(pins=ENDS, tails=ENDS)
LEANING = Shown(pins=ENDS, tails=ENDS, edges=False)
SHOWN = {
    "through-dovetail": THROUGH,
    "canted-dovetail": LEANING,
    "angled-dovetail": LEANING,
    # Drawer fronts: nothing shows in front. On the side the front's lap shows its end grain.
    "lapped-dovetail": Shown(pins=ENDS_AND_LAP, tails=NOTHING, pins_at_half_tail=(IN_LAP,)),
    # A line of end grain, as thick as the tail board's lap, on the pin board's side only.
    "double-lapped-dovetail": Shown(
        pins=NOTHING,
        tails=LAP,
        pins_at_half_pin=(BEHIND_TAIL_LAP,),
        pins_at_half_tail=(IN_LAP, BEHIND_TAIL_LAP),
    ),
    # Through between the mitred edges, and there nothing but the mitre.
    "mitred-shoulder-dovetail": THROUGH,
    # Secret: only a mitre shows, on the edges.
    "full-blind-dovetail": Shown(pins=NOTHING, tails=NOTHING),
}


@dataclass(frozen=True)
class Corner:
    """A joint as solids in the tail board's frame, with the figures that it was asked for."""

    joint: Joint
    request: Request
    wood: tuple[Manifold, Manifold]

    def told(self, name: str) -> Fraction:
        """A length that was asked for, 0 where the kind knows no such thing."""
        return exactly(getattr(self.request.given, name, 0))

    def of(self, number: int, *held: HalfSpace) -> tuple[HalfSpace, ...]:
        """Half-spaces of a board's own frame."""
        return tuple(map(self.joint.placement.half_space, held)) if number else held

    @property
    def mitred(self) -> tuple[Fraction, Fraction]:
        """How much is mitred at the reference edge and at the far edge."""
        width, where = self.told("mitre"), getattr(self.request.given, "mitred_edge", "both")
        return width * (where != "far"), width * (where != "reference")

    @property
    def mitre(self) -> HalfSpace:
        """What lies on the pin board's side of 45 degrees from the arris outside."""
        front = self.joint.placement.point((ZERO, ZERO, ZERO))[1]
        return HalfSpace((ZERO, Fraction(1), Fraction(-1)), front)

    def bought(self, number: int, *held: HalfSpace) -> Manifold:
        """A board far past its end, and what of it lies in half-spaces of the first board."""
        return convex((*self.of(number, *_sides(self.request.boards[number])), *held), EVERYWHERE)

    @property
    def whole(self) -> Manifold:
        """Where both boards would lie if nothing were cut away."""
        return self.bought(TAILS, *self.of(PINS, *_sides(self.request.boards[PINS])))

    def skin(self, number: int) -> Manifold:
        """The corner just under a board's outside face, but for a hair beside the arris."""
        held = self.of(number, at_most(2, SKIN)), self.of(1 - number, at_least(2, SKIN))
        return convex((*held[0], *held[1]), self.whole)

    @property
    def pieces(self) -> tuple[int, int]:
        """How many tails and how many pins there are, half ones counted whole."""
        sides = sum("tail" in mark.what for mark in self.joint.main_row.marks)
        half_tails = self.request.given.edges == "half-tail"
        return sides // 2 + half_tails, sides // 2 + (not half_tails)


def corner_of(joint: Joint, request: Request) -> Corner:
    """The solids, built once."""
    one, other = joint.members
    wood = board_solid(one.part), placed(board_solid(other.part), joint.placement)
    return Corner(joint, request, wood)


def _sides(board: Board) -> tuple[HalfSpace, ...]:
    ends = ((0, board.width), (2, board.thickness))
    return tuple(h for axis, far in ends for h in (at_least(axis, ZERO), at_most(axis, far)))


def _count(solid: Manifold) -> int:
    """Its pieces that hang together, the kernel's crumbs left out."""
    return sum(piece.volume() > CLOSE_MM3 for piece in solid.decompose())


def _lacks(wood: Manifold, region: Manifold) -> bool:
    return region.volume() - (wood ^ region).volume() > CLOSE_MM3


def wrong_on_faces(kind: str, corner: Corner) -> Iterator[str]:
    """What shows on the two outside faces and should not, or the other way round."""
    for number, what in enumerate((SHOWN[kind].pins, SHOWN[kind].tails)):
        face, mate, skin = f"{NAMES[number]}'s outside face", 1 - number, corner.skin(number)
        own, other = corner.wood[number], corner.wood[mate]
        if what in (LAP, ENDS_AND_LAP):
            # The pin board's lap lies at its outside face, and the tail board's at its own.
            lap = corner.told(("tail_lap", "lap")[mate])
            if _lacks(other, convex(corner.of(mate, at_most(2, lap)), skin)):
                yield f"{face}: the end of the lap is not whole"
            # A hair behind it: what only touches would hang together for the kernel.
            skin = convex(corner.of(mate, at_least(2, lap + SHY_MM)), skin)
        wanted = corner.pieces[mate] if what in (ENDS, ENDS_AND_LAP) else 0
        foot = corner.request.boards[mate].thickness - SKIN
        parts = {"in all": skin, "at their feet": convex(corner.of(mate, at_least(2, foot)), skin)}
        if what is ENDS:
            parts["at the arris"] = convex(corner.of(mate, at_most(2, 2 * SKIN)), skin)
        for where, part in parts.items():
            if (seen := _count(other ^ part)) != wanted:
                yield f"{face}: {seen} pieces show {where} and not {wanted}"
        if not wanted and _lacks(own, skin):
            yield f"{face}: its own wood is not whole"
        # Not of their union: see `mate`.
        shared = (own ^ other ^ skin).volume()
        seen = (own ^ skin).volume() + (other ^ skin).volume() - shared
        if corner.joint.allowance <= 0 and skin.volume() - seen > CLOSE_MM3:
            yield f"{face}: there is a hole"
        for strip in _mitred_strips(corner):
            if _lacks(own, convex(strip, skin)):
                yield f"{face}: more than a mitre shows at a mitred edge"


def _mitred_strips(corner: Corner) -> Iterator[tuple[HalfSpace, ...]]:
    width, (near, far) = corner.request.boards[0].width, corner.mitred
    if near:
        yield (at_most(0, near),)
    if far:
        yield (at_least(0, width - far),)


def wrong_on_edges(kind: str, corner: Corner) -> Iterator[str]:
    """The same for the corner's two edges; none for boards that lean, or where a rebate runs."""
    shown, given, width = SHOWN[kind], corner.request.given, corner.request.boards[0].width
    if not shown.edges or given.rebate:
        return
    planes = {
        IN_LAP: corner.of(PINS, at_most(2, corner.told("lap"))),
        BEHIND_TAIL_LAP: (at_least(2, corner.told("tail_lap")),),
        UNDER_MITRE: (corner.mitre,),
    }
    beside = {"half-pin": shown.pins_at_half_pin, "half-tail": shown.pins_at_half_tail}
    skins = {"reference": at_most(0, SKIN), "far": at_least(0, width - SKIN)}
    for mitred, (edge, skin) in zip(corner.mitred, skins.items(), strict=True):
        pins = shown.pins_at_mitre if mitred else beside[given.edges]
        seen = convex((skin,), corner.whole)
        held = [plane for words in pins or () for plane in planes[words]]
        of_pins = Manifold() if pins is NONE else convex(tuple(held), seen)
        if _lacks(corner.wood[PINS], of_pins):
            yield f"{edge} edge: the pin board does not show where it should"
        if _lacks(corner.wood[TAILS], seen - of_pins):
            yield f"{edge} edge: the tail board does not show where it should"


def wrong_beyond(corner: Corner) -> Iterator[str]:
    """What is cut away past the corner, grooves aside, and what stands further out than asked."""
    proud = corner.told("tails_proud"), corner.told("pins_proud")
    for number, member in enumerate(corner.joint.members):
        mate, end = 1 - number, member.part
        inside = corner.request.boards[mate].thickness
        beyond = corner.bought(
            number,
            *corner.of(mate, at_least(2, inside + SHY_MM)),
            *corner.of(number, at_most(1, end.reach + 5)),
        )
        for low, high, depth in _channels(corner):
            bottom = end.board.thickness - depth
            ploughed = at_least(0, low), at_most(0, high), at_least(2, bottom)
            beyond -= convex(corner.of(number, *ploughed), EVERYWHERE)
        if _lacks(corner.wood[number], beyond):
            yield f"{NAMES[number]}: cut into past the other board's inside face"
        past = convex(corner.of(mate, at_most(2, -proud[number])), corner.wood[number])
        if past.volume() > CLOSE_MM3:
            yield f"{NAMES[number]}: stands too far past the other board's outside face"


def wrong_when_pulled(corner: Corner) -> Iterator[str]:
    """Boards that do not part along the pin board, or do part along the tail board.

    The one is seen where no side presses, the other where there is no gap either.
    """
    (tails, pins), joint = corner.wood, corner.joint
    off = [-PULL * float(row[1]) for row in joint.placement.rows]
    if joint.allowance >= 0 and (tails.translate(off) ^ pins).volume() > CLOSE_MM3:
        yield "the tail board does not come off along the pin board"
    if not joint.allowance and (tails.translate((0, PULL, 0)) ^ pins).volume() < PULL**2:
        yield "the tail board can be pulled off along its own length"


def _channels(corner: Corner) -> Iterator[tuple[Fraction, Fraction, Fraction]]:
    """Grooves and rebates on the inside: from, to, and how deep by the table of sizes."""
    given, width = corner.request.given, corner.request.boards[0].width
    sizes = {size.name: size.length for size in corner.joint.sizes}
    if given.groove and given.groove.face == "inside":
        low = given.groove.from_edge
        yield low, low + given.groove.width, sizes["groove, how deep"]
    if given.rebate:
        low = ZERO if given.rebate.edge == "reference" else width - given.rebate.width
        yield low, low + given.rebate.width, sizes["rebate, how deep"]
