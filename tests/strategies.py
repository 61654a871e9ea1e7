"""Settings and numbers that the property tests of every room share."""

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from joinery_templates.exact import Fraction

_TIMES = 1 if settings().derandomize else 8
"""A run with fresh cases (`--hypothesis-profile fresh`) is long and plays more of them."""
_BUSY = (HealthCheck.too_slow,)
"""A machine busy with other work is no fault of the code under test."""


def cases(usual: int) -> settings:
    """Settings of a property that is held to so many cases in the usual run."""
    return settings(deadline=None, max_examples=usual * _TIMES, suppress_health_check=_BUSY)


PROPERTY = cases(12)
"""For exact properties, which cost milliseconds."""
SOLID_PROPERTY = cases(6)
"""For properties that build solids."""

SIXTY_FOURTHS = st.integers(-3200, 3200).map(lambda count: Fraction(count, 64))
"""Rationals from -50 to 50."""
