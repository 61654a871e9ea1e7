"""Joints of every kind for tests of what is told: the example, and ones with unlike numbers."""

from collections.abc import Mapping
from functools import cache

from msgspec.structs import replace

from joinery_templates.joint import Joint
from joinery_templates.joints.box_joints import canted_box_joint
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.dovetails import canted_dovetail
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.mitres import canted_mitre
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units, read_length
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import FaceLayout, lay_out
from tests.joints.leaning import leaning

Changes = Mapping[str, object]
UNLIKE = {"half_pin_far": "8.5 mm", "fit": "0.1 mm"}
PROUD = {"tails_proud": "0.5 mm", "pins_proud": "0.2 mm"}
HALF_TAILS = {"start": "half-tail", "half_pin": None, "half_tail": "13 mm"}
ONE_TAIL = {"tails": 1, "pin": None, "half_pin": "38 mm"}
GROOVED = {
    "groove": {"from_edge": 20, "width": 4, "depth": 3},
    "rebate": {"width": 4, "depth": 3, "edge": "far"},
}
LISTED = {"dowels": None, "end_distance": None}
BY_RULE = {"tenon_length": None, "extra_depth": None}
BY_RULE_OF_TONGUE = {"tongue": None, "tongue_length": None, "depth": None}
BY_RULE_OF_SPLINE = {"spline": None, "from_corner": None, "depth": None}
CHANGES: dict[str, tuple[Changes, ...]] = {
    "angled-dovetail": (
        {"plan": 70, **UNLIKE, **PROUD},
        {"plan": 130, **HALF_TAILS},
        ONE_TAIL,
    ),
    "angled-mitre": ({"plan": 75},),
    "bridle": (
        {"mitred": True, "angle": 75},
        {"form": "tee", "at": "310 mm"},
        {"form": "tee", "angle": 120, "overhang": 0},
    ),
    "box-joint": (
        {"fit": "0.1 mm", "first_proud": "0.5 mm"},
        {"fingers": 3},
        {"fingers": 3, "start": "space"},
    ),
    "butt-dovetail-key": ({"fit": "0.2 mm"}, {"keys": 1}),
    "dovetail-key": ({"fit": "0.2 mm"},),
    "mitre-dovetail-key": ({"fit": "0.2 mm"},),
    "dowel": (
        {"form": "edge", "seam": "700 mm", "dowels": 4, "end_distance": "60 mm"},
        {"form": "edge", "seam": "150 mm", "drawn": "whole row"},
        {"form": "corner", "second_depth": "13 mm", **LISTED, "positions": ["9 mm", "49 mm"]},
        {"form": "tee", "second_depth": "12 mm", "at": "310 mm"},
        {"form": "tee", "second_depth": "12 mm"},
        {"at": "0 mm", "dowels": 1, "end_distance": None},
        {"at": "120 mm", **LISTED, "positions": ["14 mm", "40 mm"]},
        {"on": "reference-edge", "at": "70 mm"},
    ),
    "double-lapped-dovetail": (UNLIKE, HALF_TAILS, ONE_TAIL),
    "dovetail-halving": (
        {"sides": "reference edge", "enters": "far edge", "shows": "inside", "lap": "8 mm"},
        {"lap_length": "38 mm", "shoulder": "9 mm", "shows": "inside", "end_proud": "0 mm"},
        {"lap_length": "41 mm", "shoulder": "9 mm", "fit": "0.1 mm", "end_proud": "0 mm"},
    ),
    "full-blind-dovetail": ({"half_pin_far": "9 mm"}, ONE_TAIL),
    "halving": (
        {"mitred": True},
        {"form": "tee", "angle": 60, "shows": "inside", "at": "310 mm"},
        {"form": "cross", "angle": 110, "depth": "8 mm", "overhang": None, "rail_at": "210 mm"},
        {"form": "cross", "overhang": None},
    ),
    "drawbored-mortise-and-tenon": ({"drawbore": {"peg": "7 mm", "depth": "33 mm"}},),
    "haunched-mortise-and-tenon": ({"haunch": "sloped", "groove": None, "fit": "0.1 mm"},),
    "wedged-mortise-and-tenon": (
        {"through": False, "proud": None, "tenon_length": "50 mm", "wedges": {"depth": "35 mm"}},
    ),
    "housing": (
        {"fit": "0.1 mm", "at": "310 mm"},
        {"depth": "7 mm", "fit": "-0.1 mm"},
        {"stop": "12 mm", "shoulder": "5 mm", "fit": "0.1 mm"},
        {"stop": "12 mm", "stop_clearance": "2 mm"},
    ),
    "lapped-dovetail": (
        {**UNLIKE, "pins_proud": "0.2 mm"},
        HALF_TAILS,
        ONE_TAIL,
    ),
    "mortise-and-tenon": (
        {"fit": "0.1 mm"},
        {"shoulder_far": 0, "horn": None},
        {"shoulder": 0, "extra_depth": 0, "horn": "30 mm"},
        {"shoulder": 0, "shoulder_far": 0},
        {"set_back": "1 mm", "groove": "6 mm", "haunch": {"form": "sloped", "length": "10 mm"}},
        {"through": True, **BY_RULE, "shoulder_inside": 0, "horn": None, "at": "310 mm"},
        {"twins": 2, "count": 2, "gap": "9 mm", "tenon_thickness": "4 mm", "fit": "0.1 mm"},
        {"rebate": {"width": "9 mm", "depth": "5 mm"}, "shoulder_outside": 6},
        {"rebate": {"width": "9 mm", "depth": "5 mm"}, "set_back": "2 mm", "horn": None},
        {"angle": 78, "haunch": "square", "drawbore": {"peg": "5 mm"}},
        {"shoulder_outside": 0, "set_back": "6 mm", "tenon_thickness": "9 mm"},
        {"shoulder_outside": 0, "set_back": "6 mm", "tenon_thickness": "4 mm", "twins": 2}
        | {"count": 2, "gap": "9 mm"},
    ),
    "mitred-shoulder-dovetail": ({**UNLIKE, **PROUD, "mitred_edge": "far"}, ONE_TAIL),
    "sliding-dovetail": (
        {"sides": "upper", "taper": "1:80", "fit": "0.1 mm"},
        {"sides": "lower", "stop": 0, "taper": 0},
        {"stop": 0, "at": "310 mm"},
    ),
    "scarf": (
        {"form": "hooked", "held_by": "bolts", "scarf_length": None},
        {"form": "keyed", "hook": "8 mm", "nib": "3 mm", "key": "12 mm"},
    ),
    "splined-mitre": (
        {"stop": "12 mm", **BY_RULE_OF_SPLINE},
        {"form": "feathers", **BY_RULE_OF_SPLINE},
        {
            "form": "feathers",
            **BY_RULE_OF_SPLINE,
            "slope": "1:6",
            "feathers": 3,
            "slot": "2.5 mm",
            "slot_reach": "20 mm",
        },
    ),
    "tongue-and-groove": (
        {"form": "loose", "board_count": 4},
        BY_RULE_OF_TONGUE | {"board_count": 5, "glued": False},
    ),
    "through-dovetail": (
        {**UNLIKE, **PROUD},
        HALF_TAILS,
        ONE_TAIL,
        GROOVED,
        {"half_pin": None, "spacing": {"style": "graded", "ratio": 2}},
    ),
}
"""Changes to the example; None takes a value away. Boards are then of unlike thickness too."""
LENGTH = read_length("900 mm", Units.MM)
ALIKE = ("canted-mitre", "angled-mitre", "full-blind-dovetail", "scarf", "splined-mitre")
WITH_LENGTHS = ("bridle", "dowel", "halving", "mitre-dovetail-key", "scarf")
CANTED = {
    "canted-box-joint": canted_box_joint,
    "canted-dovetail": canted_dovetail,
    "canted-mitre": canted_mitre,
}
LEANS: tuple[Changes, ...] = (
    {"lean": -12, "thicknesses": (12, 12), "length": LENGTH},
    {"lean": 12, "thicknesses": (12, 12), "length": LENGTH},
    {"lean": 15, "second": 10},
    {"lean": 10, "second": -5},
    {"lean": 8, "plan": 65},
    {"lean": -8, "plan": 120},
)


@cache
def varied(name: str) -> tuple[Joint, ...]:
    """The example of a kind, and others."""
    kind = kinds()[name]
    joints = [kind.build(changed(kind, {}, more=(0, 0)))]
    more = (0, 0) if name in ALIKE else (1, 3)
    joints += [kind.build(changed(kind, one, more)) for one in CHANGES.get(name, ())]
    if name in CANTED:
        joints += [leaning(CANTED[name], **leans) for leans in LEANS]
    return tuple(joints)


@cache
def past_reach(part: Part, face: Face) -> FaceLayout:
    """A face with all that lies a little past the reach of its joint."""
    return lay_out(part, face, part.reach + 5)


def changed(kind: Kind, changes: Changes, more: tuple[int, int]) -> Request:
    """The request behind an example with some parameters changed, and both boards thicker."""
    example = kind.example
    raw = {n: v for n, v in (dict(example.parameters) | dict(changes)).items() if v is not None}
    sizes = zip(kind.roles, example.widths, example.thicknesses, more, strict=True)
    first, second = (
        replace(
            Board(role.words, read_length(width, Units.MM), read_length(thick, Units.MM)),
            thickness=read_length(thick, Units.MM) + extra,
            length=LENGTH if kind.name in WITH_LENGTHS and changes else None,
        )
        for role, width, thick, extra in sizes
    )
    given = read_parameters(kind.parameter_class, raw, Units.MM)
    return Request((first, second), given, Units.MM, Tools())
