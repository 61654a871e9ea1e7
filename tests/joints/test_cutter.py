"""Layouts for a router's dovetail cutter, worked by hand; what it cannot do; what is refused."""

import math

import pytest

from joinery_templates.errors import InputError, Level
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.tool_fit import with_tool_advice
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import laid_out
from tests.joints.routed import HALF_INCH, THROUGH, findings_of, lapped, spaces, through
from tests.joints.worked import request

# tan 7° = 0.1227845609 by a table. In 12 mm of depth a side leans 1.4734147 mm, so that the
# cut is 12.7 - 2.9468295 = 9.7531705 wide at the tails' ends, and a pitch is
# 2 (12.7 - 1.4734147) = 22.4531705 mm.
PIN, PITCH = 9.7531705, 22.4531705


def refused(build: object, **raw: object) -> list[tuple[str, str]]:
    assert callable(build)
    with pytest.raises(InputError) as caught:
        build(**raw)
    assert all(finding.remedy for finding in caught.value.findings)
    return [(finding.code, finding.place) for finding in caught.value.findings]


def length_of(joint: Joint, use: str) -> float:
    (found,) = (float(s.length) for s in joint.lengths if f"{s.tool}, {s.use}".startswith(use))
    return found


def size_of(joint: Joint, name: str) -> float:
    (found,) = (float(size.length) for size in joint.sizes if size.name.startswith(name))
    return found


# Worked by hand


def test_an_even_board_has_half_tails_whole_pitches_and_spaces_of_one_pass():
    joint = through()
    # 202 / 22.4531705 = 8.9965: nine pitches, so eight whole tails and nine pins. The half
    # tails are (202 - 9 * 9.7531705 - 8 * 12.7) / 2 = 6.3107327; half a tail is 6.35.
    assert spaces(joint, Fraction(0)) == pytest.approx([PIN] * 9, abs=1e-6)
    assert spaces(joint, Fraction(12)) == pytest.approx([12.7] * 9, abs=1e-9)
    assert size_of(joint, "half tail at each edge") == pytest.approx(6.3107327, abs=1e-6)
    assert size_of(joint, "tail at the end") == 12.7
    assert length_of(joint, "guide, pitch") == pytest.approx(PITCH, abs=1e-6)
    # 6.3107327 + 9.7531705 / 2 = 11.187318
    assert length_of(joint, "guide, reference edge") == pytest.approx(11.187318, abs=1e-6)
    assert length_of(joint, "router, depth of cut") == 12
    assert length_of(joint, "cutter") == 12.7
    assert joint.slopes[0].slope == pytest.approx(math.tan(math.radians(7)), abs=1e-11)
    assert any("comes out even" in rule and "9 pitches" in rule for rule in joint.rules)
    assert joint.findings == ()


def test_tails_and_pins_are_of_one_width_at_half_depth():
    joint = through()
    end, baseline = spaces(joint, Fraction(0))[0], spaces(joint, Fraction(12))[0]
    tail, narrow = size_of(joint, "tail at the end"), size_of(joint, "tail at the baseline")
    # 12.7 - 1.4734147 = 11.2265853
    assert (end + baseline) / 2 == pytest.approx(11.2265853, abs=1e-6)
    assert (tail + narrow) / 2 == pytest.approx(11.2265853, abs=1e-6)


def test_a_board_that_is_no_whole_number_of_pitches_says_which_would_be():
    joint = through("210 mm")
    # 210 / 22.4531705 = 9.353, so nine pitches are nearest; half tails of
    # (210 - 87.7785345 - 101.6) / 2 = 10.3107327. Nine pitches are 202.0785, ten 224.5317.
    assert size_of(joint, "half tail at each edge") == pytest.approx(10.3107327, abs=1e-6)
    (rule,) = (rule for rule in joint.rules if rule.startswith("Edges"))
    assert "202.08 mm" in rule
    assert "224.53 mm" in rule


def test_half_tails_too_weak_to_keep_are_joined_to_their_neighbours():
    joint = through("195 mm")
    # 195 / 22.4531705 = 8.685: nine pitches are nearest, but (195 - 189.3785345) / 2 = 2.8107
    # at the end is 1.3373 at the baseline, under 3. With eight pitches the half tails are
    # (195 - 8 * 9.7531705 - 7 * 12.7) / 2 = 14.037318.
    assert len(spaces(joint, Fraction(0))) == 8
    assert size_of(joint, "half tail at each edge") == pytest.approx(14.037318, abs=1e-6)
    assert "tail-weak" not in findings_of(joint)


def test_proud_tails_are_cut_deeper_and_leave_a_narrower_space():
    # 12 + 0.5 mm deep: 12.7 - 2 * 12.5 * 0.1227845609 = 9.6303860.
    joint = through(tails_proud="0.5 mm")
    assert length_of(joint, "router, depth of cut") == 12.5
    assert spaces(joint, Fraction(0)) == pytest.approx([9.6303860] * 9, abs=1e-6)
    assert spaces(joint, Fraction("12.5")) == pytest.approx([12.7] * 9, abs=1e-9)


def test_a_lapped_joint_is_cut_as_deep_as_the_tails_are_long():
    joint = lapped()
    # 19 - 7 = 12 mm: the same spaces as right through 12 mm.
    assert length_of(joint, "router, depth of cut") == 12
    assert spaces(joint, Fraction(0)) == pytest.approx([PIN] * 9, abs=1e-6)
    # The round end of a socket: 12.7 / 2 at the tip, 9.7531705 / 2 where the cutter comes in.
    assert size_of(joint, "radius of the cutter in a socket, at the lap") == 6.35
    narrow = size_of(joint, "radius of the cutter in a socket, on the inside")
    assert narrow == pytest.approx(4.87658525, abs=1e-6)
    # Pins and tails lie half a pitch apart: 22.4531705 / 2.
    assert length_of(joint, "guide, pin board aside") == pytest.approx(11.22658525, abs=1e-6)
    assert set(findings_of(joint)) == {"cutter-round-ends"}
    assert any("Both boards can be cut at once" in step.words for step in joint.steps)


@pytest.mark.parametrize("raw", [{}, {"tails": 4}, {"start": "half-pin"}])
def test_what_the_leaning_cutter_leaves_of_a_sockets_back_wall_is_pared_to_the_baseline(raw):
    joint = lapped(**raw)
    (words,) = (step.words for step in joint.steps if step.heading == "Rout the sockets")
    # The cutter reaches 6.35 behind its axis at the lap, and 4.8765853 at the inside face. Where
    # it just reaches the baseline at the lap, it is 1.4734147 short of it at the inside face.
    lean = size_of(joint, "radius of the cutter in a socket, at the lap") - size_of(
        joint, "radius of the cutter in a socket, on the inside"
    )
    assert lean == pytest.approx(1.4734147, abs=1e-6)
    assert "seen on the inside face, is ≈1.47 mm short of the baseline" in words
    assert "≈1.47 mm of wood too much at the inside face and none at the lap" in words
    assert "Pare it away over the whole width, from the baseline straight down" in words
    assert "tail board will stand ≈1.47 mm too far out" in words
    advice = findings_of(joint)["cutter-round-ends"]
    assert "back walls leaning by ≈1.47 mm" in advice.message
    assert "upright" in advice.remedy


def at_once(**raw) -> tuple[str, list[Fraction], list[Fraction]]:
    """What is said of boards cut at once, and the middles of their spaces and whole sockets."""
    joint = lapped(**raw)
    (words,) = (step.words for step in joint.steps if step.heading == "Rout the sockets")
    middles = []
    for member, face in zip(joint.members, (Face.OUTSIDE, Face.INSIDE), strict=True):
        end, spans = member.part, []
        for waste in laid_out(end, face).waste:
            (low, _), (high, _) = waste.extent
            if low > 0 and high < end.board.width:
                spans.append((low + high) / 2)
        middles.append(sorted(spans))
    return words[words.index("Both boards can be cut at once") :], *middles


def test_boards_cut_at_once_are_pared_too():
    words, spaces, sockets = at_once(width="213 mm")
    assert "back walls are pared all the same" in words
    # Half a pitch aside a half socket and eight whole ones come under the nine spaces.
    aside = spaces[1] - sockets[0]
    assert [x + aside for x in sockets] == spaces[1:]
    assert (
        "each of the tail board's 9 spaces. One half socket of the pin board is then left" in words
    )
    # The cutter, there one pitch past the last space, reaches back over the edge at 213.
    assert 2 * spaces[-1] - spaces[-2] - Fraction("6.35") < 213


def test_with_half_pins_the_last_whole_socket_comes_with_the_half_pins_waste():
    words, spaces, sockets = at_once(tails=8, tail="12.7 mm", half_pin="16.064 mm")
    aside = spaces[0] - sockets[0]
    assert [x + aside for x in sockets[:-1]] == spaces
    assert "7 spaces, and one beside the outermost tail at the edge that the pin board" in words


def test_inches_are_read_as_inches():
    one = through(
        "7 61/64 in", "1/2 in", units=Units.INCH, cutter={"diameter": "1/2", "included_angle": 14}
    )
    # 12.7 mm deep: 12.7 (1 - 2 * 0.1227845609) = 9.5812722.
    assert spaces(one, Fraction("12.7"))[0] == 12.7
    assert spaces(one, Fraction(0))[0] == pytest.approx(9.5812722, abs=1e-6)


# What is given besides the cutter


def test_a_number_of_tails_alone_leaves_half_pins_and_pins_of_one_pass():
    joint = through(tails=6)
    assert spaces(joint, Fraction(12)) == pytest.approx([12.7] * 5, abs=1e-9)
    assert size_of(joint, "space for a half pin at each edge") > 0
    assert any(rule.startswith("Pin: one pass") for rule in joint.rules)


def test_half_pins_that_were_asked_for_stay():
    joint = through(start="half-pin")
    assert size_of(joint, "space for a half pin at each edge") > 0
    assert spaces(joint, Fraction(12)) == pytest.approx([12.7] * len(spaces(joint, Fraction(12))))
    assert any("half-pin waste at both edges" in step.words for step in joint.steps)


def test_without_a_cutter_nothing_is_changed():
    by_hand = through(cutter=HALF_INCH, tails=4, pin="5 mm").steps
    raw = request(THROUGH, "202 mm", ("12 mm", "12 mm"))
    joint = THROUGH.build(raw)
    assert joint.slopes[0].slope == Fraction(1, 7)
    assert joint.rows[0].marks[0].what == "tail 1 starts"
    assert not any("router" in setting.tool for setting in joint.lengths)
    assert len(by_hand) == len(joint.steps) + 1  # the caution alone: such pins stay handwork


@pytest.mark.parametrize("slope", ["7 deg", "1:8.14"])
def test_a_slope_that_says_the_same_is_no_contradiction(slope):
    assert through(slope=slope).rows == through().rows


@pytest.mark.parametrize("angle", ["14 deg", "14°", "14"])
def test_the_cutters_angle_is_read_with_its_unit(angle):
    assert through(cutter=HALF_INCH | {"included_angle": angle}) == through()


def test_a_slope_of_another_angle_is_refused_with_both_named():
    with pytest.raises(InputError) as caught:
        through(slope="1:7")
    (finding,) = caught.value.findings
    assert (finding.code, finding.place) == ("slope-not-the-cutters", "slope")
    assert "slope is 1:7," in finding.message
    # tan 7° = 1 : 8.14; atan(1/7) = 8.13 degrees.
    assert "a cutter of 7° a side cuts 7.0° (about 1:8)" in finding.message
    assert "8.1° a side" in finding.remedy


def test_the_angle_of_one_side_is_half_of_that_between_both():
    one = {"diameter": "12.7 mm", "side_angle": 7}
    assert through(cutter=one).members == through(cutter=HALF_INCH).members


def test_a_half_inch_cutter_of_14_degrees_a_side_leaves_a_neck_of_a_quarter():
    """By hand: 1/2 in less twice 1/2 in x tan 14 degrees, 0.2493, is 0.2507 in."""
    joint = through(
        "4 in", "1/2 in", units=Units.INCH, cutter={"diameter": "1/2", "side_angle": 14}
    )
    narrow = {round(width / 25.4, 4) for width in spaces(joint, Fraction(0))}
    assert narrow == {0.2507}


@pytest.mark.parametrize("angles", [{}, {"side_angle": 7, "included_angle": 14}])
def test_one_angle_is_needed_and_no_more(angles):
    told = refused(through, cutter={"diameter": "12.7 mm"} | angles)
    assert told == [("cutter-angle", "cutter")]


def test_an_angle_that_could_be_of_one_side_or_of_both_is_explained():
    with pytest.raises(InputError) as caught:
        through(cutter={"diameter": "12.7 mm", "angle": 14})
    finding = next(one for one in caught.value.findings if one.code == "unknown-name")
    assert finding.place == "cutter.angle"
    assert "side_angle for the angle of one side" in finding.remedy
    assert "included_angle for the angle between both" in finding.remedy


# What such a cutter cannot do


def test_pins_narrower_than_a_pass_are_told_and_left_to_the_saw():
    joint = through(tails=6, pin="5 mm", half_pin="8 mm")
    finding = findings_of(joint)["cutter-pin-narrow"]
    assert finding.place == "pin"
    assert "5 mm" in finding.message
    assert "9.75 mm" in finding.message
    headings = [step.heading for step in joint.steps]
    assert "Saw the tails" in headings
    assert "Rout the tails" not in headings
    assert "Rout the pins" in headings


def test_a_pin_within_a_twentieth_of_a_pass_is_one_pass():
    assert "cutter-pin-narrow" in findings_of(through(tails=6, pin="9.70 mm"))
    near = through(tails=6, pin="9.71 mm")
    assert "cutter-pin-narrow" not in findings_of(near)
    assert any("One pass" in step.words for step in near.steps)


def test_wider_pins_take_several_passes():
    joint = through(tails=6, pin="14 mm")
    assert any("more passes each" in rule for rule in joint.rules)
    assert "Rout the tails" in [step.heading for step in joint.steps]


@pytest.mark.parametrize(("depth", "short"), [("11.9 mm", True), ("12 mm", False), (None, False)])
def test_a_cut_deeper_than_the_cutter_is_told(depth, short):
    cutter = HALF_INCH if depth is None else HALF_INCH | {"depth": depth}
    for joint in (through(cutter=cutter), lapped(cutter=cutter)):
        assert ("cutter-short" in findings_of(joint)) is short
        assert ("Rout the tails" in [step.heading for step in joint.steps]) is not short


def test_sockets_narrower_than_the_cutter_are_told_and_left_to_the_chisel():
    # 13 pins of 9.7531705 and 12 tails of 5.5: the tails are narrower than 12.7.
    joint = lapped("220 mm", start="half-tail", tails=12, tail="5.5 mm")
    finding = findings_of(joint)["cutter-socket-narrow"]
    assert finding.place == "tail"
    assert "5.5 mm" in finding.message
    assert "Saw and chop the sockets" in [step.heading for step in joint.steps]


ROUTERS = {"cutter", "router", "guide"}


def settings(joint: Joint) -> set[str]:
    return {f"{s.tool}, {s.use}" for s in joint.lengths if s.tool in ROUTERS}


@pytest.mark.parametrize(
    "raw",
    [
        {"cutter": HALF_INCH | {"depth": "11.9 mm"}},
        {"start": "half-tail", "tails": 12, "tail": "5.5 mm", "pin": "8 mm"},
    ],
    ids=["too short", "too wide for pins and tails"],
)
def test_where_nothing_is_routed_nothing_is_said_of_a_router(raw):
    joint = lapped("220 mm", **raw)
    assert any(code.startswith("cutter") for code in findings_of(joint))
    assert settings(joint) == set()
    assert not any("cutter" in size.name for size in joint.sizes)
    assert "cutter-round-ends" not in findings_of(joint)
    assert joint.steps[0].heading == "Prepare"
    told = " ".join(f"{step.heading} {step.words}" for step in joint.steps)
    assert "rout" not in told.lower()


def test_settings_are_told_of_the_board_that_is_routed_alone():
    spaces_only = lapped("220 mm", start="half-tail", tails=12, tail="5.5 mm")
    assert "router, depth of cut, tail board" in settings(spaces_only)
    assert any(use.startswith("guide") for use in settings(spaces_only))
    sockets_only = lapped(tails=5, pin="5 mm", half_pin="8 mm")
    assert settings(sockets_only) == {
        "cutter, largest diameter, at its tip",
        "router, depth of cut, pin board",
    }
    # Right through, the pins are routed with a straight cutter.
    straight = through(tails=6, pin="5 mm", half_pin="8 mm")
    assert settings(straight) == set()
    assert straight.steps[0].heading == "Before routing"


# Cutters that are no cutters for this board, or for a router plane


def test_a_cutter_that_leaves_no_whole_tail_is_told():
    huge = {"diameter": "99 mm", "included_angle": 14}
    found = findings_of(through("139.7 mm", cutter=huge))
    assert found["cutter-no-whole-tail"].place == "cutter"
    assert "99 mm" in found["cutter-no-whole-tail"].message
    assert "139.7 mm" in found["cutter-no-whole-tail"].message
    # 12.7 + 2 pins of 9.7531705 is 32.2: below that no whole tail comes between half tails.
    assert "cutter-no-whole-tail" in findings_of(through("32 mm"))
    assert "cutter-no-whole-tail" not in findings_of(through("60 mm"))
    asked_for = through("139.7 mm", cutter=huge, start="half-tail", tails=0)
    assert "cutter-no-whole-tail" not in findings_of(asked_for)


@pytest.mark.parametrize(("diameter", "large"), [("40 mm", False), ("40.1 mm", True)])
def test_a_cutter_beyond_a_router_in_the_hands_is_told(diameter, large):
    joint = through("800 mm", cutter={"diameter": diameter, "included_angle": 14})
    assert ("cutter-large" in findings_of(joint)) is large


@pytest.mark.parametrize(("diameter", "thin"), [("4.94 mm", True), ("4.95 mm", False)])
def test_a_cutter_with_a_neck_that_snaps_is_told(diameter, thin):
    # 12 mm deep at 7° a side takes 2.9468295 off: 2 are left of 4.9468295.
    joint = through("80 mm", cutter={"diameter": diameter, "included_angle": 14})
    assert ("cutter-neck-thin" in findings_of(joint)) is thin


def test_a_through_joints_sockets_need_no_dovetail_cutter():
    joint = through("220 mm", start="half-tail", tails=12, tail="5.5 mm")
    codes = set(findings_of(joint))
    assert not codes & {"cutter-socket-narrow", "cutter-round-ends"}
    # 5.5 - 2 * 1.4734147 = 2.5531706 at the baseline.
    (words,) = (step.words for step in joint.steps if step.heading == "Rout the pins")
    assert "straight cutter no wider than ≈2.55 mm" in words


def test_boards_of_unequal_cuts_are_not_cut_at_once():
    joint = lapped(tails=4)
    assert any("Cut each board on its own" in step.words for step in joint.steps)
    assert not any("aside" in setting.use for setting in joint.lengths)


def test_every_piece_of_advice_has_a_source_and_a_remedy():
    short = HALF_INCH | {"depth": "3 mm"}
    huge = {"diameter": "99 mm", "included_angle": 14}
    joints = (
        lapped("220 mm", cutter=short, start="half-tail", tails=12, tail="5.5 mm", pin="5 mm"),
        lapped("139.7 mm", cutter=huge),
        through("80 mm", cutter={"diameter": "4 mm", "included_angle": 14}),
    )
    found = {code: finding for joint in joints for code, finding in findings_of(joint).items()}
    told = [finding for code, finding in found.items() if code.startswith("cutter")]
    assert len(told) == 7
    assert all(finding.source and finding.remedy for finding in told)
    assert all(finding.level is Level.ADVICE for finding in told)


def test_advice_for_hand_tools_is_kept_for_what_hand_tools_do():
    tools = Tools(chisels=(Fraction(10),))

    def told(**raw: object) -> set[str]:
        return set(findings_of(with_tool_advice(through(**raw), tools, Units.MM)))

    # 9.75 mm are cleared by the cutter and not by the 10 mm chisel; 5 mm are left to it.
    assert "no-chisel-fits" not in told(tails=6)
    assert "no-chisel-fits" in told(tails=6, pin="5 mm")
    assert "no-chisel-fits" in told(tails=6, cutter=HALF_INCH | {"depth": "11 mm"})
    # By hand 1:8.14 would be told to be flat.
    assert "slope-flat" in told(tails=6, cutter=None, slope="7 deg")
    assert "slope-flat" not in told(tails=6)


def test_the_order_of_work_begins_with_the_routers_cautions():
    for joint in (through(), lapped()):
        assert joint.steps[0].heading == "Before routing"
        words = joint.steps[0].words
        for needed in (
            "manual",
            "guards",
            "eyes and ears",
            "Pull the plug before you touch or change the cutter",
            "tighten the collet",
            "tape and loose paper",
            "hands",
            "against its rotation",
            "test joint in waste wood",
        ):
            assert needed in words
        assert not any(step.heading.startswith(("Saw", "Chop")) for step in joint.steps)


def test_every_rule_of_a_routed_layout_names_its_source():
    for joint in (through(), through("210 mm"), through(tails=6), lapped(tails=4, pin="14 mm")):
        assert len(joint.rules) >= 2
        assert all(rule.endswith(").") for rule in joint.rules)


# What is refused


@pytest.mark.parametrize(
    ("cutter", "place"),
    [
        ({"included_angle": 14}, "cutter"),
        ({"diameter": "12.7 mm", "included_angle": "wide"}, "cutter.included_angle"),
        ({"diameter": "12.7 mm", "included_angle": "1:8"}, "cutter.included_angle"),
        ({"diameter": 12}, "cutter"),
        ({"diameter": 0, "included_angle": 14}, "cutter.diameter"),
        ({"diameter": 12, "included_angle": "3.9"}, "cutter.included_angle"),
        ({"diameter": 12, "included_angle": "40.1"}, "cutter.included_angle"),
        ({"diameter": 12, "included_angle": 14, "depth": 0}, "cutter.depth"),
        ({"diameter": 12, "included_angle": 14, "shank": 8}, "cutter.shank"),
        ("half an inch", "cutter"),
    ],
)
def test_a_cutter_that_is_no_cutter_is_refused_at_its_place(cutter, place):
    assert place in [where for _, where in refused(through, cutter=cutter)]


def test_a_cutter_that_runs_to_a_point_is_refused():
    # 12.7 / 2 / tan 20° = 17.45 mm: no neck is left above that.
    wide = HALF_INCH | {"included_angle": 40}
    assert refused(through, thickness="18 mm", cutter=wide) == [("cutter-no-neck", "cutter")]
    assert through(thickness="17 mm", cutter=wide)
    deep = wide | {"depth": "17.5 mm"}
    assert refused(through, cutter=deep) == [("cutter-no-neck", "cutter.depth")]


def test_a_board_too_narrow_for_one_cut_and_two_half_tails_is_refused():
    assert refused(through, width="12.7 mm") == [("cutter-wide", "cutter")]
    # One pin is 12.7 wide at the baseline; anything more leaves some half tail.
    assert len(spaces(through("13 mm"), Fraction(0))) == 1


def test_no_more_tails_are_laid_out_than_by_hand():
    tiny = {"diameter": "2 mm", "included_angle": 4}
    with pytest.raises(InputError) as caught:
        through("2000 mm", "6 mm", cutter=tiny)
    assert [finding.code for finding in caught.value.findings] == ["too-many-tails"]
