"""What was found out about a file, page by page, and what passes."""

from msgspec import Struct


class Tolerance(Struct, frozen=True):
    """What still passes as true to size.

    Attributes:
        scale: how far a scale may be from 1.
        error: how far a line's end may be from its place, mm.
        skew_deg: how far the rulers may be from square.
    """

    scale: float = 0.001
    error: float = 0.05
    skew_deg: float = 0.05


USUAL = Tolerance()
"""One part in a thousand, and a twentieth of a millimetre."""


class PageReport(Struct, frozen=True):
    """One page as found.

    Attributes:
        number: which designed page it is, from 1.
        found_number: which page of the file it is, from 1.
        scale_across: 1.0 = true.
        scale_along: 1.0 = true.
        skew_deg: by how much the angle between the rulers is wider than it should be.
        turned_deg: how far the page was turned, counter-clockwise.
        worst_error: largest distance of a line's end from its place, true mm.
        worst_role: role of that line; empty where there is none.
        missing: how many lines were not found within 2 mm of their place.
        missing_roles: their roles, each once.
        cropped: whether anything designed lies outside the visible page.
        text_seen: whether there is lettering in a font that is in the file.
        fonts_missing: fonts that lettering asks for and that are not in the file.
    """

    number: int
    found_number: int
    scale_across: float
    scale_along: float
    skew_deg: float
    turned_deg: float
    worst_error: float
    worst_role: str
    missing: int
    missing_roles: tuple[str, ...]
    cropped: bool
    text_seen: bool
    fonts_missing: tuple[str, ...]

    def true_to_size(self, tolerance: Tolerance) -> bool:
        """Whether one can cut to this page; lettering does not count."""
        return (
            abs(self.scale_across - 1) <= tolerance.scale
            and abs(self.scale_along - 1) <= tolerance.scale
            and abs(self.skew_deg) <= tolerance.skew_deg
            and self.worst_error <= tolerance.error
            and not self.missing
            and not self.cropped
        )


class Report(Struct, frozen=True):
    """A whole file as found.

    Attributes:
        pages: a report on every designed page that was found, in the designed order.
        missing_pages: numbers of designed pages that were not found, from 1.
        surplus_pages: numbers of pages of the file that belong to no designed page, from 1.
        unruled_pages: numbers of pages of the file on which no rulers were seen, from 1.
        in_order: whether the pages found stand in the designed order.
        tolerance: what passes.
    """

    pages: tuple[PageReport, ...]
    missing_pages: tuple[int, ...]
    surplus_pages: tuple[int, ...]
    unruled_pages: tuple[int, ...]
    in_order: bool
    tolerance: Tolerance

    @property
    def true_to_size(self) -> bool:
        """Whether every designed page is there, once, and true."""
        return (
            bool(self.pages)
            and not self.missing_pages
            and not self.surplus_pages
            and not self.unruled_pages
            and all(page.true_to_size(self.tolerance) for page in self.pages)
        )

    @property
    def as_drawn(self) -> bool:
        """Whether it is also in order, with all its lettering."""
        return (
            self.true_to_size
            and self.in_order
            and all(page.text_seen and not page.fonts_missing for page in self.pages)
        )
