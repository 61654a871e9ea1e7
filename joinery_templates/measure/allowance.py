"""How much one PDF may ask of this machine before it is refused.

The limits lie far above anything the templates need (a tiled job of a hundred
pages uses a few percent), and keep a hostile file to seconds and a few hundred MB.
"""

from joinery_templates.errors import InputError, mistake

LARGEST_FILE = 100_000_000
LARGEST_STREAM = 40_000_000
LARGEST_STRUCTURE = 5_000_000
LARGEST_JOB = 1_000_000
MOST_PAGES = 5_000

_REMEDY = "Give the PDF as this program wrote it, or as one other program printed it."


def too_large(what: str) -> InputError:
    """The refusal of a file that goes over a limit."""
    return InputError(mistake("pdf-too-large", f"This PDF has too much in it: {what}.", _REMEDY))


class Allowance:
    """What is left to spend on one file; the one thing in this room that counts down."""

    def __init__(
        self,
        words: int = 2_500_000,
        segments: int = 500_000,
        decoded: int = 100_000_000,
        decoded_slowly: int = 4_000_000,
    ) -> None:
        """Args are counts, and bytes for what is decoded."""
        self._words = words
        self._segments = segments
        self._decoded = decoded
        self._decoded_slowly = decoded_slowly

    def spend(self, words: int) -> None:
        """Pay for numbers, names and operators read, or for lines copied from a form.

        Raises:
            InputError: `pdf-too-large`, as from the others.
        """
        self._words -= words
        if self._words < 0:
            raise too_large("more drawing operators than any template")

    def spend_segments(self, count: int = 1) -> None:
        """Pay for straight pieces that are kept."""
        self._segments -= count
        if self._segments < 0:
            raise too_large("more lines than any template")

    def spend_decoded(self, count: int) -> None:
        """Pay for bytes unpacked."""
        self._decoded -= count
        if self._decoded < 0:
            raise too_large("its drawings unpack to an unreasonable size")

    def spend_decoded_slowly(self, count: int) -> None:
        """Pay for bytes that are unpacked by plain Python, letter by letter."""
        self._decoded_slowly -= count
        if self._decoded_slowly < 0:
            raise too_large("its drawings are written out as letters at an unreasonable size")
