"""Words that passages about a system hold, whatever order their manual has (tables/telling_words.csv)."""

from functools import cache

from indexer.trade.chapter_tables import read_table


@cache
def _rows() -> dict[str, tuple[str, ...]]:
    return {row["number"]: tuple(row["words"].split()) for row in read_table("telling_words.csv")}


def telling_words(chapter: str, section: str | None = None) -> tuple[str, ...]:
    """A few words for a search by any of them: those of the section, else of the chapter.

    A section belongs to the one with its first digit: 32-45 to 32-40. () for a chapter about no system.
    """
    return (section and _rows().get(f"{chapter}-{section[0]}0")) or _rows().get(chapter, ())
