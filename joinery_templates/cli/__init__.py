"""The command line: one file for each command; the only room that prints."""

import gc
import sys

_MADE_BETWEEN_SEARCHES = 20_000
"""Objects made before Python looks for rings among them, which hardly any are: with the usual
700 a tenth of a run goes into looking."""


def main() -> None:
    """Run the program; every failure is told in plain words and an exit code."""
    try:
        sys.exit(_run())
    except KeyboardInterrupt:  # also while the program is still being loaded
        sys.exit(130)


def _run() -> int:
    from joinery_templates.cli.streams import give_up_output, prepare

    prepare()
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
