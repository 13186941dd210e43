"""Every page of the service, for every eye and hand: axe-core, gloves, large text, contrast, stillness.

Ratios: WCAG 2.2, success criterion 1.4.6 (contrast, enhanced); visible focus: 2.4.7 and 2.4.11. What is
looked for in each page, and by which criteria: looked_over.py.
"""

import shutil

import axe
import every_page
import pytest
from in_chromium import DESK, PHONE, SCHEMES, answering, listen_to
from looked_over import TEXT_SIZE, faults, hidden_focus
from usable import faint, sideways, unfold

from indexer.library import people, tablets
from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary

# What gives no page: files to take away, and addresses that lead on.
NO_PAGES = {"text/csv", "application/pdf", "image/svg+xml", "application/manifest+json", "text/javascript"}
FIRST_FIELD = 260  # CSS pixels from the top of a phone's screen


@pytest.fixture(scope="module")
def walked(demo_library, tmp_path_factory):
    """The address of a demonstration that has been worked in, and all its pages."""
    folder = tmp_path_factory.mktemp("walked") / "library"
    shutil.copytree(demo_library, folder)
    with OpenedLibrary.open(folder, Settings()) as library:
        home, end = answering(library)
        try:
            starts = [*every_page.STARTS, *every_page.use(home)]
            yield home, every_page.walk(create_app(library, Settings()), home, starts)
        finally:
            end()


@pytest.fixture
def one_tab(chromium, walked):
    """Makes a tab at the walked library with an aircraft in hand; complaints are asked for at the end."""
    contexts, complaints = [], []

    def make(size=PHONE, **options):
        context = chromium.new_context(viewport={"width": size[0], "height": size[1]}, **options)
        context.add_cookies([{"name": "aircraft", "value": "QX1AB", "url": walked[0]}])
        contexts.append(context)
        listen_to(context, complaints, ["404"])  # the walk looks at the page for a wrong address too
        return context.new_page()

    yield make
    for context in contexts:
        context.close()
    assert not complaints


def test_every_page_is_in_the_walk(walked):
    _, pages = walked
    assert pages.unseen == [], "no link and no start leads to these pages: give every_page.STARTS an address"
    assert pages.dead == [], "links that lead nowhere"
    for path in ("/tablet/authority.crt", "/tablet/door.svg"):  # there only where https is served
        assert pages.others.pop(path) == "404"
    odd = {path: kind for path, kind in pages.others.items() if kind not in NO_PAGES and kind[:2] != "30"}
    assert odd == {}
    assert len(pages.addresses) > 30


def test_every_page_is_for_every_eye_and_hand(walked, one_tab):
    home, pages = walked
    page, found = one_tab(), []
    for address in pages.addresses:
        if address.startswith("/find"):
            continue  # pieces that go into the page of a search, and are no pages by themselves
        page.goto(home + address)
        found += [f"{address}: {each}" for each in faults(page)]
    assert not found, "\n".join(found)


# What a librarian, or a tablet with a packet in hand, is shown beside what everybody is.
THEIRS = (
    "/desk",
    "/persons",
    "/reports",
    "/map",
    "/fleet",
    "/register",
    "/ingest",
    "/sign-in",
    "/tablet",
    "/packets",
)
A_TABLET = {"X-Forwarded-For": "192.168.70.20"}  # what comes with it is from another machine to the service


@pytest.mark.parametrize("from_a_tablet", [False, True], ids=["at this machine", "from a tablet"])
def test_what_a_signed_in_librarian_sees_is_too(walked, demo_library, tmp_path, chromium, from_a_tablet):
    shutil.copytree(demo_library, tmp_path / "library")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as library:
        catalogue = library.catalogue
        people.add(catalogue, "Rosa Quill", "librarian", "four sorts of rivet", "Rosa Quill")
        home, end = answering(library, network=from_a_tablet)
        context = chromium.new_context(extra_http_headers=A_TABLET if from_a_tablet else {})
        try:
            cookies = {"aircraft": "QX1AB"}
            if from_a_tablet:
                cookies["tablet"] = tablets.join(catalogue, tablets.shop_code(catalogue), "Tablet at bay 2")
            context.add_cookies(
                [{"name": name, "value": value, "url": home} for name, value in cookies.items()]
            )
            page = context.new_page()
            page.goto(f"{home}/sign-in")
            page.get_by_label("Your name").fill("Rosa Quill")
            page.get_by_label("Passcode").fill("four sorts of rivet")
            page.get_by_role("button", name="Sign in").click()
            page.get_by_text("Signed in: Rosa Quill").wait_for()
            page.goto(f"{home}/packets")
            page.get_by_role("button", name="Begin").first.click()
            page.wait_for_url("**/packets/*")
            found = []
            for address in (page.url.removeprefix(home), *THEIRS):
                page.goto(home + address)
                assert page.get_by_text("Signed in: Rosa Quill").is_visible(), address
                found += [f"{address}: {each}" for each in faults(page)]
        finally:
            context.close()
            end()
    assert not found, "\n".join(found)


@pytest.mark.parametrize("size", [DESK, PHONE], ids=str)
def test_what_stays_in_place_on_a_page_never_covers_what_has_the_focus(walked, one_tab, size):
    home, pages = walked
    shown = [address for address in pages.addresses if "/pages/" in address or "/figures/" in address]
    assert shown
    page = one_tab(size)
    for address in shown:
        page.goto(home + address)
        assert hidden_focus(page) == [], address


def test_the_bar_is_low_and_the_first_field_begins_early(walked, one_tab):
    home, _ = walked
    page = one_tab()
    for address in ("/", "/?q=brake+lining", "/parts"):
        page.goto(home + address)
        top = page.locator("main input[type=search]").first.bounding_box()["y"]
        assert top < FIRST_FIELD, address
        hand = page.get_by_role("region", name="Aircraft in hand")
        for words in ("QX-1AB", "QZ62", "QZ-077", "confirmed 1 June 2032"):
            assert words in hand.inner_text()


def test_with_a_packet_in_hand_the_bar_is_as_low(walked, one_tab):
    home, _ = walked
    page = one_tab()
    page.goto(f"{home}/packets")
    page.get_by_role("button", name="Begin").first.click()
    page.wait_for_url("**/packets/*")
    page.goto(f"{home}/?q=brake+lining")
    page.locator(".bar .count").evaluate("(count) => { count.firstChild.data = '128'; }")
    tops = page.locator(".bar nav > *").evaluate_all("(all) => all.map((e) => e.getBoundingClientRect().top)")
    assert len(tops) == 6 and len(set(tops)) == 1, tops
    assert page.locator("main input[type=search]").first.bounding_box()["y"] < FIRST_FIELD


LARGE_TEXT = [
    "/system/32",
    "/system/00",
    "/desk",
    "/?q=3241",
    "/?q=brake+lining",
    "/map",
    "/chapters",
]


@pytest.mark.parametrize("address", [*LARGE_TEXT, "a page's tag", "contents"])
def test_twice_the_text_stays_on_a_phone(walked, one_tab, address):
    """WCAG 2.2, 1.4.4 and 1.4.10, together on the narrowest screen that the shop has."""
    home, pages = walked
    routes = {"a page's tag": "/desk/new?", "contents": "/contents"}
    if wanted := routes.get(address):
        address = next(each for each in pages.addresses if wanted in each)
    page = one_tab()
    page.goto(home + address)
    unfold(page)
    page.evaluate(TEXT_SIZE, 2)
    assert sideways(page) <= 0


def test_the_rest_opens_by_key_and_closes_by_escape(walked, one_tab):
    home, _ = walked
    page = one_tab(DESK)
    page.goto(f"{home}/about")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.matches('.skip')")
    page.locator(".rest-of-it > summary").focus()
    page.keyboard.press("Enter")
    page.get_by_role("link", name="Publications").wait_for()
    assert axe.violations(page) == []
    page.keyboard.press("Escape")
    page.get_by_role("link", name="Publications").wait_for(state="hidden")
    assert page.evaluate("document.activeElement.matches('.rest-of-it > summary')")


@pytest.mark.parametrize("scheme", SCHEMES)
def test_strong_contrast_is_given_where_it_is_asked_for(walked, one_tab, scheme):
    home, _ = walked
    page = one_tab(color_scheme=scheme, contrast="more")
    for address in ("/?q=brake+lining", "/checks/1", "/fleet", "/register"):
        page.goto(home + address)
        assert faint(page, 7, 4.5) == [], address


def test_in_the_systems_own_colours_nothing_is_told_by_ground_alone(walked, one_tab):
    home, _ = walked
    page = one_tab(forced_colors="active")
    page.goto(f"{home}/?q=brake+lining&chapter=32")
    assert page.evaluate("matchMedia('(forced-colors: active)').matches")
    assert (
        page.locator(".chip.on").first.evaluate("(chip) => parseFloat(getComputedStyle(chip).borderWidth)")
        >= 3
    )
    assert page.locator(".standing .lead").first.inner_text()
    search = page.locator("main input[type=search]").first
    search.focus()
    assert search.evaluate("(field) => getComputedStyle(field).outlineStyle") == "solid"


def test_nothing_moves_where_stillness_is_asked_for(walked, one_tab):
    home, _ = walked
    page = one_tab(reduced_motion="reduce")
    for address in ("/", "/?q=brake+lining", "/system/32?aircraft=QX-1AB"):
        page.goto(home + address)
        moving = page.evaluate(
            "() => [...document.querySelectorAll('*')].map((each) => getComputedStyle(each)).filter("
            "(style) => style.animationName !== 'none' || parseFloat(style.transitionDuration) > 0).length"
        )
        assert moving == 0, address
