"""Random requests in every style of spacing, for every kind that takes one.

The pieces of a style are drawn first and the board is made as wide as they come to, with
a little to spare, so that most requests can be cut; what of them is told is drawn as well.
Kinds are found through the catalogue by the parameters that they take.
"""

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from math import cos, radians

from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.grooves.parameters import Groove, Rebate
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.spacing.parameters import StyleParameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board
from tests.joints.strategies import GAPS, PRESSED, PROUD, SLOPES, ZERO, example_request, lengths

HALF_PIN, HALF_TAIL = "half-pin", "half-tail"
SPACED = {
    name: kind
    for name, kind in kinds().items()
    if "spacing" in {parameter.name for parameter in kind.parameters}
}
"""The kinds that take a spacing."""
OURS = frozenset(
    {"start", "spacing", "tails", "pin", "tail", "half_pin", "half_pin_far", "half_tail"}
    | {"groove", "rebate"}
)
"""Parameters that the styles below give, or that are asked for by themselves."""
LEFT_OUT = frozenset({"cutter", "meet", "offset"})
"""A cutter settles the slope and the pins; it and boards of unequal width have properties of
their own."""
Told = dict[str, object]


@dataclass(frozen=True)
class Bounds:
    """What a style's pieces must suit: the widths of a pin and of the narrowest tail."""

    start: str
    pin: Fraction
    least: Fraction
    lean: Fraction


@dataclass(frozen=True)
class Pieces:
    """A style's tails and pins, what is told of them, and its table."""

    tails: tuple[Fraction, ...]
    pins: tuple[Fraction, ...]
    told: Told = field(default_factory=dict)
    table: Told = field(default_factory=dict)


def tenths(low: int, high: int) -> st.SearchStrategy[Fraction]:
    return st.integers(low, high).map(lambda count: Fraction(count, 10))


def share(thickness: Fraction) -> st.SearchStrategy[Fraction]:
    """From a tenth to six tenths of a board."""
    return tenths(1, 6).map(lambda part: part * thickness)


OWN: dict[str, Callable[[Fraction, Fraction], st.SearchStrategy[object]]] = {
    "lap": lambda tails, pins: share(min(tails, pins)),
    "tail_lap": lambda tails, pins: share(tails),
    "mitre": lambda *_: lengths(1, 12),
    "mitred_edge": lambda *_: st.sampled_from(["reference", "far", "both"]),
    "use": lambda *_: st.sampled_from(["drawer", "carcase"]),
    "tails_proud": lambda *_: PROUD,
    "pins_proud": lambda *_: PROUD,
    "fit": lambda *_: st.just(ZERO) | st.just(ZERO) | GAPS | PRESSED,
    "lean": lambda *_: tenths(-200, 250),
    "second_lean": lambda *_: st.none() | tenths(-200, 250),
    "plan": lambda *_: st.just(Fraction(90)) | tenths(750, 1250),
    "slope": lambda *_: SLOPES,
}
"""Parameters of a kind's own, from the thickness of the tail board and of the pin board."""


@cache
def starts(kind: Kind) -> tuple[str, ...]:
    """What a kind can have at its edges, as its example shows."""
    return tuple(start for start in (HALF_PIN, HALF_TAIL) if _builds(kind, start=start))


@cache
def takes_channels(kind: Kind) -> bool:
    """Whether a groove or a rebate can be given."""
    return _builds(kind, groove={"from_edge": "30 mm", "width": "4 mm"})


def _builds(kind: Kind, **changes: object) -> bool:
    request = example_request(kind, **changes)
    try:
        kind.build(replace(request, given=request.given.but(half_pin=None)))
    except InputError as error:
        places = {finding.place for finding in error.findings}
        if not places <= changes.keys():
            raise
        return False
    return True


def _some(draw: st.DrawFn, **told: object) -> Told:
    """Some of what could be told."""
    return {name: value for name, value in told.items() if draw(st.booleans())}


def _between(count: int, bounds: Bounds) -> tuple[Fraction, ...]:
    """Pins between and beside so many whole tails."""
    return (bounds.pin,) * (count + (1 if bounds.start == HALF_TAIL else -1))


def even(draw: st.DrawFn, bounds: Bounds) -> Pieces:
    count = draw(st.integers(bounds.start == HALF_PIN, 5))
    tail = bounds.least + draw(lengths(0, 25))
    told = _some(draw, tails=count, pin=bounds.pin, half_pin=draw(lengths(2, 12)))
    if "tails" not in told:
        told |= _some(draw, tail=tail)
    return Pieces((tail,) * count, _between(count, bounds), told)


def shoulder(draw: st.DrawFn, bounds: Bounds) -> Pieces:
    count, tail = draw(st.integers(1, 5)), bounds.least + draw(lengths(0, 25))
    told = _some(draw, tails=count, pin=bounds.pin)
    table = {} if "pin" in told else _some(draw, socket=bounds.pin + 2 * bounds.lean)
    return Pieces((tail,) * count, _between(count, bounds), told, table)


def equal(draw: st.DrawFn, bounds: Bounds) -> Pieces:
    count = draw(st.integers(bounds.start == HALF_PIN, 5))
    width = bounds.least + draw(lengths(2, 15))  # at whichever line
    told = _some(draw, tails=count, half_pin=draw(lengths(4, 15)))
    if not told and draw(st.booleans()):
        told["pin"] = width - bounds.lean
    pins = (width,) * len(_between(count, bounds))
    return Pieces((width,) * count, pins, told, _some(draw, at=draw(_LINES)))


_LINES = st.sampled_from(["end", "middle", "baseline"])


def listed(draw: st.DrawFn, bounds: Bounds) -> Pieces:
    first, then = lengths(2, 12), tenths(0, 250).map(lambda more: bounds.least + more)
    if bounds.start == HALF_PIN:
        first, then = then, first
    # As many of the one as of the other, and one more to end with what it began with.
    half = [draw(one) for _ in range(draw(st.integers(0, 2))) for one in (first, then)]
    widths = (*half, draw(first))
    table: Told = {"widths": widths} | _some(draw, mirrored=False)
    if draw(st.booleans()):
        table["mirrored"], widths = True, (*widths, *widths[-2::-1])
    # The other half pin then follows.
    edge = draw(st.sampled_from(["half_pin", "half_pin_far"]))
    told = _some(draw, **{edge: draw(lengths(2, 12))})
    tails, pins = widths[::2], widths[1::2]
    if bounds.start == HALF_TAIL:
        tails, pins = pins, tails
    return Pieces(tails, pins, told, table)


def _weighted(draw: st.DrawFn, bounds: Bounds, weights: list[Fraction], table: Told) -> Pieces:
    unit = (bounds.least + draw(lengths(0, 15))) / min(weights)
    tails = tuple(weight * unit for weight in weights)
    told = _some(draw, tails=len(tails), pin=bounds.pin, half_pin=draw(lengths(2, 12)))
    return Pieces(tails, _between(len(tails), bounds), told, table)


def graded(draw: st.DrawFn, bounds: Bounds) -> Pieces:
    count, ratio = draw(st.integers(1, 6)), draw(tenths(7, 16))
    mirrored = draw(st.booleans())
    powers = [min(n, count - 1 - n) if mirrored else n for n in range(count)]
    table = _some(draw, ratio=ratio) | ({} if mirrored else {"mirrored": False})
    return _weighted(draw, bounds, [ratio**power for power in powers], table)


def small_edges(draw: st.DrawFn, bounds: Bounds) -> Pieces:
    small, ratio, mirrored = draw(st.integers(1, 2)), draw(tenths(12, 30)), draw(st.booleans())
    near = (small, small if mirrored else 0)
    weights = [*[Fraction(1)] * near[0], *[ratio] * draw(st.integers(1, 3))]
    table = {"edge_tails": small} | _some(draw, ratio=ratio)
    table |= {} if mirrored else {"mirrored": False}
    return _weighted(draw, bounds, [*weights, *[Fraction(1)] * near[1]], table)


def clusters(draw: st.DrawFn, bounds: Bounds) -> Pieces:
    together, groups = draw(st.integers(2, 3)), draw(st.integers(1, 3))
    narrow = max(bounds.least, bounds.pin + 4 * bounds.lean)
    wide = narrow * draw(tenths(14, 25))
    apart = () if bounds.start == HALF_TAIL else (wide,)
    cluster = (narrow,) * (together - 1)
    tails = (*apart, *cluster, *((wide, *cluster) * (groups - 1)), *apart)
    table = {"pins_together": together} | _some(draw, groups=groups, narrow_tail=narrow)
    told = {"pin": bounds.pin} | _some(draw, tails=len(tails), half_pin=draw(lengths(2, 12)))
    return Pieces(tails, _between(len(tails), bounds), told, table)


STYLES = {
    "even": even,
    "shoulder": shoulder,
    "equal": equal,
    "listed": listed,
    "graded": graded,
    "small-edges": small_edges,
    "clusters": clusters,
}
WITH_HALF_PINS_ONLY = ("shoulder",)
NOT_ROUNDED = ("listed",)


def _rounded(draw: st.DrawFn, pieces: Pieces) -> Pieces:
    """With one of both roundings, and nothing told that it works out."""
    pins = draw(st.booleans())
    grid = draw(st.sampled_from([Fraction(1, 2), Fraction(1), INCH / 16]))
    follows = {"half_pin", "half_pin_far", "half_tail", "tail", "pin"}
    table = {name: v for name, v in pieces.table.items() if name not in ("socket", "narrow_tail")}
    table |= {"round_to": grid} | ({"round": "pin"} if pins else _some(draw, round="step"))
    told = {name: value for name, value in pieces.told.items() if name not in follows}
    return dataclasses.replace(pieces, told=told, table=table)


def _channels(draw: st.DrawFn, width: Fraction, thinner: Fraction) -> Told:
    """A groove, a rebate, both or none; with the depth by rule or given."""
    depth = draw(st.none() | share(thinner))
    found: Told = {}
    if draw(st.booleans()):
        low, wide = width * draw(st.integers(1, 85)) / 100, draw(lengths(3, 8))
        face = draw(st.sampled_from(["inside", "inside", "outside"]))
        wide = min(wide, width * Fraction(19, 20) - low)
        found["groove"] = Groove(from_edge=low, width=wide, depth=depth, face=face)
    if draw(st.integers(0, 3)) == 0:
        edge = draw(st.sampled_from(["reference", "far"]))
        found["rebate"] = Rebate(width=draw(lengths(2, 8)), depth=depth, edge=edge)
    return found


@st.composite
def spaced(draw: st.DrawFn, kind: Kind, style: str, start: str) -> Request:
    """Boards and figures for a kind in one style, with half pins or half tails."""
    thick = draw(lengths(8, 25)), draw(lengths(8, 25))
    own = {p.name: draw(OWN[p.name](*thick)) for p in kind.parameters if p.name in OWN}
    leans = Fraction(str(own.get("lean", 0))), own.get("second_lean")
    is_leaning = "plan" in own
    slope = Fraction(str(own["slope"]))
    # Where boards do not meet squarely the joint is longer than they are thick.
    lean = (thick[1] + 2) * slope * (Fraction(3, 2) if is_leaning else 1)
    bounds = Bounds(start, draw(lengths(2, 10)) + (3 if is_leaning else 0), 2 * lean + 3, lean)
    pieces = STYLES[style](draw, bounds)
    if style not in NOT_ROUNDED and draw(st.integers(0, 2)) == 0:
        pieces = _rounded(draw, pieces)
    told = dict(pieces.told)
    edge = bounds.pin + lean + draw(lengths(0, 10))
    if start == HALF_TAIL:
        edge = bounds.least / 2 + lean + draw(lengths(0, 10))
        told.pop("half_pin_far", None)
        # With a list it would have to be just what planing the edges level leaves.
        if told.pop("half_pin", None) and not (is_leaning and style == "listed"):
            told["half_tail"] = edge
    width = sum(pieces.tails) + sum(pieces.pins) + 2 * edge
    width += 2 * Fraction(str(own.get("mitre", 0)))
    if is_leaning:
        width += max(thick) * Fraction(2, 3)
    second = width
    if leans[1] is not None:
        ratio = cos(radians(leans[0])) / cos(radians(Fraction(str(leans[1]))))
        second = Fraction(round(float(width) * ratio * 100), 100)
    if takes_channels(kind):
        told |= _channels(draw, width, min(thick))
    table = StyleParameters(style=style, **pieces.table)
    given = kind.parameter_class(start=start, spacing=table, **own, **told)
    boards = Board("side", width, thick[0]), Board("front", second, thick[1])
    return Request(boards, given, draw(st.sampled_from(list(Units))), Tools())
