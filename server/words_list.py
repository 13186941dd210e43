"""The shop's own list of words as plain data: the page, the JSON API and the command share it."""

from typing import Any

from indexer.library import shop_words
from indexer.library.records import ShopWord
from indexer.library.shop_lists import Imported
from server.list_imports import NOTHING_TAKEN
from server.opened import OpenedLibrary


def words_list(library: OpenedLibrary) -> dict[str, Any]:
    """Every word, in the order of the alphabet."""
    with library.reading() as status:
        words = shop_words.shop_words(library.catalogue)
        return {
            "library_state": library.state(status).fields(),
            "total": len(words),
            "words": [word_fields(word) for word in sorted(words, key=lambda word: word.term.casefold())],
        }


def word_fields(word: ShopWord) -> dict[str, Any]:
    return {
        "id": word.id,
        "term": word.term,
        "manual_terms": list(word.manual_terms),
        "note": word.note,
        "who": word.who,
        "made_at": word.made_at.isoformat(),
    }


def import_words(taken: Imported) -> str:
    """What came of an import."""
    if taken.problems:
        return NOTHING_TAKEN
    known = f" {taken.already:,} were there already." if taken.already else ""
    return f"{taken.added:,} added.{known}"
