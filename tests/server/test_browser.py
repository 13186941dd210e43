"""The pages in a real browser, as a technician meets them: a tablet, gloves, glare or the dark."""

import pytest
from in_chromium import CHROMIUM, MISSING, SIZES, answering, chromium_open, tabs
from usable import usable

if CHROMIUM is None:
    pytest.skip(MISSING, allow_module_level=True)
pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def chromium():
    with chromium_open() as browser:
        yield browser


@pytest.fixture
def tab(chromium):
    with tabs(chromium) as make:
        yield make


@pytest.fixture(scope="module")
def small(library):
    address, end = answering(library)
    yield address
    end()


@pytest.fixture(scope="module")
def real(samples):
    address, end = answering(samples)
    yield address
    end()


def addresses(ids):
    manual, bulletin = ids["manual"], ids["bulletin"]
    return [
        "/",
        "/?q=brake",
        "/?q=brake+lining&chapter=32&standing=approved",
        "/?q=zeppelin",
        "/?q=brake+pads",
        "/?q=brake+linning&as_typed=1",
        "/?q=brake+linning",
        "/?q=TR+brake",
        "/?q=3241",
        f"/passages/{manual}-0/why?q=brake+pads",
        "/words",
        "/publications",
        f"/publications/{manual}",
        f"/publications/{bulletin}",
        f"/publications/{manual}/pages/2?q=brake&passage={manual}-0&back=q%3Dbrake",
        f"/publications/{manual}/pages/2?q=brake&zoom=200",
        f"/publications/{manual}/pages/4",
        "/desk",
        "/desk?left_out=1",
        "/desk/entries",
        f"/desk/new?publication={manual}&pdf_page=2&passage={manual}-0",
        "/map",
        "/status",
        "/about",
    ]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_every_page_can_be_used_with_gloves_and_read(small, ids, tab, size, scheme):
    page = tab(size, scheme)
    for address in addresses(ids):
        page.goto(small + address)
        usable(page, address)
        smallest = page.evaluate(
            "Math.min(...[...document.querySelectorAll('p, li, dd, a')]"
            ".filter((each) => each.checkVisibility() && !each.closest('.unseen'))"
            ".map((each) => parseFloat(getComputedStyle(each).fontSize)))"
        )
        assert smallest >= 17, f"too small to read at arm's length at {address}"


@pytest.mark.parametrize("javascript", [True, False], ids=["script", "no script"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_from_a_question_to_the_marked_passage(real, tab, size, javascript):
    page = tab(size, javascript=javascript)
    page.goto(f"{real}/")
    page.get_by_role("searchbox").fill("brake lining")
    page.get_by_role("button", name="Find").click()
    page.wait_for_url("**/?q=brake+lining")
    assert page.locator(".group").count() >= 2
    hit = page.locator(".hit", has_text="QZM-62-2").first
    assert hit.locator("mark").count() >= 1
    hit.locator("h3 a").click()
    picture = page.locator(".sheet .paper > img").last
    picture.scroll_into_view_if_needed()
    assert picture.get_attribute("src").startswith("/api/publications/")
    frame = picture.bounding_box()
    box = page.locator(".sheet svg rect.box:not(.also)").first.bounding_box()
    assert frame["x"] - 2 <= box["x"] and box["x"] + box["width"] <= frame["x"] + frame["width"] + 2
    assert frame["y"] - 2 <= box["y"] and box["y"] + box["height"] <= frame["y"] + frame["height"] + 2
    assert box["height"] > 10
    words = page.locator(".sheet svg rect.word")
    assert words.count() >= 1
    page.get_by_role("link", name="Back to the search").click()
    assert page.get_by_role("searchbox").input_value() == "brake lining"


def test_the_whole_hit_can_be_tapped(small, tab):
    page = tab()
    page.goto(f"{small}/?q=alternator")
    hit = page.locator(".hit").first.bounding_box()
    page.mouse.click(hit["x"] + hit["width"] - 15, hit["y"] + hit["height"] - 12)
    page.wait_for_url("**/pages/3**")


def test_the_picture_is_really_drawn(small, ids, tab):
    page = tab()
    page.goto(f"{small}/publications/{ids['manual']}/pages/2")
    natural = page.locator(".sheet .paper > img").evaluate("(image) => [image.complete, image.naturalWidth]")
    assert natural[0] and natural[1] == pytest.approx(638, abs=1), "a small picture first: 75 dots per inch"
    tiles = page.locator(".sheet .tiles img")
    tiles.first.wait_for()
    assert tiles.first.evaluate("(image) => image.decode().then(() => image.naturalWidth)") in (512, 251)


def test_a_word_is_marked_where_it_is_printed(small, ids, tab):
    """The small library prints its line at 72 points from the left, 130 from the top."""
    page = tab()
    page.goto(f"{small}/publications/{ids['manual']}/pages/2?q=wheel")
    frame = page.locator(".sheet .paper > img").bounding_box()
    scale = frame["width"] / 612
    word = page.locator("rect.word").first.bounding_box()
    assert (word["y"] + word["height"] - frame["y"]) / scale == pytest.approx(130, abs=8)
    assert 72 < (word["x"] - frame["x"]) / scale < 250


def test_a_zoomed_page_scrolls_in_its_frame_and_shows_the_mark(small, ids, tab):
    page = tab((390, 844))
    page.goto(f"{small}/publications/{ids['manual']}/pages/2?zoom=200&q=brake&passage={ids['manual']}-0")
    stage = page.locator(".sheet .stage")
    inside = stage.evaluate("(stage) => [stage.scrollWidth, stage.clientWidth, stage.scrollLeft]")
    assert inside[0] >= 1.9 * inside[1]
    assert inside[2] > 0, "the marked box is brought into view"


def test_pages_turn_by_link_and_by_key(small, ids, tab):
    page = tab()
    page.goto(f"{small}/publications/{ids['manual']}/pages/2")
    page.keyboard.press("ArrowRight")
    page.wait_for_url("**/pages/3**")
    page.get_by_role("link", name="Previous").first.click()
    page.wait_for_url("**/pages/2**")


def test_the_keyboard_reaches_a_hit_and_shows_where_it_is(small, tab):
    page = tab()
    page.goto(f"{small}/?q=alternator")
    for _ in range(30):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.closest('.hit') !== null"):
            break
    assert page.evaluate("getComputedStyle(document.activeElement.closest('.hit')).outlineStyle") == "solid"
    page.keyboard.press("Enter")
    page.wait_for_url("**/pages/3**")


def test_standing_is_words_before_it_is_colour(small, tab):
    page = tab()
    page.goto(f"{small}/?q=brake")
    for strip in page.locator(".standing").all():
        lead = strip.locator(".lead").inner_text()
        assert lead in ("Approved data", "Acceptable data", "Information only", "Blocked", "Not determined")


def test_back_lands_where_the_list_was_left(real, tab):
    page = tab((390, 844))
    page.goto(f"{real}/?q=brake")
    page.evaluate("scrollTo(0, 900)")
    page.locator(".hit h3 a").nth(2).click()
    page.wait_for_url("**/pages/**")
    page.go_back()
    page.wait_for_function("scrollY > 300")
