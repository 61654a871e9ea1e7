"""All kinds of joints: every file of this tree that declares a `KIND`."""

import difflib
import importlib
import os
from collections import defaultdict
from functools import cache
from glob import glob
from itertools import chain

import joinery_templates.joints as tree
from joinery_templates.errors import refusal
from joinery_templates.joints.kind import RESERVED, Kind

ALL_KINDS = "All kinds are listed by: joinery-templates joints"


@cache
def kinds() -> dict[str, Kind]:
    """The kinds by name, in alphabetical order.

    Raises:
        TypeError: where a kind's file is not as it should be.
    """
    found = (kind for files in _files().values() for file in files if (kind := _declared(file)))
    return dict(sorted((kind.name, kind) for kind in found))


def known_kind(name: str) -> Kind:
    """The kind of this name; no other's file is read.

    Raises:
        InputError: `kind-unknown`, with the nearest that is known.
        TypeError: where a kind's file is not as it should be.
    """
    for file in _files().get(name, ()):
        if kind := _declared(file):
            return kind
    known = kinds()
    called = {word: kind.name for kind in known.values() for word in (kind.name, *kind.also)}
    near = difflib.get_close_matches(name[:60].lower(), called, n=1)
    guess = f'Did you mean "{called[near[0]]}"? ' if near else ""
    message = f"No kind of joint is called {name[:60]!r}."
    raise refusal("kind-unknown", message, f"{guess}{ALL_KINDS}")


@cache
def _files() -> dict[str, list[str]]:
    """The tree's files, by the name of the kind that each would have to declare."""
    files = defaultdict(list)
    # By their names: pkgutil loads every family to look into its folder.
    found = (glob("**/[!_]*.py", root_dir=at, recursive=True) for at in tree.__path__)
    for file in chain.from_iterable(found):
        name = file.removesuffix(".py").replace(os.sep, ".")
        files[name.rpartition(".")[2].replace("_", "-")].append(f"{tree.__name__}.{name}")
    return files


@cache
def _declared(file: str) -> Kind | None:
    """The kind that a file declares, None where it declares none.

    Raises:
        TypeError: where the kind does not bear the file's name, or a parameter bears one
            that is reserved; a mistake of the program's and not of the person's.
    """
    kind = getattr(importlib.import_module(file), "KIND", None)
    if kind is None:
        return None
    if not isinstance(kind, Kind) or kind.name != file.rpartition(".")[2].replace("_", "-"):
        raise TypeError(f"{file} must declare a KIND that bears the file's name")
    reserved = RESERVED | {role.key for role in kind.roles}
    if taken := reserved & {parameter.name for parameter in kind.parameters}:
        raise TypeError(f"{file}: no parameter can be called {', '.join(sorted(taken))}")
    return kind
