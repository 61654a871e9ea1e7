"""All kinds of joints: every file of this tree that declares a `KIND`."""

import importlib
import pkgutil
from functools import cache

import joinery_templates.joints as tree
from joinery_templates.joints.kind import RESERVED, Kind


@cache
def kinds() -> dict[str, Kind]:
    """The kinds by name, in alphabetical order.

    Raises:
        TypeError: where a kind's file does not bear its name, or a parameter bears one that
            is reserved; a mistake of the program's and not of the person's.
    """
    found = {}
    for file in pkgutil.walk_packages(tree.__path__, f"{tree.__name__}."):
        kind = getattr(importlib.import_module(file.name), "KIND", None)
        if kind is None:
            continue
        stem = file.name.rpartition(".")[2]
        if not isinstance(kind, Kind) or kind.name != stem.replace("_", "-"):
            raise TypeError(f"{file.name} must declare a KIND that bears the file's name")
        reserved = RESERVED | {role.key for role in kind.roles}
        if taken := reserved & {parameter.name for parameter in kind.parameters}:
            raise TypeError(f"{file.name}: no parameter can be called {', '.join(sorted(taken))}")
        found[kind.name] = kind
    return dict(sorted(found.items()))
