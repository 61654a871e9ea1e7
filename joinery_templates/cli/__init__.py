"""The command line: one file for each command; the only room that prints."""

import atexit
import gc
import sys

_MADE_BETWEEN_SEARCHES = 100_000


def main() -> None:
    """Run the program; every failure is told in plain words and an exit code."""
    try:
        sys.exit(_run())
    except KeyboardInterrupt:  # also while the program is still being loaded
        sys.exit(130)


def _run() -> int:
    from joinery_templates.cli.streams import give_up_output, prepare

    prepare()
    _search_less()
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


def _search_less() -> None:
    """Look less for rings of objects, which hardly any are; they cost a fifth of a short run.

    Python looks for them after every 700 objects, and among all that are left on leaving.
    """
    gc.set_threshold(_MADE_BETWEEN_SEARCHES)
    atexit.register(gc.freeze)
