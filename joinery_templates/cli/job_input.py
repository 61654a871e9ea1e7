"""A job from what the person named: a job file, a PDF that carries one, or standard input."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from msgspec.structs import replace

from joinery_templates.cli.files import PDF_START, is_sheet_alone, read_given
from joinery_templates.cli.messages import mistakes_at, note
from joinery_templates.errors import InputError, refusal
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.kept_tools import kept_tools, written_beside
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.source import decoded, parsed
from joinery_templates.jobs.tables import Written
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.tools import Tools


@contextmanager
def job_from(name: str, overrides: Overrides) -> Iterator[Job]:
    """The job that the person named, to be worked on inside.

    The person's own tools count for what a job file does not say. In a PDF all stands
    that it was drawn with, so that it is drawn again as it was; but the PDF may be anyone's,
    and so the work on its job is bounded.

    Raises:
        InputError: with every mistake in it; also where it is neither a job file nor a PDF
            with one inside.
    """
    content = read_given(name)
    if content.startswith(PDF_START):
        from joinery_templates.cli.bounded import bounded
        from joinery_templates.measure.reader import read_apart

        with mistakes_at(name):
            job_file = carried(read_apart(content).job, content)
            with bounded():
                yield read_job(decoded(job_file), overrides)
        return
    if name.lower().endswith(".pdf"):
        raise not_a_pdf(name, "Name a PDF that draw wrote, or a job file.")
    text, own = decoded(content), kept_tools()
    job = read_job(text, replace(overrides, tools=own))
    note_own_tools(text, own)
    yield job


def job_of_kind(kind: Kind, given: Mapping[str, Written], own: Tools) -> Job:
    """The job of one joint, with no job file; see `starter.quick_job` for what is given.

    The person's own tools count.

    Raises:
        InputError: with every mistake, each at its place in the job file behind it.
    """
    from joinery_templates.jobs.starter import quick_job

    text = quick_job(kind, given)
    job = read_job(text, Overrides(tools=own))
    note_own_tools(text, own)
    return job


def not_a_pdf(name: str, remedy: str) -> InputError:
    """The refusal of a file that is none inside."""
    return refusal("not-a-pdf", "This is not a PDF file.", remedy, name[:200])


def carried(job: bytes | None, content: bytes) -> bytes:
    """The job file that a PDF was found to carry.

    Args:
        job: what was found.
        content: of the PDF.

    Raises:
        InputError: where it carries none.
    """
    if job is None and is_sheet_alone(content):
        raise refusal(
            "no-job-inside",
            "This is a sheet that sizing, calibrate or compare drew. It carries no job, so there "
            "is nothing to draw again or to hold its lines against.",
            "Check it on paper: its rulers must read true by a steel rule. Here name a PDF as "
            "draw wrote it.",
        )
    if job is None:
        raise refusal(
            "no-job-inside",
            "This PDF carries no job file: it is not from this program, or another program "
            "has taken the job out.",
            "Name a PDF as draw wrote it.",
        )
    return job


def note_own_tools(text: str, own: Tools) -> None:
    """Say which of the person's own tools counted beside a job file."""
    names = ", ".join(written_beside(parsed(text), own))
    if names:
        note(f"Your own tools counted: {names}. See: joinery-templates tools")
