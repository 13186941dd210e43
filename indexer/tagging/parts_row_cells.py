"""One logical row of the grid -> a row of the parts list: cells by the grammar of parts lists, flags."""

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from indexer.tagging.parts_cells import read_item, read_nomenclature, read_supplier, read_units
from indexer.tagging.parts_grid import GridRow, GridTable, union
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_lines import PlacedWord
from indexer.tagging.parts_rows import PartsRow, RowFlag, UsageCode
from indexer.tagging.parts_sureness import DOUBTFUL_BELOW, number_is_doubtful
from indexer.tagging.parts_usage import read_usage
from indexer.trade.evidence import Origin

_DOTS = ".\u2026\u00b7"
_NO_NUMBER = ("DELETED", "NOT USED", "NO NUMBER", "OMITTED")
_SURE_OF_STEP = 2  # rows whose dots show how far one dot moves the name
_OFF_STEP = 0.3  # of a step
_LEAST_STEP = 3.5  # points, between two depths of names that are set in without dots
_SAME_EDGE = 1.5


def parts_row(ordinal: int, figure: int, row: GridRow, origin: Origin, indenture: int | None) -> PartsRow:
    """The row as it is kept. indenture: what the place of its name shows; None = nothing."""
    ocr = origin is not Origin.DIGITAL
    flags = list(row.flags)
    item = read_item(row.text(Column.ITEM).replace("\n", " "))
    if not item.readable or (ocr and _least(row.words(Column.ITEM)) < DOUBTFUL_BELOW):
        flags.append(RowFlag.ITEM)
    number = _number(row, ocr)
    name = row.text(Column.NOMENCLATURE)
    facts = read_nomenclature(name, indenture=indenture, read_by_ocr=ocr)
    if not number and not any(word in name.upper() for word in _NO_NUMBER):
        flags.append(RowFlag.PART_NUMBER)
    elif ocr and number_is_doubtful(number, _least(row.words(Column.PART_NUMBER))):
        flags.append(RowFlag.DOUBTFUL_NUMBER)
    units = read_units(row.text(Column.UNITS).replace("\n", " "))
    if units is None or (ocr and (not units or _least(row.words(Column.UNITS)) < DOUBTFUL_BELOW)):
        flags.append(RowFlag.UNITS)
    if facts.indenture is None:
        flags.append(RowFlag.INDENTURE)
    by_column = row.text(Column.EFFECTIVITY).replace("\n", " ")
    number_words = row.words(Column.PART_NUMBER)
    counted = [word for kind in (Column.ITEM, Column.PART_NUMBER, Column.UNITS) for word in row.words(kind)]
    return PartsRow(
        ordinal=ordinal,
        figure=figure,
        item=item.item,
        part_number=number,
        nomenclature=facts.words,
        indenture=facts.indenture,
        units=units or "",
        pdf_page=row.pages[0],
        boxes=row.boxes(),
        quote=row.quote,
        illustrated=item.illustrated,
        stock_number=row.text(Column.STOCK_NUMBER).replace("\n", " "),
        usage=tuple(UsageCode(code) for code in read_usage(row.text(Column.USAGE).replace("\n", " "))),
        effectivity="; ".join(filter(None, (by_column, facts.effectivity))),
        supplier=facts.supplier or read_supplier(row.text(Column.SUPPLIER).replace("\n", " ")),
        notes=facts.notes,
        number_box=union([word.shown for word in number_words]) if number_words else None,
        flags=tuple(dict.fromkeys(flags)),
        origin=origin,
        confidence=_least(counted) if ocr else None,
    )


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


def indentures(rows: Sequence[tuple[GridRow, GridTable, Origin]]) -> list[int | None]:
    """What the place of each row's name shows of its depth; None where dots tell it, or nothing does.

    Two ways. Where OCR lost dots: how far one dot moves the name is learned from rows that kept theirs.
    Where a list prints no dots at all: names set in by equal steps, by two rows or more each.
    """
    found: list[int | None] = [None] * len(rows)
    by_list: dict[tuple[int, bool], list[int]] = defaultdict(list)
    for place, (row, table, origin) in enumerate(rows):
        if _name_words(row):
            by_list[id(table), origin is not Origin.DIGITAL].append(place)
    for (_, ocr), places in by_list.items():
        grids = [rows[place][0] for place in places]
        edge = min(_first_edge(row) for row in grids)
        dotted = [(row, _dots(row)) for row in grids]
        steps = [(_name_edge(row) - edge) / dots for row, dots in dotted if dots]
        if steps and ocr:
            step = median(steps)
            steady = [each for each in steps if abs(each - step) <= _OFF_STEP * step]
            if len(steady) < _SURE_OF_STEP or step < 1.0:
                continue
        elif not steps:
            step = _step_without_dots([_name_edge(row) - edge for row in grids])
            if step is None:
                continue
        else:
            continue
        for place, (row, dots) in zip(places, dotted, strict=True):
            deep = (_name_edge(row) - edge) / step
            if not dots and abs(deep - round(deep)) <= _OFF_STEP:
                found[place] = round(deep)
    return found


def _step_without_dots(offsets: Sequence[float]) -> float | None:
    """The step by which names are set in, when they all stand on its multiples; None when they do not."""
    edges: dict[float, int] = {}
    for offset in sorted(offsets):
        near = next((edge for edge in edges if abs(edge - offset) <= _SAME_EDGE), None)
        edges[offset if near is None else near] = edges.get(offset if near is None else near, 0) + 1
    places = sorted(edge for edge, count in edges.items() if count > 1)
    if len(places) < 2 or len(places) < len(edges) / 2:
        return None
    step = min(two - one for one, two in pairwise(places))
    even = all(abs(edge / step - round(edge / step)) <= _OFF_STEP for edge in places)
    return step if step >= _LEAST_STEP and even else None


def _name_words(row: GridRow) -> list[PlacedWord]:
    return next((line[Column.NOMENCLATURE] for line in row.lines if line.get(Column.NOMENCLATURE)), [])


def _first_edge(row: GridRow) -> float:
    return _name_words(row)[0].box.x0


def _name_edge(row: GridRow) -> float:
    """Where the first word begins that is more than dots."""
    words = _name_words(row)
    word = next((word for word in words if word.text.strip(_DOTS)), words[0])
    glued = len(word.text) - len(word.text.lstrip(_DOTS))
    return word.box.x0 + (word.box.width * glued * 0.5 / len(word.text) if glued else 0.0)


def _dots(row: GridRow) -> int:
    count = 0
    for word in _name_words(row):
        bare = word.text.lstrip(_DOTS)
        count += len(word.text) - len(bare)
        if bare:
            break
    return count
