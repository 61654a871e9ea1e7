"""The wood that leaves a rail for its tenons, and a stile for its mortises."""

from collections.abc import Iterable, Iterator
from itertools import pairwise, repeat

from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joints.tenons.proportions import Span
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.upright import LEGS, TOP
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import (
    AT_ONCE,
    Bared,
    BoardEnd,
    Cut,
    HalfSpace,
    Stage,
    Stretch,
    Surface,
    at_least,
    at_most,
)
from joinery_templates.wood.hole import round_hole

LINE = "rail's far edge"
HANDS = ("towards its right-hand end", "towards its left-hand end")
"""Which end of the stile the joint is near: where the rail's is a left-hand end, and the other."""
CHEEK, EDGE, MITRE, KERF = "cheek", "edge", "mitre", "kerf"
CHOP, HAUNCH, PARE = "chop", "haunch", "pare"
BORE_STILE, BORE_TENON = "bore the stile", "bore the tenon"

Sides = tuple[HalfSpace, ...]
Named = tuple[str, Cut]
"""A piece of waste, and what is done when it leaves."""


def rail_end(tenon: Tenon) -> BoardEnd:
    """The rail with all but its tenons taken away; of what is not used no stage is counted."""
    # Cheeks are sawn right across, before the wood at the edges goes.
    cuts = (*_staged((*_cheeks(tenon), *_at_tenon(tenon))), *_channels(tenon, ZERO))
    is_one_line = tenon.is_square and not tenon.given.rebate
    return BoardEnd(tenon.rail, cuts, tenon.reach, gauged=is_one_line)


def bared_cheeks(tenon: Tenon) -> Iterator[Bared]:
    """Those cheeks on which something is cut that neither the end grain nor the edges show."""
    staged = _staged((*_cheeks(tenon), *_at_tenon(tenon)))
    later = [cut for cut in staged if cut.stage.name != CHEEK]
    if Face.OUTSIDE in tenon.bared:
        yield _cheek(tenon, Face.OUTSIDE, [cut for cut in later if cut.stage.name != MITRE])
    if Face.INSIDE in tenon.bared:
        # It looks as the inside face does, so it is laid out as if it lay there.
        slant = _mitre(tenon.rail.thickness - tenon.mitre)
        cuts = (
            replace(cut, half_spaces=(slant, *cut.half_spaces[1:3]))
            if cut.stage.name == MITRE
            else cut
            for cut in later
            if cut.stage.name in (EDGE, MITRE)
        )
        yield _cheek(tenon, Face.INSIDE, cuts)


def _cheek(tenon: Tenon, face: Face, cuts: Iterable[Cut]) -> Bared:
    """A cheek with its waste, which goes on from there through the tenon, and what is ploughed."""
    ploughed = _channels(tenon, ZERO) if tenon.ploughed_off(face) else ()
    flat = (
        replace(cut, half_spaces=tuple(one for one in cut.half_spaces if any(one.normal[:2])))
        for cut in (*cuts, *ploughed)
    )
    return Bared(
        tenon.rail,
        tuple(dict.fromkeys(flat)),
        tenon.reach,
        gauged=tenon.is_square,
        name=f"tenon's {str(face).replace('face', 'cheek')}",
        face=face,
        check=from_shoulder(tenon, face),
    )


def from_shoulder(tenon: Tenon, face: Face) -> str:
    """How a cheek's template is checked: how far something on it is from the shoulder."""
    if face is Face.INSIDE:
        return f"{tenon.text(tenon.length - tenon.mitre)} from the shoulder to the mitre"
    if tenon.given.drawbore and tenon.is_square:
        middle = tenon.text(tenon.from_shoulder - tenon.offset)
        return f"{middle} from the shoulder to the middle of the hole"
    return ""


def wedge(tenon: Tenon) -> BoardEnd:
    """A wedge at the end of its stock: the thin end first."""
    # From nothing at the end to what fills kerf and flare, where the mortise holds it, and on.
    slant = HalfSpace((-tenon.wedge_held, tenon.wedge_end, ZERO), ZERO)
    end = at_most(1, tenon.wedge_length, Surface.SAWN_SHOULDER)
    return BoardEnd(tenon.wedge_stock, (Cut((slant, end)),), tenon.wedge_length)


def _cheeks(tenon: Tenon) -> Iterator[Named]:
    low, high = tenon.cheeks[0][0], tenon.cheeks[-1][1]
    shoulder, floor = tenon.shoulder, tenon.channel[0]
    if low:
        yield CHEEK, Cut((at_most(2, low), shoulder))
    if high < tenon.rail.thickness and tenon.given.rebate:
        # Below the rebate's floor the shoulder is longer.
        longer = shoulder.moved(-tenon.channel_depth)
        yield CHEEK, Cut((at_least(2, max(high, floor)), longer))
        if high < floor:
            yield CHEEK, Cut((at_least(2, high), at_most(2, floor), shoulder))
    elif high < tenon.rail.thickness:
        yield CHEEK, Cut((at_least(2, high), shoulder))
    for one, other in pairwise(tenon.cheeks):
        yield CHEEK, Cut((at_least(2, one[1]), at_most(2, other[0]), shoulder))


def _at_tenon(tenon: Tenon) -> Iterator[Named]:
    """What leaves between the cheeks of each tenon."""
    near, far = tenon.sawn_shoulders
    haunched = tenon.shoulder.moved(-tenon.haunch_length)
    for between in map(_between_cheeks, repeat(tenon), tenon.cheeks):
        if near:
            yield EDGE, Cut((at_most(0, near), *between, tenon.shoulder))
        if far:
            end = _haunch_end(tenon) if tenon.given.haunch else tenon.shoulder
            yield EDGE, Cut((at_least(0, tenon.rail.width - far), *between, end))
        for low, high in tenon.gaps:
            yield EDGE, Cut((at_least(0, low), at_most(0, high), *between, haunched))
        for low, high in tenon.pieces if tenon.ends_mitred else ():
            wide = (at_least(0, low), at_most(0, high))
            yield MITRE, Cut((_mitre(tenon.cheeks[0][0]), *wide, *between))
    for between in map(_between_cheeks, repeat(tenon), tenon.cheeks):
        half, floor = tenon.kerf / 2, at_most(1, tenon.kerf_depth, Surface.SAWN_SHOULDER)
        for at in kerf_places(tenon):
            yield KERF, Cut((at_least(0, at - half), at_most(0, at + half), *between, floor))
        for x in tenon.peg_places:
            across, along, _ = tenon.at_depth(x, tenon.from_shoulder)
            hole = round_hole((across, along + tenon.offset, ZERO), 2, tenon.peg)
            yield BORE_TENON, replace(hole, half_spaces=(*hole.half_spaces, *between))


def _mitre(start: Fraction) -> HalfSpace:
    """What leaves at 45 degrees: nothing so far below the outside face, then ever more."""
    return HalfSpace((ZERO, ONE, -ONE), -start, Surface.SAWN_SHOULDER)


def _between_cheeks(tenon: Tenon, cheeks: Span) -> Sides:
    low, high = cheeks
    return (
        *((at_least(2, low),) if low else ()),
        *((at_most(2, high),) if high < tenon.rail.thickness else ()),
    )


def _haunch_end(tenon: Tenon) -> HalfSpace:
    """What lies before the haunch at the far edge."""
    long, shoulder = tenon.haunch_length, tenon.shoulder
    if tenon.is_haunch_square:
        return shoulder.moved(-long)
    x, y, z = shoulder.normal
    far = tenon.shoulders[1]
    falls = long / far
    limit = shoulder.limit - long - falls * (tenon.rail.width - far)
    return HalfSpace((x - falls, y, z), limit, Surface.SAWN_SHOULDER)


def kerf_places(tenon: Tenon) -> tuple[Fraction, ...]:
    """The middles of all kerfs, from the rail's reference edge."""
    inset = tenon.from_side
    if not tenon.given.wedges:
        return ()
    return tuple(at for low, high in tenon.pieces for at in (low + inset, high - inset))


def stile_part(tenon: Tenon) -> Stretch:
    """The stile with its mortises, which are chopped."""
    cuts = _staged(_in_stile(tenon))
    grooves = _channels(tenon, tenon.given.set_back)
    to_stile = tenon.as_met.reversed()
    depths = (ZERO, tenon.depth)
    ends = [
        to_stile.point(tenon.at_depth(x, deep))[1]
        for x in (ZERO, tenon.rail.width)
        for deep in depths
    ]
    flare = tenon.flare if tenon.given.wedges else ZERO
    beyond = max(flare - min(tenon.shoulders), ZERO)
    on_leg = tenon.upright.is_leg
    return Stretch(
        board=tenon.boards[1],
        cuts=tuple(tenon.upright.as_marked(tenon.stile, cut) for cut in (*cuts, *grooves)),
        start=min(ends) - beyond,
        reach=max(ends) + beyond,
        line=LINE,
        up=TOP if on_leg else f"end past the {LINE}",
        hands=LEGS if on_leg else HANDS,
        is_upright=tenon.runs_across and not on_leg,
        along=tenon.along,
        is_paired=not (tenon.given.middle or on_leg),
        on_leg=on_leg,
        has_horn=tenon.given.horn is not None,
    )


def _in_stile(tenon: Tenon) -> Iterator[Named]:
    to_stile, given = tenon.as_met.reversed(), tenon.given
    if given.drawbore:
        for x in tenon.peg_places:
            centre = to_stile.point(tenon.at_depth(x, tenon.from_shoulder))
            centre = (centre[0], centre[1], ZERO)
            yield BORE_STILE, round_hole(centre, 2, tenon.peg, given.drawbore.depth)
    for sides in _mortises(tenon):
        yield CHOP, Cut(sides)
    haunched = () if tenon.haunch_lies_in_groove else _haunch_sockets(tenon)
    for ends in haunched:
        for side in tenon.sides:
            walls = tuple(to_stile.half_space(end) for end in ends)
            yield HAUNCH, Cut((*walls, *_between(side, given.set_back)))
    for end in _flares(tenon) if given.wedges else ():
        for side in tenon.sides:
            walls = tuple(to_stile.half_space(one) for one in end)
            yield PARE, Cut((*walls, *_floor(tenon), *_between(side, given.set_back)))


def _floor(tenon: Tenon) -> Sides:
    return () if tenon.given.through else (at_most(0, tenon.depth, Surface.SHOULDER),)


def _mortises(tenon: Tenon) -> Iterator[Sides]:
    to_stile = tenon.as_met.reversed()
    for low, high in tenon.pieces:
        ends = (at_most(0, high, Surface.WALL), at_least(0, low, Surface.WALL))
        for side in tenon.sides:
            walls = (to_stile.half_space(end) for end in ends)
            yield (*_floor(tenon), *walls, *_between(side, tenon.given.set_back))


def _between(side: Span, start: Fraction) -> Sides:
    low, high = side
    return at_least(2, start + low, Surface.WALL), at_most(2, start + high, Surface.WALL)


def _haunch_sockets(tenon: Tenon) -> Iterator[Sides]:
    """Where haunches go in, in the rail's frame."""

    def floored(end: HalfSpace) -> HalfSpace:
        return HalfSpace(end.normal, end.limit, Surface.SHOULDER).turned()

    wide, far = tenon.rail.width, tenon.shoulders[1]
    if tenon.given.haunch and far:
        edge = (at_most(0, wide, Surface.WALL),) if tenon.is_haunch_square else ()
        yield (at_least(0, wide - far, Surface.WALL), *edge, floored(_haunch_end(tenon)))
    for low, high in tenon.gaps if tenon.given.haunch else ():
        walls = at_least(0, low, Surface.WALL), at_most(0, high, Surface.WALL)
        yield (*walls, floored(tenon.shoulder.moved(-tenon.haunch_length)))


def _flares(tenon: Tenon) -> Iterator[Sides]:
    """What is pared from both ends of every mortise, in the rail's frame; no wedged rail leans."""
    end = tenon.length - tenon.flare_from
    falls = tenon.flare / (tenon.depth - tenon.flare_from)
    for low, high in tenon.pieces:
        for edge, out in ((low, -ONE), (high, ONE)):
            # Outside the end by `falls` for each mm below where it begins.
            limit = out * edge + falls * end
            wall = HalfSpace((out, falls, ZERO), limit, Surface.WALL)
            straight = HalfSpace((-out, ZERO, ZERO), -out * edge, Surface.WALL)
            yield wall, straight


def _channels(tenon: Tenon, start: Fraction) -> Iterator[Cut]:
    """A groove or rebate along a board's reference edge; `start` is where the rail's face is."""
    low, high = (start + at for at in tenon.channel)
    if tenon.channel_depth:
        sides = at_most(0, tenon.channel_depth, Surface.GROOVE), at_least(2, low, Surface.GROOVE)
        far = (at_most(2, high, Surface.GROOVE),) if tenon.given.groove else ()
        yield Cut((*sides, *far))


def _staged(named: Iterable[Named]) -> tuple[Cut, ...]:
    """Cuts that leave in the order in which their work is first named; all at once if it is one."""
    listed = tuple(named)
    names = tuple(dict.fromkeys(name for name, _ in listed))
    alone = names in ((CHOP,), (EDGE,))
    return tuple(
        replace(cut, stage=AT_ONCE if alone else Stage(1 + names.index(name), name))
        for name, cut in listed
    )
