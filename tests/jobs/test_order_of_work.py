"""The order of work of a whole job: what is said once, and where it is found again."""

import re
from pathlib import Path

import pytest

from joinery_templates.jobs.order_of_work import orders_of_work
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.rods import rods
from joinery_templates.jobs.standing import by_board, pieces
from joinery_templates.jobs.starter import starter
from joinery_templates.joint import Task
from joinery_templates.joints.catalogue import kinds

SAMPLES = sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.toml"))
LIKE = re.compile(r"As in step (\d+) of (.+?), sheet [^ ]\. ?(?=[A-Z]|$)")
ROD = re.compile(
    r"^Where the rod for (.+) has a mark, take it from the rod; measure only what it lacks\. "
)
STRIPS = re.compile(
    r" On further pieces the setting-out strips? gives? .* without a template\.$"
    r"| Laid across the edge, the setting-out strips? must show the same lines\.$"
)
EITHER = re.compile(r"^Lay on either the folded template or the flat ones, .*? like this\. ")
FREE = r"^If a board that is not in this job comes to the open end, .*? before you glue\. "
WAITS = r"^A board here has other joints too\. Cut all of .+? before you glue, .+? is glued\. "


def sentences(words: str) -> list[str]:
    return re.split(r"(?<=\.) (?=[A-Z])", re.sub(WAITS, "", re.sub(FREE, "", words)))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_step_says_all_that_its_joint_says_or_names_an_earlier_step_that_says_it(path):
    job = read_job(path.read_text("utf-8"))
    printed, told = {}, []
    for one, steps in zip(job.joints, orders_of_work(job), strict=True):
        for number, (step, own) in enumerate(zip(steps, one.joint.steps, strict=True), start=1):
            assert (step.task, step.heading) == (own.task, own.heading)
            words = EITHER.sub("", STRIPS.sub("", ROD.sub("", step.words)))
            like = LIKE.findall(words)
            assert len(like) <= 1, "no one wants to look in two places"
            said = sentences(LIKE.sub("", words))
            printed[f"{number}", one.name] = said
            told.append(LIKE.sub("", words))
            is_first = number == next(n for n, s in enumerate(steps, 1) if s.task is step.task)
            is_choice = step.task is Task.LAY_ON and is_first and len(one.views) > 1
            assert bool(EITHER.search(step.words)) == is_choice
            assert like or said == sentences(own.words)
            named = [sentence for step in like for sentence in printed[step]]
            assert set(sentences(own.words)) <= {*said, *named}
    long = [words for words in told if len(words) > 100]
    assert len(long) == len(set(long))


def test_what_stands_on_a_rod_is_marked_from_it():
    """The stool's rails come to its legs, of which a rod is drawn; the drawer has no rods."""
    drawer, stool = (
        read_job(path.read_text("utf-8"))
        for path in SAMPLES
        if path.stem in {"kitchen_drawer", "stool"}
    )
    assert [rod.board.called for rod in rods(stool)] == ["LEG"]
    for steps in orders_of_work(stool):
        named = [step for step in steps if ROD.search(step.words)]
        assert [ROD.search(step.words)[1] for step in named] == ["LEG"]
        assert named[0].task is Task.GAUGE
        assert "square" in named[0].words
    assert not any(ROD.search(step.words) for steps in orders_of_work(drawer) for step in steps)


def test_the_two_sides_of_a_piece_on_legs_are_glued_first_with_all_their_rails():
    """The stool's short rails and stretchers run from A to B and from D to C."""
    (path,) = (path for path in SAMPLES if path.stem == "stool")
    job = read_job(path.read_text("utf-8"))
    (words,) = {one.joint.steps[-1].words for one in job.joints}
    (told,) = re.findall(r"Glue legs (\w) and (\w) with all rails .* and (\w) and (\w) like", words)
    ones = by_board(job.joints)
    for rail in ("short rail", "stretcher"):
        ends = [{one.placed.corner.letter for one in piece} for piece in pieces(ones[rail])]
        assert sorted(map(sorted, ends)) == sorted(map(sorted, (told[:2], told[2:])))


FIRST_ON_BOTH, BY_ITSELF = "on: first one on both", ") on the board that meets it."
DIAGONALS, OPEN_END = "the diagonals are equal", "as wide at its open end"
OTHER_JOB = "comes to the open end, cut its joints too"
UNKNOWN = "joined at both ends", "an open piece"
EITHER_WAY = (FIRST_ON_BOTH, BY_ITSELF, DIAGONALS, OPEN_END, OTHER_JOB, *UNKNOWN)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("canted_tray", [[FIRST_ON_BOTH, DIAGONALS]]),
        # A back between two sides, whose front ends stand free.
        ("workshop_drawer", [[BY_ITSELF, OPEN_END, OTHER_JOB]]),
        # The sides have a front at one end and a back at the other.
        ("writing_box", [[FIRST_ON_BOTH, DIAGONALS]] * 2),
        # A ring has neither; its three pin boards do not lie parallel.
        ("six_sided_box", [[]]),
    ],
)
def test_of_how_a_piece_closes_and_is_tested_only_the_case_that_holds_is_said(name, told):
    (path,) = (path for path in SAMPLES if path.stem == name)
    orders = orders_of_work(read_job(path.read_text("utf-8")))
    said = [" ".join(step.words for step in steps) for steps in orders]
    assert [[words for words in EITHER_WAY if words in one] for one in said] == told
    assert not any("lie parallel" in one for one in said)


def test_before_an_open_piece_is_glued_what_another_job_has_for_its_open_end_is_cut():
    """The drawer's front is a job of its own; the kitchen drawer has its front in the same one."""
    drawer, kitchen = (
        [step.words for steps in orders_of_work(read_job(path.read_text())) for step in steps]
        for path in sorted(SAMPLES, reverse=True)
        if path.stem in {"workshop_drawer", "kitchen_drawer"}
    )
    told = (
        "If a board that is not in this job comes to the open end, cut its joints too and try the "
        "whole piece dry before you glue. "
    )
    (said,) = (words for words in drawer if "not in this job" in words)
    assert said.startswith(told)
    assert "Put the tail board (SIDE) on the board that meets it." in said
    assert not any("not in this job" in words for words in kitchen)


@pytest.mark.parametrize(
    ("views", "is_choice"),
    [
        (["wrap", "faces"], True),
        (["wrap", "faces", "end-grain"], True),
        (["wrap", "end-grain"], False),
        (["faces", "end-grain"], False),
    ],
)
def test_a_choice_of_templates_is_told_where_there_are_folded_and_flat_ones(views, is_choice):
    """The end grain alone is no template of an end's faces, which a folded one would double."""
    path = next(path for path in SAMPLES if path.stem == "tea_box")
    text = re.sub(r"(?m)^views = .*\n", "", path.read_text("utf-8"))
    text = text.replace("kind = ", f"views = {views}\nkind = ".replace("'", '"'), 1)
    steps = [step for steps in orders_of_work(read_job(text)) for step in steps]
    told = [step.task for step in steps if EITHER.search(step.words)]
    assert told == [Task.LAY_ON] * is_choice


def made_of(lengths: dict[str, int], joints: str) -> str:
    boards = "".join(
        f"[boards.{name}]\nwidth = 90\nthickness = 24\nlength = {long}\n"
        for name, long in lengths.items()
    )
    return f"{boards}{joints}"


def joint(kind: str, name: str, like: str, **more: object) -> str:
    corners = ", ".join(f'{{ name = "{name} {at}", like = "{at}" }}' for at in like)
    values = "".join(
        f"{key} = {value if isinstance(value, int) else chr(34) + str(value) + chr(34)}\n"
        for key, value in more.items()
    )
    return f'[[joints]]\nkind = "{kind}"\nname = "{name}"\ncorners = [{corners}]\n{values}'


TENON = "mortise-and-tenon"
IN_STILES = {"rail": "rail", "stile": "stile", "tenon_length": 50}
DOOR = made_of(
    {"stile": 900, "rail": 500, "lock": 500, "muntin": 500},
    joint(TENON, "Ends", "ABCD", at=60, **IN_STILES)
    + joint(TENON, "Lock", "AB", at=400, **IN_STILES | {"rail": "lock"})
    + joint(TENON, "Top of it", "A", at=200, rail="muntin", stile="lock", front="muntin")
    + joint(TENON, "Foot of it", "D", at=200, rail="muntin", stile="rail", front="muntin"),
)
"""The muntin's tenons stand upright and all others level: once the rails are in a stile, it
cannot come between them (worked by hand)."""
CARCASE = made_of(
    {"side": 700, "shelf": 400, "tie": 400},
    joint("sliding-dovetail", "Tie", "AB", shelf="tie", side="side", depth=8, at=300)
    + joint("dowel", "Top", "AB", form="tee", first_board="shelf", second_board="side", at=60)
    + joint("dowel", "Foot", "AB", form="tee", first_board="shelf", second_board="side", at=600),
)
"""The tie slides in from behind and holds both sides; the shelves need one side off."""
LET_IN = made_of(
    {"side": 700, "shelf": 400, "tie": 400},
    joint("sliding-dovetail", "Tie", "AB", shelf="tie", side="side", depth=8, at=300)
    + joint("housing", "Top", "AB", shelf="shelf", side="side", depth=8, at=60),
)
"""In housings the shelf too goes in from behind, along them."""
RING = made_of(
    {"stile": 900, "rail": 500, "bar": 500},
    joint("bridle", "Corners", "ABCD", rail="rail", stile="stile")
    + joint("halving", "Bar", "AB", form="tee", rail="bar", stile="stile", at=400),
)
"""The bar holds the stiles for good till it is lifted off; the rails go on endways or upright."""
ORDER = re.compile(r"Glue ([^.]+) first, and ([^.]+) last: the other way round they do not go")


ROLES = {
    "through-dovetail": ("tail_board", "pin_board"),
    "box-joint": ("first_board", "second_board"),
}


@pytest.mark.parametrize("kind", ROLES)
@pytest.mark.parametrize("names", [("side", "end"), ("side", "side")])
def test_a_board_between_two_that_end_free_goes_on_both_and_is_open_all_the_same(kind, names):
    """Corners A and B are the two ends of the left side; near and far board end on the right.

    Also where all three are of one size and so have one name.
    """
    boards = dict(zip(ROLES[kind], names, strict=True))
    text = made_of(dict.fromkeys(names, 300), joint(kind, "U", "AB", **boards))
    (steps,) = orders_of_work(read_job(f'units = "mm"\n{text}'))
    said = " ".join(step.words for step in steps)
    told = [FIRST_ON_BOTH, OPEN_END, OTHER_JOB]
    assert [words for words in EITHER_WAY if words in said] == told


def test_an_open_piece_whose_boards_have_other_joints_too_is_tried_dry_once():
    """Both sentences before the glue end in the dry trial."""
    shelf = joint("housing", "Shelf", "AB", shelf="shelf", side="end", depth=6, at=150)
    text = made_of(
        {"side": 300, "end": 300, "shelf": 200},
        joint("through-dovetail", "U", "AB", tail_board="side", pin_board="end") + shelf,
    )
    first, *_ = orders_of_work(read_job(f'units = "mm"\n{text}'))
    (said,) = (step.words for step in first if step.task is Task.GLUE)
    assert OTHER_JOB in said
    assert "has other joints too" in said
    assert said.count(" and try the whole piece dry") == 1


@pytest.mark.parametrize("kind", ROLES)
def test_where_boards_of_a_name_are_joined_at_one_end_and_at_both_either_case_is_said(kind):
    """At A, B and C: the left side has both ends joined, the right one its far end alone."""
    boards = dict(zip(ROLES[kind], ("side", "end"), strict=True))
    text = made_of(dict.fromkeys(boards.values(), 300), joint(kind, "Corners", "ABC", **boards))
    (steps,) = orders_of_work(read_job(f'units = "mm"\n{text}'))
    said = " ".join(step.words for step in steps)
    assert OTHER_JOB not in said
    assert all(words in said for words in UNKNOWN)


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        (DOOR, "Top of it and Foot of it", "Ends and Lock"),
        (CARCASE, "Top and Foot", "Tie"),
    ],
)
def test_what_could_not_be_reached_later_is_glued_first(text, first, last):
    job = read_job(f'units = "mm"\n{text}')
    told = [
        ORDER.search(step.words)
        for steps in orders_of_work(job)
        for step in steps
        if step.task is Task.GLUE and not LIKE.search(step.words)
    ]
    assert told
    assert {match and match.groups() for match in told} == {(first, last)}


@pytest.mark.parametrize("text", [LET_IN, RING])
def test_where_a_joint_opens_in_several_ways_no_order_is_told(text):
    """Worked by hand: each piece goes together in either order."""
    for steps in orders_of_work(read_job(f'units = "mm"\n{text}')):
        assert not any("the other way round" in step.words for step in steps)


GROOVED = re.sub(r'(kind = "mortise.+)', r"\1\ngroove = { width = 8, depth = 10 }", DOOR)


def test_a_board_with_panels_on_both_sides_is_grooved_along_both_edges():
    """Above the lock rail is one panel, below it are two, with the muntin between them.

    The stiles go on past the rails at their ends, so their grooves stop; the muntin's do not.
    """
    steps = [step for one in orders_of_work(read_job(f'units = "mm"\n{GROOVED}')) for step in one]
    words = [step.words for step in steps if step.task is Task.PLOUGH]
    assert words[0].endswith(
        " A panel stands on either side of LOCK and MUNTIN: work the far edge there likewise."
    )
    assert [bool(LIKE.search(one)) for one in words] == [False, True, False, True]
    # The muntin's mortises are in two of the rails, all others in the stiles.
    told = re.match(
        r"First cut all mortises, notches, housings and holes in ([A-Z, and]+):", words[0]
    )
    assert told
    assert sorted(re.split(", | and ", told[1])) == ["LOCK", "RAIL", "STILE"]


def test_in_a_rebate_stands_a_panel_or_glass():
    rebated = re.sub(r'(kind = "mortise.+)', r"\1\nrebate = { width = 10 }", DOOR)
    steps = [step for one in orders_of_work(read_job(f'units = "mm"\n{rebated}')) for step in one]
    (words,) = (step.words for step in steps if "either side" in step.words)
    said = " A panel or glass stands on either side of LOCK and MUNTIN: work the far edge there"
    assert words.endswith(f"{said} likewise.")


def test_with_no_rail_beyond_it_a_rail_has_a_panel_on_one_side():
    groove = "{ width = 8, depth = 10 }"
    boards = {"stile": 900, "rail": 500, "lock": 500}
    ends = joint(TENON, "Ends", "CD", at=60, **IN_STILES)
    lock = joint(TENON, "Lock", "AB", at=400, **IN_STILES | {"rail": "lock"})
    text = made_of(boards, f"{ends}groove = {groove}\n{lock}groove = {groove}\n")
    steps = [step for one in orders_of_work(read_job(f'units = "mm"\n{text}')) for step in one]
    assert not any("either side" in step.words for step in steps)


SEAM = joint("tongue-and-groove", "Seam", "A", first_board="one", second_board="other")
KEYS = joint("dovetail-key", "Keys", "A", first_board="one", second_board="other", keys=2)


@pytest.mark.parametrize("joints", [SEAM + KEYS, KEYS + SEAM])
def test_a_seam_that_is_shot_and_glued_for_its_tongue_is_not_shot_again_for_keys(joints):
    """The sockets are cut in glued boards, so the seam does not wait for them either."""
    job = read_job(f'units = "mm"\n{made_of({"one": 900, "other": 900}, joints)}')
    orders = zip(job.joints, orders_of_work(job), strict=True)
    steps = {one.name: {step.heading: step.words for step in steps} for one, steps in orders}
    assert re.match(r"Done in step 1 of Seam, sheet .\.$", steps["Keys"]["Shoot the edges"])
    assert re.match(r"Done in step 5 of Seam, sheet .: let .+", steps["Keys"]["Join the boards"])
    assert [*steps["Seam"]][4] == "Fit and glue"
    assert not any("before you glue" in words for of in steps.values() for words in of.values())


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_of_joints_that_all_open_alike_no_order_is_told(path):
    """None of these pieces must be closed in turns: worked out by looking at each."""
    words = (
        step.words for steps in orders_of_work(read_job(path.read_text("utf-8"))) for step in steps
    )
    assert not any("the other way round" in one for one in words)


BRACED = """
title = "Gate"
units = "mm"
boards.stile = { width = 80, thickness = 32, length = 900 }
boards.rail = { width = 70, thickness = 32, length = 640 }
boards.brace = { width = 60, thickness = 30, length = 704 }
boards.muntin = { width = 50, thickness = 30 }
[[joints]]
kind = "mortise-and-tenon"
name = "Rails"
rail = "rail"
stile = "stile"
at = 40
corners = [{ name = "Top left", like = "A" }, { name = "Top right", like = "B" }]
[[joints]]
kind = "mortise-and-tenon"
name = "Brace"
rail = "brace"
stile = "stile"
at = 420
angle = 60
corners = [{ name = "Brace left", like = "A" }]
[[joints]]
kind = "mortise-and-tenon"
name = "Muntin"
rail = "muntin"
stile = "rail"
at = 300
front = "muntin"
corners = [{ name = "Upper end", like = "A" }]
"""


def test_a_rails_lines_are_squared_on_both_stiles_together_only_where_both_have_the_joint():
    """The brace comes to the left stile here, and the muntin to the one top rail."""
    found = {}
    job = read_job(BRACED)
    for one, steps in zip(job.joints, orders_of_work(job), strict=True):
        (words,) = (step.words for step in steps if step.heading.startswith("Square the rail's"))
        found[one.name] = re.findall(
            r"Clamp both stiles together|This joint is on .*? alone", words
        )
    assert found == {
        "Rails": ["Clamp both stiles together"],
        "Brace": ["This joint is on STILE (Brace left) alone"],
        "Muntin": ["This joint is on RAIL (Upper end) alone"],
    }


@pytest.mark.parametrize("name", kinds())
@pytest.mark.parametrize(("views", "printed"), [("faces", True), ("end-grain", False)])
def test_no_step_folds_a_template_where_none_that_folds_is_printed(name, views, printed):
    """Nor are those of the faces laid on where the end grain alone has one."""
    text = re.sub(r"(?m)^views = .*$", f'views = ["{views}"]', starter(kinds()[name]))
    job = read_job(text)
    assert job.joints[0].views == (views,)
    words = " ".join(step.words for steps in orders_of_work(job) for step in steps)
    assert "crease" not in words
    assert "Fold it over" not in words
    assert printed or not re.search(r"those of the (outside|faces)", words)


def test_a_flat_template_of_the_end_grain_comes_before_those_of_the_faces():
    """Its tab lies on a face, and would lie on the other template."""
    text = re.sub(r"(?m)^views = .*$", 'views = ["faces"]', starter(kinds()["through-dovetail"]))
    job = read_job(text)
    ((step, *_),) = ([s for s in steps if s.task is Task.LAY_ON] for steps in orders_of_work(job))
    assert step.words.index("end grain on by its tab") < step.words.index("those of the faces")


CASE = """
units = "mm"
boards.side = { width = 250, thickness = 20, length = 700 }
boards.top = { width = 250, thickness = 20, length = 500 }
boards.shelf = { width = 241, thickness = 18, length = 472 }
[[joints]]
kind = "through-dovetail"
corners = [{ name = "Top left", like = "A" }, { name = "Top right", like = "D" }]
tail_board = "side"
pin_board = "top"
rebate = { width = 9, depth = 8, edge = "far" }
"""
SHELF = """
[[joints]]
kind = "sliding-dovetail"
corners = [{ name = "Shelf left", like = "A" }, { name = "Shelf right", like = "B" }]
shelf = "shelf"
side = "side"
at = 300
"""


@pytest.mark.parametrize(("more", "waits"), [("", False), (SHELF, True)])
def test_a_rebate_is_planed_when_all_that_is_let_into_its_board_is_cut(more, waits):
    """The section on the far edge is marked on wood that the rebate takes away."""
    steps, *_ = orders_of_work(read_job(CASE + more))
    (plough,) = (step for step in steps if step.task is Task.PLOUGH)
    told = "First cut all mortises, notches, housings and holes in SIDE: their templates want "
    assert plough.words.startswith(told) == waits


FRAME = """
units = "mm"
boards.rail = { width = 60, thickness = 24, length = 380 }
boards.stile = { width = 60, thickness = 24, length = 640 }
boards.bar = { width = 30, thickness = 20, length = 417 }
[[joints]]
kind = "mortise-and-tenon"
corners = [
    { name = "Top left", like = "A" }, { name = "Top right", like = "B" },
    { name = "Bottom right", like = "C" }, { name = "Bottom left", like = "D" },
]
rail = "rail"
stile = "stile"
horn = 20
"""
BAR = """
[[joints]]
kind = "halving"
corners = [{ name = "Bar, left", like = "A" }, { name = "Bar, right", like = "B" }]
rail = "bar"
stile = "stile"
form = "tee"
at = 300
"""


@pytest.mark.parametrize("channel", ["rebate = { width = 8 }", "groove = 8"])
@pytest.mark.parametrize(("more", "waits"), [("", False), (BAR, True)])
def test_a_notch_across_a_stile_is_cut_before_its_rebate_or_groove(channel, more, waits):
    """It is marked across the face and on both edges, of which the rebate takes one line."""
    steps, *_ = orders_of_work(read_job(f"{FRAME}{channel}\n{more}"))
    (plough,) = (step for step in steps if step.task is Task.PLOUGH)
    told = "First cut all mortises, notches, housings and holes in STILE: their templates want "
    assert plough.words.startswith(told) == waits


LEVEL, CHOSEN = "comes, level with the end that this edge faces, ", ", at a place that you choose, "
"""Where a rail's far edge comes, on the stile."""


@pytest.mark.parametrize(
    ("ends", "lock", "twice", "told"),
    [
        # The plainest frame: its rails' far edges are the door's top and bottom.
        ({}, None, "", [LEVEL]),
        ({"kind": "drawbored-mortise-and-tenon"}, None, "", [LEVEL]),
        ({"corners": "AB"}, None, "", [CHOSEN]),
        ({"horn": 20}, None, "", []),
        ({}, {"at": 400}, "LOCK", [LEVEL]),
        ({}, {}, "LOCK", [LEVEL, CHOSEN]),
        ({"horn": 20}, {}, "LOCK", [CHOSEN]),
        # Between the end and a rail 90 away there is just room for one 90 wide, or none.
        ({}, {"at": 90}, "LOCK", [LEVEL]),
        ({}, {"at": 89}, "RAIL", [CHOSEN]),
        # Nobody can know which stands nearer to the end; the second step says the same.
        ({"corners": "AB"}, {}, "", [CHOSEN]),
    ],
)
def test_a_rail_whose_place_nobody_told_is_at_the_end_if_there_is_room(ends, lock, twice, told):
    groove = "groove = { width = 8, depth = 10 }\n"
    more = {"kind": TENON, "name": "Ends", "like": ends.get("corners", "ABCD")} | IN_STILES
    text = joint(**more | {key: ends[key] for key in ends if key != "corners"}) + groove
    if lock is not None:
        text += joint(TENON, "Lock", "AB", **IN_STILES | {"rail": "lock"} | lock) + groove
    text = made_of({"stile": 900, "rail": 500, "lock": 500}, text)
    steps = [step for one in orders_of_work(read_job(f'units = "mm"\n{text}')) for step in one]
    words = " ".join(step.words for step in steps)
    said = f" A panel stands on either side of {twice}: work the far edge there likewise."
    assert (said in words) if twice else "either side" not in words
    assert re.findall("|".join((LEVEL, CHOSEN)), words) == told


PARTITION = """
units = "mm"
boards.lid = {{ width = 240, thickness = 20, length = 900 }}
boards.wall = {{ width = 240, thickness = 18, length = 400 }}
[[joints]]
kind = {kind}
name = "Wall"
corners = [{corners}]
{roles}
front = "wall"
at = 300
"""
SHELVED = 'shelf = "wall"\nside = "lid"\n'


@pytest.mark.parametrize(
    ("kind", "roles"),
    [
        ('"housing"', SHELVED),
        ('"housing"', SHELVED + "stop = 12\nshoulder = 5"),
        ('"sliding-dovetail"', SHELVED),
        ('"dowel"\nform = "tee"', 'first_board = "wall"\nsecond_board = "lid"'),
    ],
)
@pytest.mark.parametrize(
    ("letters", "end"),
    [
        # Outside faces are out and front edges down: a top's left-hand end is at the left, at A;
        # a bottom is looked at from below, and has its right-hand end there, at D.
        ("A", "left-hand end"),
        ("B", "right-hand end"),
        ("D", "right-hand end"),
        ("AB", "end that its template names"),
    ],
)
def test_what_a_partition_stands_on_has_no_top_and_the_partition_no_upper_face(
    kind: str, roles: str, letters: str, end: str
) -> None:
    corners = ", ".join(f'{{ name = "Wall {one}", like = "{one}" }}' for one in letters)
    text = PARTITION.format(kind=kind, corners=corners, roles=roles)
    job = read_job(text)
    (steps,) = orders_of_work(job)
    words = " ".join(step.words for step in steps)
    assert f"300 mm from the {end}" in words
    assert f"▲ towards the {end}" in words
    for false in ("top end", "top of", "upper face", "lower face", "as a pair", "both sides tog"):
        assert false not in words
    joint = job.joints[0].joint
    assert "upper" not in joint.members[1].part.line
    figures = " ".join([one.name for one in joint.sizes] + [one.use for one in joint.lengths])
    assert not re.search("(upper|lower) face", figures)
    up = [joint.placed(one)[1].up_end for one in job.joints[0].corners]
    assert up == [{"A": "left-hand end"}.get(one, "right-hand end") for one in letters]
    (rod,) = rods(job) if len(letters) == 1 else [None]
    assert rod is None or rod.start == end
