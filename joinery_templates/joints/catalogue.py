"""All kinds of joints: every file of this folder that declares a `KIND`."""

import importlib
import pkgutil
from functools import cache

import joinery_templates.joints
from joinery_templates.joints.joint import Kind

_NOT_A_JOINT = frozenset(
    {
        "box_joint_work",
        "catalogue",
        "cutter",
        "cutter_advice",
        "cutter_work",
        "dovetail_advice",
        "dovetail_checks",
        "dovetail_corner",
        "dovetail_figures",
        "dovetail_given",
        "dovetail_work",
        "dovetail_halving_shape",
        "dovetail_halving_work",
        "finger_spacing",
        "groove",
        "joint",
        "laps",
        "leaning_dovetail",
        "leaning_dovetail_work",
        "leaning_fingers",
        "leaning_given",
        "leaning_mitre",
        "leaning_pair",
        "leaning_work",
        "mitred_edges",
        "parameter",
        "reading",
        "settable",
        "sliding_dovetail_checks",
        "sliding_dovetail_given",
        "sliding_dovetail_work",
        "keep_clear",
        "key_figures",
        "key_given",
        "key_row",
        "key_work",
        "keys",
        "spacing",
        "spacing_even",
        "spacing_given",
        "spacing_rounding",
        "spacing_styles",
        "spacing_terms",
        "spacing_weighted",
        "tool_fit",
        "tools",
    }
)
"""What joints share; every other file of the folder declares a joint."""


@cache
def kinds() -> dict[str, Kind]:
    """The kinds by name, in alphabetical order of their files.

    Raises:
        TypeError: where a file declares no `KIND`, or two files the same name; a
            mistake of the program's and not of the person's.
    """
    found: dict[str, Kind] = {}
    for module in pkgutil.iter_modules(joinery_templates.joints.__path__):
        if module.name in _NOT_A_JOINT:
            continue
        kind = getattr(
            importlib.import_module(f"joinery_templates.joints.{module.name}"), "KIND", None
        )
        if not isinstance(kind, Kind) or kind.name in found:
            raise TypeError(f"joints/{module.name}.py must declare one KIND of a name of its own")
        found[kind.name] = kind
    return found
