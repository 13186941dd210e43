"""Part numbers: compare two as written, and find them in text."""

import re
from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.dashes import plain_dashes


class Match(StrEnum):
    """How far two written part numbers agree. Only the first two may be called the same number.

    exact       identical apart from blanks around them and the kind of dash printed
    normalised  the same after case, spaces, dashes, slashes and periods are set aside
    loose       the same only if O is read as 0 and I (or l) as 1: to be reported as such
    different   anything else
    """

    EXACT = "exact"
    NORMALISED = "normalised"
    LOOSE = "loose"
    DIFFERENT = "different"


_SEPARATORS = r"[\s/.-]+"
_BETWEEN_DIGITS = re.compile(rf"(?<=[0-9]){_SEPARATORS}(?=[0-9])")
_LOOSE = str.maketrans("OoIil", "00111")


def compare(a: str, b: str) -> Match:
    """How two written part numbers agree; the order of the two does not matter.

    A separator between two digits parts a standard's number from its size code, so AN4-12 is not AN41-2. It
    may be missing only when one of the two is written without any separator: AN412A agrees with AN4-12A, and
    with AN41-2A as well. Trailing letters are never set aside: AN4-12A has no cotter hole, AN4-12 has one.
    """
    a, b = plain_dashes(a).strip(), plain_dashes(b).strip()
    if not _bare(a) or not _bare(b):
        return Match.DIFFERENT
    if a == b:
        return Match.EXACT
    if _same(a.upper(), b.upper()):
        return Match.NORMALISED
    if _same(a.translate(_LOOSE).upper(), b.translate(_LOOSE).upper()):
        return Match.LOOSE
    return Match.DIFFERENT


def _same(a: str, b: str) -> bool:
    if _bare(a) != _bare(b):
        return False
    return normalised(a) == normalised(b) or _bare(a) == a or _bare(b) == b


def _bare(text: str) -> str:
    return re.sub(_SEPARATORS, "", text)


def normalised(text: str) -> str:
    """The number in capitals without separators, but with "-" wherever one stands between two digits."""
    marked = _BETWEEN_DIGITS.sub("\0", plain_dashes(text).strip().upper())
    return _bare(marked).replace("\0", "-")


def loose_key(text: str) -> str:
    """A key that two numbers share whenever `compare` does not call them different. It proves nothing."""
    return _bare(plain_dashes(text).translate(_LOOSE).upper())


@dataclass(frozen=True, slots=True)
class FoundPartNumber:
    """text[start:end] == self.text. form: "standard" (AN, MS, NAS ...) or "part number words"."""

    text: str
    start: int
    end: int
    form: str


# Standards whose numbers are parts by their look: AN, AND, MS, NAS, NASM, AS with a size, and M (military
# specification sheets). "AS350" is a helicopter.
_STANDARD = re.compile(
    r"(?<![\w-])(?:(?:AND?|MS|NASM?)[0-9]{1,6}[A-Z0-9]{0,10}(?:[-/][0-9A-Z]{1,8})*"
    r"|AS[0-9]{4,5}[A-Z0-9]{0,6}(?:[-/][0-9A-Z]{1,8})+|M[0-9]{4,6}/[0-9]{1,3}(?:-[0-9A-Z]{1,8})*)(?!\w)"
)
_WORDS = re.compile(
    r"(?<![A-Za-z])(?:P/N'?s?|PN|[Pp]art\s+[Nn](?:umber|o)s?|PART\s+N(?:UMBER|O)S?)\b[\s.:#]*(?:[Nn]o\.\s*)?"
    r"(?P<number>[A-Z0-9](?:[A-Z0-9/.-]*[A-Z0-9])?)(?![\w])"
)


def find_part_numbers(text: str) -> list[FoundPartNumber]:
    """Part numbers of the common standards, and what follows "P/N" or "part number" and holds a digit."""
    plain = plain_dashes(text)
    spans = {(match.start(), match.end()): "standard" for match in _STANDARD.finditer(plain)}
    for match in _WORDS.finditer(plain):
        if re.search("[0-9]", match["number"]):
            spans[match.span("number")] = "part number words"
    found = [
        FoundPartNumber(text[start:end], start, end, form) for (start, end), form in sorted(spans.items())
    ]
    return [
        one
        for one in found
        if not any(o is not one and o.start <= one.start and one.end <= o.end for o in found)
    ]
