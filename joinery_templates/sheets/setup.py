"""How sheets are made up, as the job says it."""

from msgspec import Struct

from joinery_templates.exact import Fraction
from joinery_templates.sheets.correction import Correction
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import Paper


class SheetSetup(Struct, frozen=True):
    """How sheets are made up.

    Attributes:
        paper: every page's.
        margins: what the printer cannot reach.
        overlap: paper shared by two taped sheets.
        thickness: of the paper; a fold takes it up.
        marks: whether seams carry match marks.
        one_per_page: whether every pattern gets a page of its own.
        correction: the printer's profile, or None.
    """

    paper: Paper
    margins: Margins
    overlap: Fraction
    thickness: Fraction
    marks: bool
    one_per_page: bool
    correction: Correction | None
