"""The source check's pages: the form, the findings, the trail of checks."""

import csv
import io
import re
import shutil
from html import unescape
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from asking import Client, joined
from test_writing import ask

from indexer.ingest import ingest
from indexer.library import fleet
from indexer.library.checks import count_checks, kept_check
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary, index_folder
from server.routes.check_view import check_view

SAMPLES = Path(__file__).parents[2] / "sample_docs" / "pdf"
BULLETIN = ("sb-qz62-32-0114-rev-b.pdf", "sb-qz62-32-0114-rev-c.pdf")
HOSTILE = '<script>alert("x")</script>'
ENTRY = "Replaced LH brake linings IAW QZM-62-2 Rev 6, 32-42-00 pg 401."


@pytest.fixture(scope="module")
def asked_nothing(tmp_path_factory):
    """A manual and two revisions of a bulletin, ingested; nothing was checked yet."""
    folder = tmp_path_factory.mktemp("unasked") / "library"
    files = [SAMPLES / name for name in ("qz62-maintenance-manual.pdf", *BULLETIN)]
    settings = Settings(library=str(folder))
    engine = WhooshEngine(index_folder(folder), settings.search_cache_mb)
    assert not ingest(files, folder, settings, engine=engine).refused
    return folder


@pytest.fixture
def shop(asked_nothing, tmp_path):
    """A library of its own: every check stays in its trail."""
    shutil.copytree(asked_nothing, tmp_path / "library")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as opened:
        fleet.add(opened.catalogue, "N410QZ", "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        yield opened


@pytest.fixture
def web(shop):
    return Client(create_app(shop, Settings()))


def send(web, address="/check", headers=None, **form):
    return web.request("POST", address, data=form, headers=headers or {})


def text_of(page):
    """The words of a page, tags taken out."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


def test_an_entry_is_asked_kept_and_shown(shop, web):
    asked = send(web, text=ENTRY, aircraft="N410QZ", work="minor")
    assert asked.status_code == 303
    kept = kept_check(shop.catalogue, count_checks(shop.catalogue))
    assert asked.headers["location"] == f"/checks/{kept.id}"
    page = web.get(asked.headers["location"])
    assert page.status_code == 200
    words = text_of(page.text)
    assert ENTRY in words.replace(" .", ".")
    assert "for N410QZ" in words and f"Library state {kept.generation}" in words
    assert kept.answer["citations"][0]["enough"]["minor"]["why"].split("«")[0] in words
    for caution in kept.answer["cautions"]:
        assert caution in words
    marked = f"<mark>{kept.answer['citations'][0]['text']}</mark>"
    assert page.text.count(marked) == 1, "in the entry"


def test_the_page_says_what_was_kept_and_not_what_would_be_answered_now(shop, web):
    first = send(web, text=ENTRY, aircraft="N410QZ").headers["location"]
    before = text_of(web.get(first).text)
    fleet.add(shop.catalogue, "N411QZ", "QZ62", "R. Quill", "QZ-078", "Aldermoor")
    after = text_of(web.get(first).text)
    assert "The library has changed since." in after and "The library has changed since." not in before
    again = send(web, f"{first}/again")
    assert again.status_code == 303
    where = urlsplit(again.headers["location"])
    assert where.path != first and parse_qs(where.query)["before"] == [first.rpartition("/")[2]]
    assert "The answer is the same as in check" in text_of(web.get(again.headers["location"]).text)
    assert count_checks(shop.catalogue) == 2


def test_what_differs_from_an_earlier_check_is_said(shop, web):
    one = send(web, text=ENTRY, aircraft="N410QZ").headers["location"].rpartition("/")[2]
    other = send(web, text=ENTRY).headers["location"]
    words = text_of(web.get(f"{other}?before={one}").text)
    assert f"What differs from check {one}" in words
    assert "applies" in words.partition("What differs")[2]


def test_pasted_html_stays_text(web):
    where = send(web, text=f"{HOSTILE} IAW QZM-62-2 Rev 6 {HOSTILE}, 32-42-00 pg 401").headers["location"]
    for address in (where, "/checks", f"/check?text={HOSTILE}"):
        page = web.get(address).text
        assert HOSTILE not in page
        assert "&lt;script&gt;" in page


def test_an_entry_without_a_reference_says_so(web):
    page = web.get(send(web, text="Cleaned the hangar floor.").headers["location"])
    assert "Cannot tell: no source is named." in text_of(page.text)
    assert "Approved data" not in text_of(page.text)


def test_a_document_that_may_be_two_is_not_chosen_and_each_can_be(web):
    """The shelf holds revisions B and C of one bulletin, and the entry names none."""
    page = web.get(send(web, text="C/W SB QZ62-32-0114 Part 2.", aircraft="N410QZ").headers["location"])
    assert "Which one is meant cannot be told" in text_of(page.text)
    links = re.findall(r'href="(/check\?[^"]+)">Write this one into the entry', page.text)
    entries = [parse_qs(urlsplit(unescape(link)).query)["text"][0] for link in links]
    assert {re.search(r"Rev (\w)", entry)[1] for entry in entries} == {"B", "C"}
    assert all(entry.startswith("C/W SB QZ62-32-0114") for entry in entries)
    filled = web.get(unescape(links[0])).text
    assert entries[0] in unescape(filled)


def test_the_trail_shows_the_newest_first_and_turns_pages(shop, web):
    assert "No check was made yet." in web.get("/checks").text
    for number in range(27):
        send(web, text=f"Serviced tire {number} IAW MM.")
    first, second = web.get("/checks").text, web.get("/checks?offset=25").text
    assert first.index("tire 26 ") < first.index("tire 25 ")
    assert "27 checks, newest first; 1 to 25 are shown" in text_of(first)
    assert "tire 1 " in second and "tire 0 " in second and "tire 2 " not in second
    assert 'href="/checks?offset=25"' in first and 'href="/checks"' in second


@pytest.mark.parametrize("box, address", [("text", "/check"), ("csv", "/check/batch")])
def test_an_empty_box_comes_back_with_the_message_beside_it(shop, web, box, address):
    page = send(web, address, **{box: "  ", "work": "minor"})
    assert page.status_code == 422
    message, field = (
        page.text.index(f'id="{box}-wrong" role="alert"'),
        page.text.index(f'<textarea id="{box}"'),
    )
    assert 0 < field - message < 250, "the message stands right above its box"
    assert f'aria-describedby="{box}-wrong"' in page.text
    assert 'value="minor" checked' in page.text, "what was chosen stays chosen"
    assert count_checks(shop.catalogue) == 0


def test_the_page_of_a_check_names_its_aircraft_and_leaves_the_one_in_hand(web):
    """The cookie is another page's matter: reading an old check chooses nothing."""
    where = send(web, text=ENTRY, aircraft="N410QZ").headers["location"]
    page = web.get(where)
    words = text_of(page.text)
    assert "This check was made for N410QZ ." in words and "No aircraft chosen" not in words
    assert "set-cookie" not in page.headers
    assert "No aircraft chosen" in text_of(web.get(send(web, text=ENTRY).headers["location"]).text)


def test_what_was_not_asked_for_is_folded_and_still_on_the_page(shop, web):
    where = send(web, text=ENTRY, aircraft="N410QZ", work="minor").headers["location"]
    page = web.get(where).text
    kept = kept_check(shop.catalogue, count_checks(shop.catalogue)).answer
    seen = text_of(re.sub(r"<details.*?</details>", "", page, flags=re.DOTALL))
    assert "Enough for minor work?" in seen and "Enough for major work?" not in seen
    assert "One position" not in seen and kept["citations"][0]["wording"] in seen
    whole = text_of(page)
    assert "Enough for major work?" in whole
    for each in (*kept["citations"][0]["notes"], *kept["citations"][0]["ask"], *kept["cautions"]):
        assert each in whole


def test_an_unknown_aircraft_and_an_unknown_class_are_clear_errors(shop, web):
    for form, words in (
        ({"text": ENTRY, "aircraft": "N1ZZ"}, "N1ZZ"),
        ({"text": ENTRY, "work": "heavy"}, "heavy"),
    ):
        page = send(web, **form)
        assert page.status_code == 400, page.text
        assert 'role="alert"' in page.text and words in text_of(page.text)
    assert count_checks(shop.catalogue) == 0
    assert web.get("/checks/99").status_code == 404


def test_another_machine_may_ask_and_change_nothing_else(shop):
    service, cookies = create_app(shop, Settings(), network=True), joined(shop)
    assert (
        ask(service, "POST", "/check", "192.168.7.20", data={"text": ENTRY}, cookies=cookies).status_code
        == 303
    )
    assert count_checks(shop.catalogue) == 1
    word = {"term": "a", "manual_terms": "b", "who": "c"}
    assert ask(service, "POST", "/words", "192.168.7.20", data=word, cookies=cookies).status_code == 403


@pytest.mark.parametrize("address", ["/check", "/check/batch", "/checks/1/again"])
def test_a_page_of_another_site_cannot_ask(shop, web, address):
    """It would fill the trail, which never shrinks."""
    send(web, text=ENTRY)
    for headers in ({"sec-fetch-site": "cross-site"}, {"origin": "http://elsewhere.example"}):
        assert send(web, address, headers, text=ENTRY, csv="text\nx").status_code == 403
    assert count_checks(shop.catalogue) == 1


def test_a_list_comes_back_as_a_list(shop, web):
    given = "entry,aircraft,work\n" + f'"{ENTRY}",N410QZ,minor\n' + '"=2+2 IAW MM.",,\n'
    answer = send(web, "/check/batch", csv=given)
    assert answer.status_code == 200
    assert answer.headers["content-disposition"] == 'attachment; filename="findings.csv"'
    rows = list(csv.DictReader(io.StringIO(answer.text.lstrip("\ufeff"))))
    assert len(rows) == 2
    assert "QZM-62-2" in " ".join(rows[0].values())
    assert not any(value.startswith("=") for row in rows for value in row.values()), "no cell is a formula"
    assert count_checks(shop.catalogue) == 2


def test_a_list_that_is_none_is_refused(shop, web):
    page = send(web, "/check/batch", csv="what\nelse\n")
    assert page.status_code == 400 and 'role="alert"' in page.text
    assert count_checks(shop.catalogue) == 0


def test_the_form_starts_with_the_aircraft_in_hand(web):
    chosen = re.compile(r'<option value="N410QZ" selected>')
    assert chosen.search(web.get("/check", headers={"cookie": "aircraft=N410QZ"}).text)
    assert chosen.search(web.get("/check?aircraft=N410QZ").text)
    assert not chosen.search(web.get("/check").text)


def test_a_page_offers_to_check_a_reference_to_it(shop, web):
    manual = next(each for each in shop.publications() if each.number == "QZM-62-2")
    page = web.get(f"/publications/{manual.id}/pages/35").text
    link = unescape(re.search(r'href="(/check\?[^"]+)">Check a reference to this page', page)[1])
    entry = parse_qs(urlsplit(link).query)["text"][0]
    assert entry == "IAW AMM QZM-62-2, Rev 6, 32-42-00, pg 401"
    answer = web.get(send(web, text=entry).headers["location"]).text
    assert f"/publications/{manual.id}/pages/35?" in unescape(answer)


def test_what_is_for_another_aircraft_or_not_current_is_said_before_its_standing():
    """ "Approved data" in large print must not be read first of data that is none for this aircraft."""
    text = "A by SB 1."
    found = _made("SB 1", text)
    found["standing"]["value"] = "approved"
    found["resolved"] = {"publication": "x", "name": "SB 1", "revision": "", "pdf_pages": [], "passages": []}
    found["applies"]["answer"] = "does not apply"
    found["current"]["state"] = "superseded"
    (finding,) = check_view(_answer(text, found) | {"aircraft": "N814WB"}).findings
    assert finding.lead == "Approved data"
    assert finding.stops == ("Does not apply to N814WB", "Not current: superseded")


def test_the_view_of_an_answer_marks_each_reference_once():
    """References that overlap are marked once; the text is whole."""
    text = "A by SB 1 and SB 2."
    answer = _answer(text, _made("SB 1", text), _made("SB 2", text), _made("1 and", text))
    view = check_view(answer)
    assert "".join(part for part, _ in view.parts) == text
    assert [part for part in view.parts if part[1]] == [("SB 1", 1), ("SB 2", 2)]
    assert [finding.lead for finding in view.findings] == ["Not determined"] * 3


def _answer(text, *citations):
    return {
        "id": 1,
        "at": "2031-05-12T08:00:00+00:00",
        "text": text,
        "aircraft": "",
        "work": "",
        "library_state": {"generation": 3, "changed_at": "2031-05-12T07:00:00+00:00", "publications": 1},
        "cautions": ["c"],
        "reminders": [],
        "facts": [],
        "notes": [],
        "citations": list(citations),
    }


def _made(words, text):
    start = text.index(words)
    return {
        "text": words,
        "start": start,
        "end": start + len(words),
        "chapter_number": None,
        "page": "",
        "figure": "",
        "paragraph": "",
        "resolved": None,
        "candidates": [],
        "current": {"state": "unknown", "why": ""},
        "applies": {"answer": "cannot tell", "why": "", "quote": ""},
        "standing": {
            "value": "undetermined",
            "usual": "",
            "scope": "",
            "basis": "",
            "quote": "",
            "pdf_page": None,
            "source": "",
            "conditions": [],
            "mandatory": "",
        },
        "directives": [],
        "directives_note": "",
        "enough": {"minor": {"answer": "cannot tell", "why": ""}},
        "ask": [],
        "missing": [],
        "notes": [],
        "wording": "",
    }
