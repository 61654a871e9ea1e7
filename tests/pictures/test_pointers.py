"""Where the lines from words end: on the face that they name, well inside it, each by itself.

Faces are asked point by point; that they and the lines are true is held by `test_hidden_lines`.
"""

from itertools import permutations, product
from math import dist, hypot
from pathlib import Path

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.pictures import picture
from joinery_templates.pictures.words import Writer
from joinery_templates.wood.board import BROAD, Face

SAMPLES = sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.toml"))
LETTERING = DejaVu()
ROOM = Fraction(57), Fraction(48)
"""Of a picture on an A4 page with several joints."""
INSIDE, BESIDE, BETWEEN = 0.55, 1.5, 1.9
"""A dot is 0.7 mm wide: so it has paper round it, is on no line to another, and not close to it."""


class Kept(Writer):
    """A writer that keeps what its pictures are made of, and what each dot is to name."""

    def __init__(self, faces, lines, scale, *more):
        self.lines = [*lines]
        self.faces, self.scale = faces, scale
        self.dots = []
        super().__init__(faces, self.lines, scale, *more)

    def name(self, piece, *more):
        super().name(piece, *more)
        self.keep(piece, BROAD)

    def reference_edge(self, piece, *more):
        super().reference_edge(piece, *more)
        self.keep(piece, (Face.REFERENCE_EDGE,))

    def keep(self, piece, names):
        named = [face for face in piece.faces if face.name in names]
        if names == BROAD:
            named = named or piece.faces  # a dowel is round
        self.dots += [(start, named) for start, _ in self.pointers[len(self.dots) :]]

    def foremost(self, x, y):
        u, v = x / self.scale, y / self.scale
        here = [face for face in self.faces if face.shows(u, v)]
        return max(here, key=lambda face: face.height(u, v), default=None)

    def is_waste(self, x, y):
        u, v = x / self.scale, y / self.scale
        return any(outline.contains(u, v) for outline, _ in self.foremost(x, y).waste)

    def air(self, x, y):
        """How far a point is from every line."""
        return min(away(x, y, *line) for line in self.lines)

    def best(self, face):
        """How far inside a dot could stand on a face at most, by many points of it."""
        left, low, right, high = (side * self.scale for side in face.outline.box)
        shares = [(n + 0.5) / 30 for n in range(30)]
        spots = [
            (left + a * (right - left), low + b * (high - low)) for a, b in product(shares, shares)
        ]
        seen = [at for at in spots if self.foremost(*at) is face and not self.is_waste(*at)]
        return max((self.air(*at) for at in seen), default=0)


def away(x, y, start, end):
    """How far a point is from a line."""
    (x1, y1), (x2, y2) = start, end
    along, up = x2 - x1, y2 - y1
    share = ((x - x1) * along + (y - y1) * up) / ((along**2 + up**2) or 1)
    share = max(0.0, min(1.0, share))
    return hypot(x - x1 - share * along, y - y1 - share * up)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_dot_stands_well_inside_the_face_that_it_names(path, monkeypatch):
    """On an arris only where the face looks away; near lines only where it is seen too narrow."""
    writers = []

    def kept(*more):
        writers.append(Kept(*more))
        return writers[-1]

    monkeypatch.setattr(picture, "Writer", kept)
    for one in read_job(path.read_text("utf-8")).joints:
        picture.Pictures(one.joint, one.corners[0].mirrored, LETTERING).of_joint(*ROOM)
    assert any(writer.dots for writer in writers)
    for writer in writers:
        for spot, named in writer.dots:
            if not named:
                assert writer.air(*spot) < 0.01
                continue
            face = writer.foremost(*spot)
            assert any(face is one for one in named)
            if writer.air(*spot) < INSIDE or writer.is_waste(*spot):
                assert writer.air(*spot) > writer.best(face) / 2
        for (spot, _), other in permutations(writer.pointers, 2):
            assert away(*spot, *other) > BESIDE
            assert dist(spot, other[0]) > BETWEEN
