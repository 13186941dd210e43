"""Words beside a place without a document's number that leave open whose document is meant. Pure.

An entry says "IAW Brindlecross 58 MM 32-42-00", or has "Rev 7" where nothing took it up: the place then leads
to no manual held here. How such entries are written: common practice, no source.
"""

import re
from collections.abc import Collection, Sequence

from indexer.library.records import PublicationRecord
from indexer.library.relation_rules.cited_dates import is_of_day
from indexer.library.relation_rules.held import folded
from indexer.library.works import BULLETINS, DIRECTIVES, maker_key, number_key
from indexer.tagging.record_dates import DATE
from indexer.tagging.record_words import POINTS
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import find_revisions, same_revision
from indexer.trade.trade_words import is_trade_word
from server.checking.beside_reference import not_used

NO_MANUALS = frozenset(
    {
        *BULLETINS, *DIRECTIVES, Type.ADVISORY_CIRCULAR, Type.REGULATION, Type.AIRWORTHINESS_BULLETIN,
        Type.AMOC_LETTER, Type.TEMPORARY_REVISION, Type.SUPPLEMENTAL_TYPE_CERTIFICATE,
        Type.TYPE_CERTIFICATE_DATA_SHEET, Type.REPAIR_ALTERATION_RECORD, Type.ENGINEERING_APPROVAL,
        Type.PARTS_APPROVAL, Type.RELEASE_CERTIFICATE, Type.PROCESS_SPECIFICATION, Type.PROPOSED_DIRECTIVE,
    }
)  # fmt: skip
_CLAUSE_ENDS = re.compile(r"[;\n]|(?<![A-Z])(?<!\b[A-Za-z]{2})\.(?=\s|$)|\s-\s|:\s")
_WORD = re.compile(r"[A-Za-z0-9][\w'&/.-]*(?<![.'/-])")
_MOST_WORDS = 8
_FURTHEST = 120  # characters looked at on either side
_OF_IT = re.compile(r"[\s,]*\(?(?:(?:of|for|in|from)\s+|(?=(?:the\s+)?[A-Z]))(?:the\s+)?")
_MANUAL = re.compile(r"\b(?:manual|[A-Z]{0,2}MM|M/M|SRM|SM|S/M|IPC|handbook)\b", re.IGNORECASE)
_PLACE_WORD = re.compile(
    r"(?:ata|chap(?:ter)?s?|ch|sect?(?:ion)?s?|pages?|pgs?|pp?|par(?:a|agraph)?s?|fig(?:ure)?s?|items?|steps?|tasks?"
    r"|rev(?:ision)?|no|vol(?:ume)?|part|subject|dated?|dtd|of)\.?$",
    re.IGNORECASE,
)
_OF_A_THING = re.compile(
    r"\b(?:[PS]/?N|part|serial|position|pos|item|qty|sta(?:tion)?|[FB]S|WL|BL|WO|W/O|order|invoice|tag|TT|TSN|hrs?"
    r"|reg(?:istration)?|bolts?|screws?|seals?|o-?rings?|nuts?|washers?)(?:\s*(?:no|number|nos)\b)?[.:#\s]*$",
    re.IGNORECASE,
)
_DOCUMENT_BEFORE = re.compile(
    r"\b(?:manual|document|doc|pub(?:lication)?|report|book|handbook|bulletin|SB|SL|TR|[A-Z]?MM|SRM|IPC)"
    r"(?:\s*(?:no|number)\b)?[.:#\s]*$",
    re.IGNORECASE,
)
_TOKEN = re.compile(
    r"(?<![\w/.-])(?=[\w-]*[0-9])(?=[\w-]*[A-Za-z-])[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*(?![\w-])(?!\.[0-9])"
)
_DATED = re.compile(r"\b(?:dated|dtd)[ .:]+", re.IGNORECASE)
_COUNTED = re.compile(r"\s+[a-z]{3,}(?<!dated)")  # "change 2 tires"
# Words that tell another copy or state of it than the one held, in no form that is compared.
_OTHER_COPY = re.compile(
    r"\b(?:(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|[0-9]{1,2}(?:st|nd|rd|th))\s+"
    r"(?:revision|issue|edition|rev|change)"
    r"|(?:revision|issue|edition)\s+(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
    r"|(?:19|20)[0-9]{2}\s+(?:edition|revision|issue|version|copy|reprint|manual|book)"
    r"|(?:edition|copy|reprint|print(?:ed|ing)|from|version)(?:\s+(?:of|in|from))?\s+(?:19|20)[0-9]{2}(?![\w-])"
    r"|(?:old(?:er)?|previous|prior|earlier|former|superseded|obsolete|outdated|out[ -]of[ -]date|draft"
    r"|expired|uncontrolled|photocop\w+)\s+(?:\w+\s+)?(?:of\s+)?(?:the\s+)?(?:copy|book|manual|revision|rev|issue|edition"
    r"|version|page|[A-Z]{0,2}MM|SRM|[A-Z]{2,}[0-9]*-[\w-]+))\b",
    re.IGNORECASE,
)
_OF_PAPERS = re.compile(
    r"manuals?|maint(?:enance)?|service|shop|book|handbook|for|of|the|ch(?:apter)?|section|page|pg"
)
_DRAFT = re.compile(
    r"[\s,(]*(?:draft|superseded|obsolete|outdated|expired|uncontrolled|photocop\w+)\b", re.IGNORECASE
)
_STANDARD_PART = re.compile(r"(?:AN|MS|NAS|MIL|AS|NSN)-?[0-9]", re.IGNORECASE)


def other_product(
    text: str, citation: Citation, others: Sequence[Citation], held: PublicationRecord, known: Collection[str]
) -> str:
    """Words that name a maker or a model that the publication is not for; "" = none.

    known  names that are of no document: registrations, serials
    Of a reference with a number only the words that lead to it are looked at, and those in it.
    """
    before, led = _before(text, citation, others)
    shouted = text.upper() == text
    mine = _names_of(held, known)
    if said := _unknown(citation.named, 0, len(citation.named), mine, True, shouted, True):
        return said
    if led or not citation.number:
        manual = _MANUAL.search(citation.text) is not None
        if said := _unknown(text, before, citation.start, mine, led, shouted, manual):
            return said
    if not citation.number and (of_it := _OF_IT.match(text, citation.end)):
        end = _end_of_name(text, of_it.end(), others)
        return _unknown(
            text, of_it.end(), end, mine, False, shouted, bool(_MANUAL.search(text, of_it.end(), end))
        )
    return ""


def unread_revision(text: str, citation: Citation, others: Sequence[Citation]) -> str:
    """A revision in the line, or in the one above or below, that no reference took up; "" = none."""
    first = text.rfind("\n", 0, max(0, text.rfind("\n", 0, citation.start))) + 1
    last = text.find("\n", citation.end)
    last = text.find("\n", last + 1) if last >= 0 else -1
    lines = text[first : len(text) if last < 0 else last]
    taken = [(each.start - first, each.end - first) for each in (*others, citation)]

    def free(start: int, end: int) -> bool:
        return all(end <= one or start >= other for one, other in taken)

    for found in find_revisions(lines):
        counted = found.text[:1].lower() in "ci" and _COUNTED.match(lines, found.end)
        if free(found.start, found.end) and not counted:
            return _with_word_before(lines, found.start, found.end)
    other = _OTHER_COPY.search(lines) or _DRAFT.match(lines, citation.end - first)
    return " ".join(other[0].split()) if other else ""


def unread_beside(
    text: str, citation: Citation, others: Sequence[Citation], held: PublicationRecord, known: Collection[str]
) -> str:
    """A revision, a date or a document's number in the line that no reference took up; "" = none."""
    if said := unread_revision(text, citation, others):
        return said
    first = text.rfind("\n", 0, citation.start) + 1
    last = text.find("\n", citation.end)
    line = text[first : len(text) if last < 0 else last]
    taken = [(each.start - first, each.end - first) for each in (*others, citation)]

    def free(start: int, end: int) -> bool:
        return all(end <= one or start >= other for one, other in taken)

    for said in _DATED.finditer(line):
        date = DATE.match(line, said.end())
        if date and free(said.start(), date.end()) and not _OF_A_THING.search(line[: said.start()]):
            return line[said.start() : date.end()]
    mine = _names_of(held, known)
    series = re.match(r"[A-Z]{2,}", held.number)
    for match in _TOKEN.finditer(line):
        if not free(*match.span()) or _folds(match[0]) <= mine:
            continue
        like_held = series is not None and match[0].upper().startswith(f"{series[0]}-")
        if like_held or _DOCUMENT_BEFORE.search(line[: match.start()]):
            return match[0]
        beside = match.start() + first - citation.end
        gap = line[citation.end - first : match.start()] if beside >= 0 else "x"
        next_to_it = re.fullmatch(r"[\s,(/]*(?:of\s+|in\s+)?(?:the\s+)?", gap) is not None
        if next_to_it and match[0].count("-") > 1 and not _STANDARD_PART.match(match[0]):
            return match[0]
    return ""


def document_beside(
    text: str, citation: Citation, others: Sequence[Citation], held: PublicationRecord
) -> str:
    """A manual that the line names beside the place, by number, revision or date: another, or denied.

    The place may be in that one; "" = none.
    """
    for each in others:
        if each is citation or "\n" in text[min(each.end, citation.end) : max(each.start, citation.start)]:
            continue
        if each.type in NO_MANUALS or each.kind is CitationKind.REGULATION:
            continue
        if each.chapter_number or each.page or each.figure or each.paragraph:
            continue
        if citation.type and each.type and citation.type is not each.type:
            continue
        number = each.number and number_key(each.number, each.type) != number_key(held.number, held.type)
        mark = each.revision and same_revision(each.revision, held.revision) is not Answer.YES
        day = each.date is not None and is_of_day(each, held.date) is not Answer.YES
        if number or mark or day or not_used(text, each):
            return " ".join(each.text.split())
    return ""


def _before(text: str, citation: Citation, others: Sequence[Citation]) -> tuple[int, bool]:
    """Where the words begin that may name it, and whether words such as "IAW" lead to them."""
    floor = max([each.end for each in others if each.end <= citation.start], default=0)
    floor = max(floor, citation.start - _FURTHEST)
    ends = [match.end() for match in _CLAUSE_ENDS.finditer(text, floor, citation.start)]
    floor = ends[-1] if ends else floor
    led = [
        match for match in POINTS.finditer(text.replace("\n", " "), floor) if match.end() <= citation.start
    ]
    if led:
        end = led[-1].end()
        if len(text[end : citation.start].split()) <= _MOST_WORDS:
            return end, True
    return floor, False


def _end_of_name(text: str, start: int, others: Sequence[Citation]) -> int:
    stop = re.compile(r"[.,;:\n)]").search(text, start)
    end = min(stop.start() if stop else len(text), start + _FURTHEST)
    after = [each.start for each in others if each.start >= start and each.number]
    return min([end, *after])


def _unknown(
    text: str, start: int, end: int, mine: frozenset[str], led: bool, shouted: bool, manual: bool
) -> str:
    """The words between two places that are of another product, as they stand; "" = none.

    led      True = these words can be nothing but a name: small letters count as well
    shouted  True = all of the entry is in capitals: a capital tells nothing
    manual   True = the word "manual" follows
    """
    words = [match for match in _WORD.finditer(text, start, end)]
    if not led:
        words = _next_to_it(words, text, shouted)
    strange = [
        word
        for place, word in enumerate(words)
        if _is_strange(word[0], text[start : word.start()].rstrip(), mine, led or shouted and manual)
        and not _OF_A_THING.search(text[max(0, word.start() - 20) : word.start()])
    ]
    if not strange:
        return ""
    first, last = strange[0], strange[0]
    for word in strange[1:]:
        if not text[last.end() : word.start()].strip():
            last = word
    return " ".join(text[first.start() : last.end()].split())


def _next_to_it(words: list[re.Match], text: str, shouted: bool) -> list[re.Match]:
    """The words of a name right before a place: "Quelford", "Quelford brake", and not "Need to check"."""
    kept: list[re.Match] = []
    small = 0
    for word in reversed(words[-5:]):
        small += word[0][:1].islower() and not shouted and not _OF_PAPERS.fullmatch(word[0])
        if small > 1 or word[0][:1].islower() and not shouted and not is_trade_word(word[0]):
            break
        kept.append(word)
    return kept[::-1]


def _is_strange(word: str, before: str, mine: frozenset[str], any_letters: bool) -> bool:
    if _folds(word) <= mine or is_trade_word(word) or maker_key(f"x {word}") == "x":
        return False
    if word.isdigit():
        return any_letters and not _PLACE_WORD.search(before)
    if re.search("[0-9]", word):
        chapter = re.fullmatch(
            r"[0-9.]+(?:[-.][0-9]+)*[A-Za-z]?|(?:ch|pg?|fig|rev|r|sec|sect)\.?[0-9-]+", word, re.I
        )
        return not chapter
    return len(word) > 1 and (any_letters or word[:1].isupper())


def _names_of(held: PublicationRecord, known: Collection[str]) -> frozenset[str]:
    maker = held.identity.maker.value if held.identity.maker else ""
    said = [maker, held.title, held.number, *held.models, *known]
    return frozenset(piece for words in said for piece in _folds(words))


def _folds(words: str) -> frozenset[str]:
    """A word and its pieces, folded, and all in one piece: "QZ-62" is "qz62", "qz" and "62"."""
    whole = re.sub(r"\W", "", words).casefold()
    return frozenset(folded(words).split()) | {whole} if whole else frozenset()


def _with_word_before(line: str, start: int, end: int) -> str:
    """A revision with the word or number that it stands behind."""
    before = re.search(r"[\w/-]+[ ,]*$", line[:start])
    return line[before.start() if before else start : end]
