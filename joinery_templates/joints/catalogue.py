"""All kinds of joints: every file of this folder that declares a `KIND`."""

import importlib
import pkgutil
from functools import cache

import joinery_templates.joints
from joinery_templates.joints.joint import Kind

_NOT_A_JOINT = frozenset(
    {"catalogue", "joint", "parameter", "reading", "settable", "tool_fit", "tools"}
)
"""What joints are made of; every other file of the folder declares a joint. The folders in
it hold what several joints share, or the parts of a joint that are too long for one file."""


@cache
def kinds() -> dict[str, Kind]:
    """The kinds by name, in alphabetical order of their files.

    Raises:
        TypeError: where a file declares no `KIND`, or two files the same name; a
            mistake of the program's and not of the person's.
    """
    found: dict[str, Kind] = {}
    for module in pkgutil.iter_modules(joinery_templates.joints.__path__):
        if module.ispkg or module.name in _NOT_A_JOINT:
            continue
        kind = getattr(
            importlib.import_module(f"joinery_templates.joints.{module.name}"), "KIND", None
        )
        if not isinstance(kind, Kind) or kind.name in found:
            raise TypeError(f"joints/{module.name}.py must declare one KIND of a name of its own")
        found[kind.name] = kind
    return found
