"""A job packet as its page and its device copy show it: the plain data with addresses and marks."""

import datetime
import io
from collections.abc import Mapping
from typing import Any

import segno

from server.packet_changes import LEADS, conditions, state_words
from server.routes.addresses import page_address, picture_address, publication_address
from server.routes.packet_in_hand import packet_address
from server.words import count_of

PICTURE_DPI = 150  # of the device copy: a letter page is 1,275 pixels wide
_KINDS = {
    "page": "Page",
    "passage": "Passage",
    "figure": "Figure",
    "part": "Part",
    "finding": "Finding of a source check",
}
_APPLIES = {"applies": "Applies", "does not apply": "Does not apply", "cannot tell": "Cannot tell"}
_OLD = ("superseded", "the check has expired")
_STANDINGS = {
    "Approved data": "approved",
    "Acceptable data": "acceptable",
    "Information only": "information",
    "Blocked": "blocked",
}


def packet_view(fields: Mapping[str, Any]) -> dict[str, Any]:
    """What packet.html and packet_copy.html show."""
    items = [_item(place, each, fields) for place, each in enumerate(fields["items"], start=1)]
    return {
        "id": fields["id"],
        "address": packet_address(fields["id"]),
        "name": fields["name"],
        "job": fields["job"],
        "aircraft": fields["aircraft"],
        "aircraft_words": fields["aircraft_words"],
        "aircraft_doubt": fields["aircraft_doubt"] if fields["aircraft"] else "",
        "aircraft_known": fields["aircraft_now"] is not None,
        "begun": _moment(fields["begun_at"]),
        "changed": _moment(fields["changed_at"]),
        "closed": _moment(fields["closed_at"]),
        "standing": fields["standing"],
        "copy": fields["copy"],
        "lead": LEADS[fields["standing"]],
        "alarm": fields["standing"] in ("superseded", "changed"),
        "words": fields["standing_words"],
        "older": state_words(fields),
        "items": items,
        "count": count_of(len(items), "item"),
        "cautions": fields["cautions"],
    }


def _item(place: int, item: Mapping[str, Any], fields: Mapping[str, Any]) -> dict[str, Any]:
    now, of = item["now"], fields["aircraft"]
    view = {
        "id": item["id"],
        "place": place,
        "is_first": place == 1,
        "is_last": place == len(fields["items"]),
        "kind": item["kind"],
        "kind_words": _KINDS[item["kind"]],
        "name": item["name"],
        "note": item["note"],
        "added": _moment(item["added_at"]),
        "changes": [each["words"] for each in item["changes"]],
        "is_superseded": item["is_superseded"],
        "held": now["held"],
        "address": "",
        "finding": None,
        "pages": [],
    }
    if not now["held"]:
        return view
    if item["kind"] == "finding":
        check = now["check"]
        return view | {
            "address": f"/checks/{check['id']}",
            "finding": now["findings"],
            "other_aircraft": now["other_aircraft"],
            "asked": f"{check['text']}",
            "asked_at": _moment(check["at"]),
            "asked_for": check["aircraft"] or "no aircraft",
        }
    source = now["source"]
    return view | {
        "address": page_address(source["id"], item["pdf_page"], passage=_passage(item)),
        "source": source["name"],
        "source_kind": source["kind"],
        "source_address": publication_address(source["id"]),
        "current": " ".join(dict.fromkeys(each["current"]["words"] for each in now["pages"])),
        "current_alarm": now["state"] in _OLD,
        "newer": [
            {"words": each["words"], "address": publication_address(each["publication"])}
            for each in source["superseding"]
        ],
        "lead": now["standing"],
        "conditions": conditions(now),
        "value": _STANDINGS.get(now["standing"], "undetermined"),
        "applies": applies_view(now["applies"], of),
        "directives": [each for each in source["directives"] if each["acts"]],
        "pages": [_page(source, each, of) for each in now["pages"]],
    }


def _page(source: Mapping[str, Any], page: Mapping[str, Any], aircraft: str) -> dict[str, Any]:
    printed = f" (printed {page['printed_page']})" if page["printed_page"] else ""
    return {
        "name": f"{source['short']}, PDF page {page['pdf_page']}{printed}",
        "source": source["kind"],
        "address": page_address(source["id"], page["pdf_page"]),
        "picture": picture_address(source["id"], page["pdf_page"], PICTURE_DPI),
        "width": round(page["width"]),
        "height": round(page["height"]),
        "current": page["current"]["words"],
        "current_alarm": page["current"]["state"] in _OLD,
        "lead": page["standing"]["lead"],
        "value": _STANDINGS.get(page["standing"]["lead"], "undetermined"),
        "parts": page["standing"]["parts"],
        "applies": applies_view(page["applies"], aircraft),
        "read_by_ocr": page["read_by_ocr"],
        "not_read": page["not_read"],
        "overrides": [
            {
                "words": each["words"],
                "name": f"{each['name']}, PDF page {each['pdf_page']}",
                "address": page_address(each["publication"], each["pdf_page"]),
                "picture": picture_address(each["publication"], each["pdf_page"], PICTURE_DPI),
                "in_front": each["in_front"],
                **(_before(each["page"], aircraft) if each["in_front"] else {}),
            }
            for each in page["overrides"]
        ],
    }


def _before(page: Mapping[str, Any], aircraft: str) -> dict[str, Any]:
    """What is to be known of a page that is read before another: it is no better than it is itself."""
    return {
        "width": round(page["width"]),
        "height": round(page["height"]),
        "current": page["current"]["words"],
        "current_alarm": page["current"]["state"] in _OLD,
        "lead": page["standing"]["lead"],
        "applies": applies_view(page["applies"], aircraft),
    }


def applies_view(answer: Mapping[str, str], aircraft: str) -> dict[str, str]:
    """ "Applies to QX-1AB:", why, and the kind of the mark for the stylesheet."""
    word = answer["answer"]
    of = "for" if word == "cannot tell" else "to"
    kind = "it-applies" if word == "applies" else word.replace(" ", "-")
    whose = aircraft or "an aircraft"
    return {
        "kind": kind,
        "lead": f"{_APPLIES[word]} {of} {whose}:",
        "why": answer["why"],
        "quote": answer["quote"],
    }


def _passage(item: Mapping[str, Any]) -> str:
    return item["about"] if item["kind"] == "passage" else ""


def _moment(text: str | None) -> datetime.datetime | None:
    return datetime.datetime.fromisoformat(text) if text else None


def qr_picture(address: str) -> str:
    """A QR code of an address as SVG, for the page itself."""
    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(
        out, kind="svg", scale=6, border=4, xmldecl=False, svgns=True, dark="#000000", light="#ffffff"
    )
    return out.getvalue().decode("utf-8")
