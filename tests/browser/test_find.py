"""The search box in a real browser: results while typing, lost contact, groups that open, kept searches."""

import pytest
from in_chromium import DESK, PHONE, SIZES, TABLET

BOX = "input[name=q]"
LOST = ["ERR_FAILED", "ERR_INTERNET_DISCONNECTED"]  # what Chromium says of a fetch without contact


def typed(page, words):
    """Types words and waits until the page shows what was found for them."""
    page.locator(BOX).press_sequentially(words)
    page.wait_for_function("words => document.title.startsWith(words)", arg=words)


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_results_come_while_typing_and_a_page_is_found_in_two_taps(demo, tab, size):
    page = tab(size, touch=True)
    page.goto(f"{demo}/")
    page.locator(BOX).tap()
    typed(page, "brake lin")
    assert "lining" in page.locator(".hit mark").all_inner_texts()
    assert page.locator(".hit").first.bounding_box()["y"] < size[1]  # on the first screen
    assert page.url.endswith("/?q=brake+lin&begun=1")
    page.locator(".hit h3 a").first.tap()
    page.wait_for_url("**/pages/**")
    page.go_back()
    page.wait_for_url("**/?q=brake+lin&begun=1")
    assert page.locator(BOX).input_value() == "brake lin" and page.locator(".hit").count() > 0


def test_everything_on_a_chapter_for_one_aircraft_is_two_taps_away(demo, tab):
    page = tab(TABLET, touch=True)
    page.goto(f"{demo}/")
    page.get_by_role("link", name="QX-1AB").tap()
    page.wait_for_function("() => document.body.innerText.includes('marked for QX-1AB')")
    page.locator("ul[aria-labelledby=chapters] a", has_text="32 Landing gear").tap()
    page.wait_for_url("**/system/32")


def test_a_late_answer_never_stands_over_a_newer_one(demo, tab):
    page = tab(DESK)
    page.goto(f"{demo}/")
    held = []

    def hold(route):
        held.append(route) if "q=brake&" in route.request.url else route.continue_()

    page.route("**/find?**", hold)
    page.locator(BOX).fill("brake")
    page.wait_for_function("() => document.activeElement !== null")
    page.locator(BOX).fill("torque")
    page.wait_for_function("() => document.title.startsWith('torque')")
    shown = page.locator("[data-said]").inner_text()
    for route in held:
        route.abort()  # the browser has given it up already
    page.unroute("**/find?**")
    assert page.locator("[data-said]").inner_text() == shown and page.url.endswith("/?q=torque&begun=1")


def test_without_contact_the_older_results_are_said_to_be_older(demo, tab):
    page = tab(PHONE, expected=LOST)
    page.goto(f"{demo}/")
    typed(page, "brake")
    page.route("**/find?**", lambda route: route.abort())
    page.locator(BOX).press_sequentially("s")
    page.wait_for_selector("#contact .notice", state="attached")
    said = page.locator("#contact").text_content()
    assert "No contact with the service" in said and "for the older words «brake»" in said
    assert page.locator("#found.older").count() == 1
    page.unroute("**/find?**")
    page.locator(BOX).fill("brake")
    page.wait_for_function("() => !document.querySelector('#contact .notice')")
    assert page.locator("#found.older").count() == 0


def test_the_count_is_said_once_typing_rests(demo, tab):
    page = tab(DESK)
    page.goto(f"{demo}/")
    typed(page, "brake")
    page.wait_for_function("() => document.getElementById('said').textContent.includes('passages')")
    assert page.locator("#found [role=status], #found [aria-live]").count() == 0


def test_a_closed_group_opens_in_place(demo, tab):
    page = tab(TABLET, touch=True)
    page.goto(f"{demo}/?q=any+of%3A+brake+fuel+wire+torque")
    groups = page.locator("details.group")
    closed = [i for i in range(groups.count()) if groups.nth(i).get_attribute("data-hits")]
    group = groups.nth(closed[0])
    said = int(group.locator("summary .quiet").inner_text().split()[0])
    group.locator("summary").tap()
    group.locator(".hit").first.wait_for()
    assert group.locator(".hit").count() == said


def test_searches_are_kept_on_the_tablet_remembered_and_cleared(demo, tab):
    page = tab(TABLET, touch=True)
    page.goto(f"{demo}/?q=brake+lining")
    page.get_by_role("button", name="Remember this search").tap()
    page.goto(f"{demo}/")
    assert page.locator(".pinned a").all_inner_texts() == ["brake lining"]
    assert page.locator(".recent a").all_inner_texts() == ["brake lining"]
    page.get_by_role("button", name="Clear recent searches").tap()
    assert page.locator(".recent").is_hidden() and page.locator(".pinned").is_visible()
    page.get_by_role("button", name="Forget brake lining").tap()
    assert page.locator(".kept").is_hidden()


def test_a_browser_that_keeps_nothing_still_finds(demo, tab):
    page = tab(DESK)
    refuse = "get() { throw new DOMException('no', 'SecurityError') }"
    page.add_init_script(f"Object.defineProperty(window, 'localStorage', {{{refuse}}})")
    page.goto(f"{demo}/")
    typed(page, "brake")
    assert page.locator(".hit").count() > 0 and page.locator(".pin").count() == 0


def test_without_script_the_form_and_the_links_do_it_all(demo, tab):
    page = tab(TABLET, javascript=False)
    page.goto(f"{demo}/")
    assert page.locator(".kept").is_hidden()
    page.locator(BOX).fill("any of: brake fuel wire torque")
    page.get_by_role("button", name="Find").click()
    group = page.locator("details.group[data-hits]").first
    group.locator("summary").click()
    group.locator(".more a").click()
    assert page.locator(".hit").count() > 0 and "chapter=" in page.url


@pytest.mark.parametrize("aircraft", ["", "&aircraft=QX-1AB"])
def test_on_a_phone_the_first_hit_with_its_standing_stands_on_the_first_screen(tab, demo, aircraft):
    page = tab(PHONE, touch=True)
    page.goto(f"{demo}/?q=brake+lining{aircraft}")
    hit = page.locator(".hit").first
    for part in ("h3", ".standing .lead", ".snippet"):
        box = hit.locator(part).bounding_box()
        assert box["height"] > 0 and box["y"] + box["height"] <= 844
    why = hit.locator(".reasons > summary")
    assert why.bounding_box()["height"] >= 48
    assert not hit.locator(".reasons > p").first.is_visible()
    why.tap()
    assert hit.locator(".reasons > p").first.is_visible()
    assert "/?q=" in page.url
