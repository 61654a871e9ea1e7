"""What the pages look like: sizes of type, and air. All that is printed takes them from here.

Three sizes serve the whole file, each for one purpose. They are heights of a capital letter,
as on workshop drawings: 3.5 and 5 mm are two of the nominal heights of ISO 3098 (from memory);
its 2.5 mm is raised a little, since that is less than the 10 points that are read with ease at
a bench. In DejaVu Sans Condensed a capital is 0.729 of the type's size. Where words have no
room they go elsewhere, into more lines, or onto the next page: they are never made smaller.
"""

from fractions import Fraction

BODY = Fraction(13, 5)
"""Whatever is read, and words beside lines: 10.1 points."""
HEADING = Fraction(7, 2)
"""Headings, and the fields of the title block: 13.6 points."""
TITLE = Fraction(5)
"""Once a page or a pattern, to be read at arm's length: its title or its name; 19.4 points."""

NAMES = (TITLE, HEADING, BODY)
"""A name takes the largest of these at which it has room."""
