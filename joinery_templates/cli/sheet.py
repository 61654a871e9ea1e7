"""A sheet that belongs to no job, such as the one for a printer: on which paper, and written."""

from collections.abc import Callable

from joinery_templates.cli.files import check_target, is_own_pdf, place_of, write_result
from joinery_templates.cli.messages import mistakes_at, note
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.page import Booklet
from joinery_templates.sheets.papers import find_paper
from joinery_templates.sheets.roll import cut_off


def sheet_frame(paper: str) -> Frame:
    """The page that `--paper` asks for, with the usual margins.

    Raises:
        InputError: where there is no such paper.
    """
    with mistakes_at("--paper"):
        return cut_off(Frame(find_paper(paper), Margins()), ())


def write_sheet(
    name: str,
    force: bool,
    drawn: Callable[[Lettering], Booklet],
    subject: str,
    remark: str,
) -> None:
    """Draw a sheet, write it, and tell what to do with it.

    Args:
        name: of the file, or `-`.
        force: whether a file that is not ours may be replaced.
        drawn: makes its pages.
        subject: what the PDF says of itself.
        remark: what to do with the sheet.

    Raises:
        InputError: where it cannot be drawn or written.
    """
    from joinery_templates.pdf.fonts import DejaVu
    from joinery_templates.pdf.writer import About, write_pdf

    check_target(name, is_own_pdf, force)
    booklet = drawn(DejaVu())
    content = write_pdf(booklet, About(booklet.pages[0].title, subject), None)
    write_result(name, content, is_own_pdf, force)
    note(f"{place_of(name)}: {remark}")
