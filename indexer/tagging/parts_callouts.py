"""Item numbers in the text layer of a figure's pages: the callouts of the rows.

A callout stands by itself, alone or among other item numbers ("3, 4", "4 THRU 6"); a number among words is a
dimension or a reference (common practice, no source). A dimension that stands alone cannot be told from one.
"""

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from indexer.reading.page import Page
from indexer.tagging.parts_lines import Piece, PlacedWord, printed_rows
from indexer.tagging.parts_rows import PartsFigure, PartsRow
from indexer.trade.evidence import Box, PageBox

_ITEM = re.compile(r"[0-9]{1,4}[A-HJ-NP-Z]{0,2}")
_JOINED = re.compile(r"[,;&]|AND|OR|THRU|THROUGH|TO")
_UP_TO = ("THRU", "THROUGH", "TO")
_REMARK = re.compile(r"\s*\(?\s*(?:REF|TYP(?:ICAL)?|[0-9]+\s*(?:PLACES?|PLCS?|PL|REQD|X))\.?\s*\)?$")
_FIGURE_BEFORE = re.compile(r"(?P<figure>.+)-(?P<item>[0-9]{1,4}[A-HJ-NP-Z]{0,2})")
_ABOVE_ROWS = 40.0  # points above the first row of a list where its heads stand


def with_callouts(
    figures: Sequence[PartsFigure], rows: Sequence[PartsRow], pages: Sequence[Page]
) -> tuple[PartsRow, ...]:
    """The same rows, each with the places of its item number on its figure's art pages.

    A row that is not illustrated has none; of a page that shows two figures, neither has the items of both.
    """
    items: dict[int, set[str]] = defaultdict(set)
    for row in rows:
        if row.item:
            items[row.figure].add(row.item)
    listed = _lists(rows)
    found: dict[tuple[int, str], list[PageBox]] = defaultdict(list)
    for page in pages:
        shown = [figure for figure in figures if page.pdf_page in figure.art_pages]
        if not any(items[figure.ordinal] for figure in shown):
            continue
        for text, box in _numbers(page, listed.get(page.pdf_page, [])):
            for item, figure in _meant(text, shown, items):
                found[figure, item].append(PageBox(page.pdf_page, box))
    return tuple(
        replace(row, callouts=tuple(found.get((row.figure, row.item), ()))) if row.illustrated else row
        for row in rows
    )


def _lists(rows: Sequence[PartsRow]) -> dict[int, list[Box]]:
    """Where the lists of each page stand: one box for each figure, with the heads above its first row."""
    by_list: dict[tuple[int, int], Box] = {}
    for row in rows:
        for place in row.boxes:
            key = place.pdf_page, row.figure
            by_list[key] = by_list[key].union(place.box) if key in by_list else place.box
    lists: dict[int, list[Box]] = defaultdict(list)
    for (pdf_page, _), box in by_list.items():
        lists[pdf_page].append(Box(box.x0, box.top - _ABOVE_ROWS, box.x1, box.bottom))
    return lists


def _meant(text: str, shown: Sequence[PartsFigure], items: dict[int, set[str]]) -> list[tuple[str, int]]:
    """The item and the figure that a number on a page means; none when two figures there have it."""
    named = [figure for figure in shown if text in items[figure.ordinal]]
    if len(named) == 1:
        return [(text, named[0].ordinal)]
    before = _FIGURE_BEFORE.fullmatch(text)
    if before is None or named:
        return []
    return [
        (before["item"], figure.ordinal)
        for figure in shown
        if figure.figure == before["figure"] and before["item"] in items[figure.ordinal]
    ]


def _numbers(page: Page, lists: Sequence[Box]) -> Iterator[tuple[str, Box]]:
    """The numbers that stand by themselves in the body of a page, outside its lists, each with its box."""
    for row in printed_rows(page):
        if row.margin:
            continue
        for piece in row.pieces:
            if not any(_within(piece.words[0].shown, box) for box in lists):
                yield from _items(piece)


def _items(piece: Piece) -> Iterator[tuple[str, Box]]:
    """The item numbers of a piece that holds nothing else; those between two at the place of "THRU"."""
    words = _without_remark(piece.words)
    tokens: list[tuple[str, Box]] = []
    for word in words:
        for token in re.findall(r"[,;&]|[^,;&]+", word.text.upper().strip("().")):
            tokens.append((token, word.shown))
    numbers = [token for token, _ in tokens if not _JOINED.fullmatch(token)]
    if not numbers or not all(_ITEM.fullmatch(n) or _FIGURE_BEFORE.fullmatch(n) for n in numbers):
        return
    if len(numbers) > 1 and len(numbers) == len(tokens):
        return  # numbers side by side with nothing between them: a scale, a table
    for place, (token, box) in enumerate(tokens):
        if token in _UP_TO and 0 < place < len(tokens) - 1:
            yield from ((number, box) for number in _between(tokens[place - 1][0], tokens[place + 1][0]))
        elif not _JOINED.fullmatch(token):
            yield token, box


def _without_remark(words: Sequence[PlacedWord]) -> Sequence[PlacedWord]:
    """The words before a remark on how often the part is shown: "15 (2 PLACES)"."""
    text = " ".join(word.text for word in words).upper()
    remark = _REMARK.search(text)
    if remark is None or remark.start() == 0:
        return words
    count = len(text[: remark.start()].split())
    return words[:count]


def _between(first: str, last: str) -> list[str]:
    """The whole numbers between two, neither of them included; none when there are too many to be items."""
    if not (first.isdigit() and last.isdigit()) or not 0 < int(last) - int(first) <= 30:
        return []
    return [str(number) for number in range(int(first) + 1, int(last))]


def _within(box: Box, other: Box) -> bool:
    x, y = (box.x0 + box.x1) / 2, (box.top + box.bottom) / 2
    return other.x0 <= x <= other.x1 and other.top <= y <= other.bottom
