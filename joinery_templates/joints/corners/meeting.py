r"""How two boards of unequal width meet at a corner: which edge is told, and how far it stands in.

The narrower board crosses the wider one within its width, and the joint is laid out there;
past it the wider board runs on to its own end::

    wider board, far edge     +---------------
                              |   runs on
                +-------------+  narrower board's far edge
                | the joint   |
                +-------------+  narrower board's reference edge
                              |   runs on, by `offset` where `meet` is "reference"
    reference edge            +---------------
"""

from collections.abc import Iterator

from joinery_templates.errors import Finding, mistake, refuse
from joinery_templates.exact import Fraction
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import FAR, REFERENCE, distance_parameter

Insets = tuple[Fraction, Fraction]
"""How far the narrower board stands in at the wider one's reference edge and far edge."""
LEVEL: Insets = (Fraction(0), Fraction(0))
SAY_HOW = (
    f' Or say how they meet: `meet = "{REFERENCE}"`, or "{FAR}", for the edge at which they lie '
    "level, with an `offset` where the narrower one stands in from it."
)


class Meeting(Table):
    """What a corner can be told whose boards may differ in width."""

    meet: str | None = parameter(
        Quantity.CHOICE,
        "Where the boards differ in width: the edge at which they lie level, or at which `offset` "
        "is measured.",
        rule=f'"{REFERENCE}" where `offset` is given; else the widths must be equal',
        choices=(REFERENCE, FAR),
    )
    offset: Fraction | None = distance_parameter(
        "How far that edge of the narrower board stands in from the wider one's.",
        "0 where `meet` is given",
    )


def insets_of(layout: Layout) -> Insets:
    """How far the narrower board stands in at both edges; nothing where that is not told.

    Raises:
        InputError: where it would stand past an edge.
    """
    given = layout.given
    if not isinstance(given, Meeting) or (given.meet is None and given.offset is None):
        return LEVEL
    offset, (one, other) = given.offset or Fraction(0), layout.boards
    refuse(_pushed_past(layout, offset))
    rest = abs(one.width - other.width) - offset
    return (rest, offset) if given.meet == FAR else (offset, rest)


def _pushed_past(layout: Layout, offset: Fraction) -> Iterator[Finding]:
    narrow, wide = sorted(layout.boards, key=lambda board: board.width)
    most = wide.width - narrow.width
    if offset > most:
        fault = f"an offset of {layout.text(offset)} would push one past the other's edge"
        yield mistake(
            "offset-too-far",
            f'"{narrow.name}" is {layout.text(most)} narrower than "{wide.name}": {fault}.'
            if most
            else f"Both boards are {layout.text(wide.width)} wide: {fault}.",
            f"Give at most {layout.text(most)}, or correct a board's width."
            if most
            else "Leave it out, or correct a board's width.",
            "offset",
        )
