"""The cutting list as a table, and which end of a board is which."""

from collections.abc import Iterator, Sequence

from msgspec import Struct, structs

from joinery_templates.drawings.figure import (
    Align,
    Figure,
    Role,
    Text,
    beside,
    box,
    downwards,
    line,
)
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.look import BODY
from joinery_templates.exact import Fraction

GAP = Fraction(4)
NARROWEST = Fraction(30)
"""Room that the last column must have."""
WIDEST_NAME = Fraction(40)
PAD = Fraction(1)
BESIDE = Fraction(48)
"""Narrower lines of words are hard to read."""
LONGEST, HIGH = Fraction(82), Fraction(7)
"""The board that shows which end is which."""


class Entry(Struct, frozen=True):
    """One line of a cutting list, in words; empty where nothing is known.

    Attributes:
        board: its name.
        pieces: how many.
        length: along the grain.
        stock: how long the wood must be that it is sawn from, where that is more.
        width: across it.
        thickness: from face to face.
        which: where each piece stands.
    """

    board: str
    pieces: str
    length: str
    stock: str
    width: str
    thickness: str
    which: str


HEADS = Entry("Board", "Pieces", "Length", "Stock, at least", "Width", "Thickness", "Which")


def cutting_list(entries: Sequence[Entry], width: Fraction, lettering: Lettering) -> Figure:
    """The list under its heads, columns that say nothing left out; in sentences where narrow."""
    filled = [any(cells) for cells in zip(*map(structs.astuple, entries), strict=True)]
    rows = [
        [cell for cell, is_filled in zip(structs.astuple(one), filled, strict=True) if is_filled]
        for one in (HEADS, *entries)
    ]
    wide = [
        min(WIDEST_NAME, max(lettering.width(cell, BODY, bold=True) for cell in cells))
        for cells in zip(*rows, strict=True)
    ]
    wide[-1] = width - sum(wide[:-1], GAP * (len(wide) - 1))
    if wide[-1] < NARROWEST:
        return column(_in_sentences(rows), width, lettering)

    def row(cells: Sequence[str], is_head: bool) -> Figure:
        parts = [
            column((Paragraph(cell, BODY, bold=is_head or not at),), wide[at], lettering)
            for at, cell in enumerate(cells)
        ]
        return beside(parts, GAP, PAD)

    head, *told = (row(cells, is_head=cells is rows[0]) for cells in rows)
    rule = Figure(width, PAD, (line(Role.FRAME, 0, PAD, width, PAD),))
    return downwards((head, rule, *told))


def _in_sentences(rows: Sequence[Sequence[str]]) -> Iterator[Paragraph]:
    """Each board with what is said of it, one after the other."""
    (_, *heads), *entries = rows
    for name, *cells in entries:
        told = (f"{head.lower()} {cell}" for head, cell in zip(heads, cells, strict=True) if cell)
        yield Paragraph(f"{name}: {', '.join(told)}", BODY, after=PAD)


WHICH_END = (
    "Names in capitals are boards. Hold one with its outside face towards you and its reference "
    "edge down: on your right is its right-hand end, on your left its left-hand end."
)


def which_end(width: Fraction, lettering: Lettering) -> Figure:
    """The rule of hands, beside a board that is held so, or above it where that is narrow."""
    sketch = _held_board(min(LONGEST, width), lettering)
    room = width - sketch.width - GAP
    words = column(
        (Paragraph(WHICH_END, BODY, after=PAD),),
        room if room >= BESIDE else width,
        lettering,
    )
    if room < BESIDE:
        return downwards((words, sketch))
    return beside((sketch, words), GAP)


def _held_board(long: Fraction, lettering: Lettering) -> Figure:
    """A board from outside, its reference edge down, with as much said on it as has room."""
    ends = ("left-hand end", Align.LEFT, PAD), ("right-hand end", Align.RIGHT, long - PAD)
    low = 2 * BODY
    above = low + (HIGH - BODY) / 2
    texts = [Text(words, (x, above), BODY, align) for words, align, x in ends]
    texts.append(Text("reference edge", (long / 2, BODY / 2), BODY, Align.CENTRE))
    face = "outside face"
    if (
        sum(lettering.width(text.words, BODY) for text in texts[:2]) + lettering.width(face, BODY)
        < long - 4 * PAD
    ):
        texts.append(Text(face, (long / 2, above), BODY, Align.CENTRE))
    return Figure(long, low + HIGH + PAD, box(Role.FRAME, 0, low, long, low + HIGH), tuple(texts))
