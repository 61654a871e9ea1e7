"""Every figure and every side that a joint tells in words is that of the wood, for every kind."""

import re

import pytest
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, SettingOut, Task
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.words import PEEL
from tests.joints import told_crossing, told_edges, told_scarfs, told_splines  # noqa: F401
from tests.joints import told_figures as told
from tests.joints.probes import HAIR, ZERO, Span, board_of, wood_of
from tests.joints.told_sides import OTHER, SIDE
from tests.joints.told_steps import RULES, faults, past_the_other, rail_edge_on_stile
from tests.joints.varied import varied

NEAR = 1e-4
ONE = Fraction(1)
STOCK = r"stock on an? |stock on the |from a line along the grain"
"""A bevel is of no use where nobody says what its stock lies on."""
SPACE = "space|socket|housing|mortise|slot|notch"
every_kind = pytest.mark.parametrize("kind", kinds())


def untrue(joint: Joint) -> list[str]:
    """Settings, sizes and bevels that are not what is measured, or that no rule measures."""
    rows = [(f"{one.tool}, {one.use}", one.length) for one in joint.lengths]
    rows += [(one.name, one.length) for one in joint.sizes]
    rows += [(one.use, one.slope) for one in joint.slopes]
    found = [one.use for one in joint.slopes if not re.search(STOCK, one.use)]
    for words, value in rows:
        values = told.measured(joint, words)
        if values is None or not any(abs(value - one) < told.SAME for one in values):
            found.append(f"{words}: {float(value)}, not {values and list(map(float, values))}")
    return found


@every_kind
def test_settings_sizes_and_bevels_are_those_of_the_wood(kind):
    assert [fault for joint in varied(kind) for fault in untrue(joint)] == []


@every_kind
def test_figures_and_sides_in_the_order_of_work_are_those_of_the_wood(kind):
    found = [
        fault
        for joint in varied(kind)
        for step in joint.steps
        for fault in faults(joint, f"{step.heading}: {step.words}")
    ]
    assert found == []


@every_kind
def test_a_side_turned_round_anywhere_in_the_order_of_work_is_seen(kind):
    """So that no sentence names a face or an edge that nothing above looks at."""
    unseen = []
    for joint in varied(kind):
        for words in {f"{step.heading}: {step.words}" for step in joint.steps}:
            for side in SIDE.finditer(words):
                turned = f"{words[: side.start()]}{OTHER[side[0]]}{words[side.end() :]}"
                if not faults(joint, turned):
                    unseen.append(
                        f"{words[: side.start()][-60:]}<{side[0]}>{words[side.end() :][:40]}"
                    )
    assert unseen == []


NOT_VARIED = {
    *("_between_shoulders", "_past_one_shoulder", "_with_another_end_let_in", "_rail_long"),
    *("_longer_at_one_end", "_beside_bare_tenon_at_one_edge", "_key_past_inside", "_for_each"),
    *("_one_cut", "_rebates_seen", "_upright"),
}
"""Rules for rails of known or unknown length, for a known kerf, or for unlike boards: met by joints
of other tests, if at all."""


def test_no_rule_is_left_behind_by_the_words_that_it_was_written_for():
    """A rule that meets no sentence any more proves nothing, and nobody would see it."""
    told = [
        f"{step.heading}: {step.words}"
        for kind in kinds()
        for joint in varied(kind)
        for step in joint.steps
    ]
    met = {rule for pattern, rule in RULES if any(map(pattern.search, told))}
    assert {rule.__name__ for _, rule in RULES if rule not in met} == NOT_VARIED


INTERLOCKED = [name for name in kinds() if name.endswith("dovetail") or "box" in name]
CUT = {Task.SAW_FIRST, Task.CLEAR_FIRST, Task.CUT_SECOND}


@pytest.mark.parametrize("kind", [one for one in INTERLOCKED if one != "sliding-dovetail"])
def test_whatever_is_cut_at_a_corner_is_pared_last_on_each_board(kind):
    """The saw and the chisel leave wood at the line, beside a single tail too."""
    for joint in varied(kind):
        cut = [step for step in joint.steps if step.task in CUT]
        both = [
            [step.words for step in cut if (step.task is Task.CUT_SECOND) == is_second]
            for is_second in (False, True)
        ]
        for words in filter(re.compile(r"\b[Ss]aw").search, map(" ".join, both)):
            assert re.search(r"[Pp]are|In the same way", words), words


ON_PAPER = re.compile(r"printed|\bon the ring\b|\brings\b|(?<!prick of the )template")
"""What a step works to that is on paper; a prick stays in the wood."""


@every_kind
def test_nothing_is_worked_to_paper_that_has_been_peeled_off(kind):
    for joint in varied(kind):
        words = "\n".join(step.words for step in joint.steps)
        assert not ON_PAPER.search(words.partition(PEEL)[2])


NUMBER_MADE = re.compile(r"(?:[Mm]ake|[Cc]ut|[Ss]plit) (?:one|two|\d+)\b")


@every_kind
def test_how_many_loose_pieces_are_made_is_told_for_each_place(kind):
    """Of several corners a joint knows nothing: on the first page all are counted."""
    for step in (step for joint in varied(kind) for step in joint.steps):
        if step.task is Task.MAKE_KEYS and NUMBER_MADE.search(step.words):
            assert re.search(r"[Ff]or each", step.words)


def closes_in_a_mitre(joint: Joint) -> bool:
    """Whether two outside faces run up to each other's plane at an edge, and no further."""
    if joint.placement.rows[2][2] == 1:  # they lie in one plane
        return False
    ends = [
        [wood.depth(x, ZERO) - past_the_other(joint, number) for x in (HAIR, wood.width - HAIR)]
        for number, wood in enumerate(map(wood_of, joint.members))
    ]
    return any(abs(one) < NEAR and abs(other) < NEAR for one, other in zip(*ends, strict=True))


@every_kind
def test_where_two_outside_faces_meet_in_a_mitre_a_joint_says_so(kind):
    assert {one.is_mitred for one in varied(kind)} == {closes_in_a_mitre(o) for o in varied(kind)}


# Marks


def down_the_side(joint: Joint, row: SettingOut) -> list[Span]:
    side = board_of(joint, row.role)
    where = row.title.removeprefix("inside face, down the side").removeprefix(", ")
    start = (told.shelf_places(joint)[where], ZERO, side.thickness)
    return side.gone(start, (ZERO, ONE, ZERO), row.width)


def along_the_stile(joint: Joint, row: SettingOut) -> list[Span]:
    stile = board_of(joint, row.role)
    end = joint.placement.reversed().point((ZERO, ZERO, ZERO))[0]
    across = {"reference edge": ZERO, "far edge": stile.width, "at the socket's end": end}
    first = row.start.removeprefix("rail's ").removesuffix(" edge")
    begin, finish = (
        rail_edge_on_stile(joint, edge)
        for edge in (first, "far" if first == "reference" else "reference")
    )
    start = (across[row.title.removesuffix(", on its arris")], begin, told.socket_z(joint))
    return stile.gone(start, (ZERO, (finish - begin) / row.width, ZERO), row.width)


def across_the_rail(joint: Joint, row: SettingOut) -> list[Span]:
    rail = board_of(joint, row.role)
    _, z, reach = told.halving(joint)
    if row.title == "at the shoulder":
        return rail.spaces(reach, z)
    assert row.title.endswith("face, along the end")
    return rail.spaces(ZERO, ZERO if row.title.startswith("outside") else rail.thickness)


def across_the_tenon(joint: Joint, row: SettingOut) -> list[Span]:
    rail, _, thick = told.tenon(joint)
    return told.left_of(told.tenons_across(joint, sum(thick) / 2), rail.width)


def through_the_tenon(joint: Joint, row: SettingOut) -> list[Span]:
    rail, wide, _ = told.tenon(joint)
    assert row.start == "outside face"
    return rail.through(sum(wide) / 2, ONE)


def along_the_edge(joint: Joint, row: SettingOut) -> list[Span]:
    """From the edge of the rail that the row starts from, towards its other one."""
    edges = ("reference", "far") if "reference" in row.start else ("far", "reference")
    begin, finish = (rail_edge_on_stile(joint, edge) for edge in edges)
    _, z = told.in_mortise(joint)
    # A haunch opens the edge as well, but not below its own end.
    below = Fraction(told.haunch(joint)[0] + NEAR) if "mortise" in row.title else ZERO
    across, along, _ = (one[0] for one in joint.placement.rows)
    way = (ZERO, (finish - begin) / row.width, ZERO)
    # A rail that leans goes on slanting.
    start = (below, begin - below * across / along, z)
    return board_of(joint, row.role).gone(start, way, row.width)


LINES = {
    "side": down_the_side,
    "stile": along_the_stile,
    "rail": across_the_rail,
    "end grain, across the width": across_the_tenon,
    "end grain, through the thickness": through_the_tenon,
    "end grain, from face to face": told_crossing.through_the_end,
    "along the reference edge": told_crossing.along_the_edge,
    "along the outer corner": told_splines.along_the_corner,
    "the stile's reference edge": along_the_edge,
    "the stile's reference edge, for the mortise, not the haunch": along_the_edge,
}
"""By the row's title, else by the board's role."""


def line_of(joint: Joint, row: SettingOut) -> list[Span]:
    """What is gone of a row's line, as measured in the row."""
    wood = board_of(joint, row.role)
    measure = LINES.get(row.title) or LINES.get(row.role)
    if measure:
        return measure(joint, row)
    if row.title == "along the mitre":
        return told.mouths(joint)
    if row.title == "end grain, along the lap line":
        return wood.spaces(ZERO, *told.measured(joint, "lap, on the pin board's outside"))
    z = ZERO if row.title.startswith("outside") else wood.thickness
    if row.title.endswith("along the baseline"):
        return wood.spaces(wood.baseline, z)
    at_end = row.title.endswith("along the end")
    return wood.spaces(ZERO if at_end else wood.pieces_end, z)


def off_the_holes(joint: Joint, row: SettingOut) -> list[str]:
    """Marks that are not the middle of a hole, as the kernel has it on the row's own board."""
    number = [member.role for member in joint.members].index(row.role)
    _, along = told.bores(joint, number)
    found = told.middles(joint, number, 0 if along else 1)
    if row.start == "start of the seam":
        found = [row.marks[0].position + (-y if number else y) for y in found]
        return _unlike(row, [*found, *(mark.position for mark in row.marks[len(found) :])])
    if along == 0:
        begin, finish = (rail_edge_on_stile(joint, edge) for edge in ("reference", "far"))
        found = [(y - begin) * (row.width / (finish - begin)) for y in found]
    return _unlike(row, found)


def _unlike(row: SettingOut, places: list) -> list[str]:
    return [
        f"{row.role}, {row.title}: {mark.what} at {float(mark.position)}"
        for mark, place in zip(row.marks, places, strict=True)
        if abs(mark.position - place) > told.SAME
    ]


def misread(joint: Joint) -> list[str]:
    """Marks beside which the wood does not begin, or end, as they say."""
    found = []
    for row in joint.rows:
        if row.title == "the seam":
            continue  # its marks are squared across, and no joint cuts there
        if row.title == "the line of the holes":
            found += off_the_holes(joint, row)
            continue
        gone = [(float(low), float(high)) for low, high in line_of(joint, row)]
        for mark in row.marks:
            before, after = (
                any(low < mark.position + step < high for low, high in gone)
                for step in (-NEAR, NEAR)
            )
            begins_space = mark.what.endswith("starts") == bool(re.match(SPACE, mark.what))
            is_true = (before, after) == (not begins_space, begins_space)
            if mark.what.startswith("mitred"):
                near, far = (told.mitre(joint, edge) for edge in ("reference", "far"))
                is_true = mark.position == (row.width - far if "far" in mark.what else near)
            if not is_true:
                found.append(f"{row.role}, {row.title}: {mark.what} at {float(mark.position)}")
    return found


@every_kind
def test_beside_every_mark_wood_begins_or_ends_as_it_says(kind):
    assert [fault for joint in varied(kind) for fault in misread(joint)] == []


# The checks themselves


@every_kind
def test_a_figure_a_hundredth_off_and_words_that_are_not_known_are_seen(kind):
    joint = varied(kind)[0]
    size = joint.sizes[0]
    off = replace(size, length=size.length + Fraction(1, 100))
    steep = tuple(replace(one, slope=one.slope * Fraction(101, 100)) for one in joint.slopes)
    strange = replace(size, name="between one thing and another")
    assert len(untrue(replace(joint, sizes=(off, strange), lengths=(), slopes=steep))) == 2 + len(
        steep
    )
    for row in joint.rows:
        if row.title != "the seam":
            aside = tuple(replace(m, position=m.position + Fraction(1, 50)) for m in row.marks)
            moved = replace(joint, rows=(replace(row, marks=aside),))
            assert len(misread(moved)) == len(aside)


@pytest.mark.parametrize(
    ("kind", "true", "false"),
    [
        ("sliding-dovetail", "6 mm more at each end", "12 mm more at each end"),
        ("sliding-dovetail", "6 mm more at each end", "6 mm less at each end"),
        ("canted-dovetail", "longer at the far edge", "longer at the reference edge"),
        ("canted-dovetail", "longer on the inside face", "longer on the outside face"),
        ("canted-dovetail", "arris at the far edge", "arris at the reference edge"),
        (
            "canted-dovetail",
            "for another ≈0.53 mm",
            "for another 0.5 mm",
        ),
        ("housing", "6 mm more at each end", "12 mm more at each end"),
        ("housing", "6 mm, on both edges", "7 mm, on both edges"),
        ("housing", "the inside face's template", "the outside face's template"),
        ("housing", "square to the inside face", "square to the outside face"),
        ("housing", "line of the shelf's upper", "line of the shelf's lower"),
        ("housing", " (solid where it is cut)", ""),
        ("housing", "lower line; where", "lower line but for 0.1 mm of gap; where"),
        ("housing", "off its lower face", "off its upper face"),
        ("mortise-and-tenon", "reference edges face", "far edges face"),
        ("mortise-and-tenon", "and reference edges up", "and far edges up"),
        ("mortise-and-tenon", "with a square on the reference", "with a square on the far"),
        ("mortise-and-tenon", "43 mm more", "45 mm more"),
        ("haunched-mortise-and-tenon", "At the far edge saw", "At the reference edge saw"),
        ("haunched-mortise-and-tenon", "no deeper, then beside", "no deeper, then 8 mm beside"),
        (
            "wedged-mortise-and-tenon",
            "where they fill the mortise at the far",
            "where they fill the mortise at the reference",
        ),
        ("wedged-mortise-and-tenon", "40 mm from it", "45 mm from it"),
        ("wedged-mortise-and-tenon", "stays 2 mm short", "stays 3 mm short"),
        ("drawbored-mortise-and-tenon", "Split one peg", "Split 2 pegs"),
        ("angled-mitre", "inside face, ≈6.93", "inside face, ≈12"),
        ("mortise-and-tenon", "high: 20 mm for", "high: 14 mm for"),
        ("mortise-and-tenon", "where the rail's far", "where the rail's reference"),
        ("mortise-and-tenon", "stile's reference edge, between", "stile's far edge, between"),
        ("mortise-and-tenon", "line of the rail's far", "line of the rail's reference"),
        ("mortise-and-tenon", "label names on", "label names (solid where it is cut) on"),
        (
            "mortise-and-tenon",
            "line of the rail's far edge, ▲",
            "line of the rail's reference edge, ▲",
        ),
        ("mortise-and-tenon", "2 mm more than the tenon", "3 mm more than the tenon"),
        ("mortise-and-tenon", "on the outside face, gauge", "on the inside face, gauge"),
        ("mortise-and-tenon", "6 mm from the rail's ref", "14 mm from the rail's ref"),
        ("mortise-and-tenon", "14 mm from the rail's far", "6 mm from the rail's far"),
        ("halving", "61.5 mm more at each", "51.5 mm more at each"),
        ("halving", "1.5 mm of it", "2 mm of it"),
        ("halving", "shoulder across the inside face", "shoulder across the outside face"),
        ("halving", "The waste is on the inside", "The waste is on the outside"),
        ("halving", "from the outside face, square", "from the inside face, square"),
        ("halving", "inside face. Clamp the board upright", "inside face. Clamp the board leaning"),
        ("bridle", "points of a mortise gauge 7 mm", "points of a mortise gauge 8 mm"),
        ("bridle", "slot of the stile goes over", "slot of the rail goes over"),
        ("dovetail-halving", "comes in at the stile's reference", "comes in at the stile's far"),
        ("dovetail-halving", "rail's reference edge comes, at", "rail's far edge comes, at"),
        ("dovetail-halving", "The waste is on the inside", "The waste is on the outside"),
        ("dovetail-halving", "its own outside face up", "its own inside face up"),
        ("through-dovetail", "outside face away from you", "inside face away from you"),
        ("through-dovetail", "end, inside face down", "end, outside face down"),
        ("through-dovetail", "over the inside arris", "over the outside arris"),
        ("through-dovetail", "stand 0.3 mm past", "come flush with"),
        (
            "through-dovetail",
            "a batten as a caul, notched over the pins' ends",
            "a straight batten as a caul",
        ),
        ("through-dovetail", "faces and both edges", "faces and the far edge"),
        ("lapped-dovetail", "reach its lap line", "come flush with its outside face"),
        (
            "mitred-shoulder-dovetail",
            "half-pin waste at the far",
            "half-pin waste at the reference",
        ),
        ("canted-dovetail", "mm short of it", "mm past it"),
        ("canted-dovetail", "lies flush with", "lies 2 mm past"),
        ("canted-dovetail", "leave the inside face", "leave the outside face"),
        (
            "canted-box-joint",
            "outside face the cut runs towards the first board's end, from the inside",
            "inside face the cut runs towards the first board's end, from the outside",
        ),
        ("canted-box-joint", "leaning so far that its end lies level", "its end up"),
        ("canted-box-joint", "edge plane down the outside", "edge plane down the inside"),
        ("canted-mitre", "measured on the outside", "measured on the inside"),
        ("lapped-dovetail", "down the inside face, with", "down both faces, with"),
        ("box-joint", "spaces at both edges", "space at the far edge"),
        ("double-lapped-dovetail", "With the same setting", "Set another to 15 mm and"),
        (
            "full-blind-dovetail",
            "lap hanging down into",
            "outside face level with the end, so that its lap hangs out over",
        ),
        ("full-blind-dovetail", "a strip 6 mm wide", "a strip 7 mm wide"),
        ("full-blind-dovetail", "from both edges of", "from the far edge of"),
        (
            "full-blind-dovetail",
            "baseline on the inside face to",
            "baseline on the outside face to",
        ),
        ("tongue-and-groove", "gauge to 6 mm", "gauge to 7 mm"),
        ("scarf", "are 240 mm", "are 120 mm"),
        ("scarf", "The waste is on the outside", "The waste is on the inside"),
        ("scarf", "on the outside face of the first", "on the inside face of the first"),
        ("tongue-and-groove", "7 mm deep", "6 mm deep"),
        (
            "tongue-and-groove",
            "reference edge of the second straight",
            "far edge of the second straight",
        ),
        ("tongue-and-groove", "in the reference edge and a", "in the far edge and a"),
        ("splined-mitre", "4 mm, so that it goes", "5 mm, so that it goes"),
        ("splined-mitre", "nearer one is 5 mm", "nearer one is 7 mm"),
        (
            "box-joint",
            "over battens as cauls, notched to clear the other board's proud ends",
            "over straight battens as cauls",
        ),
    ],
)
def test_a_step_that_tells_another_figure_or_side_is_seen(kind, true, false):
    joint = varied(kind)[0]
    (words,) = {f"{one.heading}: {one.words}" for one in joint.steps if true in one.words}
    assert faults(joint, words) == []
    assert faults(joint, words.replace(true, false)) != []


@pytest.mark.parametrize(
    ("kind", "true", "false"),
    [
        (
            "bridle",
            "stays on the rail and goes from the stile",
            "stays on the stile and goes from the rail",
        ),
        ("bridle", "tab lies on the outside", "tab lies on the inside"),
        ("bridle", "through the outside cheek alone", "right through what is left there"),
        ("bridle", "slip of waste 7 mm", "slip of waste 8 mm"),
        (
            "bridle",
            "down from the end beside the gauged line nearer to the inside",
            "down from the end beside the gauged line nearer to the outside",
        ),
        (
            "bridle",
            "down to the gauged line nearer to the outside",
            "down to the gauged line nearer to the inside",
        ),
        (
            "halving",
            "at the reference edge 61.5 mm from the end, at the far edge 1.5 mm",
            "at the reference edge 1.5 mm from the end, at the far edge 61.5 mm",
        ),
    ],
)
def test_a_step_of_a_mitred_corner_that_tells_another_line_is_seen(kind, true, false):
    joint = varied(kind)[1]
    told = [words for one in joint.steps if true in (words := f"{one.heading}: {one.words}")]
    assert told
    assert faults(joint, told[0]) == []
    assert faults(joint, told[0].replace(true, false)) != []
