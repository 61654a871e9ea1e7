r"""The dovetailed halving: a rail meets a stile in a T, both let into each other, faces flush.

Of the rail's end a lap of half its thickness is left and sawn to a dovetail; the stile has a
socket for it in one face. It is put in square to that face and cannot be drawn out along
the rail::

              |  stile  |              section along the rail
              |    ___--|------           outside faces flush
              |  --     |              +---------+------------
       end    | dovetail| rail         |   lap   |
              |  --___  |              +---------+    rail
              |       --|------        |  stile  |
              |         |              +---------+------------
"""

from collections.abc import Iterator

from joinery_templates import joint
from joinery_templates.errors import COMMON, Finding, mistake, refuse
from joinery_templates.joints.checks import too_short
from joinery_templates.joints.halvings.dovetail_shape import (
    DOVETAILED,
    FAR_EDGE,
    HALVINGS,
    REFERENCE_EDGE,
    DovetailHalving,
    Parameters,
)
from joinery_templates.joints.halvings.dovetail_work import advise, order_of_work, rules_of
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import RAIL, STILE
from joinery_templates.joints.sources import JOYCE
from joinery_templates.joints.spread import usual_slopes


def build(request: Request) -> joint.Joint:
    """The layout of a dovetailed halving.

    Raises:
        InputError: where it cannot be cut.
    """
    given: Parameters = request.given
    halving = DovetailHalving(request, given)
    # What reaches where is settled before widths are asked for.
    for check in (_lengthwise, _in_thickness, _across):
        refuse(check(halving))
    widest = halving.rail.width - sum(halving.sloped) * (halving.at_other_edge - halving.fit_across)
    return joint.Joint(
        kind=KIND.name,
        title=KIND.title,
        members=halving.members(halving.rail_end(), halving.stile_part()),
        placements=(halving.placement,),
        filled=halving.filled(),
        allowance=given.fit,
        rows=tuple(_rows(halving)),
        sizes=tuple(_sizes(halving)),
        lengths=tuple(_lengths(halving)),
        slopes=(
            joint.SlopeSetting(
                "sides of the dovetail, stock on the rail's end", halving.slope, "slope"
            ),
        ),
        rules=tuple(rules_of(halving)),
        findings=tuple(advise(halving)),
        steps=tuple(order_of_work(halving)),
        pose=halving.pose,
        at_corner=False,
        clearings=(joint.Clearing("stile, socket", halving.socket_neck, widest, "shoulder"),),
    )


def _lengthwise(halving: DovetailHalving) -> Iterator[Finding]:
    given, text = halving.given, halving.text
    if given.lap_length is not None and given.lap_length > halving.stile.width:
        yield mistake(
            "no-room",
            f"A dovetail {text(given.lap_length)} long reaches past the stile, "
            f"{text(halving.stile.width)} wide.",
            "For a dovetail right across leave lap_length out; end_proud says how far it stands "
            "past the stile.",
            "lap_length",
        )
    if given.lap_length is not None and given.end_proud:
        yield mistake(
            "not-together",
            "A dovetail of a given length does not stand past the stile.",
            "Leave out end_proud or lap_length.",
            "end_proud",
        )
    yield from too_short(halving, (halving.reach, halving.rail.width))


def _in_thickness(halving: DovetailHalving) -> Iterator[Finding]:
    text = halving.text
    rail, stile, half = halving.rail, halving.stile, "About half of the thinner board is usual."
    if halving.lap >= rail.thickness:
        yield mistake(
            "lap-too-thick",
            f"A lap of {text(halving.lap)} is the whole rail, {text(rail.thickness)} thick.",
            f"Give a thinner lap. {half}",
            "lap",
        )
    elif halving.kept <= 0:
        yield mistake(
            "lap-too-thick",
            f"A lap of {text(halving.lap)} leaves nothing of the stile, {text(stile.thickness)} "
            "thick.",
            f"Give a thinner lap. {half}",
            "lap",
        )
    elif halving.socket_depth <= 0:
        yield mistake(
            "no-room",
            f"With outside faces flush a lap of {text(halving.lap)} on the rail's inside face lies "
            f"wholly behind the stile, {text(stile.thickness)} thick.",
            'Give a thicker lap, or write shows = "outside".',
            "lap",
        )


def _across(halving: DovetailHalving) -> Iterator[Finding]:
    given, text = halving.given, halving.text
    if halving.at_end < 0:
        yield mistake(
            "no-room",
            f"With a shoulder of {text(halving.shoulder)} the dovetail would be wider at its end "
            "than the rail.",
            f"Give a shoulder of {text(halving.lean)} or more, or a flatter slope.",
            "shoulder",
        )
    elif halving.neck <= 0:
        yield mistake(
            "no-room",
            f"Shoulders of {text(halving.shoulder)} leave nothing of the neck of a rail "
            f"{text(halving.rail.width)} wide.",
            "Give a flatter slope, one sloped side, or a dovetail that stops short.",
            "slope" if given.shoulder is None else "shoulder",
        )
    elif halving.shoulder <= halving.fit_across:
        yield mistake(
            "no-room",
            f"The fit leaves a gap wider than the shoulder of {text(halving.shoulder)} covers.",
            "Give a smaller fit or a wider shoulder.",
            "fit",
        )
    elif halving.socket_neck <= 0:
        yield mistake(
            "no-room",
            "The fit leaves no room for the dovetail's neck.",
            "Give a looser fit.",
            "fit",
        )


def _rows(halving: DovetailHalving) -> Iterator[joint.SettingOut]:
    """Where the dovetail and its socket begin and end."""
    near_edge, width = halving.given.enters, halving.rail.width
    # From the line on the stile; it stands for the rail's edge of the same name.
    turned = near_edge == FAR_EDGE
    far_place = "at the socket's end" if halving.stopped else f"{halving.other_edge}, on its arris"
    gap = halving.fit_across
    for title, role, inset, start, flipped in (
        (f"{halving.given.shows} face, along the end", RAIL, halving.at_end, REFERENCE_EDGE, False),
        ("at the shoulder", RAIL, halving.shoulder, REFERENCE_EDGE, False),
        (f"{near_edge}, on its arris", STILE, halving.shoulder - gap, halving.line, turned),
        (far_place, STILE, halving.at_other_edge - gap, halving.line, turned),
    ):
        what = "dovetail" if role == RAIL else "socket"
        low, high = halving.sloped[::-1] if flipped else halving.sloped
        marks = (
            *((joint.Mark(inset, f"{what} starts"),) if low else ()),
            *((joint.Mark(width - inset, f"{what} ends"),) if high else ()),
        )
        if inset > 0:
            yield joint.SettingOut(title, role, width, marks, start=start, along_end=False)


def _sizes(halving: DovetailHalving) -> Iterator[joint.Size]:
    yield joint.Size("dovetail at its end (wide)", halving.wide)
    yield joint.Size("dovetail at the shoulder (neck)", halving.neck)
    yield joint.Size("shoulder beside the dovetail", halving.shoulder)
    if halving.given.fit:
        yield joint.Size("socket where the rail comes in, with the fit", halving.socket_neck)
    yield joint.Size("thickness of the dovetail", halving.lap)
    yield joint.Size("thickness left of the stile", halving.kept)
    if halving.stopped:
        yield joint.Size(
            "left of the stile past the socket's end", halving.stile.width - halving.reach
        )


def _lengths(halving: DovetailHalving) -> Iterator[joint.LengthSetting]:
    yield joint.LengthSetting(
        "gauge",
        "flat of the lap and floor of the socket, both from the outside face",
        halving.gauged,
    )
    yield joint.LengthSetting("rule", "rail's shoulder, from its end", halving.reach)
    if halving.stopped:
        use = f"end of the socket, from the stile's {halving.given.enters}"
        yield joint.LengthSetting("gauge", use, halving.reach)


KIND = Kind(
    name="dovetail-halving",
    title="Dovetailed halving",
    summary="A rail let into a stile's face by a half-thick dovetail, flush: T joints of frames.",
    roles=DovetailHalving.roles,
    parameter_class=Parameters,
    build=build,
    example=Example(
        width="50 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(("slope", "1:6"), ("end_proud", "0.5 mm")),
        second_width="60 mm",
        corners=(("Left end", "A"), ("Right end", "B")),
    ),
    sources=(DOVETAILED, HALVINGS, JOYCE, f"a dovetail as wide as the rail at its end: {COMMON}"),
    spread=usual_slopes,
)
