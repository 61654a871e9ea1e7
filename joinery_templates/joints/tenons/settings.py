"""Tools set for a mortise and tenon, and the spaces that they must suit."""

from collections.abc import Iterator
from itertools import pairwise

from joinery_templates.exact import ONE
from joinery_templates.joint import Clearing, LengthSetting, SlopeSetting
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.tenons.cuts import LINE
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.tool_fit import BIT
from joinery_templates.joints.upright import BY_INSIDE
from joinery_templates.wood.board import EDGES


def lengths(tenon: Tenon) -> Iterator[LengthSetting]:
    """Tools set to lengths, in the order of work."""
    yield from _cheeks(tenon)
    yield from _shoulders(tenon)
    yield from _in_stile(tenon)
    yield from _wedges_and_pegs(tenon)


def _cheeks(tenon: Tenon) -> Iterator[LengthSetting]:
    yield LengthSetting("mortise gauge", "between its points", tenon.mortise_width)
    low, near = tenon.cheeks[0][0], tenon.mortise_from
    if low == near and low:
        face = "outside face of both"
        if tenon.upright is BY_INSIDE:
            face = f"rail's outside face and the leg's {tenon.upright.gauged}"
        yield gauge(f"nearer cheek of mortise and tenon, from the {face}", near)
    else:
        if near:
            whose = tenon.upright.name
            use = f"nearer cheek of the mortise, from the {whose}'s {tenon.upright.gauged}"
            yield gauge(use, near)
        if low:
            yield gauge("nearer cheek of the tenon, from the rail's outside face", low)
    for number, (start, _) in enumerate(tenon.sides[1:], start=2):
        use = f"nearer cheek of mortise {number}, from the {tenon.upright.gauged}"
        yield gauge(use, tenon.given.set_back + start)


def _shoulders(tenon: Tenon) -> Iterator[LengthSetting]:
    edge = "" if tenon.is_square else ", along the far edge"
    yield LengthSetting("rule", f"rail's shoulder, from its end{edge}", tenon.length)
    if tenon.given.rebate:
        use = "rail's inside shoulder, from its end"
        yield LengthSetting("rule", use, tenon.length - tenon.channel_depth)
    for edge, inset in zip(EDGES, tenon.sawn_shoulders, strict=True):
        if inset:
            yield gauge(f"tenon's edge, from the rail's {edge}", inset)
    if tenon.given.haunch:
        yield gauge("haunch's end, from the shoulder", tenon.haunch_length)
    if tenon.ends_mitred:
        yield gauge("mitre, on the tenon's inside cheek, from its end", tenon.mitre)


def _in_stile(tenon: Tenon) -> Iterator[LengthSetting]:
    if not tenon.given.through:
        use = "depth of the mortise, marked on the chisel"
        yield LengthSetting("rule", use, tenon.depth)
    if tenon.given.horn:
        yield LengthSetting(
            "rule", f"horn: from the {tenon.upright.end} to the {LINE}", tenon.given.horn
        )


def _wedges_and_pegs(tenon: Tenon) -> Iterator[LengthSetting]:
    given = tenon.given
    if given.wedges:
        yield gauge("kerfs, from the tenon's edges", tenon.from_side)
        yield gauge("kerfs' floor, from the tenon's end", tenon.kerf_depth)
        use = "flare, past each end of the mortise where it is longest"
        yield LengthSetting("rule", use, tenon.flare)
    if given.drawbore:
        yield LengthSetting(BIT, "holes for the pegs", tenon.peg)
        use = f"holes of the {tenon.role(1)}, from its {tenon.upright.entered}"
        yield gauge(use, tenon.from_shoulder)
        if tenon.is_square:
            yield gauge("holes of the tenon, from its shoulder", tenon.from_shoulder - tenon.offset)


def slopes(tenon: Tenon) -> Iterator[SlopeSetting]:
    """Bevels set to slopes."""
    if not tenon.is_square:
        yield SlopeSetting(
            "rail's shoulder, off square, stock on an edge", abs(tenon.lean[0] / tenon.lean[1])
        )
    if tenon.ends_mitred:
        yield SlopeSetting("mitre of the tenon's end, stock on the outside cheek", ONE)
    if tenon.given.haunch and not tenon.is_haunch_square and tenon.is_square:
        falls = tenon.haunch_length / tenon.shoulders[1]
        yield SlopeSetting("sloped haunch, from the shoulder, stock on the far edge", falls)


def clearings(tenon: Tenon) -> Iterator[Clearing]:
    """What is chopped, and what is cleared between tenons."""
    wide = tenon.mortise_width
    yield Clearing(f"{tenon.role(1)}, mortise", wide, wide, "tenon_thickness", sawn=False)
    for one, other in pairwise(tenon.cheeks):
        between = other[0] - one[1]
        yield Clearing("rail, between tenons side by side", between, between, "tenon_thickness")
    for low, high in tenon.gaps:
        yield Clearing("rail, between tenons", high - low, high - low, "gap")
