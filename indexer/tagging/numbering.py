"""Chapter-section-subject and page block of each passage, from what its page prints of itself.

Order of belief: foot or head, data module code, task number, outline, heading; then the shop's map, which is
not known here; then what the text is about. The first that gives a number wins; what the others say otherwise
stays beside it. A reference in running text is never the passage's own number. A manual's own section is the
number to cite and stands last, whatever files the passage.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.page import Line, OutlineEntry, Page, Passage
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.inference import LIKELY
from indexer.tagging.page_edges import page_edges, page_end, printed_page_of
from indexer.tagging.printed_numbers import (
    data_module_numbers,
    date_columns,
    own_order,
    running_numbers,
    title_agrees,
    trusts_numbers,
)
from indexer.trade.chapters import ChapterNumber, FoundNumber, Scheme, find_numbers
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.page_blocks import page_block
from indexer.trade.publication_types import PublicationType as Type

NumberTags = tuple[Tag[ChapterNumber], ...]

# Papers of an authority, forms and reports are not arranged by system.
_NOT_BY_SYSTEM = frozenset(
    {
        Type.ADVISORY_CIRCULAR, Type.ORDER_OR_HANDBOOK,
        Type.REGULATION, Type.ACCIDENT_REPORT, Type.CODE_TABLE,
        Type.RELEASE_CERTIFICATE, Type.REPAIR_ALTERATION_RECORD,
        Type.ENGINEERING_APPROVAL, Type.PARTS_APPROVAL,
        Type.TYPE_CERTIFICATE_DATA_SHEET, Type.AMOC_LETTER,
        Type.AIRWORTHINESS_DIRECTIVE, Type.PROPOSED_DIRECTIVE,
        Type.SERVICE_BULLETIN, Type.SERVICE_LETTER, Type.AIRWORTHINESS_BULLETIN, Type.PROCESS_SPECIFICATION,
    }
)  # fmt: skip
_TASK_LINE = re.compile(r"^\W*(?:sub)?task\b|^\W*\d\d-\d\d-\d\d-\d", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class WorkNumbering:
    """What is known of a whole work before its passages are numbered."""

    pages: dict[int, Page]
    by_page: dict[int, tuple[NumberTags, NumberTags, NumberTags]]  # running, data module, outline
    numbered: bool
    counted_by_section: bool  # the running lines are those of a manual with its own order

    @property
    def prints_numbers(self) -> bool:
        """Whether any page prints a chapter number of its own."""
        return any(running or modules for running, modules, _ in self.by_page.values())


def work_numbering(
    kind: Type | None, pages: Sequence[Page], outline: Sequence[OutlineEntry]
) -> WorkNumbering:
    """Read the running lines and the outline of a work; nothing is numbered in a manual of its own order."""
    edges = [page_edges(page) for page in pages]
    counted_by_section = own_order(edges)
    if kind in _NOT_BY_SYSTEM or counted_by_section or not edges:
        return WorkNumbering({page.pdf_page: page for page in pages}, {}, False, counted_by_section)
    dates, trust = date_columns(edges), trusts_numbers(edges)
    by_outline = _outline_numbers(pages, outline)
    by_page = {
        each.page.pdf_page: (
            tuple(running_numbers(each, dates, trust)),
            tuple(data_module_numbers(each.page)),
            by_outline.get(each.page.pdf_page, ()),
        )
        for each in edges
    }
    return WorkNumbering({page.pdf_page: page for page in pages}, by_page, True, False)


def passage_numbers(numbering: WorkNumbering, passage: Passage) -> NumberTags:
    """The numbers that are printed of a passage; () = none. numbers[0].others holds what other rungs say."""
    if not numbering.numbered:
        return ()
    running, modules, outline = numbering.by_page.get(passage.pdf_page, ((), (), ()))
    tasks = tuple(_task_numbers(passage))
    rungs = [running, modules, tasks, outline, tuple(_heading_numbers(passage))]
    given = [rung for rung in rungs if rung]
    if not given:
        return ()
    winner = given[0][0]
    others = tuple(tag for rung in given[1:] for tag in rung[:1] if not _agree(winner.value, tag.value))
    further = [*given[0][1:], *(tag for tag in tasks if winner.value.covers(tag.value))]
    numbers = [Tag(winner.value, winner.evidence, others)]
    for tag in further:
        if all(tag.value != other.value for other in numbers):
            numbers.append(tag)
    return tuple(numbers)


def passage_page_block(
    numbering: WorkNumbering, kind: Type | None, passage: Passage, numbers: NumberTags
) -> Tag[str] | None:
    """The page block of the passage's page, for a page with a chapter number of three elements."""
    page = numbering.pages.get(passage.pdf_page)
    if page is None or not numbers or numbers[0].value.subject is None:
        return None
    printed = printed_page_of(page)
    block = page_block(kind, printed)
    if block is None:
        return None
    return Tag(block.title, _printed_page_evidence(page, printed, kind))


def with_lower_rungs(printed: NumberTags, inferred: NumberTags, own: NumberTags) -> NumberTags:
    """The numbers of a passage once inference and the manual's own order are counted.

    printed   from the page; where it gives none, the inferred ones file the passage
    inferred  best first; one that is likely and disagrees with what is printed stays beside it
    own       scheme OWN, the section or paragraphs to cite: last
    """
    if not printed:
        return (*inferred, *own)
    return (*_with_others(printed, (*printed[0].others, *inferred)), *own)


def file_by_shop(numbers: NumberTags, mapped: NumberTags, entered: NumberTags | None) -> NumberTags:
    """The numbers that hold once the shop has spoken: its entry, else what is printed, else its map, else
    inference.

    numbers  as tagging gives them
    mapped   chapters from the shop's map; () where no row of it reaches the passage
    entered  chapters from an entry; None = no entry, () = an entry that the passage belongs to no chapter
    A manual's own section stays, as the last. numbers[0].others keeps every reading that lost and disagrees,
    and those that were beside it before; of inference only what is likely.
    """
    own = tuple(tag for tag in numbers if tag.value.scheme is Scheme.OWN)
    filed = tuple(tag for tag in numbers if tag.value.scheme is not Scheme.OWN)
    inferred = bool(filed) and filed[0].evidence.basis is Basis.INFERRED
    rungs = [mapped, filed] if inferred else [filed, mapped]
    if entered is not None:
        rungs.insert(0, entered)
    elif any(rungs):
        rungs = [rung for rung in rungs if rung]
    winner, *below = rungs
    lost = [tag for rung in below for tag in rung]
    lost.extend(other for tag in (*filed, *own) for other in tag.others)
    holds = tuple(Tag(tag.value, tag.evidence) for tag in (*winner, *own))
    return _with_others(holds, lost)


def _with_others(numbers: NumberTags, lost: Sequence[Tag[ChapterNumber]]) -> NumberTags:
    """The numbers with those readings beside the first that disagree with every one of them."""
    others: list[Tag[ChapterNumber]] = []
    for tag in lost:
        known = (*numbers, *others)
        if _worth_keeping(tag) and not any(_agree(each.value, tag.value) for each in known):
            others.append(Tag(tag.value, tag.evidence))
    return tuple(
        Tag(tag.value, tag.evidence, () if place else tuple(others)) for place, tag in enumerate(numbers)
    )


def _worth_keeping(tag: Tag[ChapterNumber]) -> bool:
    """Whether a reading that lost is kept beside the one that won: all but what is only possible."""
    return tag.evidence.basis is not Basis.INFERRED or (tag.evidence.confidence or 0.0) >= LIKELY


def _agree(one: ChapterNumber, other: ChapterNumber) -> bool:
    if one.scheme is not other.scheme:
        here, there = one.ata(), other.ata()
        return here is not None and there is not None and here.chapter == there.chapter
    return one == other or one.covers(other) or other.covers(one)


def _printed_page_evidence(page: Page, printed: str, kind: Type | None) -> Evidence:
    rule = f"page block of {kind}"
    edges = (*page.foot, *page_end(page), *page.head)
    lines: list[Line] = [line for line in edges if printed in plain(line.text).split()]
    lines.sort(key=lambda line: not re.search(r"\bpage\b", line.text, re.IGNORECASE))
    if lines:
        return PrintedLine(page.pdf_page, lines[0], page.origin).evidence(rule)
    return Evidence(Basis.PRINTED, rule, printed, page.pdf_page, origin=page.origin)


def _task_numbers(passage: Passage) -> Iterator[Tag[ChapterNumber]]:
    """Tasks that a heading above the passage or a line of it opens; a task named inside a line is a
    reference."""
    for text in (*passage.heading_path, *passage.text.splitlines()):
        line = plain(one_line(text))
        if not _TASK_LINE.match(line):
            continue
        for found in find_numbers(line)[:1]:
            if found.form == "task" and found.start <= 12:
                yield Tag(found.number, _passage_evidence(passage, "task number", one_line(text)))


def _heading_numbers(passage: Passage) -> Iterator[Tag[ChapterNumber]]:
    for heading in reversed(passage.heading_path):
        found = opening_number(heading)
        if found:
            yield Tag(found.number, _passage_evidence(passage, "number in heading", one_line(heading)))
            return


def _passage_evidence(passage: Passage, rule: str, quote: str) -> Evidence:
    return Evidence(Basis.PRINTED, rule, quote, passage.pdf_page, origin=passage.origin)


def opening_number(title: str) -> FoundNumber | None:
    """The number a heading or bookmark opens with: "32-41-00 Brakes", "ATA 32", "Chapter 32 Landing gear"."""
    line = plain(one_line(title))
    for found in find_numbers(line)[:1]:
        opens = not re.search(
            r"\w", re.sub(r"\b(?:ATA|chapter|section|subject|task)\b", "", line[: found.start], flags=re.I)
        )
        if not opens:
            return None
        if found.form in ("chapter-section-subject", "task", "ata chapter words", "data module code"):
            return found
        if found.form == "chapter words" and title_agrees(found.number, line):
            return found
    return None


def _outline_numbers(pages: Sequence[Page], outline: Sequence[OutlineEntry]) -> dict[int, NumberTags]:
    """Per page the number of the innermost bookmark that covers it and has one, or of the one above that."""
    numbered: dict[int, NumberTags] = {}
    open_entries: list[OutlineEntry] = []
    entries = [entry for entry in outline if entry.pdf_page is not None]
    place = 0
    for page in pages:
        while place < len(entries) and (entries[place].pdf_page or 0) <= page.pdf_page:
            entry = entries[place]
            open_entries = [each for each in open_entries if each.level < entry.level]
            open_entries.append(entry)
            place += 1
        for entry in reversed(open_entries):
            found = opening_number(entry.title)
            if found:
                evidence = Evidence(Basis.OUTLINE, "number in outline", one_line(entry.title), entry.pdf_page)
                numbered[page.pdf_page] = (Tag(found.number, evidence),)
                break
    return numbered
