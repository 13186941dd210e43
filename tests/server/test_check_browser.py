"""The source check in a real browser: pasted, read, copied, by touch and by keyboard."""

import shutil

import pytest
from test_browser import (  # noqa: F401
    SIZES,
    answering,
    chromium,
    pytestmark,
    tab,
    usable,
)

from indexer.library import fleet
from indexer.settings import Settings
from server.opened import OpenedLibrary
from server.sourcecheck import check

ENTRY = (
    "Replaced LH brake linings IAW QZM-62-2 Rev 6, 32-42-00 pg 401 and tie bolts IAW SB QZ62-32-0114 Part 2. "
    "Serviced strut IAW MM."
)


@pytest.fixture(scope="module")
def shop(sample_folder, tmp_path_factory):
    """A served library of its own, with one aircraft and one check; gives its address, and the check's."""
    folder = tmp_path_factory.mktemp("checks") / "library"
    shutil.copytree(sample_folder, folder)
    with OpenedLibrary.open(folder, Settings()) as library:
        fleet.add(library.catalogue, "N410QZ", "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        made = check(library, ENTRY, "N410QZ").id
        address, end = answering(library)
        yield address, f"{address}/checks/{made}"
        end()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_the_check_can_be_used_with_gloves_and_read(shop, tab, size, scheme):  # noqa: F811
    page = tab(size, scheme)
    home, made = shop
    for address in (f"{home}/check", f"{home}/checks", made, f"{made}?before={made.rpartition('/')[2]}"):
        page.goto(address)
        usable(page, address)


@pytest.mark.parametrize("javascript", [True, False], ids=["script", "no script"])
def test_from_the_pasted_line_to_the_page_that_proves_it(shop, tab, javascript):  # noqa: F811
    page = tab(javascript=javascript)
    page.goto(f"{shop[0]}/check")
    page.get_by_label("The line or entry").fill(ENTRY)
    page.get_by_label("Aircraft", exact=True).select_option("N410QZ")
    page.get_by_text("Major repair or alteration", exact=True).click()
    page.get_by_role("button", name="Check the source").click()
    page.wait_for_url("**/checks/*")
    assert page.locator("blockquote mark").count() == page.locator(".finding").count() >= 3
    lead = page.locator(".finding .lead").first
    assert lead.evaluate("(lead) => parseFloat(getComputedStyle(lead).fontSize)") >= 24
    first = page.locator(".finding").first
    first.locator("a.way").first.click()
    page.wait_for_url("**/pages/**")
    assert page.locator(".sheet rect.box").count() >= 1, "the passage is marked"


def test_the_words_for_the_record_are_copied(shop, chromium):  # noqa: F811
    context = chromium.new_context(permissions=["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.goto(shop[1])
    words = page.locator("#wording-1").inner_text()
    page.get_by_role("button", name="Copy the words of reference 1").click()
    page.locator("#finding-1 [role=status]").get_by_text("Copied.").wait_for()
    assert page.evaluate("navigator.clipboard.readText()") == words
    context.close()


def test_without_script_one_tap_selects_the_words(shop, tab):  # noqa: F811
    page = tab(javascript=False)
    page.goto(shop[1])
    assert page.get_by_role("button", name="Copy the words").count() == 0
    words = page.locator("#wording-1")
    words.click()
    assert words.evaluate("(words) => getComputedStyle(words).userSelect") == "all"


def test_the_form_is_filled_and_sent_by_keyboard_alone(shop, tab):  # noqa: F811
    page = tab()
    page.goto(f"{shop[0]}/check")
    assert page.evaluate("document.activeElement.id") == "text"
    page.keyboard.type("Serviced tire IAW MM.")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowDown")
    assert page.locator("input[name=work]:checked").get_attribute("value") == "minor"
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/checks/*")
    assert "for no aircraft" not in page.locator("main").inner_text()


def test_a_finding_prints_without_its_buttons(shop, tab):  # noqa: F811
    page = tab()
    page.goto(shop[1])
    page.emulate_media(media="print")
    assert page.get_by_role("button", name="Ask again today").count() == 0
    assert page.get_by_role("heading", name="What this check cannot do").is_visible()
