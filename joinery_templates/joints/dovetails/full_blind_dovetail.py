r"""The full-blind dovetail, or secret mitre: nothing shows but a mitre.

Seen on the reference edge, away from the mitred edges::

    y = 0   lap               b, tail board's baseline
      +------------------------+-------- z = 0, tail board's outside face
      | \     tail board's lap
      |   \ +------------------+         z = lap
      | pin | tails and pins   |  tail
      | b's |                  |  board
      | lap +------------------+-------- z = a, tail board's inside face
      |   pin board            |
    outside                 inside

The outer part of both boards is mitred, the rest dovetailed; beside both edges they are
mitred right through a short way (Noyes 1910, nos. 50 and 51). Widths of tails and pins are
those at the tails' own ends.
"""

from collections.abc import Iterator
from itertools import pairwise

from msgspec.structs import replace

from joinery_templates.errors import COMMON
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import Joint, LengthSetting, SettingOut, Step, Task
from joinery_templates.joints.corners import steps as corners
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.dovetails import figures, laps, mitred_edges, steps
from joinery_templates.joints.dovetails.corner import ROLES, DovetailCorner
from joinery_templates.joints.dovetails.parameters import DovetailParameters
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.shared_parameters import size_parameter
from joinery_templates.joints.sources import NOYES_50_AND_51
from joinery_templates.joints.spread import bolder_and_finer_tails
from joinery_templates.joints.words import BESIDE, slope_text
from joinery_templates.wood.cut import BoardEnd, Cut, Stage, Surface, at_least, at_most

HALF_RULE = f"half of the thinner board, rounded to a gauge setting ({NOYES_50_AND_51})"
"""About half of both thicknesses is dovetailed, the outer part mitred (Noyes 1910, p. 167)."""


class Parameters(DovetailParameters):
    """The parameters of a full-blind dovetail."""

    lap: Fraction | None = size_parameter(
        "Thickness of the outer part of both boards, which is mitred and hides the rest.",
        HALF_RULE,
    )
    mitre: Fraction | None = mitred_edges.mitre_parameter()


def _lay_out(request: Request) -> Joint:
    given: Parameters = request.given
    units = request.units
    thinner = min(request.boards, key=lambda board: board.thickness)
    # At 45 degrees the mitred part is equally thick on both boards.
    lap, rules = laps.settle_lap(given.lap, thinner, units, f"Lap: {HALF_RULE}", share=laps.HALF)
    pair = pair_of(request, "At a mitred corner", starts=(lap, lap))
    return mitred_edges.lay_between(FullBlind, request, pair, decided=rules).joint()


def _steps(corner: DovetailCorner) -> tuple[Step, ...]:
    """Pins first, the mitres last (common practice, no source)."""
    return (
        corners.prepare(corner),
        *_gauge(corner),
        Step(
            Task.LAY_ON,
            f"Lay the templates on {corner.named(0)} and {corner.named(1)}",
            f"{corner.laid_on()} Where you pricked, knife the pins' sides on the inside "
            f"face of {corner.named(1)} now, from ring to ring. The tails are knifed later, from "
            "the pins.",
        ),
        _rebate(corner),
        _pins(corner),
        steps.mark_from_pins(
            corner, "its lap hanging down into the rebate, close against the rebate's shoulder"
        ),
        steps.saw_and_chop_hidden_spaces(corner),
        *_mitres(corner),
        steps.fit_and_glue(corner),
    )


def _gauge(corner: DovetailCorner) -> Iterator[Step]:
    yield Step(
        Task.GAUGE,
        "Gauge the rebates",
        f"Set a gauge to {corner.text(corner.lap)}: on both boards scribe the rebate from the "
        "end on the inside face, from the outside face on the end grain, and both lines on the "
        "edges too, each only as far as the other: past that they stay in sight. Nothing is "
        "marked on the outside faces, now or later.",
    )
    yield Step(
        Task.GAUGE,
        "Gauge baselines and mitres",
        f"{corners.set_both_gauges(corner)} Scribe the baselines from the end on the "
        f"inside faces only. {mitred_edges.scribe_strips(corner)}. Knife the mitre across all "
        "edges with a mitre square, from the outside arris of the end inwards."
        f"{mitred_edges.meets_baseline(corner)}",
    )


def _rebate(corner: DovetailCorner) -> Step:
    lap = corner.text(corner.lap)
    deep = [corner.text(board.thickness - corner.lap) for board in corner.boards]
    seen = deep[0]
    if deep[0] != deep[1]:
        seen = f"{deep[0]} on {corner.named(0)}, {deep[1]} on {corner.named(1)}"
    return Step(
        Task.REBATE,
        "Rebate both ends",
        "Saw and plane a square rebate from edge to edge across the inside of both boards' ends, "
        f"{lap} from the end and down to {lap} from the outside face. So the templates call it "
        f"{lap} deep on the end grain and, on the inside face, {seen}. Saw {BESIDE}; plane down to "
        f"the middle of the lines, and try step and lap with the gauge at {lap}: one board is "
        "marked from the other against them. Scribe the mitred strips over the step too, with the "
        "gauge set for them. The lap that is left there is mitred last.",
    )


def _pins(corner: DovetailCorner) -> Step:
    step = corner.text(corner.pin_board.thickness - corner.lap)
    return Step(
        Task.CUT_SECOND,
        "Saw and chop the pins",
        "Check the marks with the setting-out strip, laid along the arris of the step: mark must "
        "meet line. Without templates, knife them from it and square them to the baseline. Draw "
        "the pins from them on the step of the rebate with the bevel, at "
        f"{slope_text(corner.slope)}, widest at the inside face: its stock lies on that face, and "
        f"its blade stands out less than the step is high, {step}. Saw {BESIDE}, with the saw "
        "held at a slant, until it meets the lap and the baseline and no further; chop at the "
        "baseline, split the waste off from the step, down to the lap, and pare to the middle of "
        "the lines. The outer side of a half pin is the scribed line of the mitred strip: nothing "
        "is sawn there yet.",
    )


def _mitres(corner: DovetailCorner) -> Iterator[Step]:
    edge = corner.text(max(corner.mitres))
    yield Step(
        Task.SAW_DOWN,
        f"Saw the strips of {corner.named(1)} free",
        f"At both edges of both boards a strip {edge} wide is mitred, up to its scribed line. On "
        "the pin board saw it free of the half pin first: along the grain beside that line, "
        "on the strip's side, the saw held at a slant, from the baseline on the inside face to the "
        "foot of the step at the lap, no further than the knifed mitre.",
        (1,),
    )
    yield Step(
        Task.MITRE,
        "Mitre the edges and the laps",
        f"Saw the mitre across each strip of both boards, {BESIDE}, {edge} in and no further, and "
        "pare it to the middle of the line. Plane the laps with a shoulder plane held at 45 "
        "degrees, to within a shaving of the mitre, and test them with a mitre square. Only now "
        "can a corner be tried dry, with all paper peeled off, for square laps keep it open; take "
        "the last shavings off when the dovetails fit.",
    )


class FullBlind(figures.Dovetail, frozen=True, dict=True):
    """All that is stated of a full-blind dovetail."""

    is_mitred = True
    steps = _steps

    @property
    def parts(self) -> tuple[BoardEnd, BoardEnd]:
        """Both ends: rebate, spaces and sockets, and mitres last."""
        lap, mitred = self.lap, Stage(3, mitred_edges.MITRED_LAST)
        behind_lap = at_least(2, lap, Surface.SAWN_SHOULDER)
        rebate = Cut((at_most(1, lap, Surface.SAWN_SHOULDER), behind_lap), Stage(1, "end rebate"))
        lap_mitre = Cut((mitred_edges.mitre(ZERO), behind_lap.turned()), mitred)
        # The rebate takes the mitred edges' part of it too.
        tails, pins = mitred_edges.mitred_edge_cuts(self, mitred, lap)
        more = lap_mitre, rebate
        return self.ends((*tails, *more), (*pins, *more), Stage(2, "spaces"))

    def rows(self) -> Iterator[SettingOut]:
        """On the line of the rebate: at the very end all wood goes, and no mark means anything."""
        main, _, *others = super().rows()
        spaces = tuple(
            (one.position, other.position) for one, other in pairwise(main.marks) if one.starts
        )
        title = "the pins' ends, inside face"
        yield replace(main, title=title, along_end=False, waste=spaces)
        yield from others

    def gauges(self) -> tuple[LengthSetting, ...]:
        """Of both boards' rebates and baselines."""
        return (
            gauge("both boards' end rebate, from the end and from the outside face", self.lap),
            gauge("tail board's baseline, on its inside face only", self.pair.gauge(0)),
            gauge("pin board's baseline, on its inside face only", self.pair.gauge(1)),
        )


KIND = Kind(
    name="full-blind-dovetail",
    title="Secret mitre dovetail (full-blind)",
    summary="Secret mitre: half of both boards is dovetailed, and outside only a mitre shows.",
    roles=ROLES,
    parameter_class=Parameters,
    lay_out=_lay_out,
    example=Example(
        width="130 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(
            ("slope", "1:6"),
            ("tails", 3),
            ("half_pin", "8 mm"),
            ("pin", "8 mm"),
            ("lap", "10 mm"),
            ("mitre", "6 mm"),
        ),
    ),
    also=("secret-mitre-dovetail", "blind-dovetail"),
    sources=(NOYES_50_AND_51, COMMON),
    spread=bolder_and_finer_tails,
)
