"""The places in one publication that a reference may mean: its numbers, pages, figures, tasks, paragraphs.

Only what is printed counts as a number of a passage here: what inference or the shop files it under is no
place that another text can name.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from indexer.library.relation_rules.paragraph_names import heading_label, label_parts
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.own_numbers import OwnNumber, in_range, parse_own_number

_FIGURE = re.compile(
    r"\s*fig(?:ure)?s?\.?\s*(?:no\.?\s*)?(?P<number>[0-9IVX]+(?:[-.][0-9]+){0,3}[A-Z]?)", re.IGNORECASE
)
_FIGURE_LINE = re.compile(
    r"^[ ]*(?:FIGURE|Figure|FIG\.?|Fig\.?)[ ]+(?P<number>[0-9IVX]+(?:[-.][0-9]+){0,3}[A-Z]?)[.: ]", re.M
)
_TASK = re.compile(
    r"\bTASK\s+(?P<number>[0-9]{2}-[0-9]{2}-[0-9]{2}-[0-9A-Z]{3}-[0-9A-Z]{3}(?:-[0-9A-Z]{1,3})?)", re.I
)
_SUBTASK = re.compile(r"\bSUB-?TASK\s+(?P<number>[0-9A-Z]{2,3}(?:-[0-9A-Z]{2,3}){2,5})", re.IGNORECASE)
_OWN_HEADING = re.compile(
    r"\s*(?:(?P<word>SECTION|CHAPTER|GROUP|PART)\s+(?P<section>[IVXL]{1,6}|[0-9]{1,2}[A-Z]?|[A-Z])(?![\w])"
    r"|(?P<paragraph>[0-9]{1,2}[A-Z]?-[0-9]{1,3}[A-Z]?(?:\.[0-9]{1,3})?)[. )])",
    re.IGNORECASE,
)
_RULE = re.compile(r"\s*§\s*(?P<number>[0-9]{1,4}\.[0-9]{1,4}[a-z]?)")
_LINE_MARK = re.compile(r"^[ ]*(\(?(?:[0-9]{1,3}|[A-Z]|[a-z]{1,3})[.)])[ ]", re.MULTILINE)
_BLOCK = re.compile(r"[0-9]{1,5}")

Target = tuple[int | None, str | None]  # pdf page and passage id of a place in a publication


@dataclass(frozen=True, slots=True)
class InsidePassage:
    """One passage of a publication, as far as a reference may name it."""

    id: str
    pdf_page: int
    printed_page: str
    is_figure: bool
    heading_path: tuple[str, ...]
    text: str
    numbers: tuple[ChapterNumber, ...]  # printed ones only


@dataclass(slots=True)
class Inside:
    """The places of one publication, by name. Lists are in reading order."""

    passages: Sequence[InsidePassage]
    pages: dict[str, list[int]] = field(default_factory=dict)  # printed page -> places in `passages`
    numbers: dict[ChapterNumber, list[int]] = field(default_factory=dict)
    figures: dict[str, list[int]] = field(default_factory=dict)
    tasks: dict[str, list[int]] = field(default_factory=dict)
    own: dict[OwnNumber, list[int]] = field(default_factory=dict)
    labels: dict[tuple[str, ...], list[int]] = field(default_factory=dict)
    rules: dict[str, list[int]] = field(default_factory=dict)

    @classmethod
    def of(cls, passages: Iterable[InsidePassage]) -> "Inside":
        held: list[InsidePassage] = []
        inside = cls(held)
        for place, passage in enumerate(passages):
            held.append(_light(passage))
            _put(inside.pages, folded_page(passage.printed_page), place)
            for number in passage.numbers:
                _put(inside.numbers, number, place)
            for name in _figure_names(passage):
                _put(inside.figures, name, place)
            for task in _tasks(passage):
                _put(inside.tasks, task, place)
            _own(inside, passage, place)
            _label(inside, passage, place)
            for heading in (*passage.heading_path, passage.text[:40]):
                if rule := _RULE.match(heading):
                    _put(inside.rules, rule["number"], place)
        return inside

    def target(self, place: int) -> Target:
        passage = self.passages[place]
        return passage.pdf_page, passage.id

    def under(self, number: ChapterNumber) -> list[int]:
        """Passages that print the number: the very one, else those that it covers."""
        exact = self.numbers.get(number)
        if exact:
            return exact
        found = {place for held, places in self.numbers.items() if _covers(number, held) for place in places}
        return sorted(found)

    def in_own(self, first: OwnNumber, last: OwnNumber) -> list[int]:
        """Passages in a section, a paragraph or a range of paragraphs of the manual's own order."""
        if first == last and (exact := self.own.get(first)):
            return exact
        found = {
            place for held, places in self.own.items() if in_range(held, first, last) for place in places
        }
        return sorted(found)

    def block(self, place: int) -> str:
        return page_block(self.passages[place].printed_page)


def _light(passage: InsidePassage) -> InsidePassage:
    """Without its words: a library's texts are many."""
    where = (passage.id, passage.pdf_page, passage.printed_page, passage.is_figure)
    return InsidePassage(*where, (), "", passage.numbers)


@lru_cache(4096)
def folded_page(printed: str) -> str:
    """A printed page for comparison: "Page 401" and "401." are "401"."""
    return re.sub(r"^PAGE\s*|[\s.]", "", printed.strip().upper())


def page_block(printed: str) -> str:
    """The hundred that a page number is of: "4" for 401 to 499; "" when it is no plain number."""
    folded = folded_page(printed)
    return str(int(folded) // 100) if _BLOCK.fullmatch(folded) else ""


def _put(table: dict, name: object, place: int) -> None:
    if name and (not (places := table.setdefault(name, [])) or places[-1] != place):
        places.append(place)


def _covers(number: ChapterNumber, held: ChapterNumber) -> bool:
    return held.scheme is not Scheme.OWN and number.covers(held)


def _figure_names(passage: InsidePassage) -> list[str]:
    title = _FIGURE.match(passage.text) if passage.is_figure else None
    if title:
        return [title["number"].upper()]
    return [line["number"].upper() for line in _FIGURE_LINE.finditer(passage.text)]


def _tasks(passage: InsidePassage) -> list[str]:
    words = " ".join((*passage.heading_path, passage.text)) if "ASK" in passage.text[:400].upper() else ""
    words = words or " ".join(passage.heading_path)
    return [found["number"].upper() for form in (_TASK, _SUBTASK) for found in form.finditer(words)]


_own_number = lru_cache(16_384)(parse_own_number)  # a manual's headings say the same ones again and again


def _own(inside: Inside, passage: InsidePassage, place: int) -> None:
    """File the passage under every own number its headings or its first words print."""
    for heading in (*passage.heading_path, passage.text[:40].partition("\n")[0]):
        match = _OWN_HEADING.match(heading)
        if match and (number := _own_number(match["section"] or match["paragraph"])):
            _put(inside.own, number, place)
    for number in passage.numbers:
        if number.scheme is Scheme.OWN and (own := _own_number(str(number))):
            _put(inside.own, own, place)


_heading_label = lru_cache(4096)(heading_label)


def _label(inside: Inside, passage: InsidePassage, place: int) -> None:
    """File the passage under the labels of its headings, and the marks at the beginnings of its lines."""
    path: tuple[str, ...] = ()
    for heading in passage.heading_path:
        label = _heading_label(heading)
        if label is None:
            continue
        kind, parts = label
        if kind != "paragraph":
            path = (kind, *parts)
        elif len(parts) > len(path) and parts[: len(path)] == path:
            path = parts
        else:
            path = path + parts
        _put(inside.labels, path, place)
        if path[:1] and path[0].isalpha() and len(path[0]) > 2:
            _put(inside.labels, path[2:], place)  # without the part or appendix around
    for mark in _LINE_MARK.findall(passage.text):
        parts = label_parts(mark)
        bare = path[2:] if path and path[0].isalpha() and len(path[0]) > 2 else path
        _put(inside.labels, bare + parts, place)
