r"""The through dovetail: tails and pins go right through, and show on both faces.

The tail board's end, outside face (n = 2)::

    +---+\      /+---+\      /+---+  y = 0, the end
    |   | \    / |   | \    / |   |
    |   |  \__/  |   |  \__/  |   |  y = baseline
      half  tail  pin   tail  half
      pin                     pin
"""

from dataclasses import dataclass

from joinery_templates.joints.corners.angles import UPRIGHT_AND_SQUARE, Angles, pair_of
from joinery_templates.joints.dovetails import figures
from joinery_templates.joints.dovetails.corner import ROLES, DovetailCorner, lay_tails
from joinery_templates.joints.dovetails.parameters import DovetailParameters, ThroughEnds
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters, settle
from joinery_templates.joints.dovetails.routing.work import with_cutter
from joinery_templates.joints.dovetails.steps import through_steps
from joinery_templates.joints.joint import Joint
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.sources import FURNITURE_MAKING, NOYES_48


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameters(ThroughEnds, RoutedParameters):
    """The parameters of a through dovetail."""


def build(request: Request) -> Joint:
    """The layout of a through dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Parameters)
    pair = pair_of(request, UPRIGHT_AND_SQUARE, "At a through-dovetailed corner", given.past)
    given, rules = settle(request, given, pair.depth(0))
    corner = lay_tails(request, pair, given)
    return with_cutter(_through_joint(KIND, corner), corner, rules)


def _through_joint(kind: Kind, corner: DovetailCorner) -> Joint:
    """Tails right through at any corner."""
    return figures.dovetail_joint(
        kind,
        corner,
        ends=corner.ends(),
        rows=figures.through_rows(corner),
        gauges=corner.gauges(),
        steps=through_steps(corner),
    )


def through_at(kind: Kind, request: Request, angles: Angles) -> Joint:
    """Tails right through where the boards meet at any angles, cut by hand.

    Args:
        kind: of the joint; its parameters are those of a dovetail and `ThroughEnds`.
        request: what it is built from.
        angles: of the corner.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, DovetailParameters)
    assert isinstance(given, ThroughEnds)
    pair = pair_of(request, angles, "At this corner", given.past)
    return _through_joint(kind, lay_tails(request, pair, given))


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
    sources=(NOYES_48, FURNITURE_MAKING),
)
