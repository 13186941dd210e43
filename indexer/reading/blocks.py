"""Lines of all pages -> blocks: headings, paragraphs, steps, warnings, notes, tables, figure titles.

Rules of this file are common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from statistics import median

from indexer.reading.hyphens import ends_in_hyphen
from indexer.reading.markers import admonition_kind, is_bullet, is_figure_title, numbering_depth
from indexer.reading.page import Line, Page, PassageKind
from indexer.trade.evidence import Origin

_PARAGRAPH_GAP = 0.45  # of the line's height, beyond the page's usual white between lines
_ENOUGH_GAPS = 5  # on a page, to tell the usual white by
_NARROW_GAP = 0.3  # of the line's height: taken for the usual white where there are fewer
_INDENT = 6.0  # points
_SHORT_LINE = 0.8  # of the column's width: a line with a full stop before this ends its paragraph
_FIRST_CJK = "\u2e80"
_ENDS = (".", "!", "?", ":", ";", ".”", '."', ".)", ".'")


@dataclass(frozen=True, slots=True)
class PlacedLine:
    pdf_page: int  # 1-based
    line: Line
    origin: Origin


@dataclass(slots=True)
class Block:
    """Lines that belong together.

    kind           a heading is TEXT with a heading_level
    heading_level  0 = not a heading
    table          number of the ruled table these lines are rows of, counted over the file; -1 for none
    """

    kind: PassageKind
    lines: list[PlacedLine] = field(default_factory=list)
    heading_level: int = 0
    table: int = -1

    @property
    def words(self) -> int:
        return sum(word_count(placed.line) for placed in self.lines)

    @property
    def is_guard(self) -> bool:
        """Whether it must not be cut from what follows."""
        return self.kind in (PassageKind.WARNING, PassageKind.CAUTION)


def word_count(line: Line) -> int:
    """Words of a line; where a script sets no spaces (Chinese, Japanese), two characters count as a word."""
    count = len(line.words)
    for word in line.words:
        if not word.text.isascii():
            count += max(sum(character >= _FIRST_CJK for character in word.text) // 2 - 1, 0)
    return count


def blocks_of(pages: Sequence[Page]) -> Iterator[Block]:
    """Cut the body lines of all pages into blocks, in reading order."""
    block: Block | None = None
    tables_before = 0
    for page in pages:
        usual_gap = _usual_gap(page.body)
        right_edges = _right_edges(page.body)
        before: Line | None = None
        for line in page.body:
            placed = PlacedLine(page.pdf_page, line, page.origin)
            table = _table_of(page, line, tables_before)
            opened = _opened(block, before, line, table, usual_gap, right_edges)
            if block is not None and opened is None:
                block.lines.append(placed)
            else:
                if block is not None:
                    yield block
                block = opened or Block(PassageKind.TEXT)
                block.lines.append(placed)
            before = line
        tables_before += len(page.tables)
    if block is not None:
        yield block


def _opened(
    block: Block | None,
    before: Line | None,
    line: Line,
    table: int,
    usual_gap: float,
    right_edges: dict[int, float],
) -> Block | None:
    """The new block that a line opens; None when it goes on with the one before.

    before  the line before on the same page; None for the first line of a page
    """
    if table >= 0:
        same = block is not None and block.table == table
        return None if same else Block(PassageKind.TABLE, table=table)
    kind = admonition_kind(line)
    if kind is not None:
        return Block(kind)
    if line.heading_level:
        goes_on = _continues_heading(block, before, line)
        return None if goes_on else Block(PassageKind.TEXT, heading_level=line.heading_level)
    text = line.text
    if is_figure_title(text):
        return Block(PassageKind.FIGURE_TITLE)
    if block is None or block.table >= 0 or block.heading_level:
        return Block(_kind(text))
    if (numbering_depth(text) or is_bullet(text)) and not _is_hanging(block, line):
        return Block(_kind(text))
    if _continues(block, before, line, usual_gap, right_edges):
        return None
    if _continues_admonition(block, line):
        return None
    return Block(_kind(text))


def _kind(text: str) -> PassageKind:
    return PassageKind.STEP if numbering_depth(text) else PassageKind.TEXT


def _continues_heading(block: Block | None, before: Line | None, line: Line) -> bool:
    """A second line of one heading: same style, right below, without a number of its own."""
    return (
        block is not None
        and before is not None
        and block.heading_level == line.heading_level
        and before.column == line.column
        and numbering_depth(line.text) == 0
        and -0.5 * line.box.height <= line.box.top - before.box.bottom <= 0.6 * line.box.height
    )


def _continues(
    block: Block, before: Line | None, line: Line, usual_gap: float, right_edges: dict[int, float]
) -> bool:
    """Whether a line without a mark of its own goes on with the paragraph before it."""
    last = block.lines[-1].line
    if ends_in_hyphen(last.text) and line.text[:1].islower():
        return True
    if block.kind is PassageKind.FIGURE_TITLE and not _same_style(last, line):
        return False
    if len(block.lines) == 1 and _is_bare_admonition(block):
        return True
    if before is None or before.column != line.column or line.box.top < before.box.top:
        return _runs_over(last, line)
    gap = line.box.top - before.box.bottom
    if gap > usual_gap + _PARAGRAPH_GAP * line.box.height:
        return False
    if not last.text.rstrip().endswith(_ENDS):
        return True
    first_line_indent = line.box.x0 - min(placed.line.box.x0 for placed in block.lines[-3:])
    if len(block.lines) > 1 and first_line_indent > _INDENT:
        return False
    edge = right_edges.get(line.column, line.box.x1)
    ends_short = last.box.x1 < last.box.x0 + _SHORT_LINE * (edge - last.box.x0)
    starts_out = line.box.x0 < last.box.x0 - _INDENT and len(block.lines) > 1
    return not (ends_short or starts_out)


def _same_style(one: Line, two: Line) -> bool:
    first, second = one.words[-1], two.words[0]
    return first.bold == second.bold and abs(first.font_size - second.font_size) < 0.5


def _runs_over(last: Line, line: Line) -> bool:
    """Whether a sentence runs on into the next column or page."""
    return not last.text.rstrip().endswith(_ENDS) and line.text[:1].islower()


def _is_bare_admonition(block: Block) -> bool:
    """Whether the block is so far only the word WARNING, CAUTION or NOTE on a line of its own."""
    return block.kind in _ADMONITIONS and len(block.lines[0].line.words) <= 2


def _continues_admonition(block: Block, line: Line) -> bool:
    """A further paragraph of a warning: set like its text (bold, capitals, hanging), as the step is not."""
    if not block.is_guard:
        return False
    first, last = block.lines[0].line, block.lines[-1].line
    if last.text.isupper() and line.text.isupper():
        return True
    if all(word.bold for word in last.words) and all(word.bold for word in line.words):
        return True
    hanging = last.box.x0 > first.box.x0 + _INDENT and len(block.lines) > 1
    return hanging and abs(line.box.x0 - last.box.x0) <= 3.0


def _is_hanging(block: Block, line: Line) -> bool:
    """Whether a line that begins like a step is the wrapped middle of one: "see step" / "(2) above"."""
    if len(block.lines) < 2:
        return False
    first, last = block.lines[0].line, block.lines[-1].line
    wrapped = last.box.x0 > first.box.x0 + _INDENT and abs(line.box.x0 - last.box.x0) <= 2.0
    return wrapped and not last.text.rstrip().endswith(_ENDS)


_ADMONITIONS = (PassageKind.WARNING, PassageKind.CAUTION, PassageKind.NOTE)


def _usual_gap(lines: Sequence[Line]) -> float:
    """The white between the lines of a paragraph on this page, in points; may be negative."""
    gaps = [
        two.box.top - one.box.bottom
        for one, two in zip(lines, lines[1:], strict=False)
        if one.column == two.column and one.box.top < two.box.top
    ]
    if not gaps:
        return 0.0
    usual = median(gaps)
    # A page of a few lines may hold nothing but paragraphs of one line each.
    return usual if len(gaps) >= _ENOUGH_GAPS else min(usual, _NARROW_GAP * lines[0].box.height)


def _right_edges(lines: Sequence[Line]) -> dict[int, float]:
    """Where the text of each column ends on the right."""
    edges: dict[int, float] = {}
    for line in lines:
        edges[line.column] = max(edges.get(line.column, 0.0), line.box.x1)
    return edges


def _table_of(page: Page, line: Line, before: int) -> int:
    """The number, over the file, of the ruled table that a line lies in; -1 for none."""
    x, y = (line.box.x0 + line.box.x1) / 2, (line.box.top + line.box.bottom) / 2
    for index, table in enumerate(page.tables):
        if table.box.x0 <= x <= table.box.x1 and table.box.top <= y <= table.box.bottom:
            return before + index
    return -1
