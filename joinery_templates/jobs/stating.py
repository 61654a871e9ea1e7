"""Writing what the command line said into the text of a job file.

A PDF carries its job file; were an override not in it, the file and the pages would
say different things.
"""

import tomllib

from joinery_templates.errors import InputError, mistake


def stated(text: str, paper: str | None, figures: str | None) -> str:
    """The text with `paper.size` and `figures` set; remarks and order stay as they are.

    Args:
        text: a job file without mistakes.
        paper: the name of a paper, or None to leave the file's own.
        figures: units of printed figures, or None to leave the file's own.

    Raises:
        InputError: `cannot-state`, where the file is written in so odd a way that the
            override cannot be put into it.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    wanted = tomllib.loads(text)
    try:
        document = tomlkit.parse(text)
        if figures is not None:
            document["figures"] = wanted["figures"] = figures
        if paper is not None:
            size = " ".join(paper.split())
            wanted.setdefault("paper", {})["size"] = size
            document.setdefault("paper", tomlkit.table())["size"] = size
        result = document.as_string()
        if tomllib.loads(result) == wanted:
            return result
    except (TOMLKitError, ValueError, TypeError, LookupError, AttributeError, RecursionError):
        pass
    raise InputError(
        mistake(
            "cannot-state",
            "The paper or units given on the command line could not be written into this job file.",
            'Write figures = "…", or [paper] with size = "…", into the file yourself.',
        )
    )
