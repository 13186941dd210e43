"""What a reference is put together from: each number with the words right before it, wherever it stands.

Text is flat (see joined_lines.py). Nothing is decided here about what belongs together: references.py does.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from indexer.tagging import reference_words as words
from indexer.tagging.paper_references import Listed, bare, manual_references, paper_references
from indexer.tagging.rule_references import rule_references
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import ChapterNumber, FoundNumber, Scheme, find_numbers, is_chapter
from indexer.trade.task_numbers import find_tasks

# Where a chapter number may stand; the rules around it look this far back and ahead.
_MAY_BE_NUMBER = re.compile(
    r"(?:(?<![\w$#.])|(?<=[MmCc]))(?P<start>[0-9]{2})(?![0-9])"
    r"(?P<three>[ ]?-[ ]?[0-9]{2}[ ]?-[ ]?[0-9]{2}(?![0-9]))?"
    r"|-[0-9]{2}[A-Z0-9]{1,3}-[0-9A-Z]{3}[A-Z]-[A-DT]\b"
)
_NUMBER_WORD = re.compile(
    r"(?:\bATA\b|\bch(?:ap(?:ters?)?)?\b|\b(?:[AC]?MM|SRM|A?IPC|IPL|[AW]WM|WDM|FIM|TSM|EMM)\b"
    r"|manual\b|catalog(?:ue)?\b)"
    r"[^0-9]{0,20}$",
    re.IGNORECASE,
)
_DATE_NEXT = re.compile(r"[ ]{0,3}[0-9]{1,2}/[0-9]{1,2}/")
_BACK, _AHEAD = 140, 60
_BEFORE_NUMBER = re.compile(
    r"(?<![\w-])(?:(?:ATA|i?spec(?:ification)?\.?[ ](?:100|2200)|chapters?|chap|ch|(?:sub-?)?tasks?"
    r"|subjects?|systems?"
    r"|sections?|no)[ .#-]{1,3}){1,4}$",
    re.IGNORECASE,
)
_ALPHA_ITEM = re.compile(r"-(?P<figure>[0-9]{2}[A-HJ-NP-Z]?)-(?P<item>[0-9]{1,3}[A-HJ-NP-Z]?)$")
_IPC_FIGURE = re.compile(r"-(?P<figure>[0-9]{2}[A-HJ-NP-Z]?)(?![\w-])")
# Where only a reference stands, digits that may be a date of 2000 are a subject: "(12-20-00, Page 301)".
_SUBJECT_IN_PLACE = re.compile(
    r"(?:\([ ]?|\b(?:see|refer to|per|page[ ][0-9]{1,4}[ ]of|(?:given|told|shown|found|described)[ ]in)[ ])"
    r"(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-00(?![\w-])"
    r"(?=[ ]?\)|,?[ ](?:pages?|pgs?|p/b|figure|fig)\b|/[0-9]{3}|[.;]|[ ]at\b)",
    re.IGNORECASE,
)
# What a code stands for is said of the paper itself: "Subject. ATA code 32" refers to nothing.
_SUBJECT_FORMS = ("jasc code words", "ata code words")
_MORE_SECTIONS = re.compile(
    r"[ ]?(?:,|,?[ ]and|,?[ ]or|&|/)[ ]{1,3}(?P<a>[0-9]{2})-(?P<b>[0-9]{2})(?![\w.-])"
)


@dataclass(frozen=True, slots=True)
class Atom:
    """One number and its words. `group` is shared by the members of one list; `weak` = nothing by itself."""

    citation: Citation
    group: int
    weak: bool = False

    @property
    def start(self) -> int:
        return self.citation.start

    @property
    def end(self) -> int:
        return self.citation.end


def find_atoms(flat: str) -> list[Atom]:
    """All atoms in order of place; of two that overlap the one whose words say more of itself stays."""
    low = flat.lower()
    taken = bytearray(len(flat))
    atoms: list[Atom] = []
    group = 0
    for finder in _FINDERS:
        for listed in finder(flat, low):
            group += 1
            for citation, weak in listed:
                start, end = citation.start, citation.end
                if not any(taken[start:end]):
                    taken[start:end] = b"\1" * (end - start)
                    atoms.append(Atom(citation, group, weak))
    return sorted(atoms, key=lambda atom: atom.start)


def _rules(flat: str, low: str) -> Iterator[Listed]:
    if "cfr" in low or "§" in flat or "part" in low or "far" in low or "u.s.c" in low or "sec" in low:
        for citation in rule_references(flat):
            yield [(citation, False)]


def _papers(flat: str, low: str) -> Iterator[Listed]:
    return paper_references(flat)


def _manuals(flat: str, low: str) -> Iterator[Listed]:
    return manual_references(flat)


def _numbers(flat: str, low: str) -> Iterator[Listed]:
    known: set[int] = set()
    for found, offset in _found_numbers(flat):
        start, end = found.start + offset, found.end + offset
        known.add(start)
        if found.form in _SUBJECT_FORMS:
            continue
        before = _BEFORE_NUMBER.search(flat, max(0, start - 60), start)
        first = before.start() if before else start
        printed = bare(flat[start:end])
        if found.form == "task":
            yield [
                (
                    _named(CitationKind.TASK, flat, first, end, number=printed, chapter_number=found.number),
                    False,
                )
            ]
        elif found.form == "data module code":
            yield [
                (
                    _named(
                        CitationKind.DOCUMENT, flat, first, end, number=printed, chapter_number=found.number
                    ),
                    False,
                )
            ]
        else:
            yield _chapters(flat, first, start, end, found)
    for match in _SUBJECT_IN_PLACE.finditer(flat) if "-00" in flat else ():
        if match.start("a") not in known and is_chapter(match["a"]):
            start, end = match.start("a"), match.end("a") + 6
            number = ChapterNumber(match["a"], match["b"], "00")
            found = FoundNumber(number, start, end, "chapter-section-subject", flat[start:end])
            yield _chapters(flat, start, start, end, found)
    if "subtask" in low:
        for task in find_tasks(flat):
            if task.number is None:
                number = re.sub(r"(?i)sub-?task\s+", "", flat[task.start : task.end])
                yield [(_named(CitationKind.TASK, flat, task.start, task.end, number=bare(number)), False)]


def _chapters(flat: str, first: int, start: int, end: int, found: FoundNumber) -> Listed:
    """The number; with a figure and item of a parts catalog, and with section numbers listed after it."""
    figure = item = page = ""
    if found.form == "figure-item" and (parts := _ALPHA_ITEM.search(flat, start, end)):
        figure, item = parts["figure"], parts["item"]
    elif found.number.subject and (after := _IPC_FIGURE.match(flat, end)):
        figure, end = after["figure"], after.end()
    if slash := words.SLASH_PAGE.match(flat, end):
        page, end = slash["page"], slash.end()
    if figure and not item and (after := words.ITEM.match(flat, end)):
        item, end = after["item"], _closed(flat, end, after.end())
    listed = [
        (
            _named(
                CitationKind.CHAPTER,
                flat,
                first,
                end,
                chapter_number=found.number,
                figure=figure,
                item=item,
                page=page,
            ),
            False,
        )
    ]
    while found.form == "chapter-section" and (more := _MORE_SECTIONS.match(flat, end)):
        end = more.end()
        number = ChapterNumber(more["a"], more["b"])
        listed.append(
            (_named(CitationKind.CHAPTER, flat, more.start("a"), end, chapter_number=number), False)
        )
    return listed


def _found_numbers(flat: str) -> Iterator[tuple[FoundNumber, int]]:
    """Chapter numbers, looked for only around digits that may be one."""
    for start, end in _windows(flat):
        while start and not flat[start - 1].isspace():
            start -= 1
        while end < len(flat) and not flat[end].isspace():
            end += 1
        for found in find_numbers(flat[start:end]):
            yield found, start


def _windows(flat: str) -> list[tuple[int, int]]:
    windows: list[tuple[int, int]] = []
    for match in _MAY_BE_NUMBER.finditer(flat):
        alone = match["start"] and not match["three"]
        if alone and not _NUMBER_WORD.search(flat, max(0, match.start() - 32), match.start()):
            continue
        start, end = max(0, match.start() - _BACK), min(len(flat), match.end() + _AHEAD)
        if windows and start <= windows[-1][1]:
            windows[-1] = (windows[-1][0], end)
        else:
            windows.append((start, end))
    return windows


def _figures(flat: str, low: str) -> Iterator[Listed]:
    if "fig" not in low:
        return
    for match in words.FIGURE.finditer(flat):
        listed = []
        for text, start, end in _members(flat, match, many=True):
            item = ""
            if after := words.ITEM.match(flat, end):
                item, end = after["item"], _closed(flat, end, after.end())
            if sheet := words.SHEET.match(flat, end):
                end = _closed(flat, end, sheet.end())
            listed.append((_named(CitationKind.FIGURE, flat, start, end, figure=text, item=item), False))
        yield listed


def _closed(flat: str, start: int, end: int) -> int:
    """The end without a bracket that was not opened since `start`."""
    return end - 1 if flat[end - 1] == ")" and "(" not in flat[start:end] else end


def _pages(flat: str, low: str) -> Iterator[Listed]:
    if "p" in low:
        for match in words.PAGE.finditer(flat):
            yield [
                (_named(CitationKind.PAGE, flat, start, end, page=text), False)
                for text, start, end in _members(flat, match, many=True)
            ]


def _paragraphs(flat: str, low: str) -> Iterator[Listed]:
    if "par" not in low:
        return
    for match in words.PARAGRAPH.finditer(flat):
        yield [
            (_named(CitationKind.PARAGRAPH, flat, start, end, paragraph=text), False)
            for text, start, end in _members(flat, match, many=True)
        ]


def _sections(flat: str, low: str) -> Iterator[Listed]:
    for match in words.SECTION.finditer(flat):
        if words.NOT_A_SECTION.search(flat, max(0, match.start() - 16), match.start()):
            continue
        listed = []
        for text, start, end in _members(flat, match, many=match["word"].lower().endswith("s")):
            number = ChapterNumber(text, scheme=Scheme.OWN)
            listed.append((_named(CitationKind.OWN_SECTION, flat, start, end, chapter_number=number), False))
        yield listed


def _document_parts(flat: str, low: str) -> Iterator[Listed]:
    """Parts of a document: an appendix stands by itself, "Part 2" and "step 3" only with what is named."""
    for match in words.PART.finditer(flat):
        if _DATE_NEXT.match(flat, match.end()):
            continue  # a row of a list of pages: "Appendix 1 02/29/08"
        part = _named(CitationKind.PARAGRAPH, flat, match.start(), match.end(), paragraph=bare(match[0]))
        yield [(part, not match["word"].lower().startswith("append"))]


_FINDERS = (
    _rules,
    _papers,
    _numbers,
    _manuals,
    _figures,
    _pages,
    _paragraphs,
    _sections,
    _document_parts,
)


def _members(flat: str, match: re.Match, many: bool) -> Iterable[tuple[str, int, int]]:
    """(text, start, end) of each member of a list; a range is one member: "5-12 through 5-15".

    A word in the singular ("figure 3, 10 bolts") has a list only after "and" or a range.
    """
    place, last = match.start("list"), match.end("list")
    start = match.start()
    part = words.PARA_PART if "par" in match["word"].lower() else words.WORD_PART
    pieces = _pieces(flat, part, place, last)
    plural = match["word"].lower().rstrip(".").endswith("s") or match["word"] in ("pp", "pp.")
    for ordinal, (text, first, end, joint) in enumerate(pieces):
        if ordinal and not plural and not _repeats(text, pieces[0][0], joint):
            return
        if ordinal and not many:
            return
        yield text, start if not ordinal else first, end


def _pieces(flat: str, part: re.Pattern, place: int, last: int) -> list[tuple[str, int, int, str]]:
    pieces: list[tuple[str, int, int, str]] = []
    joint = ""
    for text, start, end in _split(flat, part, place, last):
        between = flat[pieces[-1][2] : start] if pieces else ""
        if pieces and words.RANGE_JOINT.fullmatch(between):
            before = pieces.pop()
            pieces.append((f"{before[0]} through {text}", before[1], end, before[3]))
        else:
            joint = between.strip()
            pieces.append((text, start, end, joint))
    return pieces


def _split(flat: str, part: re.Pattern, place: int, last: int) -> Iterator[tuple[str, int, int]]:
    while place < last:
        match = part.match(flat, place, last)
        if not match or not match[0]:
            return
        start = match.start() + len(match[0]) - len(match[0].lstrip())
        yield "".join(match[0].split()), start, match.end()
        joint = words.RANGE_JOINT.match(flat, match.end(), last) or words.LIST_JOINT.match(
            flat, match.end(), last
        )
        if not joint:
            return
        place = joint.end()


def _repeats(text: str, first: str, joint: str) -> bool:
    """Whether another member after a singular word is one: "(g) or (h)", "5-12 and 5-13", not "3, 10"."""
    shape = re.sub("[0-9]+", "0", re.sub("[A-Za-z]+", "A", text))
    return shape == re.sub("[0-9]+", "0", re.sub("[A-Za-z]+", "A", first)) and bool(re.search("[(.-]", text))


def _named(kind: CitationKind, flat: str, start: int, end: int, **fields: object) -> Citation:
    return replace(Citation(kind, flat[start:end], start, end), **fields)
