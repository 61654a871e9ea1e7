"""The letters of a font file, read all at once.

reportlab asks for every number of every letter by itself, which is a twelfth of a whole run
for the thousands of letters of our fonts. To be loaded as `libraries` says.
"""

import struct
import sys
from array import array
from itertools import chain
from typing import Any

from reportlab.pdfbase import ttfonts

_USUAL = ttfonts.TTFontFace


class Typeface(_USUAL):  # type: ignore[misc, valid-type]
    """A font's file, if it is made as ours are: long offsets, letters in groups."""

    def extractInfo(self, charInfo: int = 1) -> None:  # noqa: N802, N803
        """What reportlab takes from the file, and what it does with it, but quicker."""
        super().extractInfo(0)  # all but letters
        self.glyphPos = _numbers("I", self.get_table("loca"))
        widest = 2 * self.get_ushort(self.get_table_pos("hhea")[0] + 34)
        metrics = _numbers("H", self.get_table("hmtx"))
        widths, bearings = metrics[:widest:2], metrics[1:widest:2] + metrics[widest:]
        widths.extend(widths[-1:] * (self.numGlyphs - len(widths)))  # the last one stands for all
        self.hmetrics = list(zip(widths, bearings, strict=True))
        self.charToGlyph = _letters(self.get_table("cmap"))
        self.charToGlyph[0xA0] = self.charToGlyph[0x20]
        scale = {width: self._pdfScale(width) for width in set(widths)}
        glyphs = self.charToGlyph
        wide = map(scale.__getitem__, map(widths.__getitem__, glyphs.values()))
        self.charWidths = dict(zip(glyphs, wide, strict=True))
        self.defaultWidth = scale[widths[0]]


def font(name: str, file: str) -> Any:
    """A font for reportlab, which does not ask what to read its file with.

    Raises:
        TTFError, OSError: where there is no such file, or it is no font.
    """
    ttfonts.TTFontFace = Typeface
    try:
        return ttfonts.TTFont(name, file)
    finally:
        ttfonts.TTFontFace = _USUAL


def _numbers(size: str, table: bytes) -> "array[int]":
    numbers = array(size, table)
    if sys.byteorder == "little":
        numbers.byteswap()
    return numbers


def _letters(table: bytes) -> dict[int, int]:
    """The glyph of each letter, from the last of a file's lists: that with the most."""
    (lists,) = struct.unpack_from(">H", table, 2)
    (start,) = struct.unpack_from(">I", table, 8 * lists)
    (groups,) = struct.unpack_from(">I", table, start + 12)
    runs = list(struct.iter_unpack(">III", table[start + 16 :][: 12 * groups]))
    letters = chain.from_iterable(range(first, last + 1) for first, last, _ in runs)
    glyphs = (range(glyph, glyph + last + 1 - first) for first, last, glyph in runs)
    return dict(zip(letters, chain.from_iterable(glyphs), strict=True))
