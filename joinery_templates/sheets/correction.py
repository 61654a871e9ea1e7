"""What a printer does to a page, and the map that undoes it beforehand.

A printer stretches the page by one factor across and another along, and leans the
one direction against the other. A point (x, y) then lands at::

    x' = across x + along sin(skew) y
    y' =            along cos(skew) y

The page is drawn through the inverse of this map, about its middle, rulers and all.
"""

import math

from msgspec import Struct

from joinery_templates.drawings.figure import Point
from joinery_templates.exact import Fraction, as_float, simplified
from joinery_templates.sheets.margins import Margins

FINEST = 10**12
"""Sines and cosines become rationals with at most this denominator."""


class PageMap(Struct, frozen=True):
    """An affine map of the page: ``x' = a x + c y + e``, ``y' = b x + d y + f``, in mm."""

    a: Fraction = Fraction(1)
    b: Fraction = Fraction(0)
    c: Fraction = Fraction(0)
    d: Fraction = Fraction(1)
    e: Fraction = Fraction(0)
    f: Fraction = Fraction(0)

    def point(self, point: Point) -> Point:
        """Where a point goes."""
        if self is NO_MAP:  # most pages: no arithmetic for each of their thousands of points
            return point
        x, y = point
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)


NO_MAP = PageMap()


class Correction(Struct, frozen=True):
    """A printer's profile, as far as a page is concerned.

    Attributes:
        name: the person's name for the printer.
        date: when it was measured, as the person entered it; empty where they did not.
        across: printed length over true length across the page.
        along: the same along the page.
        skew_deg: how far the upright direction leans to the right, in degrees.
    """

    name: str
    date: str
    across: Fraction
    along: Fraction
    skew_deg: Fraction

    @property
    def footer(self) -> str:
        """What every page says of it."""
        measured = f", measured {self.date}" if self.date else ""
        return f"Drawn for printer: {self.name}{measured}."

    def page_map(self, width: Fraction, height: Fraction) -> PageMap:
        """The map that a page must be drawn through, about its middle."""
        angle = math.radians(as_float(self.skew_deg))
        sine = simplified(math.sin(angle), FINEST)
        cosine = simplified(math.cos(angle), FINEST)
        a, d = 1 / self.across, 1 / (self.along * cosine)
        c = -sine / (cosine * self.across)
        middle_x, middle_y = width / 2, height / 2
        return PageMap(
            a=a,
            c=c,
            d=d,
            e=middle_x - a * middle_x - c * middle_y,
            f=middle_y - d * middle_y,
        )

    def kept_on_page(self, margins: Margins, width: Fraction, height: Fraction) -> Margins:
        """Margins within which nothing leaves the page when it is drawn through the map.

        What a printer shrinks is drawn larger, and it reaches less of its paper.

        Args:
            margins: as given; they stay where they are wide enough.
            width: of the page.
            height: of the page.
        """
        moved = self.page_map(width, height)
        across, up = zip(
            *(
                moved.point((x, y))
                for x in (margins.left, width - margins.right)
                for y in (margins.bottom, height - margins.top)
            ),
            strict=True,
        )
        zero = Fraction(0)
        return Margins(
            left=margins.left + max(zero, -min(across)) * self.across,
            right=margins.right + max(zero, max(across) - width) * self.across,
            top=margins.top + max(zero, max(up) - height) * self.along,
            bottom=margins.bottom + max(zero, -min(up)) * self.along,
        )
