"""The order of work on a stile or leg: holes for pegs, mortises, a haunch's socket, the flare."""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.tenons.cuts import LINE
from joinery_templates.joints.tenons.proportions import A_LITTLE
from joinery_templates.joints.tenons.tenon import Tenon


def boring(tenon: Tenon) -> Step:
    """The holes, which are bored while the stile is whole."""
    drawbore, text = tenon.given.drawbore, tenon.text
    assert drawbore
    deep = "right through, on to waste wood clamped behind it"
    if drawbore.depth:
        deep = f"{text(drawbore.depth)} deep"
    return Step(
        Task.CUT_SECOND,
        f"Bore the {tenon.role(1)}",
        f"Bore it while it is whole: from the {tenon.upright.gauged} and square to it, with the "
        f"bit of {text(tenon.peg)} on the ring, {text(tenon.from_shoulder)} from the "
        f"{tenon.upright.entered}, {deep}.",
    )


def mortising(tenon: Tenon) -> Iterator[Step]:
    """Mortises of all sorts."""
    given, text = tenon.given, tenon.text
    upright = tenon.upright
    edges = f" on {upright.entered} and {upright.beyond}" if given.through else ""
    low, high = tenon.cheeks[0]
    kept = " Leave the gauge set."
    if high - low != tenon.mortise_width:
        kept = ""
    elif low != tenon.mortise_from:
        kept = " Leave its points set; for the tenon only the stock is moved."
    ends = "both ends of each" if tenon.gaps else "its two ends"
    more = " Gauge those beside it likewise, from the same face." if given.twins > 1 else ""
    yield Step(
        Task.GAUGE,
        "Set the mortise gauge",
        f"Set both points to the chisel itself, {text(tenon.mortise_width)}, then the stock so "
        f"that the nearer point stands {text(tenon.mortise_from)} from the stock. With the stock "
        f"on the {upright.name}'s {upright.gauged}, gauge the mortise's cheeks{edges}: the points "
        f"must run in the printed lines. Knife {ends} across.{more}{kept}",
        (1,),
    )
    yield Step(
        Task.CUT_SECOND,
        "Chop the mortise",
        f"{_chopping(tenon)} Try the cheeks with a square on "
        f"the {upright.entered}; pare bumps, but make it no wider.",
    )
    if given.haunch and not tenon.haunch_lies_in_groove:
        yield _haunch_socket(tenon)
    if given.wedges:
        where = upright.beyond if given.through else "floor"
        yield Step(
            Task.CUT_SECOND,
            "Pare the flare",
            f"Pare both ends of the mortise aslant: by {text(tenon.flare)} at the {where}, and to "
            f"nothing {text(tenon.flare_from)} below the {upright.entered}. Its cheeks stay as "
            "they are.",
        )


OPENS = (
    " Near its floor it opens into the mortise in the next face. Push a slip of waste wood into "
    "the one that is chopped first, so that its side does not break, and take thin chips there."
)
"""Common practice, no source."""


def _chopping(tenon: Tenon) -> str:
    text, little, upright = tenon.text, A_LITTLE[tenon.units], tenon.upright
    left = f" and {text(little)} inside the end lines" if tenon.width > 4 * little else ""
    slants, way = ("", "upright") if tenon.is_square else (_slanting(tenon), "along the bevel")
    how = (
        f"Keep between the gauged lines{left}.{slants} Hold the chisel {way}, "
        "its cutting edge across the grain and its sides in line with the gauged lines. Chop in "
        "small steps from one end to the other, lever out the chips, and go down in layers."
    )
    if tenon.given.through:
        return (
            f"Clamp the {upright.name} over a bench leg, {upright.beyond} up. {how} Half "
            f"way down turn it over, and chop from the {upright.entered} till both meet, so that "
            f"neither breaks out. Then chop both ends {way} to the middle of their lines, from "
            "both sides inwards."
        )
    down, goes_in = tenon.depth / tenon.lean[1], "goes in"
    deep = f", which is {text(tenon.depth)} deep"
    if tenon.is_square:
        deep, goes_in = "", "is long"
    below = f", {text(tenon.extra)} more than the tenon {goes_in}" if tenon.extra else ""
    return (
        f"Clamp the {upright.name} over a bench leg, {upright.entered} up. Mark "
        f"{text(down)} on the chisel with tape{deep}{below}. {how} When the depth is reached, "
        f"chop both ends {way} to the middle of their lines.{OPENS if tenon.ends_mitred else ''}"
    )


def _slanting(tenon: Tenon) -> str:
    """Which way a mortise for a rail that leans runs as it goes in."""
    upright, (sine, cosine) = tenon.upright, tenon.lean
    end = upright.end if upright.is_leg else f"{upright.end} that the rail's far edge faces"
    way, off = ("towards", "nearer to it") if sine > 0 else ("away from", "farther off")
    where = f"on the {upright.beyond}" if tenon.given.through else "at its floor"
    return (
        f" The mortise goes in aslant, as the rail does: {way} the {end}, {where} "
        f"{tenon.text(abs(sine) / cosine * tenon.depth)} {off}. Set a bevel to the rail's "
        f"shoulder, and stand it on the {upright.entered} beside it."
    )


def _haunch_socket(tenon: Tenon) -> Step:
    how = "up to" if tenon.is_haunch_square else "beside the mortise and rising to nothing at"
    between = " Between the mortises it is as deep all along." if tenon.gaps else ""
    return Step(
        Task.CUT_SECOND,
        "Chop for the haunch",
        f"Between the same gauged lines, {tenon.text(tenon.haunch_length)} deep {how} the line of "
        f"the {LINE}.{between}",
    )
