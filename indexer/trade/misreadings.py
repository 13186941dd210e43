"""The usual confusions of OCR, as one table: O/0, I/1/l, S/5, B/8, rn/m (common practice, no source).

What agrees only after folding is a loose match: to be shown as such, and never to be called the same.
"""

# Each group looks alike in print; all of it is written as its last member.
LOOK_ALIKES = (("O", "0"), ("I", "l", "|", "1"), ("S", "5"), ("B", "8"), ("rn", "m"))

_CAPITALS = str.maketrans("OISB|", "01581")
_SMALL_L = str.maketrans("l|", "11")


def folded(text: str) -> str:
    """The text in capitals with each group of look-alikes written as one, whatever the case of its letters.

    "l" and "L" are one here, because the case of a letter is lost first: a key to look up by. Words and
    numbers alike: folded("bum") == folded("burn"), folded("AN4-I2A") == folded("an4-12a"). Twice changes
    nothing.
    """
    return text.upper().translate(_CAPITALS).replace("L", "1").replace("RN", "M")


def looks_like(text: str) -> str:
    """As `folded`, but only a small l is read as 1: in print a capital L looks like no figure."""
    return text.translate(_SMALL_L).upper().translate(_CAPITALS).replace("RN", "M")
