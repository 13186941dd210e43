"""Lines of a numerical index: part number -> figure and item, quantity."""

import re
from collections import defaultdict
from collections.abc import Sequence
from enum import Enum

from indexer.tagging.parts_cells import read_units
from indexer.tagging.parts_rows import IndexedNumber
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Box, Origin


class _Holds(Enum):
    """What a column of an index holds, by its head."""

    PART = re.compile(r"PART|P/N|\bNUMBER\b|^NO\b")
    STOCK = re.compile(r"STOCK|NSN|AIRLINE")
    FIGURE_ITEM = re.compile(r"FIG.*(?:ITEM|INDEX|IDX)|REFERENCE")
    ITEM = re.compile(r"ITEM|INDEX|IDX")
    FIGURE = re.compile(r"FIG")
    PLACE = re.compile(r"CH(?:AP|\b)|SECT|ATA|SUBJ")
    QUANTITY = re.compile(r"QTY|QUANT|TTL|TOTAL|REQ|UNITS")


# In this order: "FIG & ITEM NUMBER" is no part number; "AIRLINE PART NO" is a stock number.
_ORDER = (
    _Holds.FIGURE_ITEM,
    _Holds.STOCK,
    _Holds.QUANTITY,
    _Holds.ITEM,
    _Holds.FIGURE,
    _Holds.PLACE,
    _Holds.PART,
)
_FIGURE_ITEM = re.compile(r"[0-9]{1,3}[A-Z]?(?:-{1,2}[0-9]{1,4}[A-Z]{0,2}){1,6}")


def read_index_line(
    cells: Sequence[str],
    *,
    pdf_page: int,
    box: Box,
    heads: Sequence[str] = (),
    before: str = "",
    origin: Origin = Origin.DIGITAL,
) -> IndexedNumber | None:
    """One printed line of one column of a numerical index; None when it is no line of an index.

    cells   its words or cells from left to right; with `heads` one cell a column, "" = empty
    heads   the column heads as printed, when they are known: "PART NUMBER", "FIG", "ITEM", "QTY" ...
    before  part number of the line above: a line without one goes on with it
    Where figure and item stand apart they are joined by "-"; an item that is not illustrated keeps its dash.
    """
    plain = [" ".join(plain_dashes(cell).split()) for cell in cells]
    if heads and len(heads) == len(plain):
        read = _by_heads(plain, [_holds(head) for head in heads], before)
    else:
        read = _by_form(" ".join(plain).split(), before)
    if read is None:
        return None
    number, stock, figure_item, quantity = read
    return IndexedNumber(number, figure_item, quantity, pdf_page, box, stock, origin)


_Read = tuple[str, str, str, str]  # part number, stock number, figure and item, quantity


def _holds(head: str) -> _Holds | None:
    head = head.upper()
    return next((kind for kind in _ORDER if kind.value.search(head)), None)


def _by_heads(cells: Sequence[str], holds: Sequence[_Holds | None], before: str) -> _Read | None:
    by_kind: dict[_Holds | None, str] = defaultdict(str)
    for kind, cell in zip(holds, cells, strict=True):
        by_kind[kind] = " ".join(filter(None, (by_kind[kind], cell)))
    place, figure, item = (by_kind[kind] for kind in (_Holds.PLACE, _Holds.FIGURE, _Holds.ITEM))
    figure_item = by_kind[_Holds.FIGURE_ITEM]
    if not figure_item and (figure or place) and item:
        figure_item = f"{figure} {item}" if item.startswith("-") else f"{figure}-{item}"
        figure_item = figure_item.lstrip("- ") if not figure else figure_item
    elif not figure_item:
        figure_item = figure if _FIGURE_ITEM.fullmatch(figure) else ""
    if place and figure_item:
        figure_item = f"{place}-{figure_item}"
    number = by_kind[_Holds.PART] or before
    if not re.search("[0-9]", figure_item) or not re.search("[0-9]", number):
        return None
    return number, by_kind[_Holds.STOCK], figure_item, _quantity(by_kind[_Holds.QUANTITY])


def _by_form(words: Sequence[str], before: str) -> _Read | None:
    """By the form of the words: the figure and item are the last that look so, the quantity stands behind."""
    places = [at for at, word in enumerate(words) if _FIGURE_ITEM.fullmatch(word)]
    if not places:
        return None
    at = places[-1]
    ahead, behind = words[:at], words[at + 1 :]
    if len(behind) > 2 or read_units(" ".join(behind)) is None:
        return None
    if not ahead:
        return (before, "", words[at], " ".join(behind)) if before else None
    if not re.search("[0-9]", ahead[0]) or len(ahead) > 3:
        return None
    return ahead[0], " ".join(ahead[1:]), words[at], " ".join(behind)


def _quantity(cell: str) -> str:
    return read_units(cell) or ""
