"""From another address than the loopback one, as a tablet in the shop's network: joining, and a day's work.

The service listens on an address of this machine's own in its network, which the browser takes for any
other machine's: plain http there is no secure context (W3C Secure Contexts, section 3.1), and to the service
whoever comes from there must join.
"""

import re
import shutil
import sys
from pathlib import Path

import pytest
from in_chromium import TABLET, chromium_open, tabs
from test_tablet import trusting, words_of

sys.path.append(str(Path(__file__).parents[1] / "server"))
from encrypted_service import running

from indexer.library.catalogue import Catalogue
from indexer.library.tablets import shop_code
from indexer.settings import Settings
from server.serving import PLAIN, Encryption
from server.this_machine import Names, own_names

PAGES = (
    "/",
    "/publications",
    "/chapters",
    "/fleet",
    "/parts",
    "/register",
    "/desk",
    "/words",
    "/status",
    "/about",
)
PAGES += ("/packets", "/check", "/checks", "/ingest", "/tablet", "/sign-in", "/offline", "/reports")
KEEP, KEEP_NO_MORE = re.compile("^Keep on this"), re.compile("^Remove from this")
KEPT = """async () => {
  const kept = await Promise.all((await caches.keys()).map(async (name) => (await caches.open(name)).keys()));
  return kept.flat().map((each) => new URL(each.url).pathname);
}"""
NO_WORKER = "!('serviceWorker' in navigator)"


@pytest.fixture(scope="module")
def address():
    """An address of this machine in its network, which no browser takes for the machine itself."""
    found = [each for each in own_names().addresses if each.version == 4 and not each.is_link_local]
    if not found:
        pytest.skip(
            "this machine has no IPv4 address but its loopback one: give it one, as by a cable or wifi"
        )
    return found[0]


@pytest.fixture(scope="module")
def shop(demo_library, tmp_path_factory):
    """A library to write in, and the shop's code."""
    folder = Path(shutil.copytree(demo_library, tmp_path_factory.mktemp("network") / "library"))
    with Catalogue.open(folder) as catalogue:
        return Settings(library=str(folder)), shop_code(catalogue)


@pytest.fixture
def patch():
    with pytest.MonkeyPatch.context() as patch:
        yield patch


def join(page, start, code):
    page.goto(start)
    page.wait_for_url("**/join?**")
    page.get_by_label("The shop’s code").fill(code)
    page.get_by_label("What to call this device").fill("Tablet at bay 2")
    page.get_by_role("button", name="Join").tap()
    page.wait_for_url(start)


def make_a_packet(page):
    """Find, read the page, put it into a packet, save that as PDF; ends on the packet's page."""
    field = page.locator("main form.ask input[name=q]")
    field.fill("brake lining worn")
    field.press("Enter")
    page.wait_for_url("**/?q=**")
    page.locator(".hit h3 a", has_text="QZM-62-2").first.tap()
    page.wait_for_url("**/pages/**")
    assert page.locator(".sheet img").first.evaluate("(one) => one.decode().then(() => one.naturalWidth)")
    page.get_by_role("button", name="Add to packet").first.tap()
    page.get_by_role("link", name="In the packet").first.tap()
    page.wait_for_url("**/packets/*")
    with page.expect_download() as coming:
        page.get_by_role("link", name="Save as PDF").tap()
    assert Path(coming.value.path()).read_bytes().startswith(b"%PDF")


def test_over_plain_http_all_works_but_what_takes_a_secure_page(shop, address, patch):
    settings, code = shop
    own = Names((), (address,))
    with running(patch, settings, str(address), PLAIN, own) as service, chromium_open() as browser:
        start = service.reach().address
        assert start.startswith(f"http://{address}:")
        with tabs(browser) as tab:
            page = tab(TABLET, touch=True, own=(str(address),))
            join(page, start, code)
            assert page.evaluate("isSecureContext") is False and page.evaluate(NO_WORKER)
            make_a_packet(page)
            assert page.get_by_text("takes a secure connection").count() == 1
            assert page.locator(".keep button").count() == 0, "what cannot work is not offered"

            page.goto(f"{start}check")
            page.get_by_label("The line or entry").fill("Replaced brake linings IAW QZM-62-2 Rev 6.")
            page.get_by_role("button", name="Check the source").tap()
            page.wait_for_url("**/checks/*")
            page.locator(".finding .lead").first.wait_for()

            page.goto(f"{start}tablet")
            missing = words_of(page, "without the network")
            assert "Does not work." in missing and "PDF" in missing
            page.get_by_text("This browser keeps no packets here.").wait_for()
            assert code not in page.content() and page.get_by_text("Ask whoever looks after").count() == 1

            for path in PAGES:
                answer = page.goto(f"{start.rstrip('/')}{path}", wait_until="load")
                assert answer.status == 200, path
                assert page.get_by_role("button", name=KEEP).count() == 0, path


def test_over_https_with_the_shops_authority_a_packet_is_kept(shop, address, patch):
    settings, code = shop
    own = Names((), (address,))
    with running(patch, settings, str(address), Encryption(shop=True), own) as service:
        start = service.reach().address
        assert start.startswith(f"https://{address}:")
        certificate = Path(settings.library) / "https" / "server.pem"
        with chromium_open(trusting(certificate)) as browser, tabs(browser) as tab:
            page = tab(TABLET, touch=True, own=(str(address),))
            join(page, start, code)
            assert page.evaluate("isSecureContext") is True
            make_a_packet(page)
            packet = page.url.rpartition("/")[2]
            page.get_by_role("button", name=KEEP).tap()
            page.get_by_role("button", name=KEEP_NO_MORE).wait_for()
            assert page.evaluate("navigator.serviceWorker.ready.then((one) => one.scope)") == start
            kept = page.evaluate(KEPT)
            assert "/page" in kept, "the copy of the packet"
            assert any(path.startswith(f"/kept/{packet}/") for path in kept), "and its pictures"
