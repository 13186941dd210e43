"""The packets' pages: a packet is begun by the first thing added, put in order, handed over, printed."""

import html
import re
from urllib.parse import urlencode

import pytest
from asking import Client
from packet_shelf import REGISTRATION, SECOND, opened

from indexer.library import packets
from indexer.library.relations import relate
from indexer.settings import Settings
from server.app import create_app
from server.packets import Wanted, add_item, begin_packet
from server.sourcecheck import check

OURS = {"content-type": "application/x-www-form-urlencoded", "sec-fetch-site": "same-origin"}


@pytest.fixture
def shelf(tmp_path):
    library, manual = opened(tmp_path)
    with library:
        library.catch_up()
        yield library, manual


@pytest.fixture
def library(shelf):
    return shelf[0]


@pytest.fixture
def manual(shelf):
    return shelf[1]


@pytest.fixture
def browser(library):
    return Browser(library)


class Browser:
    """A client that keeps cookies and sends forms as our pages do."""

    def __init__(self, library):
        self._client = Client(create_app(library, Settings()))
        self.cookies = {}

    def get(self, address):
        return self._kept(self._client.get(address, headers=self._cookie()))

    def post(self, address, headers=OURS, **fields):
        return self._kept(
            self._client.request("POST", address, content=urlencode(fields), headers=headers | self._cookie())
        )

    def _cookie(self):
        return {"cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}

    def _kept(self, answer):
        for line in answer.headers.get_list("set-cookie"):
            name, value = re.match(r"([^=]+)=([^;]*)", line).groups()
            if "max-age=0" in line.casefold():
                self.cookies.pop(name, None)
            else:
                self.cookies[name] = value
        return answer


def text(answer):
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", answer.text)).split())


def test_the_first_thing_added_begins_a_packet_for_the_aircraft_in_hand(browser, manual):
    browser.cookies["aircraft"] = REGISTRATION
    back = f"/publications/{manual}/pages/2"
    answer = browser.post("/packets/add", kind="page", publication=manual, pdf_page=2, back=back)
    assert (answer.status_code, answer.headers["location"]) == (303, back)
    page = browser.get(f"/packets/{browser.cookies['packet']}")
    assert f"{REGISTRATION}, D44, serial 44-019" in text(page)
    assert "D4410-1, PDF page 2 (printed 401)" in text(page)
    assert f'href="/packets/{browser.cookies["packet"]}"' in browser.get("/").text, "the entry on top"


def test_the_module_is_told_what_was_added_and_that_it_was_in_already(browser, manual):
    first = browser.post("/api/packets/add", kind="page", publication=manual, pdf_page=2).json()
    assert first["begun"] and first["new"] and first["count"] == 1
    again = browser.post("/api/packets/add", kind="page", publication=manual, pdf_page=2).json()
    assert not again["new"] and again["packet"] == first["packet"]
    assert again["words"].startswith("It was in already")


def test_a_packet_for_another_aircraft_than_the_one_in_hand_is_said(browser, library, manual):
    browser.cookies["packet"] = begin_packet(library, "WO 1")
    browser.cookies["aircraft"] = REGISTRATION
    told = browser.post("/api/packets/add", kind="page", publication=manual, pdf_page=2).json()
    assert told["words"].endswith(f"This packet is for no aircraft; in hand is {REGISTRATION}.")
    page = browser.get(told["address"])
    assert f"In hand is {REGISTRATION}." in text(page)
    browser.post(f"{told['address']}/aircraft")
    assert "serial 44-019" in text(browser.get(told["address"]))


def test_a_check_is_added_by_its_button_which_then_says_so(browser, library):
    made = check(library, "IAW D4410-1 page 401", REGISTRATION, "minor")
    page = browser.get(f"/checks/{made.id}")
    assert "Add to packet" in page.text
    browser.post("/packets/add", kind="finding", about=made.id, back=f"/checks/{made.id}")
    assert "In the packet" in browser.get(f"/checks/{made.id}").text


def test_items_are_ordered_noted_taken_out_and_put_back_by_plain_forms(browser, library, manual):
    made = begin_packet(library, "WO 1", REGISTRATION)
    first, second = (add_item(library, made, Wanted("page", manual, page)).item_id for page in (2, 3))
    at = f"/packets/{made}"
    answer = browser.post(f"{at}/move", item=second, way="up")
    assert answer.headers["location"] == f"{at}#item-{second}"
    assert [each.id for each in packets.packet(library.catalogue, made).items] == [second, first]
    browser.post(f"{at}/note", item=first, note="Torque <twice>")
    assert "Torque &lt;twice&gt;" in browser.get(at).text
    gone = browser.post(f"{at}/take-out", item=first).headers["location"]
    assert "Taken out: D4410-1, PDF page 2 (printed 401) Put it back" in text(browser.get(gone))
    browser.post(f"{at}/put-back", item=first)
    assert [each.id for each in packets.packet(library.catalogue, made).items] == [second, first]
    browser.post(f"{at}/job", job="WO 1174")
    assert "<h1>WO 1174</h1>" in browser.get(at).text


def test_a_packet_is_taken_up_on_another_tablet_with_its_aircraft(library, manual):
    made = begin_packet(library, "WO 1", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    other = Browser(library)
    page = other.get(f"/packets/{made}")
    assert "Take it up here" in page.text and f"127.0.0.1/packets/{made}" in page.text
    assert "<svg" in page.text, "the QR code"
    other.post(f"/packets/{made}/take-up")
    assert other.cookies == {"packet": made, "aircraft": REGISTRATION.replace("-", "")}
    assert "In hand here:" in text(other.get(f"/packets/{made}"))
    other.post(f"/packets/{made}/lay-down")
    assert "packet" not in other.cookies


def test_a_closed_packet_can_be_read_and_opened_again(browser, library, manual):
    made = begin_packet(library, "WO 1", REGISTRATION)
    item = add_item(library, made, Wanted("page", manual, 2)).item_id
    browser.cookies["packet"] = made
    browser.post(f"/packets/{made}/close")
    refused = browser.post(f"/packets/{made}/move", item=item, way="up")
    assert refused.status_code == 409 and "is closed" in text(refused)
    assert "Take out" not in browser.get(f"/packets/{made}").text
    told = browser.post("/api/packets/add", kind="page", publication=manual, pdf_page=3).json()
    assert told["begun"] and told["packet"] != made, "a closed packet is not in hand"
    browser.post(f"/packets/{made}/reopen")
    assert "Take out" in browser.get(f"/packets/{made}").text


def test_what_changed_stands_on_the_page_and_on_the_device_copy(browser, library, manual, tmp_path):
    made = begin_packet(library, "WO 1", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    SECOND.take(library.catalogue, tmp_path / "files")
    relate(library.catalogue)
    library.catch_up()
    for address in (f"/packets/{made}", f"/packets/{made}/copy"):
        words = text(browser.get(address))
        assert "Superseded: not to be used as it is" in words
        assert "superseded by revision 7 of 1 December 2031" in words
        assert "The library changed since items were added" in words


def test_the_device_copy_says_how_old_it_is_and_offers_nothing_to_copy_or_change(browser, library, manual):
    made = begin_packet(library, "WO 1", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    copy = browser.get(f"/packets/{made}/copy")
    generation = library.catalogue.generation
    assert re.search(
        rf"Copy of [^,]+, \d\d:\d\d, library state {generation}: may be superseded since\.", text(copy)
    )
    assert "<form" not in copy.text and "<button" not in copy.text and "<script" not in copy.text
    assert 'class="device-copy"' in copy.text
    picture = re.search(r'<img src="([^"]+)"', copy.text)[1]
    assert browser.get(html.unescape(picture)).headers["content-type"] == "image/jpeg"
    assert "Reference copy: check the revision before use." in text(copy)


def test_the_pdf_is_sent_as_a_file_that_is_not_kept(browser, library, manual):
    made = begin_packet(library, "WO 1", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    answer = browser.get(f"/packets/{made}/pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["cache-control"] == "no-store"
    assert re.match(r'attachment; filename="packet-WO-1-[\d-]+\.pdf"', answer.headers["content-disposition"])
    assert answer.content.startswith(b"%PDF-1.7")


def test_the_open_packets_are_listed_and_one_is_begun_by_its_form(browser, library):
    begin_packet(library, "WO <b>7</b>", REGISTRATION)
    listed = browser.get("/packets")
    assert "WO &lt;b&gt;7&lt;/b&gt;" in listed.text
    browser.cookies["aircraft"] = REGISTRATION
    answer = browser.post("/packets", job="WO 8")
    assert answer.headers["location"] == f"/packets/{browser.cookies['packet']}"
    assert [each["name"] for each in browser.get("/api/packets").json()["packets"]][0] == "WO 8"


def test_the_standing_of_copies_is_asked_by_ids(browser, library):
    made = begin_packet(library, "WO 1")
    told = browser.get(f"/api/packets/standing?ids={made},nope").json()
    assert [(each["id"], each["standing"]) for each in told["packets"]] == [
        (made, "current"),
        ("nope", "gone"),
    ]
    assert browser.get(f"/api/packets/{made}").json()["standing"] == "current"


def test_wrong_things_are_refused_with_what_to_do(browser, library, manual):
    made = begin_packet(library, "WO 1")
    assert browser.get("/packets/none").status_code == 404
    assert browser.get("/api/packets/none").json()["error"]["slug"] == "packet-unknown"
    browser.cookies["packet"] = made
    for fields, status, slug in (
        ({"kind": "page", "publication": manual, "pdf_page": 99}, 404, "page-unknown"),
        ({"kind": "page", "publication": manual, "pdf_page": "two"}, 400, "packet-asked"),
        ({"kind": "thing"}, 400, "packet-asked"),
        ({"kind": "finding", "about": "one"}, 404, "check-unknown"),
        ({"kind": "part", "about": "x"}, 404, "part-unknown"),
    ):
        answer = browser.post("/api/packets/add", **fields)
        assert (answer.status_code, answer.json()["error"]["slug"]) == (status, slug)
    assert browser.post(f"/packets/{made}/move", item="7", way="sideways").status_code == 400
    assert browser.post(f"/packets/{made}/take-out", item="7").status_code == 404
    assert browser.get(f"/packets/{made}/pdf").status_code == 409, "nothing is in it"


def test_a_page_of_another_site_changes_no_packet(browser, library, manual):
    made = begin_packet(library, "WO 1")
    browser.cookies["packet"] = made
    foreign = {**OURS, "sec-fetch-site": "cross-site", "origin": "https://elsewhere.example"}
    for address in ("/packets", "/packets/add", "/api/packets/add", f"/packets/{made}/close"):
        answer = browser.post(address, foreign, kind="page", publication=manual, pdf_page=2)
        assert answer.status_code == 403, address
    assert packets.packet(library.catalogue, made).closed_at is None
    answer = browser.post(
        "/packets/add", kind="page", publication=manual, pdf_page=2, back="https://e.example/"
    )
    assert answer.status_code == 400, "it leads nowhere but here"
    assert packets.packet(library.catalogue, made).items == ()
