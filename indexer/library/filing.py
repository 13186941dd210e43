"""Under which chapters and sections a passage is filed for search.

An ATA number files under its own chapter and section. A JASC code and a data module's system code file under
a chapter only, where one is sure: the digits after it mean other things there. A manual's own numbers file
nowhere: its section 5 is not chapter 05.
"""

from collections.abc import Iterable

from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Tag


def chapters_of(numbers: Iterable[Tag[ChapterNumber]]) -> tuple[str, ...]:
    """Two-digit chapters, the one the passage is grouped under first; () = not numbered."""
    return _once(ata.chapter for tag in numbers if (ata := tag.value.ata()))


def sections_of(numbers: Iterable[Tag[ChapterNumber]]) -> tuple[str, ...]:
    """Sections as "32-41"."""
    return _once(
        f"{tag.value.chapter}-{tag.value.section}"
        for tag in numbers
        if tag.value.scheme is Scheme.ATA and tag.value.section
    )


def _once(values: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(values))
