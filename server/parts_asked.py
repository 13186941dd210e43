"""What is asked of the parts lists: a number, words, or a figure and item. Pure.

AN4-12A, p/n 65-1234-1, MS 20470     a part number
brake lining                         words
fig 14 item 7, item 7 of figure 14   a figure and an item of it
32-42-00 fig 1 item 15               with the chapter-section-subject that the figure stands under
item 15 fig 1 32-42                  in any order, and with chapter and section alone
32-42-00-01-15A                      the same in one: figure 01, item 15A
"""

import re
from dataclasses import dataclass, replace
from enum import StrEnum

from indexer.errors import QueryProblem
from indexer.trade.dashes import plain_dashes
from server.parts_words import place_words

MOST_ASKED = 500  # characters


class PartsKind(StrEnum):
    NUMBER = "number"
    WORDS = "words"
    PLACE = "figure and item"


@dataclass(frozen=True, slots=True)
class PartsAsked:
    """A question about parts, taken apart. "" = not named.

    text     what was typed, without "p/n"
    section  chapter-section-subject that the figure stands under
    number   what was typed may be a part number as well: it is looked for beside the place
    """

    kind: PartsKind
    text: str
    section: str = ""
    figure: str = ""
    item: str = ""
    number: bool = False

    @property
    def place(self) -> str:
        """ "32-42-00, figure 1, item 15"."""
        return place_words(self.figure, self.item, self.section)


_SHEET = r"(?:\s*,?\s*(?:sheet|sht)\s*[0-9]+)?"
_FIGURE_NUMBER = r"(?P<figure>(?=[A-Z.-]*[0-9])[0-9A-Z]+(?:[-.][0-9A-Z]+)*)"
_FIGURE = rf"(?:figures?|fig)\b\.?\s*(?:no\b\.?\s*)?{_FIGURE_NUMBER}{_SHEET}"
_ITEM = r"(?:items?|index(?:\s+no)?|itm)\b\.?\s*(?P<item>-?[0-9]+[A-Z]{0,2})"
_SECTION = r"(?:(?P<section>[0-9]{2}-[0-9]{2}(?:-[0-9]{2})?)[\s,]+)?"
_BETWEEN = r"[\s,;:/]*(?:of\s+|in\s+)?"
_PLACES = tuple(
    re.compile(form, re.IGNORECASE)
    for form in (
        rf"{_SECTION}{_FIGURE}{_BETWEEN}{_ITEM}",
        rf"{_ITEM}{_BETWEEN}{_SECTION}{_FIGURE}",
        rf"{_SECTION}{_FIGURE}",
    )
)
_IN_ONE = re.compile(
    r"(?P<section>[0-9]{2}-[0-9]{2}-[0-9]{2})-(?P<figure>[0-9]{1,3}[A-Z]?)[-\s]+(?:item\s+)?(?P<item>[0-9]{1,4}[A-Z]?)",
    re.IGNORECASE,
)
_PIECES = {  # of a place, in any order
    "figure": re.compile(_FIGURE, re.IGNORECASE),
    "item": re.compile(_ITEM, re.IGNORECASE),
    "section": re.compile(r"(?<![\w-])(?P<section>[0-9]{2}-[0-9]{2}(?:-[0-9]{2})?)(?![\w-])"),
}
_LINKS = re.compile(r"(?:[\s,;:/]|\b(?:of|in|section|chapter)\b)*", re.IGNORECASE)
_ANNOUNCED = re.compile(r"\s*(?:p\s*/?\s*n|part\s+(?:number|no\.?)|pn)\b[\s.:#]*(?=\S*[0-9])", re.IGNORECASE)
_CODE = re.compile(r"[A-Z]{0,4}", re.IGNORECASE)


def parts_asked(q: str, figure: str = "", item: str = "") -> PartsAsked:
    """Take a question apart. Raises QueryProblem for an empty one, and for an item without its figure."""
    text = " ".join(plain_dashes(q).split())
    figure, item = " ".join(figure.split()), " ".join(item.split())
    if len(text) > MOST_ASKED:
        raise QueryProblem(f"The question is longer than {MOST_ASKED} characters.", "Ask for one part.")
    if not any(letter.isalnum() for letter in f"{text}{figure}{item}"):
        raise QueryProblem("No part is named.", "Give its number, words of its name, or figure and item.")
    if item and not figure and not text:
        raise QueryProblem(f"Item {item} of which figure?", "Name the figure as well.")
    asked = _read(text)
    if figure or item:
        if not text:
            return PartsAsked(PartsKind.PLACE, "", figure=figure, item=item)
        return replace(asked, figure=figure or asked.figure, item=item or asked.item)
    return asked


def _read(text: str) -> PartsAsked:
    if found := _IN_ONE.fullmatch(text):
        return _place(text, found.groupdict(), number=" " not in text)
    for form in _PLACES:
        if found := form.fullmatch(text):
            return _place(text, found.groupdict(), number=False)
    if pieces := _in_any_order(text):
        return _place(text, pieces, number=False)
    announced = _ANNOUNCED.match(text)
    rest = text[announced.end() :] if announced else text
    if announced or _looks_like_number(rest):
        return PartsAsked(PartsKind.NUMBER, rest)
    return PartsAsked(PartsKind.WORDS, text)


def _in_any_order(text: str) -> dict[str, str | None]:
    """Section, figure and item, where nothing else is said; {} without a figure."""
    found: dict[str, str | None] = {}
    for name, form in _PIECES.items():
        if piece := form.search(text):
            found[name] = piece[name]
            text = f"{text[: piece.start()]} {text[piece.end() :]}"
    return found if "figure" in found and _LINKS.fullmatch(text) else {}


def _place(text: str, found: dict[str, str | None], number: bool) -> PartsAsked:
    return PartsAsked(
        PartsKind.PLACE,
        text,
        found.get("section") or "",
        found.get("figure") or "",
        (found.get("item") or "").lstrip("-"),
        number,
    )


def _looks_like_number(text: str) -> bool:
    """Whether every piece has a digit, or is a short code before one that has: "MS 20470-4"."""
    pieces = text.split()
    if not any(letter.isdigit() for letter in text):
        return False
    return all(
        any(letter.isdigit() for letter in piece)
        or (_CODE.fullmatch(piece) and at + 1 < len(pieces) and piece.isupper())
        for at, piece in enumerate(pieces)
    )
