"""Where two ways of cutting a pattern are equally good, which one is taken: worked out by hand.

Pages of 200 x 250 with an overlap of 20; letters are as wide as they are high.
"""

from fractions import Fraction

import pytest

from joinery_templates.drawings.figure import Figure, Pattern, Role, Text, line
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
        (10, 135),  # as steep as flat: it runs along the seam as much as across it
        (11, 135),
        (9, 150),  # flatter: the seam must cross such lines anyway
    ],
)
def test_a_line_at_45_degrees_counts_as_one_that_a_seam_keeps_off(rise, seam):
    assert seams_of(line(Role.SAW, 145, 10, 155, 10 + rise)) == [seam]


@pytest.mark.parametrize(("at", "moved_to"), [(120, 120), (121, 120), (160, 160), (159, 160)])
def test_words_that_only_touch_the_paper_of_a_seam_stay(at, moved_to):
    """A seam at 150 takes 140 to 160; words that reach into that go just so far as they must."""
    (layer,) = cut(300, 100, texts=[Text("side", (F(at), F(50)), F(5))], seams=[150]).pattern.layers
    assert [text.at for text in layer.texts] == [(moved_to, 50)]


def test_of_two_places_equally_near_its_wish_a_mark_takes_the_lower():
    """A third of 243 is 81: the wish is 40.5, and a line crosses the seam there.

    With its arms of 2.5 mm and air of 0.45 the mark is off the line 3 mm away, the next place.
    """
    crossing = line(Role.SAW, 140, F("40.5"), 160, F("40.5"))
    taping = Taping(cut(480, 243, [crossing], seams=[150, 300]), OVERLAP, True, Units.MM, Square())
    assert taping.marks[0][0] == (150, F("37.5"))
