"""Files sent from a browser: progress without a reload, the same without script, and the map of chapters."""

import axe
from in_chromium import DESK, PHONE, SIZES
from usable import small_targets

from indexer.settings import Settings

BROKEN = b"%PDF-1.4 cut short"


def test_a_file_is_sent_and_what_came_of_it_appears_without_a_reload(tab, served, own_demo):
    page = tab(DESK)
    page.goto(f"{served(own_demo, Settings(workers=1))}/ingest")
    page.evaluate("window.same = true")
    assert page.locator("#said").get_attribute("aria-live") == "polite"
    page.set_input_files("#files", {"name": "scan.pdf", "mimeType": "application/pdf", "buffer": BROKEN})
    page.get_by_role("button", name="Send to the library").click()
    page.get_by_text("Sent: 1 of 1.").wait_for()
    page.locator("#refused li", has_text="scan.pdf").wait_for(timeout=60_000)
    assert page.evaluate("window.same"), "the page was not loaded anew"
    page.get_by_role("button", name="Remove scan.pdf").click()
    page.locator("#refused", has_text="None.").wait_for()


def test_without_script_the_form_does_the_same(tab, served, own_demo):
    page = tab(DESK, javascript=False, expected=["400"])  # the answer that the file was refused
    page.goto(f"{served(own_demo, Settings(workers=1))}/ingest")
    words = {"name": "notes.txt", "mimeType": "text/plain", "buffer": b"words"}
    page.set_input_files("#files", words)
    page.get_by_role("button", name="Send to the library").click()
    page.get_by_role("alert").get_by_text("this is not a PDF file").wait_for()


def test_both_pages_fit_every_size_and_are_accessible(tab, demo):
    for address in ("ingest", "chapters"):
        for size in SIZES:
            page = tab(size)
            page.goto(f"{demo}/{address}")
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= size[0], f"/{address} is {wide} wide at {size}"
            page.close()
        for scheme in ("light", "dark"):
            page = tab(PHONE, scheme)
            page.goto(f"{demo}/{address}")
            assert axe.violations(page) == []
            assert small_targets(page) == []
            page.close()
