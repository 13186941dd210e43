"""Signing in: under whose name things stand, for how long, and what an outsider learns. Invented persons."""

import asyncio
import re

import httpx
import pytest
from asking import HERE, joined
from desk_shelf import WHO, of_section, questions

from indexer.library import people
from indexer.settings import Settings
from server.app import create_app

PASSCODE, OTHER = "four sorts of rivet", "a wet bleed nipple"
TABLET = "192.168.1.20"


class Browser:
    """One browser: it keeps its cookies, as a page does."""

    def __init__(self, app, cookies=None, address="127.0.0.1", base=HERE):
        self.app, self.address, self.base = app, address, base
        self.cookies = httpx.Cookies(cookies or {})

    def send(self, method, address, **more):
        async def sending():
            transport = httpx.ASGITransport(self.app, client=(self.address, 50000))
            async with httpx.AsyncClient(
                transport=transport, base_url=self.base, cookies=self.cookies
            ) as web:
                answer = await web.request(method, address, **more)
                self.cookies = web.cookies
                return answer

        return asyncio.run(sending())

    def get(self, address):
        return self.send("GET", address)

    def post(self, address, **form):
        return self.send("POST", address, data=form)

    def sign_in(self, name="Rosa Quill", passcode=PASSCODE, **more):
        return self.post("/sign-in", name=name, passcode=passcode, **more)


@pytest.fixture
def staffed(shelf):
    """A library with a librarian and an inspector."""
    catalogue = shelf[0].catalogue
    people.add(catalogue, "Rosa Quill", "librarian", PASSCODE, "Rosa Quill")
    people.add(catalogue, "Ivo Brandt", "inspector", OTHER, "Rosa Quill")
    return shelf[0]


@pytest.fixture
def app(staffed):
    return create_app(staffed, Settings(), network=True)


@pytest.fixture
def tablet(app, staffed):
    return Browser(app, joined(staffed), TABLET)


def test_a_change_from_a_tablet_stands_under_the_name_of_who_is_signed_in(tablet, staffed):
    item = questions(tablet)[0]
    assert "Sign in to change this" in tablet.get("/desk").text and "<form" not in tablet.get("/map").text
    back = re.search(r'href="(/sign-in\?[^"]*)"', tablet.get("/desk?cause=likely").text)[1]
    assert back == "/sign-in?back=%2Fdesk%3Fcause%3Dlikely"
    answer = tablet.sign_in(back="/desk?cause=likely")
    assert (answer.status_code, answer.headers["location"]) == (303, "/desk?cause=likely")
    page = tablet.get("/desk").text
    assert re.search(r'name="who" value="Rosa Quill" maxlength="120" readonly', page)
    done = tablet.post(f"/desk/items/{item['id']}", answer="dismiss", why="seen", who="Rosa Quill")
    assert done.status_code == 303
    (entry,) = tablet.get("/api/desk/entries").json()["entries"]
    assert entry["who"] == "Rosa Quill"


def test_another_name_is_refused_not_replaced(tablet):
    item = questions(tablet)[0]
    tablet.sign_in()
    page = tablet.post(f"/desk/items/{item['id']}", answer="dismiss", **WHO)
    assert page.status_code == 403 and "Rosa Quill is signed in; nothing was changed" in page.text
    sent = {"dismiss": True, "who": "Ivo Brandt", "why": "seen"}
    refused = tablet.send("POST", f"/api/desk/items/{item['id']}", json=sent)
    assert refused.json()["error"]["slug"] == "other-name"
    assert not tablet.get("/api/desk/entries").json()["entries"]
    (made,) = tablet.send(
        "POST", f"/api/desk/items/{item['id']}", json={"dismiss": True, "why": "seen"}
    ).json()
    assert made["who"] == "Rosa Quill", "who is signed in may leave the name out"


@pytest.mark.parametrize("address", ["/api/desk/entries", "/api/map", "/api/fleet", "/api/words"])
def test_programs_are_told_to_sign_in(tablet, address):
    answer = tablet.send("POST", address, json={})
    assert (answer.status_code, answer.json()["error"]["slug"]) == (403, "sign-in-needed")
    tablet.sign_in("Ivo Brandt", OTHER)
    answer = tablet.send("POST", address, json={})
    if address in ("/api/map", "/api/words"):
        assert answer.json()["error"]["slug"] == "right-missing"
        assert answer.json()["error"]["remedy"] == "It takes a librarian."
    else:
        assert answer.json()["error"]["slug"] == "bad-request", "it may, but said nothing"


def test_two_persons_are_two_sign_ins(tablet, staffed, app, own_manual):
    tablet.sign_in()
    place = {"publication": own_manual, "pdf_page": "1", "answer": "revision", "revision": "B", "why": "seen"}
    assert tablet.post("/desk/new", **place).status_code == 303
    (entry,) = tablet.get("/api/desk/entries").json()["entries"]
    agree = f"/api/desk/entries/{entry['id']}/agree"
    assert tablet.send("POST", agree, json={}).json()["error"]["slug"] == "second-person-refused"
    assert tablet.send("POST", agree, json={"who": "Ivo Brandt"}).json()["error"]["slug"] == "other-name"
    inspector = Browser(app, joined(staffed), TABLET)
    inspector.sign_in("Ivo Brandt", OTHER)
    assert inspector.send("POST", agree, json={}).json()[0]["second"] == "Ivo Brandt"


def test_an_inspector_is_told_what_is_the_librarians(tablet):
    tablet.sign_in("Ivo Brandt", OTHER)
    page = tablet.get("/words").text
    assert "Ivo Brandt is signed in as inspector. Changes here take a librarian." in page
    assert "<form" not in page.partition("<main")[2]
    assert "<form" in tablet.get("/fleet").text.partition("<main")[2]
    refused = tablet.get("/persons")
    assert refused.status_code == 403 and "It takes a librarian" in refused.text


def test_the_cookie_is_for_this_service_alone(app, staffed):
    plain = Browser(app, joined(staffed), TABLET).sign_in().headers["set-cookie"]
    assert re.match(r"sign_in=[\w-]{40,}; HttpOnly; Max-Age=28800; Path=/; SameSite=strict$", plain)
    secure = Browser(app, joined(staffed), TABLET, "https://127.0.0.1").sign_in().headers["set-cookie"]
    assert "; Secure" in secure and "HttpOnly" in secure


def test_a_token_from_before_signing_in_is_worth_nothing_after_it(tablet, app):
    tablet.cookies.set("sign_in", "planted-by-somebody", domain="127.0.0.1", path="/")
    tablet.sign_in()
    assert tablet.cookies["sign_in"] != "planted-by-somebody"
    first = tablet.cookies["sign_in"]
    tablet.sign_in("Ivo Brandt", OTHER)
    held = Browser(app, {**dict(tablet.cookies), "sign_in": first}, TABLET)
    assert "Signed in as" not in held.get("/sign-in").text, "the sign-in before it has ended"
    before_out = dict(tablet.cookies)
    assert tablet.post("/sign-out").status_code == 303 and "sign_in" not in tablet.cookies
    assert "Signed in as" not in Browser(app, before_out, TABLET).get("/sign-in").text


def test_nothing_tells_an_unknown_name_from_a_wrong_passcode_or_a_locked_name(tablet):
    unknown = tablet.sign_in("Nobody At All", "wrong wrong")
    wrong = [tablet.sign_in("Ivo Brandt", "wrong wrong") for _ in range(people.TRIES)]
    locked = tablet.sign_in("Ivo Brandt", OTHER)

    def told(answer):
        text = re.sub(r'value="[^"]*"|This page was made[^<]*', "", answer.text)
        return answer.status_code, text, sorted(set(answer.headers) - {"content-length"})

    assert {answer.status_code for answer in (unknown, *wrong, locked)} == {403}
    assert told(unknown) == told(wrong[0]) == told(locked)
    assert "sign_in" not in tablet.cookies


def test_a_device_that_guesses_must_wait(app, staffed, monkeypatch):
    monkeypatch.setattr(people, "with_passcode", lambda *_: None)
    guessing = Browser(app, joined(staffed), TABLET)
    codes = [guessing.sign_in(f"Person {number}", "x").status_code for number in range(22)]
    assert codes == [403] * 20 + [429] * 2
    assert Browser(app, joined(staffed), "192.168.1.21").sign_in("Person", "x").status_code == 403


@pytest.mark.parametrize(
    "back",
    ["//elsewhere.example", "https://elsewhere.example/", "/\\elsewhere.example", "elsewhere", "/\t/x"],
)
def test_it_never_leads_to_another_site(tablet, back):
    assert tablet.send("GET", "/sign-in", params={"back": back}).status_code == 400
    answer = tablet.sign_in(back=back)
    assert answer.status_code == 400 and "sign_in" not in tablet.cookies
    assert tablet.send("GET", "/join", params={"back": back}).status_code == 400


def test_a_person_changes_the_own_passcode(tablet, staffed):
    tablet.sign_in("Ivo Brandt", OTHER)
    new = "some other bleed screw"
    assert tablet.post("/sign-in/passcode", passcode="wrong", new=new, again=new).status_code == 403
    assert tablet.post("/sign-in/passcode", passcode=OTHER, new=new, again="x").status_code == 400
    assert tablet.post("/sign-in/passcode", passcode=OTHER, new=new, again=new).status_code == 303
    assert "sign_in" not in tablet.cookies and people.with_passcode(staffed.catalogue, "Ivo Brandt", new)


def test_the_page_says_when_a_passcode_can_be_overheard(app, staffed):
    words = "This connection is not secure"
    assert words in Browser(app, joined(staffed), TABLET).get("/sign-in").text
    assert words not in Browser(app, joined(staffed), TABLET, "https://127.0.0.1").get("/sign-in").text
    assert words not in Browser(app).get("/sign-in").text, "at this machine nothing is sent"


def test_the_first_person_is_named_on_the_page_at_this_machine(shelf):
    app = create_app(shelf[0], Settings(), network=True)
    here, far = Browser(app), Browser(app, joined(shelf[0]), TABLET)
    sent = {"name": "Rosa Quill", "role": "librarian", "passcode": PASSCODE, "again": PASSCODE}
    assert "hangarleaf person add" in far.get("/sign-in").text
    assert far.post("/persons/add", **sent).status_code == 403
    assert "Nobody needs to sign in" in here.get("/sign-in").text
    assert here.post("/persons/add", **{**sent, "again": "x"}).status_code == 400
    assert PASSCODE not in here.post("/persons/add", **{**sent, "role": "foreman"}).text
    answer = here.post("/persons/add", **sent)
    assert (answer.status_code, answer.headers["location"]) == (303, "/sign-in?back=%2Fpersons")
    assert here.get("/persons").status_code == 403, "from now on this machine signs in too"
    assert "/sign-in?back=%2Fpersons" in here.get("/persons").text
    item = of_section(here, "V")
    assert here.post(f"/desk/items/{item['id']}", file_under="32", **WHO).status_code == 403


def test_the_librarian_looks_after_persons_and_tablets(app, staffed, tablet):
    tablet.sign_in()
    page = tablet.get("/persons").text
    assert "Ivo Brandt" in page and "Tablet at bay 2" in page
    new = {"name": "Mo Ohler", "role": "inspector", "passcode": PASSCODE, "again": PASSCODE}
    assert tablet.post("/persons/add", **new).status_code == 303
    changed = {"name": "Mo Ohler", "passcode": OTHER, "again": OTHER}
    assert tablet.post("/persons/passcode", **changed).status_code == 303
    assert people.with_passcode(staffed.catalogue, "Mo Ohler", OTHER)
    assert tablet.post("/persons/end", name="Mo Ohler").status_code == 303
    assert tablet.post("/persons/end", name="Rosa Quill").status_code == 400, "the last librarian"
    other = Browser(app, joined(staffed), "192.168.1.21")
    assert other.get("/about").status_code == 200
    assert tablet.post("/persons/tablets/end", tablet="2").status_code == 303
    assert other.send("GET", "/api/status").status_code == 403
    assert (
        tablet.post("/persons/code", end_all="").status_code == 303
        and tablet.get("/about").status_code == 200
    )
    assert tablet.post("/persons/code", end_all="1").status_code == 303
    assert tablet.send("GET", "/api/status").json()["error"]["slug"] == "not-joined"


def test_every_page_says_who_is_signed_in(tablet):
    tablet.sign_in()
    for address in ("/", "/desk", "/fleet", "/nothing-here"):
        assert "Rosa Quill" in tablet.get(address).text, address
    tablet.post("/sign-out")
    assert "Rosa Quill" not in tablet.get("/").text


def test_agreeing_is_offered_to_another_than_who_entered_it(app, staffed, own_manual):
    code = joined(staffed)
    first, second = Browser(app, code, TABLET), Browser(app, code, TABLET)
    first.sign_in()
    second.sign_in("Ivo Brandt", OTHER)
    given = {"publication": own_manual, "pdf_page": "2", "passage": f"{own_manual}-0", "reach": "passage"}
    printed = {"why": "AC 43.13-1B, on its front page", "printed": "AC 43.13-1B, on its front page"}
    made = first.post(
        "/desk/new", answer="standing", standing="acceptable", who="Rosa Quill", **given, **printed
    )
    assert made.status_code == 303
    (item,) = questions(first, cause="waiting")
    pages = ("/desk", f"/desk/items/{item['id']}", "/desk/entries")
    for address in pages:
        mine, theirs = first.get(address).text, second.get(address).text
        assert "second person, and I agree" not in mine and "Agree as the second person" not in mine, address
        assert "It waits for a second person:" in mine and "It waits for a second person:" not in theirs
        assert "second person, and I agree" in theirs or "Agree as the second person" in theirs, address
    assert second.post(f"/desk/entries/{item['entry']}/agree", who="Ivo Brandt").status_code == 303
    first.post("/desk/entries/undo", entries=item["entry"], who="Rosa Quill", **printed)
    assert "second person:</b> another" not in second.get("/desk/entries").text, "who asked is the other now"
