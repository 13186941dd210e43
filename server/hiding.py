"""What is left out when a reader asks to hide what does not apply to the aircraft in hand.

What cannot be told is never left out.
"""

from weakref import WeakKeyDictionary

from indexer.errors import QueryProblem
from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Aircraft
from server.applying import Applying, NotApplying
from server.opened import OpenedLibrary

HIDE = "not-applying"  # how an address asks for it: ?hide=not-applying
_KEPT = 8  # aircraft of one library

_found: WeakKeyDictionary[Catalogue, dict[tuple[int, Aircraft], NotApplying]] = WeakKeyDictionary()


def hides(given: str) -> bool:
    """Whether an address asks to hide. Raises QueryProblem."""
    if given in ("", HIDE):
        return bool(given)
    raise QueryProblem(f"«{given}» is nothing that can be hidden.", f"Write hide={HIDE}, or leave it out.")


def to_hide(library: OpenedLibrary, applying: Applying | None) -> NotApplying:
    """All on the shelf that does not apply; worked out once for each state of the library; inside `reading`.

    Raises QueryProblem when no aircraft is in hand.
    """
    if applying is None:
        raise QueryProblem(
            "Nothing can be hidden: no aircraft is chosen.", "Choose an aircraft of the fleet list first."
        )
    catalogue = library.catalogue
    key = (catalogue.generation, applying.aircraft)
    held = _found.get(catalogue, {})
    found = held.get(key)
    if found is None:
        found = applying.not_applying(library.publications())
        others = [(each, known) for each, known in held.items() if each[0] == key[0]]
        _found[catalogue] = {**dict(others[-_KEPT:]), key: found}
    return found
