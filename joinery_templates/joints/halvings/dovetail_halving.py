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
from joinery_templates.errors import COMMON, Finding, mistake
from joinery_templates.joints.checks import first_found, too_short
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.halvings import dovetail_work
from joinery_templates.joints.halvings.dovetail_shape import (
    DOVETAILED,
    FAR_EDGE,
    HALVINGS,
    REFERENCE_EDGE,
    DovetailHalving,
    Parameters,
)
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import RAIL, STILE
from joinery_templates.joints.sources import JOYCE
from joinery_templates.joints.spread import usual_slopes


class Stated(DovetailHalving, frozen=True):
    """All that is stated of a dovetailed halving."""

    rules = dovetail_work.rules_of
    advise = dovetail_work.advise
    steps = dovetail_work.order_of_work

    def impossible(self) -> Iterator[Finding]:
        """What reaches where is settled before widths are asked for."""
        return first_found(_lengthwise(self), _in_thickness(self), _across(self))

    def slopes(self) -> Iterator[joint.SlopeSetting]:
        """The sides' slope."""
        use = "sides of the dovetail, stock on the rail's end"
        yield joint.SlopeSetting(use, self.slope, "slope")

    def clearings(self) -> Iterator[joint.Clearing]:
        """The socket."""
        widest = self.rail.width - sum(self.sloped) * (self.at_other_edge - self.fit_across)
        yield joint.Clearing("stile, socket", self.socket_neck, widest, "shoulder")

    def rows(self) -> Iterator[joint.SettingOut]:
        """Where dovetail and socket begin and end."""
        near_edge, width = self.given.enters, self.rail.width
        # From the line on the stile; it stands for the rail's edge of the same name.
        turned = near_edge == FAR_EDGE
        far_place = "at the socket's end" if self.stopped else f"{self.other_edge}, on its arris"
        gap = self.fit_across
        for title, role, inset, start, flipped in (
            (f"{self.given.shows} face, along the end", RAIL, self.at_end, REFERENCE_EDGE, False),
            ("at the shoulder", RAIL, self.shoulder, REFERENCE_EDGE, False),
            (f"{near_edge}, on its arris", STILE, self.shoulder - gap, self.line, turned),
            (far_place, STILE, self.at_other_edge - gap, self.line, turned),
        ):
            what = "dovetail" if role == RAIL else "socket"
            low, high = self.sloped[::-1] if flipped else self.sloped
            marks = (
                *((joint.Mark(inset, what, starts=True),) if low else ()),
                *((joint.Mark(width - inset, what, starts=False),) if high else ()),
            )
            if inset > 0:
                yield joint.SettingOut(title, role, width, marks, start=start, along_end=False)

    def sizes(self) -> Iterator[joint.Size]:
        """Of the dovetail, its socket and what is left of the stile."""
        yield joint.Size("dovetail at its end (wide)", self.wide)
        yield joint.Size("dovetail at the shoulder (neck)", self.neck)
        yield joint.Size("shoulder beside the dovetail", self.shoulder)
        if self.given.fit:
            yield joint.Size("socket where the rail comes in, with the fit", self.socket_neck)
        yield joint.Size("thickness of the dovetail", self.lap)
        yield joint.Size("thickness left of the stile", self.kept)
        if self.stopped:
            yield joint.Size(
                "left of the stile past the socket's end", self.stile.width - self.reach
            )

    def lengths(self) -> Iterator[joint.LengthSetting]:
        """Gauges, and the rule for the shoulder."""
        yield gauge(
            "flat of the lap and floor of the socket, both from the outside face",
            self.gauged,
        )
        yield joint.LengthSetting("rule", "rail's shoulder, from its end", self.reach)
        if self.stopped:
            yield gauge(f"end of the socket, from the stile's {self.given.enters}", self.reach)


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


KIND = Kind(
    name="dovetail-halving",
    title="Dovetailed halving",
    summary="A rail let into a stile's face by a half-thick dovetail, flush: T joints of frames.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
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
