"""Pages -> passages: about 60 to 200 words on one subject, a warning always with the step it guards."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.blocks import Block, PlacedLine, blocks_of, word_count
from indexer.reading.hyphens import Hyphenation, ends_in_hyphen
from indexer.reading.page import Page, Passage, PassageKind, TextState
from indexer.reading.recognized import is_doubtful
from indexer.trade.evidence import Box, Origin, PageBox

_FEWEST_WORDS = 60
_MOST_WORDS = 200
_GOOD_CUT = 120  # words: from here a passage ends at the next paragraph or step
_LONGEST_UNIT = 600  # words: a warning and what follows it are not held together beyond this
_LAST_PIECE = 30  # words: a shorter rest stays with the piece before

# When a passage holds several kinds, the one that matters most names it.
_BY_WEIGHT = (
    PassageKind.WARNING,
    PassageKind.CAUTION,
    PassageKind.PARTS_ROW,
    PassageKind.TABLE,
    PassageKind.STEP,
    PassageKind.TEXT,
    PassageKind.NOTE,
    PassageKind.FIGURE_TITLE,
)
_PARTS_HEADER = ("PART NUMBER", "PART NO")


def cut_passages(pages: Sequence[Page], ocr_floor: float = 0.0) -> tuple[Passage, ...]:
    """Cut all pages of one file. Every word of the bodies is in one passage, or in the heading path of some.

    Pages whose text is not words give none.
    A passage ends at a heading and at a page's end, except where a sentence or a warning runs over it.

    ocr_floor  confidence, 0.0 to 1.0: words that OCR read with less are the passage's doubtful ones
    """
    pages = [page for page in pages if page.state is TextState.TEXT]
    hyphenation = Hyphenation(line.text for page in pages for line in page.body)
    cut = _Cutter(hyphenation, _parts_tables(pages), ocr_floor)
    for unit in _units(blocks_of(pages)):
        cut.take(unit)
    return cut.finish()


def _parts_tables(pages: Sequence[Page]) -> frozenset[int]:
    """Numbers, over the file, of ruled tables whose first rows name a column of part numbers."""
    tables = [table for page in pages for table in page.tables]
    return frozenset(
        index
        for index, table in enumerate(tables)
        if any(cell.upper().startswith(_PARTS_HEADER) for row in table.rows[:2] for cell in row)
    )


@dataclass(slots=True)
class _Unit:
    """Blocks that stay together: one block, or warnings with what they guard."""

    blocks: list[Block]

    @property
    def words(self) -> int:
        return sum(block.words for block in self.blocks)

    @property
    def first_page(self) -> int:
        return self.blocks[0].lines[0].pdf_page


def _units(blocks: Iterable[Block]) -> Iterator[_Unit]:
    waiting: list[Block] = []
    for block in blocks:
        if waiting and _is_title(waiting) and block.kind is not PassageKind.TABLE:
            yield _Unit(waiting)
            waiting = []
        waiting.append(block)
        if not (_is_title(waiting) or _guards_on(waiting)):
            yield _Unit(waiting)
            waiting = []
    if waiting:
        yield _Unit(waiting)


def _is_title(waiting: Sequence[Block]) -> bool:
    """Whether the blocks are one title, which may be that of the table that comes next."""
    return len(waiting) == 1 and waiting[0].kind is PassageKind.FIGURE_TITLE


def _guards_on(waiting: Sequence[Block]) -> bool:
    """Whether the blocks begin with a warning whose step has not come yet."""
    if not waiting[0].is_guard or sum(each.words for each in waiting) >= _LONGEST_UNIT:
        return False
    last = waiting[-1]
    return last.is_guard or last.heading_level > 0 or last.kind in _NOT_THE_STEP or _only_continues(last)


_NOT_THE_STEP = (PassageKind.NOTE, PassageKind.FIGURE_TITLE)
_CONTINUED = re.compile(r"[(\[]?\s*(?:continued|cont'?d?\.?)\s*[)\]]?", re.IGNORECASE)


def _only_continues(block: Block) -> bool:
    """ "(Continued)" over a page's text stands between a warning and its step; it is not the step."""
    return _CONTINUED.fullmatch(" ".join(placed.line.text for placed in block.lines).strip()) is not None


class _Cutter:
    """Packs units into passages, in order."""

    def __init__(self, hyphenation: Hyphenation, parts_tables: frozenset[int], ocr_floor: float):
        self._hyphenation = hyphenation
        self._ocr_floor = ocr_floor
        self._parts_tables = parts_tables
        self._path: list[tuple[int, str]] = []  # (level, heading)
        self._bare: Block | None = None  # the last heading, while nothing stands under it
        self._held: list[Block] = []
        self._held_words = 0
        self._passages: list[Passage] = []

    def take(self, unit: _Unit) -> None:
        headings = [block for block in unit.blocks if block.heading_level]
        if headings:
            self._close()
            self._close_bare(min(heading.heading_level for heading in headings))
            for heading in headings:
                self._enter(heading)
            if len(headings) == len(unit.blocks):
                self._bare = headings[0]
                return
        self._bare = None
        if self._held and self._must_close(unit):
            self._close()
        self._held += unit.blocks
        self._held_words += unit.words

    def finish(self) -> tuple[Passage, ...]:
        self._close()
        self._close_bare(0)
        return tuple(self._passages)

    def _enter(self, heading: Block) -> None:
        text = " ".join(self._text(heading.lines).split("\n"))
        while self._path and self._path[-1][0] >= heading.heading_level:
            self._path.pop()
        self._path.append((heading.heading_level, text))

    def _close_bare(self, level: int) -> None:
        """A heading that had nothing under it becomes a passage, unless the one that comes lies below it."""
        if self._bare is not None and level <= self._bare.heading_level:
            self._append([self._bare])
        self._bare = None

    def _must_close(self, unit: _Unit) -> bool:
        last = self._held[-1]
        if PassageKind.TABLE in (last.kind, unit.blocks[-1].kind):
            return True
        if self._held[0].lines[0].pdf_page != unit.first_page:
            return True
        together = self._held_words + unit.words
        if self._held_words < _FEWEST_WORDS and together <= _MOST_WORDS + _FEWEST_WORDS:
            return False
        return together > _MOST_WORDS or self._held_words >= _GOOD_CUT

    def _close(self) -> None:
        if not self._held:
            return
        guarded = any(block.is_guard for block in self._held)
        if self._held_words > (_LONGEST_UNIT if guarded else _MOST_WORDS + _FEWEST_WORDS):
            for piece in self._pieces(self._held, _LONGEST_UNIT if guarded else 0):
                self._append(piece)
        else:
            self._append(self._held)
        self._held, self._held_words = [], 0

    def _pieces(self, blocks: Sequence[Block], first_words: int) -> Iterator[list[Block]]:
        """Cut blocks that are too long at ends of sentences or rows; the first piece has `first_words`."""
        pieces: list[list[Block]] = [[]]
        words = 0
        for block in blocks:
            for index, placed in enumerate(block.lines):
                if index == 0 or not pieces[-1]:
                    pieces[-1].append(Block(block.kind, [], 0, block.table))
                pieces[-1][-1].lines.append(placed)
                words += word_count(placed.line)
                text = placed.line.text
                ends = text.endswith((".", ":", ";")) or block.kind is PassageKind.TABLE
                enough = words >= _MOST_WORDS or (ends and words >= _GOOD_CUT)
                if len(pieces) == 1:
                    enough = enough and words >= first_words
                if enough and not ends_in_hyphen(text):
                    pieces.append([])
                    words = 0
        if not pieces[-1]:
            pieces.pop()
        elif words < _LAST_PIECE and len(pieces) > 1:
            rest = pieces.pop()
            pieces[-1] += rest
        yield from pieces

    def _append(self, blocks: Sequence[Block]) -> None:
        lines = [placed for block in blocks for placed in block.lines]
        self._passages.append(
            Passage(
                ordinal=len(self._passages),
                pdf_page=lines[0].pdf_page,
                boxes=tuple(_boxes(lines)),
                heading_path=tuple(heading for _, heading in self._path),
                text="\n".join(self._text(block.lines) for block in blocks),
                kind=self._kind(blocks),
                origin=_weakest(placed.origin for placed in lines),
                doubtful=tuple(self._doubtful(lines)),
            )
        )

    def _doubtful(self, lines: Sequence[PlacedLine]) -> Iterator[str]:
        for placed in lines:
            for word in placed.line.words:
                if is_doubtful(word.text, word.confidence, self._ocr_floor):
                    yield word.text

    def _text(self, lines: Sequence[PlacedLine]) -> str:
        return self._hyphenation.joined([placed.line.text for placed in lines])

    def _kind(self, blocks: Sequence[Block]) -> PassageKind:
        parts = any(block.table in self._parts_tables for block in blocks)
        kinds = {block.kind for block in blocks} | ({PassageKind.PARTS_ROW} if parts else set())
        return next(kind for kind in _BY_WEIGHT if kind in kinds)


def _boxes(lines: Sequence[PlacedLine]) -> Iterator[PageBox]:
    """One box for each stretch of lines in one column of one page."""
    box: Box | None = None
    place: tuple[int, int] | None = None
    for placed in lines:
        here = (placed.pdf_page, placed.line.column)
        if box is not None and here == place:
            box = box.union(placed.line.box)
            continue
        if box is not None and place is not None:
            yield PageBox(place[0], box)
        box, place = placed.line.box, here
    if box is not None and place is not None:
        yield PageBox(place[0], box)


def _weakest(origins: Iterable[Origin]) -> Origin:
    """Digital only where every line is."""
    found = set(origins)
    return next(iter(found - {Origin.DIGITAL}), Origin.DIGITAL)
