"""Whether a manual held here speaks of the work of an entry that cites a circular instead.

A circular serves only where the manufacturer gives no instructions (AC 43.13-1B paragraph 1). That a manual
speaks of the same things is no proof that it covers the job: the page is named, and a person reads it.
"""

import re
from collections.abc import Iterable, Sequence

from indexer.library.analysis import STOP_WORDS, printed_words
from indexer.library.fleet_records import Aircraft
from indexer.tagging.tags import Citation
from indexer.trade.applies import Applies
from server.applying import Applying
from server.checking.standing_found import INSTRUCTIONS
from server.opened import OpenedLibrary
from server.search import Hit, search
from server.words import publication_name

_LOOKED_AT = 20  # hits
_MOST = 2  # manuals named
_ALIKE = 2  # words of the work that a passage must share with the entry
# What work is called everywhere, and where it lies: shared words that say nothing of the same job.
_SAYS_LITTLE = frozenset(
    "repair repaired repairs replace replaced replacement install installed installation inspect inspected "
    "inspection service serviced remove removed left right upper lower inch inches accordance with using "
    "used area work performed aircraft airplane station page chapter paragraph found each both good check "
    "checked".split()
)


def maker_data(
    library: OpenedLibrary, aircraft: Aircraft, entry: str, citations: Sequence[Citation]
) -> tuple[str, ...]:
    """One sentence for each manual for this aircraft with a passage on what the entry says was done."""
    words = _words_of_the_work(entry, citations)
    if len(words) < _ALIKE:
        return ()
    types = tuple(kind.value for kind in INSTRUCTIONS)
    answer = search(library, f"any of: {' '.join(words)}", types=types, limit=_LOOKED_AT, as_typed=True)
    found: dict[str, str] = {}
    with library.reading():
        applying = Applying(library.catalogue, aircraft)
        for hit in (hit for group in answer.groups for hit in group.hits):
            shared = _shared(words, hit)
            if len(shared) >= _ALIKE and hit.publication.id not in found and _is_for(applying, hit):
                found[hit.publication.id] = _sentence(hit, shared)
    return tuple(found.values())[:_MOST]


def _words_of_the_work(entry: str, citations: Iterable[Citation]) -> list[str]:
    """The telling words outside the references, each once."""
    bare = entry
    for each in citations:
        bare = bare.replace(each.text, " ")
    words = (word for word in re.findall(r"[a-z]{4,}", bare.casefold()))
    return [word for word in dict.fromkeys(words) if word not in _SAYS_LITTLE and word not in STOP_WORDS]


def _shared(words: Sequence[str], hit: Hit) -> list[str]:
    text = set(printed_words(f"{' '.join(hit.passage.heading_path)} {hit.passage.text}"))
    return [word for word in words if set(printed_words(word)) <= text]


def _is_for(applying: Applying, hit: Hit) -> bool:
    """For this aircraft by the words printed, or by the model in its title."""
    answer = applying.of_publication(hit.publication).answer
    named = applying.aircraft.model.casefold() in {model.casefold() for model in hit.publication.models}
    return answer is Applies.APPLIES or (named and answer is not Applies.DOES_NOT_APPLY)


def _sentence(hit: Hit, shared: Sequence[str]) -> str:
    passage = hit.passage
    number = f"{passage.numbers[0].value}, " if passage.numbers else ""
    page = f"page {passage.printed_page} (PDF page {passage.pdf_page})" if passage.printed_page else ""
    return (
        f"{publication_name(hit.publication)}, {number}{page or f'PDF page {passage.pdf_page}'}, speaks of "
        f"{' and '.join(shared[:3])}: read it. Where the maker's instructions cover the work, the circular "
        "is contrary to the manufacturer's data, or not needed."
    )
