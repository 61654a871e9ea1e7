"""A groove or rebate in a dovetailed corner by hand: where it lies, ends, and what is told."""

import pytest

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Task
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import Surface
from joinery_templates.wood.faces import lay_out
from tests.joints.test_spacing_styles import spaced, widths

EVEN = {"tails": 4, "pin": 4, "slope": "1:6"}
"""140 mm, 18 mm thick: half pins of 7 and tails of 28.5, the first clear from 10 to 32.5."""
GROOVE = {"from_edge": 10, "width": 6, "depth": 5}


def joint(
    kind: str = "through-dovetail",
    thick: tuple[object, object] = (18, 18),
    units: Units = Units.MM,
    width: object = 140,
    **raw: object,
) -> Joint:
    found = kinds()[kind]
    tails, pins = (Fraction(one) for one in thick)
    boards = (Board("side", Fraction(width), tails), Board("front", Fraction(width), pins))
    given = read_parameters(found.parameter_class, EVEN | raw, units)
    return found.build(Request(boards, given, units, Tools()))


def groove_lines(one: Joint, member: int, face: Face) -> set[tuple[tuple[float, float], ...]]:
    """The groove's lines on a face shown 30 mm long, each from its lower end."""
    layout = lay_out(one.members[member].part, face, Fraction(30))
    return {
        tuple(sorted((tuple(map(float, line.start)), tuple(map(float, line.end)))))
        for line in layout.lines
        if line.surface is Surface.GROOVE
    }


def step(one: Joint, heading: str) -> str:
    return next(step.words for step in one.steps if step.heading == heading)


def sizes(one: Joint) -> dict[str, Fraction]:
    return {size.name: size.length for size in one.sizes}


# Where it is drawn


def test_a_groove_inside_the_lowest_tail_at_its_narrowest_is_drawn_on_the_inside_faces_only():
    """Noyes 1910, no. 49: completely within the lower tail."""
    one = joint(groove=GROOVE)
    assert one.findings == ()
    # 18 mm thick, 5 deep: in the tail board it stops at the bottom of the other's groove.
    assert groove_lines(one, 0, Face.INSIDE) == {
        ((10, 13), (10, 30)),
        ((16, 13), (16, 30)),
        ((10, 13), (16, 13)),
    }
    # The pin board's begins where the socket ends.
    assert groove_lines(one, 1, Face.INSIDE) == {((10, 18), (10, 30)), ((16, 18), (16, 30))}
    for member in (0, 1):
        for face in (Face.OUTSIDE, Face.END_GRAIN, Face.REFERENCE_EDGE, Face.FAR_EDGE):
            assert groove_lines(one, member, face) == set()


def test_under_a_lap_the_groove_runs_out_at_the_tails_end():
    """19 mm front with a lap of 5: the tail ends behind it; the groove shows on its end grain."""
    one = joint("lapped-dovetail", (12, 19), lap=5, groove=GROOVE)
    assert groove_lines(one, 0, Face.INSIDE) == {((10, 0), (10, 30)), ((16, 0), (16, 30))}
    assert groove_lines(one, 0, Face.END_GRAIN) == {
        ((10, 7), (16, 7)),
        ((10, 7), (10, 12)),
        ((16, 7), (16, 12)),
    }
    assert groove_lines(one, 1, Face.END_GRAIN) == set()


def test_the_baseline_of_a_socket_runs_on_across_the_groove():
    """The groove is ploughed by itself; the chisel needs the whole baseline."""

    def baselines(one: Joint) -> set[tuple[float, ...]]:
        layout = lay_out(one.members[1].part, Face.INSIDE, Fraction(30))
        return {
            tuple(sorted(map(float, (line.start[0], line.end[0]))))
            for line in layout.lines
            if line.surface in {Surface.SHOULDER, Surface.SAWN_SHOULDER}
        }

    assert baselines(joint(groove=GROOVE)) == baselines(joint())
    assert (10, 32.5) in baselines(joint())


def test_a_groove_outside_is_kept_clear_of_and_cut_round_the_glued_corner():
    outside = joint(groove={"from_edge": 9, "width": 6, "face": "outside"})
    assert outside.members != joint().members  # the tails moved aside for it
    for member in outside.members:
        assert all(
            half_space.surface is not Surface.GROOVE
            for cut in member.part.cuts
            for half_space in cut.half_spaces
        )
    assert outside.steps[-1].heading == "Cut the groove outside"
    assert "9 mm" in outside.steps[-1].words


# How it ends


@pytest.mark.parametrize(
    ("kind", "raw", "tails", "pins"),
    [
        ("through-dovetail", {}, "stopped 13 mm", "runs out into the socket"),
        ("through-dovetail", {"tails_proud": "0.5 mm"}, "stopped 13.5 mm", "the socket"),
        ("lapped-dovetail", {"lap": 5}, "which the lap covers", "the socket"),
        # Deeper than what the lap leaves: it would cut into the lap's end grain.
        ("lapped-dovetail", {"lap": 14}, "which the lap covers", "stopped 13 mm"),
        ("double-lapped-dovetail", {"lap": 4, "tail_lap": 4}, "the lap covers", "the socket"),
        ("double-lapped-dovetail", {"lap": 4, "tail_lap": 14}, "stopped 13 mm", "the socket"),
        ("full-blind-dovetail", {"lap": 9, "mitre": 3}, "the lap covers", "the socket"),
    ],
)
def test_it_stops_where_it_would_show_and_else_runs_out(kind, raw, tails, pins):
    words = step(joint(kind, groove=GROOVE | {"from_edge": 14}, **raw), "Plough the groove")
    on_tails, on_pins = (
        next(w for w in words.split(". ") if w.startswith(f"On the {role}"))
        for role in ("tail board", "pin board")
    )
    assert tails in on_tails
    assert pins in on_pins
    assert ("knife a line across" in words) is ("stopped" in tails + pins)


@pytest.mark.parametrize("kind", ["through-dovetail", "lapped-dovetail"])
def test_a_groove_that_no_tail_takes_is_stopped_on_both_boards(kind):
    """The first pin stands from 32.5 to 42.5 on the inside, between tails of 7 to 35.5 outside."""
    one = joint(kind, half_pin=7, groove=GROOVE | {"from_edge": 34, "depth": 4})
    assert "groove-not-in-a-tail" in {finding.code for finding in one.findings}
    words = step(one, "Plough the groove")
    assert words.count("is stopped") == 3  # once for each board, and what to do
    assert {name for name in sizes(one) if "stops" in name} == {
        "groove stops, from the tail board's end",
        "groove stops, from the pin board's end",
    }


def test_sizes_tell_where_it_lies_and_where_it_stops():
    told = sizes(joint(groove=GROOVE))
    assert {name: length for name, length in told.items() if "groove" in name} == {
        "groove, from the reference edge": 10,
        "groove, how wide": 6,
        "groove, how deep": 5,
        "groove stops, from the tail board's end": 13,
    }


def test_the_groove_is_ploughed_before_the_glue():
    headings = [step.heading for step in joint(groove=GROOVE).steps]
    assert headings[-2:] == ["Plough the groove", "Fit and glue"]
    assert headings[:-2] == [step.heading for step in joint().steps[:-1]]


# How deep


@pytest.mark.parametrize(
    ("thick", "units", "depth"),
    [
        ((18, 18), Units.MM, 6),
        ((12, 19), Units.MM, 4),
        ((19, 10), Units.MM, Fraction("3.5")),  # 3.33, to a half millimetre
        ((INCH / 2, INCH * 3 / 4), Units.INCH, INCH * 3 / 16),  # 1/6 in, to a sixteenth
    ],
)
def test_without_a_depth_it_is_a_third_of_the_thinner_board(thick, units, depth):
    groove = {"from_edge": "12 mm", "width": "6 mm"}
    one = joint(thick=thick, units=units, pin="4 mm", groove=groove)
    assert sizes(one)["groove, how deep"] == depth
    assert any(rule.startswith("Depth of the groove: a third") for rule in one.rules)
    given = joint(thick=thick, units=units, pin="4 mm", groove=groove | {"depth": "3 mm"})
    assert not any(rule.startswith("Depth") for rule in given.rules)


@pytest.mark.parametrize(("depth", "codes"), [(9, []), ("9.1", ["groove-deep"])])
def test_a_groove_deeper_than_half_a_board_is_advised_against(depth, codes):
    one = joint(groove=GROOVE | {"depth": depth})
    assert [finding.code for finding in one.findings] == codes


@pytest.mark.parametrize(("thick", "name"), [((18, 20), "side"), ((20, 18), "front")])
def test_a_groove_through_a_board_is_refused(thick, name):
    with pytest.raises(InputError) as caught:
        joint(thick=thick, groove=GROOVE | {"depth": 18})
    (finding,) = caught.value.findings
    assert (finding.code, finding.place) == ("groove-too-deep", "groove")
    assert f'"{name}"' in finding.message
    assert joint(thick=thick, groove=GROOVE | {"depth": "17.9"})


# Rebates


def rebated(**raw: object):
    return spaced(tails=4, pin=4, **raw)


@pytest.mark.parametrize(
    ("edge", "width", "halves"),
    [
        ("reference", 7, (7, 7)),  # as wide as the half pin
        ("reference", 9, (9, 5)),
        ("far", 9, (5, 9)),
        ("reference", 10, (10, 4)),  # the other half pin as narrow as a pin
    ],
)
def test_a_rebate_moves_the_tails_until_the_half_pin_holds_it(edge, width, halves):
    spacing = rebated(rebate={"width": width, "edge": edge})
    assert spacing.half_pins == halves
    assert spacing.findings == ()
    assert spacing.rules[-1].startswith("Edges: moved by") is (halves != (7, 7))


@pytest.mark.parametrize(
    ("raw", "remedy"),
    [
        ({"rebate": {"width": 11}}, "mitred"),
        ({"rebate": {"width": 9}, "half_pin": 7}, "leave out the width"),
    ],
)
def test_a_rebate_that_no_half_pin_holds_is_advised_against(raw, remedy):
    (finding,) = rebated(**raw).findings
    assert (finding.code, finding.place) == ("rebate-across-a-side", "rebate")
    assert remedy in finding.remedy


def test_a_half_tail_holds_a_rebate_up_to_its_narrowest():
    """Half tails of 15 come in by 3: 12 at the baseline."""
    raw = {"start": "half-tail", "tails": 3, "pin": 5, "tail": 30}
    assert spaced(**raw, rebate={"width": 12}).findings == ()
    assert widths(spaced(**raw, rebate={"width": 12}))[1] == 15
    assert widths(spaced(**raw, rebate={"width": 13}))[1] == 16


def test_groove_and_rebate_move_the_tails_together():
    """The rebate wants the far half pin at 9, and so the first tail is clear from 8 to 30.5."""
    spacing = rebated(rebate={"width": 9, "edge": "far"}, groove={"from_edge": "24.5", "width": 6})
    assert spacing.half_pins == (5, 9)
    assert spacing.findings == ()
    one = joint(rebate={"width": 9, "edge": "far"}, groove=GROOVE)
    assert [s.heading for s in one.steps[-3:-1]] == ["Plough the groove", "Plane the rebate"]


def test_a_rebate_is_stopped_in_the_half_pin_and_runs_into_its_space():
    one = joint(rebate={"width": 7, "depth": 5})
    words = step(one, "Plane the rebate")
    assert "7 mm from the reference edge" in words
    assert "On the tail board (SIDE) it runs out into the space for the half pin." in words
    assert "On the pin board (FRONT) it is stopped 13 mm from the end." in words
    assert groove_lines(one, 1, Face.INSIDE) == {((0, 13), (7, 13)), ((7, 13), (7, 30))}
    assert groove_lines(one, 1, Face.REFERENCE_EDGE) == {((13, 13), (18, 13)), ((13, 13), (13, 30))}
    assert groove_lines(one, 1, Face.FAR_EDGE) == set()


def test_a_groove_is_ploughed_and_a_rebate_is_planed():
    one = joint(rebate={"width": 7, "depth": 5, "edge": "far"}, groove=GROOVE)
    ploughed, planed = step(one, "Plough the groove"), step(one, "Plane the rebate")
    assert "before you plough" in ploughed
    assert "Make the bottom " in ploughed
    assert "plough" not in planed
    assert "fillister plane, or a rebate plane" in planed
    assert "before you plane" in planed
    assert "Make the bottom or the lid " in planed
    # Above the middle of 140 slides a lid.
    for start, lies_in in ((66, "bottom"), (68, "bottom or the lid"), (120, "bottom or the lid")):
        above = step(joint(groove=GROOVE | {"from_edge": start}), "Plough the groove")
        assert f"Make the {lies_in} 10 mm larger" in above
    under = joint("full-blind-dovetail", mitre=8, rebate={"width": 6, "depth": 5})
    assert "nothing shows: plane right out at these ends" in step(under, "Plane the rebate")


def test_what_runs_out_at_one_end_is_not_said_to_run_out_at_the_other():
    """The other end of a drawer's side has another joint, of which this one knows nothing."""
    unseen = joint("lapped-dovetail", groove=GROOVE)
    assert "from end to end" not in " ".join(one.words for one in unseen.steps)
    assert "the groove ends there as that joint's own pages say" in step(
        unseen, "Plough the groove"
    )


def test_a_rebate_within_a_mitred_edge_runs_out_through_the_mitre():
    one = joint("mitred-shoulder-dovetail", mitre=8, rebate={"width": 8, "depth": 6})
    words = step(one, "Plane the rebate")
    assert words.count("runs out through the mitre") == 2
    assert one.findings == ()


@pytest.mark.parametrize(
    ("thick", "ends", "line"),
    [
        # 6 deep in 20 it begins 14 from the outside, and the mitre takes 18 of the thinner face.
        ((18, 20), ("is stopped 14 mm from the end", "runs out through"), "across the mitre at"),
        ((20, 18), ("runs out through", "is stopped 14 mm from the end"), "across the mitre at"),
        # Of 25 it begins 19 from there, on a face that is whole.
        ((18, 25), ("is stopped 19 mm from the end", "runs out through"), "across at"),
    ],
)
def test_a_rebate_in_a_mitre_is_stopped_on_the_thinner_board_alone(thick, ends, line):
    """Right out it would leave a hole beside the bottom's corner: see the floors of both."""
    one = joint("mitred-shoulder-dovetail", thick, mitre=8, rebate={"width": 8, "depth": 6})
    words = step(one, "Plane the rebate")
    for board, end in zip(("tail board (SIDE)", "pin board (FRONT)"), ends, strict=True):
        assert f"the {board} it {end}" in words
    assert f"Where it is stopped, knife a line {line} that distance" in words
    assert "half pin" not in words
    stops = {name: value for name, value in sizes(one).items() if "stops" in name}
    assert [f"{value}" for value in stops.values()] == [ends[thick[0] > thick[1]].split()[2]]


@pytest.mark.parametrize("kind", ["mitred-shoulder-dovetail", "full-blind-dovetail"])
def test_a_rebate_at_a_far_mitred_edge_lies_at_the_boards_edge(kind):
    raw = {"mitred_edge": "far"} if kind == "mitred-shoulder-dovetail" else {}
    one = joint(kind, mitre=8, rebate={"width": 6, "edge": "far", "depth": 5}, **raw)
    assert sizes(one)["rebate, from the far edge"] == 6
    for member in (0, 1):
        ends = {x for line in groove_lines(one, member, Face.INSIDE) for x, _ in line}
        assert ends == {134}  # the other side is the edge, and the mitre takes the end
    assert one.findings == ()


def test_a_rebate_as_wide_as_the_board_is_refused():
    with pytest.raises(InputError) as caught:
        joint(rebate={"width": 140})
    assert [finding.code for finding in caught.value.findings] == ["rebate-off-board"]


def test_a_groove_in_the_rebate_is_refused():
    for from_edge, refused in (("7.1", False), (7, True)):
        raw = {"rebate": {"width": 7}, "groove": GROOVE | {"from_edge": from_edge}}
        if not refused:
            assert joint(**raw)
            continue
        with pytest.raises(InputError) as caught:
            joint(**raw)
        assert [finding.code for finding in caught.value.findings] == ["groove-in-rebate"]


@pytest.mark.parametrize("raw", [{"groove": GROOVE}, {"rebate": {"width": 5, "depth": 5}}])
def test_no_plane_runs_over_paper(raw):
    """The wraps are still on the inside faces when all is cut, and no line of theirs is needed."""
    steps = [one for one in joint(**raw).steps if one.task is Task.PLOUGH]
    assert steps
    for step in steps:
        assert step.words.startswith("Peel the paper off the inside faces first: ")
