"""Every figure on a setting-out strip and on a card of tool settings is as long as it is drawn."""

import math
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from msgspec.structs import replace

from joinery_templates.drawings import own_rows
from joinery_templates.drawings.figure import Pattern, Role, Stroke, Text
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.settings import tool_settings
from joinery_templates.drawings.strip import bare_figure
from joinery_templates.exact import Fraction
from joinery_templates.jobs.order_of_work import orders_of_work
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import SettingOut, SlopeSetting
from joinery_templates.joints.catalogue import kinds
from joinery_templates.lengths import INCH
from joinery_templates.patterns import patterns
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.wood.board import EDGES, Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import is_waste
from tests.drawings.setting_out import JOBS, SHEET, drawn, every_job
from tests.joints.strategies import example_request
from tests.pdf.page_reading import box_of

FIGURE = r"(?:(\d+) )?(?:(\d+)/(\d+)|(\d+(?:\.\d+)?))"
SIDE = r"(?: in)?(?: (?:bare|full) \((\d+\.\d+)\))?"


def length_of(words: str, units: str) -> float:
    """A figure such as ``13.9`` or ``1 17/64 in full (1.269)`` in mm."""
    whole, over, under, decimal, inches = re.fullmatch(FIGURE + SIDE, words).groups()
    number = float(decimal or 0) + int(whole or 0) + (int(over) / int(under) if over else 0)
    return float(inches or number) * (25.4 if units == "in" else 1)


def texts(pattern: Pattern) -> list[Text]:
    return [text for layer in pattern.layers for text in layer.texts]


def strokes(pattern: Pattern, role: Role) -> list[Stroke]:
    return [stroke for stroke in pattern.strokes if stroke.role is role]


@every_job
def test_a_strip_names_board_corners_and_joint_and_is_turned_only_for_an_end_of_that_joint(job):
    """In the list of contents, above the strip, and on the strip when that is cut off."""
    read, drawn_ = drawn(job)
    wanted = [(one, row) for one in read.joints for row in own_rows.strips(one.joint)]
    strips = [p for p in drawn_ if p.title.startswith("strip for ")]
    assert len(strips) == len(wanted)
    for (one, row), strip in zip(wanted, strips, strict=True):
        (member,) = (m for m in one.joint.members if m.role == row.role)
        board, *_, name = strip.title.removeprefix("strip for ").split(" · ")
        assert board.startswith(member.part.board.called)
        assert name == one.name + (f", {row.title}" if not row.main else "")
        assert strip.short.startswith("strip for ")
        assert strip.short.endswith(f" · {one.name}")  # where a page has no room for all
        right, top = (max(s.start[axis] for s in strokes(strip, Role.OUTLINE)) for axis in (0, 1))
        for trimmed in (True, False):
            kept = [t for t in texts(strip) if (t.at[0] < right and t.at[1] < top) == trimmed]
            said = " ".join(t.words for t in kept)
            assert row.main or row.title in said
            heading = strip.title.removeprefix("strip for ")
            assert heading.removesuffix(f", {row.title}") in said
        ends = {}
        for corner in one.corners:
            hand = member.hand.other if corner.mirrored else member.hand
            ends.setdefault(hand, []).append(corner.name)
            assert corner.letter or not corner.like or corner.name in strip.title
            assert corner.letter in strip.title
        several = len(ends) == 2 or " and " in board
        serves = re.search("Printed side up, one long edge serves (.*?) and the other (.*?):", said)
        turned = serves is not None
        if turned:
            assert f"◄ {row.start}" in " ".join(t.words for t in texts(strip))
            assert f"the arrow always points to the {row.start}." in said
        across = row.along_end or row.title == "the squared line"
        assert turned == (several and (across or job.stem in ("jewel_box", "face_frame")))
        # A squared line is met by no end.
        two = ("a left-hand end", "a right-hand end")
        if row.title == "the squared line":
            two = ("the left side", "the right side")
        assert not turned or serves.groups() == two
        assert not re.search("along along|the this", said)
        for hand, corners in ends.items():
            if not any(corner.like for corner in one.corners):
                assert f": {', '.join(corners)}" not in said, "the heading says it"
            elif member.part.place(hand).end:
                letters = ", ".join(name.removeprefix("Corner ") for name in corners)
                listed = len(ends) > 1 or " and " in board  # else the heading says it
                assert re.search(f"{hand}{':' if listed else ' ·'} (Corners? )?{letters}", said)
                assert listed or f"{hand}: " not in said


def test_a_strip_is_for_both_boards_only_where_their_marks_mean_the_same():
    """At a butt both ends get the same sockets; pins stand where the tail board has spaces."""

    def title(name: str) -> str:
        return strip_titles(name)[0]

    assert title("bench_extension") == (
        "strip for BENCH TOP, right-hand end and EXTENSION, left-hand end · Keyed butt joint"
    )
    job = next(path for path in JOBS if path.stem == "blanket_chest")
    tails, *others = drawn(job)[0].joints[0].joint.rows
    places = [[mark.position for mark in row.marks] for row in others if row.role == "pin board"]
    assert [mark.position for mark in tails.marks] in places
    assert title("blanket_chest") == "strip for LONG SIDE · Corners A, B, C, D · Through dovetail"


def test_two_joints_on_one_board_have_a_strip_each():
    assert strip_titles("writing_box") == [
        "strip for SIDE · Front left, Front right · Front corners",
        "strip for BACK · Back left, Back right · Back corners",
    ]


@pytest.mark.parametrize(("corners", "turned"), [('["A", "C"]', False), ('["A", "B"]', True)])
def test_a_strip_for_ends_of_one_hand_is_not_turned(corners: str, turned: bool):
    job = next(path for path in JOBS if path.stem == "tea_box").read_text("utf-8")
    read = read_job(job.replace('["A", "B", "C", "D"]', corners))
    strip = next(p for p in patterns(read, SHEET, DejaVu()) if p.title.startswith("strip"))
    assert ("one long edge serves" in " ".join(t.words for t in texts(strip))) == turned


def strip_titles(name: str) -> list[str]:
    (job,) = (path for path in JOBS if path.stem == name)
    return [p.title for p in drawn(job)[1] if p.title.startswith("strip")]


def strips_of(job: Path) -> Iterator[tuple[SettingOut, Part, Pattern]]:
    """Each strip of a job with its row, and the board that the row is of."""
    read, drawn_ = drawn(job)
    own = [(one.joint, row) for one in read.joints for row in own_rows.strips(one.joint)]
    shown = [one for one in drawn_ if one.title.startswith("strip for ")]
    for (joint, row), strip in zip(own, shown, strict=True):
        yield row, next(one.part for one in joint.members if one.role == row.role), strip


@every_job
def test_a_cross_stands_where_all_goes_from_the_end_and_nowhere_else(job):
    """Between two marks, all that is on one broad face goes halfway to the baseline, or nothing."""
    for row, part, strip in strips_of(job):
        if not row.along_end or row.waste or part.slant:
            continue
        left = min(stroke.start[0] for stroke in strokes(strip, Role.OUTLINE))
        crossed = {(one.start[0] + one.end[0]) / 2 - left for one in strokes(strip, Role.CROSS)}
        stops = [0, *(one.position for one in row.marks), row.along_line.width]
        middles = {(low + high) / 2 for low, high in pairwise(stops)}
        faces = [
            {x for x in middles if is_waste(part, x, part.reach / 2, z)}
            for z in (Fraction(0), part.board.thickness)
        ]
        assert crossed == next(filter(None, faces)), strip.title


@every_job
def test_a_strip_says_beside_which_edge_wood_is_mitred_later(job):
    """That goes on the inside face, by the end, and stays at the baseline of the outside one."""
    for row, part, strip in strips_of(job):
        if not row.along_end or part.slant or len(row.marks) < 2:
            continue
        wide = row.along_line.width
        low, high = float(row.marks[0].position), float(row.marks[-1].position)
        wanted = []
        for edge, at, x in (
            ("reference edge", low, low / 2),
            ("far edge", high, (high + wide) / 2),
        ):
            by_end, thick = part.reach / 50, part.board.thickness
            inside = is_waste(part, x, by_end, thick)
            if inside and not is_waste(part, x, part.reach - by_end, Fraction(0)):
                wanted.append((edge, pytest.approx(at, abs=0.3)))
        said = " ".join(text.words for text in texts(strip))
        found = re.findall(
            r"(?:Past|Up to) (\S+(?: \d+/\d+)?) the mitred strip of the (\w+ edge)", said
        )
        told = [(edge, length_of(at, drawn(job)[0].units.value)) for at, edge in found]
        assert told == wanted, strip.title


@every_job
def test_the_order_of_work_says_when_the_strip_is_laid_on_and_only_where_there_is_one(job):
    read = drawn(job)[0]
    for one, told in zip(read.joints, orders_of_work(read), strict=True):
        row = one.joint.main_row
        steps = [s for s in told if "setting-out strip" in s.words]
        said_before = any(s.words.startswith("As in step") for s in told)
        assert len(steps) == bool(own_rows.strips(one.joint)) or (said_before and not steps)
        for step in steps if row else ():
            assert row.role.split()[0] in f"{step.heading} {step.words}" or not one.joint.at_corner


@every_job
def test_each_mark_of_a_strip_is_as_far_from_its_start_as_its_figure_says(job):
    read, patterns = drawn(job)
    for strip in patterns:
        if not strip.title.startswith("strip"):
            continue
        (arrow,) = (t for t in texts(strip) if t.words.startswith("◄"))
        start = min(s.start[0] for s in strokes(strip, Role.OUTLINE))
        assert start <= arrow.at[0] <= start + 2, "the figures count from the end that it points to"
        figures = sorted((t for t in texts(strip) if t.turn == 90), key=lambda t: t.at[0])
        marks = sorted({s.start[0] for s in strokes(strip, Role.MARK)})
        assert len(figures) == len(marks) > 0
        end, top = (max(s.start[axis] for s in strokes(strip, Role.OUTLINE)) for axis in (0, 1))
        named = [t.at[1] for t in texts(strip) if t.turn == 0 and t.at[1] < top and t.at[0] < end]
        highest = max(text_corners(text, DejaVu())[1][1] for text in figures)
        assert min(named) - highest >= BODY, "figures read as a part of the words above them"
        assert min(marks[0] - start, end - marks[-1]) >= 0.3, "no one sets out less"
        for text, mark in zip(figures, marks, strict=True):
            assert abs(text.at[0] - text.cap / 2 - mark) < 0.01 or mark - start < 2  # at its end
            assert float(mark - start) == pytest.approx(
                length_of(text.words, read.units), abs=0.056
            )


LEANING = re.compile("[◄►]")


def test_words_for_where_a_blade_leans_stand_on_that_side_of_its_line():
    found = []
    for card in drawn(JOBS[0].with_name("canted_tray.toml"))[1]:
        for text in (t for t in texts(card) if LEANING.search(t.words) and "Tool" in card.title):
            side = 1 if text.words.endswith("►") else -1
            lines = [s for s in strokes(card, Role.SETTING) if s.start[1] < text.at[1] < s.end[1]]
            near = min(lines, key=lambda s: abs(s.start[0] - text.at[0]))
            assert 0 < side * (text.at[0] - near.start[0]) < 5
            assert side * (near.end[0] - near.start[0]) > 0
            xs = [float(x) for x, _ in text_corners(text, DejaVu())]
            assert 4 <= min(xs) < max(xs) <= card.width - 4
            found.append(text.words)
    assert len(found) == 12


def test_a_bevel_that_leans_both_ways_is_told_to_lean_neither_way():
    """Set once for two sides, its blade to the left for the first, to the right for the next."""
    kind = kinds()["through-dovetail"]
    uses = [SlopeSetting(f"side {to}", Fraction(1, 6), leans_to=to) for to in ("left", "right")]
    for slopes, told in ((uses, ""), (uses[:1] * 2, "left")):
        joint = replace(kind.build(example_request(kind)), slopes=tuple(slopes))
        *_, bevel = tool_settings(joint, str)
        assert (bevel.tool, bevel.leans_to) == ("bevel", told)


def parts(card: Pattern) -> list[tuple[str, list[Stroke]]]:
    """The words of each part of a card, with what is drawn below them, column by column."""
    lines = [s for s in card.strokes if s.role is Role.SETTING and s.start[1] != s.end[1]]
    lefts = sorted({t.at[0] for t in texts(card) if not LEANING.search(t.words)})
    found = []
    for left, right in pairwise((*lefts, card.width)):
        above = card.height
        here = [s for s in lines if left <= min(s.start[0], s.end[0]) < right]
        for foot in sorted({min(s.start[1], s.end[1]) for s in here}, reverse=True):
            said = [t for t in texts(card) if t.at[0] == left and foot <= t.at[1] < above]
            said.sort(key=lambda t: -t.at[1])
            words = " ".join(t.words for t in said)
            found.append((words, [s for s in here if min(s.start[1], s.end[1]) == foot]))
            above = foot
    return found


@every_job
def test_each_setting_on_a_card_is_drawn_as_long_or_as_steep_as_it_says(job):
    read, patterns = drawn(job)
    for card in patterns:
        if card.title.startswith(("strip", "divider walk")):
            continue
        for words, lines in parts(card):
            one, other = lines
            if one.start[0] == one.end[0]:
                figure = re.search(rf"[a-z] ({FIGURE}{SIDE}(?: mm)?)(?: |$)", words)
                assert figure, words
                apart = float(abs(one.start[0] - other.start[0]))
                assert apart == pytest.approx(
                    length_of(figure[1].replace(" mm", ""), read.units), abs=0.056
                )
                continue
            angle = re.search(r"(\d+(?:\.\d+)?)°", words)[1]
            ratio = re.search(r"(about )?1:(\d+(?:\.\d+)?)", words)
            assert bool(ratio) == (float(angle) <= 26.57), "no one sets a mitre as a ratio"
            for stroke in lines:
                across, along = (
                    float(b - a) for a, b in zip(stroke.start, stroke.end, strict=True)
                )
                assert math.degrees(math.atan(abs(across / along))) == pytest.approx(
                    float(angle), abs=0.0051
                )
                if ratio:
                    one_in = abs(along / across)
                    near = 0.0051 if not ratio[1] else 0.051 if one_in < 20 else 0.51
                    assert one_in == pytest.approx(float(ratio[2]), abs=near)
            assert (one.end[0] - one.start[0]) * (other.end[0] - other.start[0]) < 0, (
                "to both sides"
            )


@every_job
def test_every_setting_of_the_job_stands_on_a_card(job):
    """So that none is left untried above; what is set alike stands there once."""
    joints = [one.joint for one in drawn(job)[0].joints]
    wanted = sum(
        len({(one.tool, one.length) for one in joint.lengths})
        + len({one.slope for one in joint.slopes})
        for joint in joints
    )
    _, patterns = drawn(job)
    assert (
        sum(len(parts(p)) for p in patterns if not p.title.startswith(("strip", "divider walk")))
        == wanted
    )


@pytest.mark.parametrize("name", ["jewel_box", "stool"])
def test_a_strip_for_pins_or_mortises_has_its_crosses_in_the_sockets(name):
    """Of the jewel box pins are set out first, and what lies between them goes."""
    (job,) = (path for path in JOBS if path.stem == name)
    strip = next(p for p in drawn(job)[1] if p.title.startswith("strip"))
    start = min(s.start[0] for s in strokes(strip, Role.OUTLINE))
    middles = {(s.start[0] + s.end[0]) / 2 - start for s in strokes(strip, Role.CROSS)}
    row = drawn(job)[0].joints[0].joint.main_row
    sockets = [mark.position for mark in row.marks if "space for" in mark.what]
    assert sorted(middles) == [
        (a + b) / 2 for a, b in zip(sockets[::2], sockets[1::2], strict=True)
    ]


@every_job
def test_nothing_on_a_card_comes_near_the_line_that_it_is_cut_out_by(job):
    """1.5 mm are left for the scissors (our judgement); the frame is the card's only dashed box."""
    for card in (p for p in drawn(job)[1] if strokes(p, Role.TRIM)):
        left, low, right, top = box_of(
            end for s in strokes(card, Role.TRIM) for end in (s.start, s.end)
        )
        held = [end for s in card.strokes if s.role is not Role.TRIM for end in (s.start, s.end)]
        held += [corner for text in texts(card) for corner in text_corners(text, DejaVu())]
        inner = box_of(held)
        assert inner[0] - left >= 1.5
        assert inner[1] - low >= 1.5
        assert right - inner[2] >= 1.5
        assert top - inner[3] >= 1.5


OWN = [
    ("bridle", {}, [("the reference edge", "end", [65]), ("the reference edge", "end", [55])]),
    (
        "halving",  # 50 on 60 at 60 degrees: 60 / sin, then 50 cot less on the far edge
        {"form": "tee", "angle": "60 deg"},
        [
            ("the reference edge", "end", [1.5 + 98.1495]),
            ("the far edge", "end", [1.5 + 69.2820]),
            ("the reference edge", "squared line", [57.7350]),
            ("the far edge", "squared line", [57.7350 - 34.6410]),  # 60 cot 60 degrees less
            ("the far edge", "squared line", [34.6410]),  # on the line's other side
        ],
    ),
    (
        "housing",
        {"stop": "15 mm"},
        [("the far edge", "squared line", [18]), ("the squared line", "reference edge", [15])],
    ),
    ("scarf", {}, [("the reference edge", "end", [240])]),
    ("scarf", {"form": "hooked"}, [("the reference edge", "end", [120, 240])]),
    ("scarf", {"form": "keyed", "key": "10 mm"}, [("the reference edge", "end", [115, 125, 240])]),
    (
        "sliding-dovetail",  # its mouth alone: the sloping walls end deeper in the wood
        {},
        [("the far edge", "squared line", [2, 16]), ("the squared line", "reference edge", [15])],
    ),
    ("splined-mitre", {}, [("the reference edge", "end", [18])]),  # nothing of its groove
    ("tongue-and-groove", {}, [(own_rows.ACROSS_EDGE, "outside face", [6, 12, 18])]),
]


@pytest.mark.parametrize(("kind", "raw", "wanted"), OWN)
def test_a_joint_without_a_row_of_its_own_has_strips_of_its_boards_lines(kind, raw, wanted):
    """Worked by hand: shoulder lines, a notch's or a housing's walls, its stop, ends and hook."""
    joint = kinds()[kind].build(example_request(kinds()[kind], **raw))
    assert [(row.title, row.start) for row in own_rows.strips(joint)] == [one[:2] for one in wanted]
    for row, (*_, marks) in zip(own_rows.strips(joint), wanted, strict=True):
        alike = kind in (
            "scarf",
            "splined-mitre",
            "tongue-and-groove",
        )  # whose boards have the same marks
        assert len(own_rows.set_out_by(joint, row)) == 1 + alike
        assert [float(mark.position) for mark in row.marks] == pytest.approx(marks, abs=1e-4)


def test_what_lies_before_the_squared_line_counts_from_it_and_a_cross_stands_in_the_socket():
    """Of a socket 1:6, 60 deep from a neck of 29 5/6 to 49 5/6, the line lies beyond."""
    kind = kinds()["dovetail-halving"]
    _, near, far = own_rows.strips(kind.build(example_request(kind)))
    low, high = (mark.position for mark in near.marks)
    assert (near.start, near.waste) == ("squared line", ((low, high),))
    assert [mark.position for mark in far.marks] == [low - 10, high + 10]


def is_gone(part: Part, *point: Fraction) -> bool:
    """Whether waste is at a point, by the half-spaces alone; grooves left out."""
    return any(
        all(one.contains(point) for one in cut.half_spaces)
        for cut in part.cuts
        if not cut.is_groove
    )


MITRED = """
title = "Mitred halving"
[boards.rail]
width = 50
thickness = 20
[boards.stile]
width = 50
thickness = 20
[[joints]]
kind = "halving"
rail = "rail"
stile = "stile"
mitred = true
"""


@every_job
def test_what_a_strip_says_of_its_way_its_waste_and_its_arrises_is_so_of_the_wood(job):
    """On both sides of each mark, and between marks, hard by both arrises of the edge."""
    read, drawn_ = drawn(job)
    rows = [(one, row) for one in read.joints for row in own_rows.strips(one.joint)]
    strips = [p for p in drawn_ if p.title.startswith("strip for ")]
    hair, step = Fraction(1, 10**9), Fraction(1, 10**6)
    for (one, row), strip in zip(rows, strips, strict=True):
        words = " ".join(text.words for text in texts(strip))
        if row.title == "the squared line":  # from where a housing stops
            (part,) = (member.part for member in own_rows.set_out_by(one.joint, row))
            for low, high in pairwise((0, *(mark.position for mark in row.marks), row.width)):
                x, y, z = (low + high) / 2, part.reach / 2, part.board.thickness - hair
                assert is_gone(part, x, y, z) == ((low, high) in row.waste)
            assert "crosses stand in the waste. " in words
        if row.face not in EDGES:
            continue
        of_lines = {
            at: how_far
            for places, how_far in re.findall(r"The lines? at (.+?) comes? ([^.]*)\.", words)
            for at in places.split(" and ")
        }
        words = re.sub(r"without a mark.*?: measure from there\.", "", words)
        assert ("towards the" in words) == (row.start == "squared line" and row.back)
        assert ("away from the" in words) == (row.start == "squared line" and not row.back)
        for member in own_rows.set_out_by(one.joint, row):
            part, called = member.part, member.part.board.called
            x = hair if row.face is Face.REFERENCE_EDGE else part.board.width - hair
            arrises = {"outside face": hair, "inside face": part.board.thickness - hair}
            way = -1 if row.back else 1
            for mark in row.marks:
                y = way * mark.position
                found = {
                    face
                    for face, z in arrises.items()
                    if is_gone(part, x, y - step, z) != is_gone(part, x, y + step, z)
                }
                figure = bare_figure(mark.position, read.units)
                at = "the squared line" if mark.position < Fraction(3, 10) else figure
                said = of_lines.get(at, "")
                said = said if f"on {called} " not in said else said.split(f"on {called} ")[1]
                told = re.match(r"to (?:neither arris|the arris of the (.*?) alone)", said)
                assert found == ({told[1]} - {None} if told else {*arrises})
            for low, high in row.waste:
                y = way * (low + high) / 2
                found = {face for face, z in arrises.items() if is_gone(part, x, y, z)}
                _, _, said = words.partition("crosses stand in the waste")
                said = said.split(f"of {called} ")[-1]
                told = re.match(r" ?on the (.*?) alone", said)
                assert found == ({told[1]} if told else {*arrises})


def test_a_strip_for_two_boards_tells_them_apart_where_one_alone_keeps_wood_behind_a_line(tmp_path):
    """At a mitred halving the rail ends at the shoulder; the stile's lap runs on behind it."""
    job = tmp_path / "mitred.toml"
    job.write_text(MITRED, "utf-8")
    test_what_a_strip_says_of_its_way_its_waste_and_its_arrises_is_so_of_the_wood(job)
    reference, far = (p for p in drawn(job)[1] if p.title.startswith("strip for "))
    # A cross is two strokes, and stands at both edges of the strip.
    assert [len(strokes(strip, Role.CROSS)) for strip in (reference, far)] == [4, 4]
    words = " ".join(text.words for text in texts(reference))
    assert "waste of RAIL right through, of STILE on the outside face alone." in words


LEANING_BAR = """
title = "Sign"
units = "mm"
boards.bar = { width = 40, thickness = 24, length = 400 }
boards.upright = { width = 45, thickness = 24, length = 700 }
[[joints]]
kind = "bridle"
name = "Bar"
corners = [{ name = "Left", like = "A" }]
rail = "bar"
stile = "upright"
form = "tee"
at = 350
"""


@pytest.mark.parametrize(("angle", "told"), [(80, "far"), (100, ""), (90, "")])
def test_a_strip_tells_of_a_line_too_near_to_its_start_for_one_on_the_other_side(angle, told):
    """On the far edge the notch starts 45 tan 10 = 7.935 before the squared line, or after it."""
    read = read_job(f"{LEANING_BAR}angle = {angle}\n")
    strips = [p for p in patterns(read, SHEET, DejaVu()) if p.title.startswith("strip for UPRIGHT")]
    words = [" ".join(text.words for text in texts(strip)) for strip in strips]
    line = r"A line without a mark .*?: measure from there\."
    said = [(one, re.findall(line, one)) for one in words]
    wanted = "A line without a mark comes 7.9 mm from the squared line, towards the top end: "
    assert [its for _, its in said if its] == ([[f"{wanted}measure from there."]] if told else [])
    assert all(f"marks along the {told} edge" in one for one, its in said if its)


@pytest.mark.parametrize("form", ["solid", "loose"])
def test_a_strip_across_an_edge_tells_of_each_board_which_bands_of_that_edge_are_waste(form):
    """Tongues of a third of 5/8 in, by the chisel of 3/16; both boards are gauged alike."""
    text = JOBS[0].with_name("wall_cupboard_back.toml").read_text("utf-8")
    read = read_job(f'{text}form = "{form}"\n')
    (strip,) = (p for p in patterns(read, SHEET, DejaVu()) if p.title.startswith("strip"))
    words = " ".join(text.words for text in texts(strip))
    start = min(s.start[0] for s in strokes(strip, Role.OUTLINE))
    marks = sorted({s.start[0] - start for s in strokes(strip, Role.MARK)})
    assert [float(mark / INCH) for mark in marks] == [7 / 32, 13 / 32, 5 / 8]
    assert "The inside face comes at 5/8." in words
    crossed = {(s.start[0] + s.end[0]) / 2 - start for s in strokes(strip, Role.CROSS)}
    for member in read.joints[0].joint.members:
        part, called = member.part, member.part.board.called
        (edge,) = re.findall(rf"{called}, left-hand end, [a-z ]+ the (\w+) edge", words)
        x = Fraction(1, 10**9) if edge == "reference" else part.board.width - Fraction(1, 10**9)
        said = re.search(rf"Waste: .*?{called} ([^;.]*)", words)
        bands = said[1].split(" and ") if said else []
        told = [[length_of(one, "in") for one in band.split(" to ")] for band in bands]
        for low, high in pairwise((Fraction(0), *marks)):
            in_waste = (low + high) / 2 in crossed or pytest.approx([low, high]) in told
            assert is_gone(part, x, Fraction(1), (low + high) / 2) == in_waste


def test_where_pins_are_stepped_off_the_walk_slopes_them_on_the_end():
    """Of the jewel box; a pin board's slopes show on its end, a tail board's on its faces."""
    (job,) = (path for path in JOBS if path.stem == "jewel_box")
    walk = next(p for p in drawn(job)[1] if p.title.startswith("divider walk"))
    words = " ".join(text.words for layer in walk.layers for text in layer.texts)
    assert "each pin grows narrower towards the outside" in words
