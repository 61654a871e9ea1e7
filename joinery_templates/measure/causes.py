"""What a wrong scale usually means, in words for the person at the print dialog."""

_TRUE = 0.001
_AXES_DIFFER = 0.002

_FIT = 'the print dialog said "fit to page" or "shrink to printable area"'
_LETTER_ON_A4 = "a Letter page was enlarged or shrunk onto A4 paper"
_A4_ON_LETTER = "an A4 page was shrunk onto Letter paper"
_REMEDY = 'Print again at "actual size" or 100 %.'

# Least and greatest reading in percent, and the cause. Arithmetic from paper sizes and
# margins; 94.1 (A4 on Letter), 93.3, 96.0 and 91.5 were also seen in print chains run for it.
# The figure for borderless printing is from memory.
_CAUSES = (
    (70.2, 71.2, "an A3 page was shrunk onto A4 paper"),
    (140.9, 142.0, "an A4 page was enlarged onto A3 paper"),
    (91.2, 91.8, f"{_FIT}, and the printer is set up with a wide margin at the foot"),
    (93.2, 93.5, "a Letter page was fitted to A4 paper inside its margins"),
    (93.8, 94.3, f"{_A4_ON_LETTER}, or {_FIT} with margins of a quarter inch"),
    (94.5, 94.9, f"{_FIT}, on an inkjet printer with a wide margin at the foot"),
    (94.9, 97.05, _FIT),
    (97.05, 97.25, _FIT),
    (97.25, 97.5, f"{_LETTER_ON_A4} edge to edge, or {_FIT}"),
    (99.7, 99.9, "a program shrank the page a little because its paper size was not quite this"),
    (102.0, 105.0, "borderless printing enlarges the page to bleed over the edge"),
)


def likely_cause(scale_across: float, scale_along: float) -> str:
    """The likely cause of a scale, and the remedy, in one or two sentences.

    Args:
        scale_across: found over true length across the page, 1.0 = true.
        scale_along: the same up the page.
    """
    percent = 50 * (scale_across + scale_along)
    if max(abs(scale_across - 1), abs(scale_along - 1)) <= _TRUE:
        return "True to size."
    if abs(scale_across - scale_along) > _AXES_DIFFER * max(scale_across, scale_along):
        return (
            f"{100 * scale_across:.1f} % across but {100 * scale_along:.1f} % along: programs "
            "scale both ways alike, so this is the printer or the paper. Measure it "
            "and draw true on it: see joinery-templates calibrate."
        )
    for least, greatest, cause in _CAUSES:
        if least <= percent <= greatest:
            return f"{percent:.1f} %: probably {cause}. {_REMEDY}"
    return f"{percent:.1f} %: no usual cause is known. {_REMEDY}"
