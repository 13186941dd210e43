"""The job packets' pages: the open ones, one with its items in order, handing it over, its device copy."""

from collections.abc import Callable
from functools import partial
from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from markupsafe import Markup

from indexer.library import packets
from indexer.library.problems import AircraftUnknown
from server.fleet import chosen
from server.packet_pdf import packet_pdf
from server.packets import PacketAsked, begin_packet, open_fields, packet_fields
from server.routes.answer_headers import is_secure
from server.routes.in_hand import in_hand, keep, local_address
from server.routes.packet_adding import add
from server.routes.packet_in_hand import keep_packet, packet_address, packet_in_hand
from server.routes.packet_view import packet_view, qr_picture
from server.routes.shown import library_of, shown, state_of
from server.routes.turns import PRINTING
from server.routes.writing import ASKS, Form, is_from_this_machine

router = APIRouter(default_response_class=HTMLResponse)
PacketId = Annotated[str, Path(max_length=40)]


@router.get("/packets")
def packets_page(request: Request) -> Response:
    """The open packets of the shop, and a form to begin one."""
    library = library_of(request)
    held = packet_in_hand(request)
    found = [
        {**each, "address": packet_address(each["id"]), "in_hand": held is not None and held.id == each["id"]}
        for each in open_fields(library)["packets"]
    ]
    return shown(request, "packets.html", state_of(library), packets=found)


@router.post("/packets", dependencies=ASKS)
def post_begin(request: Request, form: Form) -> Response:
    """Begin a packet for the aircraft in hand, and take it in hand."""
    library = library_of(request)
    made = begin_packet(library, form.get("job", ""), in_hand(request, library).registration)
    return _led_to(made, made)


@router.post("/packets/add", dependencies=ASKS)
def post_add(request: Request, form: Form) -> Response:
    """Put something into the packet in hand and go back to where it was seen."""
    back = local_address(form["back"]) if form.get("back") else ""
    outcome = add(request, form)
    response = RedirectResponse(back or outcome.packet.address, status_code=303)
    keep_packet(response, outcome.packet.id)
    return response


@router.get("/packets/{packet_id}")
def packet_page(
    request: Request, packet_id: PacketId, taken_out: Annotated[int, Query(ge=0, le=2**62)] = 0
) -> Response:
    """One packet; taken_out: the item that was just taken out, which one tap puts back."""
    library = library_of(request)
    fields = packet_fields(library, packet_id)
    held, hand = packet_in_hand(request), in_hand(request, library)
    gone = packets.taken_out(library.catalogue, packet_id, taken_out) if taken_out else None
    address = f"{str(request.base_url).rstrip('/')}{packet_address(packet_id)}"
    return shown(
        request,
        "packet.html",
        state_of(library),
        packet=packet_view(fields),
        is_in_hand=held is not None and held.id == packet_id,
        other_hand=hand.registration if hand.registration != fields["aircraft"] else "",
        gone=gone,
        short_address=address.partition("://")[2],
        qr=Markup(qr_picture(address)),  # made by us of an address alone
        secure=is_secure(request.scope),
        only_here=is_from_this_machine(request),
    )


@router.get("/packets/{packet_id}/pdf", response_class=Response)
async def packet_as_pdf(request: Request, packet_id: PacketId) -> Response:
    """The packet as one PDF to save or print, made anew each time: it says when, of which library state."""
    return await PRINTING.take(request, partial(_as_pdf, request, packet_id))


def _as_pdf(request: Request, packet_id: str) -> Response:
    made = packet_pdf(library_of(request), packet_id)
    headers = {"Content-Disposition": f'attachment; filename="{made.name}"', "Cache-Control": "no-store"}
    return Response(made.data, media_type="application/pdf", headers=headers)


@router.get("/packets/{packet_id}/copy")
def packet_copy(request: Request, packet_id: PacketId) -> Response:
    """The packet as a tablet keeps it: nothing to tap but its own pages, nothing to copy."""
    library = library_of(request)
    return shown(
        request, "packet_copy.html", state_of(library), packet=packet_view(packet_fields(library, packet_id))
    )


@router.post("/packets/{packet_id}/move", dependencies=ASKS)
def post_move(request: Request, packet_id: PacketId, form: Form) -> Response:
    item, places = _item(form), {"up": -1, "down": 1}.get(form.get("way", ""))
    if places is None:
        raise PacketAsked("Which way to move it was not said.", "Send way=up or way=down.")
    packets.move(library_of(request).catalogue, packet_id, item, places)
    return _led_to(packet_id, at=f"#item-{item}")


@router.post("/packets/{packet_id}/note", dependencies=ASKS)
def post_note(request: Request, packet_id: PacketId, form: Form) -> Response:
    item = _item(form)
    packets.note(library_of(request).catalogue, packet_id, item, form.get("note", ""))
    return _led_to(packet_id, at=f"#item-{item}")


@router.post("/packets/{packet_id}/take-out", dependencies=ASKS)
def post_take_out(request: Request, packet_id: PacketId, form: Form) -> Response:
    gone = packets.remove(library_of(request).catalogue, packet_id, _item(form))
    return _led_to(packet_id, at=f"?taken_out={gone.id}")


@router.post("/packets/{packet_id}/put-back", dependencies=ASKS)
def post_put_back(request: Request, packet_id: PacketId, form: Form) -> Response:
    item = _item(form)
    packets.put_back(library_of(request).catalogue, packet_id, item)
    return _led_to(packet_id, at=f"#item-{item}")


@router.post("/packets/{packet_id}/job", dependencies=ASKS)
def post_job(request: Request, packet_id: PacketId, form: Form) -> Response:
    packets.name_job(library_of(request).catalogue, packet_id, form.get("job", ""))
    return _led_to(packet_id)


@router.post("/packets/{packet_id}/aircraft", dependencies=ASKS)
def post_aircraft(request: Request, packet_id: PacketId) -> Response:
    """The aircraft in hand is the one that a packet without an aircraft is for."""
    library = library_of(request)
    row = in_hand(request, library).row
    if row is None:
        raise PacketAsked("No aircraft is in hand.", "Choose an aircraft on top of the page first.")
    packets.set_aircraft(library.catalogue, packet_id, row.registration, row.model, row.serial)
    return _led_to(packet_id)


@router.post("/packets/{packet_id}/take-up", dependencies=ASKS)
def post_take_up(request: Request, packet_id: PacketId) -> Response:
    """Go on with a packet here: it and its aircraft are in hand on this tablet from now on."""
    library = library_of(request)
    held = packets.packet(library.catalogue, packet_id)
    response = _led_to(packet_id, held.id)
    try:
        row = chosen(library, held.aircraft)
    except AircraftUnknown:  # the page says that the fleet list has it no more
        row = None
    keep(response, row.registration if row else "")
    return response


@router.post("/packets/{packet_id}/lay-down", dependencies=ASKS)
def post_lay_down(request: Request, packet_id: PacketId) -> Response:
    """The packet stays open, and is not in hand on this tablet any more."""
    packets.packet(library_of(request).catalogue, packet_id)
    response = RedirectResponse("/packets", status_code=303)
    keep_packet(response, "")
    return response


@router.post("/packets/{packet_id}/close", dependencies=ASKS)
def post_close(request: Request, packet_id: PacketId) -> Response:
    return _set(request, packet_id, packets.close)


@router.post("/packets/{packet_id}/reopen", dependencies=ASKS)
def post_reopen(request: Request, packet_id: PacketId) -> Response:
    return _set(request, packet_id, packets.reopen)


def _set(request: Request, packet_id: str, change: Callable) -> Response:
    change(library_of(request).catalogue, packet_id)
    return _led_to(packet_id)


def _led_to(packet_id: str, take: str = "", at: str = "") -> Response:
    """Back to the packet's page; take: the packet that is in hand from now on, "" = as it was."""
    response = RedirectResponse(f"{packet_address(packet_id)}{at}", status_code=303)
    if take:
        keep_packet(response, take)
    return response


def _item(form: dict[str, str]) -> int:
    """Raises PacketAsked where the form names no item."""
    text = form.get("item", "")
    if not (text.isascii() and text.isdigit() and len(text) <= 18):
        raise PacketAsked("Which item is meant was not said.", "Send it from the packet's page.")
    return int(text)
