"""Section and paragraph numbers of a manual with its own order: parse as printed, compare, tell a range.

"V", "Section V" and "5" are one section; "5-12", "5.12", "V-12" and "section V, paragraph 12" one paragraph
of it. Manuals of the 1940s to 1960s count sections in Roman, paragraphs in Arabic figures: common practice,
no source. Whether a text speaks of such a number at all is for its surroundings to say: "5-12" may be a page.
"""

import re
from dataclasses import dataclass
from functools import total_ordering

from indexer.trade.dashes import plain_dashes

_ROMAN_VALUES = {"I": 1, "V": 5, "X": 10, "L": 50}
# I to XLIX; a single C, D, L or M is a letter, for no manual has so many sections.
_ROMAN = re.compile(r"(?=[IVX])(?:XL|X{0,3})(?:IX|IV|V?I{0,3})")
_SECTION_WORD = r"(?:section|sect?\.?|chapter|chapt?\.?|group|part|division|appendix)"
_PARAGRAPH_WORD = r"(?:paragraphs?|paras?\.?|pars?\.?|article|art\.?)"
_SECTION = r"(?:[IVXL]{1,7}|[0-9]{1,3}[A-Z]?|[A-Z])"
_PARAGRAPH = r"[0-9]{1,3}[A-Z]?(?:[-.][0-9]{1,3}[A-Z]?)*(?:\s?\([A-Z0-9]{1,3}\))*"
_NUMBER = re.compile(  # "V", "Section V", "5-12", "Section 5-12"
    rf"(?:{_SECTION_WORD}\s*)?(?P<section>{_SECTION})(?:[-.](?P<below>{_PARAGRAPH}))?[.:]?", re.IGNORECASE
)
_WORDED = re.compile(  # "para. 5-12", "section V, paragraph 12", "section V, par. 5-12"
    rf"(?:{_SECTION_WORD}\s*(?P<outer>{_SECTION})\s*,?\s*)?{_PARAGRAPH_WORD}\s*"
    rf"(?:(?P<section>{_SECTION})[-.])?(?P<below>{_PARAGRAPH})[.:]?",
    re.IGNORECASE,
)


@total_ordering
@dataclass(frozen=True, slots=True)
class OwnNumber:
    """A section of a manual's own order, or a numbered paragraph of it.

    section    5 for "V" and for "5"; "5A" or "A" when it has a letter; "" when only a paragraph is named
    paragraph  below the section, in one form: "12", "14A", "12.3", "12.(B)"; "" for the whole section
    Order: sections in figures (5, 5A, 6) before those of one letter; a section before its paragraphs; 2-14,
    2-14A, 2-15.
    """

    section: int | str
    paragraph: str = ""

    def __str__(self) -> str:
        """One plain form, "5" or "5-12": for comparing, not for citing."""
        if self.section == "":
            return f"paragraph {self.paragraph}"
        return f"{self.section}-{self.paragraph}" if self.paragraph else str(self.section)

    def __lt__(self, other: object) -> bool:
        if not isinstance(other, OwnNumber):
            return NotImplemented
        return self.key < other.key

    @property
    def key(self) -> tuple[tuple[int, int, str], ...]:
        """What the order is decided by: one entry for the section and one for each part below it."""
        return (_rank(str(self.section)), *(_rank(part) for part in self.paragraph.split(".") if part))

    def covers(self, other: "OwnNumber") -> bool:
        """Whether `other` is this or stands below it: V covers 5-12, 5-12 covers 5-12(b) but not 5-12A."""
        return other.key[: len(self.key)] == self.key


def parse_own_number(text: str) -> OwnNumber | None:
    """The number that a whole field holds: "V", "Section V", "5", "5-12", "5.12", "2-14A", "para. 5-12",
    "section V paragraph 5-12", "Group 5"; None when it holds something else or contradicts itself.

    "paragraph 12" alone has the section "". A page ("page 5-3") and a range ("5-12 to 5-20") are None.
    """
    field = " ".join(plain_dashes(text).split())
    match = _NUMBER.fullmatch(field)
    if match:
        section = _section(match["section"])
        return None if section is None else OwnNumber(section, _paragraph(match["below"] or ""))
    match = _WORDED.fullmatch(field)
    if match is None:
        return None
    named = [_section(text) for text in (match["outer"], match["section"]) if text]
    if None in named or len(set(named)) > 1:
        return None
    return OwnNumber(named[0] or "" if named else "", _paragraph(match["below"]))


def in_range(number: OwnNumber | str, first: OwnNumber | str, last: OwnNumber | str) -> bool:
    """Whether a number stands in a range, both ends included: 5-12 in V to V, 5-12(b) in 5-10 to 5-12.

    Text is parsed. False for what is not such a number, and for a whole section in a range of its paragraphs.
    """
    here, low, high = (
        parse_own_number(each) if isinstance(each, str) else each for each in (number, first, last)
    )
    if here is None or low is None or high is None:
        return False
    return low <= here and (here <= high or high.covers(here))


def roman_value(text: str) -> int | None:
    """The value of a Roman figure up to XLIX, in capitals; None for anything else."""
    if not text or not _ROMAN.fullmatch(text):
        return None
    values = [_ROMAN_VALUES[letter] for letter in text]
    return sum(
        -value if value < max(values[place:], default=0) else value for place, value in enumerate(values)
    )


def _section(text: str) -> int | str | None:
    capitals = text.upper()
    if capitals.isdigit():
        return int(capitals)
    value = roman_value(capitals)
    if value is not None:
        return value
    return capitals.lstrip("0") if len(capitals) == 1 or capitals[0].isdigit() else None


def _paragraph(text: str) -> str:
    parts = re.findall(r"\([A-Z0-9]+\)|[0-9]+[A-Z]?", text.upper())
    return ".".join(part.lstrip("0") or "0" for part in parts)


def _rank(part: str) -> tuple[int, int, str]:
    match = re.fullmatch(r"([0-9]*)(.*)", part)
    assert match is not None  # the pattern takes any text
    if match[1]:
        return (1, int(match[1]), match[2])
    return (2 if part else 0, 0, part)
