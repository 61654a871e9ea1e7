r"""The dovetail with mitred edges: through, but for a strip beside an edge that is mitred.

For boards with a moulding or a rebate along an edge. The tail board's end, inside face::

    +----+---+\      /+---+\      /+---+
    |::::|   | \    / |   | \    / |   |   :::: the mitre's waste, down to the
    |::::|   |  \__/  |   |  \__/  |   |        baseline here, nothing outside
     mitre half  tail  pin   tail  half
           pin                     pin

Half pins, tails and pins share the width that the mitres leave.
"""

from joinery_templates.errors import COMMON
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Step, Task
from joinery_templates.joints.corners import steps as corners
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.dovetails import figures, mitred_edges, steps
from joinery_templates.joints.dovetails.corner import ROLES, DovetailCorner
from joinery_templates.joints.dovetails.parameters import DovetailParameters, ThroughEnds
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.shared_parameters import FAR, REFERENCE, choice_parameter
from joinery_templates.joints.sources import JOYCE, NOYES_48
from joinery_templates.joints.spread import bolder_and_finer_tails
from joinery_templates.joints.words import BESIDE, FALLS_IN
from joinery_templates.wood.cut import BoardEnd, Stage

BOTH = "both"


class Parameters(Meeting, ThroughEnds, DovetailParameters):
    """The parameters of a through dovetail with mitred edges."""

    mitre: Fraction | None = mitred_edges.mitre_parameter()
    mitred_edge: str = choice_parameter(
        "Which edge is mitred: the reference edge, the far edge, or both.", REFERENCE, FAR, BOTH
    )


def _lay_out(request: Request) -> Joint:
    given: Parameters = request.given
    pair = pair_of(request, "At a dovetailed corner", given.past)
    edges = (given.mitred_edge != FAR, given.mitred_edge != REFERENCE)
    return mitred_edges.lay_between(MitredShoulder, request, pair, edges).joint()


def _steps(corner: DovetailCorner) -> tuple[Step, ...]:
    """Tails first; the mitres last of each board (common practice, no source)."""
    return (
        corners.prepare(corner),
        _gauge(corner),
        corners.lay_on(corner, 0, corners.setting_out_strip()),
        steps.saw_tails(corner),
        *steps.chop_between_tails(corner),
        _mitre(corner, 0),
        steps.mark_from_tails(corner),
        steps.saw_and_chop_pins(corner),
        _mitre(corner, 1),
        steps.fit_and_glue(corner),
    )


def _gauge(corner: DovetailCorner) -> Step:
    width = corner.text(max(corner.mitres))
    edges = corner.open_edges(0)
    on_edges = f" and {edges} of {corner.named(0)}" if edges else ""
    return Step(
        Task.GAUGE,
        "Baselines and mitres",
        f"{corners.stop_short(corner)}{corners.set_both_gauges(corner)} Scribe lightly from the "
        f"end: right across the inside faces{on_edges}, but on the outside faces not within "
        f"{width} of {mitred_edges.which_edges(corner)}. Across {mitred_edges.which_edges(corner)} "
        f"knife a mitre with a mitre square. {_starts(corner)}"
        f"{mitred_edges.meets_baseline(corner)} {mitred_edges.scribe_strips(corner)} and across "
        f"the end grain. {FALLS_IN}",
        is_shown=False,
    )


def _starts(corner: DovetailCorner) -> str:
    """From where on the outside face the mitre runs: what stands proud is not mitred."""
    one, other = (
        f"{corner.text(past)} from the end" if past else "at the arris of the end"
        for past in corner.pair.past
    )
    if one == other:
        return f"On the outside face it starts {one}."
    return (
        f"On the outside face of {corner.named(0)} it starts {one}; on that of "
        f"{corner.named(1)} {other}."
    )


def _mitre(corner: DovetailCorner, number: int) -> Step:
    board = corner.named(number)
    if number:
        free = (
            "saw along the grain beside the mitred strip, on the strip's side of its line, aslant: "
            "from the end on the outside face to the baseline on the inside face, and no further. "
            "Then saw the mitre"
        )
    else:
        free = "saw the mitre"
    return Step(
        Task.MITRE,
        f"Saw the mitre of {board}",
        f"At {mitred_edges.which_edges(corner)} of {board} {free} across the edge, {BESIDE}, and "
        "pare it to the middle of the line with a guide block of 45 degrees.",
        (number,),
    )


class MitredShoulder(figures.Dovetail, frozen=True, dict=True):
    """All that is stated of a dovetail with mitred edges."""

    is_mitred = True
    steps = _steps

    @property
    def parts(self) -> tuple[BoardEnd, BoardEnd]:
        """Both ends, the mitres last."""
        mitres = mitred_edges.mitred_edge_cuts(self, Stage(2, mitred_edges.MITRED_LAST))
        return self.ends(*mitres, Stage(1, "spaces"))


KIND = Kind(
    name="mitred-shoulder-dovetail",
    title="Dovetail with mitred edges",
    summary="Through, but mitred along one edge or both, where a moulding or rebate runs on.",
    roles=ROLES,
    parameter_class=Parameters,
    lay_out=_lay_out,
    example=Example(
        width="110 mm",
        thicknesses=("15 mm", "15 mm"),
        parameters=(
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "7 mm"),
            ("pin", "5 mm"),
            ("mitre", "8 mm"),
            ("mitred_edge", "reference"),
            ("tails_proud", "0.3 mm"),
            ("pins_proud", "0.3 mm"),
        ),
    ),
    sources=(NOYES_48, JOYCE, COMMON),
    spread=bolder_and_finer_tails,
)
