"""The packet in hand: what is added on any page goes into it. A cookie names it, and changes nothing."""

from dataclasses import dataclass
from urllib.parse import quote

from fastapi import Request
from fastapi.responses import Response

from indexer.library.packet_records import Packet
from indexer.library.packets import packet
from indexer.library.problems import PacketUnknown
from server.packets import packet_name

COOKIE = "packet"
KEPT_S = 12 * 3600  # as long as the aircraft in hand


@dataclass(frozen=True, slots=True)
class PacketView:
    """The packet in hand as every page names it.

    keys  (kind, publication id, page, about) of all that is in it; page 0 where `about` says enough
    """

    id: str
    address: str
    name: str
    count: int
    aircraft: str
    keys: frozenset[tuple[str, str, int, str]]

    def holds(self, kind: str, publication_id: str, pdf_page: int, about: str | int) -> bool:
        """Whether it is in; a passage, figure, row or check is known by its id alone."""
        key = (kind, "", 0, str(about)) if about else (kind, publication_id, pdf_page, "")
        return key in self.keys


def packet_in_hand(request: Request) -> PacketView | None:
    """The open packet of the cookie; None where there is none, or it was closed."""
    kept = request.cookies.get(COOKIE, "")[:40]
    if not kept:
        return None
    try:
        held = packet(request.app.state.library.catalogue, kept)
    except PacketUnknown:
        return None
    return view_of(held) if held.closed_at is None else None


def view_of(held: Packet) -> PacketView:
    keys = frozenset(
        (each.kind.value, "", 0, each.about)
        if each.about
        else (each.kind.value, each.publication_id, each.pdf_page, "")
        for each in held.items
    )
    return PacketView(
        held.id, packet_address(held.id), packet_name(held), len(held.items), held.aircraft, keys
    )


def packet_address(packet_id: str) -> str:
    return f"/packets/{quote(packet_id, safe='')}"


def keep_packet(response: Response, packet_id: str) -> None:
    """Carry a packet from page to page; "" = none. It is read by this service alone."""
    if packet_id:
        response.set_cookie(COOKIE, packet_id, max_age=KEPT_S, path="/", httponly=True, samesite="lax")
    else:
        response.delete_cookie(COOKIE, path="/", httponly=True, samesite="lax")
