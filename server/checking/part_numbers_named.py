"""Part numbers of an entry that a directive in force prints: it may forbid the very part."""

import datetime
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from indexer.library import parts
from indexer.library.fulltext import NoIndex
from indexer.tagging.tags import Citation
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Answer
from indexer.trade.part_numbers import Match, compare, find_part_numbers, loose_key
from server.checking.parts_forbidden import why_forbidden
from server.opened import OpenedLibrary
from server.parts_printed import Printed, called, can_be_looked_for, in_directives

MOST_NUMBERS = 40  # of one entry that are looked up
MOST_WORDS = 4  # of one number that is written with blanks: "qz32 4421 3"
_WORD = r"[A-Za-z0-9]+(?:[/.-][A-Za-z0-9]+)*"
# A word with a figure, or the two to four letters before one ("AN 4-12A"), and what follows with figures.
_RUN = re.compile(
    rf"(?<![\w/-])(?:[A-Za-z]{{2,4}} (?=[0-9]))?(?=[A-Za-z/.-]*[0-9]){_WORD}"
    rf"(?: (?=[A-Za-z/.-]*[0-9]){_WORD})*(?!\w)"
)
_ANNOUNCED = re.compile(r"(?:\bP/N|\bPN|\bpart\s+n(?:umber|o)s?)\b[\s.:#]*(?:no\.\s*)?$", re.IGNORECASE)
_SURE = (Match.EXACT, Match.NORMALISED)


@dataclass(frozen=True, slots=True)
class Named:
    """What must be said of a directive that prints a part number of the entry.

    words    the note
    forbids  why no answer may be yes beside it, in words; "" = it only names the number
    """

    words: str
    forbids: str = ""


def directives_naming_parts(
    library: OpenedLibrary, text: str, citations: Sequence[Citation], on: datetime.date
) -> list[Named]:
    """ "AD 2031-07-11 names part number QZ32-4421-3, which this entry names: read paragraph (h)"; inside
    `reading`.

    on   the day of the work, else the library's today
    """
    said: dict[Named, None] = {}
    try:
        for number in _numbers(library, text, citations):
            for each in in_directives(library, number, on):
                if each.status is not None and each.status.holds is not Answer.NO:
                    why = why_forbidden(library.catalogue, each, number)
                    said.setdefault(Named(_words(each, number), why))
    except NoIndex as problem:
        words = f"Whether a directive names a part of this entry could not be looked up. {problem.what}"
        said[Named(words)] = None
    return list(said)


def _words(each: Printed, number: str) -> str:
    what = f"read paragraph {each.paragraph}" if each.paragraph else "read it"
    force = "" if each.in_force and each.status else f" ({each.status.words if each.status else ''})"
    read = " Read by OCR: compare with the page." if each.read_by_ocr else ""
    return f"{called(each)}{force} names part number {number}, which this entry names: {what}.{read}"


def _numbers(library: OpenedLibrary, text: str, citations: Sequence[Citation]) -> Iterator[str]:
    """What an entry calls a part number, and bare numbers that a row of a parts list here has."""
    outside = "".join(
        " " if any(each.start <= at < each.end for each in citations) else letter
        for at, letter in enumerate(plain_dashes(text))
    )
    announced = [each.text for each in find_part_numbers(text)]
    bare, written_apart = [], []
    for found in _RUN.finditer(outside):
        written = list(_written(found[0]))
        if _ANNOUNCED.search(outside, max(0, found.start() - 24), found.start()):
            written_apart += [each for each in written if found[0].startswith(each)]
        bare += written
    known = (each for each in dict.fromkeys(bare) if _in_a_row(library, each))
    for count, number in enumerate(dict.fromkeys([*announced, *known, *written_apart])):
        if count == MOST_NUMBERS:
            return
        yield number


def _written(run: str) -> Iterator[str]:
    """The numbers that words in a row may be: each by itself, and up to four together."""
    words = run.split(" ")
    for first in range(len(words)):
        for count in range(1, min(MOST_WORDS, len(words) - first) + 1):
            number = " ".join(words[first : first + count])
            if can_be_looked_for(number):
                yield number


def _in_a_row(library: OpenedLibrary, number: str) -> bool:
    key = loose_key(number)
    held = parts.numbers_counted(library.catalogue, key) if key else []
    return any(compare(number, each.part_number) in _SURE for each in held)
