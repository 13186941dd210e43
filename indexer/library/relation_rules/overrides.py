"""Pages of temporary revisions that are read before pages of their manuals.

A temporary revision is in force until the manual includes it or it is cancelled (common practice, no
source). A manual dated after it may include it: then both pages are shown, and it is said that nobody can
tell.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from indexer.library.records import OverrideState, PageOverride, UnresolvedClaim
from indexer.library.relation_rules.held import Held, HeldText, Shelf
from indexer.library.relation_rules.naming import fits_revision
from indexer.library.relation_rules.ties import NOT_HELD, unresolved_claim
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.chapters import ChapterNumber, parse_number
from indexer.trade.evidence import Answer


@dataclass(frozen=True)
class Overridden:
    overrides: tuple[PageOverride, ...]
    unresolved: tuple[UnresolvedClaim, ...]


def page_overrides(shelf: Shelf, texts: Mapping[str, HeldText], superseded: Mapping[str, list]) -> Overridden:
    """Resolve every claim to change pages, of the publications on the shelf."""
    overrides: list[PageOverride] = []
    unresolved: list[UnresolvedClaim] = []
    for source, ordinal, claim in shelf.speaking():
        if claim.kind is not ClaimKind.CHANGES_PAGE:
            continue
        manuals = [each for each in shelf.named_by(source, claim) if _may_change(claim, each)]
        found = list(_of_claim(source, claim, manuals, texts, source.id in superseded))
        overrides += found
        reason = _what_is_missing(claim, manuals, found, texts)
        if reason:
            unresolved.append(unresolved_claim(source, ordinal, claim, reason))
    return Overridden(tuple(overrides), tuple(unresolved))


def _may_change(claim: Claim, manual: Held) -> bool:
    """Not a revision that came before the one the temporary revision names."""
    if claim.revision or claim.date:
        earlier = claim.date and manual.date and manual.date < claim.date
        return fits_revision(claim, manual) is not Answer.NO or not earlier
    return True


def _of_claim(
    source: Held, claim: Claim, manuals: Iterable[Held], texts: Mapping[str, HeldText], superseded: bool
) -> Iterator[PageOverride]:
    for manual in manuals:
        state = OverrideState.SUPERSEDED if superseded else _state(source, claim, manual)
        for number, printed in claim.pages:
            page = _page_of(texts[manual.id], number, printed)
            if page is not None:
                own = _page_of(texts[source.id], number, printed) or min(texts[source.id].printed_pages)
                yield PageOverride(manual.id, page, source.id, own, state, claim.evidence)


def _state(source: Held, claim: Claim, manual: Held) -> OverrideState:
    if claim.revision or claim.date:
        named = fits_revision(claim, manual) is Answer.YES
        return OverrideState.IN_FORCE if named else OverrideState.CANNOT_TELL
    known = source.date is not None and manual.date is not None
    return OverrideState.IN_FORCE if known and manual.date <= source.date else OverrideState.CANNOT_TELL


def _page_of(text: HeldText, number: str, printed: str) -> int | None:
    """The pdf page that bears this printed page and number; None when there is none, or more than one."""
    pages = [page for page, label in text.printed_pages.items() if label and label == printed]
    if number:
        wanted = parse_number(number)
        pages = [page for page in pages if wanted and _bears(text, page, _significant(wanted))]
    return pages[0] if len(pages) == 1 else None


def _bears(text: HeldText, page: int, wanted: tuple) -> bool:
    return any(_significant(number) == wanted for number in text.numbers_on(page))


def _significant(number: ChapterNumber) -> tuple:
    """Chapter, section and subject; "00" and nothing are one: 32-41 and 32-41-00."""
    return number.chapter, number.section or "00", number.subject or "00"


def _what_is_missing(
    claim: Claim, manuals: list[Held], found: list[PageOverride], texts: Mapping[str, HeldText]
) -> str:
    if not manuals:
        return NOT_HELD
    if not claim.pages:
        return "It does not say which pages it changes."
    missing = [
        " page ".join(part for part in (number, printed) if part)
        for number, printed in claim.pages
        if all(_page_of(texts[manual.id], number, printed) is None for manual in manuals)
    ]
    return (
        f"Not found, or found more than once, in the manual held here: {', '.join(missing)}."
        if missing
        else ""
    )
