"""What columns say that no parts list of the usual form has: "SUPERSEDED BY", "OLD PART NO.", one a model.

A head and its cell read as one sentence give a note with its direction ("SUPERSEDED BY" over "QZ28-2210-3").
What else may matter there, a number or a mark for a model, is not kept: the row is flagged.
"""

import re
from collections import defaultdict

from indexer.tagging.parts_grid import GridRow, GridTable
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_notes import find_notes
from indexer.tagging.parts_rows import PartNote

_NUMBER = re.compile(
    r"(?![0-9]*\.[0-9]+$)(?=(?:[A-Z0-9/.-]*[0-9]){3})[A-Z0-9]+(?:[-/.][A-Z0-9]+)+", re.IGNORECASE
)
_NARROWS = re.compile(
    r"\b(?:S/N|SN|SERIALS?|ONLY|THRU|AND (?:ON|UP|SUBS?)|EXCEPT|MODELS?|PRE|POST|BEFORE|AFTER|USED ON|EFF"
    r"|A/C|SEE|USE)\b",
    re.IGNORECASE,
)
# What may be a usage code under a head that is not known, or a cross; not a unit of measure.
_CODE = re.compile(r"[A-Z]{1,2}(?:[\s,/&-]+[A-Z]{1,2})*|[\u2022\u25cf\u2713\u2714\u221a*+]")
_MEASURES = frozenset("EA FT IN YD QT PT GL OZ LB SH PR AR RO KT SE BX CN".split())
_MODEL = re.compile(r"[0-9]")


def other_columns(row: GridRow, table: GridTable) -> tuple[tuple[PartNote, ...], bool]:
    """Notes that the row's strange columns hold, and whether they hold anything else that may matter."""
    cells: dict[int, list[str]] = defaultdict(list)
    for word in row.words(Column.OTHER):
        cells[table.columns.place((word.box.x0 + word.box.x1) / 2)].append(word.text)
    notes: list[PartNote] = []
    matters = False
    for place, words in cells.items():
        head, cell = table.columns.heads[place].words, " ".join(words)
        found = find_notes(f"{head} {cell}")
        notes += [each.note for each in found]
        code = _CODE.fullmatch(cell) and cell not in _MEASURES
        said = code or _MODEL.search(head) or _NUMBER.fullmatch(cell) or _NARROWS.search(cell)
        matters |= not found and bool(said)
    return tuple(notes), matters
