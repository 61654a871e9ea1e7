"""A job's exact layout as plain data: numbers, words, lists and tables, ready for JSON."""

from typing import Any

from msgspec import to_builtins

from joinery_templates.exact import Fraction, as_float, degrees_of
from joinery_templates.jobs.job import Job, JointJob
from joinery_templates.joint import Clearing, Member
from joinery_templates.joints.tool_fit import chisel_for
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import inch_text
from joinery_templates.wood.cut import Surface
from joinery_templates.wood.faces import laid_out


def figures_of(job: Job) -> dict[str, Any]:
    """All figures of a job.

    Returns:
        Lengths as ``mm`` (a float), ``exact_mm`` (a fraction as text) and ``inches`` (text).
        Lines on faces are given by their two ends, each two exact coordinates in mm as text:
        on a broad face the distance from the reference edge and from the end (before a
        stretch's own zero it is below 0); on the end grain from the reference edge and from
        the outside face; on an edge from the outside face and from the end. Holes that are
        bored are given by their middle in the same way, with diameter and depth (None where
        they go right through), and by no lines. Of what is made of wood of its own it is told
        how many are made for each corner.
    """
    return {
        "title": job.title,
        "units": str(job.units),
        "paper": job.sheets.paper.name,
        "joints": [_joint(one, job.tools) for one in job.joints],
        "findings": list(to_builtins(job.findings)),
    }


def _joint(one: JointJob, tools: Tools) -> dict[str, Any]:
    joint = one.joint
    return {
        "name": one.name,
        "kind": joint.kind,
        "corners": [corner.name for corner in one.corners],
        "boards": {
            **{member.role: _board(member) for member in joint.all_members},
            **{detail.name: _board(detail.member) for detail in joint.details},
        },
        "made_for_each_corner": {member.role: count for member, count, _ in joint.of_own_wood},
        "rows": [
            {
                "board": row.role,
                "line": row.title,
                "marks": [{"what": mark.what, **_exact(mark.position)} for mark in row.marks],
            }
            for row in joint.rows
        ],
        "sizes": [{"name": size.name, **_exact(size.length)} for size in joint.sizes],
        "settings": [
            {"tool": setting.tool, "use": setting.use, **_exact(setting.length)}
            for setting in joint.lengths
        ],
        "slopes": [
            {
                "use": slope.use,
                "one_in": str(1 / slope.slope),
                "degrees": round(degrees_of(slope.slope, Fraction(1)), 6),
            }
            for slope in joint.slopes
        ],
        "rules": list(joint.rules),
        "clearings": [_clearing(clearing, tools) for clearing in joint.clearings],
    }


def _board(member: Member) -> dict[str, Any]:
    part = member.part
    layouts = [laid_out(part, face) for face in part.faces]
    return {
        "name": part.board.name,
        "width": _exact(part.board.width),
        "thickness": _exact(part.board.thickness),
        "baseline": _exact(part.reach),
        "lines": {
            str(layout.face): [
                [[str(coordinate) for coordinate in point] for point in (line.start, line.end)]
                for line in layout.lines
                if line.surface is not Surface.HOLE
            ]
            for layout in layouts
        },
        "holes": {
            str(layout.face): [
                {
                    "middle": [str(coordinate) for coordinate in shape.mouth.middle],
                    "diameter": _exact(shape.mouth.diameter),
                    "depth": _exact(shape.depth[1]) if shape.depth else None,
                }
                for shape in layout.waste
                if shape.mouth
            ]
            for layout in layouts
        },
    }


def _clearing(clearing: Clearing, tools: Tools) -> dict[str, Any]:
    chisel = chisel_for(clearing, tools.chisels, tools.kerf)
    return {
        "what": clearing.what,
        "narrowest": _exact(clearing.narrowest),
        "widest": _exact(clearing.widest),
        "chisel": None if chisel is None else _exact(chisel),
    }


def _exact(length: Fraction) -> dict[str, Any]:
    return {"mm": as_float(length), "exact_mm": str(length), "inches": inch_text(length)}
