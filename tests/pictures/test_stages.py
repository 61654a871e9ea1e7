"""Which stage of the work a picture shows: by the steps that a joiner goes through."""

import re
from itertools import product

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.joint import Task
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.dovetails.through_dovetail import KIND
from joinery_templates.lengths import Units
from joinery_templates.pictures.pieces import piece
from joinery_templates.pictures.seen import Frame, Line
from joinery_templates.pictures.solid import Shown
from joinery_templates.pictures.stages import finished, views, with_waste
from joinery_templates.wood.cut import Surface
from tests.joints.strategies import example_request
from tests.joints.varied import varied
from tests.joints.worked import request

KINDS = kinds()


def joint_of(name, **given):
    return KINDS[name].build(example_request(KINDS[name], **given))


def shown(joint):
    """For each step with a picture: its task, which boards, what is gone and what is waste."""
    number = {id(one): n for n, one in enumerate(joint.all_members)}
    return [
        (
            step.task,
            *(
                (number[id(one.member)], len(one.taken), len(one.waste), one.has_guide, one.is_sawn)
                for one in view.pieces
            ),
        )
        for step, view in zip(joint.steps, views(joint), strict=True)
        if view
    ]


def test_a_through_dovetail_step_by_step():
    """Three tails and half pins: 4 pieces of waste beside the tails, 2 of them at the edges."""
    assert shown(joint_of(KIND.name)) == [
        (Task.GAUGE, (0, 0, 0, True, False), (1, 0, 0, True, False)),
        (Task.LAY_ON, (0, 0, 4, False, False)),
        (Task.SAW_FIRST, (0, 2, 2, False, True)),
        (Task.CLEAR_FIRST, (0, 4, 0, False, False)),
        (Task.LAY_ON, (0, 4, 0, False, False), (1, 0, 3, False, False)),
        (Task.CUT_SECOND, (1, 3, 0, False, False)),
        (Task.GLUE, (0, 4, 0, False, False), (1, 3, 0, False, False)),
    ]


LEAVES = {
    "through-dovetail": {
        "Saw the tails": [(0, 1, 6, 6)],
        "Chop between the tails": [(0, 31, 6, 6)],
        "Saw and chop the pins": [(1, 17, 6, 6)],
    },
    "angled-dovetail": {
        "Saw the tails": [(0, 2, 10, 6)],
        "Chop between the tails": [(0, 31, 10, 6)],
        "Saw and chop the pins": [(1, 17, 10, 6)],
    },
    "canted-dovetail": {
        "Saw the tails": [(0, 1, 24, 6)],
        "Chop between the tails": [(0, 33, 17, 6)],
        "Saw and chop the pins": [(1, 19, 20, 6)],
    },
    "lapped-dovetail": {
        "Saw the tails": [(0, 2, 5, 6)],
        "Chop between the tails": [(0, 42, 5, 6)],
        "Saw and chop the sockets": [(1, 23, 6, 12)],
    },
    "double-lapped-dovetail": {
        "Saw and chop the sockets": [(1, 22, 7, 12)],
        "Rebate the end of the tail board": [(0, 75, 2, 10)],
        "Saw and chop the tails": [(0, 40, 10, 10), (0, 2, 10, 10)],
    },
    "mitred-shoulder-dovetail": {
        "Saw the tails": [(0, 108, 6, 7)],
        "Chop between the tails": [(0, 11, 6, 7), (0, 43, 6, 7)],
        "Saw the mitre of the tail board": [(0, 2, 3, 10)],
        "Saw and chop the pins": [(1, 28, 6, 7)],
        "Saw the mitre of the pin board": [(1, 2, 3, 10)],
    },
    "full-blind-dovetail": {
        "Rebate both ends": [(0, 65, 5, 15), (1, 65, 5, 15)],
        "Saw and chop the pins": [(1, 28, 15, 15)],
        "Saw and chop the tails": [(0, 46, 15, 15)],
        "Mitre the edges and the laps": [
            (board, *at) for board in (0, 1) for at in ((2, 12, 18), (65, 2, 6))
        ],
    },
    "box-joint": {
        "Saw and chop the first board": [(0, 18, 6, 6)],
        "Saw and chop the second board": [(1, 6, 6, 6)],
    },
    "canted-box-joint": {
        "Saw and chop the first board": [(0, 20, 19, 6)],
        "Saw and chop the second board": [(1, 6, 22, 6)],
    },
    "angled-mitre": {"Saw the mitres": [(0, 45, 1, 9), (1, 45, 1, 9)]},
    "canted-mitre": {"Saw the mitres": [(0, 10, 3, 6), (1, 10, 3, 6)]},
    "scarf": {
        "Saw the scarf of the first board": [(0, 30, 60, 10)],
        "Saw the scarf of the second board": [(1, 30, 60, 10)],
    },
    "tongue-and-groove": {
        "Plane the tongue": [(0, 117, 9, 3), (0, 117, 9, 15)],
        "Plough the groove": [(1, 3, 9, 9)],
    },
    "splined-mitre": {
        "Saw the mitres": [(0, 45, 1, 9), (1, 45, 1, 9)],
        "Cut the grooves": [(0, 45, 15, 11), (1, 45, 15, 11)],
    },
    "butt-dovetail-key": {"Chop the sockets": [(0, 37, 10, 5), (1, 37, 10, 5)]},
    "dovetail-key": {"Chop the sockets": [(0, 145, 0, 5), (1, 5, 0, 5)]},
    "mitre-dovetail-key": {
        "Cut the mitre": [(0, 50, 10, 10), (1, 50, 10, 10)],
        "Chop the sockets": [(0, 38, 45, 4), (1, 38, 45, 4)],
    },
    "dovetail-halving": {
        "Saw the lap": [(0, 25, 30, 15)],
        "Saw the dovetail": [(0, 2, 55, 5)],
        "Saw and chop the socket": [(1, 30, -25, 5)],
    },
    "dowel": {
        "Bore the first board": [(0, 15, 10, 10), (0, 45, 10, 10)],
        "Bore the second board": [(1, 10, 15, 10), (1, 10, 45, 10)],
    },
    "halving": {
        "Saw the lap of the rail": [(0, 25, 30, 15)],
        "Saw the lap of the stile": [(1, 30, 25, 5)],
    },
    "bridle": {
        "Saw the cheeks of the rail": [(0, 25, 30, 3), (0, 25, 30, 18)],
        "Saw and chop the slot of the stile": [(1, 30, 25, 10)],
    },
    "housing": {"Clear the housing": [(1, 100, 9, 18)]},
    "sliding-dovetail": {
        "Chop the stop": [(1, 20, 9, 18)],
        "Clear the housing": [(1, 100, 9, 18)],
        "Saw the shoulders": [(0, 5, 3, 9)],
        "Shape the tail": [(0, 100, 5, Fraction(1, 2))],
    },
    "mortise-and-tenon": {
        "Chop the mortise": [(1, 10, 30, 10)],
        "Saw the shoulders": [(0, 30, 20, 3), (0, 30, 20, 18)],
        "Saw the tenon's edges": [(0, 3, 20, 10)],
    },
    "haunched-mortise-and-tenon": {
        "Chop the mortise": [(1, 10, 30, 10)],
        "Saw the shoulders": [(0, 30, 20, 3), (0, 30, 20, 18)],
        "Saw the tenon's edge": [(0, 60, 20, 10)],
    },
    "wedged-mortise-and-tenon": {
        "Chop the mortise": [(1, 30, 30, 15)],
        "Pare the flare": [(1, 59, 10, 15)],
        "Saw the shoulders": [(0, 30, 20, 5), (0, 30, 20, 25)],
        "Saw the tenon's edges": [(0, 4, 20, 15)],
        "Saw the kerfs": [(0, 14, 20, 15)],
    },
    "drawbored-mortise-and-tenon": {
        "Bore the stile": [(1, 16, 48, 3)],
        "Chop the mortise": [(1, 30, 40, 18)],
        "Saw the shoulders": [(0, 30, 20, 5)],
        "Saw the tenon's edges": [(0, 4, 20, 18)],
        "Bore the tenon": [(0, 32, 43, 18)],
    },
}
"""Of each kind's example: the step whose words take wood away, and where; worked by hand.

A board, and a point of its waste: across from the reference edge, from the end or the squared
line, and from the outside face, in mm.
"""


def lies_in(point, cuts):
    place = tuple(map(Fraction, point))
    return any(all(half.contains(place) for half in cut.half_spaces) for cut in cuts)


@pytest.mark.parametrize("name", KINDS)
def test_wood_is_gone_from_a_picture_once_a_step_has_taken_it_and_not_before(name):
    joint = joint_of(name)
    headings = [step.heading for step in joint.steps]
    pictures = views(joint)
    for heading, points in LEAVES[name].items():
        leaves = headings.index(heading)
        for board, *point in points:
            member = joint.members[board]
            told = {
                n: (lies_in(point, one.taken), lies_in(point, one.waste))
                for n, view in enumerate(pictures)
                for one in (view.pieces if view else ())
                if one.member is member
            }
            assert {n: is_gone for n, (is_gone, _) in told.items()} == {
                n: n >= leaves for n in told
            }
            assert leaves in told
            assert joint.loose or any(n < leaves for n in told)  # a mitre is cut before all else
            marks = [
                n
                for n, words in enumerate(headings)
                if words.startswith(("Lay on", "Lay the templates on", "Mark"))
                and (member.role in words or "temp" in words)
            ]
            assert all(marks[0] <= n < leaves for n, (_, is_waste) in told.items() if is_waste)


def test_a_hole_that_is_pricked_is_not_seen_before_it_is_bored():
    """Its ring is on the template; that is cut away before the edges are sawn."""
    joint, point = joint_of("drawbored-mortise-and-tenon"), (32, 43, 18)
    headings = [step.heading for step in joint.steps]
    marked, bored = (headings.index(one) for one in (CHEEK, HOLE))
    with_hole = {
        n: lies_in(point, (*one.taken, *one.waste))
        for n, view in enumerate(views(joint))
        for one in (view.pieces if view else ())
        if one.member is joint.members[0] and marked <= n <= bored
    }
    first, *between, last = with_hole
    assert (first, last) == (marked, bored)
    assert len(between) == 2  # the edges are sawn, and the joint is tried
    assert [n for n, has_hole in with_hole.items() if has_hole] == [marked, bored]


CHEEK, HOLE = "Lay on the tenon's outside cheek", "Bore the tenon"


@pytest.mark.parametrize(
    ("name", "boards"),
    [
        ("mortise-and-tenon", []),  # two lines are squared: one alone would mislead
        ("mitred-shoulder-dovetail", []),  # on the outside faces they stop at the mitred strip
        ("double-lapped-dovetail", [1]),
        ("dovetail-halving", [1]),
        ("sliding-dovetail", [1]),
    ],
)
def test_a_line_is_on_no_board_before_the_step_that_draws_it(name, boards):
    """The other board's baseline or shoulder is gauged or knifed later, on its template."""
    joint = joint_of(name)
    lined = [one.member for view in views(joint) if view for one in view.pieces if one.has_guide]
    assert lined == [joint.members[number] for number in boards]


BOTH = {"outside face", "inside face"}
EDGES = {"reference edge", "far edge"}


@pytest.mark.parametrize(
    ("name", "faces"),
    [
        ("through-dovetail", [BOTH | EDGES, BOTH]),
        ("lapped-dovetail", [BOTH | EDGES, {"inside face"}]),
        ("full-blind-dovetail", [{"inside face"}] * 2),
        ("housing", [{"inside face"} | EDGES]),
    ],
)
def test_a_line_is_drawn_on_the_faces_that_its_step_names(name, faces):
    """By the words of the steps; seen from all corners of a room."""
    joint = joint_of(name)
    view = next(view for view in views(joint) if view and any(o.has_guide for o in view.pieces))
    for worked, expected in zip(view.pieces, faces, strict=True):
        lined = set()
        for signs in product((1.0, -1.0), repeat=3):
            right, up, eye = ((signs[0], 0.0, 0.0), (0.0, signs[1], 0.0), (0.0, 0.0, signs[2]))
            for rows in ((right, up, eye), (up, eye, right), (eye, right, up)):
                made = piece(worked, Frame(rows), Shown(Fraction(20)))
                lined |= {one.face[0] for one in made.lines if one.line is Line.GUIDE}
        assert lined == expected


def test_sawn_down_the_cheeks_all_waste_is_still_there():
    joint = joint_of("mortise-and-tenon")
    (view,) = (
        view
        for step, view in zip(joint.steps, views(joint), strict=True)
        if step.task is Task.SAW_DOWN
    )
    (worked,) = view.pieces
    assert (len(worked.taken), len(worked.waste), worked.is_sawn) == (0, 2, True)


ONE_FROM_THE_OTHER = re.compile(
    r"^Mark (.* )?from the (tails|fingers|key itself): |[Ll]ay the \w+ itself"
)


@pytest.mark.parametrize(
    "name",
    [
        *(one for one in KINDS if "box-joint" in one or one.endswith("key")),
        *("angled-dovetail", "canted-dovetail", "lapped-dovetail", "through-dovetail"),
        *("mitred-shoulder-dovetail", "halving", "dovetail-halving", "bridle"),
    ],
)
def test_what_one_is_marked_from_is_shown_beside_it_apart_and_cut(name):
    """A board that is laid on the other, or a key, is finished before: it is what is right."""
    found = 0
    for joint in varied(name):
        for step, view in zip(joint.steps, views(joint), strict=True):
            if not ONE_FROM_THE_OTHER.search(f"{step.heading}: {step.words}"):
                continue
            assert view.is_apart
            marked, cut = view.pieces[1], view.pieces[-1 if joint.loose else 0]
            assert marked.waste
            assert not any(one.stage == gone.stage for one in marked.waste for gone in marked.taken)
            assert (cut.waste, bool(cut.taken)) == ((), True)
            found += 1
    assert found


def test_a_groove_is_in_no_picture_before_it_is_ploughed():
    joint = joint_of(KIND.name, groove={"width": "4 mm", "from_edge": "10 mm"})
    tasks = [step.task for step in joint.steps]
    grooved = [
        any(
            half.surface is Surface.GROOVE
            for one in view.pieces
            for cut in one.taken
            for half in cut.half_spaces
        )
        if view
        else None
        for view in views(joint)
    ]
    at = tasks.index(Task.PLOUGH)
    assert True not in grooved[:at]
    assert grooved[at:].count(True) >= 1


def test_of_groove_and_rebate_each_is_seen_from_its_own_step_on():
    """The groove lies 10 to 14 from the reference edge, the rebate 5 mm wide along the far one."""
    rebate = {"width": "5 mm", "depth": "4 mm", "edge": "far"}
    groove = {"width": "4 mm", "from_edge": "10 mm"}
    joint = joint_of(KIND.name, groove=groove, rebate=rebate)
    middles = Fraction(12), joint.members[0].part.board.width - 2
    seen = {
        step.heading: [
            any(
                lies_in(
                    (x, joint.members[0].part.reach + 20, one.member.part.board.thickness - 1),
                    (cut,),
                )
                for one in view.pieces
                for cut in one.taken
                if cut.is_groove
            )
            for x in middles
        ]
        for step, view in zip(joint.steps, views(joint), strict=True)
        if view and step.task is Task.PLOUGH
    }
    assert seen == {"Plough the groove": [True, False], "Plane the rebate": [True, True]}


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_ends_with_all_pieces_whole_and_shows_no_stage_twice(name):
    joint = joint_of(name)
    told = [view for view in views(joint) if view]
    assert told[-1] == finished(joint)
    assert len(told) >= 3
    assert all(one not in told[:number] for number, one in enumerate(told))
    for view in told:
        for one in view.pieces:
            sound = [set(cut.half_spaces) for cut in one.member.part.cuts]
            assert all(any(own <= set(cut.half_spaces) for own in sound) for cut in one.taken)
            assert not set(one.taken) & set(one.waste)


@pytest.mark.parametrize("name", KINDS)
def test_the_waste_of_every_board_is_shown_and_is_all_that_leaves_it(name):
    joint = joint_of(name)
    pieces = with_waste(joint).pieces
    assert [one.member for one in pieces] == [one for one in joint.members if one.part.cuts]
    for one in pieces:
        assert one.waste
        assert {*one.taken, *one.waste} == set(one.member.part.cuts)


def test_slots_for_feathers_are_in_no_picture_before_the_mitre_is_glued():
    """Two boards by themselves, each with its mitre; then one corner, across which it is sawn."""
    kind, parameters = KINDS["splined-mitre"], {"form": "feathers", "feathers": 3}
    joint = kind.build(request(kind, "90 mm", ("18 mm", "18 mm"), Units.MM, **parameters))
    told = [
        (step.task, view.is_apart, *((len(one.taken), len(one.waste)) for one in view.pieces[:2]))
        for step, view in zip(joint.steps, views(joint), strict=True)
        if view and step.task is not Task.MAKE_KEYS
    ]
    assert told == [
        (Task.LAY_ON, True, (0, 1), (0, 1)),
        (Task.MITRE, True, (1, 0), (1, 0)),
        (Task.JOIN, False, (1, 0), (1, 0)),
        (Task.LAY_ON, False, (1, 3), (1, 3)),
        (Task.CUT_SECOND, False, (4, 0), (4, 0)),
        (Task.GLUE, False, (4, 0), (4, 0)),
    ]
