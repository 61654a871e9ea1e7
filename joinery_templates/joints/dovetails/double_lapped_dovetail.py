"""The double-lapped dovetail: a lap on either board, so that only a thin line of end grain shows.

Seen on the reference edge; the line of end grain is the tail board's lap::

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

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import COMMON
from joinery_templates.joints.dovetails.advice import NOYES_BLIND, RAKES
from joinery_templates.joints.dovetails.checks import check_boards, check_fit
from joinery_templates.joints.dovetails.corner import DovetailCorner, Reach
from joinery_templates.joints.dovetails.figures import (
    BASELINE,
    INSIDE,
    LAP_LINE,
    PIN_BOARD,
    ROLES,
    TAIL_BOARD,
    TAILS_ENDS,
    Told,
    dividers,
    dovetail_joint,
    pin_sizes,
    row,
    tail_sizes,
)
from joinery_templates.joints.dovetails.laps import (
    LAP_RULE,
    TAIL_LAP_RULE,
    advise_on_lap,
    check_lap,
    lap_parameter,
    usual_lap,
)
from joinery_templates.joints.dovetails.parameters import (
    DEFAULT_SLOPE,
    fit_parameter,
    ground_of,
    slope_parameter,
    slope_rules,
)
from joinery_templates.joints.dovetails.steps import (
    LAY_ON,
    Work,
    fit_and_glue,
    mark_from_pins,
    prepare,
    saw_and_chop_hidden_spaces,
    saw_and_chop_sockets,
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
from joinery_templates.joints.spacing.tails import SpacingGiven, space_tails
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Cut, Surface, at_least, at_most


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(SpacingGiven):
    """The parameters of a double-lapped dovetail."""

    slope: Fraction | None = slope_parameter()
    lap: Fraction | None = lap_parameter(
        "Thickness of the lap that hides the tails' ends, on the pin board's outside.", LAP_RULE
    )
    tail_lap: Fraction | None = lap_parameter(
        "Thickness of the lap that hides the pins' ends, on the tail board's outside; it shows "
        "as a line of end grain.",
        TAIL_LAP_RULE,
    )
    fit: Fraction = fit_parameter()


def build(request: Request) -> Joint:
    """The layout of a double-lapped dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    units, (tail_board, pin_board) = request.units, request.boards
    lap = usual_lap(pin_board, units) if given.lap is None else given.lap
    tail_lap = usual_lap(tail_board, units) if given.tail_lap is None else given.tail_lap
    check_lap(lap, pin_board, "lap", units)
    check_lap(tail_lap, tail_board, "tail_lap", units)
    reaches = (pin_board.thickness, tail_board.thickness - tail_lap)
    check_boards(tail_board, pin_board, reaches, units, "a lapped corner")
    slope = given.slope or DEFAULT_SLOPE
    ground = ground_of(request, (pin_board.thickness - lap) * slope)
    corner = DovetailCorner(
        tail_board=tail_board,
        pin_board=pin_board,
        spacing=space_tails(given, ground),
        slope=slope,
        fit=given.fit,
        tails=Reach(start=lap),
        pins=Reach(past=-tail_lap),
    )
    check_fit(corner)
    told = Told(
        rows=_rows(corner),
        sizes=_sizes(corner),
        lengths=(*_gauges(corner), *dividers(corner)),
        steps=_steps(Work(corner, units)),
        rules=(*slope_rules(given.slope), *corner.spacing.rules, *_lap_rules(given)),
        findings=(
            *advise_on_lap(lap, pin_board, "lap", units),
            *advise_on_lap(tail_lap, tail_board, "tail_lap", units),
        ),
        faces=(Face.END_GRAIN, Face.INSIDE),
    )
    rebate = Cut(
        (
            at_most(1, lap, Surface.SHOULDER),
            at_least(2, tail_lap, Surface.SHOULDER),
        )
    )
    ends = (corner.tail_end(rebate), corner.pin_end())
    return dovetail_joint((KIND.name, KIND.title), request, corner, ends, told)


def _lap_rules(given: Given) -> tuple[str, ...]:
    rules = []
    if given.lap is None:
        rules.append(f"Pin board's lap: {LAP_RULE}.")
    if given.tail_lap is None:
        rules.append(f"Tail board's lap: {TAIL_LAP_RULE}.")
    return tuple(rules)


def _rows(corner: DovetailCorner) -> tuple[SettingOut, ...]:
    off = corner.fit_across
    return (
        row(corner, INSIDE, PIN_BOARD, corner.lean - off, main=True),
        row(corner, LAP_LINE, PIN_BOARD, -off),
        row(corner, TAILS_ENDS, TAIL_BOARD, Fraction(0)),
        row(corner, BASELINE, TAIL_BOARD, corner.lean),
    )


def _sizes(corner: DovetailCorner) -> tuple[Size, ...]:
    return (
        *tail_sizes(corner),
        *pin_sizes(corner, "at the lap line", "at the tails' ends"),
        Size("lap, on the pin board's outside", corner.tails.lap),
        Size("lap, on the tail board's outside", corner.pins.lap),
    )


def _gauges(corner: DovetailCorner) -> tuple[LengthSetting, ...]:
    return (
        LengthSetting("gauge", "lap line, from the pin board's inside face", corner.tail_length),
        LengthSetting("gauge", "pin board's baseline, on its inside face only", corner.pin_depth),
        LengthSetting("gauge", "tail board's rebate, from its end", corner.tails.lap),
        LengthSetting("gauge", "tail board's lap, from its outside face", corner.pins.lap),
        LengthSetting("gauge", "tail board's baseline, on its inside face only", corner.depth),
    )


def _steps(work: Work) -> tuple[Step, ...]:
    """Pins first: the tail board's lap would be in the way of a knife (common practice)."""
    return (
        prepare(work),
        _shorten(work),
        _gauge_pins(work),
        Step(f"Lay on {work.pin}", LAY_ON),
        saw_and_chop_sockets(work),
        Step(f"Lay on {work.tail}", f"{LAY_ON} The rebate then takes the paper at the end away."),
        _rebate(work),
        mark_from_pins(work, "their lap over the rebate and its outside level with the end"),
        saw_and_chop_hidden_spaces(work),
        fit_and_glue(work),
    )


def _shorten(work: Work) -> Step:
    lap = work.text(work.corner.pins.lap)
    return Step(
        f"Length of {work.pin}",
        f"It stops {lap} short of the outside of {work.tail}, whose lap runs over its end. "
        f"With this joint at both ends saw {work.pin} shorter than the piece by twice {lap}.",
    )


def _gauge_pins(work: Work) -> Step:
    corner = work.corner
    return Step(
        "Lap line and baseline of the pins",
        f"Set a gauge to {work.text(corner.tail_length)} and from the inside face of {work.pin} "
        f"scribe the lap line on its end: a lap of {work.text(corner.tails.lap)} is left. Set "
        f"another to {work.text(corner.pin_depth)} and scribe the baseline on the inside face "
        "only. Nothing is marked on the outside face of either board. The printed lines must "
        "fall on the scribed ones.",
    )


def _rebate(work: Work) -> Step:
    corner = work.corner
    return Step(
        f"Rebate {work.tail}",
        f"From the end of {work.tail} gauge {work.text(corner.tails.lap)} for the rebate and "
        f"{work.text(corner.depth)} for the baseline, both on the inside face only. From the "
        f"outside face gauge {work.text(corner.pins.lap)} on the end, and on both edges down to "
        "the baseline. Saw the rebate across the grain and along it, and plane it square: its "
        f"floor meets the end of {work.pin}, its shoulder the lap.",
    )


KIND = Kind(
    name="double-lapped-dovetail",
    title="Double-lapped dovetail",
    summary="A lap on both boards: all that shows is a thin line of end grain on the pin board.",
    roles=ROLES,
    given_class=Given,
    build=build,
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
    sources=(NOYES_BLIND, RAKES, COMMON),
)
