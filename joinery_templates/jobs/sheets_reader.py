"""How a job's sheets are made up: its [paper] table, and the printer that it is drawn for."""

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from joinery_templates.errors import InputError, mistake
from joinery_templates.jobs.desk import Desk, Table, shown
from joinery_templates.jobs.lines import Path
from joinery_templates.lengths import Units, length_text, read_number
from joinery_templates.sheets.correction import Correction
from joinery_templates.sheets.margins import WIDEST, Margins
from joinery_templates.sheets.papers import Paper, find_paper

PAPER_NAMES = ("size", "margin", "overlap", "thickness", "marks", "one_per_page")
MARGIN_NAMES = ("left", "right", "top", "bottom")
PRINTER_NAMES = ("name", "date", "across", "along", "skew")

USUAL_OVERLAP = Fraction(12)
OVERLAP_LIMITS = (Fraction(10), Fraction(60))
USUAL_THICKNESS = Fraction(1, 10)
"""Copy paper of 80 g/m² is about 0.1 mm thick (common practice, no source)."""
THICKEST = Fraction(1)
SCALE_LIMITS = (Fraction(97, 100), Fraction(103, 100))
MOST_SKEW = Fraction(2)


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
    margins: Margins = field(default_factory=Margins)
    overlap: Fraction = USUAL_OVERLAP
    thickness: Fraction = USUAL_THICKNESS
    marks: bool = True
    one_per_page: bool = False
    correction: Correction | None = None


def read_sheets(tables: Table, desk: Desk) -> SheetSetup:
    """The setup; where there is a mistake, which the desk keeps, the usual value."""
    table = desk.table(tables, "paper", (), PAPER_NAMES)
    usual = find_paper("A4" if desk.units is Units.MM else "Letter")
    paper: Paper | None = usual
    if "size" in table:
        paper = read_paper(table["size"], ("paper", "size"), desk)
    return SheetSetup(
        paper=paper or usual,
        margins=_margins(table, desk) or Margins(),
        overlap=_within(table, "overlap", USUAL_OVERLAP, OVERLAP_LIMITS, desk),
        thickness=_within(table, "thickness", USUAL_THICKNESS, (Fraction(0), THICKEST), desk),
        marks=_yes_or_no(table, "marks", True, desk),
        one_per_page=_yes_or_no(table, "one_per_page", False, desk),
        correction=_correction(tables, desk),
    )


def read_paper(given: object, path: Path, desk: Desk) -> Paper | None:
    """The paper of a name, or None and a complaint."""
    size = desk.check_words(given, path)
    if size is None:
        return None
    return desk.attempt(path, lambda: find_paper(size, desk.units), size)


def _within(
    table: Table, name: str, usual: Fraction, limits: tuple[Fraction, Fraction], desk: Desk
) -> Fraction:
    path: Path = ("paper", name)
    if name not in table:
        return usual
    low, high = limits
    length = desk.check_length(table[name], path, zero_allowed=low == 0)
    if length is None or low <= length <= high:
        return usual if length is None else length
    desk.complain(
        path,
        mistake(
            f"{name}-impossible",
            f"A paper {name} of {length_text(length, desk.units)} does not work.",
            f"Give from {length_text(low, desk.units)} to {length_text(high, desk.units)}.",
        ),
    )
    return usual


def _yes_or_no(table: Table, name: str, usual: bool, desk: Desk) -> bool:
    given = table.get(name, usual)
    if isinstance(given, bool):
        return given
    desk.complain(
        ("paper", name),
        mistake(
            "not-yes-or-no",
            f"{shown(given)} is neither yes nor no.",
            "Write true or false, without quotes.",
        ),
    )
    return usual


def _margins(table: Table, desk: Desk) -> Margins | None:
    path: Path = ("paper", "margin")
    if "margin" not in table:
        return Margins()
    given = table["margin"]
    if not isinstance(given, Mapping):
        width = desk.check_length(given, path, zero_allowed=True)
        if width is None or width <= WIDEST:
            return None if width is None else Margins.all_round(width)
        desk.complain(
            path,
            mistake(
                "margin-impossible",
                f"A margin of {shown(given)} leaves no paper.",
                f"Give from 0 to {length_text(WIDEST, desk.units)}.",
            ),
        )
        return None
    desk.check_names(given, MARGIN_NAMES, path)
    sides = {
        side: width
        for side in MARGIN_NAMES
        if side in given
        and (width := desk.check_length(given[side], (*path, side), zero_allowed=True)) is not None
    }
    return desk.attempt(path, lambda: Margins(**sides))


def _correction(tables: Table, desk: Desk) -> Correction | None:
    """The printer's profile as `draw --printer` states it in the job."""
    if "printer" not in tables:
        return None
    table = desk.table(tables, "printer", (), PRINTER_NAMES)
    name = desk.words(table, "name", ("printer",), "unnamed")
    date = desk.words(table, "date", ("printer",), "undated")
    low, high = SCALE_LIMITS
    across = _number(table, "across", Fraction(1), (low, high), desk)
    along = _number(table, "along", Fraction(1), (low, high), desk)
    skew = _number(table, "skew", Fraction(0), (-MOST_SKEW, MOST_SKEW), desk)
    return Correction(name, date, across, along, skew)


def _number(
    table: Table, name: str, usual: Fraction, limits: tuple[Fraction, Fraction], desk: Desk
) -> Fraction:
    path: Path = ("printer", name)
    if name not in table:
        return usual
    number = desk.attempt(path, lambda: _read_number(table[name]))
    low, high = limits
    if number is None or low <= number <= high:
        return usual if number is None else number
    desk.complain(
        path,
        mistake(
            "printer-impossible",
            f"{shown(table[name])} is no printer's own error.",
            f"Give from {float(low):g} to {float(high):g}, or calibrate again.",
        ),
    )
    return usual


def _read_number(given: object) -> Fraction:
    try:
        return read_number(given)
    except InputError:
        raise InputError(
            mistake(
                "number-unreadable", f"{shown(given)} is not a number.", "Write 1.004 or 251/250."
            )
        ) from None
