"""The job packet by touch: add in place, put in order, save as a PDF; and what its pages look like."""

import io

import axe
import pytest
from in_chromium import PHONE
from usable import usable

from indexer.library.catalogue import Catalogue

pikepdf = pytest.importorskip("pikepdf")


@pytest.fixture
def shop(own_demo, served):
    """A demonstration of its own to write in: its address, and the address of a figure with its rows."""
    from indexer.library.parts import figures

    with Catalogue.open(own_demo) as catalogue:
        figure = figures(catalogue)[0]
    return served(own_demo), f"/figures/{figure.id}", f"/parts/{figure.publication_id}-part-0"


def test_a_packet_is_filled_put_in_order_and_saved_by_touch(shop, tab):
    address, figure, part = shop
    page = tab(PHONE, touch=True)
    page.goto(f"{address}{figure}?aircraft=QX-4GH")
    page.get_by_role("button", name="Add to packet").tap()
    link = page.get_by_role("link", name="In the packet")
    link.wait_for()
    assert page.url.split("?")[0] == f"{address}{figure}", "the page stays"
    assert "1 item." in page.locator(".packed-said").inner_text()
    assert page.locator("nav[aria-label=Main] .count").inner_text().startswith("1")
    page.goto(f"{address}{part}")
    page.get_by_role("button", name="Add to packet").tap()
    page.get_by_role("link", name="In the packet").tap()
    page.wait_for_url("**/packets/*")
    names = page.locator("[data-item] h2")
    before = names.all_inner_texts()
    assert len(before) == 2
    page.get_by_role("button", name="Move item 2 up").tap()
    page.locator("#packet-said").filter(has_text="Now item 1.").wait_for(state="attached")
    assert names.all_inner_texts() == before[::-1]
    assert page.evaluate("document.activeElement.value") == "down", "up is not possible any more"
    with page.expect_download() as download:
        page.get_by_role("link", name="Save as PDF").tap()
    with open(download.value.path(), "rb") as file, pikepdf.open(io.BytesIO(file.read())) as pdf:
        assert len(pdf.pages) >= 3
    page.reload()
    assert names.all_inner_texts() == before[::-1], "the order is kept"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_packet_pages_can_be_used_and_read(shop, tab, scheme):
    address, figure, _ = shop
    page = tab(PHONE, scheme, touch=True)
    page.goto(f"{address}{figure}?aircraft=QX-1AB")
    page.get_by_role("button", name="Add to packet").tap()
    page.get_by_role("link", name="In the packet").tap()
    page.wait_for_url("**/packets/*")
    packet = page.url
    for at in (packet, f"{address}/packets", f"{packet}/copy"):
        page.goto(at)
        if at == packet:
            page.get_by_role("button", name="Keep on this").wait_for()
        usable(page, at)
        assert axe.violations(page) == [], at
