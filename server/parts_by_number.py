"""Rows with a part number: exact, written otherwise, and alike are three different answers.

AN4-12A is not AN4-12: numbers that differ by a letter at the end are named beside the answer, never in it.
"""

import re
from collections.abc import Callable, Collection

from indexer.library import parts
from indexer.library.catalogue import Catalogue
from indexer.library.parts_records import CountedNumber, RowKey
from indexer.tagging.parts_rows import PartsRow
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Origin
from indexer.trade.part_numbers import Match, compare, loose_key, match_with, normalised
from server.parts_found import Found, Within
from server.parts_words import reads_by_ocr
from server.words import count_of

_LETTERS = re.compile(r"(?<=[0-9])[A-Z]{1,2}$")  # behind a size code: no cotter hole, drilled head
_MOST_NEAR = 8  # other numbers that are named
_ROWS_NEAR = 2000  # rows that are looked at for them
_SURE = (Match.EXACT.value, Match.NORMALISED.value)


def by_number(
    catalogue: Catalogue,
    asked: str,
    publications: Collection[str],
    order: Callable[[RowKey], tuple],
    most: int,
    within: Within | None = None,
) -> Found:
    """Rows whose number agrees, rows that name it, and lines of number indexes.

    publications   ids to stay within
    order          of rows; by it only the first rows of a group are given, with the count of all
    most           rows of each group that are given
    within         None = at any figure and item
    """
    key, found = loose_key(asked), Found()
    if not key:
        return found
    if within:
        listed = _add_at_place(found, catalogue, asked, key, within)
    else:
        listed = add_counted(found, catalogue, asked, key, publications, order, most)
    if not any(match in found.groups for match in _SURE):
        _add_named(found, catalogue, asked, key, publications, within)
    for line in parts.indexed(catalogue, key, listed) if within is None else ():
        match = match_with(asked, line.line.part_number, reads_by_ocr(line.line.origin))
        if match is not Match.DIFFERENT and line.publication_id in publications:
            found.index.append((line, match.value))
    found.said += _near(catalogue, asked)
    return found


def add_counted(
    found: Found,
    catalogue: Catalogue,
    asked: str,
    key: str,
    publications: Collection[str],
    order: Callable[[RowKey], tuple],
    most: int,
) -> set[str]:
    """A common bolt has thousands of rows: they are counted, and only those that are shown are fetched."""
    groups: dict[str, list[CountedNumber]] = {}
    for each in parts.numbers_counted(catalogue, key):
        match = match_with(asked, each.part_number, reads_by_ocr(Origin(each.origin)))
        if match is not Match.DIFFERENT and each.publication_id in publications:
            groups.setdefault(match.value, []).append(each)
    for match, counted in groups.items():
        found.counts[match] = sum(each.rows for each in counted)
        found.groups[match] = rows = []
        for each in sorted(counted, key=lambda each: order((each.publication_id, 0))):
            if len(rows) >= most:
                break
            why = _why(asked, each.part_number, each.origin)
            rows += [(held, why) for held in parts.keys_of(catalogue, key, each, most - len(rows))]
    return {each.publication_id for counted in groups.values() for each in counted}


def _add_at_place(found: Found, catalogue: Catalogue, asked: str, key: str, within: Within) -> set[str]:
    for each in parts.with_loose_key(catalogue, key):
        match = match_with(asked, each.part_number, reads_by_ocr(Origin(each.origin)))
        if match is not Match.DIFFERENT and within(each.publication_id, each.figure, each.item):
            found.add(match.value, each.key, _why(asked, each.part_number, each.origin))
    return {key[0] for rows in found.groups.values() for key, _ in rows}


def _why(asked: str, printed: str, origin: str) -> str:
    if reads_by_ocr(Origin(origin)):
        return f"Read by OCR as {printed}."
    return "" if compare(asked, printed) is Match.EXACT else f"The list prints {printed}."


def _add_named(
    found: Found,
    catalogue: Catalogue,
    asked: str,
    key: str,
    publications: Collection[str],
    within: Within | None,
) -> None:
    for record in parts.naming(catalogue, key):
        row = record.row
        if record.publication_id not in publications:
            continue
        if within and not within(record.publication_id, row.figure, row.item):
            continue
        for note in row.notes:
            match = compare(asked, note.number) if note.number else Match.DIFFERENT
            if match is not Match.DIFFERENT:
                found.add("named", record.key, _named_words(row, note.words, match))
                break


def _named_words(row: PartsRow, words: str, match: Match) -> str:
    how = "" if match in (Match.EXACT, Match.NORMALISED) else " It only looks alike."
    read = " Read by OCR." if reads_by_ocr(row.origin) else ""
    return f'Named in the row of {row.part_number or "a part without a number"}: "{words}".{how}{read}'


def _near(catalogue: Catalogue, asked: str) -> list[str]:
    """Numbers that differ by a letter at the end, or by where a dash parts the figures."""
    stem = _LETTERS.sub("", _bare(asked))
    counted = parts.numbers_beginning(catalogue, loose_key(stem), 2, _ROWS_NEAR)
    others: dict[str, tuple[str, int]] = {}
    for number, count in counted:
        if compare(asked, number) is Match.DIFFERENT and _LETTERS.sub("", _bare(number)) == stem:
            first, before = others.get(normalised(number), (number, 0))
            others[normalised(number)] = (first, before + count)
    said = [f"{number} is another number: {count_of(count, 'row')}." for number, count in others.values()]
    more = len(said) - _MOST_NEAR
    return [
        *said[:_MOST_NEAR],
        *([f"{more} more numbers differ by a letter at the end."] if more > 0 else []),
    ]


def _bare(number: str) -> str:
    return re.sub(r"[\s/.-]+", "", plain_dashes(number).upper())
