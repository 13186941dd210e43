"""Poor wifi: what a tablet keeps, how it says how old that is, and what happens when contact is back.

The server is really ended and started again on the same port. Nothing here waits for a time, only for what it
waits for.
"""

import datetime
import re
import shutil
import socket
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

import pytest
from in_chromium import answering

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.library.generations import set_meta
from indexer.library.packets import close
from indexer.settings import Settings
from server.demo import DAY, SAMPLES
from server.opened import OpenedLibrary
from server.packets import Wanted, add_item, begin_packet

BULLETIN_B, BULLETIN_C = (SAMPLES / "pdf" / f"sb-qz62-32-0114-rev-{letter}.pdf" for letter in "bc")
# The second is what Chromium says of a service worker's script that it was fetching when contact ended.
NO_CONTACT = (r"net::ERR_", r"^An unknown error occurred when fetching the script\.$")
TYPED_HERE = {"hangarleaf-recent", "hangarleaf-pinned"}  # searches as they were typed, no answers


class Hangar:
    """A library that is served, and is not, always at the same address."""

    def __init__(self, folder: Path, settings: Settings):
        self.folder, self.settings = folder, settings
        self._port, self._end = 0, None
        self.start()

    def start(self, folder: Path | None = None, settings: Settings | None = None) -> None:
        self.address, self._end = answering(folder or self.folder, settings or self.settings, self._port)
        self._port = int(self.address.rpartition(":")[2])
        self._answers()

    def _answers(self) -> None:
        """Return once the server takes connections; its thread may still be starting."""
        while True:
            try:
                socket.create_connection(("127.0.0.1", self._port)).close()
                return
            except ConnectionRefusedError:
                assert self._end, "it was ended before it answered"

    def stop(self) -> None:
        if self._end:
            self._end()
        self._end = None

    def take(self, *files: Path) -> None:
        assert not ingest(list(files), self.folder, self.settings).refused


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    """A library of one bulletin in revision B, and a packet with two pages of it."""
    folder = tmp_path_factory.mktemp("offline") / "library"
    with Catalogue.open(folder, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    assert not ingest([BULLETIN_B], folder, Settings()).refused
    with OpenedLibrary.open(folder, Settings()) as opened:
        bulletin = next(each for each in opened.publications() if each.file == BULLETIN_B.name)
        packet = begin_packet(opened, "Brake job 4711")
        add_item(opened, packet, Wanted("page", bulletin.id, 1))
        add_item(opened, packet, Wanted("page", bulletin.id, 2))
    return folder, packet, bulletin.id


@pytest.fixture
def hangar(shelf, tmp_path):
    hangar = Hangar(Path(shutil.copytree(shelf[0], tmp_path / "library")), Settings())
    yield hangar
    hangar.stop()


@pytest.fixture
def packet(shelf):
    return shelf[1]


@pytest.fixture
def page(tab):
    return tab(expected=NO_CONTACT)


def keep(page, hangar, packet):
    page.goto(f"{hangar.address}/packets/{packet}")
    page.get_by_role("button", name="Keep on this tablet").click()
    page.get_by_text("Kept on this tablet, confirmed").wait_for()


def kept_on(page):
    """Everything that the browser keeps for the service: caches with addresses, and both storages."""
    return page.evaluate(
        """async () => {
          const caches_ = {};
          for (const name of await caches.keys()) {
            const cache = await caches.open(name);
            caches_[name] = (await cache.keys()).map((request) => new URL(request.url).pathname);
          }
          return {caches: caches_, local: {...localStorage}, session: {...sessionStorage},
            databases: (await indexedDB.databases()).map((each) => each.name)};
        }"""
    )


def test_a_kept_packet_opens_without_the_server_and_says_how_old_it_is(hangar, packet, page):
    keep(page, hangar, packet)
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    cover = page.locator("#cover")
    assert cover.inner_text().startswith("No contact. May be superseded since ")
    assert re.search(r"\d minutes? ago\.$", cover.inner_text())
    assert "of library state 2." in page.locator(".about-copy").inner_text()
    assert page.get_by_role("heading", name="Brake job 4711").is_visible()
    page.wait_for_function("[...document.querySelectorAll('.sheet img')].every((each) => each.complete)")
    widths = page.evaluate("[...document.querySelectorAll('.sheet img')].map((each) => each.naturalWidth)")
    assert len(widths) >= 2 and min(widths) > 400
    assert page.locator("button").count() == 0


def test_what_was_not_kept_gives_the_page_that_says_so(hangar, packet, page):
    keep(page, hangar, packet)
    page.goto(f"{hangar.address}/?q=brake")
    picture = page.evaluate("fetch('/api/search?q=brake').then((answer) => answer.json())")
    assert picture["total"] > 0
    publication = picture["groups"][0]["hits"][0]["publication"]["id"]
    hangar.stop()
    for address in (
        "/",
        "/?q=brake",
        f"/publications/{publication}",
        f"/api/publications/{publication}/pages/1",
    ):
        page.goto(hangar.address + address)
        assert page.get_by_role("heading", name="No contact with the library").is_visible(), address
    page.get_by_role("link", name="Brake job 4711").click()
    page.locator("#cover").wait_for()


def test_nothing_unpinned_is_kept(hangar, packet, page):
    keep(page, hangar, packet)
    for address in ("/", "/?q=brake", "/publications", "/status"):
        page.goto(hangar.address + address)
    kept = kept_on(page)
    shells = [name for name in kept["caches"] if name.startswith("shell-")]
    copies = [name for name in kept["caches"] if name.startswith(f"packet-{packet}-")]
    assert sorted(kept["caches"]) == sorted([*shells, *copies, "notes"])
    assert len(shells) == len(copies) == 1
    assert all(
        path in ("/offline", "/pinned") or path.startswith("/static/") for path in kept["caches"][shells[0]]
    )
    assert all(path == "/page" or path.startswith("/kept/") for path in kept["caches"][copies[0]])
    assert kept["databases"] == [] and set(kept["local"]) <= TYPED_HERE
    page.goto(f"{hangar.address}/packets/{packet}")
    page.get_by_role("button", name="Remove from this tablet").click()
    page.get_by_role("button", name="Keep on this tablet").wait_for()
    assert not any(name.startswith("packet-") for name in kept_on(page)["caches"])


def test_after_a_newer_revision_the_copy_is_marked_superseded_before_anything_else_is_read(
    hangar, packet, page
):
    keep(page, hangar, packet)
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    page.locator("#cover").wait_for()
    hangar.take(BULLETIN_C)
    hangar.start()
    page.goto(f"{hangar.address}/?q=brake")
    assert page.url.startswith(f"{hangar.address}/pinned?next=")
    page.get_by_text("Brake job 4711 is superseded.").wait_for()
    assert page.locator(".hit").count() == 0
    page.get_by_text("The new copy is here.").wait_for()
    page.goto(f"{hangar.address}/publications")
    assert page.url.startswith(f"{hangar.address}/pinned?next="), "nothing else until it was read"
    page.get_by_role("button", name="I have read this: go on").click()
    page.wait_for_url(f"{hangar.address}/publications")
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    page.locator("#cover").wait_for()
    assert "Superseded" in page.locator("main").inner_text()


def test_a_newer_revision_is_learned_of_without_contact_having_been_missed(hangar, packet, page):
    """The tablet slept through it all: it never saw the server gone."""
    keep(page, hangar, packet)
    hangar.stop()
    hangar.take(BULLETIN_C)
    hangar.start()
    page.goto(f"{hangar.address}/")
    page.get_by_text("Brake job 4711 is superseded.").wait_for()


def test_a_closed_packet_is_withdrawn(hangar, packet, page):
    keep(page, hangar, packet)
    hangar.stop()
    page.goto(hangar.address)
    with Catalogue.open(hangar.folder) as catalogue:
        close(catalogue, packet)
    hangar.start()
    page.goto(hangar.address)
    page.get_by_text("Brake job 4711 is closed.").wait_for()
    assert not any(name.startswith("packet-") for name in kept_on(page)["caches"])


def test_another_library_at_the_same_address_withdraws_every_copy(hangar, packet, page, tmp_path):
    keep(page, hangar, packet)
    hangar.stop()
    with Catalogue.open(tmp_path / "other", create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    hangar.start(tmp_path / "other")
    page.goto(hangar.address)
    page.get_by_text("of another library than the one that answers at this address").wait_for()
    assert not any(name.startswith("packet-") for name in kept_on(page)["caches"])


def test_a_copy_that_is_too_old_is_deleted_and_said_to_be(hangar, packet, page):
    """offline_hours of a few milliseconds: the copy is too old as soon as it is asked for."""
    hangar.stop()
    hangar.start(settings=Settings(offline_hours=1e-6))
    keep(page, hangar, packet)
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    page.get_by_text("kept for longer than copies are shown without contact").wait_for()
    assert not any(name.startswith("packet-") for name in kept_on(page)["caches"])


def test_a_clock_that_was_set_back_withdraws_every_copy(hangar, packet, page):
    """A service worker's clock cannot be turned from outside: the time it last saw is put forward."""
    keep(page, hangar, packet)
    page.evaluate(
        """async () => {
          const cache = await caches.open("notes");
          const notes = await (await cache.match("/kept-on-this-device")).json();
          notes.seen += 3_600_000;
          await cache.put("/kept-on-this-device", Response.json(notes));
        }"""
    )
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    page.get_by_text("the clock of this tablet was set back").wait_for()


def test_an_open_copy_ends_when_its_time_is_over(hangar, packet, page):
    keep(page, hangar, packet)
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    page.locator("#cover").wait_for()
    page.evaluate(
        """() => {
          const late = Date.now() + 25 * 3_600_000;
          Date.now = () => late;
          document.dispatchEvent(new Event("visibilitychange"));
        }"""
    )
    page.get_by_role("heading", name="This copy is too old").wait_for()
    assert page.locator(".sheet").count() == 0


def test_nothing_is_copied_from_a_copy(hangar, packet, page):
    keep(page, hangar, packet)
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    assert page.evaluate("getComputedStyle(document.querySelector('main')).userSelect") == "none"
    page.evaluate("getSelection().selectAllChildren(document.querySelector('main'))")
    page.keyboard.press("Control+c")
    page.get_by_text("Not copied: there is no contact with the library").wait_for()


def test_an_open_page_that_loses_contact_is_marked_and_freed_again(hangar, page):
    page.goto(f"{hangar.address}/status")
    hangar.stop()
    page.evaluate("dispatchEvent(new Event('online'))")
    page.get_by_text("This page may be superseded since then.").wait_for()
    assert page.evaluate("getComputedStyle(document.body).userSelect") == "none"
    hangar.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    page.locator("#contact").wait_for(state="detached")
    hangar.take(BULLETIN_C)
    page.evaluate("dispatchEvent(new Event('online'))")
    page.get_by_text("The library has changed since this page was made.").wait_for()


def test_a_page_brought_back_from_memory_is_marked_until_the_library_answers(hangar, page):
    page.goto(f"{hangar.address}/status")
    hangar.stop()
    page.evaluate("dispatchEvent(new PageTransitionEvent('pageshow', {persisted: true}))")
    assert "No contact since" in page.locator("#contact").inner_text()


class GuestNetwork(BaseHTTPRequestHandler):
    """What stands between: it answers every address itself (RFC 8910 speaks of such captive networks)."""

    status = 200

    def do_GET(self):
        self.send_response(self.status)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(b"<title>Guests</title><h1>Sign in to this network</h1>")

    def log_message(self, *_):
        pass


@pytest.mark.parametrize("status", [200, 403, 502])
def test_what_stands_between_is_no_contact_and_takes_nothing_back(hangar, packet, page, status):
    keep(page, hangar, packet)
    hangar.stop()
    port = int(hangar.address.rpartition(":")[2])
    handler = type("Answering", (GuestNetwork,), {"status": status})
    with ThreadingHTTPServer(("127.0.0.1", port), handler) as between:
        Thread(target=between.serve_forever, daemon=True).start()
        page.goto(f"{hangar.address}/packets/{packet}")
        assert page.locator("#cover").inner_text().startswith("No contact. May be superseded since ")
        page.goto(f"{hangar.address}/?q=brake")
        assert page.get_by_text("Sign in to this network").count() == 0
        between.shutdown()
    assert any(name.startswith(f"packet-{packet}") for name in kept_on(page)["caches"])


def test_a_copy_that_is_open_says_that_there_is_contact_again_or_ends(hangar, packet, page):
    keep(page, hangar, packet)
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    page.locator("#cover").wait_for()
    hangar.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    page.get_by_text("There is contact again.").wait_for()
    hangar.stop()
    page.goto(f"{hangar.address}/packets/{packet}")
    page.locator("#cover").wait_for()
    hangar.take(BULLETIN_C)
    hangar.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    page.get_by_role("heading", name="This copy was withdrawn").wait_for()
    assert page.locator(".sheet").count() == 0


def test_another_day_is_learned_of_while_the_library_stays_as_it_is(hangar, packet, page):
    """Directives and checks of the register begin and end by the day: no page of yesterday is cited from."""
    page.goto(f"{hangar.address}/status")
    with Catalogue.open(hangar.folder) as catalogue, catalogue.database.writing() as connection:
        set_meta(connection, "demonstration_day", (DAY + datetime.timedelta(1)).isoformat())
    page.evaluate("dispatchEvent(new Event('online'))")
    page.get_by_text("Another day has begun since this page was made.").wait_for()
    assert page.evaluate("getComputedStyle(document.body).userSelect") == "none"


def test_a_packet_is_kept_whole_or_not_at_all(hangar, packet, page):
    """One picture fails: the copy that was there stays, and nothing new is begun."""
    page.goto(f"{hangar.address}/packets/{packet}")
    page.get_by_role("button", name="Keep on this tablet").wait_for()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    pictures = Path(hangar.folder / "copies")
    shutil.move(pictures, hangar.folder / "away")
    shutil.rmtree(hangar.folder / "cache", ignore_errors=True)
    page.get_by_role("button", name="Keep on this tablet").click()
    page.get_by_text("Nothing new is kept.").wait_for()
    kept = kept_on(page)["caches"]
    assert not any(name.startswith("packet-") for name in kept)
