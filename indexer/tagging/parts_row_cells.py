"""One logical row of the grid -> a row of the parts list: cells by the grammar of parts lists, flags."""

import re
from collections.abc import Sequence
from itertools import pairwise

from indexer.tagging.parts_cell_marks import (
    begins_with_ditto,
    has_footnote_mark,
    holds_several,
    is_no_number,
    without_footnote_marks,
    without_or,
    without_side,
)
from indexer.tagging.parts_cells import (
    read_item,
    read_nomenclature,
    read_part_number,
    read_supplier,
    read_units,
)
from indexer.tagging.parts_grid import GridRow, GridTable, union
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_lines import PlacedWord
from indexer.tagging.parts_notes import names_another_unclearly
from indexer.tagging.parts_other_columns import other_columns
from indexer.tagging.parts_rows import PartsRow, RowFlag, UsageCode
from indexer.tagging.parts_sureness import is_shaped_as_number
from indexer.tagging.parts_usage import read_usage
from indexer.trade.evidence import Origin

_NO_NUMBER = ("DELETED", "NOT USED", "NO NUMBER", "OMITTED")
_LEFT_OF_COLUMN = 2.0  # points: a rule beside a cell, read as a figure of it


def parts_row(
    ordinal: int,
    figure: int,
    row: GridRow,
    table: GridTable,
    origin: Origin,
    indenture: int | None,
    ocr_floor: float,
) -> PartsRow:
    """The row as it is kept.

    indenture  what the place of its name shows; None = nothing
    ocr_floor  confidence, 0.0 to 1.0: cells that OCR read with less are flagged
    """
    ocr = origin is not Origin.DIGITAL
    flags = list(row.flags)
    plain, marked = _plain_cells(row, ocr)
    flags += marked
    item = read_item(plain[Column.ITEM])
    if not item.readable or (ocr and _is_doubtful(row, table, Column.ITEM, ocr_floor)):
        flags.append(RowFlag.ITEM)
    cell = read_part_number(plain[Column.PART_NUMBER])
    number = "" if is_no_number(cell.number) else cell.number
    number, side = without_side(number)
    number, instead = without_or(number)
    name = " ".join(filter(None, (plain[Column.NOMENCLATURE], side)))
    if not plain[Column.NOMENCLATURE]:
        flags.append(RowFlag.NAME)
    if holds_several(number):
        flags.append(RowFlag.SEVERAL_NUMBERS)
    facts = read_nomenclature(name, indenture=indenture, read_by_ocr=ocr)
    if not number and not any(word in name.upper() for word in _NO_NUMBER):
        flags.append(RowFlag.PART_NUMBER)
    elif ocr and (_is_doubtful(row, table, Column.PART_NUMBER, ocr_floor) or not is_shaped_as_number(number)):
        flags.append(RowFlag.DOUBTFUL_NUMBER)
    units = read_units(plain[Column.UNITS])
    if units is None or (ocr and _is_doubtful(row, table, Column.UNITS, ocr_floor)):
        flags.append(RowFlag.UNITS)
    depth = indenture if ocr else facts.indenture
    if depth is None:
        flags.append(RowFlag.INDENTURE)
    more, matters = other_columns(row, table)
    if matters:
        flags.append(RowFlag.OTHER_COLUMN)
    if instead or names_another_unclearly(f"{cell.number} {facts.words}"):
        flags.append(RowFlag.NOTE)
    by_column = row.text(Column.EFFECTIVITY).replace("\n", " ")
    number_words = row.words(Column.PART_NUMBER)
    counted = [word for kind in (Column.ITEM, Column.PART_NUMBER, Column.UNITS) for word in row.words(kind)]
    return PartsRow(
        ordinal=ordinal,
        figure=figure,
        item=item.item,
        part_number=number,
        nomenclature=facts.words,
        indenture=depth,
        units=units or "",
        pdf_page=row.pages[0],
        boxes=row.boxes(),
        quote=row.quote,
        illustrated=item.illustrated,
        stock_number=re.sub(r"^NSN\s+", "", row.text(Column.STOCK_NUMBER).replace("\n", " ")),
        usage=tuple(UsageCode(code) for code in read_usage(row.text(Column.USAGE).replace("\n", " "))),
        effectivity="; ".join(filter(None, (by_column, facts.effectivity))),
        supplier=facts.supplier or read_supplier(row.text(Column.SUPPLIER).replace("\n", " ")),
        notes=(*cell.notes, *facts.notes, *more),
        number_box=union([word.shown for word in number_words]) if number_words else None,
        flags=tuple(dict.fromkeys(flags)),
        origin=origin,
        confidence=_least(counted) if ocr else None,
    )


def _plain_cells(row: GridRow, ocr: bool) -> tuple[dict[Column, str], list[RowFlag]]:
    """The cells without footnotes' marks; a ditto stands as printed, but for a number, which it is not."""
    flags = []
    plain = {}
    for column in (Column.ITEM, Column.PART_NUMBER, Column.NOMENCLATURE, Column.UNITS):
        text = _number(row, ocr) if column is Column.PART_NUMBER else row.text(column)
        if column in (Column.ITEM, Column.UNITS):
            text = text.replace("\n", " ")
        plain[column], marked = without_footnote_marks(text)
        if marked:
            flags.append(RowFlag.FOOTNOTE)
    if any(has_footnote_mark(row.text(column)) for column in (Column.USAGE, Column.EFFECTIVITY)):
        flags.append(RowFlag.FOOTNOTE)  # an asterisk alone is no blank usage column
    if begins_with_ditto(plain[Column.PART_NUMBER]):
        plain[Column.PART_NUMBER] = ""
        flags.append(RowFlag.DITTO)
    others = (Column.NOMENCLATURE, Column.UNITS, Column.USAGE, Column.EFFECTIVITY)
    if any(begins_with_ditto(row.text(column)) for column in others):
        flags.append(RowFlag.DITTO)
    return plain, flags


def _is_doubtful(row: GridRow, table: GridTable, column: Column, ocr_floor: float) -> bool:
    """Whether a cell read by OCR is empty, below the floor of confidence, or begins left of its column."""
    words = row.words(column)
    if not words or _least(words) < ocr_floor:
        return True
    starts = [
        start
        for head, start in zip(table.columns.heads, table.columns.starts, strict=True)
        if head.column is column and start is not None
    ]
    return len(starts) == 1 and words[0].box.x0 < starts[0] - _LEFT_OF_COLUMN


def _least(words: Sequence[PlacedWord]) -> float:
    return min((word.confidence or 0.0 for word in words), default=0.0)


def _number(row: GridRow, ocr: bool) -> str:
    """The part number; one divided after a hyphen at a line's end is joined, as is one cut up by OCR."""
    lines = [
        _line_of_number(line[Column.PART_NUMBER], ocr) for line in row.lines if line.get(Column.PART_NUMBER)
    ]
    number = ""
    for line in lines:
        number += line if not number or number.endswith(("-", "–", "—")) else f" {line}"
    return number


def _line_of_number(words: Sequence[PlacedWord], ocr: bool) -> str:
    text = words[0].text
    for before, word in pairwise(words):
        close = ocr and (before.text.endswith("-") or word.text.startswith("-"))
        text += word.text if close else f" {word.text}"
    return text
