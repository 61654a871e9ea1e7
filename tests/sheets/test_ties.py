"""Where two ways of cutting a pattern are equally good, which one is taken: worked out by hand.

Pages of 200 x 250 with an overlap of 20; letters are as wide as they are high.
"""

import pytest

from joinery_templates.drawings.figure import Figure, Pattern, Role, Text, line
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units
from joinery_templates.sheets.seam_marks import Taping
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
        (10, 120),  # a mitre
        (5, 120),  # 1 in 2: still as one that runs beside the seam
        (4, 150),  # flatter: the seam must cross such lines anyway
    ],
)
def test_a_line_that_rises_one_in_two_counts_as_one_that_a_seam_keeps_off(rise, seam):
    assert seams_of(line(Role.SAW, 145, 10, 155, 10 + rise)) == [seam]


@pytest.mark.parametrize(("at", "moved_to"), [(125, 125), (126, 125), (155, 155), (154, 155)])
def test_words_that_come_too_near_a_seam_go_just_so_far_as_they_must(at, moved_to):
    """A seam at 150 with its marks takes 145 to 155; 4 letters of 5 mm are 20 long."""
    tiled = cut(300, 100, texts=[Text("side", (F(at), F(50)), F(5))], seams=[150])
    assert [text.at for texts in tiled.own for text in texts] == [(moved_to, 50)]


def test_of_two_places_equally_near_its_wish_a_mark_takes_the_lower():
    """A third of 243 is 81: the wish is 40.5, and a line crosses the seam there.

    With its arms of 2.5 mm and air of 0.45 the mark is off the line 3 mm away, the next place.
    """
    crossing = line(Role.SAW, 140, F("40.5"), 160, F("40.5"))
    taping = Taping(cut(480, 243, [crossing], seams=[150, 300]), OVERLAP, True, Units.MM, Square())
    assert taping.marks[0][0].at == (150, F("37.5"))
