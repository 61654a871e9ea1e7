"""What a tenon cannot be held by: haunches, wedges and pegs that do not go with it."""

from collections.abc import Iterator

from joinery_templates.errors import Finding, mistake
from joinery_templates.joints.tenons.tenon import Tenon


def haunch(tenon: Tenon) -> Iterator[Finding]:
    """One that is no shorter than the tenon, or has no shoulder to stand on."""
    if not tenon.given.haunch:
        return
    text, long = tenon.text, tenon.haunch_length
    if not tenon.shoulders[1]:
        yield mistake(
            "no-room",
            "There is no shoulder at the rail's far edge that could have a haunch.",
            "Give a wider shoulder_far, or leave the haunch out.",
            "shoulder_far",
        )
    if long >= tenon.lets_in_least:
        yield mistake(
            "haunch-too-long",
            f"A haunch {text(long)} long is no shorter than the tenon, {text(tenon.length)}.",
            "Give a shorter one: as deep as the groove, or as long as the tenon is thick.",
            "haunch.length",
        )


def wedges(tenon: Tenon) -> Iterator[Finding]:
    """Kerfs and flares that leave no wood."""
    if not tenon.given.wedges:
        return
    text = tenon.text
    if tenon.kerf_depth >= tenon.length:
        yield mistake(
            "kerf-too-deep",
            f"A kerf {text(tenon.kerf_depth)} deep goes down to the shoulder of a tenon "
            f"{text(tenon.length)} long.",
            "About three quarters of the tenon's length is usual.",
            "wedges.depth",
        )
    if tenon.flare_from >= tenon.depth:
        yield mistake(
            "kerf-too-shallow",
            f"A kerf {text(tenon.kerf_depth)} deep ends before the tenon's end comes out of the "
            f"{tenon.role(1)}, and would not spread it.",
            "About three quarters of the tenon's length is usual.",
            "wedges.depth",
        )
    if tenon.from_side * 2 + tenon.kerf >= tenon.width or tenon.from_side * 2 <= tenon.kerf:
        yield mistake(
            "kerfs-meet",
            f"Kerfs {text(tenon.from_side)} from each side of a tenon {text(tenon.width)} wide "
            "leave no wood beside them.",
            "About a sixth of the tenon's width is usual.",
            "wedges.from_side",
        )
    if tenon.gaps and 2 * tenon.flare >= tenon.gaps[0][1] - tenon.gaps[0][0]:
        yield mistake(
            "flares-meet",
            f"Two mortises that flare by {text(tenon.flare)} run into each other.",
            "Give a wider gap, or less flare.",
            "wedges.flare",
        )


def pegs(tenon: Tenon) -> Iterator[Finding]:
    """Holes outside of the tenon, or so far off that no peg finds its way."""
    drawbore = tenon.given.drawbore
    if not drawbore:
        return
    text, half, at = tenon.text, tenon.peg / 2, tenon.from_shoulder
    if tenon.peg >= tenon.width / drawbore.pegs:
        yield mistake(
            "peg-outside-tenon",
            f"A tenon {text(tenon.width)} wide has no room for "
            f"{'a hole' if drawbore.pegs == 1 else f'{drawbore.pegs} holes'} of {text(tenon.peg)}.",
            "Give thinner pegs, or fewer.",
            "drawbore.peg",
        )
    if tenon.offset >= half:
        yield mistake(
            "offset-too-large",
            f"Where the tenon's holes are {text(tenon.offset)} nearer to the shoulder, a peg of "
            f"{text(tenon.peg)} does not find its way through.",
            "About a sixth of the peg is usual.",
            "drawbore.offset",
        )
    deep = min(tenon.length * tenon.lean[1] + tenon.deeper(x) for x in tenon.peg_places)
    if at + half >= deep:
        yield mistake(
            "peg-outside-tenon",
            f"A hole of {text(tenon.peg)} with its middle {text(at)} from the shoulder is not "
            f"within the tenon, which goes {text(deep)} into the {tenon.role(1)} there.",
            "Bring it nearer to the shoulder, or take a thinner peg.",
            "drawbore.from_shoulder" if drawbore.from_shoulder is not None else "drawbore.peg",
        )
    if at - half - tenon.offset <= tenon.channel_depth:
        yield mistake(
            "peg-at-edge",
            f"A hole of {text(tenon.peg)} with its middle {text(at)} from the "
            f"{tenon.upright.face} leaves no wood before it.",
            f"Give more than {text(tenon.channel_depth + half + tenon.offset)} as from_shoulder: "
            f"{text(tenon.usual_from_shoulder)} is usual.",
            "drawbore.from_shoulder",
        )
    if drawbore.depth and not tenon.mortise_to < drawbore.depth < tenon.stile.thickness:
        yield mistake(
            "bore-depth",
            f"A hole {text(drawbore.depth)} deep does not end between the mortise's far side, at "
            f"{text(tenon.mortise_to)}, and the {tenon.upright.within}, at "
            f"{text(tenon.stile.thickness)}.",
            "Leave depth out to bore right through.",
            "drawbore.depth",
        )
