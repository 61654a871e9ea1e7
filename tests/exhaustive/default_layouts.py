"""Boards of which nothing else is told: no kind advises against what it proposes for them."""

from pathlib import Path
from random import Random

from joinery_templates.joints.catalogue import kinds
from tests.default_layouts import boards_alone, said_against
from tests.exhaustive.watched import Played


def played(chance: Random, folder: Path) -> Played:
    kind = chance.choice(list(kinds().values()))
    boards = boards_alone(kind, chance)
    return f"{kind.name}: {boards}", said_against(kind, boards)
