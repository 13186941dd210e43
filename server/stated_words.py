"""What publications print about models and serials, read and taken apart once for many answers."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from indexer.library.catalogue import Catalogue
from indexer.library.stated import Stated, documents_generation, raised_by_directive, stated_in
from indexer.tagging.applicability import Applicability, read_applicability
from indexer.tagging.applicability_clauses import Article
from indexer.tagging.tags import ApplicabilityScope
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Origin
from indexer.trade.model_names import fold_model
from server.kept import KeptByState

_READ = 16_384  # printed applicabilities kept as read
_TOLD = 65_536  # answers kept
_rows = KeptByState(most=4_096)  # publications
_wholes = KeptByState(most=65_536)  # likewise
_raised = KeptByState(most=1)


@lru_cache(_READ)
def read_once(text: str, origin: Origin) -> Applicability:
    return read_applicability(text, origin)


@lru_cache(_TOLD)
def told(
    text: str, origin: Origin, model: str, serial: str, article: Article, beside: tuple[str, ...] = ()
) -> ApplicabilityAnswer:
    """What printed words say of one model and serial. Text read by OCR never leaves anything out.

    article   whose model and serial these are; beside: wider words of the same publication
    """
    wider = [read_once(each, Origin.DIGITAL) for each in beside]
    found = read_once(text, origin).applies(model, serial, article=article, beside=wider)
    if origin is not Origin.DIGITAL and found.answer is Applies.DOES_NOT_APPLY:
        return replace(found, answer=Applies.CANNOT_TELL)
    return found


@lru_cache(_READ)
def names_one_of(text: str, origin: Origin, aircraft: frozenset[tuple[str, str]]) -> bool:
    """Whether printed words list a model that one of some aircraft has, given as (model, serial)."""
    words = read_once(text, origin)
    listed = {fold_model(name.name) for each in words.read.clauses for name in each.models}
    if not listed:
        return False
    by_model = _serials(aircraft)
    if any(fold_model(model) in listed for model in by_model):
        return True
    return any(
        words.applies(model, serial).answer is Applies.APPLIES
        for model, serials in by_model.items()
        if words.applies(model).answer is not Applies.DOES_NOT_APPLY  # else no serial of it is reached
        for serial in serials
    )


@lru_cache(8)
def _serials(aircraft: frozenset[tuple[str, str]]) -> Mapping[str, tuple[str, ...]]:
    """Model -> the serials of its aircraft."""
    found: dict[str, list[str]] = {}
    for model, serial in sorted(aircraft):
        found.setdefault(model, []).append(serial)
    return {model: tuple(serials) for model, serials in found.items()}


@dataclass(frozen=True, slots=True)
class Rows:
    """The stated words of one publication by how far they reach."""

    whole: tuple[Stated, ...]
    pages: dict[int, tuple[Stated, ...]]
    passages: dict[str, tuple[Stated, ...]]
    passages_on: dict[int, tuple[tuple[str, tuple[Stated, ...]], ...]]

    @classmethod
    def of(cls, stated: Iterable[Stated]) -> "Rows":
        whole: list[Stated] = []
        pages: dict[int, list[Stated]] = {}
        passages: dict[str, list[Stated]] = {}
        for each in stated:
            if each.scope is ApplicabilityScope.PASSAGE and each.passage_id:
                passages.setdefault(each.passage_id, []).append(each)
            elif each.scope is ApplicabilityScope.PAGE and each.pdf_page:
                pages.setdefault(each.pdf_page, []).append(each)
            else:
                whole.append(each)
        on: dict[int, list[tuple[str, tuple[Stated, ...]]]] = {}
        for passage_id, rows in passages.items():
            on.setdefault(rows[0].pdf_page or 0, []).append((passage_id, tuple(rows)))
        return cls(
            tuple(whole),
            {page: tuple(rows) for page, rows in pages.items()},
            {passage_id: tuple(rows) for passage_id, rows in passages.items()},
            {page: tuple(found) for page, found in on.items()},
        )


class StatedWords:
    """The words of publications, read from the catalogue once for as long as its documents stay the same."""

    def __init__(self, catalogue: Catalogue):
        self.generation = documents_generation(catalogue)
        self._rows = _rows.of(catalogue, self.generation)
        self._wholes = _wholes.of(catalogue, self.generation)

    def read(self, catalogue: Catalogue, publication_ids: Iterable[str]) -> None:
        """All words of many publications in one go."""
        for publication_id, stated in stated_in(catalogue, self._rows.missing(publication_ids)).items():
            rows = Rows.of(stated)
            self._rows.keep(publication_id, rows)
            self._wholes.keep(publication_id, rows.whole)

    def read_whole(self, catalogue: Catalogue, publication_ids: Iterable[str]) -> None:
        """Only those words of many publications that speak of the whole of each."""
        missing = self._wholes.missing(publication_ids)
        for publication_id, stated in stated_in(catalogue, missing, of_the_whole=True).items():
            self._wholes.keep(publication_id, stated)

    def of(self, catalogue: Catalogue, publication_id: str) -> Rows:
        return self._rows.once(
            publication_id, lambda: Rows.of(stated_in(catalogue, [publication_id])[publication_id])
        )

    def whole(self, catalogue: Catalogue, publication_id: str) -> tuple[Stated, ...]:
        """The words that speak of the whole of a publication."""
        return self._wholes.once(publication_id, lambda: self.of(catalogue, publication_id).whole)


def raised_words_of(catalogue: Catalogue) -> Mapping[str, str]:
    """`raised_by_directive`, read once for each state of the library; inside `reading`."""
    return _raised.of(catalogue, catalogue.generation).once("all", lambda: raised_by_directive(catalogue))
