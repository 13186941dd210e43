"""What "current only" leaves out: what is known not to be current, by papers held here or by the register.

What nobody has checked stays in: unknown is not superseded. Pages that a temporary revision in force changes
are left out, and the rest of their publication is not. A page that is older than its list of effective pages
has it stays in, and says so.
"""

import threading
from dataclasses import dataclass, replace

from indexer.library.fulltext import Filters
from indexer.library.stated import passages_reaching
from server.applying import NotApplying
from server.current import Current
from server.kept import KeptByState
from server.opened import OpenedLibrary

_kept = KeptByState(most=8)
_unions = KeptByState(most=64, states=4)
_at_work = threading.Lock()  # whoever comes second waits for the first, instead of doing the same beside it


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Ids of whole publications, and of passages of others."""

    publications: tuple[str, ...]
    passages: tuple[str, ...]

    def left_out_of(self, filters: Filters) -> Filters:
        return replace(filters, without_publications=self.publications, without_passages=self.passages)


def not_current(library: OpenedLibrary) -> LeftOut:
    """All on the shelf that is superseded, worked out once for each state of it; inside `reading`."""
    current = Current(library.catalogue)
    kept = _kept.of(library.catalogue, library.catalogue.generation)
    with _at_work:
        return kept.once(current.on, lambda: _not_current(library, current))


def not_current_words(count: int) -> str:
    """How much was left out, and what stays in."""
    if not count:
        return "Nothing found is known to be superseded. What nobody has checked is not known to be current."
    noun = "passage" if count == 1 else "passages"
    return (
        f"{count:,} {noun} left out: superseded by what is held here, or by the register. What nobody has "
        "checked stays in."
    )


def both(
    library: OpenedLibrary, first: LeftOut | NotApplying | None, second: LeftOut | None
) -> LeftOut | None:
    """What either of them leaves out; None = neither leaves anything out."""
    if first is None or second is None:
        one = first or second
        return LeftOut(one.publications, one.passages) if one else None
    kept = _unions.of(library.catalogue, library.catalogue.generation)
    key = (id(first), id(second))  # both are kept as long as the state of the library
    found = kept.once(key, lambda: (first, second, _union(first, second)))
    return found[2] if found[0] is first and found[1] is second else _union(first, second)


def _union(first: LeftOut | NotApplying, second: LeftOut) -> LeftOut:
    return LeftOut(
        tuple(sorted({*first.publications, *second.publications})),
        tuple(sorted({*first.passages, *second.passages})),
    )


def _not_current(library: OpenedLibrary, current: Current) -> LeftOut:
    held = library.publications()
    current.prepare(held)
    whole = {each.id for each in held if current.is_superseded(each)}
    passages = (
        passage_id
        for each in held
        if each.id not in whole and (pages := current.overridden_pages(each))
        for passage_id in passages_reaching(library.catalogue, each.id, pages, ())
    )
    return LeftOut(tuple(sorted(whole)), tuple(sorted(passages)))
