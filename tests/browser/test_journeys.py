"""The five journeys of a day at the aircraft, from cold: by touch at three sizes, by keys, without script.

How many taps a journey may take is a limit of our own; what its end must show is held against the sample
documents themselves, read with pdfplumber, and their truth tables.
"""

import csv
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from hands import Fingers, Keys
from in_chromium import SIZES, TABLET

pdfplumber = pytest.importorskip("pdfplumber")

SAMPLES = Path(__file__).parents[2] / "sample_docs"
MANUAL, CATALOG = (SAMPLES / "pdf" / f"qz62-{name}.pdf" for name in ("maintenance-manual", "parts-catalog"))
BOX = "main form.ask input[name=q]"
MAIN_BAR = "nav[aria-label=Main]"


@pytest.fixture(scope="module")
def shop(demo_library, served, tmp_path_factory):
    """The address of a demonstration to write in: checks and packets are kept."""
    folder = tmp_path_factory.mktemp("journeys") / "library"
    shutil.copytree(demo_library, folder)
    return served(folder)


def printed(file: Path, pdf_page: int, box: Any = None) -> str:
    """The words of a page of a sample, or of a box of it (left, top, right, bottom; points)."""
    with pdfplumber.open(file) as pdf:
        page = pdf.pages[pdf_page - 1]
        return (page.within_bbox(box) if box else page).extract_text()


def at_address(page: Any) -> tuple[str, int]:
    """Publication and PDF page of the page that is shown."""
    publication, pdf_page = re.search(r"/publications/([^/]+)/pages/(\d+)", page.url).groups()
    return publication, int(pdf_page)


def look_for(hand: Any, words: str) -> None:
    """Write words into the one box; what is found shows while they are written, or after the button."""
    hand.write(hand.page.locator(BOX), words)
    if hand.scripted:
        hand.page.wait_for_function("(words) => document.title.startsWith(words)", arg=words)
    else:
        hand.press(hand.page.locator("form.ask").get_by_role("button", name="Find"))
        hand.page.wait_for_url("**/?q=**")


def find_a_page(hand: Any) -> None:
    page = hand.page
    look_for(hand, "brake lining worn")
    hand.press(page.locator(".hit h3 a", has_text="QZM-62-2").first)
    page.wait_for_url("**/pages/**")
    box = page.locator(".sheet rect.box").first
    hand.see(box)
    assert page.locator(".sheet img").first.evaluate(
        "(image) => image.decode().then(() => image.naturalWidth)"
    )
    left, top, width, height = (float(box.get_attribute(name)) for name in ("x", "y", "width", "height"))
    boxed = printed(MANUAL, at_address(page)[1], (left, top, left + width, top + height)).casefold()
    assert "brake" in boxed or "lining" in boxed, "the box is around the words on the printed page"


def everything_on_a_chapter(hand: Any) -> None:
    page = hand.page
    hand.press(page.get_by_role("link", name="QX-1AB"))
    page.get_by_role("heading", name="All passages on a chapter, marked for QX-1AB").wait_for()
    hand.press(page.locator("ul[aria-labelledby=chapters] a", has_text="32 Landing gear"))
    page.wait_for_url("**/system/32")
    hand.see(page.locator(".hand .reg", has_text="QX-1AB"))
    hand.see(page.locator("article.line .applies", has_text="QX-1AB").first)
    assert page.locator("article.line").count() == page.locator("article.line > .applies").count() > 0
    listed = page.locator("main").text_content()
    with open(SAMPLES / "truth.csv", encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["chapter"] == "32" or row["filed_under"] == "32"]
    # What a scan's pages hold is not read yet: the listing can only name its file.
    names = {row["file"] if row["text_state"] == "no text" else row["publication_number"] for row in rows}
    names = {name for name in names if len(name) > 2}
    assert len(names) >= 8 and [each for each in sorted(names) if each not in listed] == []


def part_number_from_a_figure(hand: Any) -> None:
    """The picture shows a bolt as item 15: which part number is it?"""
    page = hand.page
    look_for(hand, "figure 1 brake assembly")
    hand.press(page.locator(".hit h3 a[href*='/pages/13?']", has_text="QZM-62-4").first)
    page.wait_for_url("**/pages/13?**")
    hand.press(page.locator(".ways a", has_text="Figure 1"))
    page.wait_for_url("**/figures/**")
    hand.press(page.get_by_role("link", name="Item 15: show it on the figure"))
    row = page.locator("tr.marked")
    number = row.locator(".number").first
    page.locator(".marked-row", has_text="Item 15").wait_for()
    hand.see(page.locator(".marked-row"))
    assert re.search(rf"^15 {number.inner_text()} \. BOLT, TIE", printed(CATALOG, 14), re.MULTILINE)
    assert number.inner_text() in page.locator(".marked-row").inner_text()


def check_a_line(hand: Any) -> None:
    page = hand.page
    hand.press(page.locator(MAIN_BAR).get_by_role("link", name="Check"))
    page.wait_for_url("**/check")
    line = "Replaced brake linings IAW QZM-62-2 Rev 6, 32-42-00 pg 401."
    hand.write(page.get_by_label("The line or entry"), line)
    hand.press(page.get_by_role("button", name="Check the source"))
    page.wait_for_url("**/checks/*")
    finding = page.locator(".finding .lead").first
    hand.see(finding)
    with open(SAMPLES / "publications_truth.csv", encoding="utf-8") as file:
        (manual,) = [row for row in csv.DictReader(file) if row["number"] == "QZM-62-2"]
    said = page.locator(".finding").first.text_content()
    assert finding.inner_text() and manual["number"] in said and manual["revision"] == "6"


def make_and_save_a_packet(hand: Any) -> None:
    page = hand.page
    hand.press(page.get_by_role("link", name="QX-1AB"))
    page.get_by_role("heading", name="All passages on a chapter, marked for QX-1AB").wait_for()
    look_for(hand, "brake lining worn")
    hit = page.locator(".hit", has_text="QZM-62-2").first
    pdf_page = int(re.search(r"/pages/(\d+)", hit.locator("h3 a").get_attribute("href"))[1])
    hand.press(hit.get_by_role("button", name="Add to packet"))
    hand.press(hit.get_by_role("link", name="In the packet"))
    page.wait_for_url("**/packets/*")
    with page.expect_download() as coming:
        hand.press(page.get_by_role("link", name="Save as PDF"))
    saved = Path(coming.value.path())
    assert saved.read_bytes().startswith(b"%PDF") and coming.value.suggested_filename.endswith(".pdf")
    wanted = set(printed(MANUAL, pdf_page).split())
    with pdfplumber.open(saved) as pdf:
        texts = [each.extract_text() for each in pdf.pages]
    assert "QX-1AB" in texts[0] and any(wanted <= set(text.split()) for text in texts[1:])


def journey(walk: Callable[[Any], None], most_taps: int, most_plain: int) -> Any:
    """most_plain = taps without script, where each search takes its button."""
    given = SimpleNamespace(walk=walk, most_taps=most_taps, most_plain=most_plain)
    return pytest.param(given, id=walk.__name__)


JOURNEYS = [
    journey(find_a_page, 3, 3),
    journey(everything_on_a_chapter, 3, 3),
    journey(part_number_from_a_figure, 4, 5),
    journey(check_a_line, 3, 3),
    journey(make_and_save_a_packet, 6, 6),
]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("each", JOURNEYS)
def test_by_touch(shop, tab, each, size):
    hand = Fingers(tab(size, touch=True))
    hand.page.goto(f"{shop}/")
    each.walk(hand)
    hand.witnessed()
    assert hand.taps <= each.most_taps


@pytest.mark.parametrize("each", JOURNEYS)
def test_by_keys_alone(shop, tab, each):
    hand = Keys(tab(TABLET))
    hand.page.goto(f"{shop}/")
    each.walk(hand)


@pytest.mark.parametrize("each", JOURNEYS)
def test_without_script(shop, tab, each):
    hand = Fingers(tab(TABLET, touch=True, javascript=False), scripted=False)
    hand.page.goto(f"{shop}/")
    each.walk(hand)
    assert hand.taps <= each.most_plain
