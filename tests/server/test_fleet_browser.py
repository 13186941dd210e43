"""The fleet list and the aircraft in hand in a real browser: chosen by touch, kept from page to page."""

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

from indexer.settings import Settings
from server.demo import enter_fleet
from server.opened import OpenedLibrary


@pytest.fixture(scope="module")
def shop(sample_folder, tmp_path_factory):
    """The address of a served library of its own, with the sample fleet."""
    folder = tmp_path_factory.mktemp("fleet") / "library"
    shutil.copytree(sample_folder, folder)
    enter_fleet(folder)
    with OpenedLibrary.open(folder, Settings()) as library:
        address, end = answering(library)
        yield address
        end()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_every_page_with_an_aircraft_in_hand_can_be_used_with_gloves_and_read(shop, tab, size, scheme):  # noqa: F811
    page = tab(size, scheme)
    page.goto(f"{shop}/fleet/choose?aircraft=QX-5JK&back=/fleet")
    for address in (
        "/fleet",
        "/fleet/choose?back=/",
        "/?q=brake+tie+bolt",
        "/?q=brake&hide=not-applying",
        "/system/32-42",
        "/system/32-42?hide=not-applying",
    ):
        page.goto(shop + address)
        usable(page, address)


@pytest.mark.parametrize("javascript", [True, False], ids=["script", "no script"])
def test_an_aircraft_is_chosen_kept_hidden_for_and_cleared(shop, tab, javascript):  # noqa: F811
    page = tab(javascript=javascript)
    page.goto(f"{shop}/?q=brake+tie+bolt")
    assert page.locator(".applies").count() == 0
    page.get_by_role("link", name="Choose an aircraft").click()
    page.get_by_role("link", name="QX-4GH").click()
    page.wait_for_url("**/?q=brake+tie+bolt")
    every = page.locator(".hit").count()
    out = page.locator(".hit .does-not-apply").count()
    assert 0 < out <= every == page.locator(".hit .applies").count()
    page.get_by_role("link", name="Hide what does not apply to QX-4GH").click()
    assert page.locator(".hit .does-not-apply").count() == 0
    assert "that do not apply to QX-4GH are hidden" in page.locator(".left-out").inner_text()
    page.get_by_role("link", name="Show everything").click()
    page.locator(".hit h3 a").first.click()
    hand = page.get_by_role("region", name="Aircraft in hand")
    assert "H-14" in hand.inner_text()
    assert page.locator(".strip summary .fact").filter(has_text="QX-4GH").count() == 1  # always in view
    assert page.locator(".strip .applies").count() == 1  # why, behind one tap
    hand.get_by_role("link", name="Clear").click()
    assert "No aircraft chosen" in hand.inner_text() and page.locator(".applies").count() == 0
