"""What a mortise and tenon can be told; each kind of the family adds what makes it that kind."""

from typing import Any

from joinery_templates.exact import Fraction
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import (
    choice_parameter,
    count_parameter,
    distance_parameter,
    fit_parameter,
    size_parameter,
)
from joinery_templates.joints.sources import BUILDING_CONSTRUCTION, FAIRHAM, JOYCE, NOYES, ROSS
from joinery_templates.joints.upright import on_parameter

SQUARE, SLOPED = "square", "sloped"
TWO_THIRDS, HALF_LESS_GROOVE, HALF_OF_REST = "two-thirds", "half-less-groove", "half-of-the-rest"
SQUARE_END, MITRED = "square", "mitred"
TOP, BOTTOM = "top", "bottom"
NO_MORE_THAN = 3
"""Tenons side by side, and one above another (our judgement)."""


class Haunch(Table):
    """A short stub of the tenon that goes on to the rail's far edge."""

    form: str = choice_parameter(
        "Square: it shows at the stile's end; sloped: it runs out to nothing there and is hidden.",
        SQUARE,
        SLOPED,
    )
    length: Fraction | None = size_parameter(
        "From the rail's shoulder to the haunch's end.",
        f"as deep as the groove ({FAIRHAM}), or as long as the tenon is thick; at most half of "
        "the tenon's length",
    )
    divide: str = choice_parameter(
        "What the tenon keeps of the rail's width, where no shoulders are given: two thirds less a "
        f"bare 1.5 mm or 1/16 in ({JOYCE}); half of the width less the groove, or half of what the "
        f"groove leaves ({NOYES}, no. 42, can be read both ways).",
        TWO_THIRDS,
        HALF_LESS_GROOVE,
        HALF_OF_REST,
    )


class Wedges(Table):
    """Two wedges in saw kerfs of each tenon; they spread it in a mortise that is wider there."""

    flare: Fraction | None = size_parameter(
        "How much longer the mortise is at each end, where it is longest.",
        "a twentieth of the stile's width, at most 3 mm or 1/8 in (our judgement)",
    )
    depth: Fraction | None = size_parameter(
        "How deep the kerfs are sawn, from the tenon's end.",
        "three quarters of the tenon's length, at most 60 mm or 2 1/2 in (our judgement)",
    )
    from_side: Fraction | None = size_parameter(
        "From each side of the tenon to the middle of its kerf.",
        "a sixth of the tenon's width, at most 8 mm or 5/16 in (our judgement)",
    )


class Drawbore(Table):
    """Pegs through stile and tenon; the tenon's holes are nearer to the shoulder."""

    peg: Fraction | None = size_parameter(
        "Diameter of the peg, and of the bit.",
        "as the mortise is wide, at most 10 mm or 3/8 in and a quarter of the tenon's width and "
        "of its length, or the next smaller of your bits (our judgement)",
    )
    offset: Fraction | None = size_parameter(
        "How much nearer to the shoulder the tenon's holes are.",
        "a sixth of the peg (our judgement)",
    )
    from_shoulder: Fraction | None = size_parameter(
        "From the stile's reference edge to the middle of its holes.",
        "one and a half times the peg, behind any groove or rebate (our judgement)",
    )
    pegs: int = count_parameter("How many pegs hold each tenon.", "1", 1, 3, default=1)
    depth: Fraction | None = size_parameter(
        "How deep the stile is bored from its outside face.", "right through"
    )


class EdgeGroove(Table):
    """A groove along the reference edges of both boards, for a panel."""

    width: Fraction | None = size_parameter("How wide it is.", f"as the mortise is ({NOYES})")
    depth: Fraction | None = size_parameter(
        "How deep it is.", f"as it is wide, rounded to a gauge setting ({NOYES})"
    )
    from_outside: Fraction | None = size_parameter(
        "From the rail's outside face to the groove.", "in line with the mortise"
    )


class EdgeRebate(Table):
    """A rebate along the inside of both reference edges, for a panel or glass."""

    width: Fraction = size_parameter("How far in from the edge it goes.", "needed", needed=True)
    depth: Fraction | None = size_parameter(
        "How deep it is, from the inside face.", "down to the mortise"
    )


def table_parameter(
    words: str, table: type[Table], short_for: tuple[str, ...], example: str
) -> Any:
    """A table of its own, which a single value may stand for."""
    return parameter(
        Quantity.TABLE, words, table=table, rule="none", short_for=short_for, example=example
    )


EDGE_RULE = (
    "as deep as the groove or rebate; else a sixth of the rail's width, rounded to a gauge "
    "setting; more on a rail over 5 in wide, so that the tenon grows no wider; with wedges at "
    "least the flare (our judgement)"
)
FACE_RULE = "what the tenon leaves, alike on both faces"


class Parameters(Table):
    """The parameters of a mortise and tenon."""

    through: bool = parameter(
        Quantity.FLAG, "Whether the mortise goes right through the stile.", default=False
    )
    tenon_thickness: Fraction | None = size_parameter(
        "Width of the mortise; the tenon is as thick, less the fit.",
        "a third of the rail's thickness, half where the tenon is bare-faced, a fifth for each of "
        "two side by side; by the nearest of your chisels or else rounded to a gauge setting; less "
        "in a thinner stile",
    )
    tenon_length: Fraction | None = size_parameter(
        "From the rail's shoulder to the tenon's end; along the far edge where the rail leans.",
        "three quarters of the stile's width less the extra depth, rounded to a gauge setting, and "
        "at most 75 mm or 3 in (our judgement); of a through tenon the stile's width and `proud`; "
        "of a mitred one so that its tip ends 1 mm or 1/32 in before the outer side of a mortise "
        "like its own in the next face",
    )
    shoulder: Fraction | None = distance_parameter(
        "How far the tenon stands in from the rail's reference edge; 0 for no shoulder there.",
        EDGE_RULE,
    )
    shoulder_far: Fraction | None = distance_parameter(
        "The same at the far edge, which is towards the stile's end.",
        f"{EDGE_RULE}; at the stile's end more, so that the mortise keeps clear of it; with a "
        "horn at least as wide as the mortise; with a haunch as its `divide` says",
    )
    shoulder_outside: Fraction | None = distance_parameter(
        "How far the tenon stands in from the rail's outside face; 0 for a bare face there.",
        FACE_RULE,
    )
    shoulder_inside: Fraction | None = distance_parameter("The same at the inside face.", FACE_RULE)
    set_back: Fraction = distance_parameter(
        "How far the rail's outside face is set back from the stile's.",
        "0, flush",
        default=Fraction(0),
    )
    count: int = count_parameter(
        "How many tenons stand one above another across the rail's width.",
        "1",
        1,
        NO_MORE_THAN,
        default=1,
    )
    gap: Fraction | None = size_parameter(
        "Between tenons one above another.", "as wide as each of them, rounded to a gauge setting"
    )
    twins: int = count_parameter(
        "How many tenons stand side by side in the rail's thickness, each as thick as the gaps.",
        "1",
        1,
        NO_MORE_THAN,
        default=1,
    )
    angle: Fraction = parameter(
        Quantity.ANGLE,
        "Angle between the reference edges of rail and stile, where the rail leans in the frame.",
        default=Fraction(90),
        rule="90",
        low=45,
        high=135,
    )
    haunch: Haunch | None = table_parameter(
        "A haunch between the tenon and the rail's far edge, and between tenons one above another: "
        f"its form alone, or more in braces ({BUILDING_CONSTRUCTION}: 1/2 to 1 in long).",
        Haunch,
        ("form",),
        '{ form = "square", length = 12 }',
    )
    wedges: Wedges | None = table_parameter(
        "Wedges in two kerfs of each tenon: how far the mortise flares, or more in braces.",
        Wedges,
        ("flare",),
        "{ flare = 3, depth = 45 }",
    )
    drawbore: Drawbore | None = table_parameter(
        "Pegs that draw the shoulder up: their diameter alone, or more in braces.",
        Drawbore,
        ("peg",),
        "{ peg = 8, offset = 1.5 }",
    )
    groove: EdgeGroove | None = table_parameter(
        "A groove along the reference edges of both boards, for a panel: its depth alone, or more "
        "in braces.",
        EdgeGroove,
        ("depth",),
        "{ depth = 8 }",
    )
    rebate: EdgeRebate | None = table_parameter(
        "A rebate along the inside of both reference edges; the rail's inside shoulder is longer "
        "by its width.",
        EdgeRebate,
        ("width",),
        "{ width = 10, depth = 8 }",
    )
    horn: Fraction | None = distance_parameter(
        "The horn, from the stile's end to the rail's far edge: sawn off last.", "none"
    )
    at: Fraction | None = distance_parameter(
        "From the stile's end to the rail's far edge, where that end stays; for a middle rail.",
        "not told: level with the stile's end where rails close a frame at both its ends; else the "
        "rail goes where you square its line",
    )
    from_end: str = choice_parameter(
        "The end of a leg that `at` is measured from: from the bottom it goes to the rail's "
        "reference edge, which faces down.",
        TOP,
        BOTTOM,
    )
    middle: bool = parameter(
        Quantity.FLAG,
        "Whether the rail meets the stile in the middle of its length, and not at an end.",
        default=False,
    )
    extra_depth: Fraction | None = parameter(
        Quantity.LENGTH,
        "How much deeper the mortise is than the tenon is long.",
        rule="2 mm, or 1/16 in (our judgement)",
        low=0,
        high=20,
    )
    on: str | None = on_parameter("the stile of a frame, which is no leg: its reference edge")
    tenon_end: str = choice_parameter(
        "How the tenon ends: square, or mitred at 45 degrees where two tenons meet in a leg.",
        SQUARE_END,
        MITRED,
    )
    proud: Fraction | None = distance_parameter(
        "How far a through tenon stands out of the stile, to be planed flush.",
        f"3 mm, or 1/8 in ({ROSS})",
        high=20,
    )
    fit: Fraction = fit_parameter("at each sawn cheek, square to it, taken off the tenon")
