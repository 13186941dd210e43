"""The shop's own list of words as plain data: the page, the JSON API and the command share it."""

from typing import Any

from indexer.library import shop_words
from indexer.library.records import ShopWord
from indexer.library.shop_lists import Imported
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


def import_fields(taken: Imported) -> dict[str, Any]:
    """What came of an import; with any problem nothing was taken."""
    return {
        "added": taken.added,
        "already": taken.already,
        "problems": [{"line": problem.line, "what": problem.what} for problem in taken.problems],
    }


def import_words(taken: Imported) -> str:
    """The same in a sentence."""
    if taken.problems:
        return "Nothing was taken: correct the lines named, then send the list again."
    known = f" {taken.already:,} were there already." if taken.already else ""
    return f"{taken.added:,} added.{known}"
