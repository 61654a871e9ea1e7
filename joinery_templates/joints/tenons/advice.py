"""What of a mortise and tenon is unwise though it can be cut."""

from collections.abc import Iterator

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.checks import loose_fit
from joinery_templates.joints.sources import BUILDING_CONSTRUCTION, NOYES
from joinery_templates.joints.tenons import figures
from joinery_templates.joints.tenons.proportions import A_LITTLE, END_WOOD, WIDEST_RAIL
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.tongues import THICKEST, THINNEST
from joinery_templates.lengths import INCH, decimal_text

TO_THE_TOP = f"{NOYES}, p. 207: a wide shoulder, or the end shears"
HAUNCH = f"{BUILDING_CONSTRUCTION}: a haunch projects 1/2 to 1 in"
THICKEST_BARE = Fraction(3, 5)
"""Of the rail's thickness, where the tenon is bare-faced (our judgement)."""
MORE_WITH_HAUNCH = Fraction(3, 2)
"""So much wider a rail may be whose edge a haunch keeps from twisting (our judgement)."""
DEEPEST = Fraction(7, 8)
SHORTEST_IN_LEG = Fraction(1, 3)
"""There another one may be in its way (our judgement)."""
SHORTEST, SHORT = Fraction(1, 2), 2 * INCH
"""A short tenon, less than half way through the stile, holds little (our judgement)."""
SLIGHT = Fraction(1, 2)
"""So much of a stile's width or thickness, at most, is a bar's or slat's (our judgement)."""
SHORT_GRAIN = 30
"""A rail that leans by more degrees has short grain at its shoulders (our judgement)."""
MOST_OFFSET = Fraction(1, 4)
"""Of a peg's diameter: with more it breaks, or splits the tenon (our judgement)."""


def advise(tenon: Tenon) -> Iterator[Finding]:
    """What is unwise."""
    yield from _on_thickness(tenon)
    yield from _on_width(tenon)
    yield from _on_length(tenon)
    yield from _on_end(tenon)
    yield from _on_haunch(tenon)
    yield from _on_wedges(tenon)
    yield from _on_pegs(tenon)
    yield from loose_fit(tenon, tenon.given.fit, "at each cheek is more than glue fills well")


def _on_thickness(tenon: Tenon) -> Iterator[Finding]:
    text, wide, given, name = tenon.text, tenon.mortise_width, tenon.given, tenon.role(1)
    share = wide / tenon.rail.thickness
    most = THICKEST_BARE if tenon.is_bare else THICKEST
    if given.twins == 1 and not THINNEST <= share <= most:
        yield advice(
            "tenon-thin" if share < THINNEST else "tenon-thick",
            f"A tenon {text(wide)} thick is {decimal_text(100 * share, 0)} % of the rail's "
            f"thickness, {text(tenon.rail.thickness)}.",
            f"{figures.THIRDS}; {figures.BAND}; {figures.BY_CHISEL}",
            f"About {'half' if tenon.is_bare else 'a third'} is usual.",
            "tenon_thickness",
        )
    wall = tenon.stile.thickness - tenon.mortise_to
    if wall < wide / 2:
        told = given.tenon_thickness is not None
        yield advice(
            "mortise-wall-thin",
            f"Only {text(wall)} of the {name} is left between the mortise and the "
            f"{tenon.upright.within}.",
            OURS,
            f"Give a thinner tenon or a thicker {name}." if told else f"Take a thicker {name}.",
            "tenon_thickness" if told else "",
        )
    room = tenon.stile.thickness - tenon.rail.thickness
    if given.set_back > max(room, ZERO):
        yield advice(
            "rail-stands-out",
            f"Set back {text(given.set_back)}, the rail stands {text(given.set_back - room)} out "
            f"of the {name}'s {tenon.upright.within}.",
            OURS,
            f"Set it back {text(room)} at most." if room > 0 else "Leave set_back out.",
            "set_back",
        )
    chisels = tenon.request.tools.chisels
    if wide not in chisels and any(chisel < wide for chisel in chisels):
        yield advice(
            "mortise-between-chisels",
            f"None of your chisels is as wide as the mortise, {text(wide)}; a mortise is best "
            "chopped with a chisel of its own width.",
            figures.BY_CHISEL,
            "Take the width of one of your chisels, or chop narrower and pare to the middle of the "
            "lines.",
            "tenon_thickness",
        )


def _on_width(tenon: Tenon) -> Iterator[Finding]:
    text, is_alone = tenon.text, tenon.given.count == 1
    widest = WIDEST_RAIL * (MORE_WITH_HAUNCH if tenon.given.haunch else 1)
    if tenon.rail.width > widest and is_alone:
        yield advice(
            "rail-wide",
            f"A rail {text(tenon.rail.width)} wide usually has two tenons, with a gap between "
            "them; this joint has one.",
            figures.HALF_TO_WHOLE,
            "Give count = 2, or see that the rail cannot twist.",
        )
    if tenon.width > max(WIDEST_RAIL, 5 * tenon.mortise_width):
        yield advice(
            "tenon-wide",
            f"A tenon {text(tenon.width)} wide may bend and shrink.",
            f"{figures.FIVE}; {figures.HALF_TO_WHOLE}",
            "Give wider shoulders." if is_alone else "Give one tenon more.",
            "shoulder" if is_alone else "count",
        )


def _on_length(tenon: Tenon) -> Iterator[Finding]:
    text, name = tenon.text, tenon.role(1)
    if not tenon.is_square and abs(90 - tenon.given.angle) > SHORT_GRAIN:
        yield advice(
            "shoulder-slants",
            f"At {decimal_text(tenon.given.angle, 1)}° the rail's tip at the shoulder is short "
            "grain and breaks away.",
            OURS,
            "Leave the tip over, and trim it when the joint is glued.",
            "angle",
        )
    if tenon.given.through:
        return
    if tenon.depth > tenon.stile.width * DEEPEST:
        yield advice(
            "mortise-deep",
            f"Only {text(tenon.stile.width - tenon.depth)} of the {name} is left below the "
            "mortise.",
            figures.SEVEN_EIGHTHS,
            "Give a shorter tenon.",
            "tenon_length",
        )
    least, share = (SHORTEST_IN_LEG, "a third of the") if name == "leg" else (SHORTEST, "half")
    if tenon.lets_in < min(tenon.stile.width * least, SHORT) and not _fills_the_frame(tenon):
        yield advice(
            "tenon-short",
            f"A tenon {text(tenon.length)} long goes less than {share} way through the {name}.",
            OURS,
            "Give a longer one.",
            "tenon_length",
        )
    if not tenon.extra:
        yield advice(
            "no-extra-depth",
            "A mortise no deeper than the tenon is long may keep the shoulders open.",
            figures.THIRDS,
            "Make it a little deeper.",
            "extra_depth",
        )


def _fills_the_frame(tenon: Tenon) -> bool:
    """Whether the rail is a bar, slat, splat or muntin, whose tenon only keeps it in place.

    It stands away from the frame's corners, which hold it square, and is slight beside what it
    is let into, or an upright beside panels (our judgement).
    """
    given, rail, stile = tenon.given, tenon.rail, tenon.stile
    if tenon.upright.is_leg or not (given.middle or given.at):
        return False
    if rail.width < stile.width * SLIGHT:
        return True
    is_thin = rail.thickness <= stile.thickness * SLIGHT
    return tenon.request.first_in_front and (is_thin or tenon.channel_depth > 0)


def _on_end(tenon: Tenon) -> Iterator[Finding]:
    """A mortise near the stile's end: while it is chopped, and when the horn is off."""
    text, far = tenon.text, tenon.shoulders[1]
    horn, to_end = tenon.given.horn, tenon.along
    if to_end is not None and to_end + far < END_WOOD:
        yield advice(
            "end-splits",
            f"Only {text(to_end + far)} of wood stands between the mortise and the "
            f"{tenon.upright.end}, and may split while you chop.",
            OURS,
            "Leave a longer horn, to be sawn off last."
            if horn is not None
            else "Give a wider shoulder at the far edge, or a horn in place of at, sawn off last.",
            "shoulder_far" if horn is None else "horn",
        )
    if horn is None:
        return
    if far < tenon.mortise_width:
        yield advice(
            "end-weak",
            f"Once the horn is off, only {text(far)} of wood closes the mortise.",
            f"{TO_THE_TOP}; how wide: {OURS}",
            "Give a wider shoulder at the far edge.",
            "shoulder_far",
        )


def _on_haunch(tenon: Tenon) -> Iterator[Finding]:
    text, given, deep = tenon.text, tenon.given, tenon.channel_depth
    fills = tenon.is_haunch_square and tenon.haunch_length >= deep
    goes_on = given.horn is None and tenon.along
    if given.groove and goes_on:
        yield advice(
            "groove-shows",
            f"The {tenon.role(1)} goes on past the rail, and its groove shows there.",
            OURS,
            f"Stop the {tenon.role(1)}'s groove behind the rail: no haunch fills it farther.",
        )
    elif given.groove and tenon.shoulders[1] and not fills:
        yield advice(
            "groove-shows",
            f"The {tenon.role(1)}'s groove runs out at its end, and nothing fills it beside the "
            "tenon.",
            figures.IN_GROOVE,
            f"Give a square haunch {text(deep)} long, or stop the {tenon.role(1)}'s groove.",
            "haunch.length" if given.haunch else "haunch",
        )
    if given.haunch and given.haunch.length is not None and tenon.haunch_length > INCH:
        yield advice(
            "haunch-long",
            f"A haunch {text(tenon.haunch_length)} long takes much of what closes the mortise.",
            HAUNCH,
            "Make it shorter.",
            "haunch.length",
        )


def _on_wedges(tenon: Tenon) -> Iterator[Finding]:
    if not tenon.given.wedges:
        return
    if not tenon.given.through:
        yield advice(
            "wedges-hidden",
            "Wedges in a stopped mortise are driven by its floor: once in, the joint never comes "
            "apart, and one that is too long keeps the shoulders open.",
            COMMON,
            "Try the length of the wedges in waste, or give through = true.",
            "wedges",
        )
    if tenon.flare > min(tenon.shoulders):
        yield advice(
            "flare-shows",
            f"With a flare of {tenon.text(tenon.flare)} the mortise comes out past an edge of the "
            "rail.",
            OURS,
            "Give less flare, or wider shoulders.",
            "wedges.flare",
        )


def _on_pegs(tenon: Tenon) -> Iterator[Finding]:
    drawbore, text = tenon.given.drawbore, tenon.text
    if not drawbore:
        return
    if drawbore.offset is not None and tenon.offset > tenon.peg * MOST_OFFSET:
        yield advice(
            "offset-large",
            f"An offset of {text(tenon.offset)} is much for a peg of {text(tenon.peg)}: it breaks, "
            "or splits the tenon's end.",
            OURS,
            "About a sixth of the peg is usual.",
            "drawbore.offset",
        )
    behind = tenon.lets_in - tenon.from_shoulder - tenon.peg / 2
    if behind < tenon.peg:
        yield advice(
            "peg-splits",
            f"Only {text(behind)} of the tenon is left behind its hole, and may split out.",
            OURS,
            "Bring the peg nearer to the shoulder, or take a thinner one.",
            "drawbore.from_shoulder",
        )
    past = (drawbore.depth or tenon.stile.thickness) - tenon.mortise_to
    if drawbore.depth and past < 2 * tenon.point:
        least = tenon.mortise_to + 2 * tenon.point
        # The bit's own point must not come through.
        room = least + A_LITTLE[tenon.units] <= tenon.stile.thickness
        deeper = f"Bore at least {text(least)} deep, or leave depth out to bore right through."
        yield advice(
            "peg-point",
            f"A hole {text(drawbore.depth)} deep goes {text(past)} past the mortise, and "
            f"{text(tenon.point)} of the peg is its point: hardly anything holds there.",
            OURS,
            deeper if room else "Leave depth out to bore right through, or take a thinner peg.",
            "drawbore.depth",
        )
    if tenon.peg > tenon.width / 3:
        yield advice(
            "peg-thick",
            f"Holes of {text(tenon.peg)} take much of a tenon {text(tenon.width)} wide.",
            OURS,
            "Take thinner pegs.",
            "drawbore.peg",
        )
