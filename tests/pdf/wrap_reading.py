"""Finding the wraps on pages that were read back, and their lines in the wood's own frame.

The frame comes from the page alone: fold lines give the end of the board, its edges and
the words "outside face" give which way it lies. The reference edge is where the words
on the outside face point.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tests.pdf.dovetail_table import Segment
from tests.pdf.page_reading import FOLD, THIN, Line, PageRead, Place, Placement

NEAR = 0.001
"""How exact a line on the page must be, in mm."""


@dataclass(frozen=True)
class Wrap:
    """A wrap as printed: what it says it is, and how to read its places."""

    page: int
    placement: Placement
    corner: str
    board: str
    role: str
    hand: str
    reference_on_left: bool
    origin: Place
    across: Place
    up: Place
    width: float
    between_folds: float

    def place(self, point: Place) -> Place:
        """From the reference edge, and from the fold at the outside face upwards."""
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        return (
            dx * self.across[0] + dy * self.across[1],
            dx * self.up[0] + dy * self.up[1],
        )

    def lines(self, pen: tuple[float, tuple[float, ...]]) -> list[Segment]:
        return [
            (self.place(line.start), self.place(line.end))
            for line in self.placement.drawn_with(pen)
        ]


def wraps_on(pages: Sequence[PageRead]) -> Iterator[Wrap]:
    """Every wrap, each as often as a tile of it stands on a page."""
    for number, page in enumerate(pages, start=1):
        for placement in page.placements:
            if len(placement.drawn_with(FOLD)) == 2:
                yield wrap_of(number, placement)


def wrap_of(number: int, placement: Placement) -> Wrap:
    """A wrap whose strokes and words stand together in one placement."""
    role, face, hand = labels_of(placement)[0]
    assert face == "outside face"
    label = next(words for words in placement.words if "outside" in words.text)
    corner, _, board = next(
        words.text for words in placement.words if " · " in words.text and "face" not in words.text
    ).partition(" · ")
    turn = {0: ((1.0, 0.0), (0.0, 1.0)), 90: ((0.0, 1.0), (-1.0, 0.0))}[label.turn]
    right, up = turn
    folds = sorted(placement.drawn_with(FOLD), key=lambda line: _dot(up, line.start))
    edges = sorted(_edges(placement, right), key=lambda line: _dot(right, line.start))
    reference = next(
        words
        for words in placement.saying("reference edge")
        if words.turn == label.turn and "✂" not in words.text
    )
    on_left = reference.text.startswith("◄")
    assert on_left != reference.text.endswith("►")
    left_edge, right_edge = edges
    reference_edge = left_edge if on_left else right_edge
    origin_right, origin_up = _dot(right, reference_edge.start), _dot(up, folds[0].start)
    across = right if on_left else (-right[0], -right[1])
    return Wrap(
        page=number,
        placement=placement,
        corner=corner,
        board=board,
        role=role,
        hand=hand,
        reference_on_left=on_left,
        origin=(
            origin_right * right[0] + origin_up * up[0],
            origin_right * right[1] + origin_up * up[1],
        ),
        across=across,
        up=up,
        width=_dot(right, right_edge.start) - _dot(right, left_edge.start),
        between_folds=_dot(up, folds[1].start) - _dot(up, folds[0].start),
    )


def labels_of(placement: Placement) -> list[tuple[str, str, str]]:
    """Role, face and hand of every label; its words may run over several lines."""
    words = " ".join(one.text for one in placement.words)
    found: list[tuple[str, str, str]] = re.findall(
        r"((?:tail|pin|first|second) board) · (\w+ (?:face|grain|edge)) · (\w+-hand end)", words
    )
    return found


def _edges(placement: Placement, right: Place) -> list[Line]:
    """The two longest thin lines square to the folds, and crossed by them: the board's edges."""
    fold = placement.drawn_with(FOLD)[0]
    low, high = sorted(_dot(right, end) for end in (fold.start, fold.end))
    thin = [
        line
        for line in placement.drawn_with(THIN)
        if abs(_dot(right, line.start) - _dot(right, line.end)) < NEAR
        and low < _dot(right, line.start) < high
    ]
    return sorted(thin, key=lambda line: line.length)[-2:]


def _dot(one: Place, other: Place) -> float:
    return one[0] * other[0] + one[1] * other[1]


def unmatched(found: Sequence[Segment], wanted: Sequence[Segment], near: float = NEAR) -> list[str]:
    """What of one list of lines has no partner in the other, each line used once."""
    left, missing = list(found), []
    for segment in wanted:
        partner = next((one for one in left if _same(one, segment, near)), None)
        if partner is None:
            missing.append(f"missing {_told(segment)}")
        else:
            left.remove(partner)
    return missing + [f"too much {_told(segment)}" for segment in left]


def _same(one: Segment, other: Segment, near: float) -> bool:
    def apart(pairs: tuple[tuple[Place, Place], ...]) -> float:
        return max(abs(a - b) for p, q in pairs for a, b in zip(p, q, strict=True))

    straight = ((one[0], other[0]), (one[1], other[1]))
    turned = ((one[0], other[1]), (one[1], other[0]))
    return min(apart(straight), apart(turned)) <= near


def _told(segment: Segment) -> str:
    return " to ".join(f"({x:.4f}, {y:.4f})" for x, y in segment)
