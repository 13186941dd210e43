"""Other readings of a question's words in text read by OCR: "t0rque" for torque, "AN4-I2A" for AN4-12A.

A reading counts only where every passage that holds it was read by OCR, our own or a hidden layer: what
born-digital text prints is a word of its own, and so is what hundreds of passages hold.
"""

from collections.abc import Iterable, Sequence

from indexer.library.analysis import tokens
from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.confusions import MOST, is_misreading
from indexer.library.fulltext import FullText, FullTextQuery
from indexer.trade.evidence import Origin
from server.kept import KeptByState
from server.page_lookup import holds_ocr
from server.wording import Misread

MOST_PASSAGES = 200  # that hold one misreading; what more of them hold is a word
_LOOKED_AT = 20  # passages read for how it is printed
_kept = KeptByState(most=5000)


def readings_of(catalogue: Catalogue, engine: FullText, word: str) -> tuple[str, ...]:
    """How else a word of a question stands in text read by OCR, as printed; () mostly."""
    if not holds_ocr(catalogue):
        return ()
    kept = _kept.of(catalogue, catalogue.generation)
    state = ("readings", engine.generation(), word)
    return kept.once(state, lambda: tuple(_readings(catalogue, engine, word)))


def misread_in(text: str, found: Iterable[Misread]) -> tuple[Misread, ...]:
    """Those of the readings that stand in a text which does not hold the word itself."""
    if not (found := list(found)):
        return ()
    there = {token.text for token in tokens(text)}
    return tuple(each for each in found if _holds(there, each.read) and not _holds(there, each.word))


def _holds(there: set[str], word: str) -> bool:
    return all(token.text in there for token in tokens(word) if not token.variant)


def _readings(catalogue: Catalogue, engine: FullText, word: str) -> Iterable[str]:
    printed: dict[str, None] = {}
    for term in engine.look_alikes(word):
        if len(printed) < MOST:
            printed.update(dict.fromkeys(_as_printed(catalogue, engine, term, word)))
    return list(printed)[:MOST]


def _as_printed(catalogue: Catalogue, engine: FullText, term: str, word: str) -> Sequence[str]:
    """A term as the text read by OCR has it, where it may be the word misread; () for a word of its own."""
    found = engine.search(FullTextQuery((term,)), MOST_PASSAGES, 1)
    if not 0 < found.total <= MOST_PASSAGES:
        return ()
    ids = [scored.passage_id for scored in found.top]
    with catalogue.reading() as connection:
        held = connection.execute(
            "SELECT origin, heading_path_json, text FROM passage"
            f" WHERE id IN ({','.join('?' * len(ids))}) ORDER BY id",
            ids,
        ).fetchall()
    if any(row["origin"] == Origin.DIGITAL.value for row in held):
        return ()
    forms: dict[str, None] = {}
    for row in held[:_LOOKED_AT]:
        text = "\n".join((row["text"], *from_json(tuple[str, ...], row["heading_path_json"])))
        for token in tokens(text):
            if token.text == term and is_misreading(word, printed := text[token.start : token.end]):
                forms.setdefault(printed)
    return tuple(forms)[:1]  # capitals or not: the engine does not tell them apart
