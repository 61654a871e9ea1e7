"""`papers`: the known paper sizes."""

from joinery_templates.cli.messages import say, say_json
from joinery_templates.cli.options import AsJson
from joinery_templates.exact import Fraction, as_float
from joinery_templates.lengths import INCH, Units, inch_text, mm_text, read_length
from joinery_templates.sheets.papers import known_papers


def papers(json: AsJson = False) -> None:
    """Any other can be given as a size such as "300 x 420 mm", or a roll such as "roll 610 mm"."""
    if json:
        say_json(
            [
                {
                    "name": p.name,
                    "family": str(p.family),
                    "width_mm": as_float(p.width),
                    "height_mm": as_float(p.height),
                }
                for p in known_papers()
            ]
        )
        return
    for paper in known_papers():
        metric = f"{mm_text(paper.width)} x {mm_text(paper.height)}"
        inches = f"{_inches(paper.width)} x {_inches(paper.height)}"
        say(f"{paper.name:<12} {metric:<26} {inches:<40} {paper.family}")
    say('Also any size, such as "300 x 420 mm", and rolls, such as "roll 610 mm".')


def _inches(length: Fraction) -> str:
    """Exact where a rule has such a line, else to a hundredth."""
    told = inch_text(length)
    return told if read_length(told, Units.INCH) == length else f"{as_float(length / INCH):.2f} in"
