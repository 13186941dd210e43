"""The parts pages in a real browser: tablet and phone, gloves, light and dark, with and without script."""

import drawn_parts
import pytest
from test_browser import (  # noqa: F401
    SIZES,
    answering,
    chromium,
    pytestmark,
    tab,
    usable,
)
from usable import small_targets

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server.opened import OpenedLibrary


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """The address of a served library of parts lists, and what is drawn in it."""
    place = tmp_path_factory.mktemp("parts")
    drawn = drawn_parts.make(place / "library", place / "files")
    with Catalogue.open(place / "library") as held:
        fleet.add(held, "QX-1AB", "OW-12", "R. Quill", serial="0020", maker="Osprey Works")
    with OpenedLibrary.open(place / "library", Settings()) as library:
        address, end = answering(library)
        yield address, drawn
        end()


def addresses(drawn):
    return [
        "/parts",
        "/parts?q=AN4-12A",
        "/parts?q=QZ32-4421-3",
        "/parts?q=brake",
        "/parts?q=zeppelin&figure=1",
        "/parts?q=QZ99-1000-1",
        f"/parts?figure=1&catalogue={drawn.catalogue}",
        f"/parts/{drawn.part(1)}",
        f"/parts/{drawn.part(7)}",
        f"/parts/{drawn.part(10)}",
        f"/parts/{drawn.part(2)}?zoom=200",
        f"/parts/{drawn.scan}-part-1",
        f"/figures/{drawn.figure(0)}?row={drawn.part(2)}",
        f"/figures/{drawn.figure(1)}",
        "/parts/list",
        "/?q=AN4-12A",
    ]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_every_parts_page_can_be_used_with_gloves_and_read(shop, tab, size, scheme):  # noqa: F811
    address, drawn = shop
    page = tab(size, scheme)
    page.goto(f"{address}/fleet/choose?aircraft=QX-1AB&back=/parts")
    for at in addresses(drawn):
        page.goto(address + at)
        usable(page, at)


@pytest.mark.parametrize("javascript", [True, False], ids=["script", "no script"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_from_a_number_to_its_place_on_the_figure(shop, tab, size, javascript):  # noqa: F811
    address, drawn = shop
    page = tab(size, javascript=javascript)
    page.goto(f"{address}/parts")
    page.get_by_role("searchbox").fill("QZ32-4421-5")
    page.get_by_role("button", name="Find parts").click()
    page.locator(".match.exact .hit a").first.click()
    page.wait_for_url(f"**/parts/{drawn.part(2)}")
    assert page.locator(".sheet .box").count() == 2, "its item on the figure, its row in the list"
    page.get_by_role("link", name="All rows of the figure").click()
    marked = page.locator(".marked-row")
    assert "Item 2A" in marked.inner_text()
    page.get_by_role("link", name="Item 5: show it on the figure").click()
    page.wait_for_url(f"**row={drawn.part(5)}#art")
    assert "Item 5: QZ32-4450-1" in marked.inner_text()
    box_of = "(each) => document.querySelector(`.sheet ${each}`).getBoundingClientRect().toJSON()"
    frame, box = page.evaluate(f"['img', 'rect.box'].map({box_of})")
    left, top = drawn_parts.CALLOUTS["5"]
    across, down = frame["width"] / drawn_parts.WIDTH, frame["height"] / drawn_parts.HEIGHT
    assert box["x"] < frame["x"] + left * across < box["x"] + box["width"]
    assert box["y"] < frame["y"] + top * down < box["y"] + box["height"]
    assert page.locator("tr.marked").count() == 1
    page.get_by_role("link", name="Back to its row").click()
    assert page.locator("tr.marked .number").first.inner_text() == "QZ32-4450-1"


def test_a_tap_on_a_row_marks_it_where_it_is_and_one_that_is_not_drawn_says_so(shop, tab):  # noqa: F811
    address, drawn = shop
    page = tab((800, 1280))
    page.goto(f"{address}/figures/{drawn.figure(0)}")
    assert page.locator(".sheet rect").count() == 0
    page.locator(f"#row-{drawn.part(1)} .name").first.click()
    assert page.locator(".sheet rect.box").count() == 1
    page.locator(f"#row-{drawn.part(4)} .name").first.click()
    assert page.locator(".sheet rect.box").count() == 0
    assert "The figure does not show it." in page.locator(".marked-row").inner_text()


def test_the_number_is_selected_whole_and_copied_by_one_tap(shop, tab):  # noqa: F811
    address, drawn = shop
    page = tab()
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.goto(f"{address}/parts/{drawn.part(7)}")
    page.get_by_role("button", name=f"Copy the part number {drawn_parts.LONG_NUMBER}").click()
    page.get_by_text("Copied.").wait_for()
    assert page.evaluate("navigator.clipboard.readText()") == drawn_parts.LONG_NUMBER


@pytest.mark.parametrize("javascript", [True, False], ids=["script", "no script"])
def test_a_list_is_answered_and_saved(shop, tab, javascript):  # noqa: F811
    address, _ = shop
    page = tab((390, 844), javascript=javascript)
    page.goto(f"{address}/parts/list")
    page.get_by_label("The list").fill(f"AN4-12A\n{drawn_parts.LONG_NUMBER}\nQZ32-4421-3\n")
    page.get_by_role("button", name="Answer the list").click()
    assert page.locator("article.answer").count() == 3
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0
    assert small_targets(page) == []
    assert "is superseded by QZ32-4421-5" in page.locator("article.answer").last.inner_text()
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save the answers as CSV").click()
    assert saving.value.suggested_filename == "parts.csv"
    assert len(saving.value.path().read_text(encoding="utf-8-sig").splitlines()) == 4
