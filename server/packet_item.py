"""One item of a job packet as it stands today: what it is called, whether it is held, current, applies.

The same data, shortened, is kept with the item when it is added (`as_added`), so that later it can be said
what changed. What cannot be told is said to be so; nothing here makes a yes of it.
"""

import datetime
from collections.abc import Sequence
from typing import Any

from indexer.errors import PageUnknown, PublicationUnknown
from indexer.library import parts
from indexer.library.directives_held import DirectiveTie, directives_on
from indexer.library.fleet_records import Aircraft
from indexer.library.packet_records import Packet, PacketItem, PacketItemKind
from indexer.library.problems import AircraftUnknown, FigureUnknown, PartUnknown, PassageUnknown
from indexer.library.records import (
    OverrideState,
    PageOverride,
    PassageRecord,
    PublicationRecord,
    SupersessionKind,
)
from indexer.tagging.tags import ClaimKind
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Origin
from server.applying import Applying
from server.checking.directives_found import reach_words
from server.currency import Currency
from server.current import Current, current_words
from server.fleet import chosen, serial_words
from server.leaf import ocr_owes
from server.opened import OpenedLibrary
from server.packet_changes import conditions
from server.page_lookup import passages_on
from server.parts_applying import RowApplying
from server.parts_words import place_words
from server.search import heading
from server.standing_today import StandingToday
from server.tag_fields import applies_fields
from server.words import numbered, publication_kind, publication_name, standing_words

NO_AIRCRAFT = "The packet is for no aircraft of the fleet list."
DIFFERS = "Not the same for the whole page"
_NOTHING_READ = "No passage was read on this page, so no words that would give it a standing were found."


class AircraftOf:
    """The aircraft of a packet in today's fleet list. `row` None = nothing can be held against it; `doubt`
    says why."""

    def __init__(self, library: OpenedLibrary, packet: Packet):
        self.registration = packet.aircraft
        self.row: Aircraft | None = None
        self.doubt = "" if packet.aircraft else NO_AIRCRAFT
        if not packet.aircraft:
            return
        try:
            row = chosen(library, packet.aircraft)
        except AircraftUnknown:
            self.doubt = f"{packet.aircraft} is not in the fleet list any more."
            return
        if (row.model, row.serial) != (packet.model, packet.serial):
            self.doubt = (
                f"The packet was begun for {packet.model}, {serial_words(packet.serial)}; the fleet list "
                f"says {row.model}, {serial_words(row.serial)} now. Look at the data plate."
            )
            return
        self.row = row


class ItemReader:
    """Reads items for one packet; make one for each answer, inside `reading`."""

    def __init__(self, library: OpenedLibrary, aircraft: AircraftOf):
        self._library = library
        self._catalogue = library.catalogue
        self._aircraft = aircraft
        self.registration = aircraft.registration
        self.currency = Currency(library.catalogue)
        self._current = Current(library.catalogue, currency=self.currency)
        self._standing = StandingToday(library.catalogue)
        self._applying = Applying(library.catalogue, aircraft.row) if aircraft.row else None
        self._row_applying = RowApplying(library, aircraft.row) if aircraft.row else None
        self.on: datetime.date = self._current.on

    # Whole items -------------------------------------------------------------------------------------------

    def now(self, item: PacketItem) -> dict[str, Any]:
        """All that can be said of an item that is no finding; "held" False where its source is gone."""
        try:
            owner = self._library.publication(item.publication_id)
            pages = self.pages(item, owner)
        except (PublicationUnknown, PageUnknown):
            return {"held": False}
        shown = [self.page(owner, number, item) for number in pages]
        called, source = self.called(item), self.source(owner)
        return {
            "held": True,
            "still_there": self._is_there(item),
            "called": called,
            "words": ", ".join(filter(None, (source["short"], called, pages_words(shown)))),
            "source": source,
            "pages": shown,
            "state": worst_state([each["current"]["state"] for each in shown]),
            "standing": standing_lead(shown),
            "applies": applies_fields(self._applies_of(item, owner, pages)),
        }

    def called(self, item: PacketItem) -> str:
        """What an item is called: its figure, part or heading, where it has one; else ""."""
        try:
            if item.kind is PacketItemKind.PASSAGE:
                return heading(self._catalogue.passage(item.about))
            if item.kind is PacketItemKind.FIGURE:
                held = parts.figure(self._catalogue, item.about).figure
                return ": ".join(filter(None, (place_words(held.figure, "", held.number), held.title)))
            if item.kind is PacketItemKind.PART:
                row = parts.row(self._catalogue, item.about).row
                return " ".join(filter(None, (row.part_number or "Part number not read", row.nomenclature)))
        except (PassageUnknown, FigureUnknown, PartUnknown):
            return ""
        return ""

    def pages(self, item: PacketItem, owner: PublicationRecord) -> list[int]:
        """The pages (1-based) that an item stands for, in order. Raises PageUnknown."""
        if not owner.first_page <= item.pdf_page <= owner.last_page:
            raise PageUnknown(owner.file, item.pdf_page, owner.last_page)
        found: set[int] = set()
        try:
            if item.kind is PacketItemKind.PASSAGE:
                passage = self._catalogue.passage(item.about)
                if passage.publication_id == owner.id:
                    found = {passage.pdf_page, *(box.pdf_page for box in passage.boxes)}
            elif item.kind is PacketItemKind.FIGURE:
                figure = parts.figure(self._catalogue, item.about).figure
                found = {*figure.art_pages, *figure.list_pages}
            elif item.kind is PacketItemKind.PART:
                row = parts.row(self._catalogue, item.about).row
                found = {row.pdf_page, *self._art_of(owner.id, row.figure)}
        except (PassageUnknown, FigureUnknown, PartUnknown):
            found = set()
        found = found or set(range(item.pdf_page, item.last_page + 1))
        held = sorted(each for each in found if owner.first_page <= each <= owner.last_page)
        return held or [item.pdf_page]

    def _art_of(self, publication_id: str, ordinal: int) -> tuple[int, ...]:
        held = parts.figures_with(self._catalogue, [(publication_id, ordinal)]).get((publication_id, ordinal))
        return held.art_pages if held else ()

    def _is_there(self, item: PacketItem) -> bool:
        """Whether the passage, figure or row is found as it was when it was added."""
        try:
            if item.kind is PacketItemKind.PASSAGE:
                self._catalogue.passage(item.about)
            elif item.kind is PacketItemKind.FIGURE:
                parts.figure(self._catalogue, item.about)
            elif item.kind is PacketItemKind.PART:
                parts.row(self._catalogue, item.about)
        except (PassageUnknown, FigureUnknown, PartUnknown):
            return False
        return True

    # Sources and pages -------------------------------------------------------------------------------------

    def source(self, owner: PublicationRecord) -> dict[str, Any]:
        """A publication: number, title, revision, and what is known against its being current."""
        finding = self._current.of_publication(owner)
        superseding = [
            {
                "publication": each.publication,
                "words": each.words,
                "certain": each.kind != SupersessionKind.CANNOT_TELL.value,
            }
            for each in self.currency.superseding(owner)
        ]
        return {
            "id": owner.id,
            "copy_id": owner.copy_id,
            "name": publication_name(owner),
            "short": numbered(owner.type, owner.number) or publication_name(owner),
            "kind": publication_kind(owner.type, owner.revision, owner.date, owner.entered),
            "number": owner.number,
            "title": owner.title,
            "revision": owner.revision,
            "date": owner.date.isoformat() if owner.date else None,
            "file": owner.file,
            "current": {"state": finding.state.value, "words": current_words(finding).words},
            "against": list(self.currency.of_publication(owner)),
            "superseding": superseding,
            "replaced": owner.replaced is not None,
            "applies": applies_fields(self._whole_applies(owner)),
            "directives": [
                self._directive(each) for each in directives_on(self._catalogue, owner.id, self.on)
            ],
        }

    def page(
        self,
        owner: PublicationRecord,
        pdf_page: int,
        item: PacketItem | None = None,
        with_overriding: bool = True,
    ) -> dict[str, Any]:
        """One page of a source: where it is printed, its standing, and what is read before it.

        with_overriding   also all that is known of the pages that are read before it
        """
        sheet = self._catalogue.page(owner.copy_id, pdf_page)
        overrides = self.currency.overrides(owner, pdf_page)
        before = [each for each in overrides if each.state is not OverrideState.SUPERSEDED]
        finding = self._current.of_page(owner, pdf_page, {each.source_id for each in before})
        on_page = passages_on(self._catalogue, owner, pdf_page)
        if item is not None and item.kind is PacketItemKind.PASSAGE:
            on_page = [each for each in on_page if each.id == item.about] or on_page
        return {
            "pdf_page": pdf_page,
            "printed_page": sheet.printed_page,
            "width": sheet.width,
            "height": sheet.height,
            "read_by_ocr": sheet.origin is not Origin.DIGITAL,
            "not_read": ocr_owes(self._library, owner, sheet),
            "problem": sheet.problem,
            "standing": self._standing_of(on_page),
            "current": {"state": finding.state.value, "words": current_words(finding).words},
            "applies": applies_fields(self._page_applies(owner, pdf_page)),
            "overrides": [self._override(each, with_overriding) for each in overrides],
        }

    def _directive(self, tie: DirectiveTie) -> dict[str, Any]:
        return {
            "publication": tie.directive_id,
            "name": self.currency.short_name(tie.directive_id),
            "level": tie.level.value,
            "says": self._says(tie),
            "acts": tie.level is not ClaimKind.MENTIONS,
            "status": tie.force.why,
            "quote": tie.quote,
            "pdf_page": tie.pdf_page,
        }

    def _says(self, tie: DirectiveTie) -> str:
        """What one that requires it does where it is not known to reach the aircraft; "" = it is."""
        if tie.level not in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES):
            return ""
        return reach_words(self._applying, self._library.publication(tie.directive_id))

    def _override(self, each: PageOverride, with_page: bool) -> dict[str, Any]:
        in_front = each.state is not OverrideState.SUPERSEDED
        found = {
            "publication": each.source_id,
            "pdf_page": each.source_pdf_page,
            "name": self.currency.short_name(each.source_id),
            "state": each.state.value,
            "in_front": in_front,
            "words": self.currency.override_words(each),
        }
        if with_page and in_front:
            owner = self._library.publication(each.source_id)
            found |= {
                "source": self.source(owner),
                "page": self.page(owner, each.source_pdf_page, with_overriding=False),
            }
        return found

    def _standing_of(self, on_page: Sequence[PassageRecord]) -> dict[str, Any]:
        """The standing of all passages of a page together: one lead, or that they differ, which is no yes."""
        found: dict[tuple, dict[str, Any]] = {}
        for passage in on_page:
            words = standing_words(self._standing.passage(passage).standing)
            key = (words.lead, words.why, words.quote, words.notes)
            found.setdefault(
                key,
                {
                    "lead": words.lead,
                    "why": words.why,
                    "quote": words.quote,
                    "quote_place": words.quote_place,
                    "notes": list(words.notes),
                },
            )
        each = list(found.values())
        leads = list(dict.fromkeys(one["lead"] for one in each))
        if not each:
            nothing = {
                "lead": "Not determined",
                "why": _NOTHING_READ,
                "quote": "",
                "quote_place": "",
                "notes": [],
            }
            return {"lead": "Not determined", "parts": [nothing]}
        if len(leads) > 1:
            return {"lead": f"{DIFFERS}: {', '.join(leads)}", "parts": each}
        return {"lead": leads[0], "parts": each}

    # Applies -----------------------------------------------------------------------------------------------

    def _applies_of(
        self, item: PacketItem, owner: PublicationRecord, pages: Sequence[int]
    ) -> ApplicabilityAnswer:
        if self._applying is None or self._row_applying is None:
            return ApplicabilityAnswer(Applies.CANNOT_TELL, self._aircraft.doubt)
        if item.kind is PacketItemKind.PART:
            try:
                return self._row_applying.of_row(parts.row(self._catalogue, item.about))
            except PartUnknown:
                why = "The row is not found in the parts list as it was read then: look at its page."
                return ApplicabilityAnswer(Applies.CANNOT_TELL, why)
        if item.kind is PacketItemKind.PASSAGE:
            try:
                return self._applying.of_passage(owner, self._catalogue.passage(item.about))
            except PassageUnknown:
                pass  # its page is asked below, and that it is not found is said with the item
        answers = [self._applying.of_page(owner, page) for page in pages]
        if len({each.answer for each in answers}) == 1:
            return answers[0]
        why = "Not the same for all its pages: see each page."
        return ApplicabilityAnswer(
            Applies.CANNOT_TELL, why, next((each.quote for each in answers if each.quote), "")
        )

    def _page_applies(self, owner: PublicationRecord, pdf_page: int) -> ApplicabilityAnswer:
        if self._applying is None:
            return ApplicabilityAnswer(Applies.CANNOT_TELL, self._aircraft.doubt)
        return self._applying.of_page(owner, pdf_page)

    def _whole_applies(self, owner: PublicationRecord) -> ApplicabilityAnswer:
        if self._applying is None:
            return ApplicabilityAnswer(Applies.CANNOT_TELL, self._aircraft.doubt)
        return self._applying.of_publication(owner)


def kept_of(now: dict[str, Any], generation: int) -> dict[str, Any]:
    """What is kept with an item when it is added: what `server.packet_changes` holds against later days."""
    return {
        "generation": generation,
        "name": now["source"]["name"],
        "short": now["source"]["short"],
        "kind": now["source"]["kind"],
        "revision": now["source"]["revision"],
        "current": now["state"],
        "standing": now["standing"],
        "conditions": conditions(now),
        "applies": now["applies"]["answer"],
        "against": now["source"]["against"],
        "superseding": [each["publication"] for each in now["source"]["superseding"]],
        "overrides": sorted({one["publication"] for each in now["pages"] for one in each["overrides"]}),
        "directives": sorted({each["publication"] for each in now["source"]["directives"]}),
    }


_WORST = ("superseded", "the check has expired", "unknown", "current as checked")


def worst_state(states: Sequence[str]) -> str:
    """Of several pages' currency the one that speaks most against use."""
    return min(states, key=lambda state: _WORST.index(state) if state in _WORST else 0)


def standing_lead(pages: Sequence[dict[str, Any]]) -> str:
    """The standing of several pages in one line."""
    leads = list(dict.fromkeys(each["standing"]["lead"] for each in pages))
    return leads[0] if len(leads) == 1 else f"Not the same for all its pages: {', '.join(leads)}"


def pages_words(pages: Sequence[dict[str, Any]]) -> str:
    """ "PDF page 3 (printed 201)", or "PDF pages 3, 4 and 7"."""
    if len(pages) == 1:
        printed = pages[0]["printed_page"]
        return f"PDF page {pages[0]['pdf_page']}{f' (printed {printed})' if printed else ''}"
    *first, last = (str(each["pdf_page"]) for each in pages)
    return f"PDF pages {', '.join(first)} and {last}"
