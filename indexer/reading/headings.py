"""Which lines are headings, and how strong: by size, weight, capitals and numbering."""

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from indexer.reading.markers import (
    is_admonition,
    is_approval_stamp,
    is_bullet,
    is_figure_title,
    numbering_depth,
)
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
_CENTRED_INDENT = 0.12  # of the column's width: a centred line begins this far in
_TITLE_WIDTH = 0.6  # of the column's width: a title set like the body ends before this
_COUNTED = re.compile(r"(\d{1,2})\.\s+[A-Z]")
_COUNTED_EDGE = 6.0  # points
_MOST_WORDS_COUNTED = 5  # of a title that is told by its number alone
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
    depth: int  # of its number: 0 none, 1 "1.", 2 "1.1" or "A.", 3 "1.1.1" ...


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
    titles = [
        (style, line.text)
        for lines, page in zip(pages, styles, strict=True)
        for line, style in zip(lines, page, strict=True)
        if style is not None
    ]
    levels = _levels(titles)
    return [
        [
            replace(line, heading_level=levels[style]) if style else line
            for line, style in zip(lines, page, strict=True)
        ]
        for lines, page in zip(pages, styles, strict=True)
    ]


def _levels(titles: Sequence[tuple[_Style, str]]) -> dict[_Style, int]:
    """The level of each style; `titles` in reading order."""
    strength = {style: style for style, _ in titles}
    for style in strength:
        if style.depth == 0 and not _opens_new_counts(style, titles):
            strength[style] = replace(style, depth=1)
    ranks = {each: rank for rank, each in enumerate(sorted(set(strength.values())), start=1)}
    return {style: min(ranks[each], _WEAKEST_LEVEL) for style, each in strength.items()}


def _opens_new_counts(style: _Style, titles: Sequence[tuple[_Style, str]]) -> bool:
    """Whether titles of this style without a number stand above those with one: there the count restarts.

    "BRAKES", "1. GENERAL", "2. TEST", "WHEELS", "1. GENERAL": yes. "5. RECORDS", "NOTES", "6. ENTRIES": no.
    """
    numbered = replace(style, depth=1)
    restarts = goes_on = 0
    after_title = True
    for each, text in titles:
        if each == style:
            after_title = True
        elif each == numbered and after_title:
            is_first = re.match(r"\D*1\b", text) is not None
            restarts += is_first
            goes_on += not is_first
            after_title = False
    return restarts >= goes_on


@dataclass(frozen=True, slots=True)
class _Around:
    """What stands around a line: the lines before and after it on the page, and the edges of its column."""

    before: Line | None
    after: Line | None
    left: float  # points
    right: float

    @property
    def width(self) -> float:
        return self.right - self.left


def _page_styles(lines: Sequence[Line], fixed: frozenset[int], body: BodyStyle) -> list[_Style | None]:
    edges = _column_edges(lines)
    styles: list[_Style | None] = []
    for index, line in enumerate(lines):
        before = lines[index - 1] if index else None
        after = lines[index + 1] if index + 1 < len(lines) else None
        around = _Around(before, after, *edges[line.column])
        styles.append(None if id(line) in fixed else _heading_style(line, around, body))
    styles = _with_next_numbers(lines, _without_paragraphs(lines, styles, body))
    for index in range(1, len(styles)):
        if styles[index] is not None and _goes_on(lines, styles, index):
            styles[index] = styles[index - 1]  # the second line of a numbered title has no number of its own
    return styles


def _with_next_numbers(lines: Sequence[Line], styles: list[_Style | None]) -> list[_Style | None]:
    """Short titles that count on from a heading and stand as it does: "2. Procedure" after "1. General"."""
    kept = list(styles)
    last: tuple[int, int] | None = None  # the heading with a number of its own that came last: index, number
    for index, line in enumerate(lines):
        number = _COUNTED.match(line.text)
        if number is None:
            continue
        if kept[index] is None and last is not None and int(number[1]) == last[1] + 1:
            above = lines[last[0]]
            alike = (
                abs(above.box.x0 - line.box.x0) <= _COUNTED_EDGE
                and above.column == line.column
                and _half(above.words[-1].font_size) == _half(line.words[-1].font_size)
                and above.words[-1].bold == line.words[-1].bold
            )
            if alike and len(line.words) <= _MOST_WORDS_COUNTED and _is_short_title(line, line.text, False):
                kept[index] = kept[last[0]]
        if kept[index] is not None:
            last = index, int(number[1])
    return kept


def _column_edges(lines: Sequence[Line]) -> dict[int, tuple[float, float]]:
    edges: dict[int, tuple[float, float]] = {}
    for line in lines:
        left, right = edges.get(line.column, (line.box.x0, line.box.x1))
        edges[line.column] = min(left, line.box.x0), max(right, line.box.x1)
    return edges


def _heading_style(line: Line, around: _Around, body: BodyStyle) -> _Style | None:
    """The style of a line that looks like a heading; None for one that does not."""
    text = line.text
    if not _may_be_heading(line, text, around):
        return None
    size = _half(sorted(word.font_size for word in line.words)[len(line.words) // 2])
    bold = all(word.bold for word in line.words if any(map(str.isalnum, word.text)))
    capitals = _is_capitals(text)
    depth = numbering_depth(text)
    centred = _is_centred(line, around)
    larger = size >= _LARGER * body.size
    stands_out = larger or (bold and not body.is_bold)
    if not stands_out and capitals and len(line.words) <= _MOST_WORDS_CAPITALS:
        clear = _stands_clear(line, around)
        if body.is_capitals:
            stands_out = clear and centred
        else:
            stands_out = depth > 0 or (clear and _is_over_text(around.after))
    if not stands_out and depth > 0:
        stands_out = _is_short_title(line, text, capitals) and (
            _opens_a_deeper_list(depth, around) or _titles_a_paragraph(line, depth, around)
        )
    if not stands_out:
        return None
    # The size of what OCR read is only measured: a line that begins or ends like a sentence is one.
    surely_larger = larger and line.words[0].confidence is None
    if not surely_larger and (
        text[0].islower() or (text.endswith((".", ";", ",")) and not (capitals or bold))
    ):
        return None
    return _Style(-size, not capitals, not bold, depth)


def _is_centred(line: Line, around: _Around) -> bool:
    middle = (line.box.x0 + line.box.x1) / 2
    if abs(middle - (around.left + around.right) / 2) > _CENTRED:
        return False
    return line.box.x0 > around.left + _CENTRED_INDENT * around.width


def _may_be_heading(line: Line, text: str, around: _Around) -> bool:
    if around.before is not None and len(around.before.words) == 1 and is_admonition(around.before):
        return False  # the text of a warning, under the word on a line of its own
    if len(line.words) > _MOST_WORDS or sum(map(str.isalpha, text)) < _LEAST_LETTERS:
        return False
    if is_admonition(line) or is_approval_stamp(text) or is_figure_title(text) or is_bullet(text):
        return False
    gaps = [two.box.x0 - one.box.x1 for one, two in zip(line.words, line.words[1:], strict=False)]
    if numbering_depth(text) > 0:
        gaps = gaps[1:]
    return not gaps or max(gaps) <= _WIDE_GAP * max(line.words[0].font_size, 1.0)


def _stands_clear(line: Line, around: _Around) -> bool:
    """Whether a line begins a column or has white above it."""
    before = around.before
    if before is None or before.column != line.column or before.box.top > line.box.top:
        return True
    return line.box.top - before.box.bottom > _ABOVE * line.box.height


def _is_over_text(after: Line | None) -> bool:
    """Whether text follows: names of parts in a drawing are in capitals too, but stand over each other."""
    return after is not None and (
        len(after.words) >= _LEAST_WORDS_BELOW or numbering_depth(after.text) > 0 or is_admonition(after)
    )


def _is_short_title(line: Line, text: str, capitals: bool) -> bool:
    """A few words after a number, set like the body, that do not end like a sentence."""
    ends = (":", ";", ",") if capitals else (".", ":", ";", ",")
    return len(line.words) <= _MOST_WORDS_PLAIN and not text.endswith(ends)


def _opens_a_deeper_list(depth: int, around: _Around) -> bool:
    """Whether a number one level down comes next: "1. General", then "A. ..."."""
    return depth <= 2 and around.after is not None and numbering_depth(around.after.text) == depth + 1


def _titles_a_paragraph(line: Line, depth: int, around: _Around) -> bool:
    """Whether a line that ends early is followed by text without a number ("5-2. CLEANING.", "Wash ...")."""
    after = around.after
    if depth > 3 or after is None or after.column != line.column or after.box.top <= line.box.top:
        return False
    if line.box.x1 > around.left + _TITLE_WIDTH * around.width or len(line.words) < 2:
        return False
    if not line.words[1].text[:1].isupper() or numbering_depth(after.text) or is_admonition(after):
        return False
    return len(after.words) >= _LEAST_WORDS_BELOW and not is_bullet(after.text)


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
