"""`sizing`: a sheet on which a board's thickness and width are read without a caliper."""

from joinery_templates.cli.options import PAPER, UNITS, Force, Output, asked
from joinery_templates.cli.parameter_options import named_units
from joinery_templates.cli.sheet import sheet_frame, write_sheet
from joinery_templates.sheets.sizing import sizing_booklet

SHEET = "sizing.pdf"


def sizing(
    paper: str = asked(PAPER, "The paper to draw on.", "A4"),
    units: str = asked(UNITS, "The units to read in.", "mm"),
    output: Output = None,
    force: Force = False,
) -> None:
    """Lay a board on the sheet and read its thickness, its width, and the half pin you like."""
    frame, read_in = sheet_frame(paper), named_units(units)
    write_sheet(
        SHEET if output is None else output,
        force,
        lambda lettering: sizing_booklet(frame, read_in, lettering),
        "Print at 100 %, then lay the board on",
        "print it at 100 %, check its rulers, and lay your boards on it.",
    )
