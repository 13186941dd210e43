"""Rows with a part number: exact, written otherwise, and alike are three different answers.

AN4-12A is not AN4-12: numbers that differ by a letter at the end are named beside the answer, never in it.
"""

import re

from indexer.library import parts
from indexer.library.catalogue import Catalogue
from indexer.tagging.parts_rows import PartsRow
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Origin
from indexer.trade.part_numbers import Match, compare, loose_key, match_with, normalised
from server.parts_found import Found, Within
from server.parts_words import reads_by_ocr, rows_words

_LETTERS = re.compile(r"(?<=[0-9])[A-Z]{1,2}$")  # behind a size code: no cotter hole, drilled head
_MOST_NEAR = 8  # other numbers that are named
_ROWS_NEAR = 2000  # rows that are looked at for them
_SURE = (Match.EXACT.value, Match.NORMALISED.value)


def by_number(catalogue: Catalogue, asked: str, within: Within) -> Found:
    """Rows whose number agrees, rows that name it, and lines of number indexes."""
    key, found = loose_key(asked), Found()
    if not key:
        return found
    held = [
        each
        for each in parts.with_loose_key(catalogue, key)
        if within(each.publication_id, each.figure, each.item)
    ]
    matches: dict[tuple[str, str], tuple[Match, str]] = {}  # few numbers have many rows
    for each in held:
        printed = each.part_number, each.origin
        if printed not in matches:
            matches[printed] = (match_with(asked, *_read(printed)), _why(asked, *printed))
        match, why = matches[printed]
        if match is not Match.DIFFERENT:
            found.add(match.value, each.key, why)
    listed = {each[0] for rows in found.groups.values() for each, _ in rows}
    if not any(match in found.groups for match in _SURE):
        _add_named(found, catalogue, asked, key, within)
    for line in parts.indexed(catalogue, key, listed):
        match = match_with(asked, line.line.part_number, reads_by_ocr(line.line.origin))
        if match is not Match.DIFFERENT and within(line.publication_id, -1, ""):
            found.index.append((line, match.value))
    found.said += _near(catalogue, asked)
    return found


def _read(printed: tuple[str, str]) -> tuple[str, bool]:
    number, origin = printed
    return number, reads_by_ocr(Origin(origin))


def _why(asked: str, printed: str, origin: str) -> str:
    if reads_by_ocr(Origin(origin)):
        return f"Read by OCR as {printed}."
    return "" if compare(asked, printed) is Match.EXACT else f"The list prints {printed}."


def _add_named(found: Found, catalogue: Catalogue, asked: str, key: str, within: Within) -> None:
    for record in parts.naming(catalogue, key):
        row = record.row
        if not within(record.publication_id, row.figure, row.item):
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
    said = [f"{number} is another number: {rows_words(count)}." for number, count in others.values()]
    more = len(said) - _MOST_NEAR
    return [
        *said[:_MOST_NEAR],
        *([f"{more} more numbers differ by a letter at the end."] if more > 0 else []),
    ]


def _bare(number: str) -> str:
    return re.sub(r"[\s/.-]+", "", plain_dashes(number).upper())
