"""How much one PDF may ask of this machine before it is refused.

The limits lie far above anything the templates need (a tiled job of a hundred
pages uses a few percent), and keep a hostile file to seconds and a few hundred MB.
"""

from joinery_templates.errors import InputError, refusal

LARGEST_FILE = 100_000_000
LARGEST_STREAM = 40_000_000
LARGEST_STRUCTURE = 5_000_000
LARGEST_JOB = 1_000_000
MOST_PAGES = 5_000

BYTE = 1
SLOW_BYTE = 25
"""One that plain Python unpacks, letter by letter."""
WORD = 40
"""A number, name or operator of a drawing."""
COPY = 60
"""A line of a form, each time that the form is placed."""
LINE = 200
"""A straight piece that is kept: half a million are the most."""
NAMED = 800
"""A form or a font that is used by its name."""

_REMEDY = "Give the PDF as this program wrote it, or as one other program printed it."


def too_large(what: str) -> InputError:
    """The refusal of a file that goes over a limit."""
    return refusal("pdf-too-large", f"This PDF has too much in it: {what}.", _REMEDY)


class Allowance:
    """What is left to spend on one file; the one thing in this room that counts down."""

    def __init__(self) -> None:
        self._left = 100_000_000

    def spend(self, count: int, price: int) -> None:
        """Pay for things read or kept.

        Raises:
            InputError: `pdf-too-large`.
        """
        self._left -= count * price
        if self._left < 0:
            raise too_large("more to draw than any template")
