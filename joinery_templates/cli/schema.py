"""`schema`: the JSON Schema of the job file."""

from joinery_templates.cli.options import Output


def schema(output: Output = None) -> None:
    """Print the JSON Schema of the job file, for editors.

    An editor that knows it completes names and checks the file while one types.
    """
    import json

    from joinery_templates.cli.files import STANDARD, write_whole
    from joinery_templates.jobs.schema import job_schema

    text = json.dumps(job_schema(), indent=2, ensure_ascii=False) + "\n"
    write_whole(output or STANDARD, text.encode())
