"""The short word that tells which drawing a sheet or a pattern was printed from.

It is taken from the lines when all are drawn, and stands among words that were placed before:
until then signs stand for it that no person types, a little wider than the widest letter.
"""

from hashlib import sha256

from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure

LENGTH = 4
STANDS_FOR_IT = "\U0010ffff" * LENGTH
JOB = f"job {STANDS_FOR_IT}"
"""How sheets and patterns tell it."""
SIGNS = "2346789ACDEFHJKLNPRTUVXY"
"""No two of these are taken for each other: no 0 and O, 1 and I, 5 and S, B and 8."""


def fingerprint(of: str) -> str:
    """Four of the signs, from words that tell all lines."""
    number, signs = int.from_bytes(sha256(of.encode()).digest(), "big"), ""
    for _ in range(LENGTH):
        number, rest = divmod(number, len(SIGNS))
        signs += SIGNS[rest]
    return signs


def marked(figure: Figure, with_signs: str) -> Figure:
    """A figure whose words tell the fingerprint; the same one where none does."""
    texts = figure.texts
    if not any(STANDS_FOR_IT in text.words for text in texts):
        return figure

    def told(words: str) -> str:
        return words.replace(STANDS_FOR_IT, with_signs)

    return replace(
        figure,
        texts=tuple(
            replace(text, words=told(text.words), paragraph=told(text.paragraph)) for text in texts
        ),
    )
