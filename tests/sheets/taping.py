"""Laying sheets on each other by their match marks, as a person does.

What is used is what a person has: the strokes that are seen on the pages, the signs
beside the match marks, and the seam lines to trim along.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations, product

from msgspec.structs import replace

from tests.pdf.dovetail_table import Segment
from tests.pdf.drawn_jobs import pages_from, sample_text
from tests.pdf.page_reading import (
    FOLD,
    GUIDE,
    KNIFE,
    SAW,
    SEAM,
    THIN,
    Line,
    PageRead,
    Place,
    Placement,
    Rectangle,
    clipped,
)
from tests.pdf.wrap_reading import NEAR, Wrap, wrap_of

THICK_ON_SMALL_PAPER = """
title = "Block"
units = "mm"
[paper]
size = "105 x 154 mm"
overlap = 10
margin = 5
[boards.side]
width = 150
thickness = 40
[boards.end]
width = 150
thickness = 44
[[joints]]
kind = "through-dovetail"
corners = ["B"]
tail_board = "side"
pin_board = "end"
slope = "1:6"
tails = 2
half_pin = 14
half_pin_far = 21
pin = 5
"""
JOBS = {"wide_carcase": sample_text("wide_carcase"), "block": THICK_ON_SMALL_PAPER}
COUNTS = {"wide_carcase": 4, "block": 2}  # of wraps
HELD = (SAW, KNIFE, GUIDE, FOLD)


@dataclass(frozen=True)
class Tile:
    """One sheet's part of a pattern, as seen, cut along its seams, and its match marks."""

    placement: Placement
    seen: Rectangle
    kept: Rectangle
    marks: dict[str, tuple[complex, ...]]
    signs: dict[complex, str]


@dataclass(frozen=True)
class Laying:
    """A turn and a shift in the plane, as complex numbers."""

    turn: complex
    shift: complex

    def __call__(self, point: Place) -> Place:
        moved = self.turn * complex(*point) + self.shift
        return moved.real, moved.imag

    def after(self, first: "Laying") -> "Laying":
        return Laying(self.turn * first.turn, self.turn * first.shift + self.shift)


def tile_of(placement: Placement) -> Tile:
    clips = {line.clip for line in placement.lines}
    (seen,) = clips
    assert seen is not None
    signs = signs_on(placement, seen)
    marks: dict[str, tuple[complex, ...]] = {}
    for middle, sign in signs.items():
        letter = sign.rstrip("123")
        marks[letter] = (*marks.get(letter, ()), middle)
    return Tile(placement, seen, kept(placement, seen), marks, signs)


def kept(placement: Placement, seen: Rectangle) -> Rectangle:
    """What stays when the sheet is cut along its seam lines."""
    box = list(seen)
    middle = ((seen[0] + seen[2]) / 2, (seen[1] + seen[3]) / 2)
    for line in placement.drawn_with(SEAM):
        part = clipped(line.start, line.end, seen)
        if part is None:
            continue
        across = 0 if abs(part[0][0] - part[1][0]) < NEAR else 1
        if abs(part[0][1 - across] - part[1][1 - across]) < 20:
            continue  # a seam between two other sheets that only looks in
        at = part[0][across]
        box[across if at < middle[across] else across + 2] = at
    return tuple(box)  # type: ignore[return-value]


def signs_on(placement: Placement, seen: Rectangle) -> dict[complex, str]:
    """The sign beside each match mark that is seen whole, by the mark's middle.

    It is the letter of its seam and a number; in a tight place the letter alone.
    """
    arms = [
        line
        for line in placement.drawn_with(THIN)
        if abs(line.length - 5) < NEAR
        and 0 in (round(line.box[2] - line.box[0], 3), round(line.box[3] - line.box[1], 3))
    ]
    found: dict[complex, str] = {}
    for one, other in combinations(arms, 2):
        middle = middle_of(one)
        square = upright(one) != upright(other)
        if abs(middle - middle_of(other)) > NEAR or not square:
            continue
        if not all(inside(line, seen) for line in (one, other)):
            continue
        sign = min(
            (words for words in placement.words if re.fullmatch("[a-z]{1,3}[1-3]?", words.text)),
            key=lambda words: apart(words.box, middle),
        )
        assert apart(sign.box, middle) < 6, "a mark without a sign beside it"
        found[middle] = sign.text
    numbered = [sign for sign in found.values() if sign[-1].isdigit()]
    assert len(set(numbered)) == len(numbered), "two marks with one sign"
    return found


def apart(box: Rectangle, place: complex) -> float:
    """From the middle of a box to a place."""
    return abs(complex(box[0] + box[2], box[1] + box[3]) / 2 - place)


def middle_of(line: Line) -> complex:
    return (complex(*line.start) + complex(*line.end)) / 2


def inside(line: Line, box: Rectangle) -> bool:
    low_x, low_y, high_x, high_y = line.box
    return (
        box[0] <= low_x + NEAR
        and box[1] <= low_y + NEAR
        and high_x <= box[2] + NEAR
        and high_y <= box[3] + NEAR
    )


def upright(line: Line) -> bool:
    return abs(line.start[0] - line.end[0]) < NEAR


def laying(fixed: Sequence[complex], moved: Sequence[complex]) -> Laying:
    """How a sheet is laid so that its marks stand on the fixed sheet's; only one way does."""
    ways = []
    for order in permutations(moved):
        turn = (fixed[1] - fixed[0]) / (order[1] - order[0])
        shift = fixed[0] - turn * order[0]
        apart = max(abs(a - turn * b - shift) for a, b in zip(fixed, order, strict=True))
        ways.append((apart + abs(abs(turn) - 1) * 100, turn, shift))
    ways.sort(key=lambda way: way[0])
    assert ways[0][0] < NEAR, "the marks do not lie on each other"
    assert ways[1][0] > 1, "the marks lie on each other in two ways"
    return Laying(ways[0][1], ways[0][2])


def patterns_in_tiles(pages: Sequence[PageRead]) -> dict[tuple[str, ...], list[Tile]]:
    """The tiles of each pattern, which share all drawings but the last; its words name it."""
    found: dict[tuple[str, ...], list[Tile]] = {}
    named: dict[tuple[str, ...], tuple[str, ...]] = {}
    for page in pages:
        for placement in page.placements:
            if not any(line.clip for line in placement.lines):
                continue
            drawings, words = tuple(placement.forms[:-1]), [one.text for one in placement.words]
            named[drawings] = named.get(drawings, ()) + tuple(
                one for one in words if " · " in one or one.startswith("Setting-out strip")
            )
            found.setdefault(drawings, []).append(tile_of(placement))
    assert len(found) >= 3, "wraps and a strip, and on small paper the card"
    return {named[drawings]: tiles for drawings, tiles in found.items()}


def taped(tiles: Sequence[Tile]) -> list[tuple[Tile, Laying]]:
    """Every tile with how it lies, the first one as it is."""
    laid = {0: Laying(1, 0)}
    while len(laid) < len(tiles):
        number, way = next(
            (
                number,
                laid[fixed].after(laying(tiles[fixed].marks[letter], tiles[number].marks[letter])),
            )
            for number in range(len(tiles))
            if number not in laid
            for fixed in laid
            for letter in tiles[number].marks
            if letter in tiles[fixed].marks
        )
        laid[number] = way
    for (one, at), (other, place) in combinations([(tiles[n], laid[n]) for n in laid], 2):
        for (mark, sign), (like, its) in product(one.signs.items(), other.signs.items()):
            lies_on = (
                abs(complex(*at((mark.real, mark.imag))) - complex(*place((like.real, like.imag))))
                < NEAR
            )
            assert not lies_on or sign == its, f"{sign} lies on {its}"
    return [(tile, laid[number]) for number, tile in enumerate(tiles)]


def pieces(laid: Sequence[tuple[Tile, Laying]], pen: object) -> Iterator[Segment]:
    for tile, way in laid:
        for line in tile.placement.lines:
            part = clipped(line.start, line.end, tile.kept) if line.pen == pen else None
            if part and abs(complex(*part[0]) - complex(*part[1])) > NEAR:
                yield way(part[0]), way(part[1])


def joined_up(parts: Iterator[Segment]) -> list[Segment]:
    """Pieces that meet end to end and run the same way, as one line each."""
    left = [(complex(*start), complex(*end)) for start, end in parts]
    whole: list[Segment] = []
    while left:
        start, end = left.pop()
        grown = True
        while grown:
            grown = False
            for one in left:
                for a, b in (one, one[::-1]):
                    way, on = (end - start) / abs(end - start), (b - a) / abs(b - a)
                    if abs(a - end) < NEAR and abs(way - on) < 0.0005:
                        end, grown = b, True
                    elif abs(b - start) < NEAR and abs(way - on) < 0.0005:
                        start, grown = a, True
                    if grown:
                        break
                if grown:
                    left.remove(one)
                    break
        whole.append(((start.real, start.imag), (end.real, end.imag)))
    return whole


def put_together(tiles: Sequence[Tile]) -> Wrap:
    """The wrap from the taped sheets, as if it had been printed on one."""
    laid = taped(tiles)
    lines = [
        Line(start, end, pen, None)
        for pen in (*HELD, THIN)
        for start, end in joined_up(pieces(laid, pen))
    ]
    first = tiles[0]
    return wrap_of(1, replace(first.placement, lines=lines))


def wraps_in_tiles(job: str) -> list[list[Tile]]:
    found = patterns_in_tiles(pages_from(JOBS[job]))
    return [tiles for name, tiles in found.items() if any(" board · " in one for one in name)]
