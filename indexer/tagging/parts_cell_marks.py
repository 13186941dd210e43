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


def without_footnote_marks(text: str) -> tuple[str, bool]:
    """The text without asterisks and daggers at its ends, nor "(1)" behind it; and whether it had any."""
    found = _MARKED.match(text.strip())
    if not found or not found["plain"]:
        return text, False
    return found["plain"], bool(found["before"] or found["after"])


def begins_with_ditto(text: str) -> bool:
    """Whether a cell begins with a mark that repeats the row above: '"', "do.", "Ditto"."""
    return bool(_DITTO.match(text.strip()))


def is_no_number(text: str) -> bool:
    """Whether a part number cell holds words in place of a number: "SEE FIG 3", "COMMERCIAL", "NOTE 2"."""
    plain = text.strip()
    if not any(letter.isdigit() for letter in plain):
        return any(letter.isalpha() for letter in plain)
    return bool(_NOT_A_NUMBER.match(plain))
