"""The pages in a real browser, as a technician meets them: a tablet, gloves, glare or the dark."""

import shutil
import threading

import pytest
import uvicorn

from indexer.settings import Settings
from server.app import create_app
from server.serving import listening

pytestmark = pytest.mark.browser
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
if CHROMIUM is None:
    pytest.skip("these tests look at the pages in Chromium, which is not installed", allow_module_level=True)
sync_api = pytest.importorskip("playwright.sync_api", reason="these tests drive Chromium through Playwright")

SIZES = [(1280, 800), (800, 1280), (390, 844)]  # a tablet both ways, and a phone
GLOVE = 48  # CSS pixels
FLAGS = [
    "--no-sandbox",
    "--headless",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]

# A radio button or a check box is hit by its label too (HTML, "labeled control"): the label is measured.
TARGETS = """() => [...document.querySelectorAll(
    'a, button, input:not([type=hidden]), select, textarea, summary')]
  .filter(target => target.checkVisibility() && !target.matches('.skip, .unseen'))
  .map(target => ['radio', 'checkbox'].includes(target.type) ? target.closest('label') : target)
  .map(target => ({box: target.getBoundingClientRect(), words: target.innerText || target.name}))
  .filter(({box}) => box.width < GLOVE || box.height < GLOVE)
  .map(({box, words}) => `${words}: ${box.width} x ${box.height}`)"""

# Contrast by WCAG 2.1, "relative luminance" and "contrast ratio"; 4.5 for text, 3 for large text (success
# criterion 1.4.3: large = 24 px, or bold from 18.66 px).
CONTRAST = """() => {
  const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
  const rgba = (color) => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = color;
    canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data];
  };
  const luminance = ([r, g, b]) => {
    const linear = (v) => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    return 0.2126 * linear(r / 255) + 0.7152 * linear(g / 255) + 0.0722 * linear(b / 255);
  };
  const ground = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const color = rgba(getComputedStyle(at).backgroundColor);
      if (color[3] === 255) return color;
    }
    return [255, 255, 255, 255];
  };
  const weak = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let seen = 0;
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!node.textContent.trim() || !element.checkVisibility()) continue;
    if (element.closest('.skip, .unseen, svg')) continue;
    const style = getComputedStyle(element);
    const [one, two] = [luminance(rgba(style.color)), luminance(ground(element))];
    const ratio = (Math.max(one, two) + 0.05) / (Math.min(one, two) + 0.05);
    const size = parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    seen += 1;
    if (ratio < (large ? 3 : 4.5)) weak.push(`${node.textContent.trim()}: ${ratio.toFixed(2)}`);
  }
  return {seen, weak};
}"""


@pytest.fixture(scope="module")
def chromium():
    with sync_api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


def answering(library):
    """Serve a library from a thread; gives the address and what ends it."""
    ear = listening("127.0.0.1", 0)
    service = uvicorn.Server(uvicorn.Config(create_app(library, Settings()), log_level="warning"))
    thread = threading.Thread(target=service.run, kwargs={"sockets": [ear]})
    thread.start()

    def end():
        service.should_exit = True
        thread.join()
        ear.close()

    return f"http://127.0.0.1:{ear.getsockname()[1]}", end


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


@pytest.fixture
def tab(chromium, request):
    """Makes tabs of a size and colour scheme; fails the test on any complaint of the browser."""
    contexts, complaints = [], []

    def make(size=(800, 1280), scheme="light", javascript=True):
        context = chromium.new_context(
            viewport={"width": size[0], "height": size[1]},
            color_scheme=scheme,
            java_script_enabled=javascript,
        )
        contexts.append(context)
        page = context.new_page()
        page.on(
            "console", lambda message: complaints.append(message.text) if message.type == "error" else None
        )
        page.on("pageerror", lambda error: complaints.append(str(error)))
        return page

    yield make
    for context in contexts:
        context.close()
    assert not complaints, "the browser complained: " + "; ".join(complaints)


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


def unfold(page):
    """Open every fold, so that what is inside is measured too."""
    page.evaluate("() => document.querySelectorAll('details').forEach((fold) => { fold.open = true; })")


def usable(page, at):
    """That every target can be hit with gloves, nothing runs off the side, and all words can be read."""
    unfold(page)
    assert page.evaluate(TARGETS.replace("GLOVE", str(GLOVE))) == [], f"too small at {at}"
    overflow = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(overflow) <= 0, f"{at} scrolls sideways"
    contrast = page.evaluate(CONTRAST)
    assert contrast["seen"] > 10
    assert contrast["weak"] == [], f"too faint at {at}"


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
    page.get_by_role("button", name="Search").click()
    page.wait_for_url("**/?q=brake+lining")
    assert page.locator(".group").count() >= 2
    hit = page.locator(".hit", has_text="QZM-62-2").first
    assert hit.locator("mark").count() >= 1
    hit.locator("h3 a").click()
    picture = page.locator(".sheet img").last
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
    natural = page.locator(".sheet img").evaluate("(image) => [image.complete, image.naturalWidth]")
    assert natural[0] and natural[1] == pytest.approx(1275, abs=1)


def test_a_word_is_marked_where_it_is_printed(small, ids, tab):
    """The small library prints its line at 72 points from the left, 130 from the top."""
    page = tab()
    page.goto(f"{small}/publications/{ids['manual']}/pages/2?q=wheel")
    frame = page.locator(".sheet img").bounding_box()
    scale = frame["width"] / 612
    word = page.locator("rect.word").first.bounding_box()
    assert (word["y"] + word["height"] - frame["y"]) / scale == pytest.approx(130, abs=8)
    assert 72 < (word["x"] - frame["x"]) / scale < 250


def test_a_zoomed_page_scrolls_in_its_frame_and_shows_the_mark(small, ids, tab):
    page = tab((390, 844))
    page.goto(f"{small}/publications/{ids['manual']}/pages/2?zoom=200&q=brake&passage={ids['manual']}-0")
    sheet = page.locator(".sheet")
    inside = sheet.evaluate("(sheet) => [sheet.scrollWidth, sheet.clientWidth, sheet.scrollLeft]")
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
