"""Numbers and titles of papers beside words of approval, where they are not this paper's."""

import re
from collections.abc import Sequence

from indexer.reading.page import Line, Page
from indexer.tagging.flow import one_line, plain
from indexer.tagging.placed_words import PlacedWords
from indexer.trade.approval_words import ApprovalKind
from indexer.trade.publication_types import PublicationType as Type

_NUMBER = re.compile(
    r"\bthis\s(?:[a-z-]+\s){0,4}?(?:bulletin|letter|instructions?|document|publication|manual|supplement|drawing|SB|ASB"
    r"|SRM|AFM|RFM),?\s(?:No\.\s)?(?P<number>(?-i:[A-Z0-9][A-Z0-9.-]{0,20}[0-9][A-Z0-9.-]{0,10}))",
    re.IGNORECASE,
)
_TITLE = re.compile(
    r"\b(?:manual|supplement|bulletin|catalog(?:ue)?|handbook|letter|instructions?|program|list|model|document"
    r"|report|drawing|stc)\b",
    re.IGNORECASE,
)
_OWN_TITLES = {
    Type.STRUCTURAL_REPAIR_MANUAL: "structural repair manual",
    Type.FLIGHT_MANUAL: "flight manual",
    Type.FLIGHT_MANUAL_SUPPLEMENT: "flight manual supplement",
    Type.MAINTENANCE_MANUAL: "maintenance manual",
    Type.COMPONENT_MAINTENANCE_MANUAL: "component maintenance manual",
}
_TITLE_LINES = 6
_NEAR = 3  # lines above and below


def names_other_number(quote: str, first_page: Page) -> bool:
    """Whether a grant names its paper by a number that its title does not print."""
    found = _NUMBER.search(plain(quote))
    if found is None:
        return False
    title = (*first_page.head, *first_page.body[:_TITLE_LINES], *first_page.foot)
    lines = [plain(one_line(line.text)) for line in title]
    printed = " ".join(line for line in lines if "approv" not in line.lower())
    return found["number"].rstrip(".") not in printed


def beside_another_title(words: PlacedWords, kind: Type | None, page: Page) -> bool:
    """Whether a stamp stands by a title that is not this paper's own: a row of a list, a page bound in."""
    if words.speaks_of_this or words.of_technical_content or words.words.kind is ApprovalKind.LIMITATIONS:
        return False
    zone: Sequence[Line] = {"head": page.head, "body": page.body, "foot": page.foot}[words.zone]
    place = next((at for at, line in enumerate(zone) if line is words.lines[0]), None)
    if place is None:
        return False
    near = zone[max(0, place - _NEAR) : place + len(words.lines) + _NEAR]
    return any(_is_title(plain(one_line(line.text)), kind) for line in near)


def _is_title(line: str, kind: Type | None) -> bool:
    if not _TITLE.search(line) or len(line.split()) > 8 or line.rstrip().endswith((".", ";")):
        return False
    own = _OWN_TITLES.get(kind) if kind else None
    name = re.sub(r"^(?:airplane|aircraft|rotorcraft)\s|\s(?:page\s)?[0-9-]+$", "", line.strip().lower())
    return name != own
