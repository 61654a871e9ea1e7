"""A random job of any kind: drawn true, soon, in little memory, without a traceback."""

from pathlib import Path
from random import Random

from joinery_templates.joints.catalogue import kinds
from tests.exhaustive.watched import CLOCK, Played
from tests.measure.drawn_and_measured import Drawn, drawn, faults_of
from tests.random_jobs import made


def played(chance: Random, folder: Path) -> Played:
    kind = chance.choice(list(kinds().values()))

    def draw(text: str) -> tuple[str, Drawn]:
        (folder / "given").write_text(text, encoding="utf-8")
        CLOCK.start_anew()
        return text, drawn(text)

    text, made_up = made(kind, chance, draw)
    CLOCK.start_anew(len(made_up.booklet.pages))
    return text, list(faults_of(made_up))
