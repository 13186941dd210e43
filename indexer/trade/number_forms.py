"""The written forms of chapter numbers in running text; which digits are where, not yet what they mean."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from indexer.trade.number_traps import (
    belongs_elsewhere,
    follows_date_word,
    may_be_date,
    may_be_day_first_date,
    other_numbers,
)
from indexer.trade.own_chapters import is_own_chapter


@dataclass(frozen=True, slots=True)
class WrittenNumber:
    """Digits found in a known form. `scheme` is "ATA", "JASC" or "SNS"; `parts` has one to three texts."""

    form: str
    scheme: str
    parts: tuple[str, ...]
    start: int
    end: int


# S1000D data module code: model identification, system difference, system, subsystem and sub-subsystem,
# assembly, disassembly and variant, information code and variant, item location (S1000D, data module code).
_DATA_MODULE = re.compile(
    r"(?<![\w-])(?:DMC[- ]?)?[A-Z0-9]{2,14}-[A-Z0-9]{1,4}-(?P<a>[0-9]{2})-(?P<b>[0-9]{2}|[0-9]-[0-9])"
    r"-(?P<c>[0-9]{4}|[0-9]{2})-[0-9]{2}[A-Z0-9]{1,3}-[0-9A-Z]{3}[A-Z]-[A-DT](?!\w)",
    re.IGNORECASE,
)
# Function code without I and O, sequence whose last digit may be a letter, configuration (AMTOSS).
_TASK = re.compile(
    r"(?<![\w-])(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-(?P<c>[0-9]{2})-[0-9][0-9A-HJ-NP-Z]{2}-[0-9]{2}[0-9A-Z]"
    r"(?:-[0-9A-Z]{1,3})?(?!\w)(?!-\w)",
    re.IGNORECASE,
)
_FIGURE_ITEM = re.compile(
    r"(?<![\w$#-])(?<![0-9][/.])(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-(?P<c>[0-9]{2})"
    r"-[0-9]{2}[A-HJ-NP-Z]?-[0-9]{1,3}[A-HJ-NP-Z]?(?!\w)(?!-\w)"
)
_JASC_NAME = r"(?:Joint\s+Aircraft\s+(?:System|Service)s?(?:\s*/\s*|\s+)Components?(?:\s*\(JASC\))?|JASC)"
_ATA_NAME = r"(?:Air\s+Transport\s+Association(?:\s*\(ATA\))?|ATA)"
_CODE_WORDS = re.compile(
    rf"\b(?:(?P<jasc>{_JASC_NAME})(?:\s*(?:/|and|or)\s*(?P<also>{_ATA_NAME}))?|(?P<ata>{_ATA_NAME}))"
    r"(?:(?:\s+of\s+America)?\s+Codes?\b[\s:]*|(?:(?<=JASC)|(?<=JASC\)))[\s:#]+(?=[0-9]{4}))"
    r"(?P<code>[0-9]{4}|[0-9]{2})(?!\w)(?!-[0-9])",
    re.IGNORECASE,
)
# The next code of a subject line, after the title of the one before: "22, Auto flight; 27, Flight controls;
# and 31".
_NEXT_CODE = re.compile(
    r"(?:(?:,\s*[^;.()0-9\n]{2,80}?(?:\n(?!\n)[^;.()0-9\n]{0,80}?)?)?(?:;\s*(?:and\s+)?|,?\s+and\s+)|\s*,\s*)"
    rf"(?:(?:{_JASC_NAME}|{_ATA_NAME})(?:\s+of\s+America)?\s+)?(?:Codes?\s+)?"
    r"(?P<code>[0-9]{4}|[0-9]{2})(?=\s*[,;.]|\s*$|\s+and\b)",
    re.IGNORECASE,
)
# Dots and blanks part the groups only here, where a word announces a number.
_ANNOUNCED_DIGITS = (
    r"(?P<a>[0-9]{2})(?:(?:\s?-\s?|\.)(?P<b>[0-9]{2})(?:(?:\s?-\s?|\.)(?P<c>[0-9]{2}))?"
    r"|[ ](?P<b2>[0-9]{2})[ ](?P<c2>[0-9]{2}))?(?!\w)(?!-\w)(?!\.[0-9])"
)
_ATA_WORDS = re.compile(
    r"\bATA\b[\s:#-]*(?:i?spec(?:ification)?\.?\s+(?:100|2200)[\s,:-]*)?"
    r"(?P<word>chapters?\b|chap\b|ch\b|systems?\b|sections?\b|codes?\b|no\b|numbers?\b|ref\b)?[\s:#.-]*"
    + _ANNOUNCED_DIGITS,
    re.IGNORECASE,
)
_FOUR_DIGITS_AFTER_ATA = re.compile(
    r"\bATA(?:\s+(?:code|chapter))?[\s:#-]*(?P<a>[0-9]{2})(?P<b>[0-9]{2})(?![\w-])", re.IGNORECASE
)
_CHAPTER_WORDS = re.compile(
    r"(?<![\w-])(?:(?P<jasc>JASC)\s+(?:code\s+|rotor\s+)?)?(?P<word>chapters?|chap|ch)\b[\s.:-]*"
    r"(?:numbers?\s+|no\.?\s+)?" + _ANNOUNCED_DIGITS,
    re.IGNORECASE,
)
_NEXT_CHAPTER = re.compile(
    r"\s*(?:,\s*(?:and\s+|or\s+)?|\band\s+|\bor\s+|&\s*|\bthrough\s+|\bthru\s+|\bto\s+)"
    r"(?P<a>[0-9]{2})(?:-(?P<b>[0-9]{2})(?:-(?P<c>[0-9]{2}))?)?(?![\w%-])(?!\.[0-9])(?!\s+(?:percent|hours|months|days))",
    re.IGNORECASE,
)
_MANUAL = (
    r"(?:AMM|(?<![0-9]\s)MM|SRM|CMM|A?IPC|IPL|WDM|AWM|FIM|TSM|EMM|NDT\s?M|maintenance\s+manual"
    r"|parts\s+catalog(?:ue)?|(?:structural\s+)?repair\s+manual|overhaul\s+manual|wiring\s+(?:diagram\s+)?manual)"
)
_PLACE = r"(?:chapters?|sections?|subjects?|(?:sub)?tasks?|ref|para(?:graph)?)"
_MANUAL_WORDS = re.compile(
    rf"\b{_MANUAL}(?:\b[\s:,#-]*|(?=[0-9]{{2}}-))(?:{_PLACE}\b[\s.:#]*)?"
    r"(?P<a>[0-9]{2})\s?-\s?(?P<b>[0-9]{2})(?:\s?-\s?(?P<c>[0-9]{2}))?(?![0-9])(?P<tail>-[0-9]{3,})?",
    re.IGNORECASE,
)
# A structural repair manual adds repair, damage or identification marks: "53-10-51-2R-17" (FAA service
# difficulty reports, passim).
_BARE = re.compile(
    r"(?<![\w$#-])(?<![0-9][/.])(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-(?P<c>[0-9]{2})"
    r"(?:(?!\w)(?!-\w)(?!\.[0-9])|(?=-[0-9][AGIR](?:-[0-9]{1,3}[A-Z]?)?(?!\w))"
    r"|(?P<more>(?=-[0-9A-Z]{1,4}(?![\w-]))))",
    re.IGNORECASE,
)
# A word that announces a number, with nothing between but models, revisions and other such numbers.
_ANNOUNCED_BEFORE = re.compile(
    rf"\b(?:{_MANUAL}|ATA|{_PLACE}|refer\s+to|see)"
    r"(?:[\s:,;#()&.]|and|or|per|rev(?:ision)?\.?\s*[0-9A-Z]{1,3}|[AB]?[0-9]{3}(?:-[0-9]{2,3})?"
    rf"|{_PLACE}|[0-9]{{2}}-[0-9]{{2}}-[0-9]{{2}}(?:-\w+)*)*$",
    re.IGNORECASE,
)
_PAGE_AFTER = re.compile(r"[\s,]*(?:page|pg|p)\b[\s.]*(?P<page>[0-9]{1,4})?", re.IGNORECASE)
_WHOLE = re.compile(r"\s*(?P<a>[0-9]{2})-(?P<b>[0-9]{2})\s*")


def written_numbers(text: str) -> list[WrittenNumber]:
    """Every number in a known form, in order, none inside another. `text` has plain dashes."""
    numbers: list[WrittenNumber] = []
    taken = bytearray(len(text))
    for find in _FINDERS:
        for found in find(text):
            if not any(taken[found.start : found.end]):
                taken[found.start : found.end] = b"\1" * (found.end - found.start)
                numbers.append(found)
    return sorted(numbers, key=lambda found: found.start)


def _parts(match: re.Match) -> tuple[str, ...]:
    groups = match.groupdict()
    parts = (groups["a"], groups.get("b") or groups.get("b2"), groups.get("c") or groups.get("c2"))
    return tuple(part for part in parts if part)


def _span(match: re.Match) -> tuple[int, int]:
    """From the first digit group to the last."""
    given = [name for name in ("a", "b", "c", "b2", "c2") if match.groupdict().get(name)]
    return match.start("a"), max(match.end(name) for name in given)


def _data_modules(text: str) -> Iterator[WrittenNumber]:
    for match in _DATA_MODULE.finditer(text):
        parts = (match["a"], match["b"].replace("-", ""), match["c"])
        yield WrittenNumber("data module code", "SNS", parts, match.start(), match.end())


def _tasks(text: str) -> Iterator[WrittenNumber]:
    for match in _TASK.finditer(text):
        yield WrittenNumber("task", "ATA", _parts(match), match.start(), match.end())


def _codes(text: str) -> Iterator[WrittenNumber]:
    done = 0
    for head in _CODE_WORDS.finditer(text):
        if head.start() < done:
            continue
        two_digits = "ATA" if head["ata"] or head["also"] else "JASC"
        match: re.Match | None = head
        while match:
            code = match["code"]
            scheme = "JASC" if len(code) == 4 else two_digits
            parts = (code[:2], code[2:]) if len(code) == 4 else (code,)
            form = "jasc code words" if scheme == "JASC" else "ata code words"
            yield WrittenNumber(form, scheme, parts, match.start("code"), match.end("code"))
            done = match.end("code")
            match = _NEXT_CODE.match(text, done)


def _figure_items(text: str) -> Iterator[WrittenNumber]:
    matches = list(_FIGURE_ITEM.finditer(text))
    others = other_numbers(text) if matches else b""
    for match in matches:
        if not others[match.start()] and not belongs_elsewhere(text, match.end()):
            yield WrittenNumber("figure-item", "ATA", _parts(match), match.start(), match.end())


def _ata_words(text: str) -> Iterator[WrittenNumber]:
    for match in _ATA_WORDS.finditer(text):
        yield from _chapters(match, text, "ata chapter words", "ATA")
    for match in _FOUR_DIGITS_AFTER_ATA.finditer(text):
        # 3241 after "ATA" may be 32-41 or the JASC code 3241: only the chapter is sure. 2200 is a
        # specification and 2000 to 2039 are years.
        if not re.fullmatch("2200|20[0-3][0-9]", match["a"] + match["b"]):
            yield WrittenNumber("ata chapter words", "ATA", (match["a"],), match.start("a"), match.end("b"))


def _chapter_words(text: str) -> Iterator[WrittenNumber]:
    for match in _CHAPTER_WORDS.finditer(text):
        if not is_own_chapter(text, match.start(), match.end(), match["a"]):
            yield from _chapters(match, text, "chapter words", "JASC" if match["jasc"] else "ATA")


def _chapters(match: re.Match, text: str, form: str, scheme: str) -> Iterator[WrittenNumber]:
    """The number of the match, and those listed after it: "chapters 21, 24 and 32-41"."""
    parts, (start, end) = _parts(match), _span(match)
    plural = (match["word"] or "").lower().endswith("s")
    if plural and len(parts) == 2 and int(parts[1]) > int(parts[0]):
        # "Chapters 51-57" is a range of chapters; both of its ends are printed.
        yield WrittenNumber(form, scheme, parts[:1], start, start + 2)
        yield WrittenNumber(form, scheme, parts[1:], end - 2, end)
    elif scheme == "ATA" or len(parts) == 1:
        yield WrittenNumber(form, scheme, parts, start, end)
    while plural and (following := _NEXT_CHAPTER.match(text, end)):
        start, end = _span(following)
        yield WrittenNumber(form, scheme, _parts(following)[: 1 if scheme == "JASC" else 3], start, end)


def _manual_words(text: str) -> Iterator[WrittenNumber]:
    for match in _MANUAL_WORDS.finditer(text):
        # "AMM 20-60-913-801" has lost a group; only digits that stand alone are a section or subject.
        if not match["tail"] or (match["c"] and len(match["tail"]) == 4):
            form = "chapter-section-subject" if match["c"] else "chapter-section"
            yield WrittenNumber(form, "ATA", _parts(match), *_span(match))


def _bare(text: str) -> Iterator[WrittenNumber]:
    matches = list(_BARE.finditer(text))
    others = other_numbers(text) if matches else b""
    for match in matches:
        start, end = match.span()
        if others[start] or belongs_elsewhere(text, end):
            continue
        parts = _parts(match)
        reserved_for_operator = parts[0] in ("00", "01", "02", "03", "59")
        unsure = reserved_for_operator or match["more"] is not None or _reads_as_date(text, start, parts)
        if not unsure or _announced(text, start) or _heads_page(text, end, parts):
            yield WrittenNumber("chapter-section-subject", "ATA", parts, start, end)


def _announced(text: str, start: int) -> bool:
    before = text[max(0, start - 120) : start]
    return not follows_date_word(text, start) and bool(_ANNOUNCED_BEFORE.search(before))


def _heads_page(text: str, end: int, parts: tuple[str, ...]) -> bool:
    """Whether a page number follows as in a page's foot. A date may stand there too: "06-12-98 Page 3"."""
    page = _PAGE_AFTER.match(text, end)
    if page is None:
        return False
    return parts[2] == "00" or int(parts[2]) < 40 and int(page["page"] or 0) > 100


def _reads_as_date(text: str, start: int, parts: tuple[str, ...]) -> bool:
    if may_be_date(*parts):
        return True
    if may_be_day_first_date(*parts[:2]):
        # Sections begin at 10, so a second group of 01 to 09 is a month before it is a section.
        return follows_date_word(text, start) or int(parts[1]) < 10
    return False


def _whole(text: str) -> Iterator[WrittenNumber]:
    match = _WHOLE.fullmatch(text)
    if match:
        yield WrittenNumber("chapter-section", "ATA", _parts(match), *_span(match))


# The more a form says of itself, the earlier it is tried: a task is not also a bare number.
_FINDERS = (
    _data_modules,
    _figure_items,
    _tasks,
    _codes,
    _ata_words,
    _manual_words,
    _chapter_words,
    _bare,
    _whole,
)
