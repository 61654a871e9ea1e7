"""A sample job on any paper, with rods, its boards and corners of other names and lengths.

So joints come together on boards as in no random job: frames, carcases, legs. Nothing touches
anything.
"""

from pathlib import Path
from random import Random

import tomlkit

from joinery_templates.build import pdf_of
from joinery_templates.errors import InputError
from joinery_templates.jobs.job import RODS
from joinery_templates.jobs.reader import read_job
from tests.exhaustive.watched import CLOCK, TOP, Played
from tests.exhaustive.words_on_lines import MOST_MB, faults_of
from tests.random_jobs import NAMES, OTHER_CORNERS, VIEWS, Table

__all__ = ["MOST_MB", "job_and_pdf", "played"]

SAMPLES = sorted((TOP / "sample_jobs").glob("*.toml"))
PAPERS = ("A6", "A5", "A4", "A4", "Letter", "A3", "420 x 300 mm", "roll 610 mm")


def job_and_pdf(chance: Random) -> tuple[str, bytes]:
    """A sample job that was altered, with its PDF."""
    sample = chance.choice(SAMPLES).read_text("utf-8")
    while True:
        text = tomlkit.dumps(altered(tomlkit.parse(sample).unwrap(), chance))
        CLOCK.start_anew()
        try:
            return text, pdf_of(read_job(text))[0]
        except InputError:  # seldom: a board is too short for its joints
            continue


def altered(job: Table, chance: Random) -> Table:
    """A job with other paper, other figures, rods, names and lengths."""
    head = {
        "rods": chance.choice([None, *RODS]),
        "figures": chance.choice([None, "mm", "in", "both"]),
    }
    boards = {str(name): dict(board) for name, board in dict(job["boards"]).items()}
    joints = [dict(joint) for joint in list(job["joints"])]
    for board in boards.values():
        if "length" in board and isinstance(board["length"], int | float):
            board["length"] = round(board["length"] * chance.choice([1, chance.uniform(0.9, 2)]), 2)
    if chance.random() < 0.5:
        old, new = chance.choice(list(boards)), chance.choice(NAMES)
        if new not in boards:
            boards = {new if name == old else name: board for name, board in boards.items()}
            joints = [
                {name: new if value == old else value for name, value in joint.items()}
                for joint in joints
            ]
    new = chance.choice(OTHER_CORNERS)
    for joint in joints:
        if "corners" in joint and chance.random() < 0.3:
            first, *others = joint["corners"]
            told = first if isinstance(first, dict) else {"name": first, "like": first}
            joint["corners"] = [told | {"name": new}, *others]
        if chance.random() < 0.3:
            joint["views"] = chance.sample(VIEWS, chance.choice([1, 2, 3]))
    paper = dict(job.get("paper", {})) | {
        "size": chance.choice(PAPERS),
        "margin": f"{chance.choice([5, 10, 10, 12])} mm",
        "one_per_page": chance.random() < 0.1,
    }
    told = {name: value for name, value in head.items() if value}
    return told | {**job, "boards": boards, "joints": joints, "paper": paper} | told


def played(chance: Random, folder: Path) -> Played:
    text, pdf = job_and_pdf(chance)
    CLOCK.stop()  # reading the pages is no work of the program
    return text, faults_of(pdf)
