"""The search page: hits under their chapters, and links that never lead to an empty page."""

import re
from html.parser import HTMLParser
from urllib.parse import parse_qs, urlsplit

import pytest


class Links(HTMLParser):
    """Links of one class: (address, words)."""

    def __init__(self, text, wanted):
        super().__init__()
        self._wanted, self._open = wanted, None
        self.found = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        attributes = dict(attrs)
        if tag == "a" and self._wanted in (attributes.get("class") or "").split():
            self._open = [attributes["href"], "", attributes]

    def handle_data(self, data):
        if self._open:
            self._open[1] += data

    def handle_endtag(self, tag):
        if tag == "a" and self._open:
            self.found.append((self._open[0], " ".join(self._open[1].split()), self._open[2]))
            self._open = None


def chips(text):
    return Links(text, "chip").found


def hits_on(text):
    return text.count('<article class="hit">')


@pytest.mark.parametrize(
    "start",
    [
        "/?q=brake",
        "/?q=brake+lining&chapter=32",
        "/?q=brake&type=service-bulletin",
        "/?q=brake&standing=undetermined&chapter=32",
        "/?q=torque+zeppelin",
        "/?q=brake&chapter=32-42",
        "/?q=wheel&chapter=none",
        "/?chapter=32",
        "/",
    ],
)
def test_no_chip_leads_to_an_empty_page(sample_client, start):
    page = sample_client.get(start)
    assert page.status_code == 200
    narrowing = [chip for chip in chips(page.text) if "on" not in chip[2]["class"].split()]
    assert narrowing or "chapter=none" in start or "32-42" in start
    for address, words, _ in narrowing:
        landed = sample_client.get(address)
        assert landed.status_code == 200
        assert hits_on(landed.text) > 0, f"{words} at {address} is empty"


def test_a_chip_tells_how_many_hits_it_gives(sample_client):
    page = sample_client.get("/?q=brake").text
    for address, words, _ in chips(page):
        count = int(words.rsplit(" ", 1)[1])
        asked = parse_qs(urlsplit(address).query)
        total = sample_client.get(f"/api/search?{urlsplit(address).query}").json()["total"]
        assert total == count, asked


def test_a_filter_in_use_can_be_taken_away(sample_client):
    page = sample_client.get("/?q=brake&chapter=32&type=SB&standing=approved").text
    active = [
        (address, words) for address, words, attributes in chips(page) if "on" in attributes["class"].split()
    ]
    assert [words.rstrip(" ×") for _, words in active] == [
        "Chapter 32 Landing gear",
        "Service bulletin",
        "Approved data",
    ]
    assert "chapter=" not in active[0][0] and "type=service-bulletin" in active[0][0]


def test_hits_stand_under_chapter_heads_with_number_title_and_count(sample_client):
    page = sample_client.get("/?q=brake").text
    answer = sample_client.get("/api/search?q=brake").json()
    for group in answer["groups"]:
        noun = "passage" if group["count"] == 1 else "passages"
        title = re.escape(group["title"].replace("&", "&amp;"))
        head = rf"{group['chapter'] or ''}.*?{title}.*?{group['count']} {noun}"
        assert re.search(head, page, re.DOTALL)


def test_a_hit_says_what_page_of_which_revision_and_why_its_standing(client):
    page = client.get("/?q=lining").text
    assert "OW12-MM: OW-12 Maintenance Manual" in page
    assert "Maintenance manual, revision 3, 4 March 2031" in page
    assert "Printed page 400" in page or "Printed page 401" in page
    assert "32-41-05</span> (printed)" in page and "Removal/installation" in page
    assert "Approved data" in page and "FAA APPROVED 12 May 2031" in page
    assert "Required by AD 2031-04-07." in page
    assert "Usually acceptable (by type); no approval words found here." in client.get("/?q=alternator").text
    assert "<mark>lining</mark>" in page


def test_a_blocked_passage_shows_the_notice(client):
    page = client.get("/?q=training").text
    assert "Blocked" in page and "For training only. Not for maintenance." in page


def test_text_read_by_ocr_is_said_to_be(client):
    assert "Read by OCR" in client.get("/?q=servicing+chart").text


def test_the_page_says_what_was_not_searched(client):
    assert "1 page has no text that can be searched" in client.get("/?q=brake").text
    assert "2 passages have no chapter number" in client.get("/?q=brake&chapter=32").text


def test_the_page_says_when_only_some_words_are_held(client):
    page = client.get("/?q=brake+zeppelin").text
    assert "No passage holds all of these words." in page and hits_on(page) > 0
    nothing = client.get("/?q=zeppelin").text
    assert "Nothing found." in nothing and hits_on(nothing) == 0


def test_a_new_search_keeps_the_filters(client):
    page = client.get("/?q=brake&chapter=32&standing=approved").text
    assert '<input type="hidden" name="chapter" value="32">' in page
    assert '<input type="hidden" name="standing" value="approved">' in page


def test_a_hit_leads_to_its_page_with_the_passage_and_the_way_back(client, ids):
    page = client.get("/?q=lining&chapter=32").text
    address = re.search(r'href="(/publications/[^"]+/pages/2[^"]*)"', page)[1].replace("&amp;", "&")
    asked = parse_qs(urlsplit(address).query)
    assert asked["passage"] == [f"{ids['manual']}-0"] and asked["q"] == ["lining"]
    landed = client.get(address).text
    assert "(marked on the page)" in landed
    assert 'href="/?q=lining&amp;chapter=32"' in landed


def test_the_start_page_offers_the_chapters_that_hold_something(client):
    names = [words for _, words, _ in chips(client.get("/").text)]
    assert names == ["24 Electrical power 1", "32 Landing gear 5", "Not numbered 2"]
