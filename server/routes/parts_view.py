"""Rows of parts lists -> what the parts pages show of them: words and addresses. Pure."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote, urlencode

from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.tagging.parts_rows import PartNoteKind
from server.applies_words import AppliesWords
from server.current import CurrentWords, current_words
from server.parts_named_in import more_words

Fields = Mapping[str, Any]

_SECTION_AND_FIGURE = re.compile(r"(?P<section>[0-9]{2}-[0-9]{2}-[0-9]{2})-(?P<figure>[0-9A-Z]+)")
MOST_DOTS = 7  # an illustrated parts catalog prints no more (iSpec 2200: nomenclature 1234567)
_NOT_READ = "not read"
_SUPPLIER_LIKE = re.compile(r"(?<![\w-])[Vv][0-9A-Z]{4,6}(?![\w-])")  # a code of five behind V, one misread
_EACH = "for one next higher assembly"
_ATTACH = "to attach one of the part above"
_UNITS = {
    "A/R": "as required",
    "AR": "as required",
    "REF": "reference only, listed elsewhere",
    "RF": "reference only, listed elsewhere",
    "NP": "not procured by itself",
}
_KINDS = {"applies": "it-applies", "does not apply": "does-not-apply"}  # for the stylesheet


@dataclass(frozen=True, slots=True)
class NoteView:
    """What the words beside a part say of it: `before`, then the linked `number`. alarm = it stops you."""

    before: str
    number: str
    address: str
    printed: str
    alarm: bool = False


@dataclass(frozen=True, slots=True)
class RowView:
    """One row of a parts list, in words.

    dots     of the tree as printed: ". . "; "" = an assembly of the figure, or not read
    depth    how many, at most MOST_DOTS
    units    as printed, "" = nothing printed or not read; units_words = what that means
    units_short  the same under a heading that says what plain units count for
    """

    id: str
    address: str
    number: str
    number_words: str
    item: str
    item_words: str
    dots: str
    depth: int
    name: str
    units: str
    units_words: str
    units_short: str
    usage: tuple[str, ...]
    effectivity: str
    stock_number: str
    supplier_words: str
    attaching: bool
    attach_said: bool  # by the words of the units
    notes: tuple[NoteView, ...]
    flags: tuple[str, ...]
    read: str
    applies: AppliesWords | None
    publication: str
    publication_words: str
    superseded: bool  # the publication: said before all else
    currency: tuple[str, ...]
    now: CurrentWords
    figure: str
    figure_address: str
    page: str
    page_address: str
    quote: str
    why: str  # it was found, where that needs words


def parts_address(q: str = "", **more: str) -> str:
    """The parts page with this asked; `more` may name catalogue, figure, item and aircraft."""
    kept = {name: value for name, value in {"q": q, **more}.items() if value}
    return f"/parts?{urlencode(kept)}" if kept else "/parts"


def part_address(row_id: str, **more: str) -> str:
    kept = {name: value for name, value in more.items() if value}
    return f"/parts/{quote(row_id, safe='')}" + (f"?{urlencode(kept)}" if kept else "")


def figure_address(figure_id: str, row_id: str = "", **more: str) -> str:
    """The page of a figure; with a row, its callouts are marked."""
    kept = {name: value for name, value in {"row": row_id, **more}.items() if value}
    return f"/figures/{quote(figure_id, safe='')}" + (f"?{urlencode(kept)}" if kept else "")


def row_view(row: Fields) -> RowView:
    indenture = row["indenture"]
    depth = min(indenture or 0, MOST_DOTS)
    number = row["part_number"]
    publication = row["publication"]
    return RowView(
        id=row["id"],
        address=row["address"],
        number=number,
        number_words=number or f"Part number {_NOT_READ}",
        item=row["item"],
        item_words=item_words(row),
        dots=". " * (indenture or 0),
        depth=depth,
        name=row["nomenclature"] or f"Name {_NOT_READ}",
        units=row["units"],
        units_words=units_words(row),
        units_short="" if units_words(row) == _EACH else units_words(row),
        usage=tuple(_usage(each) for each in row["usage"]),
        effectivity=row["effectivity"],
        stock_number=row["stock_number"],
        supplier_words=supplier_words(row),
        attaching=row["attaching"],
        attach_said=units_words(row) == _ATTACH,
        notes=tuple(note_view(number, note, publication["id"]) for note in row["notes"]),
        flags=tuple(_flag(flag) for flag in row["flags"]),
        read=_read(row),
        applies=applies_view(row["applies"]),
        publication=publication["name"],
        publication_words=publication["kind"],
        superseded=publication["superseded"],
        currency=tuple(publication["currency"]),
        now=now_words(publication),
        figure=figure_words(row["figure"]),
        figure_address=figure_address(row["figure"]["id"], row["id"]),
        page=page_words(row["printed_page"], row["pdf_page"]),
        page_address=row["page_address"],
        quote=row["quote"],
        why=row["why"],
    )


@dataclass(frozen=True, slots=True)
class NamedView:
    """A passage of another publication that prints the part number."""

    name: str
    paragraph: str
    quote: str
    read: str
    page: str
    address: str


def named_view(named: Fields | None) -> dict[str, Any] | None:
    """What stands under a part number of publications that print it; None = it was not looked for."""
    if named is None:
        return None
    views = [
        (
            each["directive"],
            NamedView(
                each["short"],
                f", paragraph {each['paragraph']}" if each["paragraph"] else "",
                each["quote"],
                "Read by OCR: compare with the page." if each["read_by_ocr"] else "",
                page_words(each["printed_page"], each["pdf_page"]),
                each["page_address"],
            ),
        )
        for each in named["passages"]
    ]
    return {
        "alarm": bool(named["directives"]),
        "words": named["words"],
        "directives": [view for of_directive, view in views if of_directive],
        "others": [view for of_directive, view in views if not of_directive],
        "others_count": named["count"] - sum(of_directive for of_directive, _ in views),
        "more": more_words(named),
        "search": named["search_address"],
    }


def now_words(publication: Fields) -> CurrentWords:
    """Whether the publication of a row is known to be current, without what stands beside it already."""
    current = publication["current"]
    finding = CurrencyFinding(CurrencyState(current["state"]), current["why"])
    return current_words(finding, publication["currency"])


def supplier_words(row: Fields) -> str:
    """The code as printed; a standard part has none, so that none printed says nothing of who makes it."""
    if row["supplier"]:
        return row["supplier"]
    if row["read_by_ocr"] and _SUPPLIER_LIKE.search(row["quote"]):
        return "could not be read: look at the page"
    return "none printed"


def item_words(row: Fields) -> str:
    """ "Item 15A", "Item 4, not illustrated"; the dash of the print becomes words."""
    item = f"Item {row['item']}" if row["item"] else f"Item {_NOT_READ}"
    if not row["item"] and not row["illustrated"]:
        return "No item number, not illustrated"
    return item if row["illustrated"] else f"{item}, not illustrated"


def units_words(row: Fields) -> str:
    """What the units mean: they count for the next higher assembly, or for attaching one of a part."""
    units = row["units"]
    if not units:
        return "Units: none printed, or not read"
    if meaning := _UNITS.get(units.upper().replace(" ", "")):
        return meaning
    if not any(letter.isdigit() for letter in units):
        return "as printed"
    return _ATTACH if row["attaching"] else _EACH


def _usage(usage: Fields) -> str:
    return f"{usage['code']}: {usage['words'] or 'what it means was not found; read the page'}"


def _flag(flag: str) -> str:
    said = f"{flag[:1].upper()}{flag[1:]}"
    return said if "page" in flag.casefold() else f"{said}: read the page"


def _read(row: Fields) -> str:
    words = row["confidence_words"] or "read by OCR: compare with the page"
    return f"{words[:1].upper()}{words[1:]}." if row["read_by_ocr"] else ""


def applies_view(applies: Fields | None) -> AppliesWords | None:
    """None where no aircraft is in hand."""
    if applies is None:
        return None
    kind = _KINDS.get(applies["answer"], "cannot-tell")
    return AppliesWords(kind, applies["words"], applies["why"], applies["quote"])


def figure_words(figure: Fields) -> str:
    """ "Figure 1, 24-31-00: Alternator installation"."""
    named = f"Figure {figure['figure']}" if figure["figure"] else "Figure without a number"
    if figure["number"] and figure["number"] not in figure["figure"]:
        named = f"{named}, {figure['number']}"
    return f"{named}: {figure['title']}" if figure["title"] else named


def page_words(printed_page: str, pdf_page: int) -> str:
    return f"Page {printed_page} (PDF page {pdf_page})" if printed_page else f"PDF page {pdf_page}"


def note_view(number: str, note: Fields, publication_id: str = "") -> NoteView:
    """The words beside a part with their direction said: from the row's part to the number named."""
    named, printed = note["number"], note["words"]
    this = number or "This part"
    part = parts_address(named) if named else ""
    figure = _named_figure(named, publication_id)
    paper = f"/?{urlencode({'q': named})}" if named else ""
    other = named or "another part: read the page"
    ways: dict[str, tuple[str, str, bool]] = {  # words before, where the number leads, alarm
        PartNoteKind.SUPERSEDED_BY: (f"{this} is superseded by", part, True),
        PartNoteKind.REPLACED_BY: (f"{this} is replaced by", part, True),
        PartNoteKind.SUPERSEDES: (f"{this} supersedes", part, False),
        PartNoteKind.REPLACES: (f"{this} replaces", part, False),
        PartNoteKind.OPTIONAL: ("Optional part, beside" if named else "Optional part", part, False),
        PartNoteKind.ALTERNATE: ("Alternate part, beside" if named else "Alternate part", part, False),
        PartNoteKind.SEE_FIGURE: ("For its details see figure", figure, False),
        PartNoteKind.NEXT_HIGHER_ASSEMBLY: ("Next higher assembly", part, False),
        PartNoteKind.NOT_PROCURABLE: ("Not procurable by itself", part, True),
        PartNoteKind.ORDER: ("Do not order this one: order", part, True),
        PartNoteKind.PRE_BULLETIN: ("Only before the change by", paper, False),
        PartNoteKind.POST_BULLETIN: ("Only after the change by", paper, False),
    }
    before, address, alarm = ways.get(note["kind"], (printed, part, False))
    needs = note["kind"] not in (
        PartNoteKind.OPTIONAL,
        PartNoteKind.ALTERNATE,
        PartNoteKind.NOT_PROCURABLE,
    )
    return NoteView(before, named or (other if needs else ""), address, printed, alarm)


def _named_figure(named: str, publication_id: str) -> str:
    """Where a figure of the same list is found: "2"; "32-41-00-01", which is figure 01 of 32-41-00."""
    if not named:
        return ""
    if found := _SECTION_AND_FIGURE.fullmatch(named):
        return parts_address(f"{found['section']} fig {found['figure']}", catalogue=publication_id)
    return parts_address(catalogue=publication_id, figure=named)
