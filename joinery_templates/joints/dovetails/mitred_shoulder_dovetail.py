r"""The dovetail with mitred edges: through, but for a strip beside an edge that is mitred.

For boards with a moulding or a rebate along an edge. The tail board's end, inside face::

    +----+---+\      /+---+\      /+---+
    |::::|   | \    / |   | \    / |   |   :::: the mitre's waste, down to the
    |::::|   |  \__/  |   |  \__/  |   |        baseline here, nothing outside
     mitre half  tail  pin   tail  half
           pin                     pin

Half pins, tails and pins share the width that the mitres leave.
"""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import COMMON
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
from joinery_templates.joints.dovetails.mitred_edges import (
    advise_on_mitre,
    mitre_of,
    mitre_parameter,
    mitred_edge_cuts,
    space_between,
)
from joinery_templates.joints.dovetails.parameters import (
    DEFAULT_SLOPE,
    fit_parameter,
    pins_proud_parameter,
    slope_parameter,
    slope_rules,
    tails_proud_parameter,
)
from joinery_templates.joints.dovetails.steps import (
    Work,
    chop_between_tails,
    fit_and_glue,
    lay_on_pins,
    lay_on_tails,
    prepare,
    saw_and_chop_pins,
    saw_tails,
)
from joinery_templates.joints.joint import Example, Joint, Kind, Request, Size, Step
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.spacing.tails import SpacingGiven

REFERENCE, FAR, BOTH = "reference", "far", "both"


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(SpacingGiven):
    """The parameters of a through dovetail with mitred edges."""

    slope: Fraction | None = slope_parameter()
    mitre: Fraction | None = mitre_parameter()
    mitred_edge: str = parameter(
        Quantity.CHOICE,
        "Which edge is mitred: the reference edge, the far edge, or both.",
        default=REFERENCE,
        choices=(REFERENCE, FAR, BOTH),
    )
    tails_proud: Fraction = tails_proud_parameter()
    pins_proud: Fraction = pins_proud_parameter()
    fit: Fraction = fit_parameter()


def build(request: Request) -> Joint:
    """The layout of a through dovetail with mitred edges.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    tail_board, pin_board = request.boards
    depth = pin_board.thickness + given.tails_proud
    reaches = (depth, tail_board.thickness + given.pins_proud)
    check_boards(tail_board, pin_board, reaches, request.units, "a dovetailed corner")
    width, rules = mitre_of(given.mitre, request.units)
    edges = (
        Fraction(0) if given.mitred_edge == FAR else width,
        Fraction(0) if given.mitred_edge == REFERENCE else width,
    )
    slope = given.slope or DEFAULT_SLOPE
    corner = DovetailCorner(
        tail_board=tail_board,
        pin_board=pin_board,
        spacing=space_between(request, given, depth * slope, edges),
        slope=slope,
        fit=given.fit,
        tails=Reach(past=given.tails_proud),
        pins=Reach(past=given.pins_proud),
        edges=edges,
    )
    check_fit(corner)
    told = Told(
        rows=through_rows(corner),
        sizes=(Size("mitred edge", width), *tail_sizes(corner), *pin_sizes(corner)),
        lengths=(*both_baselines(corner), *dividers(corner)),
        steps=_steps(Work(corner, request.units), given.mitred_edge),
        rules=(*slope_rules(given.slope), *corner.spacing.rules, *rules),
        findings=advise_on_mitre(request),
    )
    tails, pins = mitred_edge_cuts(corner)
    ends = (corner.tail_end(*tails), corner.pin_end(*pins))
    return dovetail_joint((KIND.name, KIND.title), request, corner, ends, told)


def _steps(work: Work, mitred_edge: str) -> tuple[Step, ...]:
    """Tails first; the mitres last of each board (common practice, no source)."""
    which = {BOTH: "both edges"}.get(mitred_edge, f"the {mitred_edge} edge")
    return (
        prepare(work),
        _gauge(work, which),
        lay_on_tails(work),
        saw_tails(work, "along the baseline, and where an edge is mitred only up to the mitre"),
        *chop_between_tails(work),
        _mitre(work.tail, which),
        lay_on_pins(work),
        saw_and_chop_pins(work),
        _mitre(work.pin, which),
        fit_and_glue(work),
    )


def _gauge(work: Work, which: str) -> Step:
    corner = work.corner
    width = work.text(max(corner.edges))
    return Step(
        "Baselines and mitres",
        f"Set a gauge to {work.text(corner.depth)} for {work.tail} and another to "
        f"{work.text(corner.pin_depth)} for {work.pin}. Scribe lightly: on the inside faces all "
        f"the way, on the outside faces not within {width} of {which}. There knife a mitre across "
        "the edge with a mitre square, from the corner outside to the baseline inside. The "
        "printed lines must fall on the scribed ones.",
    )


def _mitre(board: str, which: str) -> Step:
    return Step(
        f"Saw the mitre of {board}",
        f"At {which} of {board} saw along the grain beside the mitred strip, sloping with the "
        "mitre: from the outside arris of the end to the baseline inside. Then saw the mitre in "
        "the waste, across the edge, and pare it to the line with a guide block of 45 degrees.",
    )


KIND = Kind(
    name="mitred-shoulder-dovetail",
    title="Dovetail with mitred edges",
    summary="Through, but mitred along one edge or both, where a moulding or rebate runs on.",
    roles=ROLES,
    given_class=Given,
    build=build,
    example=Example(
        width="110 mm",
        thicknesses=("15 mm", "15 mm"),
        parameters=(
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "7 mm"),
            ("pin", "5 mm"),
            ("mitre", "8 mm"),
            ("mitred_edge", "reference"),
            ("tails_proud", "0.3 mm"),
            ("pins_proud", "0.3 mm"),
        ),
    ),
    sources=(NOYES, RAKES, COMMON),
)
