"""The rods of a job: what stands where along each board whose joints' places are told.

A board's name stands for several pieces (see `standing`); pieces with the same marks, such as
those that are mirror images, share a rod.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial

from msgspec.structs import replace

from joinery_templates.drawings.rod import Band, Rod
from joinery_templates.drawings.waste_words import depth_words
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.jobs.job import BROKEN, NO_RODS, Job
from joinery_templates.jobs.standing import Standing, by_board, corner_names, flats, pieces
from joinery_templates.joint import UPRIGHT_ENDS
from joinery_templates.joints.upright import TOP
from joinery_templates.lengths import Units, told_text
from joinery_templates.wood.board import BROAD, EDGES, Board, Face, Hand
from joinery_templates.wood.faces import laid_out
from joinery_templates.wood.polygons import Waste

_Span = tuple[Fraction, Fraction]


def rods(job: Job) -> Iterator[Rod]:
    """The rods, in the order of the boards.

    Where the job does not say how they are drawn, there is one for each piece that something is
    let into at a told place. What is let in and what is at the ends stand on one piece where their
    corners are at the same side of the furniture.
    """
    if job.rods == NO_RODS:
        return
    standings = by_board(job.joints)
    for board in job.boards:
        known = [one for one in standings.get(board.name, ()) if one.is_measured]
        found: dict[Rod, list[list[Standing]]] = {}
        for ones in pieces(known) if board.length is not None else ():
            if not job.rods and all(one.is_end for one in ones):
                continue
            found.setdefault(_rod(board, ones, job.units, job.rods == BROKEN), []).append(ones)
        for rod, alike in found.items():
            told = tuple(", ".join(corner_names(ones)) for ones in alike)
            start = rod.start or _start(alike)
            yield replace(rod, pieces=told, start=start)


def _start(alike: Iterable[Sequence[Standing]]) -> str:
    """The end that pieces are measured from, of stiles as they stand; where they differ, each."""
    ends: dict[Hand, list[str]] = {}
    nears = [*map(_at_start, alike)]
    up, *others = {near[0].placed.up_end for near in nears}
    if not others and up in UPRIGHT_ENDS.values():
        return up
    for near in nears:
        ends.setdefault(near[0].placed.hand, []).append(near[0].placed.corner.name)
    if len(ends) == 1:
        return str(*ends)
    return " and ".join(f"{hand} ({', '.join(corners)})" for hand, corners in ends.items())


def _at_start(ones: Sequence[Standing]) -> list[Standing]:
    """What is measured from the end that a rod is measured from: its first let-in joint's.

    What is let in comes first, for it may have a name for that end.
    """
    in_order = sorted(ones, key=lambda one: one.is_end)
    return [one for one in in_order if one.placed.hand is in_order[0].placed.hand]


def _rod(board: Board, ones: Sequence[Standing], units: Units, broken: bool) -> Rod:
    """The rod of one piece; where its start has no name of its own, that is left empty."""
    near = _at_start(ones)
    up = near[0].placed.up_end
    bands: list[Band] = []
    has_columns = any(one.on_leg or _is_aslant(_spans(one)) for one in ones)
    for one in ones:
        laid = partial(_laid, one, None if one in near else board.length)
        taken = list(_bands(one, has_columns, laid, units))
        is_alike = one.on_leg or len({band.side for band in taken}) == 1
        side = taken[0].side if taken and is_alike else None
        for band in _edges_of_mate(one, laid, side):
            known = {ZERO, board.length, *(at for other in taken for at in (other.low, other.high))}
            if not {band.low, band.high} <= known:
                taken.append(band)
        at, line = one.part.guide or (None, "")
        if at is not None and not any(laid(at) in (band.low, band.high) for band in taken):
            taken.append(Band(laid(at), laid(at), one.one.name, line, None, side))
        bands += taken
    in_order = tuple(sorted(bands, key=lambda band: (band.low, band.high)))
    sides = dict.fromkeys(band.side for band in in_order if band.side)
    if ones[0].on_leg or not sides:
        return Rod(board, (), up if up == TOP else "", in_order, broken, tuple(sides))
    # On the outside face, its left-hand end at the left, a board's reference edge is down.
    at_words = EDGES[near[0].placed.hand is not Hand.RIGHT]
    return Rod(board, (), up if up == TOP else "", in_order, broken, EDGES, at_words)


_Seen = dict[_Span, dict[Face, list[Waste]]]
"""What is seen of a joint's waste, by its places along the board, and on which face."""


def _spans(one: Standing) -> _Seen:
    """What a joint takes, by its stretches; of a hole the middle."""
    part = one.part
    found: _Seen = {}
    for face in part.faces:
        for waste in laid_out(part, face).waste if face is not Face.END_GRAIN else ():
            if not waste.is_groove:
                (_, low), (_, high) = waste.extent
                if waste.mouth:
                    low = high = waste.mouth.middle[1]
                found.setdefault((low, high), {}).setdefault(face, []).append(waste)
    return found


def _is_aslant(found: _Seen) -> bool:
    """Whether it runs across a broad face and ends elsewhere on one edge than on the other."""
    first, second = ({span for span in found if edge in found[span]} for edge in EDGES)
    on_faces = {face for seen in found.values() for face in seen} - set(EDGES)
    return bool(first and second and first != second and on_faces)


def _bands(
    one: Standing, has_columns: bool, at: Callable[[Fraction], Fraction], units: Units
) -> Iterator[Band]:
    """What a joint takes, each stretch told where most is seen of it.

    Where it runs across a broad face aslant, its places on each edge are told by themselves;
    beside such columns, what is seen of one edge alone stands in that edge's.
    """
    found = _spans(one)
    if _is_aslant(found):
        yield from _aslant(one, found, at, units)
        return
    for span, seen in found.items():
        low, high = sorted(map(at, span))
        face, words, stops = _most_seen(seen, one.board.thickness, units, _outer(one))
        # What runs from edge to edge at both faces is told of both.
        across = [one for one in seen.get(Face.REFERENCE_EDGE, ()) if one.depth is None]
        if len(across) > 1:
            words, stops = _through(across, one.board.thickness, units)
        is_own = one.on_leg or (has_columns and {*seen} == {face} <= {*EDGES})
        yield Band(low, high, one.one.name, words, stops, face if is_own else None)


def _aslant(
    one: Standing,
    found: _Seen,
    at: Callable[[Fraction], Fraction],
    units: Units,
) -> Iterator[Band]:
    """What a joint takes of the edges: told once, what goes alike of both, else edge by edge."""
    for span, seen in found.items():
        low, high = sorted(map(at, span))
        deep = {edge: {_layer(waste): waste for waste in seen.get(edge, ())} for edge in EDGES}
        alike = set.intersection(*map(set, deep.values()))
        for edge in (None, *EDGES):
            layers = deep[edge or Face.REFERENCE_EDGE]
            if own := [layers[one] for one in layers if (one in alike) == (edge is None)]:
                words, stops = _through(own, one.board.thickness, units)
                where = f"on the {edge} · " if edge else ""
                yield Band(low, high, one.one.name, f"{where}{words}", stops, edge)


def _layer(waste: Waste) -> _Span:
    """From where to where in the thickness some waste is, as an edge shows it."""
    (low, _), (high, _) = waste.extent
    return low, high


def _edges_of_mate(
    one: Standing, at: Callable[[Fraction], Fraction], side: Face | None
) -> Iterator[Band]:
    """Where the edges come of a board that crosses this one squarely, as of a rail on a stile."""
    assert one.board.length is not None
    across, along, through = one.to_own.rows[1]
    if across and not along and not through:
        board = one.mate.board
        places = (one.to_own.point((x, ZERO, ZERO))[1] for x in (ZERO, board.width))
        (low, edge), (high, other) = sorted(zip(map(at, places), EDGES, strict=True))
        words = f"{board.called}, {edge} to {other}"
        yield Band(max(low, ZERO), min(high, one.board.length), one.one.name, words, None, side)


def _through(seen: Sequence[Waste], thickness: Fraction, units: Units) -> tuple[str, bool]:
    """Which of the thickness some waste takes as an edge shows it; whether any is left."""
    taken: list[_Span] = []
    for low, high in sorted(map(_layer, seen)):
        start = taken.pop()[0] if taken and taken[-1][1] == low else low
        taken.append((start, high))
    told = []
    for low, high in taken:
        if low and high < thickness:
            told.append(
                f"{told_text(low, units)} to {told_text(high, units)} from the outside face"
            )
        else:
            face = Face.INSIDE if low else Face.OUTSIDE
            told.append(f"{face}, {told_text(high - low, units)} deep")
    stops = taken != [(Fraction(0), thickness)]
    return " and ".join(told) if stops else "right through", stops


def _outer(one: Standing) -> Face | None:
    """The face that looks where the other board's outside does; a frame is bored from there."""
    faces = (*EDGES, *BROAD)
    looks = {flat.normal: face for face, flat in zip(faces, flats(one.board), strict=True)}
    return looks.get(one.to_own.turned((ZERO, ZERO, -ONE)))


def _most_seen(
    seen: Mapping[Face, Sequence[Waste]], thickness: Fraction, units: Units, outer: Face | None
) -> tuple[Face, str, bool]:
    """On which face most is seen of some waste, and how deep it is there; whether it stops.

    What goes right through, and shows alike on two faces, is told of the outer one.
    """
    face = max(seen, key=lambda each: (sum(waste.area for waste in seen[each]), each is outer))
    depths = [waste.depth for waste in seen[face] if waste.depth]
    deep = depth_words(max(depths), units) if depths else "right through"
    if (
        depths
        and face in EDGES
        and any(_layer(one)[0] == 0 or _layer(one)[1] == thickness for one in seen[face])
    ):
        deep = f"runs {told_text(max(depths)[1], units)} in"  # a housing: not deep, but long
    hole = next((waste.mouth for waste in seen[face] if waste.mouth), None)
    bored = f"hole of {told_text(hole.diameter, units)}, " if hole else ""
    return face, f"{face}, {bored}{deep}", bool(depths)


def _laid(one: Standing, length: Fraction | None, y: Fraction) -> Fraction:
    """A place of a part from the rod's start; `length` is the board's where it faces that end."""
    at = one.along + y
    return at if length is None else length - at
