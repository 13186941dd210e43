"""What an entry that cites a bulletin says of life limits, and what the limitations held here print of them.

An airworthiness limitation is changed by its own revision or by an alternative the FAA approved, never by a
bulletin (14 CFR 43.16, 91.403(c)). Mechanics seldom write its name: words of time and life, chapter 04, or
the name of a part that the section lists tell as much (common practice, no source).
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.cited import limitations_of
from indexer.library.records import PublicationRecord
from indexer.library.stated import documents_generation
from indexer.library.works import BULLETINS
from indexer.tagging.tags import Citation
from indexer.trade.publication_types import PublicationType as Type
from server.kept import KeptByState
from server.words import numbered, publication_name

_COUNT = r"(?:hours?|hrs?|landings?|cycles?|flights?)\b"
_NUMBER = r"[0-9][0-9,. ]{0,8}[ ]?"
_TIME = rf"(?:li(?:fe|ves)|times?|intervals?|periods?|TBO|TSO|TSN|{_NUMBER}(?:{_COUNT}))"
_STRETCHED = re.compile(
    rf"\b(?:exten(?:d(?:s|ed|ing)?|sions?)|increas(?:e[sd]?|ing)|lengthen\w*)\b[^.;]{{0,80}}?\b{_TIME}"
    rf"|\b(?:retain(?:ed|ing)?|kept|continu(?:ed?|ing)|left|remain(?:s|ed|ing)?)\b[^.;]{{0,40}}?"
    rf"\b(?:to|until|for|at)[ ]{_NUMBER}{_COUNT}"
    rf"|\b(?:beyond|past|in[ ]excess[ ]of)[ ](?:the[ ]|its[ ])?(?:\w+[ ]){{0,3}}?{_TIME}"
    rf"|\b(?:instead[ ]of|in[ ]place[ ]of|in[ ]lieu[ ]of|rather[ ]than)[ ](?:the[ ])?{_NUMBER}{_COUNT}"
    rf"|\b[1-9][0-9,]{{2,6}}[ ](?:{_COUNT}[ ])?to[ ][1-9][0-9,]{{2,6}}[ ]{_COUNT}"
    r"|\b(?:replacement|retirement|overhaul|service)[ ](?:times?|intervals?|li(?:fe|ves)|periods?)\b"
    r"|\b(?:retirement|time[ ]between[ ]overhauls?|TBO|life[ -]?limit(?:s|ed)?|safe[ -]life)\b"
    rf"|\b{_NUMBER}{_COUNT}[ ](?:life|limit)\b"
    r"|\b(?:ALS|ALI)\b",
    re.IGNORECASE,
)
_ROW = re.compile(
    r"^(?P<name>[A-Za-z][A-Za-z ,()/-]*?[A-Za-z)])?[ ]*(?P<part>(?=[A-Z0-9-]*[0-9])[A-Z0-9]+(?:-[A-Z0-9]+)+)?"
    r"[ ]+[0-9][0-9,.]*[ ](?:hours?|hrs?|landings?|cycles?|flights?|years?|months?)\b"
)
_CHAPTER = re.compile(r"[0-9]{2}(?:-[0-9]{2}){1,2}")
_STATEMENT = re.compile(r"airworthiness limitations section[^.]{0,240}\.?", re.IGNORECASE)
_rows = KeptByState(most=1000)  # what the limitations of each publication print, while documents stay


@dataclass(frozen=True, slots=True)
class LimitTouched:
    """Words of an entry that touch a limit; quote, pdf_page (1-based), source: of limitations held here, or
    "", 0 and ""."""

    said: str
    quote: str = ""
    pdf_page: int = 0
    source: str = ""

    @property
    def words(self) -> str:
        if not self.quote:
            return f"The entry speaks of «{self.said}»."
        return (
            f"The entry speaks of «{self.said}». The Airworthiness Limitations of {self.source} say "
            f"«{self.quote}» (PDF page {self.pdf_page})."
        )


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of limitations: the names of the part and its number, "" = none; text as printed."""

    names: tuple[str, ...]
    part: str
    text: str
    pdf_page: int


def limit_touched(
    catalogue: Catalogue,
    publication: PublicationRecord | None,
    entry: str,
    citation: Citation,
    others: Sequence[Citation],
    model: str = "",
) -> LimitTouched | None:
    """What the entry says of a limit beside the bulletin it cites; None = nothing, or no bulletin is cited.

    others  all references of the entry; model: of the aircraft in hand, "" = none
    """
    if publication is None or publication.type not in BULLETINS:
        return None
    outside = _without(entry, [citation, *others])
    held = _held(catalogue, [*publication.models, model])
    for source, rows in held:
        for row in rows:
            if named := _names(row, outside):
                return LimitTouched(named, row.text, row.pdf_page, source)
    said = _STRETCHED.search(outside)
    words = said[0].strip() if said else _limitations_cited(others)
    if not words:
        return None
    for source, rows in held:
        for row in rows:
            if not row.names and not row.part:
                return LimitTouched(words, row.text, row.pdf_page, source)
    return LimitTouched(words)


def _without(entry: str, citations: Iterable[Citation]) -> str:
    """The entry with its references blanked: a number or a title in them says nothing of the work."""
    text = entry
    for each in citations:
        text = f"{text[: each.start]}{' ' * (each.end - each.start)}{text[each.end :]}"
    return text


def _limitations_cited(others: Sequence[Citation]) -> str:
    """A reference to chapter 04 or to a limitations section beside the bulletin; "" without one."""
    for each in others:
        number = each.chapter_number
        if each.type is Type.AIRWORTHINESS_LIMITATIONS or (number is not None and number.chapter == "04"):
            return each.text
    return ""


def _held(catalogue: Catalogue, models: Iterable[str]) -> list[tuple[str, tuple[_Row, ...]]]:
    """What the limitations held here for these models print, by the name of the publication."""
    wanted = {_bare(each) for each in models} - {""}
    kept = _rows.of(catalogue, documents_generation(catalogue))
    found = []
    for each in catalogue.publications() if wanted else ():
        if each.type in BULLETINS or not wanted & {_bare(model) for model in each.models}:
            continue
        rows = kept.once(each.id, lambda each=each: _read(catalogue, each.id))
        if rows:
            found.append((numbered(each.type, each.number) or publication_name(each), rows))
    return found


def _read(catalogue: Catalogue, publication_id: str) -> tuple[_Row, ...]:
    rows = []
    for passage in limitations_of(catalogue, publication_id):
        for line in passage.text.splitlines():
            match = _ROW.match(line.strip())
            if (
                match is None
                or _CHAPTER.fullmatch(match["part"] or "")
                or not (match["name"] or match["part"])
            ):
                continue
            name = " ".join((match["name"] or "").split())
            names = tuple(dict.fromkeys(each for each in (name, name.partition(",")[0]) if " " in each))
            rows.append(_Row(names, match["part"] or "", line.strip(), passage.pdf_page))
        if statement := _STATEMENT.search(" ".join(passage.text.split())):
            rows.append(_Row((), "", statement[0], passage.pdf_page))
    return tuple(rows)


def _names(row: _Row, text: str) -> str:
    """The words of the text that name the part of a row; "" = it names another."""
    if row.part:
        letters = r"[ -]?".join(map(re.escape, re.sub(r"[^A-Z0-9]", "", row.part)))
        if match := re.search(rf"(?<![\w-]){letters}(?![\w-])", text, re.IGNORECASE):
            return match[0]
    for name in row.names:
        words = r"[ -]+".join(map(re.escape, re.findall(r"[A-Za-z]+", name)))
        if match := re.search(rf"\b{words}(?:s|es)?\b", text, re.IGNORECASE):
            return match[0]
    return ""


def _bare(model: str) -> str:
    return re.sub(r"\W", "", model).casefold()
