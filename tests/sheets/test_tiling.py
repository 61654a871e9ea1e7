"""A pattern cut into tiles: which way it lies, what its seams cut, and what stands beside them."""

import re

import pytest
from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure, Pattern, Role, Text, cross, line
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units
from joinery_templates.sheets.seam_marks import Taping
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
    # No i, l or o: beside a figure they look like figures.
    assert "".join(seam.letter for seam in seams[:17]) == "abcdefghjkmnpqrst"
    assert [seam.letter for seam in seams[22:26]] == ["z", "aa", "ab", "ac"]
    assert [(seam.before, seam.after) for seam in seams[:4]] == [(0, 1), (1, 2), (2, 3), (4, 5)]
    assert [(seam.before, seam.after) for seam in seams[9:11]] == [(0, 4), (1, 5)]


def label(x, words, part):
    """A row of words 5 mm high that starts at x."""
    return Text(words, (F(x), F(50)), F(5), part=part)


def texts_of(tiled):
    """All words of a pattern: those that sheets share, and those of one sheet alone."""
    (layer,) = tiled.pattern.layers
    return [*layer.texts, *(text for own in tiled.own for text in own)]


def left_words(*texts, seams, strokes=()):
    return [(text.words, text.part) for text in texts_of(cut(300, 100, strokes, texts, seams))]


def test_words_that_a_seam_would_cut_move_along_their_line_to_one_sheet():
    """A seam at 150 with its marks takes 145 to 155; 4 letters of 5 mm from 135 reach 155."""
    (text,) = texts_of(cut(300, 100, texts=[label(135, "side", "")], seams=[150]))
    assert (text.words, text.at[1]) == ("side", 50)
    assert 115 < text.at[0] <= 125
    # Where a line stands in the way they go to the other sheet.
    wall = [line(Role.SAW, x, 0, x, 100) for x in range(5, 150, 15)]
    (text,) = texts_of(cut(300, 100, wall, [label(135, "side", "")], seams=[150]))
    assert text.at[0] >= 155


@pytest.mark.parametrize(("at", "own"), [(119, None), (123, 0), (125, 0), (155, 1), (161, None)])
def test_words_on_the_paper_of_a_seam_stand_on_one_sheet_alone(at, own):
    """A seam at 150 with its overlap takes 140 to 160; 4 letters of 5 mm are 20 long."""
    tiled = cut(300, 100, texts=[label(at, "side", "")], seams=[150])
    assert [text.at[0] for text in texts_of(tiled)] == [at]
    assert [number for number, texts in enumerate(tiled.own) if texts] == (
        [] if own is None else [own]
    )


def test_words_on_the_paper_of_two_seams_stand_on_the_sheet_that_is_theirs():
    """Seams at 150 and, where equal tiles part, at 150: tiles from the lower left, row by row."""
    for x, y, tile in ((123, 130, 0), (155, 130, 1), (123, 160, 2), (155, 160, 3)):
        tiled = cut(300, 300, texts=[Text("side", (F(x), F(y)), F(5))], seams=[150])
        assert [len(texts) for texts in tiled.own] == [int(n == tile) for n in range(4)]


def test_a_label_that_has_room_on_no_sheet_goes():
    """Between lines 10 mm apart or less 4 letters have no room; 2 have it beside the seam.

    Of a label that has a copy no row is left; of one that has none, what can be.
    """
    places = (*range(0, 140, 10), 138, *range(160, 301, 10))
    walls = [line(Role.SAW, x, 0, x, 100) for x in places]
    texts = [
        label(x, words, part)
        for x, name, part in ((40, "side", "1"), (142, "side", "2"), (142, "back", "3"))
        for words in (name, "up")
    ]
    assert left_words(*texts, strokes=walls, seams=[150]) == [
        ("side", "1"),
        ("up", "1"),
        ("up", "3"),
    ]


def test_words_stand_on_the_paper_of_a_seam_where_no_other_is_free_but_off_its_marks():
    """From 145 to 165 stands no line, but the seam's paper takes 140 to 160, its marks to 155."""
    walls = [line(Role.SAW, x, 0, x, 100) for x in range(0, 301, 5) if not 145 < x < 165]
    (text,) = texts_of(cut(300, 100, walls, [label(142, "tie", "")], seams=[150]))
    assert 155 <= text.at[0] < 160
    assert text.at[0] + 3 * text.cap < 165


def test_bold_words_take_the_last_room():
    """Between walls every 10 mm but one, 4 letters have room once."""
    walls = [line(Role.SAW, x, 0, x, 100) for x in range(0, 301, 10) if x != 60]
    plain = label(142, "side", "")
    texts = plain, replace(plain, words="back", bold=True)
    assert left_words(*texts, strokes=walls, seams=[150]) == [("back", "")]


def rows(*words, x, turn=0, paragraph=True):
    """Rows of words 5 mm high below each other, from x on."""
    whole = " ".join(words) if paragraph else ""
    return [
        Text(row, (F(x), F(60 - 8 * number)), F(5), turn=turn, paragraph=whole)
        for number, row in enumerate(words)
    ]


def test_half_of_what_is_said_never_stands_alone():
    """The first row is too long for any room, and the second by itself says something else."""
    walls = [line(Role.SAW, x, 0, x, 100) for x in range(0, 301, 15)]
    texts = rows("meets-a-front-far-too-long", "left", x=130)
    tiled = cut(300, 100, walls, texts, seams=[150])
    assert texts_of(tiled) == []
    assert tiled.lost == ("meets-a-front-far-too-long left",)


def test_a_paragraph_that_has_no_room_takes_more_rows():
    """24 letters of 2.6 mm need 62 mm; between walls every 40 mm they stand in two rows."""
    walls = [line(Role.SAW, x, 0, x, 100) for x in range(0, 301, 40)]
    upper, lower = texts_of(
        cut(300, 100, walls, rows("first board outside face", x=130), seams=[150])
    )
    assert [upper.words, lower.words] == ["first board", "outside face"]
    assert upper.at[0] == lower.at[0]
    assert upper.at[1] - lower.at[1] >= lower.cap * F(4, 3)


@pytest.mark.parametrize("paragraph", [False, True])
def test_words_that_belong_to_a_line_stay_near_it(paragraph):
    """The nearest room aside is 5 mm away, too far for what stands beside an upright line."""
    walls = [line(Role.SAW, x, 0, x, 100) for x in range(144, 156)]
    texts = rows("cut here", x=148, turn=90, paragraph=paragraph)
    assert len(texts_of(cut(300, 100, walls, texts, seams=[150]))) == paragraph
    (text,) = texts_of(cut(300, 100, walls[6:], texts, seams=[150]))
    assert paragraph or abs(text.at[0] - 148) <= 4


@pytest.mark.parametrize(("at", "cap"), [(128, 5), (132, F(7, 2)), (135, F(7, 2)), (148, 0)])
def test_words_that_name_what_they_stand_beside_grow_small_before_they_leave_it(at, cap):
    """4 letters end at 145 and begin no more than 4 mm aside: 17 are free for those at 132.

    The next size that there is, 3.5, is 14 long: it fits there, and into 14 as well. At 148 even
    the smallest have no room, and past the seam they begin at 155, 7 mm away.
    """
    texts = [replace(label(at, "side", ""), stays=True)]
    found = texts_of(cut(300, 100, texts=texts, seams=[150]))
    assert [text.cap for text in found] == ([cap] if cap else [])
    assert all(abs(text.at[0] - at) <= 4 for text in found)
    assert all(text.at[0] + 4 * text.cap <= 145 for text in found)


def test_words_where_two_seams_cross_leave_both():
    """Two full tiles and their overlap make 480: the level seam has one place, 240."""
    text = Text("cross", (F(140), F(238)), F(5), paragraph="cross")
    tiled = cut(300, 480, texts=[text], seams=[150])
    assert {seam.at for seam in tiled.seams} == {150, 240}
    (found,) = (text for text in texts_of(tiled) if text.words == "cross")
    corners = zip(*text_corners(found, Square()), (150, 240), strict=True)
    assert all(high <= at - 5 or low >= at + 5 for low, high, at in corners)


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
    """Equal tiles would part at 150; from 95 to 155 stand words, and 5 beside them are clear."""
    found = cut(300, 100, texts=[label(95, "twelve words", "")])
    assert {seam.at for seam in found.seams} == {161}


def test_match_marks_and_words_keep_off_lines():
    """Seams of 240 at 150 and 300; lines cross the second's lower half but from 20 to 30."""
    rows = [y for y in range(1, 120, 2) if not 20 < y < 30]
    lines = [line(Role.GUIDE, 250, y, 350, y) for y in rows]
    tiled = cut(480, 240, lines, seams=[150, 300])
    taping = Taping(tiled, OVERLAP, True, Units.MM, Square())
    free, (low, high, beside) = (tuple(mark.at for mark in marks) for marks in taping.marks)
    assert free == ((150, 40), (150, 200), (155, 120)), "in the middle of each third"
    assert 22.5 < low[1] <= 28, "where a mark has room between two lines"
    assert high == (300, 200)
    assert beside[0] == 305
    assert beside[1] > 121.9
    for figure in taping.of_tiles([1, 2, 3]):
        for text in figure.texts:
            start, end = text.at[1], text.at[1] + Square().width(text.words, text.cap)
            at_line = 250 < text.at[0] < 350 and any(start < y < end for y in rows)
            assert not at_line, text.words


def test_a_match_mark_just_clear_of_its_seam_stands_on_no_other_line():
    """Of 11.8 the middle of a strip is 2.95 off; between lines 5 apart there is no room for it."""
    tiled = cut(300, 100, [line(Role.SAW, 100, y, 200, y) for y in range(0, 101, 5)], seams=[150])
    assert Taping(tiled, F("11.8"), True, Units.MM, Square()).marks == [()]


def taping(height: int, marks: bool = True, strokes=()) -> list[list[Text]]:
    """What each of two tiles side by side alone says: on sheets 1 and 2, the seam at 150."""
    tiled = cut(300, height, strokes, seams=[150])
    found = Taping(tiled, OVERLAP, marks, Units.MM, Square()).of_tiles([1, 2])
    return [list(figure.texts) for figure in found]


def test_signs_and_notes_at_a_seam_stand_on_white_where_all_round_them_is_hatched():
    hatching = [line(Role.HATCH, 0, y, 300, y) for y in range(1, 100)]
    for texts in taping(100, strokes=hatching):
        (note,) = [text for text in texts if "sheet" in text.words]
        signs = [text for text in texts if text.words in ("a1", "a2", "a3")]
        assert len(signs) == 3
        assert note.opaque
        assert all(sign.opaque for sign in signs)


@pytest.mark.parametrize(
    ("height", "below", "above"),
    [
        (50, ["a: under sheet 2"], ["✂ a: on sheet 1"]),
        (41, ["a: under sh. 2"], ["✂ a: on sh. 1"]),
        (30, ["a: sh. 2"], ["✂ a: sh. 1"]),
        (24, ["a: sh. 2"], ["✂ a"]),
        (12, [], ["✂ a"]),
    ],
)
def test_what_is_done_at_a_seam_is_said_in_as_many_words_as_have_room(height, below, above):
    """Letters are 2.6 mm wide: 16 of them take 41.6 mm, and the line that checks the taping 2 mm.

    To the last the scissors stay: untrimmed, the upper sheet would hide lines of the lower one.
    """
    said = [
        [text.words for text in texts if not re.match("check|nowhere|part", text.words)]
        for texts in taping(height, marks=False)
    ]
    assert said == [below, above]
