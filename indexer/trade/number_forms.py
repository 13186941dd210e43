"""The written forms of chapter numbers in running text; which digits are where, not yet what they mean."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from indexer.trade.number_traps import (
    belongs_elsewhere,
    follows_date_word,
    may_be_date,
    may_be_day_first_date,
)


@dataclass(frozen=True, slots=True)
class WrittenNumber:
    """Digits found in a known form. `scheme` is "ATA", "JASC" or "SNS"; `parts` has one to three texts."""

    form: str
    scheme: str
    parts: tuple[str, ...]
    start: int
    end: int


_DATA_MODULE = re.compile(
    r"(?<![\w-])(?:DMC[- ]?)?[A-Z0-9]{2,14}-[A-Z0-9]{1,4}-(?P<a>[0-9]{2})-(?P<b>[0-9]{2}|[0-9]-[0-9])"
    r"-(?P<c>[0-9]{4}|[0-9]{2})-[0-9]{2}[A-Z0-9]{1,3}-[0-9A-Z]{3}[A-Z]-[A-DT](?![\w])",
    re.IGNORECASE,
)
_TASK = re.compile(
    r"(?<![\w-])(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-(?P<c>[0-9]{2})-[0-9][0-9A-HJ-NP-Z]{2}-[0-9]{2}[0-9A-Z]"
    r"(?:-[0-9A-Z]{1,3})?(?![\w])(?!-\w)",
    re.IGNORECASE,
)
_FIGURE_ITEM = re.compile(
    r"(?<![\w$#-])(?<![0-9][/.])(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-(?P<c>[0-9]{2})"
    r"-[0-9]{2}[A-HJ-NP-Z]?-[0-9]{1,3}[A-HJ-NP-Z]?(?![\w])(?!-\w)"
)
_JASC_NAME = r"(?:Joint\s+Aircraft\s+(?:System|Service)s?(?:\s*/\s*|\s+)Components?(?:\s*\(JASC\))?|JASC)"
_ATA_NAME = r"(?:Air\s+Transport\s+Association(?:\s*\(ATA\))?|ATA)"
_CODE_WORDS = re.compile(
    rf"\b(?:(?P<jasc>{_JASC_NAME})(?:\s*(?:/|and|or)\s*(?P<also>{_ATA_NAME}))?|(?P<ata>{_ATA_NAME}))"
    r"(?:\s+of\s+America)?\s+Codes?\b[\s:]*(?P<code>[0-9]{4}|[0-9]{2})(?![\w])(?!-[0-9])",
    re.IGNORECASE,
)
_NEXT_CODE = re.compile(
    r"(?:(?:,\s*[^;.()0-9\n]{2,80}?(?:\n(?!\n)[^;.()0-9\n]{0,80}?)?)?(?:;\s*(?:and\s+)?|,?\s+and\s+)|\s*,\s*)"
    rf"(?:(?:{_JASC_NAME}|{_ATA_NAME})(?:\s+of\s+America)?\s+)?(?:Codes?\s+)?"
    r"(?P<code>[0-9]{4}|[0-9]{2})(?=\s*[,;.]|\s*$|\s+and\b)",
    re.IGNORECASE,
)
_ANNOUNCED_DIGITS = (
    r"(?P<a>[0-9]{2})(?:(?:\s?-\s?|\.)(?P<b>[0-9]{2})(?:(?:\s?-\s?|\.)(?P<c>[0-9]{2}))?"
    r"|\s(?P<b2>[0-9]{2})\s(?P<c2>[0-9]{2}))?(?![\w])(?!-\w)(?!\.[0-9])"
)
_ATA_WORDS = re.compile(
    r"\bATA\b[\s:#-]*(?:i?spec(?:ification)?\.?\s+(?:100|2200)[\s,:-]*)?"
    r"(?:chapters?\b|chap\b|ch\b|systems?\b|sections?\b|codes?\b|no\b|numbers?\b|ref\b)?[\s:#.-]*"
    + _ANNOUNCED_DIGITS,
    re.IGNORECASE,
)
_FOUR_DIGITS_AFTER_ATA = re.compile(
    r"\bATA(?:\s+(?:code|chapter))?[\s:#-]*(?P<a>[0-9]{2})(?P<b>[0-9]{2})(?![\w-])", re.IGNORECASE
)
_CHAPTER_WORDS = re.compile(
    r"(?<![\w-])(?P<word>chapters?|chap|ch)\b[\s.:-]*(?:numbers?\s+|no\.?\s+)?" + _ANNOUNCED_DIGITS,
    re.IGNORECASE,
)
MANUAL_WORDS = (
    r"(?:A?MM|SRM|CMM|A?IPC|IPL|WDM|AWM|FIM|TSM|EMM|NDT\s?M|maintenance\s+manual|parts\s+catalog(?:ue)?"
    r"|(?:structural\s+)?repair\s+manual|overhaul\s+manual|wiring\s+(?:diagram\s+)?manual)"
)
_MANUAL_WORDS = re.compile(
    rf"\b(?<![0-9]\s){MANUAL_WORDS}\b[\s:,#-]*(?:(?:chapters?|sections?|subjects?|tasks?|ref|para(?:graph)?)\b[\s.:#]*)?"
    r"(?P<a>[0-9]{2})(?:\s?-\s?(?P<b>[0-9]{2})(?:\s?-\s?(?P<c>[0-9]{2}))?)(?![0-9])(?P<tail>-[0-9]{3,})?",
    re.IGNORECASE,
)
_BARE = re.compile(
    r"(?<![\w$#-])(?<![0-9][/.])(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-(?P<c>[0-9]{2})(?![\w])(?!-\w)(?!\.[0-9])"
)
_ANNOUNCED_BEFORE = re.compile(
    rf"\b(?:{MANUAL_WORDS}|ATA|chapters?|sections?|subjects?|(?:sub)?tasks?|refer\s+to|see|page)\b[^.;\n]{{0,40}}$",
    re.IGNORECASE,
)
_PAGE_AFTER = re.compile(r"[\s,]*\n?\s*(?:page|pg|p)\b", re.IGNORECASE)
_WHOLE = re.compile(r"\s*(?P<a>[0-9]{2})(?:-(?P<b>[0-9]{2})(?:-(?P<c>[0-9]{2}))?)?\s*")
_OWN_CHAPTERS = re.compile(
    r"(?:\b(?:vol(?:ume)?\.?\s*[0-9IVX]+|order\s+[0-9.]+[A-Z]?|title\s+[0-9]+|AC\s*[0-9]+[.-][0-9A-Z.-]+)[^.;\n]{0,20}"
    r"|\b(?:this|the)\s+(?:AC|order|handbook|guide)[\s,'s]*)$",
    re.IGNORECASE,
)


def written_numbers(text: str) -> list[WrittenNumber]:
    """Every number in a known form, in order, none inside another. `text` has plain dashes."""
    taken: list[WrittenNumber] = []
    for find in (
        _data_modules,
        _tasks,
        _codes,
        _figure_items,
        _ata_words,
        _manual_words,
        _chapter_words,
        _bare,
        _whole,
    ):
        for found in find(text):
            if all(found.end <= other.start or found.start >= other.end for other in taken):
                taken.append(found)
    return sorted(taken, key=lambda found: found.start)


def _parts(match: re.Match) -> tuple[str, ...]:
    groups = match.groupdict()
    parts = (groups["a"], groups.get("b") or groups.get("b2"), groups.get("c") or groups.get("c2"))
    return tuple(part for part in parts if part)


def _span(match: re.Match) -> tuple[int, int]:
    """From the first digit group to the last."""
    names = [name for name in ("a", "b", "c", "b2", "c2") if match.groupdict().get(name)]
    return match.start("a"), max(match.end(name) for name in names)


def _data_modules(text: str) -> Iterator[WrittenNumber]:
    for match in _DATA_MODULE.finditer(text):
        parts = (match["a"], match["b"].replace("-", ""), match["c"])
        yield WrittenNumber("data module code", "SNS", parts, match.start(), match.end())


def _tasks(text: str) -> Iterator[WrittenNumber]:
    for match in _TASK.finditer(text):
        yield WrittenNumber("task", "ATA", _parts(match), match.start(), match.end())


def _codes(text: str) -> Iterator[WrittenNumber]:
    for match in _CODE_WORDS.finditer(text):
        two_digits = "ATA" if match["ata"] or match["also"] else "JASC"
        while match:
            code = match["code"]
            scheme = "JASC" if len(code) == 4 else two_digits
            parts = (code[:2], code[2:]) if len(code) == 4 else (code,)
            form = "jasc code words" if scheme == "JASC" else "ata code words"
            yield WrittenNumber(form, scheme, parts, match.start("code"), match.end("code"))
            match = _NEXT_CODE.match(text, match.end("code"))


def _figure_items(text: str) -> Iterator[WrittenNumber]:
    for match in _FIGURE_ITEM.finditer(text):
        if not belongs_elsewhere(text, match.start(), match.end()):
            yield WrittenNumber("figure-item", "ATA", _parts(match), match.start(), match.end())


def _ata_words(text: str) -> Iterator[WrittenNumber]:
    for match in _ATA_WORDS.finditer(text):
        yield WrittenNumber("ata chapter words", "ATA", _parts(match), *_span(match))
    for match in _FOUR_DIGITS_AFTER_ATA.finditer(text):
        # 3241 after "ATA" may be 32-41 or the JASC code 3241: only the chapter is sure. 2200 is a specification.
        if match["a"] + match["b"] != "2200":
            yield WrittenNumber("ata chapter words", "ATA", (match["a"],), match.start("a"), match.end("b"))


def _manual_words(text: str) -> Iterator[WrittenNumber]:
    for match in _MANUAL_WORDS.finditer(text):
        if not match["tail"]:
            form = "chapter-section-subject" if match["c"] else "chapter-section"
            yield WrittenNumber(form, "ATA", _parts(match), *_span(match))


def _chapter_words(text: str) -> Iterator[WrittenNumber]:
    for match in _CHAPTER_WORDS.finditer(text):
        if _OWN_CHAPTERS.search(text[max(0, match.start() - 60) : match.start()]):
            continue
        parts, (start, end) = _parts(match), _span(match)
        if match["word"].lower() == "chapters" and len(parts) == 2 and int(parts[1]) > int(parts[0]):
            yield WrittenNumber("chapter words", "ATA", parts[:1], start, start + 2)
            yield WrittenNumber("chapter words", "ATA", parts[1:], end - 2, end)
        else:
            yield WrittenNumber("chapter words", "ATA", parts, start, end)


def _bare(text: str) -> Iterator[WrittenNumber]:
    for match in _BARE.finditer(text):
        start, end = match.span()
        if belongs_elsewhere(text, start, end):
            continue
        parts = _parts(match)
        if _announced(text, start, end) or not _reads_as_date(text, start, parts):
            yield WrittenNumber("chapter-section-subject", "ATA", parts, start, end)


def _announced(text: str, start: int, end: int) -> bool:
    return bool(
        _ANNOUNCED_BEFORE.search(text[max(0, start - 80) : start]) or _PAGE_AFTER.match(text, end)
    ) and (not follows_date_word(text, start))


def _reads_as_date(text: str, start: int, parts: tuple[str, ...]) -> bool:
    if may_be_date(*parts):
        return True
    if may_be_day_first_date(*parts[:2]):
        # Sections begin at 10, so a second group of 01 to 09 is a month before it is a section.
        return follows_date_word(text, start) or int(parts[1]) < 10
    return False


def _whole(text: str) -> Iterator[WrittenNumber]:
    match = _WHOLE.fullmatch(text)
    if match and match["b"] and not match["c"]:
        yield WrittenNumber("chapter-section", "ATA", _parts(match), *_span(match))
