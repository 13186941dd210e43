"""A device that sends faster than hands can is told to wait, and loses nothing that was written."""

import html
import re

import pytest
from asking import Client

from indexer.library.checks import count_checks
from indexer.settings import Settings
from server.app import create_app
from server.pace import Pace
from server.routes.asking_pace import IN_S, MOST

ENTRY = 'Replaced linings "IAW" QZM-62-2 <Rev 6> & safetied; Zeichen ü.'


class Clock:
    now = 0.0

    def __call__(self):
        return self.now


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def app(shelf, clock):
    made = create_app(shelf[0], Settings())
    made.state.asking_pace = Pace(2, IN_S, clock)
    return made


def test_a_device_waits_until_its_first_is_so_long_ago(clock):
    pace = Pace(3, 60.0, clock)
    assert [pace.take("tablet 1") for _ in range(5)] == [0, 0, 0, 60, 60]
    assert pace.take("tablet 2") == 0
    clock.now = 59.5
    assert pace.take("tablet 1") == 1
    clock.now = 60.0
    assert pace.take("tablet 1") == 0


def test_the_pace_is_above_what_hands_do():
    """Five a second for a whole minute."""
    assert MOST / IN_S >= 5


def test_what_was_written_can_be_sent_again(app, shelf, clock):
    client, catalogue = Client(app), shelf[0].catalogue
    before = count_checks(catalogue)
    for _ in range(2):
        assert client.request("POST", "/check", data={"text": ENTRY}).status_code == 303
    refused = client.request("POST", "/check", data={"text": ENTRY, "work": ""})
    assert refused.status_code == 429 and refused.headers["retry-after"] == "60"
    assert "was not kept" in refused.text and count_checks(catalogue) == before + 2
    form = re.search(r'<form action="/check" method="post">(.*?)</form>', refused.text, re.DOTALL)[1]
    fields = re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)">', form)
    sent = {html.unescape(name): html.unescape(value) for name, value in fields}
    assert sent == {"text": ENTRY, "work": ""}
    clock.now = 60.0
    assert client.request("POST", "/check", data=sent).status_code == 303


@pytest.mark.parametrize(
    ("method", "address"),
    [
        ("GET", "/api/check?text=QZM-62-2"),
        ("POST", "/api/packets/add"),
        ("POST", "/api/reports"),
        ("POST", "/packets"),
    ],
)
def test_all_that_is_kept_for_a_reader_counts(app, method, address):
    client = Client(app)
    for _ in range(2):
        assert client.request(method, address).status_code != 429
    refused = client.request(method, address)
    assert refused.status_code == 429 and int(refused.headers["retry-after"]) == 60
    if address.startswith("/api"):
        assert refused.json()["error"]["slug"] == "too-fast"


def test_reading_and_signing_in_do_not_count(app):
    client = Client(app)
    for _ in range(4):
        assert client.get("/check").status_code == 200
        assert client.request("POST", "/sign-out").status_code == 303
    assert client.request("POST", "/packets", data={"job": "WO 1"}).status_code == 303
