"""The letters of a font file: where each is found all at once, their numbers as they are wanted.

reportlab asks for every number of every letter by itself, which is a twelfth of a whole run
for the thousands of letters of our fonts. To be loaded as `libraries` says.
"""

import struct
import sys
from array import array
from bisect import bisect
from collections.abc import Callable
from operator import itemgetter
from typing import Any

from reportlab.pdfbase import ttfonts

_USUAL = ttfonts.TTFontFace


class Typeface(_USUAL):  # type: ignore[misc, valid-type]
    """A font's file, if it is made as ours are: long offsets, letters in groups."""

    def extractInfo(self, charInfo: int = 1) -> None:  # noqa: N802, N803
        """What reportlab takes from the file, but numbers of letters only as they are asked for."""
        super().extractInfo(0)  # all but letters
        self.glyphPos = _numbers("I", self.get_table("loca"))
        widest = 2 * self.get_ushort(self.get_table_pos("hhea")[0] + 34)
        metrics = _numbers("H", self.get_table("hmtx"))
        widths, bearings = metrics[:widest:2], metrics[1:widest:2] + metrics[widest:]
        widths.extend(widths[-1:] * (self.numGlyphs - len(widths)))  # the last one stands for all
        self.hmetrics = _AsAsked(lambda glyph: (widths[glyph], bearings[glyph]))
        glyphs = self.charToGlyph = _letters(self.get_table("cmap"))
        glyphs[0xA0] = glyphs[0x20]
        self.charWidths = _AsAsked(lambda letter: self._pdfScale(widths[glyphs[letter]]))
        self.defaultWidth = self._pdfScale(widths[0])


class _AsAsked(dict[int, Any]):
    """What is told of letters or glyphs, each when it is first asked for."""

    def __init__(self, told: Callable[[int], Any]) -> None:
        self._told = told

    def __missing__(self, number: int) -> Any:
        found = self[number] = self._told(number)
        return found

    def __contains__(self, number: object) -> bool:
        return self.get(number) is not None

    def get(self, number: Any, otherwise: Any = None) -> Any:
        """As a dictionary's, though most are not in it yet."""
        try:
            return self[number]
        except KeyError:
            return otherwise


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


def _letters(table: bytes) -> _AsAsked:
    """The glyph of each letter, from the last of a file's lists: that with the most."""
    (lists,) = struct.unpack_from(">H", table, 2)
    (start,) = struct.unpack_from(">I", table, 8 * lists)
    (groups,) = struct.unpack_from(">I", table, start + 12)
    runs = list(struct.iter_unpack(">III", table[start + 16 :][: 12 * groups]))

    def glyph(letter: int) -> int:
        first, last, of_first = runs[bisect(runs, letter, key=itemgetter(0)) - 1]
        if not first <= letter <= last:
            raise KeyError(letter)
        return int(of_first + letter - first)

    return _AsAsked(glyph)
