"""A leg by two of its faces: worked by hand, as solids, in words, and what is told of a bad one."""

from pathlib import Path

import pytest
from hypothesis import given, reject
from hypothesis import strategies as st

from joinery_templates import patterns
from joinery_templates.drawings.figure import Role, Stroke
from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.cutting_list import cutting_list
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.rods import rods
from joinery_templates.joint import Joint
from joinery_templates.lengths import INCH
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import is_waste, laid_out
from joinery_templates.wood.placement import Placement
from tests.joints.exact_overlap import overlap, wood_of
from tests.joints.solids import CLOSE_MM3, mate
from tests.strategies import cases

EDGE, INSIDE = 'on = "reference-edge"', 'on = "inside"'
CODES = {
    "corner-twice",
    "tenons-meet",
    "wall-thin",
    "leg-and-no-leg",
    "front-of-legs",
    "joints-meet",
    "place-on-leg",
    "not-mitred",
    "length-off",
    "no-bottom",
    "peg-in-tenon",
    "holes-meet",
    "length-needed",
}
MITRED = ('tenon_end = "mitred"',) * 2
ABOUT = Fraction(1000)
"""So much of a rail is enough."""


def table(
    first: str = "",
    second: str = "",
    *,
    both: str = "tenon_thickness = 6\nat = 0\nshoulder_far = 18\nshoulder = 6",
    on: tuple[str, str] = (EDGE, INSIDE),
    leg: str = "width = 38\nthickness = 40\nlength = 450",
    rails: tuple[str, str] = ("rail", "rail"),
    kind: str = "mortise-and-tenon",
    head: str = "",
) -> str:
    """Four legs with four rails of 60 by 20, whose tenons stand 7 in from their outside face."""
    joints = "".join(
        f'[[joints]]\nkind = "{kind}"\ncorners = ["A", "B", "C", "D"]\nname = "{name}"\n'
        f'rail = "{rail}"\nstile = "leg"\n{both}\n{face}\n{words}\n'
        for name, rail, face, words in zip(
            ("Front", "Side"), rails, on, (first, second), strict=True
        )
    )
    boards = "".join(
        f"[boards.{rail}]\nwidth = 60\nthickness = 20\nlength = 300\n" for rail in {*rails}
    )
    return f"{head}\n[boards.leg]\n{leg}\n{boards}{joints}"


def told(text: str) -> list[tuple[str, str]]:
    """What is told of legs, with its words."""
    try:
        found = read_job(text).findings
    except InputError as error:
        found = error.findings
    return [(one.code, one.told()) for one in found if one.code in CODES]


def codes(text: str) -> list[str]:
    return [code for code, _ in told(text)]


def to_leg(joint: Joint) -> Placement:
    """From a rail into the leg, measured from the leg's top."""
    leg = joint.members[1]
    back = joint.placement.reversed()
    x, y, z = back.shift
    along = leg.part.place(leg.hand).along or Fraction(0)
    return Placement(back.rows, (x, y + along, z))


def opened(joint: Joint) -> dict[Face, tuple[tuple[object, object], tuple[object, object]]]:
    """By the face of the leg that it opens: from where to where a mortise runs."""
    leg = joint.members[1].part
    return {
        face: laid_out(leg, face).waste[0].extent for face in leg.faces if laid_out(leg, face).waste
    }


# By hand

ZERBE = """
units = "in"
boards.leg = { width = 2, thickness = 2, length = 28 }
boards.apron = { width = 7, thickness = 1 }
"""
APRON = """
[[joints]]
kind = "mortise-and-tenon"
rail = "apron"
stile = "leg"
at = 0
set_back = "1/4"
tenon_thickness = "1/2"
shoulder = 0
shoulder_far = "1/2"
tenon_length = "1 7/16"
"""


def test_the_leg_of_a_table_as_a_handbook_lays_it_out() -> None:
    """Zerbe 1914, ch. V: lines 1/2 and 7 in from the top, gauged 1/2 and 1 in, 1 1/2 in deep.

    A tenon of 1 7/16 in from either side would run into the other mortise, 1 in away. It is at
    most 7/8 in long if 1/16 in is left before that, and 1/16 in below the tenon.
    """
    aprons = [f'{APRON}{on}\nname = "{on[6:-1]}"' for on in (EDGE, INSIDE)]
    ((code, words),) = told(f"{ZERBE}{''.join(aprons)}")
    assert code == "tenons-meet"
    assert "Shorten one tenon, that of joint 1 to 7/8 in or that of joint 2 to 7/8 in" in words
    mitred = ZERBE + "".join(f'{one}\ntenon_end = "mitred"' for one in aprons)
    assert codes(mitred) == []
    half, one, seven = INCH / 2, INCH, INCH * 7
    front, side = (joint.joint for joint in read_job(mitred).joints)
    # On the inside face x runs from the reference edge, and the apron's outside is at the far one.
    assert opened(front) == {Face.REFERENCE_EDGE: ((half, half), (one, seven))}
    assert opened(side) == {Face.INSIDE: ((one, half), (one * 3 / 2, seven))}
    for joint, axis in ((front, 0), (side, 2)):
        floor = [size.length for size in joint.sizes if size.name.startswith("left of the leg")]
        assert floor == [half]
        assert {cut.half_spaces[0].normal[axis] for cut in joint.members[1].part.cuts} != {0}


def test_a_mitred_tenon_is_shorter_inside_by_its_own_thickness() -> None:
    """6 thick, less 0.1 at each cheek: the tip is whole at the outer cheek, at 7.1."""
    joint = read_job(table('tenon_end = "mitred"\nfit = 0.1', MITRED[1])).joints[0].joint
    rail, wide = joint.members[0].part, Fraction(30)
    outer, inner = Fraction("7.1"), Fraction("12.9")
    shaving = Fraction(1, 100)
    assert not is_waste(rail, wide, shaving, outer + shaving / 2)
    assert is_waste(rail, wide, inner - outer - shaving, inner - shaving / 2)
    assert not is_waste(rail, wide, inner - outer + shaving, inner - shaving)
    (cheek,) = (one.member.part for one in joint.details)
    lines = {(one.start, one.end) for one in laid_out(cheek, Face.INSIDE).lines}
    across = {y for start, end in lines for _, y in (start, end) if start[1] == end[1]}
    assert across == {Fraction("5.8"), rail.reach}
    assert cheek.called(Face.INSIDE) == "tenon's inside cheek"
    # By this it is checked; it is laid on while the edges that it shows are not yet sawn.
    check = f"{float(rail.reach - Fraction('5.8')):g} mm from the shoulder to the mitre"
    headings = [step.heading for step in joint.steps]
    laid_on = headings.index("Lay on the tenon's inside cheek")
    assert check in joint.steps[laid_on].words
    assert check in cheek.guide[1]
    assert laid_on < headings.index("Saw the tenon's edges")
    assert "whole length" in joint.steps[headings.index("Mitre the tenon's end")].words


@pytest.mark.parametrize("number", [0, 1])
def test_a_cheek_that_comes_to_light_is_shown_at_its_rails_own_end(number: int) -> None:
    """Also of the rails that come to the inside face, which have their other end at each corner."""
    job = read_job(table(*MITRED))
    for corner in job.joints[number].corners:
        rail, _, cheek = job.joints[number].joint.placed(corner)
        assert cheek.hand is rail.hand
        assert cheek.mates == rail.mates


# Solids


def test_a_leg_with_both_rails_is_full_but_for_the_air_that_is_left_on_purpose() -> None:
    """In plan, of a leg 40 square: mortises 6 wide whose near sides are 10 in, floors at 31.

    They cover 2 x 186 less the square of 36 where they cross; each tenon, 29 long, 174 less the
    triangle of 18 at its mitre. So 336 - 312 stays empty, over the mortises' 36.
    """
    text = table(
        *(f"{MITRED[0]}\ntenon_length = 29\nset_back = 3",) * 2,
        leg="width = 40\nthickness = 40\nlength = 450",
    )
    assert codes(text) == []
    front, side = (one.joint for one in read_job(text).joints)
    for one in (front, side):
        mated = mate(one)
        assert max(mated.overlap, mated.missing) < CLOSE_MM3
    woods = [wood_of(one.members[0].part, ABOUT, to_leg(one)) for one in (front, side)]
    leg = front.members[1].part
    sides, waste = wood_of(leg, ABOUT, None)
    cuts = (*waste, *wood_of(side.members[1].part, ABOUT, None)[1])
    block = (sides, ())
    assert overlap(*woods) == 0
    assert [overlap((sides, cuts), wood) for wood in woods] == [0, 0]
    taken = overlap(block, block) - overlap((sides, cuts), block)
    assert taken == 336 * 36
    assert sum(overlap(block, wood) for wood in woods) == 312 * 36


@st.composite
def legs(draw: st.DrawFn) -> str:
    """Two rails in one leg: any lengths and set-backs, square or mitred, at any heights."""
    halves = st.integers(0, 40).map(lambda count: Fraction(count, 2))
    wide, thick = draw(st.integers(36, 60)), draw(st.integers(36, 60))
    joints = [
        f"tenon_length = {float(4 + draw(halves))}\nset_back = {float(draw(halves) / 4)}\n"
        f'tenon_end = "{draw(st.sampled_from(["square", "mitred"]))}"\nat = {at}'
        for at in (0, draw(st.sampled_from([0, 0, 30, 36, 40])))
    ]
    return table(
        *joints,
        both="tenon_thickness = 6\nshoulder_far = 18\nshoulder = 6\nextra_depth = 1",
        leg=f"width = {wide}\nthickness = {thick}\nlength = 450",
    )


@cases(12)
@given(legs())
def test_tenons_are_refused_where_and_only_where_they_take_the_same_wood(text: str) -> None:
    """The other way to find it shares no code with the check: exact clipping of whole rails."""
    boards, *tables = text.replace('stile = "leg"', 'stile = "other"', 1).split("[[joints]]")
    other = boards.split("[boards.leg]")[1].split("[")[0]
    try:  # each by itself: in legs of their own nothing meets
        joints = read_job("[[joints]]".join([f"{boards}[boards.other]{other}", *tables])).joints
    except InputError:
        reject()
    woods = [wood_of(one.joint.members[0].part, ABOUT, to_leg(one.joint)) for one in joints]
    assert ("tenons-meet" in codes(text)) == (overlap(*woods) > 0)


# Dowels


def dowelled(front: str, side: str, mixed: bool = False) -> str:
    """The same legs, 38 by 40, and rails of 60 by 20 on dowels of 8: the line is 10 in."""
    text = table(
        f"{front}\ndiameter = 8",
        side if mixed else f"{side}\ndiameter = 8",
        both="at = 0",
        kind="dowel",
    )
    head, one, other = text.split("[[joints]]")
    if mixed:
        other = other.replace('"dowel"', '"mortise-and-tenon"')
        return "[[joints]]".join((head, as_boards(one), other))
    return "[[joints]]".join((head, as_boards(one), as_boards(other)))


def as_boards(joint: str) -> str:
    return joint.replace("rail = ", "first_board = ").replace("stile = ", "second_board = ")


def test_dowels_come_to_a_leg_by_either_face_gauged_from_the_rails_outside() -> None:
    """By hand: 10 in from the outside face, or from the far edge, 38 - 10 from the other one."""
    one = read_job(dowelled("positions = [15, 45]", "positions = [20, 40]\nsecond_depth = 17"))
    front, side = (joint.joint for joint in one.joints)
    for joint, face, middles, depth in (
        (front, Face.REFERENCE_EDGE, {(10, 15), (10, 45)}, 25),
        (side, Face.INSIDE, {(28, 20), (28, 40)}, 17),
    ):
        leg = joint.members[1].part
        opened_ = [each for each in leg.faces if laid_out(leg, each).waste]
        assert opened_ == [face]
        shapes = laid_out(leg, face).waste
        assert {shape.mouth.middle for shape in shapes} == middles
        assert {shape.depth[1] for shape in shapes} == {depth}
        mated = mate(joint)
        assert max(mated.overlap, abs(mated.missing)) < CLOSE_MM3
    right, left = (joint.members[0].hand for joint in (side, front))
    assert (left, right) == ("left-hand end", "right-hand end")
    assert one.joints[1].joint.lengths[0].use.endswith("; on the leg from its far edge")


@pytest.mark.parametrize(
    ("front", "side", "wanted", "words"),
    [  # The front's hole runs to x = depth, the side's to z = 40 - depth; each is 8 wide.
        (
            "positions = [15, 45]\nsecond_depth = 28",
            "positions = [15, 45]\nsecond_depth = 28",
            ["holes-meet"],
            "Bore those of joint 2 24 mm deep or those of joint 1 22 mm deep at most",
        ),
        (
            "positions = [15, 45]\nsecond_depth = 28",
            "positions = [25, 35]\nsecond_depth = 28",
            [],
            "",
        ),
        (
            "positions = [15, 45]\nsecond_depth = 28",
            "positions = [24, 36]\nsecond_depth = 28",
            ["wall-thin"],
            "only 1 mm",
        ),
        ("second_depth = 22", "second_depth = 30", [], ""),
        (  # At y = 18.5, half way between, the holes are 3.9 wide: 26.06 is not reached.
            "positions = [15, 45]\nsecond_depth = 25",
            "positions = [22, 38]\nsecond_depth = 30",
            [],
            "",
        ),
    ],
)
def test_holes_that_meet_in_a_leg_are_refused_and_those_that_pass_by_are_not(
    front: str, side: str, wanted: list[str], words: str
) -> None:
    found = told(dowelled(front, side))
    assert [code for code, _ in found] == wanted
    assert all(words in each for _, each in found)
    for _, each in found:
        assert '"Front"' in each
        assert '"Side"' in each


def test_holes_that_run_into_a_mortise_in_a_leg_are_refused() -> None:
    """The tenon ends 4 before the hole, and its mortise, 2 deeper, 2 before it: then none does."""
    side = "tenon_thickness = 6\nshoulder = 6\nshoulder_far = 18\nset_back = 3"
    front = "positions = [15, 30]\nsecond_depth = 28"
    ((code, words),) = told(dowelled(front, f"{side}\ntenon_length = 27", mixed=True))
    assert code == "holes-meet"
    assert "holes and a mortise" in words
    assert codes(dowelled(front, f"{side}\ntenon_length = 22", mixed=True)) == []


def test_rails_on_dowels_keep_legs_apart_by_their_whole_length() -> None:
    """One of 300 on dowels and, lower down, one of 300 with tenons of 25 would lean."""
    low = "tenon_thickness = 6\ntenon_length = 25\nshoulder = 6\nshoulder_far = 18"
    text = dowelled("second_depth = 22", low, mixed=True).replace(INSIDE, EDGE)
    first, _, last = text.rpartition("at = 0")
    text = f"{first}at = 200{last}".replace(
        "[boards.rail]",
        '[boards."low"]\nwidth = 60\nthickness = 20\nlength = 300\n[boards.rail]',
        1,
    )
    joint = text.rpartition("[[joints]]")
    text = "".join((*joint[:2], joint[2].replace('rail = "rail"', 'rail = "low"')))
    ((code, words),) = told(text)
    assert code == "length-off"
    assert "300 mm" in words
    assert "250 mm" in words


# Which leg, which face, which end


def test_both_rails_name_the_same_leg_with_the_same_marks() -> None:
    """By hand, from the plan: A near left, B far left, C far right, D near right.

    At A the front rail runs to the right and ends there with its left-hand end. From outside, the
    left side has A on its right: the side rail ends there with its right-hand end. The leg's
    outside face is in front, its reference edge to the right of it.
    """
    right, left = (
        f"reference edge on the {side} of its outside face" for side in ("right", "left")
    )
    by_hand = {
        "A": ("left-hand end", "right-hand end", right),
        "B": ("right-hand end", "left-hand end", left),
        "C": ("left-hand end", "right-hand end", right),
        "D": ("right-hand end", "left-hand end", left),
    }
    front, side = read_job(table(*MITRED)).joints
    for number, (one, face) in enumerate(((front, Face.REFERENCE_EDGE), (side, Face.INSIDE))):
        rail, leg = one.joint.members
        # A placement that keeps the hand joins ends of one hand, one that mirrors joins two.
        rows = one.joint.placement.rows
        assert determinant(rows) == (1 if rail.hand is leg.hand else -1)
        assert list(opened(one.joint)) == [face]
        for corner in one.corners:
            rail, leg = (each.place.words for each in one.joint.placed(corner)[:2])
            assert (rail, leg) == (by_hand[corner.letter][number], by_hand[corner.letter][2])


def determinant(rows) -> Fraction:
    (a, b, c), (d, e, f), (g, h, i) = rows
    return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)


def test_the_first_page_counts_legs_and_rails_and_tells_the_faces() -> None:
    job = read_job(table(*MITRED))
    listed = {entry.board: (entry.pieces, entry.which) for entry in cutting_list(job, {})}
    assert listed == {
        "LEG": ("4", "A; B; C; D"),
        "RAIL": ("4", "A to D; B to C; A to B; D to C"),
    }
    ((_, lines),) = patterns.plans(job, (), Fraction(90), DejaVu())
    _, of_a, of_b = (line.words for line in lines)
    assert of_a == (
        "A, near left, and C, far right: LEG, reference edge on the right of its outside face; "
        "takes RAIL, left-hand end, on the reference edge; "
        "RAIL, right-hand end, on the inside face."
    )
    assert of_b.startswith("B, far left, and D, near right: LEG, reference edge on the left")
    front, side = (one.joint for one in job.joints)
    uses = [setting.use for setting in side.lengths]
    assert "nearer cheek of the mortise, from the leg's far edge" not in uses  # as the tenon's, 7
    steps = {step.heading: step.words for step in side.steps}
    assert "lay it on the leg's inside face" in steps["Lay on the leg"]
    assert "the stock on the leg's far edge" in steps["Set the mortise gauge"]
    assert "inside face up" in steps["Chop the mortise"]
    assert "reference edge up" in next(s.words for s in front.steps if s.heading.startswith("Chop"))


def test_a_leg_is_told_to_take_only_the_rails_that_come_to_it() -> None:
    """At the back there is no rail on the inside face: A and D take one, B and C none."""
    head, last = table(*MITRED).rsplit('corners = ["A", "B", "C", "D"]', 1)
    job = read_job(f'{head}corners = ["A", "D"]{last}')
    ((_, (_, *lines)),) = patterns.plans(job, (), Fraction(90), DejaVu())
    two = {line.words.partition(",")[0]: "; RAIL" in line.words for line in lines}
    assert two == {"A": True, "B": False, "C": False, "D": True}


def test_the_plan_marks_outside_faces_in_front_and_behind_and_reference_edges_inwards() -> None:
    ((sketch, _),) = patterns.plans(read_job(table(*MITRED)), (), Fraction(90), DejaVu())
    spans = [tuple(zip(one.start, one.end, strict=True)) for one in sketch.strokes]
    corners = {(x[0], y[0]) for x, y in spans if abs(x[1] - x[0]) > 20}
    middle = sketch.width / 2, sum(y for _, y in corners) / len(corners)
    # A V has two slanting strokes of 2 to its tip, a ring two level ones of 1.
    slanting = [(x, y) for x, y in spans if abs(x[1] - x[0]) == 2 and y[0] != y[1]]
    assert sorted((x[1] > x[0], x[1] < middle[0]) for x, _ in slanting) == [
        *[(False, False)] * 4,
        *[(True, True)] * 4,
    ]
    levels = [y[0] for x, y in spans if abs(x[1] - x[0]) == 1 and y[0] == y[1]]
    low, high = min(levels), max(levels)
    assert low + high == 2 * middle[1]
    assert low == min(y for _, ys in spans for y in ys) + 2 - Fraction(7, 8)
    assert {min(at - low, high - at) < 2 for at in levels} == {True}
    assert len(levels) == 8


def test_the_plan_shows_of_what_lies_below_a_rail_only_what_stands_out_beside_it() -> None:
    """The stool's legs, 38 wide, are drawn 10; short rails 3 to 23 in, stretchers 10 to 28."""
    path = Path(__file__).parents[2] / "sample_jobs" / "stool.toml"
    text = path.read_text("utf-8")
    job, below_first = read_job(text), read_job(_tables_turned(text))
    for one in (job, below_first):
        ((sketch, _),) = patterns.plans(one, (), Fraction(90), DejaVu())
        upright = [s for s in sketch.strokes if s.start[0] == s.end[0]]
        legs = {s.start[0] for s in upright if abs(s.end[1] - s.start[1]) == 10}
        left, right = min(legs), max(legs)
        long = {s.start[0] for s in upright if abs(s.end[1] - s.start[1]) > 12}
        beside = [Fraction(at * 10, 38) for at in (3, 23, 28)]
        assert long == {*(left + at for at in beside), *(right - at for at in beside)}


def _tables_turned(text: str) -> str:
    """The same job with its joints the other way round."""
    head, *joints = text.split("[[joints]]")
    return "[[joints]]".join((head, *(f"{one}\n" for one in reversed(joints))))


TURNED = {
    "leg's outside face": "leg's far edge",
    "from the outside face of both": "from the rail's outside face and the leg's far edge",
    "of the mortise, from the outside face": "of the mortise, from the far edge",
    "leg's reference edge": "leg's inside face",
    "reference edges up": "inside faces up",
    "reference edge up": "inside face up",
    "square on the reference edge": "square on the inside face",
    "mortise and inside face": "mortise and reference edge",
}
"""What is another face where the rail comes to the inside face; all else is the rail's."""


@pytest.mark.parametrize("more", [MITRED[0], "set_back = 4", "through = true", "horn = 20"])
def test_a_leg_is_told_as_a_stile_is_and_by_its_inside_face_with_faces_changed(more: str) -> None:
    """So what holds of a stile's figures and sides (`test_told_figures`) holds of a leg's."""

    def told_of(face: str) -> list[str]:
        both = f"shoulder_far = 18\n{more}"
        square = "width = 40\nthickness = 40\nlength = 450"
        joint = (
            read_job(table(both=both, on=(face, face), leg=square).rsplit("[[", 1)[0])
            .joints[0]
            .joint
        )
        words = [f"{step.heading}: {step.words}" for step in joint.steps]
        words += [f"{one.tool}, {one.use}: {one.length}" for one in joint.lengths]
        words += [f"{one.name}: {one.length}" for one in joint.sizes]
        return words + [f"{row.title}, {row.marks}" for row in joint.rows]

    edge, inside = told_of(EDGE), told_of(INSIDE)
    for words, turned in TURNED.items():
        edge = [one.replace(words, turned) for one in edge]
    if more.startswith("through"):
        assert "far edge up" in " ".join(told_of(EDGE))
        assert "outside face up" in " ".join(inside)
        return
    assert edge == inside
    if more == MITRED[0]:
        return  # no stile has a mitred tenon
    stile = [one.replace("stile", "leg").replace(" (LEG)", "") for one in told_of("")]
    stile = [one.replace("leg's end to", "leg's top end to") for one in stile]
    stile = [one.replace("towards the end that it names", "towards the top end") for one in stile]
    ours = {
        "Prepare",
        "Square the rail's lines on the legs",
        "Fit the tenon to the mortise",
        "Glue",
    }
    differ = {
        one.partition(":")[0] for one, leg in zip(stile, told_of(EDGE), strict=True) if one != leg
    }
    assert differ <= ours


def test_one_rod_shows_both_faces_of_the_leg_from_its_top() -> None:
    text = (Path(__file__).parents[2] / "sample_jobs" / "stool.toml").read_text(encoding="utf-8")
    job = read_job(text)
    assert job.findings == ()
    (rod,) = rods(job)
    assert rod.start == "top end"
    assert rod.pieces == ("Corner A", "Corner B", "Corner C", "Corner D")
    assert [(int(b.low), int(b.high), b.joint, b.words) for b in rod.bands] == [
        (0, 60, "Long rails", "LONG RAIL, far edge to reference edge"),
        (0, 60, "Short rails", "SHORT RAIL, far edge to reference edge"),
        (18, 54, "Long rails", "reference edge, 28 mm deep"),
        (18, 54, "Short rails", "inside face, 28 mm deep"),
        # Its lower edge is 118 from the bottom and it is 32 wide: 450 - 150 = 300, and a sixth of
        # 32 more is 305.5.
        (300, 332, "Stretchers", "STRETCHER, far edge to reference edge"),
        (305, 326, "Stretchers", "inside face, 28 mm deep"),
    ]
    assert rod.sides == (Face.REFERENCE_EDGE, Face.INSIDE)
    sheet = (Fraction(190), Fraction(250))
    (drawn,) = next(patterns.patterns(job, sheet, DejaVu())).layers
    (left,) = {one.start[0] for one in drawn.strokes if one.role is Role.OUTLINE} - {
        max(one.start[0] for one in drawn.strokes if one.role is Role.OUTLINE)
    }
    names = {text.words: text.at[1] for text in drawn.texts if text.words in rod.sides}
    shown = {
        (face, low < 100)
        for face, level in names.items()
        for low, at in ((one.start[0] - left, one.start[1]) for one in drawn.strokes if hatch(one))
        if -2 < at - level < 4
    }
    assert shown == {("reference edge", True), ("inside face", True), ("inside face", False)}


def hatch(one: Stroke) -> bool:
    return one.role is Role.OPEN_HATCH


# What is told


@pytest.mark.parametrize(
    ("first", "second", "found"),
    # Leg 38 across the front rail and 40 along it; mortises 6 wide, 7 in, 2 deeper than tenons.
    # The side rail's mortise begins 38 - 13 = 25 from the front rail; it comes 27 to the other.
    [
        ("tenon_length = 25.5", "", ["tenons-meet"]),
        ("tenon_length = 25", "", []),  # the mortises meet, the tenons just touch
        ("tenon_length = 22.5", "", ["wall-thin"]),
        ("tenon_length = 21", "", []),
        ("tenon_length = 21.5", "", ["wall-thin"]),
        # A square tenon is 28 long, to 12 from the outside face: across the mitre's inner half.
        ('tenon_end = "mitred"\ntenon_length = 30', "", []),
        ('tenon_end = "mitred"\ntenon_length = 30.5', "", ["tenons-meet"]),
        ('tenon_end = "mitred"', 'tenon_end = "mitred"', []),
        # The tips may come to 7 from the far side: 31 and 33 long.
        *(
            (f'tenon_end = "mitred"\ntenon_length = {one}', f'tenon_end = "mitred"\n{two}', told_)
            for one, two, told_ in (
                ("31", "tenon_length = 33", []),
                ("31.5", "tenon_length = 33", ["tenons-meet"]),
                ("30", "tenon_length = 34", []),
                ("30", "tenon_length = 34.5", ["tenons-meet"]),
            )
        ),
    ],
)
def test_two_tenons_at_one_height(first: str, second: str, found: list[str]) -> None:
    assert codes(table(first, second)) == found


@pytest.mark.parametrize(
    ("at", "found"),
    # The front mortise runs from 18 to 54 of the leg, the side one as long from 18 below `at`; a
    # third of 40 is 13 1/3.
    [("35.5", ["tenons-meet"]), ("36", []), ("49", ["wall-thin"]), ("49.5", [])],
)
def test_two_tenons_at_staggered_heights(at: str, found: list[str]) -> None:
    assert codes(table("at = 0", f"at = {at}", both="shoulder_far = 18\nshoulder = 6")) == found


STRETCHER = "boards.stretcher = {{ width = 32, thickness = 18, length = {} }}"
"""Between the legs a rail of 300 is 247 long without its tenons, and so is this with 287."""
BOTTOM = 'from_end = "bottom"'
IN_BETWEEN = """
[[joints]]
kind = "mortise-and-tenon"
corners = ["A", "B", "C", "D"]
rail = "stretcher"
stile = "leg"
on = "reference-edge"
at = 300
tenon_length = 20
"""
BAD = {
    "one rail says no face": (table(on=(EDGE, "")), "leg-and-no-leg", 'on = "reference-edge" or'),
    "neither says one": (table(on=("", "")), "joints-meet", "if it is a leg, say in each joint"),
    "front and on": (table('front = "rail"', *MITRED[:1]), "front-of-legs", "Leave front out"),
    "no place": (table(*MITRED, both=""), "place-on-leg", "Give at: from the leg's top end"),
    "mitred in a stile": (
        table(*MITRED, on=("", EDGE)),
        "not-mitred",
        'Give on = "reference-edge"',
    ),
    "mitred and through": (
        table(MITRED[0] + "\nthrough = true"),
        "not-mitred",
        "Leave through out",
    ),
    "mitred twins": (table(MITRED[0] + "\ntwins = 2"), "not-mitred", "Leave twins out"),
    "mitred and wedged": (table(MITRED[0] + "\nwedges = 2"), "not-mitred", "Leave wedges out"),
    "mitred at a slant": (table(MITRED[0] + "\nangle = 80"), "not-mitred", "Leave angle out"),
    "from the bottom of a stile": (table(BOTTOM, on=("", "")), "no-bottom", "such as C or D"),
    "from a bottom that is not told": (
        table(BOTTOM, leg="width = 38\nthickness = 40"),
        "length-needed",
        "so its bottom is not known",
    ),
    "one board for rails and stretchers": (
        f"{table(*MITRED)}{IN_BETWEEN.replace('stretcher', 'rail')}",
        "corner-twice",
        'at the leg needs a name: [boards."stretcher"]',
    ),
    "rails of two lengths": (
        f"{STRETCHER.format(286)}{table(*MITRED)}{IN_BETWEEN}",
        "length-off",
        "keeps them 247 mm apart. Make",
    ),
}


@pytest.mark.parametrize(("text", "code", "remedy"), BAD.values(), ids=BAD)
def test_a_bad_leg_is_told_with_its_remedy(text: str, code: str, remedy: str) -> None:
    found = dict(told(text))
    assert remedy in found[code]


@pytest.mark.parametrize(
    ("place", "found"),
    # The side rail's tenon stands 25 to 31 from the front rail; the peg is 6 thick.
    [("22", []), ("22.5", ["peg-in-tenon"]), ("22.5, depth = 13.5", [])],
)
def test_a_peg_that_is_driven_into_the_other_tenon(place: str, found: list[str]) -> None:
    peg = f"drawbore = {{ peg = 6, from_shoulder = {place} }}"
    long = 'tenon_end = "mitred"\ntenon_length = 30'
    assert codes(table(f"{long}\n{peg}", long)) == found


def test_each_meeting_is_told_once_and_what_is_right_not_at_all() -> None:
    assert codes(table()) == ["tenons-meet"]
    assert codes(f"{STRETCHER.format(287)}{table(*MITRED)}{IN_BETWEEN}") == []


@pytest.mark.parametrize("backs", [(0, 0), (3, 6), (10, 2)])
def test_mitred_tenons_that_are_too_long_are_told_how_long_they_may_be(backs) -> None:
    """Each ends where the other's outer side is: 7 in from its rail's outside face, set back."""

    def mitred(lengths: tuple[Fraction, Fraction]) -> str:
        front, side = (
            f"tenon_length = {float(length)}\nset_back = {back}\n{MITRED[0]}"
            for length, back in zip(lengths, backs, strict=True)
        )
        return table(front, side, leg="width = 44\nthickness = 44\nlength = 450")

    most = Fraction(44 - 7 - backs[1]), Fraction(44 - 7 - backs[0])
    ((code, words),) = told(mitred((Fraction(40), Fraction(40))))
    assert code == "tenons-meet"
    assert f"that of joint 1 {most[0]} mm and that of joint 2 {most[1]} mm long at most" in words
    assert "They are mitred" in words
    assert codes(mitred(most)) == []
    half = Fraction(1, 2)
    assert codes(mitred((most[0] + half, most[1]))) == ["tenons-meet"]
    assert codes(mitred((most[0], most[1] + half))) == ["tenons-meet"]


@pytest.mark.parametrize(
    ("more", "offered"),
    [("tenon_length = 33", True), ("through = true", False), ("twins = 2", False)],
)
def test_mitres_are_offered_to_square_tenons_that_stop_in_the_leg(more, offered) -> None:
    ((code, words),) = told(table("tenon_length = 33", more))
    assert code == "tenons-meet"
    assert ("mitre both" in words) == offered
