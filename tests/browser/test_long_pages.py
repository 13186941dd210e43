"""Long pages on a phone: what is folded is counted, is on the page all the same, and prints."""

import re

import pytest
from in_chromium import PHONE

SCREENS = 17  # of a phone, for the listing of a system with some forty lines
# Laid out in print, as on the screen: a closed fold's content is not.
_SEEN = "(lines) => lines.filter((line) => line.checkVisibility()).length"


@pytest.fixture
def listing(demo, tab):
    page = tab(PHONE)
    page.goto(f"{demo}/system/32")
    return page


def test_the_listing_says_first_what_standing_its_lines_have_and_what_is_not_held(listing):
    lines = listing.locator(".group:not(.part .group) article.line")
    words = listing.get_by_text("Standing of the").inner_text()
    total, counted = re.fullmatch(r"Standing of the (\d+) lines: (.+)\.", words).groups()
    assert int(total) == lines.count() == sum(int(each.split()[0]) for each in counted.split(", "))
    leads = [each.casefold() for each in lines.locator(".known > b:last-of-type").all_text_contents()]
    assert leads.count("approved data") == int(re.search(r"(\d+) approved data", words)[1])
    missing = listing.locator(".owed b", has_text="named on these pages")
    named = listing.locator("section", has=listing.locator("#not-here")).locator(".rows > li > b").count()
    assert named == int(missing.inner_text().split()[0]) > 0
    box = missing.bounding_box()
    assert box["y"] + box["height"] < PHONE[1]  # on the first screen


def test_each_fold_of_the_listing_says_how_many_lines_of_what_it_holds(listing):
    folds = listing.locator("details.rest")
    assert folds.count() > 0
    for fold in folds.all():
        lines = fold.locator("article.line")
        count, named = re.fullmatch(
            r"(\d+) more lines: (.+)", fold.locator("> summary").text_content()
        ).groups()
        assert (
            int(count) == lines.count() == sum(int(each) for each in re.findall(r"\((\d+)\)(?:;|$)", named))
        )
    height = listing.evaluate("document.documentElement.scrollHeight")
    assert height <= SCREENS * PHONE[1]


def test_closed_folds_of_the_listing_print(listing):
    lines = listing.locator("article.line")
    folded = listing.locator("details.rest article.line").count()
    assert lines.evaluate_all(_SEEN) == lines.count() - folded < lines.count()
    listing.emulate_media(media="print")
    assert lines.evaluate_all(_SEEN) == lines.count()


def test_a_jump_down_the_listing_stands_where_it_leads(listing):
    listing.get_by_role("link", name=re.compile("^Letters")).click()
    head = listing.locator("#letters")
    listing.wait_for_function("scrollY > 0")
    assert 0 <= head.bounding_box()["y"] < PHONE[1] / 2
