"""Other documents named in running text: kind, number, revision, date and the parts meant. No file is
opened."""

import datetime
import re
from dataclasses import dataclass

from indexer.trade.dates import find_dates
from indexer.trade.directive_numbers import normalised_directive
from indexer.trade.publication_types import PublicationType as Type


@dataclass(frozen=True, slots=True)
class CitedDocument:
    """One mention. Offsets are places in the text given.

    number      as printed, dashes plain: "32-0012", "A330-92-3125", "D4410-1"
    type        when the words say it
    revision    as printed without the word: "3", "B", "original"; "" when none is named
    paragraphs  parts of it that are meant, as printed: "Part 3", "paragraphs 2.A through 2.C"
    """

    number: str
    type: Type | None
    revision: str
    date: datetime.date | None
    paragraphs: tuple[str, ...]
    start: int
    end: int


_KINDS: tuple[tuple[str, Type | None], ...] = (
    (r"(?:service|requirements)\s+bulletins?|\b(?:NM|EA|[ACEIMR])?SBs?\b", Type.SERVICE_BULLETIN),
    (r"(?:information\s+)?service\s+(?:information\s+)?(?:letters?|instructions?)|\b(?:SL|SIL"
        r"|SI)s?\b", Type.SERVICE_LETTER),
    (r"airworthiness\s+directives?|\bADs?\b", Type.AIRWORTHINESS_DIRECTIVE),
    (r"temporary\s+revisions?|\bTRs?\b", Type.TEMPORARY_REVISION),
    (r"structural\s+repair\s+manual|\bSRM\b", Type.STRUCTURAL_REPAIR_MANUAL),
    (r"component\s+maintenance\s+manual|\bCMM\b", Type.COMPONENT_MAINTENANCE_MANUAL),
    (r"(?:aircraft|airplane|rotorcraft)?\s*maintenance\s+manual|\bAMM\b", Type.MAINTENANCE_MANUAL),
    (r"(?:airplane|aircraft|rotorcraft)\s+flight\s+manual|\bAFM\b", Type.FLIGHT_MANUAL),
    (r"service\s+manual", Type.SERVICE_MANUAL),
    (r"overhaul\s+manual", None),
    (r"advisory\s+circular|\bAC\b", Type.ADVISORY_CIRCULAR),
    (
        r"(?:multi[- ]operator|service)\s+message"
        r"|(?:all|alert)\s+operators?\s+(?:letter|telex|transmission)",
        None,
    ),
    (r"engineering\s+order|drawing|report|technical\s+note|publication|document", None),
)  # fmt: skip
_TOKEN = r"(?=[A-Z0-9./-]*\d)[A-Z0-9]+(?:[./-][A-Z0-9]+)*(?:\([A-Z]\))?(?:R\d+)?"
_DATE_WORDS = (
    r"(?:\d{1,2}\s+)?(?:January|February|March|April|May|June|July|August|September|October|November|December"
    r"|Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sept?|Oct|Nov|Dec)\.?(?:\s+\d{1,2},)?\s+\d{4}"
    r"|\d{1,2}/\d{1,2}/\d{2,4}|\d{4}-\d{2}-\d{2}"
)
_APPENDICES = (
    r"(?:including|excluding|without)\s+(?:the\s+)?Append(?:ix|ices|ixes)\s+(?:\d{1,2}|[A-Z])(?!\w)"
    r"(?:(?:,\s+and|,|\s+and|\s+through)\s+(?:\d{1,2}|[A-Z])(?!\w))*"
)
# After the number: the part of the bulletin that is meant, before its revision; appendices narrow nothing.
_PART_AFTER = (
    r"(?:,\s*(?P<part>(?:Part|Appendix)\s+(?:\d{1,2}|[A-Z]|[IVX]{1,4})(?![\w-])))?"
    rf"(?:,\s*{_APPENDICES})?"
)
_REVISION = (
    r"(?:,?\s*(?:\(?\s*(?:at\s+)?(?P<word>Revision|Rev\.?|Issue|Change|Version|Edition)\s*(?:No\.?|Level)?\s*[:.]?\s*['\"]?"
    r"(?P<revision>original|(?-i:[A-Z]{1,2})\b|N/C|\d{1,4}[A-Z]?|-)['\"]?(?![\w])"
    r"|\(?(?P<original>original\s+(?:issue|release|version)|initial\s+issue|original(?=,?\s+dated))))?"
)
_DATED = (
    rf"(?:\)?,?\s*(?:{_APPENDICES},?\s*)?"
    rf"(?:dated:?|issued|effective|of|(?<=,))\s+(?P<date>{_DATE_WORDS}))?"
)
_CITED = re.compile(
    "(?P<kind>" + "|".join(f"(?:{words})" for words, _ in _KINDS) + r")"
    r"(?:\s*\([A-Z]{2,5}s?\))?,?\s*(?:No\.?\s*|Number\s*|P/N\s*|#\s*)?"
    rf"(?P<number>(?:[A-Z]{{2,4}}\s)?{_TOKEN}(?:\s(?:S/B\s)?\d{{2}}-A?\d{{3,4}}|\s\d{{2}}\s\d{{4}})?(?:\sRB\b)?)(?![\w])"
    r"(?P<supplement>,\s*Supplement\s+(?:No\.?\s*)?\d{1,2}(?![\w-]))?"
    + _PART_AFTER + _REVISION + _DATED,
    re.IGNORECASE,
)  # fmt: skip
_MORE = re.compile(
    rf"(?:,\s*(?:and|or)\s+|\s+and\s+|\s+or\s+|,\s*|;\s*(?:and\s+)?)(?P<number>{_TOKEN})"
    rf"(?![\w]){_PART_AFTER}{_REVISION}{_DATED}",
)
_OTHER_REVISION = re.compile(
    r"(?:[,;]?\s*(?:and|or)\s+|;\s*)(?P<word>Revision|Rev\.?|Issue|Change|Version|Edition)\s*(?:No\.?|Level)?\s*[:.]?\s*"
    rf"(?P<revision>(?-i:[A-Z]{{1,2}})\b|\d{{1,4}}[A-Z]?)(?![\w])(?P<original>(?!))?{_DATED}",
    re.IGNORECASE,
)
_PLACE_IN_MANUAL = re.compile(
    r",\s*(?P<place>(?:(?:Chapter|Section|Task|Subject)\s+)?\d{2}-\d{2}(?:-\d{2})?(?:,?\s*(?:[Pp]ages?"
    r"|[Ff]igures?|[Pp]aragraphs?)\s+[\w.()-]+)?)"
)
_MANUALS = frozenset(
    {
        Type.STRUCTURAL_REPAIR_MANUAL, Type.COMPONENT_MAINTENANCE_MANUAL,
        Type.MAINTENANCE_MANUAL, Type.FLIGHT_MANUAL,
        Type.SERVICE_MANUAL,
    }
)  # fmt: skip
_PARTS = re.compile(
    r"(?P<parts>\b(?:Parts?|Sections?|Steps?|Tasks?|Appendix|Appendices|Tables?|[Pp]aragraphs?|Chapters?)\s+"
    r"[\dA-Z][\w.()/-]*(?:,?\s*(?:through|thru|to|and|or|,)\s+(?:Parts?\s+"
    r"|[Pp]aragraphs?\s+)?[\dA-Z][\w.()/-]*)*)"
    r"(?P<between>[^.;]{0,60}?)\b(?:of|in|from)\b[^.;]{0,80}$"
)
# The chapter of a bulletin that tells the work, when no part of it is named.
_INSTRUCTIONS = re.compile(
    r"\b(?P<name>accomplishment instructions)\s+(?:of|in|from)\s+(?:the\s+)?(?:[\w.,&'-]+\s+){0,6}$",
    re.IGNORECASE,
)
_OF_THIS = re.compile(r"\bof\s+this\s+(?:proposed\s+)?AD\b")


def find_cited_documents(text: str) -> list[CitedDocument]:
    """Documents named in the text by kind and number, in order. `text` has plain dashes and no newlines.

    A list after one kind ("Service Bulletins 600-0768 and 601-0636") gives each of its numbers.
    """
    found: list[CitedDocument] = []
    place = 0
    while match := _CITED.search(text, place):
        kind = _type_of(match["kind"])
        place = match.end()
        if not _reads_as_number(match, kind):
            place = match.end("kind")
            continue
        parts = _parts_before(text, match.start())
        if kind in _MANUALS:
            parts, place = _places_after(text, place, parts)
            found.append(_cited(match, kind, parts))
            continue
        found.append(_cited(match, kind, parts))
        while True:
            if again := _OTHER_REVISION.match(text, place):
                found.append(_cited(again, kind, parts, found[-1].number))
                place = again.end()
            elif (more := _MORE.match(text, place)) and _same_shape(match["number"], more["number"]):
                found.append(_cited(more, kind, parts))
                place = more.end()
            else:
                break
    return found


def _places_after(text: str, place: int, parts: tuple[str, ...]) -> tuple[tuple[str, ...], int]:
    """The chapter-section-subject and pages named after a manual's number: "QZM-62-2, 32-42-00, Page 201"."""
    after = _PLACE_IN_MANUAL.match(text, place)
    if not after:
        return parts, place
    return (*parts, after["place"].strip(" .")), after.end()


def _type_of(kind: str) -> Type | None:
    return next((row for words, row in _KINDS if re.fullmatch(words, kind.strip(), re.IGNORECASE)), None)


def _reads_as_number(match: re.Match, kind: Type | None) -> bool:
    """Short forms count only in capitals, and a kind without a type only with a revision or date after it."""
    if len(match["kind"].strip()) <= 4 and not match["kind"].strip().rstrip("s").isupper():
        return False
    if match["number"] != match["number"].upper():
        return False
    if kind in _MANUALS and re.fullmatch(r"\d+|\d{2}-\d{2}(?:-\d{2})?", match["number"]):
        return False
    if kind is Type.AIRWORTHINESS_DIRECTIVE:
        return normalised_directive(match["number"]) is not None
    return kind is not None or bool(match["revision"] or match["original"] or match["date"])


def _same_shape(first: str, other: str) -> bool:
    """Whether another number of a list looks like the first: same joints, so that a year or a page is not
    taken."""
    joints = re.sub(r"[A-Z0-9()]", "", first)
    return bool(joints) and re.sub(r"[A-Z0-9()]", "", other) == joints


def _cited(match: re.Match, kind: Type | None, parts: tuple[str, ...], number: str = "") -> CitedDocument:
    dates = find_dates(match["date"]) if match["date"] else []
    revision = "original" if match["original"] else match["revision"] or ""
    groups = match.groupdict()
    short = groups.get("kind", "").strip()
    printed = number or match["number"] + (groups.get("supplement") or "")
    parts += (groups["part"],) if groups.get("part") else ()
    if (
        not number
        and kind in (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER)
        and short.rstrip("s").isupper()
        and len(short) <= 4
    ):
        printed = f"{short} {printed}"  # "SB 32-0012": the short word is part of how the number is printed
    return CitedDocument(
        number=printed,
        type=kind,
        revision="original" if revision.lower() == "original" else revision,
        date=dates[0].date if dates else None,
        paragraphs=parts,
        start=match.start(),
        end=match.end(),
    )


def _parts_before(text: str, start: int) -> tuple[str, ...]:
    """The parts named before the document in its sentence: "Part 3 of the Accomplishment Instructions of
    ..."."""
    sentence = text[max(0, start - 240) : start]
    sentence = re.split(r"(?<=[a-z)])\.\s+(?=[A-Z(])|;", sentence)[-1]
    found = _PARTS.search(sentence)
    if not found and (whole := _INSTRUCTIONS.search(sentence)):
        return (whole["name"],)
    if not found or _OF_THIS.match(sentence, found.end("parts") + 1) or "of this" in found["between"]:
        return ()
    return (found["parts"].strip(),)


def parts_named(sentence: str) -> tuple[str, ...]:
    """The part of a document that a sentence names with its instructions: "Part 2 of the Accomplishment
    Instructions"."""
    found = re.search(
        r"\b(Parts? [\dA-Z]\w*(?:(?: and |, )(?:Part )?[\dA-Z]\w*)*) of (?:the )?[^.;]{0,60}Instructions",
        sentence,
    )
    return (found.group(1),) if found else ()
