"""What every kind of joint owes: one suite over the catalogue, so a new file is tested at once."""

import os
import re
import sys
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from itertools import chain
from pathlib import Path
from unittest import mock

import numpy as np
import pytest
from msgspec.structs import replace

import joinery_templates.joints
from joinery_templates.errors import InputError, Level
from joinery_templates.exact import Fraction
from joinery_templates.jobs.tables import JointTable
from joinery_templates.joint import Joint, Mark
from joinery_templates.joints import catalogue
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import RESERVED, Kind
from joinery_templates.joints.parameter import Parameter, Quantity, names_of, read_parameters
from joinery_templates.joints.sources import BOOKS
from joinery_templates.lengths import Units, length_text, read_length
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import lay_out
from tests.cli.command_line import run, run_apart
from tests.joints.solids import CLOSE_MM3, full_regions, mate, with_fault
from tests.joints.strategies import example_request
from tests.joints.varied import varied
from tests.wood.slices import length_of_lines, outline_of_waste, shared_stretches

KINDS = tuple(kinds().values())
WRAPPED = (Face.OUTSIDE, Face.END_GRAIN, Face.INSIDE)
"""The faces that a wrap folds over."""
every_kind = pytest.mark.parametrize("kind", KINDS, ids=[kind.name for kind in KINDS])


DECLARED = {
    replace(parameter, name=""): (kind, parameter)
    for kind in KINDS
    for parameter in kind.parameters
}
"""Each declaration once, whichever and however many kinds have it, with one that does."""


@cache
def example(name: str) -> Joint:
    kind = kinds()[name]
    return kind.build(example_request(kind))


def misplaced(joint: Joint) -> list[Mark]:
    """Marks that do not stand on their board, or not in order."""
    found = []
    for row in joint.rows:
        reached = Fraction(0)
        for mark in row.marks:
            if not reached < mark.position < row.width:
                found.append(mark)
            reached = mark.position
    return found


# What stands in the kind


@every_kind
def test_a_kind_says_what_it_is_and_where_its_rules_come_from(kind):
    assert kind.name == kind.name.lower().replace(" ", "-").replace("_", "-")
    assert kind.title
    assert kind.summary.endswith(".")
    assert kind.sources
    assert all(len(source) >= 10 for source in kind.sources)
    assert len({role.key for role in kind.roles}) == 2


def test_a_parameter_has_help_and_limits_and_says_what_holds_without_it():
    for _, parameter in DECLARED.values():
        assert parameter.help.endswith(".")
        assert len(parameter.help) > 15
        assert parameter.rule or parameter.default is not None, parameter
        assert all(parameter.limits_text(units) for units in Units), parameter


def test_a_default_is_a_value_that_could_be_given():
    for _, parameter in DECLARED.values():
        given = parameter.default
        if parameter.quantity is Quantity.SLOPE and given is not None:
            assert isinstance(given, Fraction)
            given = f"{given.numerator}:{given.denominator}"
        if given is not None:
            assert parameter.read(given, Units.MM) == parameter.default


@every_kind
def test_the_example_uses_the_kinds_own_parameters(kind):
    names = [name for name, _ in kind.example.parameters]
    assert set(names) <= {parameter.name for parameter in kind.parameters}
    assert len(names) == len(set(names))


# What is refused


def outside(parameter: Parameter) -> Iterator[object]:
    """Values just outside the limits, and ones that cannot be read."""
    yield "no such thing"
    if parameter.quantity is Quantity.SLOPE:
        yield from ("1:1.99", "1:60.01", "0:6", "6:0", "60 deg", 6)
    elif parameter.quantity is Quantity.CHOICE:
        yield from ("", 1, parameter.choices[0].upper())
    else:
        step = 1 if parameter.quantity is Quantity.COUNT else Fraction(1, 1000)
        whole = int if parameter.quantity is Quantity.COUNT else Fraction
        if parameter.low is not None:
            yield whole(parameter.low) if parameter.above else whole(parameter.low - step)
        if parameter.high is not None:
            yield whole(parameter.high + step)
        yield None


def test_a_value_outside_the_limits_is_refused_by_the_parameters_name():
    cases = [(*one, value) for one in DECLARED.values() for value in outside(one[1])]
    for kind, parameter, value in cases:
        with pytest.raises(InputError) as caught:
            read_parameters(kind.parameter_class, {parameter.name: value}, Units.MM)
        (finding,) = caught.value.findings
        assert finding.place == parameter.name
        assert finding.level is Level.ERROR
        assert finding.code
        assert finding.message
        assert finding.remedy


def just_inside(parameter: Parameter) -> Iterator[object]:
    """The outermost values that are allowed."""
    if parameter.quantity is Quantity.SLOPE:
        yield from ("1:2", "1:60")
    elif parameter.quantity is Quantity.CHOICE:
        yield from parameter.choices
    else:
        whole = int if parameter.quantity is Quantity.COUNT else Fraction
        if parameter.low is not None:
            low = whole(parameter.low)
            yield low + Fraction(1, 1000) if parameter.above else low
        if parameter.high is not None:
            yield whole(parameter.high)


@every_kind
def test_a_value_at_the_limits_builds_soundly_or_is_refused_kindly(kind):
    cases = [(one.name, value) for one in kind.parameters for value in just_inside(one)]
    for given in cases:
        try:
            joint = kind.build(example_request(kind, **dict([given])))
        except InputError as error:
            findings = error.findings
            assert findings
        else:
            findings = joint.findings
            assert misplaced(joint) == [], given
            assert joint.allowance < 0 or mate(joint).overlap < CLOSE_MM3, given
        for finding in findings:
            assert finding.code
            assert finding.message
            assert finding.source or finding.level is Level.ERROR


@every_kind
def test_every_mistake_among_the_values_is_told_at_once(kind):
    raw = {parameter.name: "no such thing" for parameter in kind.parameters}
    with pytest.raises(InputError) as caught:
        read_parameters(kind.parameter_class, raw, Units.MM)
    assert [finding.place for finding in caught.value.findings] == list(raw)


# What the example gives


@every_kind
def test_the_example_builds_a_joint_of_its_kind_without_any_advice_against_it(kind):
    joint = example(kind.name)
    assert joint.kind == kind.name
    assert joint.title == kind.title
    assert joint.findings == ()
    assert [member.role for member in joint.members] == [role.words for role in kind.roles]


@every_kind
def test_there_is_one_main_row_and_every_mark_stands_on_its_board_in_order(kind):
    """Or none, where a joint has no marks along a board's end: there a strip is of less use."""
    joint = example(kind.name)
    across = [row for row in joint.rows if row.along_end]
    assert bool(across) <= [row.main for row in joint.rows].count(True) <= 1
    assert misplaced(joint) == []
    widths = {member.role: member.part.board.width for member in joint.members}
    for row in joint.rows:
        assert row.width == widths[row.role] or not row.along_end
        assert row.marks
        assert all(mark.what for mark in row.marks)


BY_STRIP = re.compile(r"[^.]*setting-out strip[^.]*\.(?: Without templates[^.]*)?")
DONE = re.compile("meet prick|meet line|pencil|knife")


@every_kind
def test_a_strip_s_marks_are_knifed_pencilled_or_only_compared_as_the_steps_say(kind):
    """A nick that nobody asked for stays in a face that shows."""
    for joint in (one for one in varied(kind.name) if one.main_row):
        told = " ".join(part for one in joint.steps for part in BY_STRIP.findall(one.words))
        use = joint.main_row.use.lower()
        assert set(DONE.findall(told)) == set(DONE.findall(use)) != set(), told


@every_kind
def test_the_check_of_marks_sees_one_past_the_edge_and_two_exchanged(kind):
    joint = example(kind.name)
    if not joint.rows:
        return
    row = joint.rows[0]
    past = replace(row, marks=(*row.marks, Mark(row.width + 1, "past the edge")))
    exchanged = replace(row, marks=row.marks[::-1])
    for faulty in (past, exchanged):
        assert misplaced(replace(joint, rows=(faulty, *joint.rows[1:])))


@every_kind
def test_every_mark_stands_where_a_line_on_the_wood_ends(kind):
    joint = example(kind.name)
    for row in joint.rows:
        if not row.along_end:
            continue
        (end,) = (member.part for member in joint.members if member.role == row.role)
        ends = set()
        for face in WRAPPED:  # a lap line stands on the end grain alone
            for line in lay_out(end, face, end.reach + 10).lines:
                ends |= {line.start[0], line.end[0]}
        assert {mark.position for mark in row.marks} <= ends


@every_kind
def test_every_face_shows_the_boundary_of_its_waste_once(kind):
    joint = example(kind.name)
    for member in joint.all_members:
        for face in Face:
            length = member.part.reach + 10
            layout = lay_out(member.part, face, length)
            expected = outline_of_waste(member.part, face, length)
            assert length_of_lines(layout) == pytest.approx(expected.length, abs=1e-7)
            assert shared_stretches(layout.lines) == 0


@every_kind
def test_every_piece_carries_lines(kind):
    joint = example(kind.name)
    if not all(member.part.folds for member in joint.members):
        return
    for member in joint.all_members:
        faces = [lay_out(member.part, face, member.part.reach + 10) for face in Face]
        assert any(layout.lines for layout in faces)


@every_kind
def test_what_is_made_of_wood_of_its_own_is_its_own_mirror_image(kind):
    """Cut square through its stock, it is turned over: one template serves both hands."""
    for member, *_ in chain.from_iterable(one.of_own_wood for one in varied(kind.name)):
        for cut in member.part.cuts:
            assert all(side.normal[2] == 0 for side in cut.half_spaces)


@every_kind
def test_the_boards_mate(kind):
    joint = example(kind.name)
    mated = mate(joint)
    assert full_regions(joint)
    assert joint.allowance < 0 or mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3 or joint.allowance > 0


@every_kind
def test_the_check_of_mating_sees_a_cut_out_of_place_in_either_board(kind):
    joint = example(kind.name)
    for number, member in enumerate(joint.members):
        if not member.part.cuts:  # it loses no wood, and the other board must fit it
            continue
        middle = len(member.part.cuts) // 2
        # Along the axis where it shows most: a housing may run right across its board.
        faults = [mate(with_fault(joint, number, Fraction("0.2"), middle, a)) for a in range(3)]
        assert max(max(faulty.clash, faulty.missing) for faulty in faults) > 1


@every_kind
def test_ends_that_meet_are_of_opposite_hand_where_their_frames_are_mirror_images(kind):
    """Side by side they are not, and both are ends of one hand."""
    joint = example(kind.name)
    one, other = joint.members
    rows = np.array([[float(part) for part in row] for row in joint.placement.rows])
    assert round(np.linalg.det(rows)) == (1 if one.hand is other.hand else -1)


GAUGED = re.compile(
    r"(?:[Ss]et (?:a|one|another)(?: mortise)? gauge to|points of a mortise gauge"
    r"|[Ss]cribe the hook) (≈?[\d.]+ mm)"
)
WITHOUT_SUCH = ("mitre", "key", "mortise", "housing", "sliding")
"""Of these kinds no step says it so: nothing is gauged, or the stock and the points by turns."""


@every_kind
def test_what_the_steps_set_a_gauge_to_stands_among_the_tool_settings(kind):
    """In every form that the kind has; the words say it beside the settings, and not from them."""
    forms = [one.choices for one in kind.parameters if one.name == "form"]
    told, listed = set(), set()
    for form in chain.from_iterable(forms) if forms else [None]:
        changes = {"form": form} if form else {}
        with suppress(InputError):  # the example's parameters may not go with every form
            joint = kind.build(example_request(kind, **changes))
            told |= {figure for step in joint.steps for figure in GAUGED.findall(step.words)}
            listed |= {length_text(setting.length, Units.MM) for setting in joint.lengths}
    assert told <= listed
    assert told or any(word in kind.name for word in WITHOUT_SUCH)


@every_kind
def test_sizes_and_tool_settings_are_lengths_above_nothing(kind):
    joint = example(kind.name)
    assert joint.sizes
    assert all(length > 0 for length in (s.length for s in chain(joint.sizes, joint.lengths)))
    assert all(setting.slope > 0 for setting in joint.slopes)
    assert len({size.name for size in joint.sizes}) == len(joint.sizes)


@every_kind
def test_the_order_of_work_is_told_and_names_both_boards(kind):
    joint = example(kind.name)
    assert len(joint.steps) >= 3
    assert all(step.heading and step.words.endswith(".") for step in joint.steps)
    told = " ".join(f"{step.heading} {step.words}" for step in joint.steps)
    for board in (member.part.board for member in joint.members):
        assert board.name.upper() in told or board.name in told  # what it is called is its part


@every_kind
def test_what_a_rule_decided_names_its_source(kind):
    request = example_request(kind)
    joint = kind.build(replace(request, given=kind.parameter_class()))
    assert all(rule.endswith(").") for rule in joint.rules)


@every_kind
def test_metric_and_inch_forms_of_the_example_give_one_layout(kind):
    inches = {
        parameter.name: f"{read_length(value, Units.MM) / Units.INCH.mm} in"
        for parameter in kind.parameters
        for name, value in kind.example.parameters
        if name == parameter.name and parameter.quantity is Quantity.LENGTH
    }
    joint = kind.build(example_request(kind, Units.INCH, **inches))
    metric = example(kind.name)
    assert (joint.rows, joint.sizes) == (metric.rows, metric.sizes)
    for one, other in zip(joint.members, metric.members, strict=True):
        # How far a housing is chopped is a round figure in either unit.
        assert (one.part.sawn is None) == (other.part.sawn is None)
        if one.part.sawn:
            part = replace(one.part, sawn=other.part.sawn)
            assert replace(one, part=part) == other
        else:
            assert one == other


@every_kind
def test_a_layout_built_twice_is_the_same(kind):
    assert kind.build(example_request(kind)) == example(kind.name)


# The catalogue itself


@pytest.fixture
def joint_file(tmp_path, monkeypatch):
    """Puts a file among those of joints/ for one test, in a folder of its own."""

    def put(name: str, text: str) -> None:
        (tmp_path / f"{name}.py").write_text(text, encoding="utf-8")
        added.append(f"joinery_templates.joints.{name}")

    added: list[str] = []
    folders = [*joinery_templates.joints.__path__, str(tmp_path)]
    monkeypatch.setattr(joinery_templates.joints, "__path__", folders)
    look_again()
    yield put
    for module in added:
        sys.modules.pop(module, None)
        vars(joinery_templates.joints).pop(module.rpartition(".")[2], None)
    look_again()


def look_again() -> None:
    """Make the catalogue forget what it has found."""
    for known in (catalogue.kinds, catalogue._files, catalogue._declared):
        known.cache_clear()


TAKEN = "from joinery_templates.joints.dovetails.through_dovetail import KIND\n"
OWN = """
from msgspec.structs import replace
from joinery_templates.joints.dovetails import through_dovetail
KIND = replace(through_dovetail.KIND, name="another-dovetail")
"""


def test_a_new_file_with_a_kind_of_its_own_is_found(joint_file):
    before = set(kinds())
    look_again()
    joint_file("another_dovetail", OWN)
    assert set(kinds()) - before == {"another-dovetail"}


def test_a_kind_is_found_without_loading_any_other():
    code = (
        "import sys; from joinery_templates.joints.catalogue import known_kind\n"
        "assert known_kind('box-joint').name == 'box-joint'\n"
        "print(sorted(name for name in sys.modules if name.endswith('_dovetail')))"
    )
    done = run_apart(code=code)
    assert (done.code, done.text) == (0, "[]\n")


@pytest.mark.parametrize("text", ['KIND = "zz-faulty"\n', TAKEN], ids=["no kind", "a name taken"])
def test_a_kind_that_does_not_bear_its_files_name_is_an_error_that_names_it(joint_file, text):
    joint_file("zz_faulty", text)
    with pytest.raises(TypeError, match="zz_faulty"):
        kinds()


NAMED = """
from msgspec.structs import replace
from joinery_templates.joints.dovetails import through_dovetail
from joinery_templates.joints.shared_parameters import size_parameter

class Parameters(through_dovetail.Parameters):
    {name}: object = size_parameter("A size of its own.", "none")

KIND = replace(through_dovetail.KIND, name="zz-named", parameter_class=Parameters)
"""


@pytest.mark.parametrize("name", ["thickness", "width", "corners", "tail_board"])
def test_a_parameter_cannot_bear_a_name_that_means_something_else_beside_it(joint_file, name):
    joint_file("zz_named", NAMED.format(name=name))
    with pytest.raises(TypeError, match=rf"zz_named: .* {name}$"):
        kinds()


def test_what_a_job_file_and_quick_keep_for_themselves_is_reserved():
    """Read off both: the names beside `kind` in a job's joint, and the options of `quick`."""
    kind = kinds()["through-dovetail"]
    options = {name.replace("-", "_") for name in re.findall(r"--([a-z-]+)", _help_of(kind))}
    own = {parameter.name for parameter in kind.parameters}
    assert "second_thickness" in options
    assert set(names_of(JointTable)) | (options - own) == RESERVED


def _help_of(kind: Kind) -> str:
    with mock.patch.dict(os.environ, {"COLUMNS": "200", "TERMINAL_WIDTH": "200"}):
        done = run("quick", kind.name, "--help")
    assert done.code == 0
    return re.sub(r"\[default[^]]*\]", "", done.text)


def test_a_file_that_declares_no_kind_is_what_kinds_share(joint_file):
    before = set(kinds())
    look_again()
    joint_file("zz_shared", "")
    assert set(kinds()) == before


def test_every_kind_is_found_by_its_own_name():
    assert all(name == kind.name for name, kind in kinds().items())
    assert all(isinstance(kind, Kind) for kind in KINDS)
    assert "through-dovetail" in kinds()


@every_kind
def test_every_book_that_a_kind_cites_is_named_in_full(kind: Kind) -> None:
    """On the screen under the kind, and in the list for contributors."""
    told = " ".join(run("joints", kind.name).text.split())
    cited = {" ".join(found) for found in re.findall(r"\b([A-Z][a-z]+) (1[89]\d\d|20\d\d)\b", told)}
    for one in cited:
        (short,) = (short for short in BOOKS if short.endswith(one))
        assert f"{short}: {BOOKS[short]}." in told
    listed = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert all(f"- {short}: {full}." in listed for short, full in BOOKS.items())


@every_kind
def test_a_place_along_a_board_is_said_to_be_chosen_where_nobody_told_it(kind: Kind) -> None:
    """Where both pieces are such, they lie along a seam or cross in the middle."""
    for joint in varied(kind.name):
        places = [one.part.place(one.hand) for one in joint.members]
        along = [one.along for one in places if one.end is None]
        said = any("at a place that you choose" in step.words for step in joint.steps)
        assert said == (along == [None])
