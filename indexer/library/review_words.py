"""A question of the librarian's queue in words: how its passage begins, and what holds now. Pure."""

import re
from collections.abc import Sequence

from indexer.library.entry_values import TWO_PERSONS
from indexer.library.records import EntryKind, ReviewCause, ShopEntry
from indexer.trade.chapters import ChapterNumber, chapter_title, is_chapter
from indexer.trade.evidence import Basis, Evidence, Tag

OPENING = 240  # characters
_FIRST_WORDS = 60


def opening(text: str) -> str:
    """The first words of a passage on one line, cut at a space."""
    words = " ".join(text.split())
    return words if len(words) <= OPENING else f"{words[:OPENING].rsplit(' ', 1)[0]} …"


def number_title(number: ChapterNumber) -> str:
    """ "32-41 (Landing gear)", "32 Landing gear"."""
    ata = number.ata()
    if ata is None or not is_chapter(ata.chapter):
        return str(number)
    title = chapter_title(ata.chapter)
    return f"{number} {title}" if str(number) == ata.chapter else f"{number} ({title})"


def heading_words(headings: Sequence[str], text: str) -> str:
    """ "5-6 WHEELS" of the innermost heading "5-6. WHEELS."; without one the first words."""
    if not headings:
        words = " ".join(text.split())
        return words if len(words) <= _FIRST_WORDS else f"{words[:_FIRST_WORDS].rsplit(' ', 1)[0]} …"
    return re.sub(r"^([0-9][0-9A-Za-z.-]*)\.\s+", r"\1 ", headings[-1].strip()).rstrip(".: ")


def words_now(
    cause: ReviewCause,
    suggestions: Sequence[Tag[ChapterNumber]],
    passages: int,
    filed: Sequence[ChapterNumber] = (),
    unread: int = 0,
    page_state: str = "",
) -> str:
    """What holds now, as one or two sentences.

    filed    numbers of each passage; unread = how many of the passages have none
    """
    if cause is ReviewCause.NOT_NUMBERED:
        return "Filed under no chapter: found by its words alone."
    if cause is ReviewCause.LIKELY_ONLY:
        words = f"Filed under {_and(filed)}, worked out from the text. No number is printed."
        return f"{words} {unread} of the {passages} could not be worked out." if unread else words
    if cause is ReviewCause.RUNGS_DISAGREE:
        first, *others = suggestions
        said = "; ".join(f"{_where(tag.evidence)} {number_title(tag.value)}" for tag in others)
        also = f" Also filed under {_and(filed[1:])}." if filed[1:] else ""
        return f"Filed under {number_title(first.value)}: {_where(first.evidence)} it. But {said}.{also}"
    if cause is ReviewCause.TYPE_UNCLEAR:
        return "Nothing in it says what type of publication it is, so no usual standing is shown."
    if cause is ReviewCause.REVISION_UNCLEAR:
        return "No revision was found in it, so it cannot be told whether a newer one replaces it."
    pages = "This page has" if passages == 1 else "These pages have"
    return f"{pages} no text that can be searched ({page_state}). Run it through OCR and ingest it again."


def _and(numbers: Sequence[ChapterNumber]) -> str:
    """ "34 Navigation, and also under 37 Vacuum"."""
    first, *others = map(number_title, numbers)
    return ", and also under ".join((first, *others))


def words_of_entry(entry: ShopEntry) -> str:
    """What an entry that waits says, and why it waits."""
    says = {
        EntryKind.CHAPTERS: f"file under {entry.value.replace(';', ', ') or 'no chapter'}",
        EntryKind.SETTLED: f"dismissed: {entry.value}",
        EntryKind.NOTE: f"note: {entry.value}",
    }.get(entry.kind, f"{entry.kind.value}: {entry.value}")
    if entry.undo_waits:
        return f"{entry.undone_by} takes back what {entry.who} entered ({says}): {entry.undone_why}"
    rests = "Standing rests on it" if entry.kind in TWO_PERSONS else "It raises the standing"
    if entry.kind is EntryKind.CHAPTERS:
        rests = "It leaves out a number that is printed there"
    why = entry.reason or f"{rests}, so a second person must agree."
    return f"{entry.who} entered: {says}. {why}"


def _where(evidence: Evidence) -> str:
    """ "«32-41-00» is printed, and says", "the text reads like"."""
    if evidence.basis is Basis.INFERRED:
        return "its text reads like"
    if evidence.basis is Basis.OUTLINE:
        return "the file's bookmarks say"
    return f"the {evidence.rule} says" if evidence.rule else "what is printed says"
