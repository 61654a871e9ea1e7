"""Where a mortise and tenon must be full of wood when it is put together."""

from collections.abc import Iterator
from fractions import Fraction

from joinery_templates.exact import ONE, ZERO
from joinery_templates.joints.tenons.cuts import Sides
from joinery_templates.joints.tenons.proportions import Span
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.wood.cut import at_least, at_most

MORE_THAN_HALF = Fraction(51, 100)
"""Of a hole's diameter: its flats lie outside of the round."""


def filled(tenon: Tenon) -> Iterator[Sides]:
    """Where the tenons go into the stile, and the rail just past its shoulders.

    Left out are what a groove or rebate leaves empty, the bands that holes lie in, what a wedge
    spreads, and the end of a mitred tenon.
    """
    wide, thick, back = tenon.rail.width, tenon.rail.thickness, tenon.given.set_back
    inner, end = tenon.channel_depth, tenon.stile.width
    low, high = -back, tenon.stile.thickness - back
    in_stile = at_least(2, low), at_most(2, high)
    flat, ceiling = tenon.channel
    at_shoulder = [(ZERO, wide)]
    if tenon.given.rebate:
        at_shoulder = [(inner, wide)]
    elif inner:
        at_shoulder = [*tenon.pieces, *_haunches_in_groove(tenon)]
    open_from = end
    if tenon.given.wedges:
        open_from = tenon.flare_from
    elif tenon.ends_mitred:
        open_from = tenon.length - tenon.mitre
    bands = [(inner, open_from)]
    if tenon.given.drawbore:
        room = tenon.peg * MORE_THAN_HALF + tenon.offset
        hole = tenon.from_shoulder - room, tenon.from_shoulder + room
        bands = [(inner, hole[0]), (hole[1], bands[0][1])]
    for start, stop in bands:
        yield (*_slab(tenon, (ZERO, wide), start, stop), *in_stile)
    if open_from < end:
        beside = (low, tenon.sides[0][0]), (tenon.sides[-1][1], high)
        for floor, top in beside:
            sides = at_least(2, floor), at_most(2, top)
            yield (*_slab(tenon, (ZERO, wide), open_from, end), *sides)
    if inner:
        sides = at_least(2, low), at_most(2, min(high, thick))
        for span in at_shoulder:
            yield (*_slab(tenon, span, ZERO, inner), *sides)
        yield (*_slab(tenon, (ZERO, wide), ZERO, inner), at_least(2, low), at_most(2, flat))
        if tenon.given.groove:
            yield (*_slab(tenon, (ZERO, wide), ZERO, inner), at_least(2, ceiling), at_most(2, high))
    yield (*_slab(tenon, (inner, wide), -ONE, ZERO), at_least(2, ZERO), at_most(2, thick))


def _haunches_in_groove(tenon: Tenon) -> Iterator[Span]:
    if tenon.given.haunch and tenon.haunch_length >= tenon.channel_depth:
        yield from tenon.gaps
        if tenon.is_haunch_square:
            yield tenon.rail.width - tenon.shoulders[1], tenon.rail.width


def _slab(tenon: Tenon, across: Span, start: Fraction, stop: Fraction) -> Sides:
    """What lies so deep in the stile behind the rail's end, over so much of its width."""
    return (
        at_least(0, across[0]),
        at_most(0, across[1]),
        at_least(1, ZERO),
        tenon.shoulder.moved(-start),
        tenon.shoulder.moved(-stop).turned(),
    )
