"""Addresses of our pages, and the links that narrow or widen a search. Pure."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from urllib.parse import quote, urlencode

from indexer.library.fulltext import Filters
from indexer.tagging.tags import StandingValue
from indexer.trade.publication_types import PublicationType
from server.question import NO_NUMBER
from server.words import STANDING_LABELS, chapter_words

NO_TYPE = "Type not determined"
CURRENT_ONLY = "Current only"
ON, OFF = "1", "0"
_ASK_NOTHING = ("aircraft", "hide", "misread", "current", "begun")


@dataclass(frozen=True, slots=True)
class Asked:
    """A search as its address holds it."""

    q: str = ""
    chapter: tuple[str, ...] = ()
    type: tuple[str, ...] = ()
    standing: tuple[str, ...] = ()
    publication: tuple[str, ...] = ()
    as_typed: tuple[str, ...] = ()  # (ON,) = look for nothing but what was typed
    aircraft: tuple[str, ...] = ()  # a registration, where the address names it
    hide: tuple[str, ...] = ()  # (HIDE,) = leave out what does not apply
    misread: tuple[str, ...] = ()  # (OFF,) = without what OCR may have made of the words
    current: tuple[str, ...] = ()  # (ON,) = leave out what is known not to be current
    begun: tuple[str, ...] = ()  # (ON,) = the last word is still being typed

    @classmethod
    def of(
        cls,
        q: str,
        filters: Filters,
        as_typed: bool = False,
        aircraft: tuple[str, ...] = (),
        hide: tuple[str, ...] = (),
        misread: tuple[str, ...] = (),
        current: tuple[str, ...] = (),
        begun: tuple[str, ...] = (),
    ) -> "Asked":
        """A search as we write it ourselves, whatever way its filters were typed."""
        return cls(
            q,
            (*(chapter or NO_NUMBER for chapter in filters.chapters), *filters.sections),
            filters.types,
            filters.standings,
            filters.publications,
            (ON,) if as_typed else (),
            aircraft,
            hide,
            misread,
            current,
            begun,
        )

    @property
    def pairs(self) -> list[tuple[str, str]]:
        """Names and values for an address."""
        filters = [(field.name, value) for field in fields(self)[1:] for value in getattr(self, field.name)]
        return ([("q", self.q)] if self.q else []) + filters

    @property
    def filters(self) -> list[tuple[str, str]]:
        return [pair for pair in self.pairs if pair[0] != "q"]

    @property
    def address(self) -> str:
        return f"/?{urlencode(self.pairs)}" if self.pairs else "/"

    @property
    def asks(self) -> bool:
        """Whether it asks for anything: an aircraft in hand alone asks for nothing."""
        return any(name not in _ASK_NOTHING for name, _ in self.pairs)

    @property
    def without_chapters(self) -> "Asked":
        return replace(self, chapter=())

    def with_value(self, name: str, value: str) -> "Asked":
        """With this value in place of those chosen: so a link can say how much it leads to."""
        return replace(self, **{name: (value,)})

    def without_value(self, name: str, value: str) -> "Asked":
        return replace(self, **{name: tuple(held for held in getattr(self, name) if held != value)})


@dataclass(frozen=True, slots=True)
class Chip:
    """A link of a few words; `on` = tapping it takes the filter away."""

    name: str
    address: str
    count: int | None = None
    on: bool = False


@dataclass(frozen=True, slots=True)
class Facet:
    key: str
    title: str
    items: tuple[Chip, ...]


def check_address(text: str, aircraft: str = "", work: str = "") -> str:
    """The form of the source check, filled in."""
    given = {"text": text, "aircraft": aircraft, "work": work}
    return f"/check?{urlencode({name: value for name, value in given.items() if value})}"


def page_address(publication_id: str, pdf_page: int, **more: str) -> str:
    """The page view. `more` may name passage, q, zoom and back; empty ones are left out."""
    kept = {name: value for name, value in more.items() if value}
    return f"{publication_address(publication_id)}/pages/{pdf_page}" + (f"?{urlencode(kept)}" if kept else "")


def wrong_address(publication_id: str, pdf_page: int, passage_id: str = "") -> str:
    """Where to say that a tag of a page, or of one passage of it, is wrong."""
    place = {"publication": publication_id, "pdf_page": pdf_page}
    return f"/desk/new?{urlencode(place | ({'passage': passage_id} if passage_id else {}))}"


def publication_address(publication_id: str) -> str:
    return f"/publications/{quote(publication_id, safe='')}"


def why_address(passage_id: str, search: str) -> str:
    """Why a passage is among the hits of a search, given as its query string."""
    return f"/passages/{quote(passage_id, safe='')}/why?{search}"


def picture_address(publication_id: str, pdf_page: int, dpi: int) -> str:
    return f"/api{publication_address(publication_id)}/pages/{pdf_page}?dpi={dpi}"


def filter_words(name: str, value: str, publication_names: Mapping[str, str]) -> str:
    """A filter in words, for a chip."""
    if name == "chapter":
        if value == NO_NUMBER:
            return chapter_words("")
        title = "" if "-" in value else f" {chapter_words(value)}"
        return f"{'Section' if '-' in value else 'Chapter'} {value}{title}"
    if name == "type":
        return type_words(value)
    if name == "standing":
        return STANDING_LABELS[StandingValue(value)]
    if name == "as_typed":
        return "Only as typed"
    if name == "misread":
        return "Without misreadings by OCR"
    if name == "current":
        return CURRENT_ONLY
    if name == "begun":
        return "The last word as a beginning too"
    if name == "hide":
        return "Without what does not apply"
    return f"Only in {publication_names.get(value, value)}"


def type_words(value: str) -> str:
    return PublicationType(value).label if value else NO_TYPE


def active_chips(asked: Asked, publication_names: Mapping[str, str]) -> list[Chip]:
    """The filters in use; tapping one takes it away."""
    return [
        Chip(filter_words(name, value, publication_names), asked.without_value(name, value).address, on=True)
        for name, value in asked.filters
        if name not in ("aircraft", "begun", "hide", "current")  # what these leave out is said in words
    ]


def facets(asked: Asked, counts: Mapping[str, Mapping[str, int]]) -> list[Facet]:
    """Links that narrow by chapter, type and standing. `counts` holds only values that would give hits."""
    return [
        Facet("chapter", "Chapter", _chapter_chips(asked, counts["chapter"])),
        Facet("type", "Type of publication", _chips(asked, "type", counts["type"], _type_order, type_words)),
        Facet(
            "standing",
            "Standing",
            _chips(
                asked,
                "standing",
                counts["standing"],
                lambda value: list(StandingValue).index(StandingValue(value)),
                lambda value: STANDING_LABELS[StandingValue(value)],
            ),
        ),
    ]


def _chapter_chips(asked: Asked, counts: Mapping[str, int]) -> tuple[Chip, ...]:
    return tuple(
        Chip(
            f"{chapter} {chapter_words(chapter)}".strip(),
            asked.with_value("chapter", chapter or NO_NUMBER).address,
            counts[chapter],
        )
        for chapter in sorted(counts, key=lambda chapter: (not chapter, chapter))
        if counts[chapter] and (chapter or NO_NUMBER) not in asked.chapter
    )


def _chips(asked: Asked, name: str, counts: Mapping[str, int], order, words) -> tuple[Chip, ...]:
    values = sorted((value for value, count in counts.items() if value and count), key=order)
    return tuple(
        Chip(words(value), asked.with_value(name, value).address, counts[value])
        for value in values
        if value not in getattr(asked, name)
    )


def _type_order(value: str) -> int:
    return list(PublicationType).index(PublicationType(value))
