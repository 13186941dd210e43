"""The page that puts the library on a tablet: where it is, what works on this connection, whom to trust."""

import io
from dataclasses import dataclass

import segno
from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response
from starlette.exceptions import HTTPException

from indexer.library.tablets import shop_code
from server.reach import Reach
from server.rights import Right, able_words, has
from server.routes.answer_headers import is_secure
from server.routes.asker import is_from_this_machine, must_join, person_of, persons_are_named
from server.routes.certificate_file import certificate_file
from server.routes.shown import library_of, shown, state_of
from server.this_machine import is_this_machine

router = APIRouter(default_response_class=HTMLResponse)
_SVG = "image/svg+xml"


@dataclass(frozen=True, slots=True)
class Ability:
    """One thing to do on a tablet, and whether this connection lets it. `why` ends in a full stop."""

    what: str
    works: bool
    why: str


@router.get("/tablet")
def tablet_page(request: Request) -> Response:
    reach = reach_of(request)
    at_machine = is_from_this_machine(request)
    far = reach.network and at_machine  # the reader asks for tablets, not for the browser in front of him
    secure = reach.is_secure if far else is_secure(request.scope)
    return shown(
        request,
        "tablet.html",
        state_of(library_of(request)),
        reach=reach,
        code=_code_for(request, reach),
        secure=secure,
        abilities=abilities(reach, secure),
        at_machine=at_machine,
        joined=not must_join(request),
        who_knows=able_words(Right.TAGS) if persons_are_named(request) else "",
        far=far,
    )


@router.get("/tablet/code.svg")
def join_code(request: Request) -> Response:
    """The address as a QR code, with the shop's code for those who may see it."""
    reach = reach_of(request)
    return _picture(reach.joining(_code_for(request, reach)))


@router.get("/tablet/door.svg")
def door_code(request: Request) -> Response:
    """The address of the plain page of trust as a QR code; 404 where there is none."""
    door = reach_of(request).door
    if not door:
        raise HTTPException(404)
    return _picture(door)


@router.get("/tablet/authority.crt")
def authority(request: Request) -> Response:
    return certificate_file(reach_of(request).authority)


def reach_of(request: Request) -> Reach:
    """How the service is reached; where nobody said, by the address that was asked."""
    known = request.app.state.reach
    return known or Reach(str(request.base_url), not is_this_machine(request.url.hostname or ""))


def abilities(reach: Reach, secure: bool) -> list[Ability]:
    """What a tablet can do over a connection, and what not and why."""
    unheard = "Nobody on the way can read or change it." if secure else (
        "Whoever listens in this network can read it, and could change it on the way."
    )  # fmt: skip
    no_copies = (
        "Browsers keep pages for use without the network only when they came over an encrypted way, and this "
        "one is not. Save the packet as a PDF file on the tablet instead."
    )
    return [
        Ability("Find, read pages, parts, check a source, collect a job packet", True, unheard),
        Ability("Save or print a packet as PDF", True, "The file stays on the tablet until you delete it."),
        Ability(
            "Packets that open without the network",
            secure,
            'Tap "Keep on this tablet" on a packet: it is kept for a set time.' if secure else no_copies,
        ),
        Ability(
            "Hangarleaf among the tablet's own programs",
            secure,
            "The browser's menu offers to add or install it."
            if secure
            else "That too takes an encrypted way. A bookmark does not.",
        ),
        Ability(
            "Copy a citation with one tap",
            secure,
            "The browser lets the page write to the clipboard."
            if secure
            else "The page can only select the words; copy them with a long press.",
        ),
        Ability(
            "Sign in to change something",
            True,
            "The passcode goes over an encrypted way."
            if secure
            else "Whoever listens in this network can read the passcode. Sign in at the machine itself.",
        ),
    ]


def _code_for(request: Request, reach: Reach) -> str:
    """The shop's code, for this machine and for a person who answers for the library, signed in on a tablet
    that joined; else, and where none is needed, "". Who has it lets any device read.
    """
    if not reach.network or must_join(request):
        return ""
    person = person_of(request)
    answers_for_it = person is not None and has(person.role, Right.TAGS)
    return shop_code(library_of(request).catalogue) if is_from_this_machine(request) or answers_for_it else ""


def _picture(address: str) -> Response:
    drawn = io.BytesIO()
    segno.make(address, error="m").save(drawn, kind="svg", light="white", border=4, omitsize=True)
    return Response(drawn.getvalue(), media_type=_SVG)
