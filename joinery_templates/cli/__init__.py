"""The command line: one file for each command; the only room that prints."""

import gc
import os
import sys

_MADE_BETWEEN_SEARCHES = 100_000


def main() -> None:
    """Run the program, and leave at once.

    All that was written has been closed; to clear away every object by itself, as Python does
    on leaving, takes a thirtieth of a short run.
    """
    code = run()
    sys.stderr.flush()
    os._exit(code)


def run() -> int:
    """Run the program; every failure is told in plain words and an exit code, which is returned."""
    try:
        return _run()
    except SystemExit as stop:
        return int(stop.code or 0)
    except KeyboardInterrupt:  # also while the program is still being loaded
        return 130


def _run() -> int:
    from joinery_templates.cli.streams import give_up_output, prepare

    prepare()
    # Rings of objects are hardly made, and Python looks for them after every 700 objects.
    gc.set_threshold(_MADE_BETWEEN_SEARCHES)
    # Which numbers can be read must not hang on the environment.
    sys.set_int_max_str_digits(sys.int_info.default_max_str_digits)
    from joinery_templates.cli.app import app
    from joinery_templates.cli.messages import tell_failure

    try:
        try:
            app()
        finally:
            sys.stdout.flush()  # here, where it can be told, and not on leaving
    except Exception as error:  # whatever it is, the person gets words and not a traceback
        code = tell_failure(error)
        give_up_output()
        return code
    return 0
