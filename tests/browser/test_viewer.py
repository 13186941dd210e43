"""The page's picture under the fingers: pinch, double tap, swipe, keys; and what stays in view meanwhile."""

import math

import pytest
from in_chromium import DESK, PHONE, SIZES, TABLET
from usable import usable

from indexer.library.catalogue import Catalogue

FILES = {"manual": "qz62-maintenance-manual.pdf", "scan": "brake-component-manual-scan.pdf"}
PAPER, STAGE = (f"document.querySelector('.sheet .{part}')" for part in ("paper", "stage"))
SCALE = f"{PAPER}.offsetWidth / {STAGE}.clientWidth"
TILES = "[...document.querySelectorAll('.sheet .tiles img')]"


@pytest.fixture(scope="module")
def pages(demo_library, demo):
    """Addresses of the pages of a file by its name."""
    with Catalogue.open(demo_library) as catalogue:
        held = {record.file: record.id for record in catalogue.publications()}
    return lambda name, pdf_page: f"{demo}/publications/{held[FILES[name]]}/pages/{pdf_page}"


def fingers(page):
    """Speaks to the browser as its touch screen does."""
    session = page.context.new_cdp_session(page)

    def touch(kind, *points):
        given = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(points)]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": given})

    return touch


def middle_of(page):
    """A place in the middle of the part of the picture that is on the screen."""
    return page.evaluate(
        """() => {
          const box = document.querySelector('.sheet .stage').getBoundingClientRect();
          const top = Math.max(box.top, document.querySelector('.stuck').offsetHeight);
          return [box.left + box.width / 2, (top + Math.min(box.bottom, innerHeight)) / 2];
        }"""
    )


def rolls_away(page, touch, by):
    """A drag that the browser takes for scrolling; waits until the page has come to rest."""
    page.evaluate("() => addEventListener('scrollend', () => { window.rested = true; }, {once: true})")
    swipe(touch, middle_of(page), by)
    page.wait_for_function("() => window.rested")


def swipe(touch, start, by):
    touch("touchStart", start)
    for step in range(1, 4):
        touch("touchMove", (start[0] + by[0] * step / 3, start[1] + by[1] * step / 3))
    touch("touchEnd")


def pinch(touch, middle, before, after):
    x, y = middle
    touch("touchStart", (x - before, y), (x + before, y))
    for step in range(1, 9):
        apart = before + (after - before) * step / 8
        touch("touchMove", (x - apart, y), (x + apart, y))
    touch("touchEnd")


def opened(tab, address, size=PHONE, **more):
    page = tab(size, touch=True, **more)
    page.goto(address)
    page.locator(".zoomers").first.wait_for()
    return page


@pytest.mark.parametrize("share", [0, 0.4, 0.9])
def test_two_fingers_make_the_page_larger_where_they_are(pages, tab, share):
    """At the top of the page as opened, and where `share` of the picture is above the screen's middle."""
    page = opened(tab, pages("manual", 33))
    if share:
        page.locator(".sheet .paper").evaluate(
            "(paper, share) => { const box = paper.getBoundingClientRect();"
            " scrollTo(0, scrollY + box.top + box.height * share - innerHeight / 2); }",
            share,
        )
    middle = middle_of(page)
    under = "([x, y]) => { const box = document.querySelector('.sheet .paper').getBoundingClientRect();" + (
        " return [(x - box.left) / box.width, (y - box.top) / box.height]; }"
    )
    before = page.evaluate(under, middle)
    pinch(fingers(page), middle, 30, 90)
    page.wait_for_function(f"() => {SCALE} > 2.5")
    assert page.evaluate(SCALE) == pytest.approx(3, rel=0.1), "three times as far apart, three times as large"
    assert page.evaluate(under, middle) == pytest.approx(before, abs=0.03)
    page.wait_for_function(f"() => {TILES}.length > 0 && {TILES}.every((tile) => tile.complete)")
    assert page.evaluate("visualViewport.scale") == 1, "the page around it stays as it is"


def test_marks_and_links_stay_on_their_words_at_any_size(pages, tab):
    page = opened(tab, f"{pages('manual', 33)}?q=brake")
    place = """() => ['.sheet .paper', '.sheet rect.word', '.sheet a.reference rect'].map(
        (each) => document.querySelector(each).getBoundingClientRect().toJSON())"""

    def relative():
        paper, *marks = page.evaluate(place)
        return [(mark["x"] - paper["x"]) / paper["width"] for mark in marks] + [
            (mark["y"] - paper["y"]) / paper["height"] for mark in marks
        ]

    before = relative()
    page.get_by_role("button", name="Larger").tap()
    page.wait_for_function(f"() => {SCALE} > 1.4")
    assert relative() == pytest.approx(before, abs=0.003)


def test_a_double_tap_goes_in_and_out_again(pages, tab):
    page = opened(tab, pages("manual", 33))
    touch = fingers(page)
    for wanted in (f"{SCALE} > 2", f"{SCALE} < 1.1"):
        at = middle_of(page)
        for _ in range(2):
            touch("touchStart", at)
            touch("touchEnd")
        page.wait_for_function(f"() => {wanted}")


def test_a_swipe_turns_the_page_and_a_drag_over_a_larger_one_does_not(pages, tab):
    page = opened(tab, pages("manual", 33))
    x, y = middle_of(page)
    swipe(fingers(page), (x + 100, y), (-160, 5))
    page.wait_for_url("**/pages/34")
    page.locator(".zoomers").first.wait_for()
    page.get_by_role("button", name="Larger").tap()
    page.wait_for_function(f"() => {SCALE} > 1.4")
    touch = fingers(page)
    left = page.evaluate("document.querySelector('.stage').scrollLeft")
    swipe(touch, middle_of(page), (-100, 4))
    page.wait_for_function(f"() => document.querySelector('.stage').scrollLeft > {left}")
    assert page.url.endswith("/pages/34"), "a drag moves the page"
    page.get_by_role("button", name="Page width").tap()
    page.wait_for_function(f"() => {SCALE} < 1.1")
    page.evaluate("scrollTo(0, 0)")
    rolls_away(page, touch, (-60, -120))
    assert page.url.endswith("/pages/34"), "a slanting drag scrolls"
    x, y = middle_of(page)
    swipe(touch, (x - 100, y), (160, 5))
    page.wait_for_url("**/pages/33")


def test_two_fingers_that_leave_one_after_the_other_turn_nothing(pages, tab):
    page = opened(tab, pages("manual", 33))
    touch, (x, y) = fingers(page), middle_of(page)
    touch("touchStart", (x - 40, y), (x + 40, y))
    touch("touchMove", (x - 38, y), (x + 38, y))
    touch("touchEnd", (x - 38, y))
    for step in range(1, 6):
        touch("touchMove", (x - 38 + 30 * step, y))
    touch("touchEnd")
    page.get_by_role("button", name="Larger").tap()
    page.wait_for_function(f"() => {SCALE} > 1.4")
    assert page.url.endswith("/pages/33")


def test_keys_size_move_and_turn(pages, tab):
    page = tab(DESK)
    page.goto(pages("manual", 33))
    page.locator(".zoomers").first.wait_for()
    page.keyboard.press("+")
    page.keyboard.press("+")
    page.wait_for_function(f"() => {SCALE} > 2")
    page.keyboard.press("End")
    at = "document.querySelector('.stage').scrollLeft"
    page.wait_for_function(f"() => {at} > 0")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Home")
    page.wait_for_function(f"() => {at} === 0")
    assert page.url.endswith("/pages/33")
    page.keyboard.press("0")
    page.wait_for_function(f"() => {SCALE} < 1.1")
    page.keyboard.press("ArrowRight")
    page.wait_for_url("**/pages/34")


def test_no_more_tiles_are_held_than_the_limit(pages, tab):
    page = opened(tab, pages("manual", 33), TABLET, device_scale_factor=2)
    for _ in range(4):
        page.get_by_role("button", name="Larger").tap()
    for share in (0, 0.25, 0.5, 0.75, 1):
        page.evaluate(
            "(share) => { const stage = document.querySelector('.stage');"
            " stage.scrollTo(stage.scrollWidth * share, stage.scrollHeight * share); }",
            share,
        )
        page.wait_for_function(f"() => {TILES}.length > 0 && {TILES}.every((tile) => tile.complete)")
    assert 0 < page.evaluate(f"{TILES}.length") <= 48


@pytest.mark.parametrize("size", SIZES)
def test_strip_warnings_and_picture_are_on_the_first_screen_and_stay(pages, tab, size):
    """Page 33 warns of hands between disc and linings; drawn with the samples."""
    page = opened(tab, pages("manual", 33), size)
    box = page.locator(".sheet .stage").first.bounding_box()
    assert box["y"] < size[1] * 0.75, "the picture begins on the first screen"
    guard, strip = page.locator(".guard"), page.locator(".strip")
    assert "WARNING: DO NOT PUT YOUR HANDS" in guard.inner_text()
    page.locator(".sheet").first.evaluate("(sheet) => scrollTo(0, sheet.offsetTop + sheet.offsetHeight / 2)")
    page.get_by_role("button", name="Larger").first.tap()
    page.wait_for_function(f"() => {SCALE} > 1.4")
    for each in (guard, strip):
        there = each.bounding_box()
        assert there["y"] >= 0 and there["y"] + there["height"] < size[1] * 0.55
    assert "WARNING: DO NOT PUT YOUR HANDS" in guard.inner_text()
    stage = page.locator(".sheet .stage").first.bounding_box()
    covered = page.locator(".stuck").evaluate("(stuck) => stuck.getBoundingClientRect().bottom")
    assert stage["y"] + stage["height"] - max(covered, stage["y"]) > size[1] * 0.3, "the step is not covered"


def test_what_changes_a_page_leaves_room_for_the_picture_on_a_phone(pages, tab):
    """Page 36 is changed by TR 32-07, which warns of coated tie bolts; drawn with the samples."""
    page = opened(tab, pages("manual", 36))
    assert page.locator(".sheet .paper").first.bounding_box()["y"] < 480
    assert "TR 32-07" in page.locator(".sheet figcaption").first.inner_text()
    change = page.locator(".change")
    assert change.inner_text().strip() == "Overridden by TR 32-07: read that page first."
    change.locator("summary").tap()
    change.get_by_role("link", name="Open TEMPORARY REVISION").wait_for()


def test_the_bar_acts_on_the_sheet_in_view_and_covers_none_of_it(pages, tab):
    page = opened(tab, pages("manual", 36))
    widths = "[...document.querySelectorAll('.sheet .paper')].map((paper) => paper.style.width)"
    scrolled = page.evaluate("scrollY")
    page.get_by_role("button", name="Larger").tap()
    page.wait_for_function(f"() => {widths}[0] === '150%'")
    assert page.evaluate("scrollY") == scrolled and page.evaluate(widths)[1] == ""
    page.get_by_role("button", name="Page width").tap()
    page.evaluate("document.querySelector('.beside').scrollIntoView({block: 'end'})")
    ends, bar = (page.locator(each).last.bounding_box() for each in (".sheet .paper", ".low"))
    assert ends["y"] + ends["height"] <= bar["y"], "the page's lower edge stands above the bar"
    page.evaluate("document.querySelectorAll('.stage')[1].scrollIntoView()")
    page.get_by_role("button", name="Larger").tap()
    page.wait_for_function(f"() => {widths}[1] === '150%'")
    assert page.evaluate(widths)[0] == "100%"
    stage, bar = (page.locator(each).last.bounding_box() for each in (".sheet .stage", ".low"))
    assert stage["y"] + stage["height"] <= bar["y"] + 1, "a larger page is moved wholly above the bar"


@pytest.mark.parametrize("size", SIZES)
def test_text_of_twice_the_size_leaves_the_warning_and_the_picture_in_view(pages, tab, size):
    page = opened(tab, pages("manual", 36), size)
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.locator(".sheet").first.evaluate("(sheet) => scrollTo(0, sheet.offsetTop)")
    first, stuck, low = (page.locator(each).bounding_box() for each in (".guard .first", ".stuck", ".low"))
    assert stuck["y"] == 0 and first["y"] < stuck["height"] - 48
    assert "WARNING" in page.locator(".guard").inner_text()
    assert low["y"] - stuck["height"] > size[1] * 0.25
    page.locator(".strip summary").tap()
    page.locator(".strip .grown").wait_for()
    first = page.locator(".guard .first").bounding_box()
    assert 0 <= first["y"] < page.locator(".stuck").bounding_box()["height"] - 48, "beside the reasons too"


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_can_be_used_with_gloves(pages, tab, name, scheme):
    page = opened(tab, pages(name, 1 if name == "scan" else 33), scheme=scheme)
    usable(page, name)


def test_without_a_script_the_picture_is_sharp_all_the_same(pages, tab):
    page = tab(TABLET, javascript=False, device_scale_factor=2)
    page.goto(pages("manual", 33))
    picture = page.locator(".sheet img.over")
    chosen = picture.evaluate("(image) => image.decode().then(() => [image.currentSrc, image.naturalWidth])")
    assert int(chosen[0].rpartition("=")[2]) >= 150
    assert page.locator(".guard .read").inner_text().count("WARNING") == 1
    assert math.isclose(picture.bounding_box()["width"], page.locator(".paper").bounding_box()["width"])
