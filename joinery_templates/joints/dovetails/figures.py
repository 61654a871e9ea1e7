"""A dovetailed corner in figures: rows of marks, sizes, dividers; and the whole joint from them."""

from collections.abc import Iterable, Iterator
from itertools import chain, pairwise

from joinery_templates import joint
from joinery_templates.errors import Finding
from joinery_templates.exact import ZERO, Fraction, square_root
from joinery_templates.joint import At, Clearing, Joint, LengthSetting, SettingOut, Size, Task
from joinery_templates.joints.corners.interlocked import (
    INSIDE,
    OUTSIDE,
    Piece,
    no_room,
)
from joinery_templates.joints.corners.pair import where_side_meets
from joinery_templates.joints.dovetails import laps, mitred_edges
from joinery_templates.joints.dovetails.advice import advise
from joinery_templates.joints.dovetails.corner import PIN_BOARD, TAIL_BOARD, DovetailCorner
from joinery_templates.joints.dovetails.routing.work import with_cutter
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.grooves.corner import CornerGroove, Crossed, is_past_the_other
from joinery_templates.joints.grooves.parameters import Channel
from joinery_templates.joints.grooves.ploughed import with_grooves
from joinery_templates.joints.spacing.keep_clear import in_a_half_pin, in_a_tail
from joinery_templates.wood.board import EDGES
from joinery_templates.wood.cut import HalfSpace

LAP_LINE = "end grain, along the lap line"
TAILS_ENDS = "inside face, at the tails' ends"


def _rows(corner: DovetailCorner) -> Iterator[SettingOut]:
    """Along the end and the baseline of both boards; of tails behind a lap, from the pins on."""
    pair, thickness = corner.pair, corner.pin_board.thickness
    face = "outside face, " if pair.is_slanted else ""
    baseline = corner.row(0, f"{face}along the baseline", pair.baseline(0))
    if corner.tail_lap:
        yield corner.row(1, INSIDE, z=thickness, main=True)
        yield corner.row(1, LAP_LINE, z=corner.lap)
        yield corner.row(0, TAILS_ENDS, pair.start_plane(0))
        yield baseline
        return
    yield corner.row(0, OUTSIDE, main=True)
    if pair.is_slanted:
        yield corner.row(0, INSIDE, z=corner.tail_board.thickness)
    yield baseline
    yield corner.row(1, LAP_LINE if corner.lap else OUTSIDE, z=corner.lap)
    yield corner.row(1, INSIDE, z=thickness)


def _no_room(corner: DovetailCorner) -> Iterator[Finding]:
    """Wood must be left of every pin and tail, and room in every socket."""
    remedy = "Give wider pins, fewer tails, a slope that leans less, or another fit."
    place = "fit" if corner.given.fit else "tails"
    # Along the strip's own line pieces are widest: it tells the least.
    rows = sorted(_rows(corner), key=lambda row: row.main)
    return no_room(rows, "a tail or a pin", remedy, place)


def _sizes(corner: DovetailCorner) -> Iterator[Size]:
    """Mitred edges, half pins or half tails, tails, and pins."""
    if any(corner.mitres):
        yield Size("mitred edge", max(corner.mitres))
    yield from _edge_sizes(corner)
    across, whole = corner.square_across, sorted(tail.width for tail in corner.spacing.whole_tails)
    for width in dict.fromkeys((*whole[:1], *whole[-1:])):
        which = "" if whole[0] == whole[-1] else "narrowest " if width == whole[0] else "widest "
        yield Size(f"{which}tail at the end (wide){across}", width)
        yield Size(f"{which}tail at the baseline (narrow){across}", width - sum(corner.leans))
    if corner.spacing.pins:
        yield from _pin_sizes(corner)


def _laps(corner: DovetailCorner) -> Iterator[Size]:
    """How thick they are."""
    if corner.is_mitred and corner.lap:
        yield Size("lap, on the outside of both boards", corner.lap)
        return
    for lap, role in ((corner.lap, PIN_BOARD), (corner.tail_lap, TAIL_BOARD)):
        if lap:
            yield Size(f"lap, on the {role}'s outside", lap)


def _edge_sizes(corner: DovetailCorner) -> Iterator[Size]:
    """Half pins or half tails on the tail board; one size where both edges are alike."""
    spacing = corner.spacing
    piece, line, widths = "space for a half pin", _ends(corner), spacing.half_pins
    if not widths:
        piece, line = "half tail", "at the end"
        widths = (spacing.tails[0].width, spacing.tails[-1].width)
    start = [
        ", from the mitre" if mitred else corner.from_edge(edge) or corner.edges_level
        for edge, mitred in enumerate(corner.mitres)
    ]
    told = dict.fromkeys(zip(widths, start, strict=True))
    edges = ("at the reference edge", "at the far edge") if len(told) > 1 else ("at each edge",)
    for edge, (width, since) in zip(edges, told, strict=True):
        yield Size(f"{piece} {edge}, {line}{corner.square_across}{since}", width)
    yield from corner.planed_level(f"{piece}, {line},", (widths[0], widths[1]))


def _ends(corner: DovetailCorner) -> str:
    """Where the tail board's spaces are as wide as they were told."""
    return "at the tails' ends" if corner.pair.starts[0] else "at the tail board's end"


def _pin_sizes(corner: DovetailCorner) -> Iterator[Size]:
    """The spaces for the whole pins, and the pins at both of their ends."""
    space = min(corner.spacing.pins)
    yield Size(f"space for a pin {_ends(corner)}{corner.square_across}", space)
    if corner.pair.is_slanted:
        return
    thickness = corner.pin_board.thickness
    narrow_at = "at the lap line" if corner.lap else "on the pin board's outside face"
    pins = [(upper, lower) for (_, upper), (lower, _) in pairwise(corner.walls)]
    yield Size(f"pin {narrow_at} (narrow)", min(_widths(corner, pins, corner.lap)))
    yield Size("pin on the pin board's inside face (wide)", max(_widths(corner, pins, thickness)))


def _widths(
    corner: DovetailCorner, pairs: Iterable[tuple[HalfSpace | None, ...]], z: Fraction
) -> list[Fraction]:
    """Between two sides each, along the pin board's end at a depth from its outside face."""
    end = corner.pair.end_plane(1)
    return [
        where_side_meets(high, end, z) - where_side_meets(low, end, z)
        for low, high in pairs
        if low and high
    ]


def _strips(corner: DovetailCorner) -> Iterator[LengthSetting]:
    """How wide the strips are that are mitred right through, where there are any."""
    if any(corner.mitres):
        yield gauge("both boards' mitred strip, from the edge", max(corner.mitres))


def _dividers(corner: DovetailCorner) -> Iterator[LengthSetting]:
    """The dividers' setting; none where there is nothing to step."""
    step = corner.spacing.step
    if step is not None:
        line = f"{'socket' if corner.tail_lap else 'tail'}'s line at the reference edge"
        yield corner.dividers("one tail and one pin", step, line)


def _slopes(corner: DovetailCorner) -> Iterator[joint.SlopeSetting]:
    """The tails' sides, as a bevel is set for them."""
    slope, across = corner.slope, corner.pair.end_slope(0)
    use = "sides of the tails, stock on the end; of the pins, stock on a face"
    if corner.tail_lap:
        use = "sides of the pins, stock on the inside face"
    if corner.pair.is_slanted:
        use = "sides of the tails, from a line along the grain"
    yield joint.SlopeSetting(use, slope, "slope")
    if not across:
        return
    # The bevel's stock lies on the slanting end and not on an edge.
    for edge, own in zip(EDGES, (slope, -slope), strict=True):
        from_end = (own + across) / (1 - own * across)
        use = f"tails' sides that face the {edge}, stock on the slanting end"
        yield from _leaning(use, from_end)
    use = "tails' sides over the end grain, stock on the outside arris"
    yield from _leaning(use, _over_the_end(corner))


def _leaning(use: str, slope: Fraction) -> Iterator[joint.SlopeSetting]:
    """A bevel whose blade leans to an edge, where it leans."""
    if slope:
        to = str(EDGES[slope > 0])
        yield joint.SlopeSetting(f"{use}; blade leaning to the {to}", abs(slope), leans_to=to)


def _over_the_end(corner: DovetailCorner) -> Fraction:
    """How a tail's side runs over the end grain, from a square to the outside arris.

    It follows the pin board's grain, so that all sides run alike.
    """
    pair, thick = corner.pair, corner.tail_board.thickness
    side = next(side for both in corner.sides for side in both if side)
    outside, inside = (where_side_meets(side, pair.end_plane(0), z) for z in (ZERO, thick))
    stretch, slope, bevel = pair.along_end(0), pair.end_slope(0), pair.end_bevel(0)
    along = (inside - outside) * stretch + slope * bevel * thick
    return along / (thick * square_root(1 + bevel**2))


def _clearings(corner: DovetailCorner) -> Iterator[Clearing]:
    """What stands between two sawn sides on both boards; at an open edge there is no other side.

    A space for a pin is narrowest at the tails' ends, a socket for a tail at the pin board's
    inside face.
    """
    spacing, thickness = corner.spacing, corner.pin_board.thickness
    for pin in sorted(set(spacing.pins)):
        what = f"{TAIL_BOARD}, space for a pin"
        yield Clearing(what, pin, pin + sum(corner.leans), "pin", Task.CLEAR_FIRST)
    stopped, mitres = corner.stopped_at(0), corner.mitres
    halves = zip(spacing.half_pins, map(any, zip(stopped, mitres, strict=True)), strict=False)
    for half in sorted({half for half, has_wood_beside in halves if has_wood_beside}):
        what = f"{TAIL_BOARD}, space for a half pin"
        yield Clearing(what, half, half + corner.lean, "half_pin", Task.CLEAR_FIRST)
    sockets = [_widths(corner, corner.walls, z) for z in (thickness, corner.lap)]
    for narrow, wide in sorted(set(zip(*sockets, strict=True))):
        yield Clearing(f"{PIN_BOARD}, socket for a tail", narrow, wide, "tail")
    if any(corner.stopped_at(1)):
        half = spacing.tails[0].width + corner.fit_across
        what = f"{PIN_BOARD}, socket for a half tail"
        yield Clearing(what, half - corner.lean, half, "half_tail")


def _on_laps(corner: DovetailCorner) -> Iterator[Finding]:
    """Laps too thin or too thick; at a mitre of 45 degrees both are one."""
    if corner.is_mitred and corner.lap:
        most = laps.TWO_THIRDS
        yield from laps.advise_on_lap(corner.lap, corner.thinner, "lap", corner.units, most)
        return
    for lap, board, name in (
        (corner.lap, corner.pin_board, "lap"),
        (corner.tail_lap, corner.tail_board, "tail_lap"),
    ):
        if lap:
            yield from laps.advise_on_lap(lap, board, name, corner.units)


class Dovetail(DovetailCorner, frozen=True, dict=True):
    """What is stated of every dovetailed corner; a kind adds what is its own."""

    impossible = _no_room
    rows = _rows
    clearings = _clearings

    def pieces(self, number: int) -> Iterator[Piece]:
        """The tails on the tail board, and the spaces for them on the pin board."""
        space, at = ("space for ", At.SOCKET) if number else ("", At.TAIL)
        pairs = self.walls if number else self.sides
        for name, both in zip(_tail_names(self), pairs, strict=True):
            yield f"{space}{name}", at, both

    def sizes(self) -> Iterator[Size]:
        """Of tails, pins and laps, and how far the ends run out of square."""
        return chain(_sizes(self), _laps(self), self.run_outs())

    def slopes(self) -> Iterator[joint.SlopeSetting]:
        """Every bevel of the corner."""
        return chain(super().slopes(), _slopes(self))

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges, and dividers."""
        return chain(self.gauges(), _strips(self), self.inset_gauges(), _dividers(self))

    def rules(self) -> Iterable[str]:
        """What was decided by one."""
        return self.decided

    def advise(self) -> Iterator[Finding]:
        """What is unwise though it can be cut."""
        yield from advise(self)
        yield from self.advise_on_strips()
        yield from self.spacing.findings
        yield from _on_laps(self)
        yield from mitred_edges.advise_on_mitre(self)

    def joint(self) -> Joint:
        """All of it, with grooves and cutter.

        Raises:
            InputError: where a tail or pin comes to nothing, or a groove cannot be ploughed.
        """
        grooves = [CornerGroove(self, one, _crossed(self, one)) for one in self.channels]
        return with_cutter(with_grooves(super().joint(), grooves), self)


def _crossed(corner: DovetailCorner, channel: Channel) -> Crossed:
    """What a groove lies in: a mitred strip, a tail, or a half pin."""
    if is_past_the_other(channel, corner.pair):
        return Crossed.NOTHING
    near, far = corner.mitres
    in_edge = channel.high <= near or channel.low >= corner.tail_board.width - far
    if in_edge:
        return Crossed.MITRE
    span = channel.span(corner.margins[0])
    if in_a_tail(corner.spacing, span, corner.lean):
        return Crossed.FIRST
    if in_a_half_pin(corner.spacing, span):
        return Crossed.SECOND
    return Crossed.BOTH


def _tail_names(corner: DovetailCorner) -> Iterator[str]:
    """The tails' names: numbered from the reference edge, the half ones by their edge."""
    number = 0
    for place, tail in enumerate(corner.spacing.tails):
        number += tail.whole
        edge = "far" if place else "reference"
        yield f"tail {number}" if tail.whole else f"half tail at the {edge} edge"
