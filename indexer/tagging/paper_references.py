"""Other papers in running text: bulletins, letters, directives, circulars, orders, manuals."""

import datetime
import re
from collections.abc import Iterator

from indexer.tagging import reference_words as words
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.bulletin_numbers import find_bulletin_numbers
from indexer.trade.dates import find_dates
from indexer.trade.directive_numbers import find_directive_numbers
from indexer.trade.publication_types import PublicationType as Type

# The members of one list, and whether one is nothing by itself: "the maintenance manual" without a number.
Listed = list[tuple[Citation, bool]]

_BULLETIN_WORDS = re.compile(r"SB|SL|SI|SN|SE|ME|CS|ervice|ERVICE|sb")
_DIRECTIVE_WORDS = re.compile(r"\bA\.?D\b|\bAD|irworthiness|IRWORTHINESS")
_DIGITS_NEXT = re.compile(r"[ ]{0,3}(?:chapter|task|section)?[ ]{0,3}[0-9]{2}[ ]?-")
_LETTERS = frozenset({"sl", "sil", "si", "sel", "snl", "sls", "sils", "sis"})


def paper_references(flat: str) -> Iterator[Listed]:
    """Every paper named by its kind; flat text. Bulletins and directives come first: their words say most."""
    yield from _bulletins(flat)
    yield from _directives(flat)
    yield from _circulars(flat)


def manual_references(flat: str) -> Iterator[Listed]:
    """Every manual named by its kind, with the number of its own where it is no chapter number."""
    yield from _manuals(flat)


def bare(text: str) -> str:
    """The text with single blanks."""
    return " ".join(text.split())


def _bulletins(flat: str) -> Iterator[Listed]:
    if not _BULLETIN_WORDS.search(flat):
        return
    for found in find_bulletin_numbers(flat):
        before = words.BEFORE_BULLETIN.search(flat, max(0, found.start - 60), found.start)
        start = before.start() if before else found.start
        letter = "letter" in found.kind or "instruction" in found.kind or found.kind in _LETTERS
        kind = Type.SERVICE_LETTER if letter else Type.SERVICE_BULLETIN
        number = bare(found.text)
        if len(found.kind) <= 5:  # "SB 32-0012": the short word is part of how the number is printed
            number = f"{found.kind.upper().removesuffix('S')} {number}"
        end, revision, date = _edition(flat, found.end)
        listed = [(_document(flat, start, end, kind, number, revision or found.revision, date), False)]
        while more := words.OR_REVISION.match(flat, end):
            start = more.end()
            end, revision, date = _edition(flat, start)
            start += len(flat[start:end]) - len(flat[start:end].lstrip())
            listed.append((_document(flat, start, end, kind, number, revision, date), False))
        yield listed


def _directives(flat: str) -> Iterator[Listed]:
    if not _DIRECTIVE_WORDS.search(flat):
        return
    for found in find_directive_numbers(flat):
        before = words.BEFORE_DIRECTIVE.search(flat, max(0, found.start - 70), found.start)
        if not before and not flat[: found.start].strip():
            continue  # the heading of a directive itself
        start = before.start() if before else found.start
        end, revision, date = _edition(flat, found.end)
        kind = Type.AIRWORTHINESS_DIRECTIVE
        yield [(_document(flat, start, end, kind, bare(found.text), revision or found.revision, date), False)]


def _circulars(flat: str) -> Iterator[Listed]:
    if "AC" in flat or "advisory" in flat.lower():
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
    if "rder" in flat.lower() or "FAA-" in flat:
        for match in words.ORDER.finditer(flat):
            end, revision, date = _edition(flat, match.end())
            number = match["order"] or match["handbook"]
            yield [
                (_document(flat, match.start(), end, Type.ORDER_OR_HANDBOOK, number, revision, date), False)
            ]


def _manuals(flat: str) -> Iterator[Listed]:
    low = flat.lower()
    if not any(word in low for word in words.MANUAL_WORDS) and not words.MANUAL_SHORT.search(flat):
        return
    for match in words.MANUAL.finditer(flat):
        kind = manual_type(match)
        number = match["number"] or ""
        small = bool(match["short"]) and match["short"].islower()
        if small and not _DIGITS_NEXT.match(flat, match.end("short")):
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
