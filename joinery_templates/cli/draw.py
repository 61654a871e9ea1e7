"""`draw`: the templates of a job."""

import sys
import time
from contextlib import ExitStack
from pathlib import Path
from typing import Annotated, Any

import typer

from joinery_templates.build import missing_signs_of, pdf_of
from joinery_templates.cli.files import STANDARD, check_target, is_own_pdf, place_of, write_result
from joinery_templates.cli.job_input import job_from
from joinery_templates.cli.messages import note, number_of, tell_findings
from joinery_templates.cli.options import Force, JobName, Open, Output, PaperName, UnitsName, asked
from joinery_templates.cli.viewer import check_viewed, view
from joinery_templates.errors import refusal
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.sheets.page import Booklet

PATIENCE = 1.0
"""Seconds after which work that goes on shows a bar."""


def draw(
    job: JobName,
    output: Output = None,
    paper: PaperName = None,
    units: UnitsName = None,
    printer: str | None = asked("<name>", "Draw true for this printer; see `calibrate`."),
    one_per_page: Annotated[
        bool, typer.Option("--one-per-page", help="Give every template a page of its own.")
    ] = False,
    force: Force = False,
    open_it: Open = False,
) -> None:
    """Unless you name an --output, the PDF is named after the job and written to this folder.

    A PDF drawn earlier carries its job: give it instead of the job file to draw it again.
    An older PDF of that name is replaced; any other file is left alone without --force.
    """
    name = _pdf_name(job, output)
    check_viewed(name, open_it)
    profile = None
    if printer is not None:
        from joinery_templates.printers.store import find_profile

        profile = find_profile(printer)
    overrides = Overrides(paper, units, one_per_page or None, profile)
    with job_from(job, overrides) as read:
        check_target(name, is_own_pdf, force)
        drawn = drawn_templates(read)
    write_templates(read, drawn, name, force)
    view(name, open_it)


def drawn_templates(job: Job) -> tuple[bytes, Booklet]:
    """The PDF of a job and its pages, with a bar where that takes long."""
    with _Bar() as bar:
        return pdf_of(job, bar.show)


def write_templates(job: Job, drawn: tuple[bytes, Booklet], output: str, force: bool) -> None:
    """Write the PDF of a job, and say what was written."""
    content, booklet = drawn
    tell_findings((*job.findings, *missing_signs_of(job), *booklet.findings))
    write_result(output, content, is_own_pdf, force)
    count, paper = len(booklet.pages), job.sheets.paper
    share = round(booklet.paper_used * 100)
    pages = number_of(count, "page")
    note(f"{place_of(output)}: {pages} of {paper.name}; templates fill {share} % of theirs.")
    note("Print at 100 % (actual size), then check the rulers on the pages with a steel rule.")


def _pdf_name(job: str, output: str | None) -> str:
    """Where the PDF is written: to what was named, else to a file called after the job.

    Raises:
        InputError: where that is the job file itself; over a PDF that was named, it may be written.
    """
    usual = STANDARD if job == STANDARD else f"{Path(job).stem}.pdf"
    name = usual if output is None else output
    is_pdf = job.lower().endswith(".pdf")
    if _same_file(job, name) and (output is None or not is_pdf):
        written_over = "the one that is given" if is_pdf else "the job file"
        raise refusal(
            "would-overwrite",
            f"The PDF would be written over {written_over}.",
            "Name another file with --output.",
            name[:200],
        )
    return name


def _same_file(one: str, other: str) -> bool:
    try:
        return Path(one).is_file() and Path(one).samefile(other)
    except (OSError, ValueError):
        return False  # what does not exist, or cannot, is not the same


class _Bar:
    """A progress bar that appears only when the work takes more than a moment."""

    def __init__(self) -> None:
        self._start = time.monotonic()
        self._stack = ExitStack()
        self._bar: Any = None
        self._shown = 0

    def __enter__(self) -> "_Bar":
        return self

    def __exit__(self, *failure: object) -> None:
        self._stack.close()

    def show(self, done: int) -> None:
        """Move the bar to so many hundredths."""
        if not sys.stderr.isatty() or time.monotonic() - self._start < PATIENCE:
            return
        if self._bar is None:
            self._bar = self._stack.enter_context(
                typer.progressbar(length=100, label="Drawing", file=sys.stderr)
            )
        self._bar.update(done - self._shown)
        self._shown = done
