"""The way through the house, one stage a line: job, joints, patterns, sheets, PDF."""

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from msgspec.structs import replace

from joinery_templates import patterns
from joinery_templates.drawings.direction import with_names_isolated
from joinery_templates.drawings.figure import Figure, Pattern
from joinery_templates.drawings.lettering import Lettering, wrapped
from joinery_templates.drawings.look import BODY
from joinery_templates.errors import Finding, advice
from joinery_templates.exact import Fraction
from joinery_templates.jobs.job import Job
from joinery_templates.sheets.bind import Contents, Reading, bind, text_width
from joinery_templates.sheets.correction import Correction
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.overview import Opening
from joinery_templates.sheets.page import Booklet
from joinery_templates.sheets.roll import cut_off
from joinery_templates.sheets.title_block import PAD

if TYPE_CHECKING:
    from joinery_templates.choices import Choice

JOB_FILE = "job.toml"
"""What the attached job is called inside every PDF."""
DRAWN, LAID_OUT = 40, 80
"""Hundredths of the work done when the patterns are drawn, and when the pages are made up."""
_DESCRIBED = "the job that draws these pages; layout "
ROUND = Fraction(5)
"""White round a picture, and between what it shows."""
Image = Callable[[Figure], bytes]
"""Writes a figure as a picture."""
Progress = Callable[[int], None]
"""Called with the hundredths of the work that are done."""


def pdf_of(job: Job, progress: Progress = lambda hundredths: None) -> tuple[bytes, Booklet]:
    """The PDF of a job, and the pages that it was written from.

    Raises:
        InputError: where the paper is too small.
    """
    from joinery_templates.pdf.writer import About, Attachment, write_pdf

    def written(done: int, total: int) -> None:
        progress(LAID_OUT + (100 - LAID_OUT) * done // total)

    booklet = booklet_of(job, progress)
    about = About(job.title, "Full-size templates; print at 100 %, not fitted to the page")
    attachment = Attachment(JOB_FILE, job.source.encode(), described(booklet))
    return write_pdf(booklet, about, attachment, written), booklet


def described(booklet: Booklet) -> str:
    """What the PDF says of the attached job: also which layout it led to when it was drawn."""
    return f"{_DESCRIBED}{booklet.layout}"


def layout_described(said: str) -> str:
    """The layout that a PDF says it was drawn with; empty where it says none."""
    return said.removeprefix(_DESCRIBED) if said.startswith(_DESCRIBED) else ""


def booklet_of(job: Job, progress: Progress = lambda hundredths: None) -> Booklet:
    """The pages of a job.

    Raises:
        InputError: where the paper is too small.
    """
    from joinery_templates.pdf.fonts import DejaVu

    lettering = DejaVu()
    job = patterns.printable(job)
    uncut = _frame(job, lettering)
    drawn = tuple(_told(patterns.patterns(job, uncut.largest_piece, lettering), job, progress))
    frame = _on_page(cut_off(uncut, drawn), job.sheets.correction)
    return bind(_contents(job, drawn, frame, lettering), job.sheets, frame, lettering)


def choices_of(job: Job, choices: Sequence["Choice"]) -> tuple[bytes, Booklet]:
    """The PDF that shows layouts of one of a job's joints full size, and its pages.

    Raises:
        InputError: where the paper is too small.
    """
    from joinery_templates.pdf.fonts import DejaVu
    from joinery_templates.pdf.writer import About, write_pdf

    lettering = DejaVu()
    job = patterns.printable(job)
    uncut = _frame(job, lettering)
    drawn = tuple(patterns.choices(job, choices, uncut.largest_piece, lettering))
    frame = _on_page(cut_off(uncut, drawn), job.sheets.correction)
    contents = Contents(Opening(job.title, (patterns.TO_CHOOSE,)), (), drawn)
    booklet = bind(contents, job.sheets, frame, lettering)
    return write_pdf(booklet, About(job.title, "Layouts to choose from, full size"), None), booklet


def choices_picture(job: Job, choices: Sequence["Choice"], as_image: Image) -> bytes:
    """Layouts of one of a job's joints below each other, as a picture."""
    from joinery_templates.drawings.choice import below_each_other
    from joinery_templates.pdf.fonts import DejaVu

    widest = max(choice.one.joint.members[0].part.board.width for choice in choices)
    sheet = (widest + ROUND, widest + ROUND)
    drawn = patterns.choices(patterns.printable(job), choices, sheet, DejaVu())
    return as_image(below_each_other([pattern.layers for pattern in drawn], ROUND))


def _frame(job: Job, lettering: Lettering) -> Frame:
    """The fixed parts of every page; a roll is not cut yet."""
    sheets, printer = job.sheets, job.sheets.correction
    plain = _on_page(Frame(sheets.paper, sheets.margins, units=job.units), printer)
    if printer is None:
        return plain
    words = with_names_isolated(printer.footer, (printer.name, printer.date))
    return replace(plain, footer=wrapped(words, plain.block.width - 2 * PAD, BODY, lettering))


def _on_page(frame: Frame, correction: Correction | None) -> Frame:
    """The frame with margins that hold all of the page when it is drawn with a correction.

    How far a roll's page leans is known once it is cut.
    """
    if correction is None or frame.paper.is_open_roll:
        return frame
    margins = correction.kept_on_page(frame.margins, frame.width, frame.height)
    return replace(frame, margins=margins)


def _told(drawn: Iterator[Pattern], job: Job, progress: Progress) -> Iterator[Pattern]:
    """The patterns, with progress told after each corner."""
    begun = {patterns.SETTING_OUT}
    corners = sum(len(one.corners) for one in job.joints)
    for pattern in drawn:
        yield pattern
        begun.add(pattern.group)
        progress(min(LAID_OUT, DRAWN * (len(begun) - 1) // corners))


def _contents(job: Job, drawn: tuple[Pattern, ...], frame: Frame, lettering: Lettering) -> Contents:
    width = text_width(frame)
    pictures, flat = patterns.pictures(job, lettering), tuple(patterns.arrangements(job))
    return Contents(
        Opening(
            job.title,
            (job.notes,) if job.notes else (),
            tuple(patterns.joint_pictures(job, pictures, width, lettering)),
            tuple(patterns.plans(job, flat, width, lettering)),
            tuple(patterns.boards(job, flat, width, lettering)),
            patterns.PAPER,
            patterns.TAKE_CARE,
        ),
        tuple(
            Reading("Bench page", *page)
            for page in patterns.bench_pages(job, pictures, width, lettering)
        ),
        drawn,
    )


def missing_signs_of(job: Job) -> tuple[Finding, ...]:
    """Advice on signs in the job's words that the fonts lack."""
    from joinery_templates.pdf.fonts import STAND_IN, missing_signs

    lacking = missing_signs(" ".join((job.title, job.notes, *job.names)))
    if not lacking:
        return ()
    return (
        advice(
            "sign-not-in-font",
            f"The fonts have no sign for {' '.join(lacking[:20])}; {STAND_IN} is printed instead.",
            "the embedded fonts",
            "Write the name in other letters.",
        ),
    )
