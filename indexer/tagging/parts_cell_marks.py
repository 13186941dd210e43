"""Marks in the cells of a row that send the reader elsewhere: footnotes, dittos, words in place of a number.

What they stand for is not guessed: the row is flagged. Common practice of typed and printed lists, no source.
"""

import re

_FOOTNOTE = "*\u2020\u2021\u00a7\u00b6"  # asterisk, dagger, double dagger, section, pilcrow
_MARKED = re.compile(
    rf"^(?P<before>[{_FOOTNOTE}]*)\s*(?P<plain>.*?)(?P<after>\s*[{_FOOTNOTE}]+|\s+\([0-9]{{1,2}}\))?$",
    re.DOTALL,
)
_DITTO = re.compile(r"(?:[\"\u201c\u201d\u3003]|''|-do-|ditto)(?=[\s,.;-]|$)|do\.|do$", re.IGNORECASE)
_NOT_A_NUMBER = re.compile(
    r"(?:SEE|REFER|REF|FIG|FIGURE|NOTES?|ITEMS?|ORDER|NHA|PART\s+OF|P/O|USE|MAKE|CUT|LOCAL|PURCHASE|FURNISHED"
    r"|SUPPLIED|INCLUDED|SAME\s+AS|NONE|NO\s+(?:NUMBER|NO|P/N)|NOT|N/A)(?![A-Z0-9-])",
    re.IGNORECASE,
)


_SIDE = re.compile(r"\s+(?P<words>\((?:L/?H|R/?H|LEFT|RIGHT|L|R|UPPER|LOWER|FWD|AFT)\.?\))$", re.IGNORECASE)
_OR = re.compile(
    r"^\(?\s*(?:OR|ALT|ALTERNATE|OPT|OPTIONAL)[\s:.]+(?=[A-Z0-9-]*[0-9])(?P<number>[^()]*?)\)?$",
    re.IGNORECASE,
)
_SEVERAL = re.compile(r"[A-Z0-9](?:\s+(?:/|&|OR|AND|THRU|TO)|,)\s+-?(?=[A-Z-]*[0-9])", re.IGNORECASE)


def without_side(number: str) -> tuple[str, str]:
    """The number without "(LH)" or "(UPPER)" behind it, and those words."""
    found = _SIDE.search(number)
    return (number[: found.start()], found["words"]) if found else (number, "")


def without_or(number: str) -> tuple[str, bool]:
    """The number without "OR" or "ALT" before it, and whether one was there: it stands for another part."""
    found = _OR.match(number.strip())
    return (found["number"].strip(), True) if found else (number, False)


def holds_several(number: str) -> bool:
    """Whether a cell holds more than one number: "AN4-6A / AN4-7A", "QZ57-1-1 & -2", "QZ57-1-1 THRU -4"."""
    return bool(_SEVERAL.search(number))


def without_footnote_marks(text: str) -> tuple[str, bool]:
    """The text without asterisks and daggers at its ends, nor "(1)" behind it; and whether it had any."""
    found = _MARKED.match(text.strip())
    if not found or not found["plain"]:
        return text, False
    return found["plain"], bool(found["before"] or found["after"])


def has_footnote_mark(text: str) -> bool:
    """Whether an asterisk or a dagger stands anywhere in a cell of codes or serials."""
    return any(mark in text for mark in _FOOTNOTE)


def begins_with_ditto(text: str) -> bool:
    """Whether a cell begins with a mark that repeats the row above: '"', "do.", "Ditto"."""
    return bool(_DITTO.match(text.strip()))


def is_no_number(text: str) -> bool:
    """Whether a part number cell holds words in place of a number: "SEE FIG 3", "COMMERCIAL", "NOTE 2"."""
    plain = text.strip()
    if not any(letter.isdigit() for letter in plain):
        return any(letter.isalpha() for letter in plain)
    return bool(_NOT_A_NUMBER.match(plain))
