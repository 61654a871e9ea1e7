r"""Edges where a dovetailed corner is mitred right through, so that a moulding or rebate runs on.

Seen on the reference edge; the mitre runs at 45 degrees from the corner outside::

    +-------------------- tail board's outside face
    | \
    |   \    tail board
    |     \
    |       +------------ inside
    | pin   |
    | board |

Where one board is thicker the mitre ends at the thinner board's inside face, and the
thicker board's shoulder goes on square from there.
"""

from collections.abc import Iterator
from typing import Any

from joinery_templates.errors import OURS, Finding, advice, refusal
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.corners.pair import BoardPair
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.gauge import at_most_as_a_gauge_is_set
from joinery_templates.joints.kind import Request
from joinery_templates.joints.shared_parameters import size_parameter
from joinery_templates.joints.spacing.parameters import HALF_PIN
from joinery_templates.lengths import INCH, Units, length_text
from joinery_templates.wood.board import EDGES
from joinery_templates.wood.cut import Cut, HalfSpace, Stage, Surface, at_least, at_most

MITRED_LAST = "mitre, last"
MITRE_RULE = "6 mm or 1/4 in, but at most a tenth of the width (our judgement)"


def mitre_parameter() -> Any:
    """How much of the width is mitred."""
    return size_parameter(
        "How far in from an edge the corner is mitred right through: the width of the moulding, "
        "or the depth of the rebate.",
        MITRE_RULE,
    )


def lay_between(
    form: type[DovetailCorner],
    request: Request,
    pair: BoardPair,
    edges: tuple[bool, bool] = (True, True),
    decided: tuple[str, ...] = (),
) -> DovetailCorner:
    """The tails on what the mitred edges leave of the width; see `laid_out`.

    Args:
        form: what the kind states of its corner.
        request: units and tools, what fixes the tails, and how much is mitred at an edge.
        pair: both boards in the corner.
        edges: whether the reference edge and the far edge are mitred.
        decided: what else was decided by a rule.

    Raises:
        InputError: where nothing is left or nothing that can be cut follows.
    """
    (low, high), given, units = pair.shared, request.given, request.units
    wide = high - low
    usual = Fraction(6) if units is Units.MM else INCH / 4
    deep = given.mitre or min(usual, at_most_as_a_gauge_is_set(wide / 10, units))
    near, far = (deep if mitred else ZERO for mitred in edges)
    for inset, mitred, edge in zip(pair.insets, edges, EDGES, strict=True):
        if inset and mitred:
            raise refusal(
                "mitre-past-the-edge",
                f"At the {edge}, which is mitred, one board would stand "
                f"{length_text(inset, units)} past the other.",
                "Let the boards meet level at a mitred edge: correct `meet` and `offset`, or "
                "choose the other edge.",
                "meet",
            )
    if given.edges != HALF_PIN:
        raise refusal(
            "not-with-this-start",
            "Beside a mitred edge there is a half pin, not half a tail.",
            f'Leave it out, or write "{HALF_PIN}".',
            "start",
        )
    if near + far >= wide:
        raise refusal(
            "no-room",
            "The mitred edges leave nothing of the width for the dovetails.",
            f"The board is {length_text(wide, units)} wide: give a narrower mitre.",
            "mitre",
        )
    if given.mitre is None:
        decided = (f"Mitred edge: {MITRE_RULE}.", *decided)
    return form.laid_out(request, pair, (near, far), decided=decided)


def mitred_edge_cuts(
    corner: DovetailCorner, stage: Stage, start: Fraction = ZERO
) -> tuple[tuple[Cut, ...], tuple[Cut, ...]]:
    """The waste of the tail board and of the pin board at the mitred edges.

    Args:
        corner: the corner.
        stage: when it leaves.
        start: how far from the ends other waste reaches, whose part it is no more.
    """

    def waste(number: int) -> tuple[Cut, ...]:
        within = (
            mitre(corner.pair.past[number]),
            *((at_least(1, start),) if start else ()),
            at_most(1, corner.pair.gauge(number), Surface.SHOULDER),
        )
        edges = filter(None, corner.mitred_edges(number))
        return tuple(Cut((edge, *within), stage) for edge in edges)

    return waste(0), waste(1)


def which_edges(corner: DovetailCorner) -> str:
    """Which edges are mitred, in words."""
    named = [f"the {edge}" for edge, deep in zip(EDGES, corner.mitres, strict=True) if deep]
    return named[0] if len(named) == 1 else "both edges"


def scribe_strips(corner: DovetailCorner) -> str:
    """How the strips are set out: on both boards by one setting, for their lines must meet."""
    return (
        f"Set another gauge to {corner.text(max(corner.mitres))}: from {which_edges(corner)} of "
        "both boards scribe the mitred strip on the inside face, from the end to the baseline"
    )


def meets_baseline(corner: DovetailCorner) -> str:
    """Added to how the mitre is knifed: where it ends, between boards of one thickness."""
    one, other = (board.thickness for board in corner.boards)
    return " It must meet the baseline on the inside face." if one == other else ""


def mitre(past: Fraction) -> HalfSpace:
    """What a mitre takes off a board: 45 degrees from the corner outside, `past` from its end."""
    return HalfSpace((ZERO, Fraction(1), Fraction(-1)), past)


def advise_on_mitre(corner: DovetailCorner) -> Iterator[Finding]:
    """A mitre that cannot run from corner to corner, where there is one."""
    one, other = (board.thickness for board in corner.boards)
    if any(corner.mitres) and one != other:
        yield advice(
            "mitre-not-to-the-corner",
            f"The boards are {corner.text(one)} and {corner.text(other)} thick: a mitre at 45 "
            "degrees starts at the corner outside and does not end at the corner inside.",
            OURS,
            "Plane both boards to one thickness where the inside is seen.",
            "mitre",
        )
