"""`--open`: the result in the system's own viewer."""

import typer

from joinery_templates.cli.files import STANDARD
from joinery_templates.cli.messages import note
from joinery_templates.errors import refusal


def check_viewed(output: str | None, is_wanted: bool) -> None:
    """Refuse to open what is no file, before anything is drawn.

    Raises:
        InputError: `option-surplus`.
    """
    if is_wanted and output in (None, STANDARD):
        message = "Only a file can be opened."
        raise refusal("option-surplus", message, "Name one with --output.", "--open")


def view(output: str, is_wanted: bool) -> None:
    """Open a file that was written, or say that nothing opens it."""
    if is_wanted and typer.launch(output):
        note(f"No viewer was found: open {output} yourself.")
