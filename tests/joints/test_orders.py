"""Which steps a joint takes, and in which order: read through by hand, kind for kind.

Reasons that hold for all: what is marked from a face needs it planed; lines are gauged before paper
covers them, and cut after it is laid on; cheeks are sawn before shoulders, so that the waste comes
off; sawn before chopped; a mortise before its tenon, which is fitted to it; the board that the
other is marked from first; tried dry before glue is spread. Common practice, no source.
"""

import re

import pytest

from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds
from tests.joints.varied import varied

ORDERS = """
angled-dovetail: Prepare · Cut the ends · Baselines · Lay on the tail board · Saw the tails · Chop
    between the tails · Mark the pin board from the tails · Saw and chop the pins · Fit · Close
    the ring and glue
angled-mitre: Prepare · Lay the templates on the first board and the second board · Saw the mitres
    · Plane to the lines · Glue
box-joint: Prepare · Baselines · Lay on the first board · Saw and chop the first board · Mark the
    second board from the fingers · Saw and chop the second board · Fit and glue
bridle: Prepare · Square the lines · Gauge both from the outside face · Lay on the rail · Saw the
    cheeks of the rail · Lay on the stile · Saw and chop the slot of the stile · Fit · Glue
butt-dovetail-key: Prepare · Shoot the ends · Make the keys · Join the boards · Lay on the
    templates · Mark from the key itself · Chop the sockets · Fit and glue
canted-box-joint: Prepare · Cut the ends · Baselines · Lay on the first board · Saw and chop the
    first board · Mark the second board from the fingers · Saw and chop the second board · Fit and
    glue · Level the edges
canted-dovetail: Prepare · Cut the ends · Baselines · Lay on the tail board · Saw the tails · Chop
    between the tails · Mark the pin board from the tails · Saw and chop the pins · Fit and glue ·
    Level the edges
canted-mitre: Prepare · Lay the templates on the first board and the second board · Saw the mitres
    · Plane to the lines · Glue · Level the edges
double-lapped-dovetail: Prepare · Length of the pin board · Lap line and baseline of the pins ·
    Lay on the pin board · Saw and chop the sockets · Lay on the tail board · Rebate the end of
    the tail board · Mark the tail board from the pins · Saw and chop the tails · Fit and glue
dovetail-halving: Prepare · Place the rail · Gauge both from the outside face · Lay on the rail ·
    Saw the lap · Saw the dovetail · Lay on the stile · Saw and chop the socket · Fit and glue
dovetail-key: Prepare · Shoot the edges · Make the keys · Join the boards · Lay on the templates ·
    Mark from the key itself · Chop the sockets · Fit and glue
dowel: Prepare · Gauge the middle · Lay on the first board · Lay on the second board · Bore the
    first board · Bore the second board · Cut the dowels · Try it dry · Glue
drawbored-mortise-and-tenon: Prepare · Square the rail's lines on the stiles · Lay on the stile ·
    Bore the stile · Set the mortise gauge · Chop the mortise · Lay on the rail · Shoulder and
    cheeks · Saw the cheeks · Saw the shoulders · Lay on the tenon's outside cheek · Saw the
    tenon's edges · Fit the tenon to the mortise · Bore the tenon · Make the pegs · Glue
full-blind-dovetail: Prepare · Gauge the rebates · Gauge baselines and mitres · Lay the templates
    on the tail board and the pin board · Rebate both ends · Saw and chop the pins · Mark the tail
    board from the pins · Saw and chop the tails · Saw the strips of the pin board free · Mitre
    the edges and the laps · Fit and glue
halving: Prepare · Square the lines · Gauge both from the outside face · Lay on the rail · Saw the
    lap of the rail · Lay on the stile · Saw the lap of the stile · Fit · Glue
haunched-mortise-and-tenon: Prepare · Square the rail's lines on the stiles · Lay on the stile ·
    Set the mortise gauge · Chop the mortise · Plough the groove · Lay on the rail · Shoulder and
    cheeks · Saw the cheeks · Saw the shoulders · Lay on the tenon's outside cheek · Saw the
    tenon's edge · Fit the tenon to the mortise · Glue
housing: Prepare · Square the line · Lay on the side · Try the shelf itself · Saw the walls ·
    Clear the housing · Fit · Glue
lapped-dovetail: Prepare · Baselines and lap line · Lay on the tail board · Saw the tails · Chop
    between the tails · Mark the pin board from the tails · Saw and chop the sockets · Fit and
    glue
mitre-dovetail-key: Prepare · Cut the mitre · Make the key · Join the boards · Lay on the
    templates · Mark from the key itself · Chop the sockets · Fit and glue
mitred-shoulder-dovetail: Prepare · Baselines and mitres · Lay on the tail board · Saw the tails ·
    Chop between the tails · Saw the mitre of the tail board · Mark the pin board from the tails ·
    Saw and chop the pins · Saw the mitre of the pin board · Fit and glue
mortise-and-tenon: Prepare · Square the rail's lines on the stiles · Lay on the stile · Set the
    mortise gauge · Chop the mortise · Lay on the rail · Shoulder and cheeks · Saw the cheeks ·
    Saw the shoulders · Saw the tenon's edges · Fit the tenon to the mortise · Glue
scarf: Prepare · Lay on the templates · Saw the scarf of the first board · Saw the scarf of the
    second board · Fit and join
sliding-dovetail: Prepare · Square the line · Lay on the side · Chop the stop · Saw the walls ·
    Clear the housing · Lay on the shelf · Saw the shoulders · Shape the tail · Fit · Glue
splined-mitre: Prepare · Lay the templates on the first board and the second board · Saw the
    mitres · Plane to the lines · Cut the grooves · Make the spline · Fit and glue
through-dovetail: Prepare · Baselines · Lay on the tail board · Saw the tails · Chop between the
    tails · Mark the pin board from the tails · Saw and chop the pins · Fit and glue
tongue-and-groove: Prepare · Lay on the templates · Plane the tongue · Plough the groove · Fit and
    glue
wedged-mortise-and-tenon: Prepare · Square the rail's lines on the stiles · Lay on the stile · Set
    the mortise gauge · Chop the mortise · Pare the flare · Lay on the rail · Shoulder and cheeks
    · Saw the cheeks · Saw the shoulders · Lay on the tenon's outside cheek · Saw the tenon's
    edges · Saw the kerfs · Make the wedges · Fit the tenon to the mortise · Glue
"""
BY_KIND = {
    kind: re.split(r"\s·\s", " ".join(words.split()))
    for kind, words in re.findall(r"(?m)^(\S+): ((?:.+\n)(?: +.+\n)*)", ORDERS)
}


def headings(joint: Joint) -> list[str]:
    """What its steps are called, without the boards' names."""
    return [re.sub(r" \([A-Z]+\)", "", step.heading) for step in joint.steps]


@pytest.mark.parametrize("kind", kinds())
def test_an_example_is_made_in_this_order(kind):
    assert headings(varied(kind)[0]) == BY_KIND[kind]


@pytest.mark.parametrize("kind", kinds())
def test_steps_that_another_joint_of_the_kind_takes_too_follow_each_other_likewise(kind):
    for joint in varied(kind)[1:]:
        told = headings(joint)
        shared = [one for one in BY_KIND[kind] if one in told]
        assert [one for one in told if one in BY_KIND[kind]] == shared
        assert told[0] == "Prepare"
