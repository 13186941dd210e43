"""What came of importing one of the shop's lists, as plain data and in words."""

from typing import Any

from indexer.library.shop_lists import Imported

NOTHING_TAKEN = "Nothing was taken: correct the lines named, then send the list again."


def import_fields(taken: Imported) -> dict[str, Any]:
    """With any problem nothing was taken."""
    return {
        "added": taken.added,
        "already": taken.already,
        "problems": [{"line": problem.line, "what": problem.what} for problem in taken.problems],
    }
