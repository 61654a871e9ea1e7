"""A shelf's two ends on paper: which way every face lies, and the taper's true place.

Worked by hand: 100 wide, shelf 18 and side 20 thick, slope 1:6 over a depth of 6, shoulders
of 2, a housing that stops 15 from the front edge, its tail 1 later, and a taper of 1:50.

    housing   upper line at 2, lower at 16 at the back and at 16 - 85 / 50 = 14.3 at the stop
    tail      on the end grain 1 from the upper face, and 17 at the back; 15.32 at its front

You stand before the case. The shelf's left-hand end goes into the left side, and

    the left side's inside face, top up, has its front edge on the left
    its back edge, seen from behind with the top up, has the outside face on the right
    the shelf's upper face with its left-hand end up has the front edge on the left
    its lower face has it on the right, and its back edge has the upper face on the left

At the right-hand end all is seen in a mirror. s counts from the left and t down; on the side
from the line of the shelf's upper face, on the shelf from its end, on the end grain, which
has the outside face below, from the top.
"""

import math
import re
import tomllib
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.pdf.dovetail_table import Segment
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import GUIDE, KNIFE, SAW, THIN, Place, Placement
from tests.pdf.wrap_reading import unmatched

JOB = """
title = "Handed"
[paper]
size = "A3"
[boards.shelf]
width = 100
thickness = 18
[boards.upright]
width = 100
thickness = 20
[[joints]]
kind = "sliding-dovetail"
corners = [{ name = "Left", like = "A" }, { name = "Right", like = "B" }]
shelf = "shelf"
side = "upright"
slope = "1:6"
depth = 6
shoulder = 2
stop = 15
taper = 50
views = ["faces"]
"""
THROUGH = JOB.replace("stop = 15", "stop = 0")
SAMPLE = Path(__file__).parents[2] / "sample_jobs" / "bookshelf.toml"

Lines = tuple[list[Segment], list[Segment]]

# At the left end: width of the face, sawn lines, knifed lines.
LEFT: dict[tuple[str, str], tuple[float, Lines]] = {
    ("side", "inside face"): (
        100,
        # For 30 behind the stop it is chopped out, and then sawn.
        (
            [((45, 2), (100, 2)), ((45, 14.9), (100, 16))],
            [((15, 2), (45, 2)), ((15, 14.3), (45, 14.9)), ((15, 2), (15, 14.3))],
        ),
    ),
    ("side", "far edge"): (
        20,
        ([((0, 2), (6, 1)), ((0, 16), (6, 17))], [((6, 1), (6, 17))]),
    ),
    # The front corner is sawn out, before anything else.
    ("shelf", "outside face"): (
        100,
        ([((16, 0), (16, 6))], [((0, 6), (16, 6)), ((16, 6), (100, 6))]),
    ),
    ("shelf", "inside face"): (
        100,
        ([((84, 0), (84, 6))], [((100, 6), (84, 6)), ((84, 6), (0, 6))]),
    ),
    ("shelf", "end grain"): (
        100,
        # Its sides are planed.
        ([((16, 18), (16, 0))], [((16, 17), (100, 17)), ((16, 2.68), (100, 1))]),
    ),
    ("shelf", "far edge"): (
        18,
        ([], [((1, 0), (2, 6)), ((17, 0), (16, 6)), ((0, 6), (2, 6)), ((16, 6), (18, 6))]),
    ),
    ("shelf", "reference edge"): (18, ([], [((0, 6), (18, 6))])),
}
# The front edge of the left side, where a housing runs through: the outside face on the left.
LEFT_FRONT: tuple[float, Lines] = (
    20,
    ([((20, 2), (14, 1)), ((20, 14), (14, 15))], [((14, 1), (14, 15))]),
)
PLACES = {
    ("Left", "side"): "left side",
    ("Right", "side"): "right side",
    ("Left", "shelf"): "left-hand end",
    ("Right", "shelf"): "right-hand end",
}
_START = r"(shelf|side) · (\w+ (?:face|grain|edge)) ·"
_LABEL = re.compile(rf"{_START} ([\w-]+ (?:side|end))")


@dataclass(frozen=True)
class Drawn:
    """One face as printed, and how its places are read."""

    place: str
    placement: Placement

    @property
    def turned(self) -> bool:
        return next(w.turn for w in self.placement.words if re.search(_START, w.text)) == 90

    def read(self, point: Place) -> Place:
        return (point[1], -point[0]) if self.turned else point

    def ends(self, pen: tuple[float, tuple[float, ...]]) -> list[Segment]:
        return [(self.read(x.start), self.read(x.end)) for x in self.placement.drawn_with(pen)]

    def seen(self, pen: tuple[float, tuple[float, ...]]) -> list[Segment]:
        outline = [
            end
            for (a, b) in self.ends(THIN)
            if math.dist(a, b) > 2  # prick points are shorter
            for end in (a, b)
        ]
        left, top = min(x for x, _ in outline), max(y for _, y in outline)
        if self.place.endswith("side"):
            ((_, top), _), *_ = self.ends(GUIDE)
        return [tuple((x - left, top - y) for x, y in line) for line in self.ends(pen)]  # type: ignore[misc]


def faces(job: str) -> dict[tuple[str, str, str], Drawn]:
    """By corner, role and face."""
    found = {}
    for page in pages_from(job):
        for placement in page.placements[1:]:
            # A wide face says the same twice, a wrap has two faces; on an edge it takes two rows.
            labels = {*_LABEL.findall(" ".join(word.text for word in placement.words))}
            if len(labels) == 1:
                at = re.compile(r"(?:Shelf's )?(left|right)", re.IGNORECASE)
                named = next(match for w in placement.words if (match := at.match(w.text)))
                ((role, face, place),) = labels
                found[named[1].capitalize(), role, face] = Drawn(place, placement)
    return found


def mirrored(listed: list[Segment], width: float) -> list[Segment]:
    return [((width - a, b), (width - c, d)) for (a, b), (c, d) in listed]


def hold(drawn: Drawn, width: float, lines: Lines, right: bool) -> None:
    for pen, wanted in zip((SAW, KNIFE), lines, strict=True):
        assert unmatched(drawn.seen(pen), mirrored(wanted, width) if right else wanted) == []


@pytest.mark.parametrize("corner", ["Left", "Right"])
@pytest.mark.parametrize(("role", "face"), LEFT)
def test_each_face_is_as_someone_sees_it_who_looks_at_it(corner, role, face):
    drawn = faces(JOB)[corner, role, face]
    assert drawn.place == PLACES[corner, role]
    hold(drawn, *LEFT[role, face], corner == "Right")


@pytest.mark.parametrize("corner", ["Left", "Right"])
def test_no_further_face_is_drawn(corner):
    found = {(role, face) for at, role, face in faces(JOB) if at == corner}
    assert found == LEFT.keys()


@pytest.mark.parametrize("corner", ["Left", "Right"])
def test_a_through_housing_shows_its_section_on_the_front_edge(corner):
    hold(faces(THROUGH)[corner, "side", "reference edge"], *LEFT_FRONT, corner == "Right")


def test_a_face_held_to_the_other_hand_does_not_match():
    drawn = faces(JOB)["Right", "side", "inside face"]
    with pytest.raises(AssertionError):
        hold(drawn, *LEFT["side", "inside face"], right=False)


@pytest.mark.parametrize("corner", ["Left", "Right"])
def test_words_say_which_way_is_up_and_where_the_template_is_laid(corner):
    drawn = faces(JOB)[corner, "side", "inside face"].placement
    words = " ".join(w.text for w in drawn.words)
    assert "▲ top end" in words
    assert "dashed line: the shelf's upper face" in words
    edge = "reference edge = front edge"
    assert (f"◄ {edge}" if corner == "Left" else f"{edge} ►") in words


@pytest.mark.parametrize("corner", ["Left", "Right"])
def test_the_name_above_the_dashed_line_stands_just_above_it(corner):
    drawn = faces(JOB)[corner, "side", "inside face"]
    (line,) = drawn.ends(GUIDE)
    (name,) = (w for w in drawn.placement.words if w.text == "the shelf's upper face")
    _, foot = drawn.read(name.at)
    assert 0.5 < foot - line[0][1] < 2


# The sample


def test_the_bookshelfs_housings_and_tails_are_where_its_numbers_put_them():
    """250 wide, slope 1:6, depth 6, shoulder 2, stop 15 and 16, taper 1:100.

    To the stop it comes in by 2.35, to the tail's front by 2.34.
    """
    text = SAMPLE.read_text("utf-8")
    job = tomllib.loads(text)["joints"][0]
    assert (job["slope"], job["depth"], job["shoulder"], job["stop"]) == ("1:6", 6, 2, 15)
    assert (job["taper"], job["stop_clearance"]) == ("1:100", 1)
    # On one sheet, and face by face, so that every line is whole.
    found = faces(text.replace('"A4"', '"A3"') + 'views = ["faces"]\n')
    assert {at for at, _, _ in found} == {"Left", "Right"}
    for at in ("Left", "Right"):
        sawn = [((45, 2), (250, 2)), ((45, 13.95), (250, 16))]
        chopped = [((15, 2), (45, 2)), ((15, 13.65), (45, 13.95)), ((15, 2), (15, 13.65))]
        hold(found[at, "side", "inside face"], 250, (sawn, chopped), at == "Right")
        corner, planed = [((16, 18), (16, 0))], [((16, 17), (250, 17)), ((16, 3.34), (250, 1))]
        hold(found[at, "shelf", "end grain"], 250, (corner, planed), at == "Right")
