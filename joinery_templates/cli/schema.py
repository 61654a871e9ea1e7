"""`schema`: the JSON Schema of the job file."""

import json

from joinery_templates.cli.files import STANDARD, write_result
from joinery_templates.cli.options import Force, Output
from joinery_templates.jobs.schema import SCHEMA_TITLE, job_schema


def schema(output: Output = None, force: Force = False) -> None:
    """With it an editor completes the names and checks the file as you type."""
    text = json.dumps(job_schema(), indent=2, ensure_ascii=False) + "\n"
    write_result(STANDARD if output is None else output, text.encode(), _is_own, force)


def _is_own(content: bytes) -> bool:
    """Whether a file is a schema that this program wrote."""
    return content.startswith(b"{") and f'"title": "{SCHEMA_TITLE}"'.encode() in content
