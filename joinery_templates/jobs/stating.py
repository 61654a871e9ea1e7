"""Writing what the command line said, and the person's own tools, into the text of a job file.

A PDF carries its job file; were anything that counted not in it, the file and the pages
would say different things.
"""

import tomllib
from collections.abc import Mapping
from typing import Any

from joinery_templates.errors import InputError, mistake

Statements = Mapping[str, object]
"""What to set: a value by its name, or a table of values by the table's name. A table
within a table replaces what stood there."""


def stated(text: str, statements: Statements) -> str:
    """The text with values set; remarks and order stay as they are.

    Args:
        text: a job file without mistakes.
        statements: what to set.

    Raises:
        InputError: `cannot-state`, where the file is written in so odd a way that the
            override cannot be put into it.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    wanted = tomllib.loads(text)
    try:
        document = tomlkit.parse(text)
        for name, value in statements.items():
            if isinstance(value, Mapping):
                _set_all(wanted.setdefault(name, {}), value)
                _set_all(document.setdefault(name, tomlkit.table()), value)
            else:
                document[name] = wanted[name] = value
        result = document.as_string()
        if tomllib.loads(result) == wanted:
            return result
    except (TOMLKitError, ValueError, TypeError, LookupError, AttributeError, RecursionError):
        pass
    raise InputError(
        mistake(
            "cannot-state",
            "What was given on the command line, or your own tools, could not be written into "
            "this job file.",
            'Write it into the file yourself: figures = "…", or [paper] with size = "…", or '
            "[tools].",
        )
    )


def _set_all(table: Any, values: Mapping[str, object]) -> None:
    for name, value in values.items():
        table[name] = dict(value) if isinstance(value, Mapping) else value
