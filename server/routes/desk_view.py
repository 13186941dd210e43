"""The desk's plain data -> what its pages show: names, addresses, buttons in words."""

import datetime
from collections.abc import Sequence
from typing import Any
from urllib.parse import quote, urlencode

from indexer.library.entry_values import TWO_PERSONS
from indexer.library.people import can_be_second
from indexer.library.records import EntryKind
from indexer.library.review_words import number_title
from indexer.tagging.inference import LIKELY
from indexer.trade.chapters import parse_number
from indexer.trade.evidence import Basis
from indexer.trade.publication_types import PublicationType
from server import desk
from server.opened import OpenedLibrary
from server.routes.addresses import page_address, picture_address
from server.routes.views import publication_view
from server.routes.writer import Writer
from server.words import date_words

TYPES = sorted(((kind.value, kind.label) for kind in PublicationType), key=lambda each: each[1])
STANDINGS = (
    ("approved", "Approved data"),
    ("acceptable", "Acceptable data"),
    ("information", "Information only"),
    ("undetermined", "Not determined"),
    ("blocked", "Blocked: not to be used"),
)
_PICTURE_DPI = 110
_RAISING = {EntryKind.STANDING.value, *(kind.value for kind in TWO_PERSONS)}
COVERS_SHOWN = 6  # headings on a card; the rest wait in its fold
_SHORT = {
    "check-again": "Check again",
    "waiting": "Second person",
    "disagree": "Numbers disagree",
    "type": "Type unclear",
    "revision": "Revision unclear",
    "likely": "Worked out from the text",
    "not-numbered": "Not numbered",
    "no-text": "No text",
}
_KINDS = {
    "chapters": "Chapters",
    "type": "Type",
    "number": "Number",
    "title": "Title",
    "revision": "Revision",
    "date": "Date",
    "standing": "Standing",
    "settled": "Dismissed",
    "note": "Note",
}


class Given(dict):
    """What was typed into a form, to be shown again; a field that was not typed is empty."""

    def __missing__(self, _: str) -> str:
        return ""


def item_view(library: OpenedLibrary, item: dict[str, Any], who: Writer) -> dict[str, Any]:
    """A question as its card shows it to somebody."""
    owner = library.publication(item["publication"]["id"]) if item["publication"] else None
    view = publication_view(owner) if owner else None
    page = item["first_page"]
    return {
        **item,
        "name": view.name if view else "A file that is not in the library any more",
        "kind": view.kind if view else "",
        "place": place_words(page, item["last_page"], item["section"]),
        "address": page_address(owner.id, page) if owner else "",
        "picture": picture_address(owner.id, page, _PICTURE_DPI) if owner else "",
        "covers": item["covers"][:COVERS_SHOWN],
        "covers_more": item["covers"][COVERS_SHOWN:],
        "buttons": buttons(item),
        "action": f"/desk/items/{quote(item['id'], safe='')}",
        "about": "entry" if item["entry"] is not None else item["cause"],
        "may_agree": item["cause"] == "waiting"
        and all(_may_agree(library, each, who) for each in desk.entries_by_id(library, [item["entry"]])),
        # Setting these, or taking an entry back that holds, may raise a standing: no reason by one tap.
        "in_words": item["cause"] in ("type", "revision", "check-again"),
    }


def buttons(item: dict[str, Any]) -> list[dict[str, str]]:
    """The suggestions as buttons: "File under 34 Navigation and 37 Vacuum", and how that is known.

    Numbers that the passages carry besides stay with every button, but where it says "alone" or "instead". A
    printed number is never dropped by one tap.
    """
    found, filed = item["suggestions"], item["filed"]
    if item["cause"] == "disagree":
        now, *others = found
        texts = [tag["value"]["text"] for tag in others]
        both = [_button([*filed, text], [tag]) for text, tag in zip(texts, others, strict=True)]
        if now["evidence"]["basis"] == Basis.PRINTED:
            return [_button(filed, [now]), *both]
        instead = [
            _button([text, *filed[1:]], [tag], " instead") for text, tag in zip(texts, others, strict=True)
        ]
        return [_button(filed, [now]), *both, *instead]
    if item["cause"] == "likely" and len(filed) > 1:
        alone = [_button([tag["value"]["text"]], [tag], " alone") for tag in found]
        return [_button(filed, found), *alone]
    return [_button([tag["value"]["text"]], [tag]) for tag in found]


def _button(values: Sequence[str], tags: Sequence[dict[str, Any]], more: str = "") -> dict[str, str]:
    names = ((value, parse_number(value)) for value in dict.fromkeys(values))
    words = " and ".join(number_title(number) if number else value for value, number in names)
    return {"value": ";".join(dict.fromkeys(values)), "words": f"{words}{more}", "how": _how(tags)}


def _how(tags: Sequence[dict[str, Any]]) -> str:
    """ "likely" only where all of it is."""
    sure = [tag["evidence"]["confidence"] for tag in tags]
    if all(tag["evidence"]["basis"] == "inferred" for tag in tags) and None not in sure:
        return "likely" if min(sure) >= LIKELY else "possible"
    return tags[0]["evidence"]["rule"] or tags[0]["evidence"]["basis"]


def place_words(first: int, last: int, section: str) -> str:
    """ "Section V, PDF pages 7 to 9"."""
    pages = f"PDF page {first}" if first == last else f"PDF pages {first} to {last}"
    return f"Section {section}, {pages}" if section else pages


def _may_agree(library: OpenedLibrary, entry: dict[str, Any], who: Writer) -> bool:
    """Whether to offer agreeing to what waits: not to who began it. A name that is yet to be typed may be
    anybody's."""
    first = entry["undone_by"] if entry["undo_waits"] else entry["who"]
    return not who.fixed or can_be_second(library.catalogue, first, who.name)


def entry_view(library: OpenedLibrary, entry: dict[str, Any], who: Writer) -> dict[str, Any]:
    """An entry as the trail shows it to somebody: what was, what is, by whom."""
    waits = entry["state"] == "waits for a second person" or entry["undo_waits"]
    owner = library.publication(entry["publication"]["id"]) if entry["publication"] else None
    return {
        **entry,
        "made_at": datetime.datetime.fromisoformat(entry["made_at"]),
        "name": publication_view(owner).name if owner else "A file that is not in the library any more",
        "address": page_address(owner.id, entry["pdf_page"]) if owner else "",
        "place": place_words(entry["pdf_page"], entry["last_page"], entry["section"]),
        "kind_words": _KINDS[entry["kind"]],
        "value_words": value_words(entry["kind"], entry["value"]),
        "before_words": "" if entry["kind"] in ("settled", "note") else entry["before"].replace(";", ", "),
        "waits": waits,
        "may_agree": waits and _may_agree(library, entry, who),
        "is_undone": bool(entry["undone_by"]),
        "in_words": entry["kind"] in _RAISING and entry["state"] != "waits for a second person",
    }


def value_words(kind: str, value: str) -> str:
    if kind == "chapters":
        return value.replace(";", ", ") or "no chapter"
    if kind == "type":
        return PublicationType(value).label
    if kind == "date":
        return date_words(datetime.date.fromisoformat(value))
    return value


def cause_chips(counts: list[dict[str, Any]], chosen: tuple[str, ...]) -> list[dict[str, Any]]:
    """One chip a cause that has questions: tapping it shows those alone."""
    return [
        {
            "name": _SHORT[each["cause"]],
            "count": each["questions"],
            "on": each["cause"] in chosen,
            "address": "/desk" if each["cause"] in chosen else f"/desk?{urlencode({'cause': each['cause']})}",
        }
        for each in counts
        if each["questions"] or each["cause"] in chosen
    ]


def desk_address(causes: tuple[str, ...] = (), offset: int = 0, left_out: bool = False, **more: str) -> str:
    pairs = [("cause", cause) for cause in causes]
    pairs += [("offset", str(offset))] if offset else []
    pairs += [("left_out", "1")] if left_out else []
    pairs += [(name, value) for name, value in more.items() if value]
    return f"/desk?{urlencode(pairs)}" if pairs else "/desk"


def done_view(library: OpenedLibrary, done: str, who: Writer) -> list[dict[str, Any]]:
    """The entries just made, for the notice with its way back."""
    ids = [int(one) for one in done.split(",")[:20] if one.isdigit()]
    return [entry_view(library, each, who) for each in desk.entries_by_id(library, ids)] if ids else []
