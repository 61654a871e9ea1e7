"""What the joints of a job do to each other where they stand on one board.

All is worked out from the wood: the waste of two joints, laid on one board.
"""

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Sequence
from itertools import chain, product

from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, Level, advice, mistake
from joinery_templates.jobs.closing import never_closed
from joinery_templates.jobs.free_ends import free_ends
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.legs import met_in_leg, no_leg
from joinery_templates.jobs.mistakes import Mistakes
from joinery_templates.jobs.open_rings import never_round
from joinery_templates.jobs.panels import at_far_edges, cut_into
from joinery_templates.jobs.rebates import around_rebates, covered, goes_on, runs_out
from joinery_templates.jobs.space_between import misfits
from joinery_templates.jobs.standing import (
    ALONG,
    BREAKS,
    THIN,
    At,
    Key,
    Standing,
    Told,
    are_counted,
    are_told,
    by_board,
    gap,
    is_groove,
    shows,
    stuff,
    thin_wall,
)
from joinery_templates.jobs.stopped_grooves import stops, with_stops
from joinery_templates.jobs.surroundings import with_own_words
from joinery_templates.jobs.which_piece import ends_left_out, hardly_meant, upside_down
from joinery_templates.joints.reading import shown
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Hand

IF_A_LEG = "; if it is a leg, say in each joint which face of it the rail comes to (on)"
GROOVE = "groove"
MOST_SORTS = 4
"""So many joints that may follow at a board's other end are tried; no piece has more."""


def known_together(
    joints: Sequence[JointJob | None], units: Units, mistakes: Mistakes
) -> tuple[JointJob, ...]:
    """The joints, with advice on what they do to each other and what their steps say of it.

    Mistakes are noted; where there are any, no joints are given.

    Args:
        joints: in the file's order, None for one that has a mistake of its own.
        units: that figures are told in.
        mistakes: those found so far; more are added.
    """
    told: dict[tuple[object, ...], Told] = {}
    on_boards = by_board(joints)
    at_edges, stopped = [*at_far_edges(on_boards)], [*stops(on_boards)]
    panelled = [rail for rail, _ in at_edges]
    twice = {rail.key for rail in panelled}
    found = chain.from_iterable(
        _on_board(standings, twice, units) for standings in on_boards.values()
    )
    in_tenons = (Told(rail, rail, each) for rail in panelled for each in cut_into(rail, units))
    letters = ends_left_out(on_boards)
    lengths = chain(misfits(on_boards, units), free_ends(on_boards, units))
    closing = chain(never_closed(on_boards), never_round(on_boards, units))
    for one in chain(found, letters, lengths, in_tenons, closing):
        told.setdefault(one.key, one)
    advised: dict[int, list[Finding]] = {}
    for one in told.values():
        if one.finding.level is Level.ERROR:
            mistakes.add(one.at.path, one.finding)
        else:
            advised.setdefault(one.at.number, []).append(one.finding)
    if mistakes.found:
        return ()
    hidden = [*panelled, *(stop.at for stop in stopped)]
    untrue = [
        # The other board's groove stops in the mortise, or runs on beside a further panel.
        *((number, f"{GROOVE}-shows") for number in _all_corners(hidden)),
        # Another joint's rebate is behind the shelf, and what lies there covers the housing.
        *((number, "housing-open") for number in covered(on_boards)),
    ]
    said = [one and with_own_words(one, on_boards, at_edges, stopped, units) for one in joints]
    return tuple(
        _advised(one, advised.get(number, ()), [code for at, code in untrue if at == number])
        for number, one in enumerate(with_stops(said, stopped))
        if one
    )


def _all_corners(standings: Sequence[Standing]) -> list[int]:
    """The joints of which every corner is among these."""
    count = Counter(number for number, _ in {(one.number, one.index) for one in standings})
    joints = {one.number: len(one.one.corners) for one in standings}
    return [number for number, corners in joints.items() if count[number] == corners]


def _advised(one: JointJob, more: Iterable[Finding], untrue: Sequence[str]) -> JointJob:
    """The joint with more advice.

    Args:
        one: the joint.
        more: what else is told.
        untrue: the codes of its own advice that does not hold beside the job's other joints.
    """
    own = (each for each in one.joint.findings if each.code not in untrue)
    return replace(one, joint=replace(one.joint, findings=(*own, *more)))


def _on_board(standings: Sequence[Standing], twice: Container[Key], units: Units) -> Iterator[Told]:
    yield from _named_twice(standings)
    yield from no_leg(standings)
    yield from upside_down(standings)
    yield from hardly_meant(standings)
    yield from _let_in_at_ends(standings, units)
    yield from _on_seams(standings, units)
    yield from around_rebates(standings, twice, units)
    places: dict[At | None, list[Standing]] = {}
    legs: list[set[int]] = []
    for one in standings:
        places.setdefault(one.at, []).append(one)
    for here in places.values():
        there = places.get(here[0].other_end, [])
        named = {one.placed.corner.name for one in here if not one.is_end}
        is_crowded = len(here) > len(there) or 0 < len(named) < len(here)
        # Each joint once: it does the same at every corner that is like this one.
        ours, theirs = ({one.number: one for one in reversed(some)} for some in (here, there))
        if here[0].on_leg:
            if {*ours} not in legs:  # what meets in one leg meets in all that are like it
                legs.append({*ours})
                yield from met_in_leg(ours.values(), units)
        elif is_crowded and not here[0].is_end:
            yield from _along(ours.values(), units)
        elif is_crowded and not are_counted(standings):
            yield from _at_one_end(here)
        for one in ours.values():
            # A joint that stands at the other end too leaves no room there for another.
            beyond = [theirs[one.number]] if one.number in theirs else [*theirs.values()]
            yield from _facing(one, beyond, units)
            yield from _grooved(one, beyond, units)


def _named_twice(standings: Sequence[Standing]) -> Iterator[Told]:
    """One corner that two joints claim for an end of the same board."""
    found: dict[tuple[str, bool], Standing] = {}
    for one in standings:
        corner = one.placed.corner
        if not one.is_end or not corner.like:
            continue
        # At a leg two pieces end, one in front and one at the side.
        at_side = one.one.joint.at_leg and one.at[1]
        first = found.setdefault((corner.name.lower(), at_side), one)
        if first.number != one.number:
            remedy = (
                "Leave it out of one of the two. At another piece the corner needs a name of its "
                f'own, such as {{ name = "Second box, {corner.name}", like = "{corner.like}" }}.'
            )
            if one.one.joint.at_leg:
                remedy = (
                    'What stands higher or lower at the leg needs a name: [boards."stretcher"].'
                )
            finding = mistake(
                "corner-twice",
                f"{shown(corner.name)} is given here and in {first.told}: "
                f'an end of "{one.board.name}" takes one joint.',
                remedy,
            )
            yield Told(one, first, finding)


def _at_one_end(ends: Sequence[Standing]) -> Iterator[Told]:
    """Joints at one end of a board, where there are not as many other ends to go with them."""
    first = ends[0]
    for one in ends:
        if one.number != first.number:
            finding = advice(
                "two-joints-at-end",
                f"{one.told_first} and {first.told} both take the {one.placed.hand} of "
                f'"{one.board.name}".',
                OURS,
                f"A board like {one.letter} at one end is like {one.far_letter} at the other: "
                "correct the corners, unless these are ends of two boards; then say how many there "
                f'are by pieces in [boards."{one.board.name}"].',
            )
            yield Told(one, first, finding)


def _along(let_in: Iterable[Standing], units: Units) -> Iterator[Told]:
    """Neighbours along one board, measured from the same end."""
    near: list[Standing] = []
    for one in sorted((one for one in let_in if one.is_measured), key=lambda each: each.span):
        thin = one.board.thickness * THIN
        near = [other for other in near if one.span[0] - other.span[1] < thin]
        for other in near:
            yield from _walled(other, one, units)
        near.append(one)


def _facing(one: Standing, beyond: Sequence[Standing], units: Units) -> Iterator[Told]:
    """A joint, and the one that comes nearest to it from the other end of the board."""
    measured = [other for other in beyond if other.is_measured]
    if measured and one.is_measured:
        nearest = max(measured, key=lambda each: each.span)
        yield from _walled(one, nearest, units, facing=True)


def _let_in_at_ends(standings: Sequence[Standing], units: Units) -> Iterator[Told]:
    """What is let into a board and comes out at its end, or into the joint there.

    Where joints of two sorts stand at ends that are alike, the shorter one is looked at.
    """
    is_told = are_told(standings)
    ends: dict[tuple[object, Hand], Standing] = {}
    let_in: dict[tuple[object, Hand, int], Standing] = {}
    for one in sorted(standings, key=lambda each: each.span, reverse=True):
        # Two boards that are mirror images have a top at ends of either hand.
        at = (one.piece if is_told else None), one.placed.hand
        if one.is_end:
            ends[at] = one
        elif one.is_measured:
            let_in[*at, one.number] = one
    for (piece, hand, _), one in let_in.items():
        if broken_out := [*_broken_out(one, units)]:
            yield from broken_out
            continue
        if (piece, hand) in ends:
            yield from _walled(one, ends[piece, hand], units)
        if (piece, hand.other) in ends:
            yield from _walled(one, ends[piece, hand.other], units, facing=True)


def _broken_out(one: Standing, units: Units) -> Iterator[Told]:
    (low, high), long = one.span, one.board.length
    if low < 0 or (long is not None and high > long):
        whole = f", and the board is {length_text(long, units)} long" if long is not None else ""
        finding = mistake(
            "out-at-end",
            f'{one.told_first} breaks out at an end of "{one.board.name}": it reaches from '
            f"{length_text(low, units)} to {length_text(high, units)} from the "
            f"{one.placed.up_end}{whole}.",
            "Move it, or take a longer board.",
        )
        yield Told(one, one, finding)


def _walled(one: Standing, other: Standing, units: Units, facing: bool = False) -> Iterator[Told]:
    """Two joints that take the same wood, or leave little between them.

    Args:
        one: a joint on a board.
        other: another, or the same at the board's other end.
        units: that figures are told in.
        facing: whether they are measured from opposite ends; the board's length must be told.
    """
    board, span, far = one.board, one.span, other.span
    length = board.length if facing else None
    if length is not None:
        far = (length - far[1], length - far[0])
    elif facing:
        return
    thin = board.thickness * THIN
    if gap(span, far) >= thin:
        return
    low, high = min(span[0], far[0]), max(span[1], far[1])
    ground = stuff(board, low, high)
    pairs = product(one.waste(ground), other.waste(ground, length))
    walls = (wall for a, b in pairs if (wall := a.wall(b)))
    weak = [(left, axis) for axis, left in walls if left < thin_wall(axis, board, units)]
    left, axis = min(weak, default=(thin, ALONG))
    if not left:
        taken = " and ".join(
            f"{length_text(low, units)} to {length_text(high, units)}" for low, high in (span, far)
        )
        finding = mistake(
            "joints-meet",
            f'{one.told_first} and {other.told} run into each other on "{board.name}": they take '
            f"{taken} of its length.",
            "Move one of them, or take a longer board; if they stand on two boards, give each a "
            f"name of its own{IF_A_LEG if not one.is_end else ''}.",
        )
    elif weak:
        need = "a third of the board's thickness"
        if axis != ALONG:
            need = length_text(BREAKS[units], units)
        finding = advice(
            "wall-thin",
            f"Between {one.told} and {other.told}, only {length_text(left, units)} of "
            f'"{board.name}" is left.',
            f"{OURS}: at least {need}",
            "Move one of them, or take a longer board.",
        )
    else:
        return
    first, later = sorted((one, other), key=lambda each: each.number)
    yield Told(later, first, finding)


def _on_seams(standings: Sequence[Standing], units: Units) -> Iterator[Told]:
    """What is let in across a seam, and cuts into the groove that runs all along it."""
    for seam in standings:
        cuts, boards = seam.part.cuts, seam.one.joint.boards
        if not seam.member or not cuts or not all(cut.runs_along for cut in cuts):
            continue
        for one in standings:
            if one.one.joint.boards == boards and one.number != seam.number:
                yield from _across(one, seam, units)


def _across(one: Standing, seam: Standing, units: Units) -> Iterator[Told]:
    board, thin = one.board, BREAKS[units]
    ground = stuff(board, *one.span)
    for taken, groove in product(one.waste(ground), seam.waste(ground)):
        wall = taken.wall(groove)
        if wall and wall[1] < thin:
            (start, floor), (near, far) = taken.solid.extents[2], groove.solid.extents[2]
            finding = advice(
                "tongue-cut",
                f'{one.told_first} takes "{board.name}" from {length_text(start, units)} to '
                f"{length_text(floor, units)} below its outside face, and there lies the tongue of "
                f"{seam.told}, from {length_text(near, units)} to {length_text(far, units)}.",
                f"{OURS}: at least {length_text(thin, units)} between them",
                "Close the seam without a tongue"
                + (
                    f", or go {length_text(near - thin, units)} deep at most."
                    if floor < board.thickness and near > thin
                    else "."
                ),
            )
            yield Told(one, seam, finding)
            return


def _grooved(one: Standing, beyond: Sequence[Standing], units: Units) -> Iterator[Told]:
    """A groove or rebate that is right for one joint and shows at the other end of the board."""
    for channel in one.channels():
        plain = (other for other in beyond[:MOST_SORTS] if not goes_on(channel, one, other))
        there = next((other for other in plain if shows(channel, other)), None)
        if there:
            name = GROOVE if is_groove(channel) else "rebate"
            yield Told(one, there, runs_out(name, channel, one, there, "at its other end", units))
