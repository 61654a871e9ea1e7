"""The divider walk, held against the layout that it leads to."""

import re
from collections.abc import Iterable

import pytest

from joinery_templates.drawings.figure import Pattern, Role
from joinery_templates.drawings.walk import walk_of
from joinery_templates.exact import Fraction, square_root
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.starter import quick_job
from joinery_templates.joints.catalogue import kinds
from joinery_templates.patterns import SETTING_OUT, patterns
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import end_at
from tests.drawings.setting_out import JOBS, SHEET, drawn, every_job


def walks(job) -> list[Pattern]:
    found = (one for one in patterns(job, SHEET, DejaVu()) if one.group == SETTING_OUT)
    return walks_among(found)


def walks_among(found: Iterable[Pattern]) -> list[Pattern]:
    return [one for one in found if one.title.startswith("divider walk")]


def quick(kind: str = "through-dovetail", **given: str):
    sizes = {"width": "140 mm", "thickness": "12 mm"}
    return read_job(quick_job(kinds()[kind], sizes | given))


def pricked(pattern: Pattern) -> list[tuple[Fraction, Fraction]]:
    """Where the dots of the prick points stand, which are short and upright."""
    dots = [s for s in pattern.strokes if s.role is Role.PRICK and s.start[0] == s.end[0]]
    return [(s.start[0], (s.start[1] + s.end[1]) / 2) for s in dots]


def words_of(pattern: Pattern) -> str:
    texts = sorted((t for f in pattern.layers for t in f.texts), key=lambda t: -t.at[1])
    return " ".join(text.words for text in texts)


def end_line(job, row) -> Fraction:
    """How long the end of the board is on its outside face, from edge to edge."""
    (part,) = (
        member.part
        for one in job.joints
        if row in one.joint.rows
        for member in one.joint.members
        if member.role == row.role
    )
    rise = end_at(part, Face.OUTSIDE, row.width) - end_at(part, Face.OUTSIDE, Fraction(0))
    return square_root(row.width**2 + rise**2)


def near_all(ones, others) -> bool:
    """Whether each of some places is one of others, within what a square root is rounded by."""
    return all(min(abs(one - other) for other in others) < 1e-6 for one in ones)


@every_job
def test_the_points_of_both_walks_are_the_marks_of_the_layout(job):
    """Each mark is a point or one of the two lines; only two points more tell the pin."""
    job, printed = drawn(job)
    rows = [one.joint.main_row for one in job.joints if one.joint.main_row]
    stepped = [row for row in rows if walk_of(row)]
    found = walks_among(printed)
    assert len(found) == len(stepped)
    told = {text.paragraph for one in printed for layer in one.layers for text in layer.texts}
    at_edge = set()
    for row, pattern in zip(stepped, found, strict=True):
        walk = walk_of(row)
        line = max(y for _, y in pricked(pattern))
        left = min(s.start[0] for s in pattern.strokes if s.role is Role.OUTLINE)
        points = {x - left for x, y in pricked(pattern) if y == line}
        (arrow,) = (t for one in pattern.layers for t in one.texts if t.words.startswith("◄"))
        assert (arrow.words, arrow.at[0]) == (f"◄ {row.start}", left)
        stretch = end_line(job, row) / row.width if row.stretch != 1 else 1
        marks = {
            one.position * stretch
            for one in row.marks
            if not one.what.startswith("mitred") and not one.what.endswith(" edge")
        }
        lines = walk.first, walk.last
        once = near_all([walk.first], [row.width * stretch - walk.last])
        assert ("from each edge of the board" in words_of(pattern)) == once
        assert ("then set them anew for the far edge" in words_of(pattern)) != once
        landing = {walk.first + walk.count * walk.step, walk.last - walk.count * walk.step}
        assert near_all(marks - set(lines), points | set(lines))
        assert near_all(points, marks | landing)
        if walk.past:  # and so says step 5
            unused = f"from both lines, but not from the two points {walk.count}"
            assert any(unused in words for words in told)
            assert not any(near_all({one}, marks) for one in landing)
            at_edge.add(min(*landing, row.width * stretch - max(landing)) < 1)
        else:
            assert "but not from" not in words_of(pattern)
            assert any("from each point and from both lines" in words for words in told)
            assert near_all(lines, marks)
            assert near_all(landing, marks)
    assert any("clamp a scrap against each edge" in words for words in told) == any(at_edge)


def test_by_hand_five_tails_on_a_board_of_five_and_a_half_inches():
    """Half pins 5/16, pins 1/8: the lines are 4 7/8 in apart, and 5 x 1 = 4 7/8 + 1/8."""
    job = read_job((JOBS[0].parent / "tea_box.toml").read_text())
    (pattern,) = walks(job)
    told = words_of(pattern)
    assert "5 steps must land about 1/8 in past the other line" in told
    assert "from each edge of the board to the line 5/16 in step" in told
    assert "step 1 in" in told
    assert "◄ reference edge" in told


@pytest.mark.parametrize(
    "given", [{"tails": "4"}, {"tails": "4", "start": "half-tail", "pin": "6 mm"}]
)
def test_a_shade_on_the_dividers_changes_a_pin_by_as_many_shades_as_there_are_steps(given):
    (pattern,) = walks(quick(**given))
    (one,) = quick(**given).joints
    walk = walk_of(one.joint.main_row)
    told = words_of(pattern)
    assert ("past the other line" in told) == walk.past
    wider, times = re.search(
        r"(Open|Close) the dividers a shade for wider pins, .* changes (\d+) times as much", told
    ).groups()

    def pin(step: Fraction) -> Fraction:
        lands = walk.first + walk.count * step
        return lands - walk.last if walk.past else walk.last - lands

    assert pin(walk.step) == walk.pin
    shade = Fraction(1, 10) if wider == "Open" else Fraction(-1, 10)
    assert pin(walk.step + shade) == walk.pin + int(times) * Fraction(1, 10)


def test_between_mitred_edges_the_walk_is_the_dividers_own_setting():
    """The jewel box: dividers 23 mm for one tail and one pin, whatever is mitred beside them.

    The lines are pricked in from the board's edges: 6 mm of mitre, a half pin of 5 where the
    tails end, and on this line more by the lean, 7 mm at 1:6.
    """
    job = read_job((JOBS[0].parent / "jewel_box.toml").read_text())
    (one,) = job.joints
    (told,) = (s.length for s in one.joint.lengths if s.tool == "dividers")
    assert walk_of(one.joint.main_row).step == told
    assert walk_of(one.joint.main_row).first == 6 + 5 + Fraction(7, 6)
    (pattern,) = walks(job)
    words = "from each edge of the board to the line 12.2 mm, the mitre of 6 mm included"
    assert words in words_of(pattern)
    (half,) = (size for size in one.joint.sizes if size.name.startswith("space for a half pin"))
    assert half.name == "space for a half pin at each edge, at the tails' ends, from the mitre"
    assert half.length == 5


@pytest.mark.parametrize(
    ("given", "why"),
    [
        (
            {"tails": "5", "spacing": '{ style = "graded", ratio = "5/4" }'},
            "parts are not all alike",
        ),
        ({"tails": "1"}, "there are too few tails"),
        (
            {"tails": "4", "half_pin": "5", "pin": "8"},
            "so its last step would land off the wood",
        ),
    ],
)
def test_why_there_is_no_walk_is_told_on_the_strip(given, why):
    job = quick(**given)
    assert walks(job) == []
    (strip,) = (one for one in patterns(job, SHEET, DejaVu()) if one.title.startswith("strip"))
    words = words_of(strip)
    assert f"{why}." in words
    assert "cannot" not in words
    (joint,) = (one.joint for one in job.joints)
    if "setting still steps off every mark" in words:
        (step,) = (one.length for one in joint.lengths if one.tool == "dividers")
        ones, others = ([m.position for m in joint.main_row.marks if m.starts == s] for s in (1, 0))
        on = {ones[0] + n * step for n in range(len(ones))}
        assert on | {others[-1] - n * step for n in range(len(others))} == {*ones, *others}
        assert ones[-1] + step > joint.main_row.width  # and so no pin is seen from the last
