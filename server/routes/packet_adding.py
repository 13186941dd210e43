"""Putting something into the packet in hand: from a form of any page, or from the module that stays on it."""

from dataclasses import dataclass
from typing import Any

from fastapi import Request

from indexer.library.packets import packet
from server.packets import Added, PacketAsked, Wanted, add_item, begin_packet
from server.routes.in_hand import in_hand
from server.routes.packet_in_hand import PacketView, packet_in_hand, view_of
from server.routes.shown import library_of
from server.words import count_of


@dataclass(frozen=True, slots=True)
class Outcome:
    """words   what to say of it, with what speaks against it; begun: a new packet was begun for it"""

    packet: PacketView
    added: Added
    begun: bool
    words: str

    def fields(self) -> dict[str, Any]:
        return {
            "packet": self.packet.id,
            "address": self.packet.address,
            "name": self.packet.name,
            "count": self.packet.count,
            "item": self.added.item_id,
            "new": self.added.new,
            "begun": self.begun,
            "words": self.words,
        }


def add(request: Request, form: dict[str, str]) -> Outcome:
    """Add what a form names; where no open packet is in hand, one is begun for the aircraft in hand.

    Raises what `server.packets.add_item` raises, and AircraftUnknown.
    """
    library = library_of(request)
    wanted = Wanted(
        form.get("kind", ""),
        form.get("publication", ""),
        _page_number(form.get("pdf_page", "")),
        form.get("about", ""),
        _page_number(form.get("last_page", "")),
    )
    held = packet_in_hand(request)
    registration = in_hand(request, library).registration
    packet_id = held.id if held else begin_packet(library, "", registration)
    added = add_item(library, packet_id, wanted)
    view = view_of(packet(library.catalogue, packet_id))
    return Outcome(view, added, held is None, _words(view, added, held is None, registration))


def _words(view: PacketView, added: Added, begun: bool, registration: str) -> str:
    said = "Added" if added.new else "It was in already"
    where = f"a new packet, {view.name}" if begun else view.name
    words = f"{said}: {where}, {count_of(view.count, 'item')}."
    if registration and view.aircraft != registration:
        whose = f"is for {view.aircraft}" if view.aircraft else "is for no aircraft"
        words = f"{words} This packet {whose}; in hand is {registration}."
    return words


def _page_number(text: str) -> int:
    """Raises PacketAsked for what is no number of a page."""
    if not text:
        return 0
    if not (text.isascii() and text.isdigit() and len(text) < 8):
        raise PacketAsked(f"«{text[:40]}» is no page of a PDF.", "Give its number in the file, from 1.")
    return int(text)
