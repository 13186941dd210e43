"""A page holds nothing but what we serve, and hostile text from a PDF stays text."""

import re
from html.parser import HTMLParser

import pytest
from asking import Client
from small_library import HOSTILE

from indexer.settings import Settings
from server.app import create_app
from server.routes.answer_headers import host_name
from server.routes.static_files import ADDRESS

PAGES = [
    "/",
    "/?q=brake",
    "/?q=brake+tooling&chapter=32&standing=undetermined",
    "/?q=zebra",
    "/?q=%22open",
    "/?q=%3Cscript%3Ealert(1)%3C/script%3E",
    "/publications",
    "/publications/{manual}",
    "/publications/{bulletin}",
    "/publications/{directive}",
    "/publications/{circular}",
    "/publications/{manual}/pages/2?q=brake&passage={manual}-0&back=q%3Dbrake",
    "/publications/{manual}/pages/2?q=brake&zoom=200",
    "/publications/{manual}/pages/4",
    "/publications/{bulletin}/pages/1?q=tooling&back=%22%3E%3Cscript%3Ealert(1)%3C/script%3E",
    "/desk",
    "/desk?cause=not-numbered",
    "/desk?left_out=1",
    "/desk/entries",
    "/desk/new?publication={bulletin}&pdf_page=1&passage={bulletin}-1",
    "/map",
    "/status",
    "/about",
    "/nothing-here",
]


class Elements(HTMLParser):
    """Every start tag of a page with its attributes."""

    def __init__(self, text):
        super().__init__()
        self.found = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))


@pytest.mark.parametrize("address", PAGES)
def test_no_page_runs_or_loads_anything_but_ours(client, ids, address):
    response = client.get(address.format(**ids))
    policy = response.headers["content-security-policy"]
    assert "default-src 'self'" in policy and "unsafe" not in policy and "frame-ancestors 'none'" in policy
    for tag, attributes in Elements(response.text).found:
        assert tag != "style"
        assert "style" not in attributes, "the policy forbids inline styles"
        assert not [name for name in attributes if name.startswith("on")]
        if tag == "script":
            assert set(attributes) == {"type", "src"} and attributes["type"] == "module"
            assert re.fullmatch(rf"{ADDRESS}/[a-z_-]+\.js", attributes["src"])
        for name in ("href", "src", "action"):
            if name in attributes and tag != "html":
                assert re.match(r"[/#]", attributes[name] or ""), f"{tag} {name}={attributes[name]}"
                assert not attributes[name].startswith("//")
    assert "<script>" not in response.text


@pytest.mark.parametrize("address", [*PAGES, "/api/status", "/api/nothing", f"{ADDRESS}/hangarleaf.css"])
def test_every_answer_carries_the_safe_headers(client, ids, address):
    headers = client.get(address.format(**ids)).headers
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert "content-security-policy" in headers
    assert "access-control-allow-origin" not in headers


@pytest.mark.parametrize(
    ("address", "secure"),
    [("http://127.0.0.1:8017", True), ("http://[::1]", True), ("http://localhost", True)]
    + [("http://192.168.1.7:8017", False), ("https://192.168.1.7:8017", True)],
)
def test_the_opener_policy_is_sent_where_browsers_heed_it(library, address, secure):
    """On secure connections alone (W3C Secure Contexts, section 3.1); on others they complain of it."""
    client = Client(create_app(library, Settings(), network=True))
    assert ("cross-origin-opener-policy" in client.get(f"{address}/about").headers) is secure


def test_hostile_text_is_shown_as_it_stands(client):
    page = client.get("/?q=tooling").text
    assert "&lt;script&gt;" in page and HOSTILE not in page
    assert HOSTILE in client.get("/api/search?q=tooling").json()["groups"][0]["hits"][0]["snippet"]


@pytest.mark.parametrize("address", [page for page in PAGES if "nothing" not in page])
def test_every_page_says_which_state_of_the_library_it_shows_and_when(client, ids, address):
    text = client.get(address.format(**ids)).text
    assert re.search(r"Library state \d+, last changed \d+ \w+ \d{4}, \d\d:\d\d: 4 publications", text)
    assert re.search(r"This page was made \d+ \w+ \d{4}, \d\d:\d\d", text)
    assert "A guide to the page, not an approval" in text


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "localhost:8017", "[::1]:8017", "LOCALHOST"])
def test_the_service_answers_to_this_machines_names(library, host):
    client = Client(create_app(library, Settings()))
    assert client.get("/about", headers={"host": host}).status_code == 200


@pytest.mark.parametrize("host", ["manuals.example", "localhost.example", "192.168.1.7", "", "[2001:db8::1]"])
def test_the_service_answers_to_no_other_name_unless_told(library, host):
    client = Client(create_app(library, Settings()))
    response = client.get("/api/status", headers={"host": host})
    assert response.status_code == 421
    assert response.json()["error"]["slug"] == "unknown-host"


@pytest.mark.parametrize(
    ("host", "status"),
    [("192.168.1.7:8017", 200), ("[2001:db8::1]:8017", 200), ("manuals.example", 421)],
)
def test_open_to_the_network_it_answers_to_addresses_and_still_to_no_foreign_name(library, host, status):
    client = Client(create_app(library, Settings(), network=True))
    assert client.get("/about", headers={"host": host}).status_code == status


@pytest.mark.parametrize(
    ("header", "name"),
    [("localhost:80", "localhost"), ("[::1]:80", "::1"), ("[::1]", "::1"), ("A.B", "a.b"), ("", "")],
)
def test_a_host_header_is_read_without_its_port(header, name):
    assert host_name(header) == name


def test_a_search_stays_on_the_page_it_came_from(client, ids):
    """The way back is a search of ours, whatever the address says."""
    page = client.get(f"/publications/{ids['manual']}/pages/2?back=//evil.example/%3Fq%3Dx").text
    assert all(
        attributes["href"].startswith(("/?", "/publications", "/static", "/status", "/about", "/", "#"))
        and not attributes["href"].startswith("//")
        for tag, attributes in Elements(page).found
        if tag == "a"
    )
