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

from dataclasses import dataclass, replace
from fractions import Fraction

from joinery_templates.joints.dovetails.advice import NOYES_LAPPED, RAKES
from joinery_templates.joints.dovetails.checks import check_boards, check_fit
from joinery_templates.joints.dovetails.corner import DovetailCorner, Reach
from joinery_templates.joints.dovetails.figures import (
    BASELINE,
    INSIDE,
    LAP_LINE,
    PIN_BOARD,
    ROLES,
    TAIL_BOARD,
    Told,
    dividers,
    dovetail_joint,
    pin_sizes,
    row,
    tail_sizes,
)
from joinery_templates.joints.dovetails.laps import (
    ANTHOLOGY,
    LAP_RULE,
    advise_on_lap,
    check_lap,
    lap_parameter,
    usual_lap,
)
from joinery_templates.joints.dovetails.parameters import (
    fit_parameter,
    ground_of,
    pins_proud_parameter,
)
from joinery_templates.joints.dovetails.routing.cutter import RoutedGiven, settle
from joinery_templates.joints.dovetails.routing.work import with_cutter
from joinery_templates.joints.dovetails.steps import (
    Work,
    chop_between_tails,
    fit_and_glue,
    lay_on_pins,
    lay_on_tails,
    prepare,
    saw_and_chop_sockets,
    saw_tails,
)
from joinery_templates.joints.joint import (
    Example,
    Joint,
    Kind,
    LengthSetting,
    Request,
    SettingOut,
    Size,
    Step,
)
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.spacing.parameters import EVEN
from joinery_templates.joints.spacing.tails import (
    HALF_PIN,
    Spacing,
    space_tails,
)
from joinery_templates.lengths import INCH

DRAWER, CARCASE = "drawer", "carcase"
SMALL_DRAWER = 6 * INCH
"""Two whole pins are enough up to 6 in (152 mm), three above (The Technique of Furniture
Making, chapter on dovetailing)."""
DRAWER_RULE = "for a drawer two whole pins up to 6 in (152 mm), three above"


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(RoutedGiven):
    """The parameters of a lapped dovetail."""

    lap: Fraction | None = lap_parameter(
        "Thickness of the lap that hides the tails' ends, on the pin board's outside.", LAP_RULE
    )
    use: str = parameter(
        Quantity.CHOICE,
        f"What is proposed where neither `tails` nor `tail` is given: {DRAWER_RULE}; "
        "for a carcase tails by the pins' width.",
        default=DRAWER,
        choices=(DRAWER, CARCASE),
    )
    pins_proud: Fraction = pins_proud_parameter()
    fit: Fraction = fit_parameter()


def build(request: Request) -> Joint:
    """The layout of a lapped dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    tail_board, pin_board = request.boards
    lap = usual_lap(pin_board, request.units) if given.lap is None else given.lap
    check_lap(lap, pin_board, "lap", request.units)
    depth = pin_board.thickness - lap
    settled = settle(request, given, depth)
    reaches = (depth, tail_board.thickness + given.pins_proud)
    check_boards(tail_board, pin_board, reaches, request.units, "a lapped corner")
    corner = DovetailCorner(
        tail_board=tail_board,
        pin_board=pin_board,
        spacing=_spacing(request, settled.given, depth * settled.slope),
        slope=settled.slope,
        fit=given.fit,
        tails=Reach(past=-lap),
        pins=Reach(past=given.pins_proud),
    )
    check_fit(corner)
    rules = corner.spacing.rules
    told = Told(
        rows=_rows(corner),
        sizes=_sizes(corner),
        lengths=(*_gauges(corner), *dividers(corner)),
        steps=_steps(Work(corner, request.units)),
        rules=(*rules, f"Lap: {LAP_RULE}.") if given.lap is None else rules,
        findings=tuple(advise_on_lap(lap, pin_board, "lap", request.units)),
    )
    ends = (corner.tail_end(), corner.pin_end())
    joint = dovetail_joint((KIND.name, KIND.title), request, corner, ends, told)
    return with_cutter(joint, corner, request, settled.rules)


def _spacing(request: Request, given: Given, lean: Fraction) -> Spacing:
    """The spacing as given, or for a drawer with no more whole pins than are enough."""
    ground = ground_of(request, lean)
    spacing = space_tails(given, ground)
    is_proposed = (
        given.tails is None
        and given.tail is None
        and given.edges == HALF_PIN
        and given.chosen.style == EVEN
    )
    most = 2 if ground.width <= SMALL_DRAWER else 3
    if not is_proposed or given.use != DRAWER or len(spacing.pins) <= most:
        return spacing
    fewer = space_tails(replace(given, tails=most + 1), ground)
    return replace(fewer, rules=(*fewer.rules, f"Number of tails: {DRAWER_RULE} ({RAKES})."))


def _rows(corner: DovetailCorner) -> tuple[SettingOut, ...]:
    off = corner.fit_across
    return (
        row(corner, "outside face, along the end", TAIL_BOARD, Fraction(0), main=True),
        row(corner, BASELINE, TAIL_BOARD, corner.lean),
        row(corner, LAP_LINE, PIN_BOARD, -off),
        row(corner, INSIDE, PIN_BOARD, corner.lean - off),
    )


def _sizes(corner: DovetailCorner) -> tuple[Size, ...]:
    return (
        *tail_sizes(corner),
        *pin_sizes(corner, "at the lap line"),
        Size("lap, on the pin board's outside", corner.tails.lap),
    )


def _gauges(corner: DovetailCorner) -> tuple[LengthSetting, ...]:
    # Noyes, p. 166: one setting for the front's end and both faces of the sides.
    return (
        LengthSetting(
            "gauge",
            "tail board's baseline; the same for the lap line, from the pin board's inside face",
            corner.depth,
        ),
        LengthSetting("gauge", "pin board's baseline, on its inside face only", corner.pin_depth),
    )


def _steps(work: Work) -> tuple[Step, ...]:
    """Tails first, then the sockets from them (common practice, no source)."""
    return (
        prepare(work),
        _gauge(work),
        lay_on_tails(work),
        saw_tails(work),
        *chop_between_tails(work),
        lay_on_pins(work, ", their ends at the lap line"),
        saw_and_chop_sockets(work),
        fit_and_glue(work),
    )


def _gauge(work: Work) -> Step:
    corner = work.corner
    edges = f", and on both edges of {work.tail}" if work.starts_with_half_pins else ""
    return Step(
        "Baselines and lap line",
        f"Set a gauge to {work.text(corner.depth)}. From the end of {work.tail} scribe its "
        f"baseline on both faces{edges}. With the same setting, from the inside face of "
        f"{work.pin}, scribe the lap line on its end: a lap of {work.text(corner.tails.lap)} is "
        f"left. Set another gauge to {work.text(corner.pin_depth)} and scribe the baseline of "
        f"{work.pin} on its inside face only: nothing is marked on its outside face, where it "
        "would stay in sight. The printed lines must fall on the scribed ones.",
    )


KIND = Kind(
    name="lapped-dovetail",
    title="Lapped dovetail",
    summary="Half-blind: the tails stop behind a lap of the pin board: drawer fronts, carcases.",
    roles=ROLES,
    given_class=Given,
    build=build,
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
    sources=(NOYES_LAPPED, RAKES, ANTHOLOGY),
)
