"""The double-lapped dovetail: a lap on both boards; only a thin line of end grain shows.

Seen on the reference edge. The line is the end of the tail board's lap, at y = 0: whoever looks at
the pin board's outside face sees it beside that face::

    y = 0  lap                b, tail board's baseline
      +-------------------------+---------- z = 0, tail board's outside face
      |   tail board's lap, runs over the pin board's end
      +-------+-----------------+           z = tail_lap: here the pin board ends
      |  lap  |  tails and pins |  tail
      |  of   |                 |  board
      |  the  +-----------------+---------- z = a, tail board's inside face
      |  pin board              |
    outside                  inside

The tail board has a rebate across its end, `lap` from the end and down to `tail_lap`; its
tails begin at the rebate. The pin board is shorter by `tail_lap` than the piece is long.
Widths of tails and pins are those at the tails' own ends.
"""

from joinery_templates.errors import COMMON
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import Joint, LengthSetting, Step, Task
from joinery_templates.joints.corners import steps as corners
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.dovetails import figures, laps, steps
from joinery_templates.joints.dovetails.corner import ROLES, DovetailCorner
from joinery_templates.joints.dovetails.parameters import DovetailParameters
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.shared_parameters import size_parameter
from joinery_templates.joints.sources import JOYCE, NOYES_50_AND_51
from joinery_templates.joints.spread import bolder_and_finer_tails
from joinery_templates.joints.words import BESIDE, FALLS_IN
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import BoardEnd, Cut, Stage, Surface, at_least, at_most

TAIL_LAP_RULE = "as on the pin board, by the tail board's own thickness (our judgement)"


class Parameters(Meeting, DovetailParameters):
    """The parameters of a double-lapped dovetail."""

    lap: Fraction | None = laps.pin_board_lap_parameter()
    tail_lap: Fraction | None = size_parameter(
        "Thickness of the lap that hides the pins' ends, on the tail board's outside; its end "
        "shows as a line of end grain beside the pin board's face.",
        TAIL_LAP_RULE,
    )


def _lay_out(request: Request) -> Joint:
    given: Parameters = request.given
    units, (tail_board, pin_board) = request.units, request.boards
    lap, rules = laps.settle_lap(given.lap, pin_board, units, f"Pin board's lap: {laps.LAP_RULE}")
    tail_lap, more = laps.settle_lap(
        given.tail_lap, tail_board, units, f"Tail board's lap: {TAIL_LAP_RULE}", "tail_lap"
    )
    pair = pair_of(request, "At a lapped corner", (ZERO, -tail_lap), (lap, ZERO))
    return DoubleLapped.laid_out(request, pair, decided=(*rules, *more)).joint()


def _steps(corner: DovetailCorner) -> tuple[Step, ...]:
    """Pins first: the tail board's lap would be in the way of a knife (common practice)."""
    return (
        corners.prepare(corner),
        _shorten(corner),
        _gauge_pins(corner),
        corners.lay_on(corner, 1, corners.setting_out_strip(Face.INSIDE)),
        steps.saw_and_chop_sockets(corner, "the line"),
        corners.lay_on(corner, 0, "Gauge through the paper; the rebate then takes its end away."),
        _rebate(corner),
        steps.mark_from_pins(
            corner, "its outside face level with the end, so that its lap hangs out over the rebate"
        ),
        steps.saw_and_chop_hidden_spaces(corner),
        steps.fit_and_glue(corner),
    )


def _shorten(corner: DovetailCorner) -> Step:
    lap, length = corner.text(corner.tail_lap), corner.boards[1].length
    listed = f", to the {corner.text(length)} of the list of boards" if length else ""
    return Step(
        Task.PREPARE,
        f"Length of {corner.named(1)}",
        f"It stops {lap} short of the outside of {corner.named(0)}, whose lap runs over its "
        f"end. With this joint at both ends, saw {corner.named(1)} shorter than the whole "
        f"piece is outside by twice {lap}{listed}.",
    )


def _gauge_pins(corner: DovetailCorner) -> Step:
    another = f"Set another to {corner.text(corner.pair.gauge(1))} and"
    if corner.pair.gauge(1) == corner.tail_length:
        another = "With the same setting,"
    return Step(
        Task.GAUGE,
        "Lap line and baseline of the pins",
        f"{corners.stop_short(corner) if corner.pair.wider else ''}"
        f"Set a gauge to {corner.text(corner.tail_length)} and from the inside face of "
        f"{corner.named(1)} scribe the lap line on its end grain: a lap of "
        f"{corner.text(corner.lap)} is left. {another} from its end scribe the baseline on its "
        f"inside face only. Nothing is marked on the outside face of either board. "
        f"{FALLS_IN}",
        (1,),
    )


def _rebate(corner: DovetailCorner) -> Step:
    edges = corner.open_edges(0)
    flush = corner.flush_edges(0)
    along = f", and on {flush} as far as the baseline" if flush else ""
    over = f" Square the baseline over {edges} too, from the inside face to that line."
    first, how = "", ", and plane it square"
    if any(corner.pair.past_the_other(0)):
        first = corners.stop_short(corner)
        how = (
            ", at a slant and no further than the first line, past which the board stays whole; "
            "chop up to it, and pare the rebate square"
        )
    return Step(
        Task.REBATE,
        f"Rebate the end of {corner.named(0)}",
        f"{first}From the end of {corner.named(0)} gauge {corner.text(corner.lap)} for the rebate "
        f"and {corner.text(corner.pair.gauge(0))} for the baseline, both on the inside face only. "
        f"From the outside face gauge {corner.text(corner.tail_lap)} on the end "
        f"grain{along}.{over if edges else ''} Saw the rebate, across the grain and along it, "
        f"{BESIDE}{how}, down to the middle of the lines: its floor meets the end of "
        f"{corner.named(1)}, its shoulder the lap.",
        (0,),
    )


class DoubleLapped(figures.Dovetail, frozen=True, dict=True):
    """All that is stated of a double-lapped dovetail."""

    steps = _steps

    @property
    def parts(self) -> tuple[BoardEnd, BoardEnd]:
        """Both ends, the tail board's with its rebate."""
        sawn = Surface.SAWN_SHOULDER
        within = (side.turned() for side in self.pair.running_on(0) if side)
        sides = (at_most(1, self.lap, sawn), at_least(2, self.tail_lap, sawn), *within)
        return self.ends((Cut(sides, Stage(1, "end rebate")),), stage=Stage(2, "spaces"))

    def gauges(self) -> tuple[LengthSetting, ...]:
        """Of both boards' laps and baselines."""
        return (
            gauge("lap line, from the pin board's inside face", self.tail_length),
            gauge("pin board's baseline, on its inside face only", self.pair.gauge(1)),
            gauge("tail board's end rebate, from its end", self.lap),
            gauge("tail board's lap, from its outside face", self.tail_lap),
            gauge("tail board's baseline, on its inside face only", self.pair.gauge(0)),
        )


KIND = Kind(
    name="double-lapped-dovetail",
    title="Double-lapped dovetail",
    summary="A lap on both boards: all that shows is a thin line of the tail board's end grain.",
    roles=ROLES,
    parameter_class=Parameters,
    lay_out=_lay_out,
    example=Example(
        width="150 mm",
        thicknesses=("18 mm", "19 mm"),
        parameters=(
            ("slope", "1:6"),
            ("tails", 4),
            ("half_pin", "9 mm"),
            ("pin", "7 mm"),
            ("lap", "5 mm"),
            ("tail_lap", "4 mm"),
        ),
    ),
    sources=(NOYES_50_AND_51, JOYCE, COMMON),
    spread=bolder_and_finer_tails,
)
