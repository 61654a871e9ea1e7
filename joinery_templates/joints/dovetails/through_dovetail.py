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

from joinery_templates.joints.corners.angles import UPRIGHT_AND_SQUARE, pair_of
from joinery_templates.joints.dovetails import figures, parameters
from joinery_templates.joints.dovetails.advice import NOYES, RAKES
from joinery_templates.joints.dovetails.corner import ROLES, DovetailCorner, lay_tails
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters, settle
from joinery_templates.joints.dovetails.routing.work import with_cutter
from joinery_templates.joints.dovetails.steps import through_steps
from joinery_templates.joints.joint import Joint
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.spacing.parameters import SpacingParameters
from joinery_templates.wood.leaning import LeaningCorner


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameters(RoutedParameters):
    """The parameters of a through dovetail."""

    tails_proud: Fraction = parameters.tails_proud_parameter()
    pins_proud: Fraction = parameters.pins_proud_parameter()
    fit: Fraction = parameters.pins_fit_parameter()


def build(request: Request) -> Joint:
    """The layout of a through dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Parameters)
    past = (given.tails_proud, given.pins_proud)
    pair = pair_of(request, UPRIGHT_AND_SQUARE, "At a through-dovetailed corner", past)
    settled = settle(request, given, pair.depth(0))
    corner = lay_tails(request, pair, settled.given, settled.slope, given.fit)
    return with_cutter(through_joint(KIND, corner), corner, settled.rules)


def through_joint(kind: Kind, corner: DovetailCorner, rules: tuple[str, ...] = ()) -> Joint:
    """Tails right through at any corner.

    Args:
        kind: of the joint.
        corner: its tails.
        rules: what was decided by a rule before they were spaced.

    Raises:
        InputError: where it cannot be cut.
    """
    return figures.dovetail_joint(
        kind,
        corner,
        corner.ends(),
        rows=figures.through_rows(corner),
        sizes=(*figures.tail_sizes(corner), *figures.pin_sizes(corner)),
        lengths=(*corner.gauges(), *figures.dividers(corner)),
        steps=through_steps(corner),
        rules=(*rules, *corner.spacing.rules),
    )


def through_at(kind: Kind, request: Request, angles: LeaningCorner) -> Joint:
    """Tails right through where the boards meet at any angles, cut by hand.

    Args:
        kind: of the joint; its parameters are a spacing and `ThroughTails`.
        request: what it is built from.
        angles: of the corner.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, SpacingParameters)
    assert isinstance(given, parameters.ThroughTails)
    pair = pair_of(request, angles, "At this corner", (given.tails_proud, given.pins_proud))
    slope = given.slope or parameters.DEFAULT_SLOPE
    corner = lay_tails(request, pair, given, slope, given.fit)
    return through_joint(kind, corner, parameters.slope_rules(given.slope))


KIND = Kind(
    name="through-dovetail",
    title="Through dovetail",
    summary="Tails and pins right through both boards, seen on both faces: boxes and carcases.",
    roles=ROLES,
    given_class=Parameters,
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
