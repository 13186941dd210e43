"""What an answer about a part says of the publications, other than parts lists, that print its number."""

from collections.abc import Iterable, Sequence
from typing import Any
from urllib.parse import urlencode

from indexer.library.fulltext import NoIndex
from indexer.library.works import DIRECTIVES
from server.opened import OpenedLibrary
from server.parts_printed import Printed, called, can_be_looked_for, in_directives, in_other_papers
from server.parts_row import RowShaper, page_address
from server.words import count_of

MOST_SHOWN = 12  # passages
MOST_NUMBERS = 20  # of rows found otherwise, that are looked up
NONE_NAMES_IT = "No directive held here names this number."
_NONE_IN_FORCE = "No directive in force held here names this number."
_NOT_ALL = (
    "That does not mean that none applies: a directive may name a range, an assembly, or all parts of a kind."
)


def named_in(library: OpenedLibrary, number: str, shaper: RowShaper) -> dict[str, Any] | None:
    """Directives in force that print a number, then what else prints it; inside `reading`.

    None = the number is too short to be looked for, or was not read.
    """
    if not can_be_looked_for(number):
        return None
    search = f"/?{urlencode({'q': number})}"
    try:
        directives = in_directives(library, number)
        others, more = in_other_papers(library, number)
    except NoIndex as problem:
        words = [f"Whether a directive names this number could not be looked up. {problem.what}"]
        return _fields(number, words, [], [], 0, False, search, shaper)
    words = list(dict.fromkeys(_said(each) for each in directives))
    if not any(each.in_force for each in directives):
        none = (
            _NONE_IN_FORCE
            if any(each.publication.type in DIRECTIVES for each in directives)
            else NONE_NAMES_IT
        )
        words = [f"{none} {_NOT_ALL}", *words]
    found = [*directives, *others]
    return _fields(number, words, directives, found[:MOST_SHOWN], len(found), more, search, shaper)


def _fields(
    number: str,
    words: Sequence[str],
    directives: Sequence[Printed],
    shown: Sequence[Printed],
    count: int,
    more: bool,
    search: str,
    shaper: RowShaper,
) -> dict[str, Any]:
    return {
        "number": number,
        "directives": directive_names(directives),
        "words": list(words),
        "passages": [_passage(each, shaper) for each in shown],
        "count": count,
        "more": more,
        "search_address": search,
    }


def directive_names(found: Sequence[Printed]) -> list[str]:
    """The directives in force, each once."""
    return list(dict.fromkeys(called(each) for each in found if each.in_force))


def rows_named(library: OpenedLibrary, numbers: Iterable[str], most: int = MOST_NUMBERS) -> list[str]:
    """For rows that were not found by their number: which of them directives in force name; inside `reading`.

    most   different numbers that are looked up; how many were not is said
    """
    asked = [each for each in dict.fromkeys(numbers) if can_be_looked_for(each)]
    said: dict[str, None] = {}
    try:
        for number in asked[:most]:
            for name in directive_names(in_directives(library, number)):
                said[f"{name} names part number {number}, shown here: read it before use."] = None
    except NoIndex as problem:
        said[f"Whether directives name these numbers could not be looked up. {problem.what}"] = None
    if len(asked) > most:
        rest = count_of(len(asked) - most, "more number")
        said[f"Whether a directive names {rest} shown here was not looked up: open the row."] = None
    return list(said)


def directives_words(library: OpenedLibrary, number: str) -> tuple[str, list[str]]:
    """For a line of a list: the directives in force that print a number, and what is said of others."""
    try:
        found = in_directives(library, number)
    except NoIndex as problem:
        return "not looked up", [f"Whether a directive names it could not be looked up. {problem.what}"]
    names = directive_names(found) if can_be_looked_for(number) else []
    return "; ".join(names), list(dict.fromkeys(_said(each) for each in found))


def _said(each: Printed) -> str:
    read = " Read by OCR: compare with the page." if each.read_by_ocr else ""
    if each.in_force:
        return f"{called(each)} names this part number: read it before use.{read}"
    status = each.status.words if each.status else ""
    return f"{called(each)} ({status}) names this part number.{read}"


def _passage(each: Printed, shaper: RowShaper) -> dict[str, Any]:
    publication = shaper.publication(each.publication.id)
    superseded = publication["superseded"] and each.status is None
    standing = each.status.words if each.status else "superseded" if superseded else ""
    return {
        "publication": publication,
        "short": _short(each, standing),
        "standing": standing,
        "directive": each.status is not None,
        "in_force": each.in_force,
        "paragraph": each.paragraph,
        "quote": each.quote,
        "read_by_ocr": each.read_by_ocr,
        "pdf_page": each.passage.pdf_page,
        "printed_page": each.passage.printed_page,
        "page_address": page_address(each.publication.id, each.passage.pdf_page),
    }


def publications_naming(named: dict[str, Any] | None) -> list[str]:
    """ "SB QZ62-32-0114 revision C", each once, as they are shown."""
    return list(dict.fromkeys(each["short"] for each in named["passages"])) if named else []


def no_row_words(named: dict[str, Any] | None) -> list[str]:
    """What is said where no row has the number, and other publications print it."""
    naming = publications_naming(named)
    return [f"No row of a parts list has it; named in: {'; '.join(naming)}."] if naming else []


def _short(each: Printed, standing: str) -> str:
    revision = each.publication.revision if each.status is None else ""
    name = f"{called(each)} revision {revision}" if revision else called(each)
    return f"{name} ({standing})" if standing else name


def more_words(named: dict[str, Any]) -> str:
    """How much is not shown; "" = all is."""
    hidden = named["count"] - len(named["passages"])
    if not hidden and not named["more"]:
        return ""
    return f"{'At least ' if named['more'] else ''}{count_of(max(hidden, 1), 'more passage')}."
