"""Part numbers of an entry that a directive in force prints: it may forbid the very part."""

import datetime
import re
from collections.abc import Iterator, Sequence

from indexer.library import parts
from indexer.library.fulltext import NoIndex
from indexer.tagging.tags import Citation
from indexer.trade.evidence import Answer
from indexer.trade.part_numbers import Match, compare, find_part_numbers, loose_key
from server.opened import OpenedLibrary
from server.parts_printed import Printed, called, in_directives

MOST_NUMBERS = 40  # of one entry that are looked up
_BARE = re.compile(r"(?<![\w/-])(?=[A-Z0-9/.-]*[0-9])(?=[A-Z0-9/.-]*[A-Z])[A-Z0-9]+(?:[/.-][A-Z0-9]+)*(?!\w)")
_SURE = (Match.EXACT, Match.NORMALISED)


def directives_naming_parts(
    library: OpenedLibrary, text: str, citations: Sequence[Citation], on: datetime.date
) -> list[str]:
    """ "AD 2031-07-11 names part number QZ32-4421-3, which this entry names: read paragraph (h)"; inside
    `reading`.

    on   the day of the work, else the library's today
    """
    said: dict[str, None] = {}
    try:
        for number in _numbers(library, text, citations):
            for each in in_directives(library, number, on):
                if each.status is not None and each.status.holds is not Answer.NO:
                    said.setdefault(_words(each, number))
    except NoIndex as problem:
        said[f"Whether a directive names a part of this entry could not be looked up. {problem.what}"] = None
    return list(said)


def _words(each: Printed, number: str) -> str:
    what = f"read paragraph {each.paragraph}" if each.paragraph else "read it"
    force = "" if each.in_force and each.status else f" ({each.status.words if each.status else ''})"
    read = " Read by OCR: compare with the page." if each.read_by_ocr else ""
    return f"{called(each)}{force} names part number {number}, which this entry names: {what}.{read}"


def _numbers(library: OpenedLibrary, text: str, citations: Sequence[Citation]) -> Iterator[str]:
    """What an entry calls a part number, and bare numbers that a row of a parts list here has."""
    announced = [each.text for each in find_part_numbers(text)]
    outside = "".join(
        " " if any(each.start <= at < each.end for each in citations) else letter
        for at, letter in enumerate(text)
    )
    bare = [found[0] for found in _BARE.finditer(outside)]
    known = (each for each in bare if _in_a_row(library, each))
    for count, number in enumerate(dict.fromkeys([*announced, *known])):
        if count == MOST_NUMBERS:
            return
        yield number


def _in_a_row(library: OpenedLibrary, number: str) -> bool:
    key = loose_key(number)
    held = parts.numbers_counted(library.catalogue, key) if key else []
    return any(compare(number, each.part_number) in _SURE for each in held)
