"""A tongue of about a third of the thinner board, in a slot or a groove of the other."""

from collections.abc import Iterator

from joinery_templates.errors import Finding, advice, mistake
from joinery_templates.exact import Fraction
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.layout import Layout
from joinery_templates.lengths import decimal_text

THINNEST, THICKEST = Fraction(1, 4), Fraction(2, 5)
"""Of the thickness: books have a quarter to a little over a third (our judgement)."""


def usual_tongue(layout: Layout) -> Fraction:
    """Its thickness where nobody tells it: by the nearest chisel, or a third."""
    thick, units = layout.thinner.thickness, layout.units
    third, low, high = thick / 3, thick * THINNEST, thick * THICKEST
    rounded = as_a_gauge_is_set(third, units)
    chisel = layout.request.tools.nearest_chisel(third, low, high)
    return chisel or (rounded if low <= rounded <= high else third)


def no_room_beside(layout: Layout, tongue: Fraction) -> Iterator[Finding]:
    """A tongue that is as thick as the board."""
    text, thinner = layout.text, layout.thinner
    if tongue >= thinner.thickness:
        yield mistake(
            "no-room",
            f"A tongue {text(tongue)} thick leaves nothing beside it of "
            f'"{thinner.name}", {text(thinner.thickness)} thick.',
            f"Give a thinner one: about a third is usual, {text(thinner.thickness / 3)}.",
            "tongue",
        )


def unusual_tongue(layout: Layout, tongue: Fraction, source: str) -> Iterator[Finding]:
    """A tongue that is thinner or thicker than is usual."""
    text, thinner = layout.text, layout.thinner
    share = tongue / thinner.thickness
    if not THINNEST <= share <= THICKEST:
        yield advice(
            "tongue-thin" if share < THINNEST else "tongue-thick",
            f"A tongue {text(tongue)} thick is {decimal_text(100 * share, 0)} % of "
            f'"{thinner.name}", {text(thinner.thickness)} thick.',
            source,
            "About a third is usual.",
            "tongue",
        )
