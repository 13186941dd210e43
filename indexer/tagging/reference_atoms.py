"""What a reference is put together from: each number with the words right before it, wherever it stands.

Text is flat (see joined_lines.py). Nothing is decided here about what belongs together: references.py does.
"""

import datetime
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from indexer.tagging import reference_words as words
from indexer.tagging.rule_references import rule_references
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.bulletin_numbers import find_bulletin_numbers
from indexer.trade.chapters import ChapterNumber, FoundNumber, Scheme, find_numbers, is_chapter
from indexer.trade.dates import find_dates
from indexer.trade.directive_numbers import find_directive_numbers
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.task_numbers import find_tasks

_BULLETIN_WORDS = re.compile(r"SB|SL|SI|SN|SE|ME|CS|ervice|ERVICE|sb")
_DIRECTIVE_WORDS = re.compile(r"\bA\.?D\b|\bAD|irworthiness|IRWORTHINESS")
# Where a chapter number may stand; the rules around it look this far back and ahead.
_MAY_BE_NUMBER = re.compile(
    r"(?<![\w$#.])(?P<start>[0-9]{2})(?![0-9])(?P<three>[ ]?-[ ]?[0-9]{2}[ ]?-[ ]?[0-9]{2}(?![0-9]))?"
    r"|-[0-9]{2}[A-Z0-9]{1,3}-[0-9A-Z]{3}[A-Z]-[A-DT]\b"
)
_NUMBER_WORD = re.compile(
    r"(?:\bATA\b|\bch(?:ap(?:ters?)?)?\b|\b(?:[AC]?MM|SRM|A?IPC|IPL|[AW]WM|WDM|FIM|TSM|EMM)\b"
    r"|manual\b|catalog(?:ue)?\b)"
    r"[^0-9]{0,20}$",
    re.IGNORECASE,
)
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
    r"(?:\([ ]?|\b(?:see|refer to|per|page[ ][0-9]{1,4}[ ]of)[ ])(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-00(?![\w-])"
    r"(?=[ ]?\)|,?[ ](?:pages?|pgs?|p/b|figure|fig)\b|/[0-9]{3}|[.;])",
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


Listed = list[tuple[Citation, bool]]


def _rules(flat: str, low: str) -> Iterator[Listed]:
    if "cfr" in low or "§" in flat or "part" in low or "far" in low or "u.s.c" in low or "sec" in low:
        for citation in rule_references(flat):
            yield [(citation, False)]


def _bulletins(flat: str, low: str) -> Iterator[Listed]:
    if not _BULLETIN_WORDS.search(flat):
        return
    for found in find_bulletin_numbers(flat):
        before = words.BEFORE_BULLETIN.search(flat, max(0, found.start - 60), found.start)
        start = before.start() if before else found.start
        end, revision, date = _edition(flat, found.end)
        letter = "letter" in found.kind or "instruction" in found.kind or found.kind in _LETTERS
        short = len(found.kind) <= 5 and not found.kind.isdigit()
        # "SB 32-0012": the short word is part of how the number is printed.
        number = (
            f"{found.kind.upper().removesuffix('S') if found.kind.endswith('s') else found.kind.upper()} "
            if short
            else ""
        )
        kind = Type.SERVICE_LETTER if letter else Type.SERVICE_BULLETIN
        yield [
            (
                _document(
                    flat, start, end, kind, number + _bare(found.text), revision or found.revision, date
                ),
                False,
            )
        ]


_LETTERS = frozenset({"sl", "sil", "si", "sel", "snl", "sls", "sils", "sis"})


def _directives(flat: str, low: str) -> Iterator[Listed]:
    if not _DIRECTIVE_WORDS.search(flat):
        return
    for found in find_directive_numbers(flat):
        before = words.BEFORE_DIRECTIVE.search(flat, max(0, found.start - 70), found.start)
        if not before and not flat[: found.start].strip():
            continue  # the heading of a directive itself
        start = before.start() if before else found.start
        end, revision, date = _edition(flat, found.end)
        kind = Type.AIRWORTHINESS_DIRECTIVE
        yield [
            (_document(flat, start, end, kind, _bare(found.text), revision or found.revision, date), False)
        ]


def _circulars(flat: str, low: str) -> Iterator[Listed]:
    if "AC" in flat or "advisory" in low:
        for match in words.CIRCULAR.finditer(flat):
            place, start, number = match.end(), match.start(), match["number"]
            listed: Listed = []
            while True:
                end, revision, date = _edition(flat, place)
                listed.append(
                    (_document(flat, start, end, Type.ADVISORY_CIRCULAR, number, revision, date), False)
                )
                more = words.NEXT_CIRCULAR.match(flat, end)
                if not more:
                    break
                start, place, number = more.start("number"), more.end(), more["number"]
            yield listed
    if "rder" in low or "FAA-" in flat:
        for match in words.ORDER.finditer(flat):
            end, revision, date = _edition(flat, match.end())
            number = match["order"] or match["handbook"]
            yield [
                (_document(flat, match.start(), end, Type.ORDER_OR_HANDBOOK, number, revision, date), False)
            ]


def _numbers(flat: str, low: str) -> Iterator[Listed]:
    known: set[int] = set()
    for found, offset in _found_numbers(flat):
        start, end = found.start + offset, found.end + offset
        known.add(start)
        if found.form in _SUBJECT_FORMS:
            continue
        before = _BEFORE_NUMBER.search(flat, max(0, start - 60), start)
        first = before.start() if before else start
        printed = _bare(flat[start:end])
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
                yield [(_named(CitationKind.TASK, flat, task.start, task.end, number=_bare(number)), False)]


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


def _manuals(flat: str, low: str) -> Iterator[Listed]:
    if not words.ANY_MANUAL.search(flat):
        return
    for match in words.MANUAL.finditer(flat):
        kind = manual_type(match)
        number = match["number"] or ""
        small = bool(match["short"]) and match["short"].islower()
        if small and not words.CHAPTER_FORM.match(number):
            continue
        chapter_like = bool(words.CHAPTER_FORM.match(number)) and kind is not Type.TEMPORARY_REVISION
        if number and (chapter_like or number.isdigit() and kind is not Type.TEMPORARY_REVISION):
            end = match.end("short") if match["short"] else _end_of_name(flat, match)
            yield [(_document(flat, match.start(), end, kind, "", "", None), True)]
            continue
        end, revision, date = _edition(flat, match.end())
        yield [(_document(flat, match.start(), end, kind, number, revision, date), not number)]


def _end_of_name(flat: str, match: re.Match) -> int:
    closing = flat.find(")", match.end("long"), match.start("number"))
    return closing + 1 if closing >= 0 else match.end("long")


def manual_type(match: re.Match) -> Type | None:
    """The type a match of reference_words.MANUAL names."""
    table = words.SHORT if match["short"] else words.MANUALS
    name = " ".join((match["short"] or match["long"]).split())
    return next((kind for form, kind in table.items() if re.fullmatch(form, name, re.IGNORECASE)), None)


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
        part = _named(CitationKind.PARAGRAPH, flat, match.start(), match.end(), paragraph=_bare(match[0]))
        yield [(part, not match["word"].lower().startswith("append"))]


_FINDERS = (
    _rules,
    _bulletins,
    _directives,
    _circulars,
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


def _edition(flat: str, place: int) -> tuple[int, str, datetime.date | None]:
    """Where the revision and date printed after a number end, and what they say."""
    revision, date, end = "", None, place
    mark = words.REVISION.match(flat, place)
    if mark:
        revision = "original" if mark["original"] else mark["mark"] or (mark["short"] or "")[1:]
        revision = "original" if revision.lower() == "original" else revision
        end = mark.end()
    if dated := words.DATED.match(flat, end):
        found = find_dates(dated["date"])
        if found:
            date, end = found[0].date, dated.end("date")
    if flat[end : end + 1] == ")" and "(" in flat[place:end]:
        end += 1
    return end, revision, date


def _document(
    flat: str, start: int, end: int, kind: Type | None, number: str, revision: str, date: datetime.date | None
) -> Citation:
    return Citation(CitationKind.DOCUMENT, flat[start:end], start, end, kind, number, revision, date)


def _named(kind: CitationKind, flat: str, start: int, end: int, **fields: object) -> Citation:
    return replace(Citation(kind, flat[start:end], start, end), **fields)


def _bare(text: str) -> str:
    return " ".join(text.split())
