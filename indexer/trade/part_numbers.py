"""Part numbers: compare two as written, and find them in text."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.dashes import plain_dashes
from indexer.trade.misreadings import folded, looks_like


class Match(StrEnum):
    """How far two written part numbers agree. Only the first two may be called the same number.

    exact       identical apart from blanks around them and the kind of dash printed
    normalised  the same after case, spaces, dashes, slashes, periods and the words "P/N" are set aside
    loose       the same only if what looks alike is one (O/0, I/1/l, S/5, B/8, rn/m): to be reported as such
    different   anything else
    """

    EXACT = "exact"
    NORMALISED = "normalised"
    LOOSE = "loose"
    DIFFERENT = "different"


_DIGITS = "0123456789"
_SEPARATORS = re.compile(r"[\s/.-]+")
_BETWEEN_DIGITS = re.compile(r"(?<=[0-9])[\s/.-]+(?=[0-9])")
_WORDS_BEFORE = re.compile(
    r"(?:P/N|PN(?=[\s.:#])|PART\s+N(?:O|R|UMBER)S?\b|NSN(?=[\s:]))[\s.:#]*", re.IGNORECASE
)
# A national stock number is 13 figures in groups of fixed length, 5365-01-343-0789, so its dashes part
# nothing that could be parted elsewhere (from memory).
_STOCK_NUMBER = re.compile(r"[0-9]{13}")
_STOCK_GAPS = frozenset({4, 6, 9})


def without_words(text: str) -> str:
    """The number alone: dashes and blanks plain, without "P/N", "part number" or "NSN" before it.

    "PN" is a word only when a blank or a mark follows: PN1234 may be a number.
    """
    plain = plain_dashes(text).strip()
    words = _WORDS_BEFORE.match(plain)
    return plain[words.end() :] if words else plain


def compare(a: str, b: str) -> Match:
    """How two written part numbers agree; the order of the two does not matter.

    A separator between two digits parts a standard's number from its size code, so AN4-12 is not AN41-2. It
    may be missing only when one of the two is written without any separator: AN412A agrees with AN4-12A, and
    with AN41-2A as well. Trailing letters are never set aside: AN4-12A has no cotter hole, AN4-12 has one.
    Nor are leading zeros, for some makers' -1 and -01 are two parts.
    """
    one, other = without_words(a), without_words(b)
    if not _bare(one) or not _bare(other):
        return Match.DIFFERENT
    if plain_dashes(a).strip() == plain_dashes(b).strip():
        return Match.EXACT
    if _agree(one, other, str.upper):
        return Match.NORMALISED
    if _agree(one, other, looks_like):
        return Match.LOOSE
    return Match.DIFFERENT


def match_with(asked: str, printed: str, read_by_ocr: bool) -> Match:
    """As `compare`; a number that OCR read is never better than loose, for no one knows what is printed."""
    match = compare(asked, printed)
    return Match.LOOSE if read_by_ocr and match is not Match.DIFFERENT else match


def normalised(text: str) -> str:
    """The number in capitals without separators, but with "-" wherever one stands between two digits."""
    marked = _BETWEEN_DIGITS.sub("\0", without_words(text).upper())
    return _bare(marked).replace("\0", "-")


def loose_key(text: str) -> str:
    """A key that two numbers share whenever `compare` does not call them different. It proves nothing."""
    return folded(_bare(without_words(text)))


def _agree(one: str, other: str, fold: Callable[[str], str]) -> bool:
    """Whether two numbers are one when their characters are folded: str.upper, or looks_like."""
    bare, other_bare = _bare(one), _bare(other)
    if fold(bare) != fold(other_bare):
        return False
    gaps, other_gaps = _gaps(one, fold), _gaps(other, fold)
    if not gaps or not other_gaps:
        return True
    if _STOCK_NUMBER.fullmatch(fold(bare)) and gaps | other_gaps <= _STOCK_GAPS:
        return True
    only, only_other = gaps - other_gaps, other_gaps - gaps
    digits, other_digits = _between_digits(bare, fold), _between_digits(other_bare, fold)
    if (only | only_other) & digits & other_digits:
        return False
    # Beside a character that one of them has as a letter: an added separator ("M5 20470" for MS20470), but
    # not a moved one ("AN4-I2" for AN41-2).
    moved = bool(only) and bool(only_other)
    return not (moved and (only | only_other) & (digits | other_digits))


def _bare(number: str) -> str:
    return _SEPARATORS.sub("", number)


def _gaps(number: str, fold: Callable[[str], str]) -> frozenset[int]:
    """Where separators stand between two characters: before which of the folded characters."""
    pieces = [piece for piece in _SEPARATORS.split(number) if piece]
    return frozenset(len(fold("".join(pieces[:count]))) for count in range(1, len(pieces)))


def _between_digits(bare: str, fold: Callable[[str], str]) -> frozenset[int]:
    """The places between two digits as written, counted as in `_gaps`."""
    return frozenset(
        len(fold(bare[:at])) for at in range(1, len(bare)) if bare[at - 1] in _DIGITS and bare[at] in _DIGITS
    )


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
    r"(?<![A-Za-z])(?:P/N|PN|[Pp]art\s+[Nn](?:umber|o)s?|PART\s+N(?:UMBER|O)S?)\b[\s.:#]*(?:[Nn]o\.\s*)?"
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
