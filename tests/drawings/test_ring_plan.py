"""The plan of a ring, by hand: a regular figure, and which board's end stands in which corner."""

import math

import pytest

from joinery_templates.drawings.figure import Figure
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.pdf.fonts import DejaVu
from tests.drawings.test_plan import plans_of


def drawn(job: str) -> tuple[Figure, str]:
    ((figure, words),) = plans_of(job)
    return figure, " ".join(one.words for one in words)


@pytest.mark.parametrize(
    ("job", "count", "side", "thick"), [("six_sided_box", 6, 110, 9), ("lantern", 8, 75, 8)]
)
def test_a_ring_is_drawn_with_all_its_sides_and_its_walls_to_one_scale(job, count, side, thick):
    """From the middle it is side / 2 tan(180 / n) to a side outside, and a wall less inside."""
    figure, _ = drawn(job)
    ends = [end for stroke in figure.strokes for end in (stroke.start, stroke.end)]
    (left, right), (low, high) = ((min(at), max(at)) for at in zip(*ends, strict=True))
    x, y, flats = float(left + right) / 2, float(low + high) / 2, float(high - low)
    scale = flats * math.tan(math.pi / count) / side
    ways = [2 * math.pi * number / count - math.pi / 2 for number in range(count)]
    off = [
        [(float(u) - x) * math.cos(way) + (float(v) - y) * math.sin(way) for way in ways]
        for u, v in ends
    ]
    for number in range(count):
        assert max(one[number] for one in off) == pytest.approx(flats / 2)
    assert min(map(max, off)) == pytest.approx(flats / 2 - thick * scale)
    corners = flats / 2 / math.cos(math.pi / count)
    assert max(math.hypot(float(u) - x, float(v) - y) for u, v in ends) == pytest.approx(corners)


def test_going_round_from_a_corner_come_the_boards_whose_left_hand_ends_stand_there():
    """Against the clock from above, as they follow each other to the right, seen from outside."""
    figure, words = drawn("six_sided_box")
    assert "Odd corners: TAILS (right-hand end) meets PINS (left-hand end)" in words
    assert "Even corners: PINS (right-hand end) meets TAILS (left-hand end)" in words
    boards = [text for text in figure.texts if text.words in ("TAILS", "PINS")]
    assert len(boards) == 6
    x, y = (float(sum(one.at[axis] for one in boards)) / 6 for axis in (0, 1))
    at = {text.words: text.at for text in figure.texts}
    start = math.atan2(float(at["Odd corners"][1]) - y, float(at["Odd corners"][0]) - x)

    def turn(place):
        return (math.atan2(float(place[1]) - y, float(place[0]) - x) - start) % math.tau

    in_turn = sorted(boards, key=lambda text: turn(text.at))
    assert [text.words for text in in_turn] == ["PINS", "TAILS"] * 3
    assert turn(in_turn[0].at) < turn(at["Even corners"]) < turn(in_turn[1].at)


def test_on_narrow_paper_a_corner_s_name_is_broken_into_rows_and_stays_on_the_sheet():
    """Beside its rulers A6 leaves some 70 mm; unbroken the names want 76 (found on paper)."""
    ((figure, _),) = plans_of("six_sided_box", 70)
    said = [text.words for text in figure.texts if text.bold]
    assert figure.width <= 70
    assert said == ["Odd", "corners", "Even", "corners"]
    for text in figure.texts:
        low, high = text_corners(text, DejaVu())
        assert 0 <= low[0] < high[0] <= 70
    heights = [text.at[1] for text in figure.texts if text.bold]
    assert heights[0] > heights[1]
    assert heights[2] > heights[3]
