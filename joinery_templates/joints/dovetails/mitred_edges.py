r"""Edges where a dovetailed corner is mitred right through, so that a moulding or rebate runs on.

Seen on the reference edge; the mitre runs at 45 degrees from the corner outside::

    +-------------------- tail board's outside face
    | \
    |   \    tail board
    |     \
    |       +------------ inside
    | pin   |
    | board |

Where one board is thicker the mitre ends at the thinner board's inside face, and the
thicker board's shoulder goes on square from there.
"""

from dataclasses import replace
from fractions import Fraction
from typing import Any

from joinery_templates.errors import OURS, Finding, InputError, advice, mistake
from joinery_templates.joints.dovetails.checks import check_starts_with_half_pins
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.dovetails.parameters import ground_of
from joinery_templates.joints.joint import Request
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.spacing.tails import Spacing, SpacingGiven, space_tails
from joinery_templates.lengths import INCH, Units, length_text
from joinery_templates.wood.cut import Cut, HalfSpace, Surface, at_least, at_most

MITRE_RULE = "6 mm, or 1/4 in (our judgement)"


def mitre_parameter() -> Any:
    """How much of the width is mitred."""
    return parameter(
        Quantity.LENGTH,
        "How far in from an edge the corner is mitred right through: the width of the moulding "
        "or the depth of the rebate.",
        rule=MITRE_RULE,
        low=0,
        above=True,
    )


def mitre_of(given: Fraction | None, units: Units) -> tuple[Fraction, tuple[str, ...]]:
    """The mitred width, and the rule where it was not given."""
    if given is not None:
        return given, ()
    return Fraction(6) if units is Units.MM else INCH / 4, (f"Mitred edge: {MITRE_RULE}.",)


def space_between(
    request: Request, given: SpacingGiven, lean: Fraction, edges: tuple[Fraction, Fraction]
) -> Spacing:
    """The tails on what the mitred edges leave of the width.

    Args:
        request: what the joint is built from.
        given: what fixes the spacing.
        lean: how far a side comes in between a tail's end and the baseline.
        edges: how much is mitred at the reference edge and at the far edge.

    Raises:
        InputError: where nothing is left or nothing that can be cut follows.
    """
    check_starts_with_half_pins(given)
    room = request.boards[0].width - sum(edges)
    units = request.units
    if room <= 0:
        raise InputError(
            mistake(
                "no-room",
                "The mitred edges leave nothing of the width for the dovetails.",
                f"The board is {length_text(request.boards[0].width, units)} wide: give a "
                "narrower mitre.",
                "mitre",
            )
        )
    try:
        return space_tails(given, ground_of(request, lean, room, edges[0]))
    except InputError as error:
        # The spacing speaks of the board's width and means what the mitres leave of it.
        between = f"Between the mitred edges {length_text(room, units)} are left for the tails."
        raise InputError(
            *(replace(f, remedy=f"{between} {f.remedy}".rstrip()) for f in error.findings)
        ) from None


def mitred_edge_cuts(corner: DovetailCorner) -> tuple[tuple[Cut, ...], tuple[Cut, ...]]:
    """The waste of the tail board and of the pin board at the mitred edges."""
    near, far = corner.edges
    stretches = []
    if near:
        stretches.append(at_most(0, near))
    if far:
        stretches.append(at_least(0, corner.width - far))
    tails = tuple(
        Cut((stretch, mitre(corner.tails.past), at_most(1, corner.depth, Surface.SHOULDER)))
        for stretch in stretches
    )
    pins = tuple(
        Cut((stretch, mitre(corner.pins.past), at_most(1, corner.pin_depth, Surface.SHOULDER)))
        for stretch in stretches
    )
    return tails, pins


def mitre(past: Fraction) -> HalfSpace:
    """What a mitre takes off a board: 45 degrees from the corner outside, `past` from its end."""
    return HalfSpace((Fraction(0), Fraction(1), Fraction(-1)), past)


def advise_on_mitre(request: Request) -> tuple[Finding, ...]:
    """A mitre that cannot run from corner to corner."""
    one, other = (board.thickness for board in request.boards)
    if one == other:
        return ()
    return (
        advice(
            "mitre-not-to-the-corner",
            f"The boards are {length_text(one, request.units)} and "
            f"{length_text(other, request.units)} thick: a mitre at 45 degrees starts at the "
            "corner outside and does not end at the corner inside.",
            OURS,
            "Plane both boards to one thickness where the inside is seen.",
            "mitre",
        ),
    )
