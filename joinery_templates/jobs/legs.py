"""What joints do to each other in a leg, which rails come to by two faces that meet.

Two mortises may run into each other there, as long as their tenons do not: they are mitred, or
one of them is short. All is worked out from the wood, in the frame of the leg.
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import product

from joinery_templates.errors import OURS, Finding, advice, mistake
from joinery_templates.jobs.standing import THIN, ZERO, Span, Standing, gap, pieces
from joinery_templates.joints.gauge import at_most_as_a_gauge_is_set
from joinery_templates.lengths import INCH, Units, length_text
from joinery_templates.wood.solid import Solid, box

Met = tuple[Standing, Standing, Finding]
BREAKS = {Units.MM: Fraction(2), Units.INCH: INCH / 16}
"""A wall beside a mortise thinner than this breaks out under the chisel (our judgement)."""
ALONG, NO_WALL = 1, (0, ZERO)


def met_in_leg(ones: Iterable[Standing], units: Units) -> Iterator[Met]:
    """What is told of joints that stand at one leg, each with the joint that it is told of.

    Args:
        ones: each joint once.
        units: that figures are told in.
    """
    here = [*ones]
    near: list[Standing] = []
    for one in here if len(here) > 1 else ():
        if not one.is_measured:
            finding = advice(
                "place-on-leg",
                f'Where {one.told} is on "{one.board.name}" is not told, so nobody knows what it '
                "meets in there.",
                OURS,
                "Give at: from the leg's top end to the rail's far edge.",
            )
            yield one, one, finding
    for one in sorted((each for each in here if each.is_measured), key=lambda each: each.span):
        thin = one.board.thickness * THIN
        near = [other for other in near if one.span[0] - other.span[1] < thin]
        for other in near:
            first, later = sorted((one, other), key=lambda each: each.number)
            yield from ((later, first, finding) for finding in _between(later, first, units))
        near.append(one)


def no_leg(standings: Sequence[Standing]) -> Iterator[Met]:
    """A board that is a leg to one joint and none to another: they could not be held together."""
    by_leg = next((one for one in standings if one.on_leg), None)
    other = next((one for one in standings if not one.on_leg), None)
    if by_leg and other:
        finding = mistake(
            "leg-and-no-leg",
            f'"{other.board.name}" is a leg in {by_leg.told} and none in {other.told}.',
            'Say in each which face of the leg the rail comes to, on = "reference-edge" or '
            '"inside", as mortises and tenons can; a board that is no leg needs another name.',
        )
        yield other, by_leg, finding


def not_upright(standings: Iterable[Sequence[Standing]], units: Units) -> Iterator[Met]:
    """Rails that keep the same two legs apart by different lengths, so that these would lean.

    Args:
        standings: what stands on each board.
        units: that figures are told in.
    """
    found: dict[tuple[bool, frozenset[str]], tuple[Fraction, Standing]] = {}
    for on_board in standings:
        ends = [one for one in on_board if one.is_end and one.one.joint.at_leg and one.is_square]
        for piece in pieces(ends):
            one, length = piece[0], piece[0].board.length
            if length is None or len(piece) != 2:
                continue
            apart = length - sum(each.placed.member.part.reach for each in piece)
            _, at_side, letter = one.at
            legs = at_side, frozenset((letter, one.far_letter))
            first, other = found.setdefault(legs, (apart, one))
            if first != apart:
                finding = advice(
                    "legs-lean",
                    f"Between the same two legs there are {length_text(first, units)} by "
                    f"{other.told} and {length_text(apart, units)} by {one.told}.",
                    OURS,
                    "Correct the length of a rail, or of its tenons.",
                )
                yield one, other, finding


def _between(one: Standing, other: Standing, units: Units) -> Iterator[Finding]:
    board = one.board
    low, high = min(one.span[0], other.span[0]), max(one.span[1], other.span[1])
    ground = box((ZERO, low, ZERO), (board.width, high, board.thickness))
    if other.in_mates(one.in_mates([ground])):
        yield mistake(
            "tenons-meet",
            f'In "{board.name}" the tenons of {other.told} and of {one.told} run into each other.',
            _remedy(one, other, ground, units),
        )
        return
    for bored, met in ((one, other), (other, one)):
        if met.in_mates([each.solid for each in bored.waste(ground, None) if each.is_bored]):
            yield mistake(
                "peg-in-tenon",
                f'In "{board.name}" a peg of {bored.told} runs into the tenon of {met.told}.',
                "Bring the peg nearer to its shoulder, or bore it less deep.",
            )
            return
    wastes = product(one.waste(ground, None), other.waste(ground, None))
    for axis, wall in sorted({_wall(a.solid, b.solid) for a, b in wastes} - {NO_WALL}):
        thin = board.thickness * THIN if axis == ALONG else BREAKS[units]
        if 0 < wall < thin:
            yield advice(
                "wall-thin",
                f"Between {one.told} and {other.told}, only {length_text(wall, units)} of "
                f'"{board.name}" is left.',
                f"{OURS}: at least {length_text(thin, units)}",
                "Move one of them."
                if axis == ALONG
                else "Make one tenon a little shorter, or so long that the mortises meet.",
            )
            return


def _wall(one: Solid, other: Solid) -> tuple[int, Fraction]:
    """Along which axis two mortises lie side by side, if along one alone, and what is between."""
    apart = [gap(one.extent(axis), other.extent(axis)) for axis in range(3)]
    walls = [(axis, distance) for axis, distance in enumerate(apart) if distance >= 0]
    return walls[0] if len(walls) == 1 else NO_WALL


def _remedy(one: Standing, other: Standing, ground: Solid, units: Units) -> str:
    short = [
        f"that of joint {a.number + 1} to {length_text(length, units)}"
        for a, b in ((one, other), (other, one))
        if (length := _short_enough(a, b, ground, units)) > 0
    ]
    mitred = (
        'mitre both, tenon_end = "mitred", each so long that its tip stays before the outer side '
        "of the other mortise"
    )
    if not short:
        return f"{mitred.capitalize()}; or move one of them."
    return f"Shorten one tenon, {' or '.join(short)}; or {mitred}."


def _short_enough(one: Standing, other: Standing, ground: Solid, units: Units) -> Fraction:
    """The length of a tenon whose mortise leaves a wall before another one; 0 where none does."""
    axis, is_from_far = one.enters
    size = (one.board.width, ZERO, one.board.thickness)[axis]

    def depths(solids: Iterable[Solid]) -> Span:
        spans = [solid.extent(axis) for solid in solids]
        low, high = min(span[0] for span in spans), max(span[1] for span in spans)
        return (size - high, size - low) if is_from_far else (low, high)

    own, others = (
        depths(each.solid for each in standing.waste(ground, None)) for standing in (one, other)
    )
    spare = own[1] - depths(one.in_mates([ground]))[1]
    room = others[0] - spare - BREAKS[units]
    return at_most_as_a_gauge_is_set(room, units) if room > 0 else ZERO
