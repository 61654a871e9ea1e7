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
mitred right through a short way (Noyes, nos. 50 and 51). Widths of tails and pins are
those at the tails' own ends.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from joinery_templates.errors import COMMON
from joinery_templates.joints.dovetails.advice import NOYES_BLIND
from joinery_templates.joints.dovetails.checks import check_boards, check_fit
from joinery_templates.joints.dovetails.corner import DovetailCorner, Reach
from joinery_templates.joints.dovetails.figures import (
    BASELINE,
    PIN_BOARD,
    PINS_ENDS,
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
    TWO_THIRDS,
    advise_on_lap,
    check_lap,
    lap_parameter,
)
from joinery_templates.joints.dovetails.mitred_edges import (
    advise_on_mitre,
    mitre,
    mitre_of,
    mitre_parameter,
    mitred_edge_cuts,
    space_between,
)
from joinery_templates.joints.dovetails.parameters import (
    DEFAULT_SLOPE,
    fit_parameter,
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
from joinery_templates.joints.settable import settable
from joinery_templates.joints.spacing.tails import SpacingGiven
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import BoardEnd, Cut, Surface, at_least, at_most

HALF_RULE = f"half of the thinner board, as a gauge can be set ({NOYES_BLIND})"
"""About half of both thicknesses is dovetailed, the outer part mitred (Noyes, p. 167)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(SpacingGiven):
    """The parameters of a full-blind dovetail."""

    slope: Fraction | None = slope_parameter()
    lap: Fraction | None = lap_parameter(
        "Thickness of the outer part of both boards, which is mitred and hides the rest.",
        HALF_RULE,
    )
    mitre: Fraction | None = mitre_parameter()
    fit: Fraction = fit_parameter()


def build(request: Request) -> Joint:
    """The layout of a full-blind dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given, units = request.given, request.units
    assert isinstance(given, Given)
    tail_board, pin_board = request.boards
    lap = _lap(request, given)
    check_boards(
        tail_board,
        pin_board,
        (pin_board.thickness, tail_board.thickness),
        units,
        "a mitred corner",
    )
    width, rules = mitre_of(given.mitre, units)
    edges = (width, width)
    slope = given.slope or DEFAULT_SLOPE
    lean = (pin_board.thickness - lap) * slope
    corner = DovetailCorner(
        tail_board=tail_board,
        pin_board=pin_board,
        spacing=space_between(request, given, lean, edges),
        slope=slope,
        fit=given.fit,
        tails=Reach(start=lap),
        pins=Reach(start=lap),
        edges=edges,
    )
    check_fit(corner)
    if given.lap is None:
        rules = (*rules, f"Lap: {HALF_RULE}.")
    told = Told(
        rows=_rows(corner),
        sizes=_sizes(corner, width),
        lengths=(*_gauges(corner), *dividers(corner)),
        steps=_steps(Work(corner, units)),
        rules=(*slope_rules(given.slope), *corner.spacing.rules, *rules),
        findings=(
            *advise_on_lap(lap, _thinner(request), "lap", units, most=TWO_THIRDS),
            *advise_on_mitre(request),
        ),
        faces=(Face.INSIDE,),
    )
    return dovetail_joint((KIND.name, KIND.title), request, corner, _ends(corner, lap), told)


def _thinner(request: Request) -> Board:
    return min(request.boards, key=lambda board: board.thickness)


def _lap(request: Request, given: Given) -> Fraction:
    """The mitred part, which at 45 degrees is equally thick on both boards."""
    thinner = _thinner(request)
    lap = settable(thinner.thickness / 2, request.units) if given.lap is None else given.lap
    check_lap(lap, thinner, "lap", request.units)
    return lap


def _ends(corner: DovetailCorner, lap: Fraction) -> tuple[BoardEnd, BoardEnd]:
    near, far = corner.edges
    # Rebate and mitre in one: behind the lap square, in the lap at 45 degrees.
    outer = Cut(
        (
            at_least(0, near),
            at_most(0, corner.width - far),
            mitre(Fraction(0)),
            at_most(1, lap, Surface.SHOULDER),
        )
    )
    tails, pins = mitred_edge_cuts(corner)
    return corner.tail_end(*tails, outer), corner.pin_end(*pins, outer)


def _rows(corner: DovetailCorner) -> tuple[SettingOut, ...]:
    wide = corner.lean - corner.fit_across
    set_out = row(corner, PINS_ENDS, PIN_BOARD, wide, main=True)
    return (
        # On the line of the rebate: at the very end all wood goes, and no mark means anything.
        replace(set_out, along_end=False),
        row(corner, TAILS_ENDS, TAIL_BOARD, Fraction(0)),
        row(corner, BASELINE, TAIL_BOARD, corner.lean),
    )


def _sizes(corner: DovetailCorner, width: Fraction) -> tuple[Size, ...]:
    return (
        Size("mitred edge", width),
        *tail_sizes(corner),
        *pin_sizes(corner, "at the lap", "at the tails' ends"),
        Size("lap, on the outside of both boards", corner.tails.lap),
    )


def _gauges(corner: DovetailCorner) -> tuple[LengthSetting, ...]:
    return (
        LengthSetting(
            "gauge",
            "both boards' rebate, from the end and from the outside face",
            corner.tails.lap,
        ),
        LengthSetting("gauge", "tail board's baseline, on its inside face only", corner.depth),
        LengthSetting("gauge", "pin board's baseline, on its inside face only", corner.pin_depth),
    )


def _steps(work: Work) -> tuple[Step, ...]:
    """Pins first, the mitres last (common practice, no source)."""
    return (
        prepare(work),
        _gauge(work),
        Step(
            f"Lay on {work.tail} and {work.pin}",
            f"{LAY_ON} The rebates then take the paper at the ends away.",
        ),
        _rebate(work),
        _pins(work),
        mark_from_pins(work, "their lap hanging into the rebate, close against its shoulder"),
        saw_and_chop_hidden_spaces(work),
        _mitre(work),
        fit_and_glue(work),
    )


def _gauge(work: Work) -> Step:
    corner = work.corner
    return Step(
        "Gauge lines",
        f"Set a gauge to {work.text(corner.tails.lap)}: on both boards scribe the rebate from the "
        "end on the inside face, and from the outside face on the end. Gauge the baselines on the "
        f"inside faces only: {work.text(corner.depth)} on {work.tail}, "
        f"{work.text(corner.pin_depth)} on {work.pin}. Knife the mitre across all edges with a "
        "mitre square, from the corner outside. Nothing is marked on the outside faces.",
    )


def _rebate(work: Work) -> Step:
    lap = work.text(work.corner.tails.lap)
    return Step(
        "Rebate both ends",
        f"Saw and plane a square rebate across the inside of both ends, {lap} from the end and "
        f"down to {lap} from the outside face. What is left at the end is mitred last.",
    )


def _pins(work: Work) -> Step:
    return Step(
        "Saw and chop the pins",
        f"From the marks on the inside face draw the pins on the step of the rebate with the "
        f"bevel, at {work.one_in}, widest at the inside face. Saw in the waste with the saw held "
        "at a slant, down to the lap and the baseline at once and no further; chop at the "
        "baseline and split the waste off from the step, down to the lap.",
    )


def _mitre(work: Work) -> Step:
    edge = work.text(max(work.corner.edges))
    return Step(
        "Mitre the edges and the laps",
        f"Beside both edges, {edge} in, saw the mitre right through both boards, in the waste. "
        "Then plane the laps to the mitre with a shoulder plane, on a guide block of 45 degrees "
        "clamped to the inside. Take the last shavings off the laps only when the dovetails fit.",
    )


KIND = Kind(
    name="full-blind-dovetail",
    title="Full-blind dovetail",
    summary="Secret mitre: half of both boards is dovetailed, and outside only a mitre shows.",
    roles=ROLES,
    given_class=Given,
    build=build,
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
    sources=(NOYES_BLIND, COMMON),
)
