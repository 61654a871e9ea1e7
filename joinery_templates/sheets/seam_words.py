"""Words that a seam would cut, moved to where it does not: a sheet shows them whole."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import chain, groupby, product

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import DIRECTION, Figure, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import LINE_PITCH, Lettering, text_corners, wrapped
from joinery_templates.drawings.look import NAMES
from joinery_templates.drawings.placing import Ground, outwards
from joinery_templates.exact import Fraction
from joinery_templates.sheets.seams import Interval

RIM = Fraction(4)
"""Words that are moved keep so far from the edge of the paper."""
NARROWER = (2, 3, 4)
"""Words that have no room even so are broken into rows so many times narrower."""
NEAR = Fraction(4)
"""Words that belong to a line are moved so far away from it at the most (our judgement)."""
MARK_AIR = Fraction(3)
"""All keeps so far from a seam, which is cut along and has match marks on it."""
WORD_AIR = Fraction(5)
"""Words that have room go so far off: closer a mark would be read with them (our judgement)."""

Cuts = tuple[tuple[Fraction, ...], tuple[Fraction, ...]]
"""Places of the seams across and along a pattern."""


class OffTheSeams(Struct, frozen=True):
    """A layer that seams cut.

    Attributes:
        kept: what all sheets share.
        apart: words for one sheet alone, on paper that another has too.
        lost: what has room nowhere, and is said no more.
    """

    kept: Figure
    apart: tuple[Text, ...]
    lost: tuple[str, ...]


def off_the_seams(
    layer: Figure, strokes: Sequence[Stroke], cuts: Cuts, half: Fraction, lettering: Lettering
) -> OffTheSeams:
    """A layer without waste crosses that a seam cuts, and with its words off the seams.

    Args:
        layer: of a pattern.
        strokes: of all its layers.
        cuts: its seams.
        half: of the overlap.
        lettering: how wide words run.
    """
    words = _Words(layer, cuts, lettering)
    placed = tuple(chain.from_iterable(words.placed(strokes)))
    shared: list[Text] = []
    apart: list[Text] = []
    for text in placed:
        (apart if words.reach((text,), half) else shared).append(text)
    crosses = (
        stroke
        for stroke in layer.strokes
        if stroke.role is not Role.CROSS or not _reaches((stroke.start, stroke.end), cuts, half)
    )
    said = set(map(_sentence, placed))
    lost = [one for one in dict.fromkeys(map(_sentence, layer.texts)) if one not in said]
    kept = replace(layer, strokes=tuple(crosses), texts=tuple(shared))
    return OffTheSeams(kept, tuple(apart), tuple(lost))


class _Words(Struct, frozen=True):
    """The words of a layer that seams cut."""

    layer: Figure
    cuts: Cuts
    lettering: Lettering

    def placed(self, strokes: Sequence[Stroke]) -> list[tuple[Text, ...]]:
        """All words where no seam cuts them, on no line: a tuple for what is said together.

        Words of one part move together to a sheet where they are clear, smaller if need be, and
        stay on their face. Where there is none, a copy of a label goes if another is left whole,
        or its paragraphs move one by one.
        """
        whole: list[tuple[Text, ...]] = []
        cut: list[tuple[Text, ...]] = []
        for texts in _together(self.layer.texts, lambda text: text.part or _row(text)):
            (cut if self.reach(texts, WORD_AIR) else whole).append(texts)
        if not cut:
            return whole
        ground = Ground(self.lettering, strokes, chain.from_iterable(whole))
        folds = [one.start[1] for one in strokes if one.role is Role.FOLD]

        def moved(texts: tuple[Text, ...]) -> tuple[Text, ...]:
            every = chain.from_iterable(self._ways(texts, air) for air in (WORD_AIR, MARK_AIR))
            stays = texts[0].at[1]
            return ground.moved(
                (small, by)
                for small, by in every
                if not _parted(stays, small[0].at[1] + by[1], folds)
            )

        cut.sort(key=_is_plain)
        found = [moved(texts) for texts in cut]
        copies = set(map(_said, whole + found))
        for texts, now in zip(cut, found, strict=True):
            whole.append(now)
            if not now and _said(texts) not in copies:
                whole += map(moved, sorted(_together(texts, _row), key=_is_plain))
        return whole

    def reach(self, texts: Iterable[Text], near: Fraction) -> bool:
        """Whether any words come nearer than so to a seam."""
        return any(_reaches(text_corners(text, self.lettering), self.cuts, near) for text in texts)

    def _ways(
        self, texts: tuple[Text, ...], air: Fraction
    ) -> Iterator[tuple[tuple[Text, ...], Point]]:
        """Words, and how they come so far off all seams: as they are, smaller, then in more rows.

        Along their line before across it.
        """
        first, size = texts[0], (self.layer.width, self.layer.height)
        along = first.turn // 90 % 2
        forms = (
            tuple(_smaller(rows, share))
            for rows in (texts, *self._narrower(texts))
            for share in _shares(rows)
        )
        for small in forms:
            corners = [corner for text in small for corner in text_corners(text, self.lettering)]
            rooms = [
                _rooms([corner[axis] for corner in corners], size[axis], self.cuts[axis], air)
                for axis in (0, 1)
            ]
            for axis in (along, 1 - along):
                for aside, way in product(_nearest(rooms[1 - axis])[:2], _outwards(rooms[axis])):
                    by = (aside, way) if axis else (way, aside)
                    belongs = _belongs_there(first, by[along], by[1 - along])
                    if first.may_move(*by) and belongs and self._is_shown_with(first, small, by[0]):
                        yield small, by

    def _is_shown_with(self, first: Text, small: Iterable[Text], by: Fraction) -> bool:
        """Whether words moved so far to the right are on a sheet with some of what they tell of."""
        if not first.over:
            return True
        left = min(text_corners(text, self.lettering)[0][0] for text in small) + by
        start, end = (bisect_right(self.cuts[0], first.at[0] + at) for at in first.over)
        return start <= bisect_right(self.cuts[0], left) <= end

    def _narrower(self, texts: tuple[Text, ...]) -> Iterator[tuple[Text, ...]]:
        """Words that are said in one go over more rows, about the middle of where they stood."""
        first, words = texts[0], _sentence(texts[0])
        if any(_sentence(text) != words for text in texts):
            return
        cosine, sine = DIRECTION[first.turn]
        wide = max(self.lettering.width(text.words, text.cap, text.bold) for text in texts)
        for share in NARROWER:
            rows = wrapped(words, wide / share, first.cap, self.lettering, first.bold)
            if " ".join(rows) == words:  # no word is broken
                up = Fraction(len(rows) - len(texts), 2)
                depths = [first.cap * LINE_PITCH * (n - up) for n in range(len(rows))]
                yield tuple(
                    replace(first.moved(sine * depth, -cosine * depth), words=row)
                    for row, depth in zip(rows, depths, strict=True)
                )


def _reaches(ends: tuple[Point, Point], cuts: Cuts, near: Fraction) -> bool:
    """Whether the upright box from one point to another comes nearer than so to a seam."""
    sides = (sorted(pair) for pair in zip(*ends, strict=True))
    return any(
        bisect_right(places, low - near) < bisect_left(places, high + near)
        for places, (low, high) in zip(cuts, sides, strict=True)
    )


def _belongs_there(text: Text, along: Fraction, aside: Fraction) -> bool:
    """Whether words moved so far along and aside of their row still say what they said.

    A paragraph may stand anywhere, one that stays anywhere along the board; other words belong
    to a line that runs as they do.
    """
    if text.stays and (text.paragraph or text.part):
        return abs(aside if text.turn % 180 else along) <= NEAR
    if text.stays:
        return abs(along) <= NEAR and abs(aside) <= NEAR
    return bool(text.paragraph) or abs(aside) <= NEAR


def _parted(before: Fraction, after: Fraction, folds: Iterable[Fraction]) -> bool:
    """Whether words come over a fold, onto another face, from one height to another."""
    return any((before < fold) != (after < fold) for fold in folds)


def _rooms(
    places: Sequence[Fraction], length: Fraction, cuts: Sequence[Fraction], air: Fraction
) -> list[Interval]:
    """How far what stands on places can be moved along a pattern to lie so far off two seams.

    From where to where, for each sheet that has room for it.
    """
    low, high = min(places), max(places)
    first_start, last_end = max(min(RIM, low), Fraction(0)), min(max(length - RIM, high), length)
    starts = (first_start, *(at + air for at in cuts))
    ends = (*(at - air for at in cuts), last_end)
    ways = ((start - low, end - high) for start, end in zip(starts, ends, strict=True))
    return [(first, last) for first, last in ways if first <= last]


def _nearest(rooms: Iterable[Interval]) -> list[Fraction]:
    """The shortest way into each room, not far first."""
    return sorted((min(max(Fraction(0), first), last) for first, last in rooms), key=abs)


def _outwards(rooms: Iterable[Interval]) -> list[Fraction]:
    """Ways into all rooms, not far first."""
    ways = (outwards(_nearest([room])[0], *room) for room in rooms)
    return sorted(chain.from_iterable(ways), key=abs)


def _together(
    texts: Iterable[Text], belongs_to: Callable[[Text], object]
) -> list[tuple[Text, ...]]:
    """Words that follow each other and belong to the same."""
    return [tuple(group) for _, group in groupby(texts, belongs_to)]


def _row(text: Text) -> object:
    """What words belong to, apart from others of their part."""
    return text.paragraph or text


def _sentence(text: Text) -> str:
    """All that is said with words."""
    return text.paragraph or text.words


def _is_plain(texts: Sequence[Text]) -> bool:
    """Plain words are placed last: what is bold says most, the board, corner and edge."""
    return not texts[0].bold


def _said(texts: Sequence[Text]) -> tuple[str, ...]:
    return tuple(text.words for text in texts)


def _shares(texts: Sequence[Text]) -> Iterator[Fraction]:
    """To which shares of their size words can be made smaller, so that it is a size of ours."""
    yield Fraction(1)
    (cap, *others) = {text.cap for text in texts}
    if not others:
        yield from (size / cap for size in NAMES if size < cap)


def _smaller(texts: Sequence[Text], share: Fraction) -> Iterator[Text]:
    """Words to a scale, about the place of the first of them."""
    x, y = texts[0].at
    for text in texts:
        at = (x + (text.at[0] - x) * share, y + (text.at[1] - y) * share)
        yield replace(text, at=at, cap=text.cap * share)
