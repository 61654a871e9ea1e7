"""Printable full-size templates for hand-cut woodworking joints.

The command line is `joinery-templates`. From other programs::

    job = joinery_templates.read_job(text)  # the text of a job file
    job.findings  # advice
    joinery_templates.figures_of(job)  # the exact layout as plain data
    joinery_templates.pdf_of(job)  # the templates as bytes

Nothing else in the package is meant to be called from outside.
"""

from typing import TYPE_CHECKING, Any

from joinery_templates.libraries import empty

# msgspec, loaded here, would load that for two names which Python's own typing has too.
with empty("typing_extensions"):
    from joinery_templates.errors import Finding, InputError, JoineryError, MachineError

if TYPE_CHECKING:
    from joinery_templates.jobs.job import Job

__version__ = "0.1.0"
__all__ = [
    "Finding",
    "InputError",
    "JoineryError",
    "MachineError",
    "figures_of",
    "pdf_of",
    "read_job",
]


def read_job(text: str) -> "Job":
    """The job that a job file's text describes, laid out.

    Args:
        text: of the job file. Neither settings nor the person's own tools are looked at.

    Raises:
        InputError: with every mistake in it, each as a `Finding` with its line.
    """
    from joinery_templates.jobs import reader, source

    return reader.read_job(source.decoded(text.encode()))


def figures_of(job: "Job") -> dict[str, Any]:
    """The exact layout as plain data, as ``check --json`` prints it; see `figures.figures_of`."""
    from joinery_templates import figures

    return figures.figures_of(job)


def pdf_of(job: "Job") -> bytes:
    """The templates as a PDF, to be printed at 100 %; the same job gives the same bytes.

    Raises:
        InputError: where the paper is too small.
        MachineError: where the program's own fonts are missing.
    """
    from joinery_templates import build

    content, _ = build.pdf_of(job)
    return content
