"""`sizing`: a sheet on which a board's thickness and width are read without a caliper."""

from typing import Annotated

import typer

from joinery_templates.cli.files import STANDARD, check_target, is_own_pdf, write_result
from joinery_templates.cli.messages import mistakes_at, note
from joinery_templates.cli.options import Force, Output
from joinery_templates.cli.parameter_options import named_units
from joinery_templates.lengths import Units
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper
from joinery_templates.sheets.roll import cut_off
from joinery_templates.sheets.sizing import TITLE, sizing_booklet

SHEET = "sizing.pdf"


def sizing(
    paper: Annotated[str, typer.Option(help="The paper to draw on.")] = "A4",
    units: Annotated[str, typer.Option(help="The units to read in: mm or in.")] = "mm",
    output: Output = None,
    force: Force = False,
) -> None:
    """Lay a board on the sheet and read its thickness, its width, and the half pin you like."""
    from joinery_templates.pdf.fonts import DejaVu
    from joinery_templates.pdf.writer import About, write_pdf

    name = SHEET if output is None else output
    check_target(name, is_own_pdf, force)
    with mistakes_at("--paper"):
        frame = cut_off(Frame(find_paper(paper), Margins()), (), Units.MM)
    booklet = sizing_booklet(frame, named_units(units), DejaVu())
    content = write_pdf(booklet, About(TITLE, "Print at 100 %, then lay the board on"), None)
    write_result(name, content, is_own_pdf, force)
    where = "standard output" if name == STANDARD else name
    note(f"{where}: print it at 100 %, check its rulers, and lay your boards on it.")
