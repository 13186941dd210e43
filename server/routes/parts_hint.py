"""The way from a search of the text to the parts lists: said where a part number of theirs is looked for."""

from indexer.errors import QueryProblem
from indexer.trade.part_numbers import find_part_numbers
from server.opened import OpenedLibrary
from server.parts import find_parts
from server.parts_asked import PartsKind, parts_asked
from server.routes.addresses import Chip
from server.routes.parts_view import parts_address
from server.words import count_of


def parts_hint(library: OpenedLibrary, question: str) -> tuple[str, Chip] | None:
    """What looks like a part number, and the way to its rows; None = nothing does, or no list has it."""
    number = _number(question)
    if not number:
        return None
    total = sum(group["count"] for group in find_parts(library, number, limit=1)["groups"])
    if not total:
        return None
    return f"{number} looks like a part number:", Chip(
        f"{count_of(total, 'row')} of parts lists", parts_address(number)
    )


def _number(question: str) -> str:
    """The question as a whole, or the first number in it that has the look of a standard's."""
    try:
        asked = parts_asked(question)
    except QueryProblem:  # nothing in it names a part
        return ""
    if asked.kind is PartsKind.NUMBER:
        return asked.text
    return next((found.text for found in find_part_numbers(question)), "")
