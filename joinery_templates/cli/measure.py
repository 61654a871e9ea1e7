"""`measure`: whether a PDF is true to the job that it carries."""

from collections.abc import Iterator
from typing import Annotated, Any

import typer
from msgspec import to_builtins

from joinery_templates.build import booklet_of, described, layout_described
from joinery_templates.cli.bounded import bounded
from joinery_templates.cli.files import PDF_START, read_given
from joinery_templates.cli.job_input import carried, not_a_pdf
from joinery_templates.cli.messages import mistakes_at, say, say_json
from joinery_templates.cli.options import AsJson
from joinery_templates.drawings.fingerprint import fingerprint
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.source import decoded
from joinery_templates.measure.causes import likely_cause
from joinery_templates.measure.compare import compare_pages
from joinery_templates.measure.report import PageReport, Report
from joinery_templates.proof import expected_pages

OTHER_VERSION = (
    "These pages were laid out by another version of the program, which puts lines or sheets "
    "elsewhere, so this one cannot judge them. That says nothing against what is "
    "printed. Draw the job again (draw OLD.pdf -o NEW.pdf), or measure with that version."
)


def measure(
    pdf: Annotated[str, typer.Argument(metavar="PDF", help="A PDF written by draw or quick.")],
    json: AsJson = False,
) -> None:
    """The lines themselves are measured, whatever the words beside them say.

    You are told how long the rulers really are, and how far any line is from its place
    in the job. Exit code 1 if the scale, a page or a line of the job is not as it was drawn. Lines
    that were added, and what was laid over others, are not looked for.
    """
    report, is_older, signs = _report(pdf)
    is_older = is_older and not report.as_drawn
    if json:
        say_json({**_figures(report), "other_version": is_older, "job": signs})
    else:
        told = [OTHER_VERSION] if is_older else _lines(report)
        say(f"Its sheets and templates say: job {signs}", *told)
    if not report.as_drawn:
        raise typer.Exit(1)


def _report(pdf: str) -> tuple[Report, bool, str]:
    """What was found, whether another version laid the pages out, and their fingerprint."""
    from joinery_templates.measure.reader import read_apart

    content = read_given(pdf)
    if not content.startswith(PDF_START):
        raise not_a_pdf(pdf, "Name a PDF that draw wrote.")
    with mistakes_at(pdf):
        read = read_apart(content)
        with bounded():
            job = read_job(decoded(carried(read.job, content)))
            booklet = booklet_of(job)
            report = compare_pages(expected_pages(booklet), read.pages)
    is_older = bool(read.described) and read.described != described(booklet)
    return report, is_older, fingerprint(layout_described(read.described) or booklet.layout)


def _lines(report: Report) -> Iterator[str]:
    for page in report.pages:
        fine = page.true_to_size(report.tolerance)
        yield (
            f"page {page.number:>3}: {'true ' if fine else 'WRONG'} scale across "
            f"{100 * page.scale_across:.3f} %, along {100 * page.scale_along:.3f} %; by that "
            f"scale no line is off by more than {page.worst_error:.4f} mm"
        )
        yield from (f"          {trouble}" for trouble in _troubles(page, report))
    if report.missing_pages:
        yield f"Pages missing: {', '.join(str(number) for number in report.missing_pages)}."
    if report.surplus_pages:
        yield f"Pages that do not belong: {', '.join(str(n) for n in report.surplus_pages)}."
    if report.unruled_pages:
        pages = ", ".join(str(number) for number in report.unruled_pages)
        yield f"No rulers to measure by on page {pages}: they are gone, or the page is mirrored."
    if not report.in_order:
        yield "The pages stand in another order than they were made in."
    causes = {
        likely_cause(page.scale_across, page.scale_along)
        for page in report.pages
        if abs(page.scale_across - 1) > report.tolerance.scale
        or abs(page.scale_along - 1) > report.tolerance.scale
    }
    yield from sorted(causes)
    if report.true_to_size:
        yield "True to size." if report.as_drawn else "True to size, but not as it was drawn."
    else:
        yield "Do not cut to this PDF."


def _troubles(page: PageReport, report: Report) -> Iterator[str]:
    if page.worst_error > report.tolerance.error:
        yield f"a {page.worst_role} is {page.worst_error:.3f} mm from its place"
    if abs(page.skew_deg) > report.tolerance.skew_deg:
        yield f"the rulers are {page.skew_deg:.3f} degrees out of square"
    if page.missing:
        yield f"{page.missing} lines are missing: {', '.join(page.missing_roles)}"
    if page.cropped:
        yield "part of the drawing lies outside the visible page"
    if page.fonts_missing or not page.text_seen:
        yield "the lettering will not print: fonts are missing from the file"


def _figures(report: Report) -> dict[str, Any]:
    told = {"true_to_size": report.true_to_size, "as_drawn": report.as_drawn}
    return {**told, **to_builtins(report)}
