"""A pattern cut into tiles: which way it lies, what its seams cut, and what stands beside them."""

from fractions import Fraction

import pytest

from joinery_templates.drawings.figure import Figure, Pattern, Role, Text, cross, line
from joinery_templates.sheets.seam_marks import plan_seams
from joinery_templates.sheets.tiling import Scissors

F = Fraction
AREA = (F(200), F(250))
OVERLAP = F(20)


class Square:
    """Letters as wide as capitals are high."""

    def width(self, words, cap, bold=False):
        return len(words) * cap


def cut(width, height, strokes=(), texts=(), seams=()):
    """The tiles of a made-up pattern on pages of 200 x 250."""
    figure = Figure(F(width), F(height), tuple(strokes), tuple(texts))
    pattern = Pattern("made up", "nowhere", (figure,), tuple(map(F, seams)))
    return Scissors(AREA, OVERLAP, Square()).cut(pattern)


@pytest.mark.parametrize(
    ("width", "height", "tiles", "turned"),
    [
        (200, 250, 1, False),
        (250, 200, 1, True),  # only turning makes it fit one sheet
        (150, 100, 1, False),  # it would fit either way
        (201, 251, 2, True),
        (251, 251, 4, False),  # as many either way
        (380, 250, 2, False),  # 2 x 200 less the overlap
        (480, 200, 2, True),  # 2 x 250 less the overlap; upright it would take 3
    ],
)
def test_a_pattern_is_turned_only_where_that_takes_fewer_sheets(width, height, tiles, turned):
    found = cut(width, height)
    assert (len(found.tiles), found.turned) == (tiles, turned)
    room = AREA[::-1] if turned else AREA
    assert all(tile.width <= room[0] and tile.height <= room[1] for tile in found.tiles)


def test_seams_are_lettered_along_the_rows_and_never_twice():
    """Four columns by three rows: 3 x 3 upright seams, then 2 x 4 level ones."""
    scissors = Scissors(AREA, OVERLAP, Square())
    pattern = Pattern("made up", "nowhere", (Figure(F(700), F(700)),))
    seams = scissors.cut(pattern).seams + scissors.cut(pattern).seams
    assert "".join(seam.letter for seam in seams[:17]) == "abcdefghijklmnopq"
    assert [seam.letter for seam in seams[25:29]] == ["z", "aa", "ab", "ac"]
    assert [(seam.before, seam.after) for seam in seams[:4]] == [(0, 1), (1, 2), (2, 3), (4, 5)]
    assert [(seam.before, seam.after) for seam in seams[9:11]] == [(0, 4), (1, 5)]


def label(x, words, part):
    """A row of words 5 mm high that starts at x."""
    return Text(words, (F(x), F(50)), F(5), part=part)


def left_words(*texts, seams):
    (layer,) = cut(300, 100, texts=texts, seams=seams).pattern.layers
    return [(text.words, text.part) for text in layer.texts]


def test_a_copy_of_a_label_that_a_seam_cuts_goes_if_another_is_whole():
    """A seam at 150 with its overlap takes 140 to 160; 4 letters of 5 mm from 125 reach 145."""
    texts = label(20, "side", "1"), label(20, "wrap", "1"), label(125, "side", "2")
    texts += (label(200, "wrap", "2"),)
    assert left_words(*texts, seams=[150]) == [("side", "1"), ("wrap", "1")]
    assert left_words(*texts, seams=[170]) == [(text.words, text.part) for text in texts]


def test_a_label_is_not_lost_where_all_its_copies_are_cut_nor_words_without_a_copy():
    texts = label(90, "side", "1"), label(190, "side", "2")
    assert len(left_words(*texts, seams=[100, 200])) == 2
    assert len(left_words(label(90, "side", ""), label(10, "side", ""), seams=[110])) == 2


def test_waste_crosses_on_a_seam_go_and_hatching_stays():
    strokes = [
        *cross(Role.CROSS, (F(138), F(50)), F(3)),  # reaches 141: over the paper of the seam
        *cross(Role.CROSS, (F(130), F(50)), F(3)),
        line(Role.HATCH, 140, 10, 160, 20),
    ]
    (layer,) = cut(300, 100, strokes, seams=[150]).pattern.layers
    assert layer.strokes == tuple(strokes[2:])


def test_a_seam_between_two_labels_cuts_neither():
    """Equal tiles would part at 150; from 95 to 155 stand words, and 10 beside them is overlap."""
    found = cut(300, 100, texts=[label(95, "twelve words", "")])
    assert {seam.at for seam in found.seams} == {166}


def test_match_marks_and_words_keep_off_lines():
    """Seams of 240 at 150 and 300; lines cross the second's lower half but from 20 to 30."""
    rows = [y for y in range(1, 120, 2) if not 20 < y < 30]
    lines = [line(Role.GUIDE, 250, y, 350, y) for y in rows]
    free, plan = plan_seams(cut(480, 240, lines, seams=[150, 300]), OVERLAP, Square())
    assert free.marks == ((150, 40), (150, 200), (155, 120)), "in the middle of each third"
    low, high, beside = plan.marks
    assert 23 < low[1] < 27, "where a mark of 4 to either side has room"
    assert high == (300, 200)
    assert beside[0] == 305
    assert beside[1] > 123
    assert all(not plan.note[0] < y < plan.note[1] for y in rows)
    assert plan.note[1] - plan.note[0] >= 26
