"""Arguments and options that several commands share."""

from typing import Annotated, Any

import typer

FILE, PAPER, UNITS = "<file>", "<paper>", "<mm|in>"
"""What options take, in a word."""


def asked(takes: str, words: str, usual: object = None) -> Any:
    """An option of one command, as what stands behind its name there.

    Args:
        takes: what it takes, in a word.
        words: what the help says of it.
        usual: what holds where it is left out.
    """
    return typer.Option(usual, metavar=takes, help=words)


JobName = Annotated[
    str,
    typer.Argument(
        metavar="JOB", help="A job file (.toml), a PDF made from one, or - for standard input."
    ),
]
PaperName = Annotated[
    str | None,
    typer.Option(
        "--paper",
        metavar=PAPER,
        help="Another paper than the job's: A4, Letter, Arch D, 300 x 420 mm, roll 610 mm.",
    ),
]
UnitsName = Annotated[
    str | None,
    typer.Option(
        "--units",
        metavar="<mm|in|both>",
        help="Units of the printed figures, whatever the job says.",
    ),
]
OUTPUT = "Where to write; - for standard output."
OPEN = "Open the result in the system's viewer."
FORCE = "Replace a file that stands there, whoever wrote it."
AsJson = Annotated[bool, typer.Option("--json", help="Print the result as JSON.")]
Output = Annotated[str | None, typer.Option("--output", "-o", metavar=FILE, help=OUTPUT)]
Open = Annotated[bool, typer.Option("--open", help=OPEN)]
Force = Annotated[bool, typer.Option("--force", help=FORCE)]
