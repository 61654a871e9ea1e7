"""Settings and numbers that the property tests of every room share."""

from fractions import Fraction

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

_BUSY = (HealthCheck.too_slow,)
"""A machine busy with other work is no fault of the code under test."""

PROPERTY = settings(deadline=None, max_examples=50, suppress_health_check=_BUSY)
"""For exact properties, which cost milliseconds."""
SOLID_PROPERTY = settings(deadline=None, max_examples=25, suppress_health_check=_BUSY)
"""For properties that build solids."""

SIXTY_FOURTHS = st.integers(-3200, 3200).map(lambda count: Fraction(count, 64))
"""Rationals from -50 to 50."""
