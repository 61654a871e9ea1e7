r"""The lapped dovetail: the tails stop behind a lap, and the pin board's outside face is whole.

Seen on the reference edge, and the pin board's end grain (n = 2)::

    +-----+-----------+--------- outside     outside face: nothing shows
    | lap |   tail    |  tail board          +----------------------------+
    |     |           |                      |            lap             |
    |     +-----------+--------- inside      |  +--------+    +--------+  |  lap line
    |                 |                      |   \ tail /      \ tail /   |
    |    pin board    |                      +----+----+--------+----+----+
    outside         inside                   inside face
"""

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, LengthSetting, Step, Task
from joinery_templates.joints.corners import steps as corners
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.dovetails import figures, laps, steps
from joinery_templates.joints.dovetails.corner import ROLES, DovetailCorner
from joinery_templates.joints.dovetails.parameters import ThroughEnds
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.shared_parameters import choice_parameter, like
from joinery_templates.joints.sources import JOYCE, NOYES_49
from joinery_templates.joints.spacing.parameters import DRAWER_RULE
from joinery_templates.joints.spread import bolder_and_finer_tails
from joinery_templates.joints.words import FALLS_IN
from joinery_templates.lengths import INCH

DRAWER, CARCASE = "drawer", "carcase"
SMALL_DRAWER = 6 * INCH
"""Two whole pins are enough up to 6 in (152 mm), three above (Joyce 1970)."""


class Parameters(Meeting, RoutedParameters):
    """The parameters of a lapped dovetail."""

    lap: Fraction | None = laps.pin_board_lap_parameter()
    use: str = choice_parameter(
        f"What is proposed where neither `tails` nor `tail` is given: {DRAWER_RULE}; "
        "for a carcase, tails to suit the width of the pins.",
        DRAWER,
        CARCASE,
    )
    pins_proud: Fraction = like(ThroughEnds, "pins_proud")


def _lay_out(request: Request) -> Joint:
    given: Parameters = request.given
    pin_board = request.boards[1]
    lap, rules = laps.settle_lap(given.lap, pin_board, request.units, f"Lap: {laps.LAP_RULE}")
    past = (-lap, given.pins_proud)
    pair = pair_of(request, "At a lapped corner", past)
    enough = None
    if given.use == DRAWER:
        enough = 2 if min(board.width for board in request.boards) <= SMALL_DRAWER else 3
    return Lapped.laid_out(request, pair, most_pins=enough, decided=rules).joint()


def _steps(corner: DovetailCorner) -> tuple[Step, ...]:
    """Tails first, then the sockets from them (common practice, no source)."""
    return (
        corners.prepare(corner),
        _gauge(corner),
        corners.lay_on(corner, 0, corners.setting_out_strip()),
        steps.saw_tails(corner),
        *steps.chop_between_tails(corner),
        steps.mark_from_tails(corner),
        steps.saw_and_chop_sockets(corner),
        steps.fit_and_glue(corner),
    )


def _gauge(corner: DovetailCorner) -> Step:
    edges = corner.open_edges(0) and f", and on {corner.open_edges(0)} of the tail board"
    another = f"Set another gauge to {corner.text(corner.pair.gauge(1))} and"
    if corner.pair.gauge(1) == corner.pair.gauge(0):
        another = "Still with that setting,"
    return Step(
        Task.GAUGE,
        "Baselines and lap line",
        f"{corners.stop_short(corner)}Set a gauge to {corner.text(corner.pair.gauge(0))}. From the "
        f"end of {corner.named(0)} scribe its baseline on both faces{edges}. With the same "
        f"setting, from the inside face of {corner.named(1)}, scribe the lap line on its end "
        f"grain: a lap of {corner.text(corner.lap)} is left. {another} scribe from its end the "
        f"baseline of {corner.named(1)} on its inside face only: on its outside face a line "
        f"would stay in sight. {FALLS_IN}",
    )


class Lapped(figures.Dovetail, frozen=True, dict=True):
    """All that is stated of a lapped dovetail."""

    steps = _steps

    def gauges(self) -> tuple[LengthSetting, ...]:
        """One setting for the front's end and both faces of the sides (Noyes 1910, p. 166)."""
        line = "the same for the lap line, from the pin board's inside face"
        return (
            gauge(f"tail board's baseline; {line}", self.pair.gauge(0)),
            gauge("pin board's baseline, on its inside face only", self.pair.gauge(1)),
        )


KIND = Kind(
    name="lapped-dovetail",
    title="Lapped dovetail",
    summary="Half-blind: the tails stop behind a lap of the pin board: drawer fronts and carcases.",
    roles=ROLES,
    parameter_class=Parameters,
    lay_out=_lay_out,
    example=Example(
        width="120 mm",
        thicknesses=("12 mm", "19 mm"),
        parameters=(
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "8 mm"),
            ("pin", "6 mm"),
            ("lap", "5 mm"),
            ("pins_proud", "0.3 mm"),
        ),
    ),
    also=("half-blind", "half-blind-dovetail", "lap-dovetail"),
    sources=(NOYES_49, JOYCE, "no lap thinner than 3/32 in: from memory"),
    spread=bolder_and_finer_tails,
)
