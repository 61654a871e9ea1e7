"""The command line: one file for each command; the only room that prints."""

import io
import sys


def main() -> None:
    """Run the program; every failure is told in plain words and an exit code."""
    from joinery_templates.cli.app import app
    from joinery_templates.cli.telling import tell_failure

    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            # A console that lacks a sign such as ≈ gets its number, and not a failure.
            stream.reconfigure(errors="backslashreplace")
    try:
        app()
    except Exception as error:  # whatever it is, the person gets words and not a traceback
        sys.exit(tell_failure(error))
    except KeyboardInterrupt:
        sys.exit(130)
