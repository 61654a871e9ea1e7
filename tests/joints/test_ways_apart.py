"""The ways in which a joint is said to come apart, held against its boards as solids."""

from itertools import chain, combinations

import numpy as np
import pytest
from manifold3d import Manifold

from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds
from tests.joints.solids import CLOSE_MM3, board_solid, placed
from tests.joints.varied import varied

FAR_MM = 5.0
"""Farther than any clearance, and less than any tenon or lap is deep."""
NEAR = 1e-6


def unit(way: object) -> np.ndarray:
    found = np.array(way, dtype=float)
    return found / np.linalg.norm(found)


def stated(joint: Joint) -> list[np.ndarray]:
    return [unit(way) for way in (joint.pose.apart, *joint.pose.also)]


def edges(joint: Joint) -> list[np.ndarray]:
    """Both ways along all edges of both boards."""
    turned = np.array(joint.placement.rows, dtype=float).T
    return [sign * axis for axis in (*np.eye(3), *turned) for sign in (1, -1)]


def is_free(joint: Joint, way: np.ndarray) -> bool:
    """Whether the first board goes that way past the other, and past what is let into both."""
    one, other = joint.members
    rest = [placed(board_solid(other.part), joint.placement)]
    for loose in joint.loose:
        rest += [placed(board_solid(loose.member.part), at) for at in loose.placements]

    def clash(first: Manifold) -> float:
        return sum((first ^ piece).volume() for piece in rest)

    still, moved = board_solid(one.part), board_solid(one.part).translate(tuple(FAR_MM * way))
    return clash(moved) < clash(still) + 100 * CLOSE_MM3


def is_between(way: np.ndarray, ways: list[np.ndarray]) -> bool:
    """Whether a way is some of others at once, each of them forwards."""
    for some in chain.from_iterable(combinations(ways, many) for many in (1, 2, 3)):
        shares, *_ = np.linalg.lstsq(np.array(some).T, way, rcond=None)
        if min(shares) > -NEAR and np.allclose(np.array(some).T @ shares, way, atol=NEAR):
            return True
    return False


def two_boards(kind: str) -> list[Joint]:
    """Without what is let in last, which comes off before the boards do."""
    return [one for one in varied(kind) if len(one.members) == 2 and not one.let_in]


@pytest.mark.parametrize("kind", kinds())
def test_a_joint_opens_in_all_the_ways_that_are_stated(kind):
    for joint in two_boards(kind):
        assert [way for way in stated(joint) if not is_free(joint, way)] == []


@pytest.mark.parametrize("kind", kinds())
def test_a_joint_opens_along_no_edge_of_its_boards_in_another_way(kind):
    """Or what can only be closed in that way would be said not to go together."""
    for joint in two_boards(kind):
        others = [way for way in edges(joint) if not is_between(way, stated(joint))]
        assert [way for way in others if is_free(joint, way)] == []
