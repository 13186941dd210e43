"""The fleet list on its page, as JSON and as a command; and the aircraft in hand on every page."""

import asyncio
import json

import httpx
import pytest
from asking import Client
from click.testing import CliRunner

from indexer.library import fleet
from indexer.settings import Settings
from server.app import create_app
from server.cli import main
from server.routes import fleet_models, models

TWIN = {
    "registration": "qx-1ab",
    "model": "QZ62",
    "serial": "QZ-077",
    "maker": "Aldermoor",
    "who": "R. Quill",
    "confirmed_on": "2024-03-04",
    "fitted": [{"kind": "engine", "model": "Marl 260", "serial": "ML-0417", "position": "left"}],
}
CSV = "registration,kind,model,serial\nQX-2CD,aircraft,H-14,H-131\n"


@pytest.fixture
def web(shelf):
    return Client(create_app(shelf[0], Settings()))


@pytest.fixture
def stocked(web):
    assert web.request("POST", "/api/fleet", json=TWIN).status_code == 200
    return web


def test_an_aircraft_is_entered_read_changed_confirmed_and_removed_as_json(shelf, web):
    added = web.request("POST", "/api/fleet", json=TWIN).json()
    fleet_models.Aircraft.model_validate(added)
    assert added["registration"] == "QX-1AB" and added["fitted"][0]["serial"] == "ML-0417"
    fleet_models.FleetList.model_validate(web.get("/api/fleet").json())
    one = web.get("/api/fleet/qx1ab").json()
    fleet_models.AircraftAnswer.model_validate(one)
    assert one["confirmed_on"] == "2024-03-04"
    said = {"who": "M. Ohler", "why": "plate read"}
    changed = web.request("POST", "/api/fleet/QX-1AB", json={**said, "serial": "QZ-078"}).json()
    assert (changed["serial"], changed["confirmed_on"]) == ("QZ-078", "2024-03-04")
    swapped = {"kind": "engine", "model": "Marl 260", "serial": "ML-0900", "position": "left"}
    fitted = web.request("POST", "/api/fleet/QX-1AB/fit", json={**said, "fitted": swapped, "instead": True})
    assert [each["serial"] for each in fitted.json()["fitted"]] == ["ML-0900"]
    out = web.request("POST", "/api/fleet/QX-1AB/unfit", json={**said, "kind": "engine"}).json()
    assert out["fitted"] == []
    sure = web.request("POST", "/api/fleet/QX-1AB/confirm", json={"who": "M. Ohler", "on": "2024-04-01"})
    assert (sure.json()["confirmed_on"], sure.json()["confirmed_by"]) == ("2024-04-01", "M. Ohler")
    gone = web.request("POST", "/api/fleet/QX-1AB/remove", json={"who": "M. Ohler", "why": "sold"})
    assert gone.json()["registration"] == "QX-1AB" and web.get("/api/fleet").json()["total"] == 0
    events = [each.event for each in shelf[0].catalogue.history() if "aircraft" in each.event]
    assert events == ["aircraft added", *["aircraft changed"] * 3, "aircraft confirmed", "aircraft removed"]


def test_an_aircraft_not_in_the_list_is_a_clear_error(stocked):
    for address in ("/api/fleet/QX-9ZZ", "/api/search?q=brake&aircraft=QX-9ZZ"):
        answer = stocked.get(address)
        assert answer.status_code == 404 and answer.json()["error"]["slug"] == "aircraft-unknown"
        models.ProblemAnswer.model_validate(answer.json())
    page = stocked.get("/?q=brake&aircraft=qx-iab")
    assert page.status_code == 404 and "QX-1AB" in page.text and "kept apart" in page.text
    assert 'href="/fleet/choose?back=%2F%3Fq%3Dbrake"' in page.text
    missing = stocked.get("/publications/none", headers={"cookie": "aircraft=QX1AB"})
    assert missing.status_code == 404 and "serial QZ-077" in missing.text


def test_the_list_goes_out_as_csv_and_comes_back(stocked):
    text = stocked.get("/api/fleet.csv").text
    assert stocked.get("/fleet.csv").text == text and text.splitlines()[1].startswith("QX-1AB,aircraft,")
    same = stocked.request("POST", "/api/fleet/import", json={"csv": text, "who": "R. Quill"}).json()
    assert same == {"added": 0, "changed": 0, "already": 1, "problems": []}
    wrong = stocked.request("POST", "/api/fleet/import", json={"csv": f"{CSV}QX-3EF,boat,X,1\n", "who": "R."})
    assert wrong.status_code == 400 and [each["line"] for each in wrong.json()["problems"]] == [3]
    fleet_models.FleetImportAnswer.model_validate(wrong.json())


def test_the_page_adds_changes_and_names_what_is_wrong(shelf, web):
    assert "The fleet list is empty" in web.get("/fleet").text
    form = {"registration": "QX-1AB", "model": "QZ62", "serial": "QZ-077", "who": "R. Quill", "on": ""}
    assert web.request("POST", "/fleet", data=form).status_code == 303
    page = web.get("/fleet").text
    assert "QX-1AB" in page and "serial QZ-077" in page and "Take QX-1AB in hand" in page
    again = web.request("POST", "/fleet", data=form)
    assert again.status_code == 400 and "QX-1AB is in the fleet list already" in again.text
    engine = {"aircraft": "QX-1AB", "kind": "engine", "model": "Marl 260", "serial": "ML-0417"}
    said = {"who": "R. Quill", "why": "plate"}
    assert web.request("POST", "/fleet/fit", data={**engine, **said}).status_code == 303
    assert "engine Marl 260 serial ML-0417" in web.get("/fleet").text
    out = {"aircraft": "QX-1AB", "fitted": "engine||Marl 260|ML-0417", **said}
    assert web.request("POST", "/fleet/unfit", data=out).status_code == 303
    change = {"aircraft": "QX-1AB", "registration": "QX-1AB", "maker": "", "model": "QZ62S", **said}
    assert web.request("POST", "/fleet/change", data=change).status_code == 303
    row = fleet.aircraft(shelf[0].catalogue, "QX-1AB")
    assert (row.model, row.serial, row.fitted) == ("QZ62S", "QZ-077", ())
    refused = web.request("POST", "/fleet/remove", data={"aircraft": "QX-1AB", "who": "R. Quill", "why": ""})
    assert refused.status_code == 400 and "no reason" in refused.text
    assert "Fleet list entered by R. Quill, never confirmed" in web.get("/fleet").text
    sure = web.request("POST", "/fleet/confirm", data={"aircraft": "QX-1AB", "who": "M. Ohler"})
    assert sure.status_code == 303 and "by M. Ohler" in web.get("/fleet").text
    early = {"aircraft": "QX-1AB", "who": "R. Quill", "on": "2020-01-01"}
    assert web.request("POST", "/fleet/confirm", data=early).status_code == 400
    lines = web.request("POST", "/fleet/import", data={"csv": "kind,model\n", "who": "R. Quill"})
    assert lines.status_code == 400 and "there is no column «registration»" in lines.text
    assert web.request("POST", "/fleet/import", data={"csv": CSV, "who": "R. Quill"}).status_code == 303
    assert web.request("POST", "/fleet/remove", data={"aircraft": "QX-2CD", **said}).status_code == 303


FORMS = ["/fleet", *(f"/fleet/{act}" for act in ("change", "confirm", "fit", "unfit", "remove", "import"))]
SENT = [
    ("/api/fleet", TWIN),
    ("/api/fleet/import", {"csv": CSV, "who": "R. Quill"}),
    ("/api/fleet/QX-1AB", {"who": "R. Quill", "why": "why", "model": "X"}),
    ("/api/fleet/QX-1AB/confirm", {"who": "R. Quill"}),
    ("/api/fleet/QX-1AB/fit", {"who": "R.", "why": "w", "fitted": {"kind": "engine", "model": "A"}}),
    ("/api/fleet/QX-1AB/unfit", {"who": "R.", "why": "w", "kind": "engine"}),
    ("/api/fleet/QX-1AB/remove", {"who": "R. Quill", "why": "sold"}),
]


class Tablet(Client):
    """Asks from another machine."""

    def request(self, method, address, **more):
        transport = httpx.ASGITransport(self._app, raise_app_exceptions=False, client=("192.168.1.20", 4711))

        async def ask():
            async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1") as client:
                return await client.request(method, address, **more)

        return asyncio.run(ask())


def test_another_machine_reads_and_chooses_but_changes_nothing(shelf, stocked):
    tablet = Tablet(create_app(shelf[0], Settings()))
    before = shelf[0].catalogue.generation
    for address, sent in SENT:
        assert tablet.request("POST", address, json=sent).json()["error"]["slug"] == "not-from-this-machine"
    for address in FORMS:
        assert tablet.request("POST", address, data={"who": "R. Quill"}).status_code == 403
    assert shelf[0].catalogue.generation == before
    page = tablet.get("/fleet").text
    assert "QX-1AB" in page and "<button" not in page
    assert tablet.get("/fleet/choose?aircraft=QX-1AB&back=/system").status_code == 303


def test_the_aircraft_in_hand_stays_on_the_pages_and_is_no_matter_of_the_json(stocked):
    chosen = stocked.get("/fleet/choose?aircraft=qx1ab&back=%2F%3Fq%3Dbrake%26aircraft%3DOLD%26hide%3Dx")
    assert (chosen.status_code, chosen.headers["location"]) == (303, "/?q=brake")
    kept = chosen.headers["set-cookie"]
    assert kept.startswith("aircraft=QX1AB;") and "HttpOnly" in kept and "SameSite=lax" in kept
    in_hand = {"cookie": "aircraft=QX1AB"}
    for address in ("/", "/?q=brake", "/publications", "/system", "/fleet", "/status", "/about", "/words"):
        page = stocked.get(address, headers=in_hand).text
        assert "QX-1AB</b> <b>QZ62</b>, serial QZ-077" in page, address
        assert "Fleet list confirmed on 4 March 2024 by R. Quill, more than a year ago" in page
        assert "No aircraft chosen" in stocked.get(address).text
    answer = stocked.get("/api/search?q=brake", headers=in_hand).json()
    assert answer["aircraft"] is None
    cleared = stocked.get("/fleet/choose?aircraft=&back=/about", headers=in_hand)
    assert cleared.headers["location"] == "/about" and 'aircraft=""' in cleared.headers["set-cookie"]


def test_an_aircraft_named_in_the_address_is_taken_in_hand_by_our_own_pages_only(stocked):
    own = stocked.get("/about?aircraft=QX-1AB")
    assert "QX-1AB</b>" in own.text and own.headers["set-cookie"].startswith("aircraft=QX1AB;")
    elsewhere = {"sec-fetch-site": "cross-site"}
    foreign = stocked.get("/about?aircraft=QX-1AB", headers=elsewhere)
    assert "QX-1AB</b>" in foreign.text and "set-cookie" not in foreign.headers
    assert stocked.get("/fleet/choose?aircraft=QX-1AB&back=/", headers=elsewhere).status_code == 403


def test_an_aircraft_that_left_the_list_is_said_and_not_quietly_dropped(stocked):
    stocked.request("POST", "/api/fleet/QX-1AB/remove", json={"who": "R. Quill", "why": "sold"})
    page = stocked.get("/about", headers={"cookie": "aircraft=QX1AB"}).text
    assert "QX1AB is not in the fleet list any more" in page


@pytest.mark.parametrize(
    "back",
    [
        "https://elsewhere.example/",
        "//elsewhere.example/",
        "/\\elsewhere.example",
        "\\\\elsewhere.example",
        "javascript:alert(1)",
        "about",
        "",
        "/a\r\nSet-Cookie: x=1",
        "/%0d/\x00",
    ],
)
def test_choosing_leads_back_to_this_service_only(stocked, back):
    for aircraft in ({}, {"aircraft": "QX-1AB"}, {"aircraft": ""}):
        answer = stocked.get("/fleet/choose", params={**aircraft, "back": back})
        assert answer.status_code == 400 and "location" not in answer.headers
        assert "set-cookie" not in answer.headers


def test_the_page_to_choose_from_offers_every_aircraft_and_none(stocked):
    page = stocked.get("/fleet/choose?back=/about", headers={"cookie": "aircraft=QX1AB"}).text
    assert 'href="/fleet/choose?aircraft=QX-1AB&amp;back=%2Fabout"' in page and 'aria-current="true"' in page
    assert 'href="/fleet/choose?aircraft=&amp;back=' in page


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_the_command_does_all_of_it(shelf, tmp_path):
    place = ("--library", shelf[0].folder)
    said = ("--who", "R. Quill")
    why = ("--why", "plate read")
    assert "empty" in run("fleet", "list", *place).output
    added = run("fleet", "add", "QX-1AB", "--model", "QZ62", "--serial", "QZ-077", *said, *place)
    assert added.exit_code == 0 and "QX-1AB  QZ62, serial QZ-077" in added.output
    assert run("fleet", "change", "QX-1AB", "--model", "QZ62S", *said, *why, *place).exit_code == 0
    fitted = ("--model", "Marl 260", "--serial", "ML-0417")
    assert "ML-0417" in run("fleet", "fit", "QX-1AB", "engine", *fitted, *said, *why, *place).output
    assert run("fleet", "fit", "QX-1AB", "engine", "--take-out", *said, *why, *place).exit_code == 0
    assert "by M. Ohler" in run("fleet", "confirm", "QX-1AB", "--who", "M. Ohler", *place).output
    file = tmp_path / "fleet.csv"
    assert run("fleet", "export", file, *place).exit_code == 0
    assert run("fleet", "export", *place).output == file.read_text(encoding="utf-8")
    assert "1 aircraft" not in run("fleet", "import", file, *said, *place).output.replace("0 aircraft", "")
    file.write_text(CSV, encoding="utf-8")
    assert "1 aircraft added." in run("fleet", "import", file, *said, *place).output
    file.write_text(f"{CSV}QX-3EF,boat,X,1\n", encoding="utf-8")
    wrong = run("fleet", "import", file, *said, *place)
    assert wrong.exit_code == 2 and "Line 3: " in wrong.output
    listed = json.loads(run("fleet", "list", "--json", *place).output)
    assert [each["registration"] for each in listed["aircraft"]] == ["QX-1AB", "QX-2CD"]
    assert "Taken out: QX-2CD" in run("fleet", "remove", "QX-2CD", *said, "--why", "sold", *place).output
    unknown = run("fleet", "confirm", "QX-9ZZ", *said, *place)
    assert unknown.exit_code == 2 and "is not in the shop's fleet list" in unknown.output
