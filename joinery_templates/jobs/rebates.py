"""What a rebate along a board does to the board's other joints: it runs from end to end.

So a board has one of a size along an edge, what stands on the board leaves room for what lies in
it, what lies across the board is not cut away for wood that it has taken, and at both ends it comes
out through the joint there.
"""

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from itertools import chain, combinations

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, advice
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.jobs.standing import (
    SHAVING,
    Key,
    Span,
    Standing,
    Told,
    known_pieces,
    shows,
    stuff,
)
from joinery_templates.jobs.stopped_grooves import between, hidden
from joinery_templates.joints.catalogue import known_kind
from joinery_templates.joints.upright import OPPOSITE
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import HalfSpace, Stretch
from joinery_templates.wood.solid import box, remaining

Channel = frozenset[HalfSpace]


class Rebate(Struct, frozen=True):
    """A rebate along a board's inside face.

    Attributes:
        channel: what bounds it.
        edge: along which it runs.
        across: from where to where, from the reference edge.
        depth: below the face.
    """

    channel: Channel
    edge: Face
    across: Span
    depth: Fraction

    @property
    def width(self) -> Fraction:
        """From its edge."""
        return self.across[1] - self.across[0]

    def at_other_edge(self, board: Board) -> "Rebate":
        """The same along the board's other edge."""
        low, high = (board.width - x for x in reversed(self.across))
        return replace(self, edge=OPPOSITE[self.edge], across=(low, high))

    @property
    def size(self) -> tuple[Face, Fraction, Fraction]:
        """What is equal for two that are one."""
        return self.edge, self.width, self.depth


def around_rebates(
    standings: Sequence[Standing], twice: Container[Key], units: Units
) -> Iterator[Told]:
    """What rebates do to the other joints of the boards of one name.

    Args:
        standings: all that stands on them.
        twice: the ends that have their rebate along the other edge too, by their keys.
        units: that figures are told in.
    """
    for piece in _pieces(standings):
        # Each joint once: it does the same at every corner that is like this one.
        firsts = {one.number: one for one in reversed(piece)}
        joints = [firsts[number] for number in sorted(firsts)]
        rebated = [(one, rebate) for one in joints for rebate in rebates(one)]
        for (one, own), (later, there) in combinations(rebated, 2):
            if own.edge == there.edge and own.size != there.size:
                yield Told(later, one, _differ(later, there, one, own, units))
        ends = [*{one.number: one for one in reversed(piece) if one.is_end}.values()]
        for one in joints:
            if not one.is_end:
                yield from _filled(one, rebated, units)
                yield from _run_out(one, ends, units)
                yield from _left_open(one, rebated, twice, units)


def _left_open(
    one: Standing,
    rebated: Iterable[tuple[Standing, Rebate]],
    twice: Container[Key],
    units: Units,
) -> Iterator[Told]:
    """Another board that is cut away for all of this one, which has a rebate there."""
    for other, rebate in rebated:
        if other is one or standing_in(one, rebate):
            continue  # its layout keeps clear, or it is told that the board stands in the way
        edges = [rebate, rebate.at_other_edge(one.board)][: 1 + (other.key in twice)]
        missing = [each for each in edges if not_filled(one, each)]
        if missing:
            yield Told(one, other, _open(one, missing, other, units))
            return


def _filled(
    one: Standing, rebated: Iterable[tuple[Standing, Rebate]], units: Units
) -> Iterator[Told]:
    """What stands on the board where another joint's rebate is; the widest is told."""
    found = [
        (wide, other, rebate)
        for other, rebate in rebated
        if other is not one and (wide := standing_in(one, rebate))
    ]
    if found:
        wide, other, rebate = max(found, key=lambda each: each[0])
        yield Told(one, other, _in_the_way(one, wide, other, rebate, units))


def _run_out(one: Standing, ends: Iterable[Standing], units: Units) -> Iterator[Told]:
    """A rebate that is told away from the board's ends, and can be seen at one of them."""
    for own in rebates(one):
        for end in ends:
            if not goes_on(own.channel, one, end) and shows(own.channel, end):
                yield Told(one, end, runs_out("rebate", own.channel, one, end, "at its end", units))


def rebates(one: Standing) -> list[Rebate]:
    """Those in the inside face of a joint's board."""
    board, found = one.board, []
    for channel in one.channels():
        solid = stuff(board, ZERO, ONE).within(channel)
        if not solid:
            continue
        across, _, (floor, top) = solid.extents
        edges = [
            edge
            for edge, is_there in (
                (Face.REFERENCE_EDGE, across[0] <= 0),
                (Face.FAR_EDGE, across[1] >= board.width),
            )
            if is_there
        ]
        if len(edges) == 1 and top == board.thickness:
            found.append(Rebate(channel, edges[0], across, top - floor))
    return found


def goes_on(channel: Channel, one: Standing, other: Standing) -> bool:
    """Whether a groove or rebate of a joint is told by another one too, a rebate in any size."""
    edges = {own.edge for own in rebates(one) if own.channel == channel}
    return channel in other.channels() or any(own.edge in edges for own in rebates(other))


def standing_in(one: Standing, rebate: Rebate) -> Fraction:
    """How wide the other board of a joint stands in the room of what lies in a rebate."""
    (low, high), thick = rebate.across, one.board.thickness
    room = box(
        (low, one.part.shown_from(one.part.reach), thick), (high, one.part.reach, thick + ONE)
    )
    inside = room.within(one.wood_of_mate)
    if not inside:
        return ZERO
    start, end = inside.extents[0]
    return end - start if end - start > SHAVING else ZERO


def not_filled(one: Standing, rebate: Rebate) -> bool:
    """Whether the other board of a joint is cut away for wood that a rebate has taken."""
    (low, high), thick = rebate.across, one.board.thickness
    start = one.part.shown_from(one.part.reach)
    taken = box((low, start, thick - rebate.depth), (high, one.part.reach, thick))
    cuts = (cut.half_spaces for cut in one.mate.cuts if not (cut.is_groove or cut.bore))
    sides = [map(one.to_own.half_space, each) for each in cuts]
    found = [solid for each in sides if (solid := taken.within((*each, *one.wood_of_mate)))]
    left = remaining(found, (cut.half_spaces for cut in one.joint_cuts))
    return any(high - low > SHAVING for solid in left for low, high in solid.extents[:1])


def runs_out(
    name: str, channel: Channel, one: Standing, there: Standing, where: str, units: Units
) -> Finding:
    """A groove or rebate that can be seen where it comes out of a board.

    Args:
        name: what it is.
        channel: what bounds it.
        one: the joint that has it.
        there: the joint through which it comes out.
        where: at which end of the board that is.
        units: that figures are told in.
    """
    place, start = length_text(there.along + there.part.reach, units), "that end"
    if isinstance(there.part, Stretch):
        place = f'where "{there.mate.board.name}" comes, {place}'
        if span := hidden(there, channel):
            place = f"in the mortise there, {between(span, units)}"
        start = start if there.is_measured else _line_there(there, there.part.line) or start
    remedy = f"Stop it {place} from {start}"
    if can_have(name, there):
        remedy += f", or {same(name)}"
    return advice(
        f"{name}-shows",
        f'The {name} of {one.told} runs on along "{one.board.name}" and shows {where}, in '
        f"{there.told}.",
        OURS,
        f"{remedy}.",
    )


def _line_there(there: Standing, line: str) -> str:
    """What a place is measured from in a joint that nobody told how far it is from the end."""
    mate = there.one.joint.members[1 - there.member]
    side, _, _ = line.removeprefix(f"{mate.role}'s ").partition(" at ")
    return side and f'the {side} of "{mate.part.board.name}"'


def can_have(name: str, one: Standing) -> bool:
    """Whether a joint can be given a groove or a rebate of its own."""
    kind = known_kind(one.one.joint.kind)
    return name in (declared.name for declared in kind.parameters)


def same(name: str) -> str:
    """The remedy where a joint can be given the groove or rebate that another one has."""
    return f"give that joint the same {name}: its layout then keeps clear"


def covered(on_boards: Mapping[str, Sequence[Standing]]) -> set[int]:
    """The joints behind whose board there is nothing but another joint's rebate, by their numbers.

    Args:
        on_boards: what stands on each board.
    """
    found: set[int] = set()
    for piece in chain.from_iterable(map(_pieces, on_boards.values())):
        firsts = {one.number: one for one in piece}
        behind = max(
            (
                rebate.width
                for rebate in chain.from_iterable(map(rebates, firsts.values()))
                if rebate.edge is Face.FAR_EDGE
            ),
            default=ZERO,
        )
        found |= {
            one.number
            for one in piece
            if not one.is_end and 0 <= one.board.width - one.mate.board.width <= behind
        }
    return found


def _pieces(standings: Sequence[Standing]) -> Sequence[Sequence[Standing]]:
    """What stands on each piece; all together where corners do not tell."""
    return known_pieces(standings) or [standings]


def _differ(one: Standing, own: Rebate, other: Standing, theirs: Rebate, units: Units) -> Finding:
    sizes = [
        f"{length_text(each.width, units)} wide and {length_text(each.depth, units)} deep"
        for each in (own, theirs)
    ]
    return advice(
        "rebates-differ",
        f'Along the {own.edge} of "{one.board.name}", the rebate of {one.told} is {sizes[0]}, and '
        f"that of {other.told} {sizes[1]}: a rebate runs from end to end, so it is one.",
        OURS,
        "Give both the same width and depth, or give the boards names of their own.",
        "rebate",
    )


def _in_the_way(
    one: Standing, wide: Fraction, other: Standing, rebate: Rebate, units: Units
) -> Finding:
    mate, into = one.mate.board, length_text(wide, units)
    remedies = []
    if rebate.edge is Face.REFERENCE_EDGE:
        remedies.append('put the rebate at the far edge (edge = "far")')
        wide = max(ZERO, mate.width + rebate.width - one.board.width)
    if wide:
        remedies.append(f'make "{mate.name}" {length_text(mate.width - wide, units)} wide')
    first = " and ".join(remedies)
    return advice(
        "rebate-filled",
        f'"{mate.name}" in {one.told} stands {into} into the room of what lies in '
        f'the rebate of {other.told}, along the {rebate.edge} of "{one.board.name}".',
        OURS,
        f"{first[0].upper()}{first[1:]}, unless what lies there is in pieces.",
    )


def _open(one: Standing, missing: Sequence[Rebate], other: Standing, units: Units) -> Finding:
    mate, wide = one.mate.board, length_text(missing[0].width, units)
    along = f"its {missing[0].edge}" if len(missing) == 1 else "each of its edges"
    remedy = f'leave so much of "{mate.name}" standing there'
    floor = one.board.thickness - missing[0].depth
    sides = chain.from_iterable(cut.half_spaces for cut in one.joint_cuts)
    if can_have("rebate", one):
        remedy = same("rebate")
    elif floor not in {abs(side.limit) for side in sides if side.normal[2]}:
        meet = length_text(floor, units)
        remedy = (
            f"let the two meet {meet} from the outside face, at the rebate's floor, and {remedy}"
        )
    return advice(
        "rebate-open",
        f'In {one.told}, "{mate.name}" is cut away for the whole width of "{one.board.name}", and '
        f"of that the rebate of {other.told} takes {wide} along {along}: so much stays open.",
        OURS,
        f"{remedy[0].upper()}{remedy[1:]}.",
    )
