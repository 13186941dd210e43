"""The lines of a signature under an approval: office and its town, one name, title, date, page marks.

Every word of such a line must be one of these; a line with any other word is no part of a signature.
"""

import re
from functools import cache

from indexer.trade.approval_vocabulary import takes_back
from indexer.trade.chapter_tables import read_table
from indexer.trade.dates import find_dates

_PAGE_MARKS = re.compile(
    r"\b(?:page|pg|sheet|section|sect|chapter)\.? ?(?:[A-Z]-?)?[0-9]{1,4}(?:[.-][0-9]{1,4})?(?: of [0-9]+)?\b"
    r"|\brev(?:ision)?\.? ?(?:no\.? ?)?(?:[A-Z]|[0-9]{1,3})\b|\b[0-9]+(?:[.-][0-9]+)*\b",
    re.IGNORECASE,
)
_LABELS = re.compile(
    r"\bdate of approval\b|\b(?:by|dated?|name|signed|signature|title|for|the|of|and|acting|manager|chief"
    r"|director|administrator|no|number|(?:re)?issued|revised|original|effective|DOT)\b|\bon(?=:)",
    re.IGNORECASE,
)
OFFICE = re.compile(
    r"\bfederal aviation administration\b|\bFAA\b|\bACO\b|\bFSDO\b"
    r"|\baircraft certification (?:office|division|service)\b|\bcertification (?:office|branch)\b"
    r"|\bflight standards (?:district )?office\b"
    r"|\b(?:airframe|flight test|propulsion|systems and equipment) branch\b"
    r"|\bA(?:CE|NE|NM|SW|SO|EA|GL|WP|IR)-[0-9]{3}[A-Z]?\b"
    r"|\bengineering (?:and manufacturing )?(?:branch|district office)\b"
    r"|\b(?:small airplane|rotorcraft|transport airplane) directorate\b"
    r"|\b(?:ODA|DOA)-[0-9]+-[A-Z]{2}\b|\bDERT?-[0-9]+(?:-[A-Z]{2})?\b|\bEASA\. ?21J\. ?[0-9]+\b|\bDOA\b",
    re.IGNORECASE,
)
_NAME = re.compile(
    r"\b(?:(?:[A-Z]\. ?){0,2}[A-Z]\. [A-Z][A-Za-z'-]+|[A-Z][a-z'-]+ (?:[A-Z]\. )?[A-Z][a-z'-]+)\b"
)
_TOWN = re.compile(r"\b(?P<town>[A-Z][a-z]+)\s(?=(?:Aircraft Certification Office|ACO)\b)")
_BLANK = re.compile(r"[_.]{3,}")


@cache
def _not_a_name() -> frozenset[str]:
    """Words after "FAA approved" that make it the attribute of a thing ("FAA approved parts"), no stamp."""
    tables = ("words_not_names.csv", "heading_words.csv", "work_words.csv")
    return frozenset(row["word"] for table in tables for row in read_table(table))


@cache
def _place() -> re.Pattern:
    """The towns, states and regions of the authority's offices, longest first."""
    places = sorted((row["place"] for row in read_table("office_places.csv")), key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, places))})\b", re.IGNORECASE)


def name_in(part: str) -> re.Match | None:
    """The first name of a person: with an initial, or two words none of which is known for a thing."""
    for match in _NAME.finditer(OFFICE.sub(" ", without_dates(part))):
        said = {word.lower() for word in re.findall(r"[A-Za-z]+", match[0])}
        if not said & _not_a_name() and not _place().fullmatch(match[0]):
            return match
    return None


def only_signature(part: str) -> bool:
    """Whether the words are a signature's: dates, an office and its place, one name, labels, page marks."""
    part = OFFICE.sub(" , ", _without_town(_BLANK.sub(" ", without_dates(part))))
    name = name_in(part)
    if name:
        part = f"{part[: name.start()]} {part[name.end() :]}"
    return not words_left(_place().sub(" ", part))


def _without_town(part: str) -> str:
    """The words less the one before "Aircraft Certification Office" that is its town: no thing, no denial."""
    found = _TOWN.search(part)
    if found is None or found["town"].lower() in _not_a_name() or takes_back(found["town"]):
        return part
    return f"{part[: found.start()]} {part[found.end() :]}"


def town(part: str) -> list[str]:
    """The words beside an office that are no name, label, date or page mark: its town, or anything else."""
    part = OFFICE.sub(" , ", without_dates(part))
    name = name_in(part)
    return words_left(f"{part[: name.start()]} {part[name.end() :]}" if name else part)


def without_dates(part: str) -> str:
    """The words less every date among them."""
    for date in reversed(find_dates(part)):
        part = f"{part[: date.start]} {part[date.end :]}"
    return part


def words_left(part: str) -> list[str]:
    """The words that are neither dates, page marks nor labels."""
    return re.findall(r"[A-Za-z][A-Za-z'-]*", _LABELS.sub(" ", _PAGE_MARKS.sub(" ", without_dates(part))))
