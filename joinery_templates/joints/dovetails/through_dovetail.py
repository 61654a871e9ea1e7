r"""The through dovetail: tails and pins go right through, and show on both faces.

The tail board's end, outside face (n = 2)::

    +---+\      /+---+\      /+---+  y = 0, the end
    |   | \    / |   | \    / |   |
    |   |  \__/  |   |  \__/  |   |  y = baseline
      half  tail  pin   tail  half
      pin                     pin
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.joints.dovetails.advice import NOYES, RAKES
from joinery_templates.joints.dovetails.checks import check_boards, check_fit
from joinery_templates.joints.dovetails.corner import DovetailCorner, Reach
from joinery_templates.joints.dovetails.figures import (
    ROLES,
    Told,
    both_baselines,
    dividers,
    dovetail_joint,
    pin_sizes,
    tail_sizes,
    through_rows,
)
from joinery_templates.joints.dovetails.parameters import (
    fit_parameter,
    ground_of,
    pins_proud_parameter,
    tails_proud_parameter,
)
from joinery_templates.joints.dovetails.routing.cutter import RoutedGiven, settle
from joinery_templates.joints.dovetails.routing.work import with_cutter
from joinery_templates.joints.dovetails.steps import (
    Work,
    chop_between_tails,
    fit_and_glue,
    gauge_both_baselines,
    lay_on_pins,
    lay_on_tails,
    prepare,
    saw_and_chop_pins,
    saw_tails,
)
from joinery_templates.joints.joint import (
    Example,
    Joint,
    Kind,
    Request,
    Step,
)
from joinery_templates.joints.spacing.tails import space_tails


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(RoutedGiven):
    """The parameters of a through dovetail."""

    tails_proud: Fraction = tails_proud_parameter()
    pins_proud: Fraction = pins_proud_parameter()
    fit: Fraction = fit_parameter()


def build(request: Request) -> Joint:
    """The layout of a through dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    tail_board, pin_board = request.boards
    depth = pin_board.thickness + given.tails_proud
    reaches = (depth, tail_board.thickness + given.pins_proud)
    check_boards(tail_board, pin_board, reaches, request.units, "a through-dovetailed corner")
    settled = settle(request, given, depth)
    ground = ground_of(request, depth * settled.slope)
    corner = DovetailCorner(
        tail_board=tail_board,
        pin_board=pin_board,
        spacing=space_tails(settled.given, ground),
        slope=settled.slope,
        fit=given.fit,
        tails=Reach(past=given.tails_proud),
        pins=Reach(past=given.pins_proud),
    )
    check_fit(corner)
    told = Told(
        rows=through_rows(corner),
        sizes=(*tail_sizes(corner), *pin_sizes(corner)),
        lengths=(*both_baselines(corner), *dividers(corner)),
        steps=_steps(Work(corner, request.units)),
        rules=corner.spacing.rules,
    )
    ends = (corner.tail_end(), corner.pin_end())
    joint = dovetail_joint((KIND.name, KIND.title), request, corner, ends, told)
    return with_cutter(joint, corner, request, settled.rules)


def _steps(work: Work) -> tuple[Step, ...]:
    """Tails first (common practice, no source)."""
    return (
        prepare(work),
        gauge_both_baselines(work),
        lay_on_tails(work),
        saw_tails(work),
        *chop_between_tails(work),
        lay_on_pins(work),
        saw_and_chop_pins(work),
        fit_and_glue(work),
    )


KIND = Kind(
    name="through-dovetail",
    title="Through dovetail",
    summary="Tails and pins right through both boards, seen on both faces: boxes and carcases.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(
        width="90 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "6 mm"),
            ("pin", "4 mm"),
            ("tails_proud", "0.3 mm"),
            ("pins_proud", "0.3 mm"),
        ),
    ),
    sources=(NOYES, RAKES),
)
