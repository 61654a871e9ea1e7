"""Where two ways of cutting a pattern are equally good, which one is taken: worked out by hand.

Pages of 200 x 250 with an overlap of 20; letters are as wide as they are high.
"""

from fractions import Fraction

import pytest

from joinery_templates.drawings.figure import Figure, Pattern, Role, Text, line
from joinery_templates.sheets.seam_marks import plan_seams
from joinery_templates.sheets.tiling import Scissors, Tiled

F = Fraction
OVERLAP = F(20)


class Square:
    """Letters as wide as capitals are high."""

    def width(self, words, cap, bold=False):
        return len(words) * cap


def cut(width, height, strokes=(), texts=(), seams=()) -> Tiled:
    figure = Figure(F(width), F(height), tuple(strokes), tuple(texts))
    pattern = Pattern("made up", "nowhere", (figure,), tuple(map(F, seams)))
    return Scissors((F(200), F(250)), OVERLAP, Square()).cut(pattern)


def seams_of(*strokes) -> list[Fraction]:
    return [seam.at for seam in cut(300, 100, strokes).seams]


@pytest.mark.parametrize(
    ("rise", "seam"),
    [
        (10, 135),  # as steep as flat: it runs along the seam as much as across it
        (11, 135),
        (9, 150),  # flatter: the seam must cross such lines anyway
    ],
)
def test_a_line_at_45_degrees_counts_as_one_that_a_seam_keeps_off(rise, seam):
    assert seams_of(line(Role.SAW, 145, 10, 155, 10 + rise)) == [seam]


@pytest.mark.parametrize(("at", "is_cut"), [(120, False), (121, True), (160, False), (159, True)])
def test_words_that_only_touch_the_paper_of_a_seam_are_not_cut(at, is_cut):
    """A seam at 150 takes 140 to 160, and of two like labels one that it cuts would go."""
    labels = [Text("side", (F(x), F(50)), F(5), part=str(x)) for x in (at, 220)]
    (layer,) = cut(300, 100, texts=labels, seams=[150]).pattern.layers
    assert layer.texts == tuple(labels[is_cut:])


def test_of_two_places_equally_near_the_middle_a_mark_takes_the_lower():
    """Thirds of 81 in whole mm from 4 on: 40 and 41 are both half a mm from 40.5."""
    plan, _ = plan_seams(cut(480, 243, seams=[150, 300]), OVERLAP, Square())
    assert plan.marks == ((150, 40), (150, 202), (155, 121))


@pytest.mark.parametrize(("end", "note"), [(96, (70, 96)), (95, (44, 116))])
def test_words_take_the_longest_clear_stretch_that_is_just_long_enough(end, note):
    """26 mm will do; where even the longest is shorter, they take all the room between two marks.

    Marks stand at 40, 120 and 200, with 4 mm for themselves.
    """
    rows = [46, 52, 58, 64, 70, end, 102, 108, 114, *range(130, 200, 10)]
    lines = [line(Role.GUIDE, 100, y, 200, y) for y in rows]
    plan, _ = plan_seams(cut(480, 240, lines, seams=[150, 300]), OVERLAP, Square())
    assert (plan.marks[0][1], plan.marks[2][1], plan.marks[1][1]) == (40, 120, 200)
    assert plan.note == note


def test_of_two_stretches_equally_long_the_words_take_the_first():
    plan, _ = plan_seams(cut(480, 240, seams=[150, 300]), OVERLAP, Square())
    assert plan.note == (44, 116)
