"""Which lines are headings, and how strong: by size, weight, capitals and numbering."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from indexer.reading.markers import is_admonition, is_bullet, is_figure_title, numbering_depth
from indexer.reading.page import Line

_LARGER = 1.12  # times the body's size
_MOST_WORDS = 16
_MOST_WORDS_CAPITALS = 12
_MOST_WORDS_PLAIN = 8  # of a numbered title set like the body
_LEAST_WORDS_BELOW = 4  # of the line under a heading that only capitals mark
_LEAST_LETTERS = 3
_MOST_LINES = 3  # of one heading; a longer stretch in one style is a paragraph
_MOST_LINES_LARGE = 6
_WIDE_GAP = 2.5  # times the font size, inside a line: the line is a row of a table
_ABOVE = 0.35  # times the line's height: the white over a heading that only capitals mark
_SAME_PARAGRAPH = 1.3  # times the line's height, from top to top
_CENTRED = 6.0  # points off the middle
_WEAKEST_LEVEL = 9
_BOLD_BODY = 0.5  # share of the body's letters
_CAPITAL_BODY = 0.4  # share of the body's lines


@dataclass(frozen=True, slots=True)
class BodyStyle:
    """How most of the file's text is set."""

    size: float  # points
    is_bold: bool
    is_capitals: bool


@dataclass(frozen=True, slots=True, order=True)
class _Style:
    """A heading's style; the smaller, the stronger."""

    negative_size: float
    not_capitals: bool
    not_bold: bool
    rank: int  # 0 centred without a number, 1 without one or "1.", 2 "1.1" or "A.", 3 "1.1.1" ...


def body_style(lines: Iterable[Line]) -> BodyStyle:
    """The style that most letters of the lines have."""
    sizes: Counter[float] = Counter()
    letters = bold = count = capitals = 0
    for line in lines:
        count += 1
        capitals += _is_capitals(line.text)
        for word in line.words:
            sizes[_half(word.font_size)] += len(word.text)
            letters += len(word.text)
            bold += len(word.text) if word.bold else 0
    size = sizes.most_common(1)[0][0] if sizes else 0.0
    return BodyStyle(size, bold > _BOLD_BODY * letters, capitals > _CAPITAL_BODY * count)


def mark_headings(
    pages: Sequence[Sequence[Line]], fixed: frozenset[int], body: BodyStyle
) -> list[list[Line]]:
    """The same lines with heading levels set.

    pages   the body lines of each page, in reading order
    fixed   id() of lines that are no headings whatever they look like (rows of ruled tables)
    """
    styles = [_page_styles(lines, fixed, body) for lines in pages]
    used = {style for page in styles for style in page if style is not None}
    ranks = {style: rank for rank, style in enumerate(sorted(used), start=1)}
    return [
        [
            replace(line, heading_level=min(ranks[style], _WEAKEST_LEVEL)) if style else line
            for line, style in zip(lines, page, strict=True)
        ]
        for lines, page in zip(pages, styles, strict=True)
    ]


def _page_styles(lines: Sequence[Line], fixed: frozenset[int], body: BodyStyle) -> list[_Style | None]:
    styles: list[_Style | None] = []
    middle = (min(line.box.x0 for line in lines) + max(line.box.x1 for line in lines)) / 2 if lines else 0.0
    for index, line in enumerate(lines):
        before = lines[index - 1] if index else None
        after = lines[index + 1] if index + 1 < len(lines) else None
        styles.append(None if id(line) in fixed else _heading_style(line, before, after, body, middle))
    return _without_paragraphs(lines, styles, body)


def _heading_style(
    line: Line, before: Line | None, after: Line | None, body: BodyStyle, middle: float
) -> _Style | None:
    """The style of a line that looks like a heading; None for one that does not.

    middle  of the page's text, in points from the left
    """
    text = line.text
    if not _may_be_heading(line, text):
        return None
    size = _half(sorted(word.font_size for word in line.words)[len(line.words) // 2])
    bold = all(word.bold for word in line.words if any(map(str.isalnum, word.text)))
    capitals = _is_capitals(text)
    depth = numbering_depth(text)
    larger = size >= _LARGER * body.size
    stands_out = larger or (bold and not body.is_bold)
    if not stands_out and capitals and not body.is_capitals and len(line.words) <= _MOST_WORDS_CAPITALS:
        stands_out = depth > 0 or (_stands_clear(line, before) and _is_over_text(after))
    if not stands_out and depth > 0:
        stands_out = _opens_a_deeper_list(line, text, depth, after)
    if not stands_out:
        return None
    if not larger and (text[0].islower() or (text.endswith((".", ";", ",")) and not (capitals or bold))):
        return None
    centred = abs((line.box.x0 + line.box.x1) / 2 - middle) <= _CENTRED and line.column == 0
    return _Style(-size, not capitals, not bold, max(depth, 0 if centred else 1))


def _may_be_heading(line: Line, text: str) -> bool:
    if len(line.words) > _MOST_WORDS or sum(map(str.isalpha, text)) < _LEAST_LETTERS:
        return False
    if is_admonition(line) or is_figure_title(text) or is_bullet(text):
        return False
    gaps = [two.box.x0 - one.box.x1 for one, two in zip(line.words, line.words[1:], strict=False)]
    if numbering_depth(text) > 0:
        gaps = gaps[1:]
    return not gaps or max(gaps) <= _WIDE_GAP * max(line.words[0].font_size, 1.0)


def _stands_clear(line: Line, before: Line | None) -> bool:
    """Whether a line begins a column or has white above it."""
    if before is None or before.column != line.column or before.box.top > line.box.top:
        return True
    return line.box.top - before.box.bottom > _ABOVE * line.box.height


def _is_over_text(after: Line | None) -> bool:
    """Whether text follows: names of parts in a drawing are in capitals too, but stand over each other."""
    return after is not None and (
        len(after.words) >= _LEAST_WORDS_BELOW or numbering_depth(after.text) > 0 or is_admonition(after)
    )


def _opens_a_deeper_list(line: Line, text: str, depth: int, after: Line | None) -> bool:
    """A short numbered title, set like the body, before a number one level down ("1. General", "A. ...")."""
    if len(line.words) > _MOST_WORDS_PLAIN or text.endswith((".", ":", ";", ",")):
        return False
    if after is None or depth > 2:
        return False
    return numbering_depth(after.text) == depth + 1


def _without_paragraphs(
    lines: Sequence[Line], styles: Sequence[_Style | None], body: BodyStyle
) -> list[_Style | None]:
    """Take back headings that go on for more lines than a heading does."""
    kept = list(styles)
    for index in range(1, len(kept)):
        if kept[index] is not None and kept[index - 1] is None and _is_same_paragraph(lines, index):
            kept[index] = None
    start = 0
    while start < len(kept):
        end = start + 1
        while end < len(kept) and kept[start] is not None and _goes_on(lines, kept, end):
            end += 1
        style = kept[start]
        if style is not None:
            larger = -style.negative_size >= _LARGER * body.size
            if end - start > (_MOST_LINES_LARGE if larger else _MOST_LINES):
                kept[start:end] = [None] * (end - start)
        start = end
    return kept


def _is_same_paragraph(lines: Sequence[Line], index: int) -> bool:
    """Whether a line without a number goes on, in the same style, from a line that is no heading."""
    above, below = lines[index - 1], lines[index]
    return (
        above.column == below.column
        and numbering_depth(below.text) == 0
        and 0 <= below.box.top - above.box.top <= _SAME_PARAGRAPH * above.box.height
        and _half(above.words[-1].font_size) == _half(below.words[0].font_size)
        and above.words[-1].bold == below.words[0].bold
        and above.text.isupper() == below.text.isupper()
    )


def _goes_on(lines: Sequence[Line], styles: Sequence[_Style | None], index: int) -> bool:
    one, two = styles[index - 1], styles[index]
    above, below = lines[index - 1], lines[index]
    if one is None or two is None or one.negative_size != two.negative_size:
        return False
    if numbering_depth(below.text):
        return False
    return (
        one.not_bold == two.not_bold
        and above.column == below.column
        and 0 <= below.box.top - above.box.top <= 2.0 * above.box.height
    )


def _is_capitals(text: str) -> bool:
    return text.isupper() and sum(map(str.isalpha, text)) >= _LEAST_LETTERS


def _half(size: float) -> float:
    """A font size rounded to half a point: a file's own sizes differ by less without meaning it."""
    return round(size * 2) / 2
