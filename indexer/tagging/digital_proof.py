"""Approval needs proof in digital text: what was read by OCR, words or page, is never called approved."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from indexer.reading.page import Page, Passage
from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.evidence import Origin, Tag

OCR_WORDS_CONDITION = "The words that would approve it were read by OCR: read the page itself."
OCR_PAGE_CONDITION = (
    "This page was read by OCR: whether the words of approval reach it is not certain, read the page itself."
)
SHOWS_MORE_CONDITION = (
    "The page shows more than its text holds: whether the words of approval reach it is not certain, read the"
    " page itself."
)
_MAY_BE_REQUIRED = "It may also be required by rule."


def proved_by_digital_text(
    standings: Mapping[int, Standing], pages: Sequence[Page], passages: Sequence[Passage]
) -> dict[int, Standing]:
    """Per passage ordinal the standing as found, less every approval that rests on text read by OCR.

    A passage rests on it when the quoted words, or any page that it runs over, were not digital text: a
    misread letter turns words round, and a misread page number puts a page under another section. The digital
    words of a page whose picture is still to be read are no proof either: a stamp over a scan, with "NOT" in
    the scan beside it.
    """
    scanned = {page.pdf_page for page in pages if page.origin is not Origin.DIGITAL}
    unread = {page.pdf_page for page in pages if page.ocr_reason is not None} - scanned
    return {
        passage.ordinal: _proved(standings[passage.ordinal], passage, scanned, unread)
        for passage in passages
        if passage.ordinal in standings
    }


def digital_value(tag: Tag[str] | None) -> str | None:
    """A value printed in digital text; None without one, or when it was read by OCR."""
    return tag.value if tag and tag.evidence.origin is Origin.DIGITAL else None


def _proved(standing: Standing, passage: Passage, scanned: set[int], unread: set[int]) -> Standing:
    if standing.value is not StandingValue.APPROVED:
        return standing
    doubt = _doubt(standing, passage, scanned, unread)
    if not doubt:
        return standing
    required = (_MAY_BE_REQUIRED,) if standing.mandatory else ()
    return replace(
        standing,
        value=StandingValue.UNDETERMINED,
        mandatory=False,
        conditions=(doubt, *required, *standing.conditions),
    )


def _doubt(standing: Standing, passage: Passage, scanned: set[int], unread: set[int]) -> str:
    """Why an approval is not proved; "" when it is."""
    evidence = standing.evidence
    if evidence is None or evidence.origin is not Origin.DIGITAL:
        return OCR_WORDS_CONDITION
    places = {passage.pdf_page, *(box.pdf_page for box in passage.boxes)}
    if passage.origin is not Origin.DIGITAL or places & scanned:
        return OCR_PAGE_CONDITION
    return SHOWS_MORE_CONDITION if (places | {evidence.pdf_page}) & unread else ""
