"""What the saw takes: drawn on request, wholly in the waste, and seen by `measure`."""

import io
import math
import tomllib
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import (
    BoardEnd,
    Cut,
    HalfSpace,
    Slant,
    Stretch,
    Surface,
    at_least,
    at_most,
)
from joinery_templates.wood.faces import is_waste, lay_out
from joinery_templates.wood.kerf import SAWN, kerf_lines
from tests.cli.command_line import run
from tests.joints.strategies import dovetails
from tests.pdf.dovetail_table import Segment, corner_of, pin_wrap, tail_wrap
from tests.pdf.drawn_jobs import pages_from, pdf_from
from tests.pdf.page_reading import KNIFE, SAW
from tests.pdf.wrap_reading import unmatched, wraps_on
from tests.strategies import cases

KERF = (0.18, (0.6, 0.6))
"""Its pen, as the legend explains it."""
BOARD = Board("b", Fraction(40), Fraction(10))
HALF = Fraction(1, 2)


def gap(low: object, high: object, slope: str = "0", depth: int = 12) -> Cut:
    """A space that widens by a slope on either side, from the end down to a depth."""
    one, lean, zero = Fraction(1), Fraction(slope), Fraction(0)
    return Cut(
        (
            HalfSpace((-one, -lean, zero), -Fraction(low)),
            HalfSpace((one, -lean, zero), Fraction(high)),
            at_most(1, Fraction(depth), Surface.SHOULDER),
        )
    )


def on_outside(kerf: Fraction, *cuts: Cut) -> set[frozenset[tuple[Fraction, Fraction]]]:
    layout = lay_out(BoardEnd(BOARD, cuts, Fraction(12)), Face.OUTSIDE, Fraction(30))
    return {frozenset((line.start, line.end)) for line in kerf_lines(layout, kerf)}


def between(x0: object, y0: object, x1: object, y1: object) -> frozenset:
    return frozenset(((Fraction(x0), Fraction(y0)), (Fraction(x1), Fraction(y1))))


# By hand


def test_beside_a_straight_side_the_cut_lies_in_the_waste():
    assert on_outside(HALF, gap(10, 22)) == {
        between("10.5", 0, "10.5", 12),
        between("21.5", 0, "21.5", 12),
    }


def test_beside_a_sloping_side_the_kerf_is_measured_square_to_it():
    """7 in 24 (to 25): 0.48 square to the side is 0.5 across; at 12 deep it has gone 3.5."""
    assert on_outside(Fraction("0.48"), gap(10, 22, "7/24")) == {
        between("10.5", 0, "7", 12),
        between("21.5", 0, "25", 12),
    }


def test_where_the_saw_leans_to_the_face_it_takes_more_of_it():
    """At 3 in 4 through the thickness the kerf of 0.4 is 0.5 on the face (sides 3, 4, 5)."""
    mitre = HalfSpace((Fraction(1), Fraction(0), Fraction(3, 4)), Fraction(10))
    cut = Cut((mitre, at_most(1, Fraction(12), Surface.SHOULDER)))
    assert on_outside(Fraction("0.4"), cut) == {between("9.5", 0, "9.5", 12)}


def test_on_a_slanted_end_it_is_square_to_the_surface_too():
    """The end leans by 3 in 4 along the width: 0.4 across the board is 0.5 in its plane."""
    slant = HalfSpace((Fraction(3, 4), Fraction(-1), Fraction(0)), Fraction(0))
    baseline = HalfSpace((Fraction(3, 4), Fraction(-1), Fraction(0)), Fraction(-6))
    side = Cut((at_most(0, Fraction(8)),))
    end = BoardEnd(BOARD, (side,), Fraction(42), slant=Slant(slant, baseline))
    layout = lay_out(end, Face.END_GRAIN, Fraction(50))
    (line,), (far,) = layout.lines, kerf_lines(layout, Fraction("0.4"))
    assert float(line.start[0]) == pytest.approx(10, abs=1e-9)
    assert float(far.start[0]) == pytest.approx(9.5, abs=1e-9)


def test_at_a_needle_pin_the_cut_begins_where_the_waste_is_wide_enough():
    """0.4 wide at the end and 7/12 more for each mm down: 0.5 across is reached at 6/35."""
    start = Fraction(1, 10) / Fraction(7, 12)
    lean = Fraction(7, 24)
    assert on_outside(Fraction("0.48"), gap(10, "10.4", "7/24")) == {
        between(Fraction("10.5") - lean * start, start, 7, 12),
        between(Fraction("9.9") + lean * start, start, "13.4", 12),
    }


@pytest.mark.parametrize(("high", "count"), [("10.5", 0), ("10.6", 2)])
def test_where_the_waste_is_no_wider_than_the_kerf_there_is_no_line(high, count):
    assert len(on_outside(HALF, gap(10, high))) == count


def test_along_a_side_of_which_a_part_is_hidden_the_cut_is_no_longer_than_the_line():
    """The side at 20 is hidden down to 5 by a second piece of waste from 18 to 30."""
    assert on_outside(HALF, gap(10, 20, depth=10), gap(18, 30, depth=5)) == {
        between("10.5", 0, "10.5", 10),
        between("19.5", 5, "19.5", 10),
        between("29.5", 0, "29.5", 5),
    }


@pytest.mark.parametrize(
    ("surface", "cuts"),
    [
        (Surface.SHOULDER, set()),
        (Surface.SAWN_SHOULDER, {between(0, "8.5", 40, "8.5")}),
    ],
)
def test_a_shoulder_that_is_sawn_has_a_kerf_and_one_that_is_chopped_has_none(surface, cuts):
    across = Cut((at_most(1, Fraction(9), surface), at_least(2, Fraction(0))))
    assert on_outside(HALF, across) == cuts


def test_where_no_saw_reaches_a_side_is_chopped():
    """A trench right across, 10 to 22 along the board; the saw reaches it from x = 15 on."""
    trench = Cut((at_least(1, Fraction(10)), at_most(1, Fraction(22))))
    part = Stretch(BOARD, (trench,), Fraction(0), Fraction(22), "line", "top", ("one", "other"))
    for sawn, start in ((None, 0), (at_least(0, Fraction(15)), 15)):
        layout = lay_out(replace(part, sawn=sawn), Face.OUTSIDE, Fraction(30))
        assert {frozenset((one.start, one.end)) for one in kerf_lines(layout, HALF)} == {
            between(start, "10.5", 40, "10.5"),
            between(start, "21.5", 40, "21.5"),
        }
    edges = [(Face.REFERENCE_EDGE, 0), (Face.FAR_EDGE, 2)]
    for face, count in edges:
        layout = lay_out(replace(part, sawn=at_least(0, Fraction(15))), face, Fraction(30))
        assert len(kerf_lines(layout, HALF)) == count


# Over random layouts


def distance(half_space: HalfSpace, point: tuple[Fraction, Fraction], z: Fraction) -> float:
    """From a sawn surface to a point of the wood, square to the surface."""
    x, y, depth = (float(part) for part in half_space.normal)
    past = x * float(point[0]) + y * float(point[1]) + depth * float(z) - float(half_space.limit)
    return abs(past) / math.hypot(x, y, depth)


@cases(8)
@given(dovetails().map(KIND.build), st.sampled_from([Fraction(1, 5), HALF, Fraction(1)]))
def test_the_strip_is_as_wide_as_the_kerf_and_all_of_it_is_waste(joint, kerf):
    for member in joint.members:
        end = member.part
        for face, z in ((Face.OUTSIDE, Fraction(0)), (Face.INSIDE, end.board.thickness)):
            layout = lay_out(end, face, end.reach + 5)
            sawn = [h for cut in end.cuts for h in cut.half_spaces if h.surface in SAWN]
            for line in kerf_lines(layout, kerf):
                for share in (Fraction(1, 9), HALF, Fraction(8, 9)):
                    x, y = line.at(share)
                    assert is_waste(end, x, y, z)
                beside = [
                    one
                    for one in sawn
                    if abs(distance(one, line.start, z) - float(kerf)) < 1e-9
                    and abs(distance(one, line.end, z) - float(kerf)) < 1e-9
                ]
                assert beside


# On paper

JOB = """
title = "Sawn"
units = "mm"
[tools]
kerf = 0.6
kerf_shown = true
[boards.side]
width = 92
thickness = 12
[boards.end]
width = 92
thickness = 14
[[joints]]
kind = "through-dovetail"
corners = ["A", "B"]
tail_board = "side"
pin_board = "end"
slope = "1:6"
tails = 3
half_pin = 6
half_pin_far = 8
pin = 4
tails_proud = 0.4
pins_proud = 0.3
"""


def beside(saws: list[Segment], into: Callable[[int], int]) -> list[Segment]:
    """The far side of the cut: 0.6 square to each sawn surface; it ends where the line ends.

    Whether a line leans on a face, or the saw to that face, it is 0.6 times the root of
    1 + 1/36 along the width.

    Args:
        saws: three lines for each side of a tail, the sides from left to right.
        into: 1 or -1, whether the waste lies beyond or before a side.
    """
    found = []
    for number, ((s0, t0), (s1, t1)) in enumerate(saws):
        aside = into(number // 3) * 0.6 * math.sqrt(1 + 1 / 36)
        found.append(((s0 + aside, t0), (s1 + aside, t1)))
    return found


def sawn_off(bases: list[Segment], width: float) -> list[Segment]:
    """The half pins' waste: 0.6 nearer the end, where it is 0.6 / 6 narrower at the tail."""
    found = []
    for (s0, t0), (s1, t1) in bases:
        nearer = 0.6 if t0 < 0 else -0.6
        if 0 in (s0, s1) or width in (s0, s1):
            inner, outer = (max(s0, s1), 0.0) if 0 in (s0, s1) else (min(s0, s1), width)
            inner += -0.1 if outer == 0 else 0.1
            found.append(((outer, t0 + nearer), (inner, t1 + nearer)))
    return found


@pytest.mark.parametrize("corner", ["Corner A", "Corner B"])
def test_printed_cuts_stand_a_kerf_from_their_lines_in_the_waste(corner):
    """Read by pdfminer against the table of lines worked out from the job's numbers.

    Sides come left, right, left, right: outside the tails is the tail board's waste, inside
    them the pin board's.
    """
    numbers = corner_of(tomllib.loads(JOB))
    wraps = [wrap for wrap in wraps_on(pages_from(JOB)) if wrap.corner == corner]
    assert {wrap.role for wrap in wraps} == {"tail board", "pin board"}
    for wrap in wraps:
        is_tail = wrap.role == "tail board"
        saws, bases = (tail_wrap if is_tail else pin_wrap)(numbers)
        outwards = 1 if is_tail else -1
        wanted = beside(saws, lambda side: outwards if side % 2 else -outwards)  # noqa: B023
        if is_tail:
            wanted += sawn_off(bases, numbers.width)
        assert unmatched(wrap.lines(KERF), wanted) == []
        # The lines themselves are as they are without.
        assert unmatched(wrap.lines(SAW), saws) == []
        assert unmatched(wrap.lines(KNIFE), bases) == []


def without_kerf_shown() -> str:
    return JOB.replace("kerf_shown = true\n", "")


def test_unless_asked_for_nothing_of_it_is_printed():
    pages = pages_from(without_kerf_shown())
    assert not [line for page in pages for line in page.lines if line.pen == KERF]
    assert not [words for page in pages for words in page.words if "saw cut, in" in words.text]


def test_the_legend_explains_it_where_it_is_drawn():
    first = [words.text for page in pages_from(JOB)[:2] for words in page.words]
    assert [words for words in first if "far side of the saw cut" in words]


def test_no_prick_point_stands_at_its_ends():
    """The wraps with and without it differ by these lines alone."""

    def lines(text: str) -> list[tuple]:
        wraps = wraps_on(pages_from(text))
        return [
            (one.start, one.end, one.pen)
            for wrap in wraps
            for one in wrap.placement.lines
            if one.pen != KERF
        ]

    assert lines(JOB) == lines(without_kerf_shown())


# Measured


def redrawn(content: bytes, lost: tuple[float, tuple[float, ...]]) -> bytes:
    """The PDF without the strokes of one pen."""
    width, dash = lost
    with pikepdf.open(io.BytesIO(content)) as pdf:
        for thing in pdf.objects:
            if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form":
                kept, pen = [], [0.0, ()]
                for operands, operator in pikepdf.parse_content_stream(thing):
                    if str(operator) == "w":
                        pen[0] = round(float(operands[0]) * 25.4 / 72, 2)
                    if str(operator) == "d":
                        pen[1] = tuple(round(float(d) * 25.4 / 72, 2) for d in operands[0])
                    is_lost = str(operator) == "S" and pen == [width, dash]
                    kept.append(([], pikepdf.Operator("n")) if is_lost else (operands, operator))
                thing.write(pikepdf.unparse_content_stream(kept))
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


def measured(folder: Path, content: bytes) -> tuple[int, str]:
    path = folder / "given.pdf"
    path.write_bytes(content)
    ran = run("measure", path)
    return ran.code, ran.text


def test_measure_passes_a_pdf_with_it_and_rewritten_by_another_program(tmp_path):
    code, told = measured(tmp_path, pdf_from(JOB))
    assert (code, told.splitlines()[-1]) == (0, "True to size.")
    assert measured(tmp_path, redrawn(pdf_from(JOB), (9.0, ())))[0] == 0


@pytest.mark.parametrize(("pen", "told"), [(KERF, "far side of the saw cut"), (SAW, "sawn line")])
def test_measure_misses_it_and_takes_it_for_no_saw_line(tmp_path, pen, told):
    code, words = measured(tmp_path, redrawn(pdf_from(JOB), pen))
    assert code == 1
    assert told in words
