"""The JSON API of job packets. Whoever may read may collect: a packet changes nothing in the library."""

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import JSONResponse, Response

from server.packets import open_fields, packet_fields, standing_fields
from server.routes import packet_models
from server.routes.answers import described
from server.routes.api import PROBLEMS
from server.routes.packet_adding import add
from server.routes.packet_in_hand import keep_packet
from server.routes.shown import library_of
from server.routes.writing import ASKS, Form

router = APIRouter(prefix="/api", responses=PROBLEMS)
PacketId = Annotated[str, Path(max_length=40)]


@router.get("/packets", **described(packet_models.OpenPackets, "The open job packets of the shop"))
def get_open(request: Request) -> Response:
    return JSONResponse(open_fields(library_of(request)))


@router.get(
    "/packets/standing", **described(packet_models.Standings, "What copies of packets are worth today")
)
def get_standing(
    request: Request,
    ids: Annotated[str, Query(max_length=2500, description="Ids of packets, joined by commas.")] = "",
) -> Response:
    wanted = [each for each in (part.strip() for part in ids.split(",")) if each]
    return JSONResponse(standing_fields(library_of(request), wanted))


@router.post(
    "/packets/add",
    dependencies=ASKS,
    **described(packet_models.AddedItem, "Put something into the packet in hand; begins one where none is"),
)
def post_add(request: Request, form: Form) -> Response:
    outcome = add(request, form)
    response = JSONResponse(outcome.fields())
    keep_packet(response, outcome.packet.id)
    return response


@router.get(
    "/packets/{packet_id}", **described(packet_models.PacketAnswer, "A job packet as it stands today")
)
def get_packet(request: Request, packet_id: PacketId) -> Response:
    return JSONResponse(packet_fields(library_of(request), packet_id))
