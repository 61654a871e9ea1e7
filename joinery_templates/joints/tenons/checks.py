"""What of a mortise and tenon cannot be cut, or not be put together."""

from collections.abc import Iterator
from itertools import pairwise

from joinery_templates.errors import Finding, mistake
from joinery_templates.exact import ZERO
from joinery_templates.joints.checks import first_told, too_short
from joinery_templates.joints.tenons import additions
from joinery_templates.joints.tenons.parameters import BOTTOM
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.words import listed


def impossible(tenon: Tenon) -> Iterator[Finding]:
    """All that is refused, with its place and remedy."""
    told = tuple(_told_against_each_other(tenon))
    yield from told
    found = (*_through_thickness(tenon), *_across_width(tenon))
    yield from found
    if told or found:
        return  # what follows would only say the same once more
    yield from _along_rail(tenon)
    yield from _channels(tenon)
    yield from additions.haunch(tenon)
    yield from additions.wedges(tenon)
    yield from additions.pegs(tenon)
    yield from too_short(tenon, (tenon.reach, tenon.across_stile + (tenon.given.horn or 0)))


def _told_against_each_other(tenon: Tenon) -> Iterator[Finding]:
    given, name = tenon.given, tenon.role(1)
    if given.through and given.extra_depth is not None:
        yield mistake(
            "not-with-through",
            "A mortise that goes right through has no extra depth.",
            "Leave extra_depth out, or through.",
            "extra_depth",
        )
    if given.proud and not given.through:
        yield mistake(
            "not-with-stopped",
            f"A tenon in a stopped mortise cannot stand out of the {name}.",
            "Leave proud out, or give through = true.",
            "proud",
        )
    if given.groove and given.rebate:
        yield mistake(
            "groove-in-rebate",
            "A groove and a rebate along the same edge run into each other.",
            "Give one of them.",
            "groove",
        )
    if given.groove and given.twins > 1:
        yield mistake(
            "not-with-twins",
            "A groove in line with the mortise would leave the space between tenons side by side "
            "empty.",
            "Leave the groove out, or give twins = 1.",
            "groove",
        )
    if given.wedges and not tenon.is_square:
        yield mistake(
            "not-with-angle",
            f"Wedges are driven along the tenon, and this one goes into the {name} at a slant.",
            "Leave the wedges out, or give an angle of 90.",
            "wedges",
        )
    places = {"horn": given.horn is not None, "at": given.at is not None, "middle": given.middle}
    told = [name for name, is_told in places.items() if is_told]
    if len(told) > 1:
        yield mistake(
            "two-places",
            f"Where the rail is on the {name} is told twice: by {told[0]} and by {told[1]}.",
            "A horn is sawn off last; `at` is for an end that stays. Leave one of them out.",
            told[1],
        )
    if given.from_end == BOTTOM and not (tenon.upright.is_leg and given.at is not None):
        yield mistake(
            "no-bottom",
            "From the bottom only a place on a leg is measured, and none is told.",
            "Give at, and on; of a frame's stile a corner such as C or D says which end it is.",
            "from_end",
        )
    ends = {"middle": (given.middle, "middle"), "from_end": (given.from_end == BOTTOM, "bottom")}
    for name, (is_told, what) in ends.items():
        if is_told and tenon.stile.length is None:
            yield mistake(
                "length-needed",
                f'The length of "{tenon.stile.name}" is not told, so its {what} is not known.',
                "Give the board's length.",
                name,
            )
    if tenon.ends_mitred:
        yield from _mitred(tenon)
    if given.gap is not None and given.count == 1:
        yield mistake(
            "gap-alone",
            "There is no gap beside a single tenon.",
            "Leave gap out, or give count = 2.",
            "gap",
        )


def _mitred(tenon: Tenon) -> Iterator[Finding]:
    """What a mitred end does not go with; a frame's stile has no second tenon to meet."""
    given = tenon.given
    others = {
        "through": (given.through, "a tenon that goes right through has an end that shows"),
        "wedges": (bool(given.wedges), "wedges are driven into a square end"),
        "twins": (given.twins > 1, "tenons side by side would end at one slant"),
        "angle": (not tenon.is_square, "the tenons would pass each other at a slant"),
        "on": (not tenon.upright.is_leg, "tenons meet in a leg, and no leg is told"),
    }
    for name, (is_told, why) in others.items():
        if is_told:
            remedy = f"Leave {name} out, or mitre no tenon."
            if name == "on":
                remedy = 'Give on = "reference-edge" or "inside", or mitre no tenon.'
            yield mistake("not-mitred", f"The tenon's end cannot be mitred: {why}.", remedy, name)


def _through_thickness(tenon: Tenon) -> Iterator[Finding]:
    given, text, thick, name = tenon.given, tenon.text, tenon.rail.thickness, tenon.role(1)
    (low, _), (_, high) = tenon.sides[0], tenon.sides[-1]
    place = "tenon_thickness"
    if given.tenon_thickness is None:
        place = "shoulder_outside" if given.shoulder_outside is not None else "shoulder_inside"
    outside, inside = given.shoulder_outside, given.shoulder_inside
    differs = None not in (outside, inside) and high + (inside or 0) != thick
    apart = [other - one for one, other in tenon.between_sides]
    if given.tenon_thickness is not None and given.tenon_thickness > thick:
        yield mistake(
            "tenon-too-thick",
            f"A tenon {text(given.tenon_thickness)} thick does not fit in a rail {text(thick)} "
            "thick.",
            "Give a thinner tenon: about a third is usual.",
            place,
        )
        return
    many = given.twins
    beside = f": {many} tenons take {text(high - low)} with what is between them"
    beside = beside if many > 1 else ""
    if differs or low < 0 or high > thick or min(apart, default=1) <= 0 or tenon.mortise_width <= 0:
        yield mistake(
            "shoulders-differ",
            f"Tenon and shoulders do not come to the rail's thickness, {text(thick)}{beside}.",
            "Give one of them less, or leave one out: the rest then follows.",
            place,
        )
        return
    if low == 0 and high == thick:
        yield _let_in_whole(tenon)
    elif tenon.mortise_to >= tenon.stile.thickness:
        is_set_back = given.set_back > 0
        yield mistake(
            "tenon-too-thick",
            f"A tenon {text(tenon.mortise_width)} thick, {text(tenon.mortise_from)} from the "
            f"{name}'s {tenon.upright.gauged}, leaves nothing beside it of "
            f'"{tenon.stile.name}", {text(tenon.stile.thickness)} thick.',
            f"Give a thinner tenon, about a third{', or set the rail back less' * is_set_back}.",
            "set_back" if is_set_back else "tenon_thickness",
        )
    elif tenon.mortise_from <= 0:
        yield mistake(
            "tenon-too-thick",
            f"A tenon that is bare outside, in a rail flush with the {name}, leaves nothing of the "
            f"{name} outside its mortise.",
            "Set the rail back, or leave a shoulder outside.",
            "shoulder_outside",
        )
    elif _fit_takes_all(tenon):
        yield mistake(
            "no-room",
            f"A fit of {text(given.fit)} at both cheeks leaves no tenon, or no shoulder.",
            "Give a fit nearer to 0.",
            "fit",
        )


def _let_in_whole(tenon: Tenon) -> Finding:
    """No face has a shoulder: the pages would show a mortise, and of the tenon nothing."""
    names = "tenon_thickness", "shoulder_outside", "shoulder_inside"
    told = [name for name in names if getattr(tenon.given, name) is not None]
    thinner = "Give a thinner tenon"
    if told:
        thinner = f"Leave {listed(told)} out, and the tenon is about a third as thick"
    return mistake(
        "tenon-too-thick",
        f'No shoulder is left on either face of "{tenon.rail.name}", '
        f"{tenon.text(tenon.rail.thickness)} thick, and a rail or slat that is let in whole is not "
        "drawn.",
        f"{thinner}. A slat let in whole needs no template: scribe its mortise round the slat.",
        first_told(tenon.given, *names),
    )


def _fit_takes_all(tenon: Tenon) -> bool:
    """Whether a fit leaves nothing of a tenon, or one that presses nothing of what is beside it."""
    thick = tenon.rail.thickness
    edges = [edge for cheek in tenon.cheeks for edge in cheek]
    if tenon.sides[0][0]:
        edges.insert(0, ZERO)
    if tenon.sides[-1][1] < thick:
        edges.append(thick)
    return any(one >= other for one, other in pairwise(edges))


def _across_width(tenon: Tenon) -> Iterator[Finding]:
    given, text = tenon.given, tenon.text
    if tenon.width <= 0:
        near, far = tenon.shoulders
        told = [
            one for one in ("shoulder", "shoulder_far", "groove", "rebate") if getattr(given, one)
        ]
        place = told[0] if told else "shoulder_far"
        beside = f"Shoulders of {text(near)} and {text(far)}"
        if given.gap is not None:
            beside, place = f"{beside}, and gaps of {text(given.gap)},", "gap"
        yield mistake(
            "no-room",
            f"{beside} leave nothing of the tenon on a rail {text(tenon.rail.width)} wide.",
            f"Give a shallower {place}." if place in ("groove", "rebate") else "Give less of them.",
            place,
        )


def _along_rail(tenon: Tenon) -> Iterator[Finding]:
    given, text = tenon.given, tenon.text
    if not given.through and tenon.depth >= tenon.stile.width:
        yield mistake(
            "mortise-through",
            f"A mortise {text(tenon.depth)} deep comes out of the {tenon.role(1)}, "
            f"{text(tenon.stile.width)} wide.",
            f"Give a tenon shorter than {text(tenon.stile.width - tenon.depth + tenon.length)}, "
            "or less extra depth; or let it go right through: through = true.",
            "tenon_length" if given.tenon_length is not None else "extra_depth",
        )
    shortest = tenon.lets_in - abs(
        tenon.deeper(tenon.pieces[0][0]) - tenon.deeper(tenon.pieces[-1][1])
    )
    if shortest <= 0 or (given.through and shortest < tenon.stile.width):
        what = "does not come out of" if given.through else "does not go into"
        yield mistake(
            "tenon-too-short",
            f"A tenon {text(tenon.length)} long {what} the {tenon.role(1)}, "
            f"{text(tenon.stile.width)} wide.",
            "Give a longer one, or leave tenon_length out.",
            "tenon_length",
        )


def _channels(tenon: Tenon) -> Iterator[Finding]:
    name = "groove" if tenon.given.groove else "rebate"
    if not tenon.channel_depth:
        return
    text, (low, high), near = tenon.text, tenon.channel, tenon.shoulders[0]
    first, last = tenon.sides[0][0], tenon.sides[-1][1]
    if name == "groove" and not first <= low < high <= last:
        yield mistake(
            "groove-beside-tenon",
            f"A groove from {text(low)} to {text(high)} below the rail's outside face runs out "
            f"beside the tenon, which stands from {text(first)} to {text(last)}, and leaves a hole "
            "behind the shoulder.",
            "Make it as wide as the mortise, or narrower, and in line with it.",
            "groove",
        )
    if name == "rebate" and not last <= low < min(high, tenon.rail.thickness):
        yield mistake(
            "rebate-in-mortise",
            f"A rebate down to {text(low)} below the rail's outside face does not end between the "
            f"mortise, at {text(last)}, and the inside face, at {text(tenon.rail.thickness)}.",
            "Leave its depth out: it then goes down to the mortise.",
            "rebate.depth",
        )
    if name == "groove" and near < tenon.channel_depth:
        yield mistake(
            "groove-in-tenon",
            f"The groove goes {text(tenon.channel_depth)} in and cuts into the tenon, which begins "
            f"{text(near)} from the rail's reference edge.",
            f"Give a shoulder of {text(tenon.channel_depth)} at least, or leave it out.",
            "shoulder",
        )
    if tenon.channel_depth >= tenon.lets_in_least:
        yield mistake(
            f"{name}-too-deep",
            f"A {name} {text(tenon.channel_depth)} into the edge takes all the wood that the "
            "tenon is to hold in.",
            "Make it shallower.",
            name,
        )
