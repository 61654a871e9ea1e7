"""Faces drawn one by one, read off the pages as someone sees them who looks at the board."""

from functools import cache

from tests.pdf.dovetail_table import Segment
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import THIN, Place, Placement
from tests.pdf.wrap_reading import labels_of

Pen = tuple[float, tuple[float, ...]]


@cache
def single_faces(job: str) -> dict[tuple[str, str, str], tuple[str, Placement]]:
    """By corner, role and face: the hand that its label says, and the pattern."""
    found = {}
    for page in pages_from(job):
        for placement in page.placements[1:]:
            labels = labels_of(placement)
            if len(labels) == 1:  # a wrap has two
                role, face, hand = labels[0]
                heading = next(w.text for w in placement.words if w.text.startswith("Corner "))
                key = (heading.removeprefix("Corner ")[0], role, face)
                assert key not in found
                found[key] = (hand, placement)
    return found


def as_seen(placement: Placement, pen: Pen) -> list[Segment]:
    """Lines with s from the left and t down from the top of the board's outline."""
    turn = next(w.turn for w in placement.words if " board ·" in w.text)

    def read(point: Place) -> Place:
        return point if turn == 0 else (point[1], -point[0])

    assert turn in (0, 90)
    ends = [
        read(end)
        for line in placement.drawn_with(THIN)
        if line.length > 2
        for end in (line.start, line.end)
    ]
    left, top = min(x for x, _ in ends), max(y for _, y in ends)

    def seen(point: Place) -> Place:
        x, y = read(point)
        return x - left, top - y

    return [(seen(line.start), seen(line.end)) for line in placement.drawn_with(pen)]
