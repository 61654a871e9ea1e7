"""Marks and sizes of a mortise and tenon, and what its rules decided."""

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import SettingOut, Size, starts_and_ends
from joinery_templates.joints import sources
from joinery_templates.joints.layout import RAIL
from joinery_templates.joints.tenons.cuts import LINE
from joinery_templates.joints.tenons.parameters import HALF_OF_REST, TWO_THIRDS
from joinery_templates.joints.tenons.proportions import WIDEST_RAIL, Span
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.wood.board import EDGES

THIRDS = f"{sources.NOYES}, p. 160: three equal parts, the mortise a little deeper"
BAND = f"{sources.BUILDING_CONSTRUCTION}: a quarter to a third of the frame's thickness"
BY_CHISEL = f"{sources.JOYCE}, chapter on tenons: a little over a third, by the chisel"
HALF_TO_WHOLE = f"{sources.CASSELL}: half to the whole of a rail up to 5 in wide"
HALF = f"{sources.NOYES}, no. 42: half, with a haunch"
TWO_THIRDS_RULE = f"{sources.JOYCE}, chapter on tenons: two thirds, and a third for the haunch"
IN_A_LEG = f"{sources.ZERBE}, ch. V: 1 1/2 in deep in a leg of 2 in"
SEVEN_EIGHTHS = f"{sources.FAIRHAM}: about seven eighths of the way through"
FIVE = f"{sources.BUILDING_CONSTRUCTION}: not wider than five times its thickness"
IN_GROOVE = f"{sources.FAIRHAM}: the haunch as wide and as deep as the groove"
TRIM = f"{sources.ROSS}: 1/8 in longer, for trimming"
WIDER_OUTSIDE = f"{sources.BUILDING_CONSTRUCTION}: wider on the side where the wedges go in"


def rows(tenon: Tenon) -> Iterator[SettingOut]:
    """Where tenons and mortises begin and end."""
    wide = tenon.rail.width
    yield from _row("end grain, across the width", RAIL, wide, tenon.pieces, "tenon")
    title = "end grain, through the thickness"
    thick = tenon.rail.thickness
    yield from _row(title, RAIL, thick, tenon.cheeks, "tenon", "outside face")
    mortises = [(wide - high, wide - low) for low, high in tenon.pieces[::-1]]
    # A haunch's socket opens the edge as well, and is no part of the mortise.
    title = f"the {tenon.upright.face}"
    title += ", for the mortise, not the haunch" if tenon.given.haunch else ""
    what, stretch = "space for the tenon", 1 / tenon.lean[1]
    for row in _row(title, tenon.role(1), wide, mortises, what, LINE, stretch):
        yield replace(row, main=True, waste=tuple(mortises))


def _row(
    title: str,
    role: str,
    width: Fraction,
    spans: Sequence[Span],
    what: str,
    start: str = "reference edge",
    stretch: Fraction = Fraction(1),
) -> Iterator[SettingOut]:
    both = (mark for span in spans for mark in starts_and_ends(what, *span))
    marks = tuple(mark for mark in both if 0 < mark.position < width)
    if marks:
        yield SettingOut(title, role, width, marks, start=start, along_end=False, stretch=stretch)


def sizes(tenon: Tenon) -> Iterator[Size]:
    """What follows, by name."""
    given, (low, high) = tenon.given, tenon.cheeks[0]
    yield Size("thickness of the tenon", high - low)
    for low, high in tenon.between_sides[:1]:
        yield Size("left between mortises side by side", high - low)
    yield Size("width of the tenon, length of the mortise", tenon.width)
    if tenon.gaps:
        yield Size("between tenons, across the rail", tenon.gaps[0][1] - tenon.gaps[0][0])
    if not given.through:
        name = f"left of the {tenon.role(1)} under the mortise's floor"
        yield Size(name, tenon.stile.width - tenon.depth)
    name = f"left between mortise and {tenon.upright.within}"
    yield Size(name, tenon.stile.thickness - tenon.mortise_to)
    if tenon.ends_mitred:
        yield Size(
            "tenon's inside cheek, from the shoulder to the mitre", tenon.length - tenon.mitre
        )
    if given.groove:
        low, high = tenon.channel
        if low:
            yield Size("edge groove, from the rail's outside face", low)
        yield Size("edge groove, how wide", high - low)
        yield Size("edge groove, how deep", tenon.channel_depth)
    if given.rebate:
        yield Size("edge rebate, how far in from the edge", tenon.channel_depth)
        yield Size("edge rebate, how deep", tenon.rail.thickness - tenon.channel[0])
    if given.wedges:
        where = "it fills the mortise" if given.through else "the tenon ends"
        yield Size(f"wedge, how thick it is where {where}", tenon.wedge_end)


def rules(tenon: Tenon) -> Iterator[str]:
    """What was decided by a rule, with its source."""
    given, text, wide = tenon.given, tenon.text, tenon.mortise_width
    outside, inside = given.shoulder_outside, given.shoulder_inside
    if given.tenon_thickness is None and (outside is None or inside is None):
        share = "about a third of the rail's"
        if given.twins > 1:
            share = "so that tenons, gaps and shoulders come out about alike"
        elif 0 in (outside, inside):
            share = "about half of the rail's, which is bare on one face (our judgement)"
        yield (
            f"Thickness of the tenon: {text(wide)}, {share}{tenon.by_chisel(wide)} "
            f"({THIRDS}; {BAND}; {BY_CHISEL})."
        )
    if given.tenon_length is None and given.through:
        yield (
            f"Length of the tenon: {text(tenon.length)}, so that it stands out of the "
            f"{tenon.role(1)} by {text(tenon.proud)} at least ({TRIM})."
        )
    elif given.tenon_length is None and tenon.ends_mitred:
        yield (
            f"Length of the tenon: {text(tenon.length)}, so that its tip ends before the outer "
            "side of a mortise like its own in the next face (our judgement)."
        )
    elif given.tenon_length is None:
        yield (
            f"Length of the tenon: {text(tenon.length)}, so that the mortise goes about three "
            f"quarters of the way through the {tenon.role(1)}, or deep enough in a wide one (the "
            f"books differ: {IN_A_LEG}; {SEVEN_EIGHTHS})."
        )
    told = given.shoulder, given.shoulder_far
    widths = {
        edge: text(width)
        for edge, width, one in zip(EDGES, tenon.shoulders, told, strict=True)
        if one is None
    }
    if widths:
        where = "both edges" if len(widths) > 1 else f"the {next(iter(widths))}"
        figures = " and ".join(dict.fromkeys(widths.values()))
        yield (
            f"Shoulder at {where}: {figures}, which makes the tenon {_share(tenon)} "
            f"(the books differ: {HALF_TO_WHOLE}; {HALF}; {TWO_THIRDS_RULE})."
        )
    if given.haunch and given.haunch.length is None:
        why = "as deep as the groove" if given.groove else "about as long as the tenon is thick"
        yield f"Length of the haunch: {text(tenon.haunch_length)}, {why} ({IN_GROOVE})."
    if given.wedges and given.wedges.flare is None:
        yield (
            f"Flare of the mortise: {text(tenon.flare)} at each end ({WIDER_OUTSIDE}; how much: "
            "our judgement)."
        )


def _share(tenon: Tenon) -> str:
    """What the tenon is of the rail, by the rule that its shoulders come from."""
    haunch = tenon.given.haunch
    if tenon.gaps:
        return f"{tenon.text(tenon.width)} wide each"
    if haunch and haunch.divide != TWO_THIRDS:
        rest = "half of what the groove leaves of the rail's width"
        return rest if haunch.divide == HALF_OF_REST else "half of the rail's width less the groove"
    if tenon.rail.width > WIDEST_RAIL:
        return "as wide as on a rail of 5 in"
    return "about two thirds of the rail's width"
