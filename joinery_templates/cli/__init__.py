"""The command line: one file for each command; the only room that prints."""

import sys


def main() -> None:
    """Run the program; every failure is told in plain words and an exit code."""
    from joinery_templates.cli.streams import give_up_output, prepare

    prepare()
    from joinery_templates.cli.app import app
    from joinery_templates.cli.telling import tell_failure

    try:
        try:
            app()
        finally:
            sys.stdout.flush()  # here, where it can be told, and not on leaving
    except Exception as error:  # whatever it is, the person gets words and not a traceback
        code = tell_failure(error)
        give_up_output()
        sys.exit(code)
    except KeyboardInterrupt:
        sys.exit(130)
