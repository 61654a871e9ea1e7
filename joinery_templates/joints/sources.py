"""The books that rules come from: each is named in full here, and by its short name elsewhere."""

JOYCE = "Joyce 1970"
NOYES = "Noyes 1910"
NOYES_48 = f"{NOYES}, no. 48"
NOYES_49 = f"{NOYES}, no. 49"
NOYES_50_AND_51 = f"{NOYES}, nos. 50 and 51"
BUILDING_CONSTRUCTION = "Building Construction"
CASSELL = "Cassell 1907"
FAIRHAM = "Fairham 1920"
ZERBE = "Zerbe 1914"
SELDEN = "Selden"
ROSS = "Ross 1901"
AMATEUR_WORK = "Amateur Work, vol. 5"
HOLTZAPFFEL = "Holtzapffel's table of saws"
WOOD_HANDBOOK = "Wood Handbook 2010"
COMPENDIUM = "Workshop Compendium"
CABINET_MAKING = "Cabinet Making"

BOOKS = {
    NOYES: "William Noyes, Handwork in Wood, 1910; its chapter VII numbers the joints",
    JOYCE: "Ernest Joyce, The Technique of Furniture Making, 1970, chapter on dovetailing unless "
    "another is named (author and year from memory)",
    BUILDING_CONSTRUCTION: "an old handbook, read in part (author and year not known to us)",
    CASSELL: "Paul N. Hasluck (editor), Cassell's Carpentry and Joinery, 1907 (editor and year "
    "from memory)",
    FAIRHAM: "William Fairham, Woodwork Joints, 1920 (year from memory)",
    ZERBE: "J. S. Zerbe, Carpentry for Boys, 1914",
    SELDEN: "F. H. Selden, Elementary Woodwork (year not known to us)",
    ROSS: "G. A. Ross, Elementary Course in Woodwork, 1901",
    AMATEUR_WORK: "Amateur Work, vol. 5, article on dovetail joints, about 1905 (year from memory)",
    HOLTZAPFFEL: "Charles Holtzapffel, Turning and Mechanical Manipulation, vol. 2, 1846 (title "
    "and year from memory; the table was read in a later reprint)",
    WOOD_HANDBOOK: "US Forest Products Laboratory, Wood Handbook, FPL-GTR-190, 2010",
    COMPENDIUM: "an old workshop compendium, its article on dowelling (title not known to us)",
    CABINET_MAKING: "D. Denning, Cabinet Making, chapter on joints (author from memory)",
}
"""In full, by short name."""


def books_in(words: str) -> tuple[str, ...]:
    """The books that some words name, each by its short name and in full."""
    return tuple(f"{short}: {full}" for short, full in BOOKS.items() if short in words)
