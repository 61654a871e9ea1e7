"""The tables of a job file: every name in them declared once, with its limits and its help.

The reader, the schema, starters and the command line take them from here; a joint's own
parameters stand in the joint's file, and the tools beside the joints.
"""

from typing import Any

from joinery_templates.exact import Fraction
from joinery_templates.jobs.job import RODS
from joinery_templates.joint import VIEWS, WRAP
from joinery_templates.joints.catalogue import known_kind
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.parameter import Quantity, Table, names_of, parameter
from joinery_templates.joints.shared_parameters import count_parameter, size_parameter
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.sheets.margins import USUAL, WIDEST
from joinery_templates.sheets.papers import Paper, find_paper

Written = bool | str | list[str]
"""What the program itself writes into a job file behind a name."""

LONGEST_WORDS = 200
LONGEST_NOTES = 4000
LONGEST_BOARD_NAME = 60
LONGEST_CORNER_NAME = 40
MOST_BOARDS = 200
MOST_JOINTS = 100


def words_parameter(words: str, longest: int = LONGEST_WORDS, **declared: Any) -> Any:
    """Text that can be printed."""
    return parameter(Quantity.WORDS, words, high=longest, **declared)


BOTH = "both"
"""Figures in the person's units and, in brackets, in the other."""
_UNITS: Any = {
    "choices": tuple(str(unit) for unit in Units),
    "then": lambda name, _: Units(name),
}


class JobWords(Table):
    """What a job file says before its tables."""

    title: str = words_parameter(
        "Printed on every page.", default="Joinery templates", example='"My joint"'
    )
    units: Units = parameter(
        Quantity.CHOICE,
        'Units of numbers that name none: "mm" or "in".',
        default=Units.MM,
        example='"mm"',
        **_UNITS,
    )
    figures: str | None = parameter(
        Quantity.CHOICE,
        'Units of the printed figures, if they are to be others: "mm", "in" or "both".',
        rule="the same as `units`",
        choices=(*_UNITS["choices"], BOTH),
        example='"both"',
    )
    rods: str | None = parameter(
        Quantity.CHOICE,
        'Rods, each as long as its board, with all joints at their places: "full", "broken" where '
        'nothing stands, or "none".',
        rule='"full", for boards that something is let into where you say',
        choices=RODS,
        example='"broken"',
    )
    notes: str = words_parameter(
        "Printed on the first page.", LONGEST_NOTES, default="", low=0, example='"Cherry, two"'
    )


def margin_parameter(side: str) -> Any:
    """A side of the page that stays white."""
    return parameter(
        Quantity.LENGTH,
        f"Margin at the {side}.",
        default=USUAL,
        low=0,
        high=WIDEST,
        refusal="A margin of {} leaves no paper.",
    )


class MarginTable(Table):
    """What the printer cannot reach, side by side."""

    left: Fraction = margin_parameter("left")
    right: Fraction = margin_parameter("right")
    top: Fraction = margin_parameter("top")
    bottom: Fraction = margin_parameter("bottom")


class PaperTable(Table):
    """[paper]: what the sheets are, and how they are made up."""

    size: Paper | None = parameter(
        Quantity.WORDS,
        'Paper such as "A4", "Letter", "Arch D", "300 x 420 mm", "roll 610 mm".',
        rule="A4, with inches Letter",
        high=LONGEST_WORDS,
        then=find_paper,
        example='"A4"',
    )
    margin: MarginTable = parameter(
        Quantity.TABLE,
        "What your printer cannot reach; or side by side: { left = 5, bottom = 15 }.",
        default=MarginTable(),
        table=MarginTable,
        short_for=names_of(MarginTable),
        example="10",
    )
    overlap: Fraction = parameter(
        Quantity.LENGTH,
        "How far two taped sheets overlap.",
        default=Fraction(12),
        low=10,
        high=60,
        example="12",
        refusal="A paper overlap of {} does not work.",
    )
    # Copy paper of 80 g/m² is about 0.1 mm thick (common practice, no source).
    thickness: Fraction = parameter(
        Quantity.LENGTH,
        "Thickness of the paper: the second fold takes it up.",
        default=Fraction(1, 10),
        low=0,
        high=1,
        example="0.1",
        refusal="A paper thickness of {} does not work.",
    )
    marks: bool = parameter(
        Quantity.FLAG, "Whether seams have match marks.", default=True, example="true"
    )
    one_per_page: bool = parameter(
        Quantity.FLAG, "Every template on a page of its own.", default=False, example="false"
    )


def scale_parameter(words: str, usual: int, low: object, high: object) -> Any:
    """What `calibrate` measured of a printer."""
    return parameter(
        Quantity.NUMBER,
        words,
        default=Fraction(usual),
        low=low,
        high=high,
        refusal="{} is no printer's own error: calibrate again.",
    )


class PrinterTable(Table):
    """[printer]: the printer that the pages are drawn for, as `draw --printer` states it."""

    name: str = words_parameter("What you call the printer.", default="unnamed")
    date: str = words_parameter("When it was measured.", default="", low=0)
    across: Fraction = scale_parameter(
        "Printed length over true length, across the page.", 1, "0.97", "1.03"
    )
    along: Fraction = scale_parameter("The same along the page.", 1, "0.97", "1.03")
    skew: Fraction = scale_parameter("How far uprights lean to the right, in degrees.", 0, -2, 2)


class BoardTable(Table):
    """[boards.NAME]: a board as measured. Beyond the limits units were mixed up (our judgement)."""

    width: Fraction | None = parameter(
        Quantity.LENGTH,
        "Width across the grain.",
        low=1,
        high=3000,
        needed=True,
        refusal="A width of {} cannot be right.",
    )
    thickness: Fraction | None = parameter(
        Quantity.LENGTH,
        "Thickness, measured with a caliper.",
        low=1,
        high=500,
        needed=True,
        refusal="A thickness of {} cannot be right.",
    )
    length: Fraction | None = size_parameter("Length along the grain.", "not said")
    pieces: int | None = count_parameter(
        "How many there are of it, for the cutting list.", "as the corners say", low=1, high=1000
    )


class CornerTable(Table):
    """A corner of the piece, and which of A to D it is like."""

    name: str = words_parameter("What you call the corner.", LONGEST_CORNER_NAME, needed=True)
    like: str = parameter(
        Quantity.CHOICE,
        "Which of A to D it is like.",
        default="A",
        choices=("A", "B", "C", "D"),
        any_case=True,
    )


class JointTable(Table):
    """[[joints]]: what every joint says; its boards and its parameters stand beside it."""

    kind: Kind | None = parameter(
        Quantity.WORDS,
        "The kind of joint.",
        high=LONGEST_WORDS,
        needed=True,
        then=lambda name, _: known_kind(name),
    )
    name: str = words_parameter("What you call the joint.", rule="the kind's title", default="")
    corners: tuple[CornerTable, ...] = parameter(
        Quantity.TABLES,
        "Corners of the piece, such as A, B, C, D: one set of templates for each.",
        rule="one, called after the joint",
        default=(),
        table=CornerTable,
        short_for=("name",),
        most=100,
    )
    views: tuple[str, ...] = parameter(
        Quantity.CHOICES,
        'What is printed: "wrap", one template that folds over the end; "faces", one for each '
        'face; "end-grain", the end alone.',
        default=(WRAP,),
        choices=VIEWS,
        refusal="No view is called {}.",
        example='["wrap"]',
    )
    seams: tuple[Fraction, ...] = parameter(
        Quantity.LENGTHS,
        "Where to cut wide templates apart, from the reference edge.",
        rule="where it suits the sheets",
        default=(),
        low=0,
        above=True,
        fewest=0,
        most=100,
    )
    front: str | None = words_parameter(
        "The board that stands at the front and back; a rail or shelf named here stands upright, "
        "its ends at A and D, or at B and C.",
        rule="the second board",
    )


TABLES: dict[str, type] = {"paper": PaperTable, "printer": PrinterTable, "tools": Tools}
"""Those that stand in a job file once, by name."""
