"""Whether publications and their passages reach one aircraft of the fleet: three answers, with the words.

"Does not apply" needs words that say so, in digital text, for the whole of what is asked about. Engine,
propeller and appliance papers are held against what the fleet list shows as fitted, never against the
aircraft's own serial.
"""

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from indexer.library.catalogue import Catalogue
from indexer.library.day import today as day_of
from indexer.library.fleet_records import Aircraft
from indexer.library.fulltext import Filters
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.library.stated import Stated, passages_reaching
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.publication_types import PublicationType as Type
from server.applying_words import HeldAgainst
from server.fleet import aircraft_words, confirmed_words, is_old
from server.kept import KeptByState
from server.stated_words import Rows, StatedWords, raised_words_of
from server.words import count_of, numbered

_NO_MODEL = (  # kinds of paper that are tied to no model of aircraft
    Type.ADVISORY_CIRCULAR,
    Type.ORDER_OR_HANDBOOK,
    Type.REGULATION,
    Type.CODE_TABLE,
    Type.PROCESS_SPECIFICATION,
    Type.STANDARD_PRACTICES_MANUAL,
)
_AT_ONCE = 200  # publications whose words are read in one go
_answers = KeptByState(most=50_000, states=4)  # of publications and pages, by aircraft
_outside = KeptByState(most=50_000, states=8)  # what does not apply of each publication, likewise


@dataclass(frozen=True, slots=True)
class NotApplying:
    """All that does not apply to an aircraft: ids of whole publications, and of passages of others."""

    publications: tuple[str, ...]
    passages: tuple[str, ...]

    def left_out_of(self, filters: Filters) -> Filters:
        return replace(filters, without_publications=self.publications, without_passages=self.passages)


class Applying:
    """Reads the catalogue, each thing once in one state of it; make one for each answer, inside `reading`."""

    def __init__(self, catalogue: Catalogue, aircraft: Aircraft, today: datetime.date | None = None):
        self._catalogue = catalogue
        self.aircraft = aircraft
        self._words = HeldAgainst(catalogue, aircraft)
        now = today or day_of(catalogue)
        self._held = (
            f" Held against {aircraft_words(aircraft)}; {confirmed_words(aircraft, now)}."
            if is_old(aircraft, now)
            else ""
        )
        self._stated = StatedWords(catalogue)
        self._raised = raised_words_of(catalogue)
        self._directives: dict[str, PublicationRecord] = {}
        self._answers = _answers.of(catalogue, catalogue.generation, aircraft, self._held)

    def read_ahead(self, publication_ids: Iterable[str]) -> None:
        """Read what many publications print in one go, before each is asked about."""
        self._stated.read(self._catalogue, publication_ids)

    def of_publication(self, publication: PublicationRecord) -> ApplicabilityAnswer:
        """From the words that speak of the whole publication."""
        return self._shown(publication, [self._of_whole(publication)])

    def of_passage(self, publication: PublicationRecord, passage: PassageRecord) -> ApplicabilityAnswer:
        """The same with the words of its pages and its own."""
        pages = {passage.pdf_page, *(box.pdf_page for box in passage.boxes)}
        return self.of_place(publication, passage.id, sorted(pages))

    def of_place(
        self, publication: PublicationRecord, passage_id: str, pdf_pages: Sequence[int]
    ) -> ApplicabilityAnswer:
        """Of a passage by its id and all the pages (1-based) it has a part on."""
        return self.of_several(publication, [(passage_id, pdf_pages)])

    def _of_place(
        self, publication: PublicationRecord, passage_id: str, pdf_pages: Sequence[int]
    ) -> ApplicabilityAnswer:
        return self._shown(
            publication,
            [
                self._of_whole(publication),
                self._of_pages(publication, pdf_pages),
                self._of_rows(publication, self._stated_by(publication).passages.get(passage_id, ())),
            ],
        )

    def _beyond_directive(self, passage_id: str) -> str:
        """What must be said of a passage that a directive made approved data, where that directive is not
        known to reach this aircraft; "" = nothing."""
        directive_id = self._raised.get(passage_id)
        if directive_id is None:
            return ""
        if directive_id not in self._directives:
            self._directives[directive_id] = self._catalogue.publication(directive_id)
        directive = self._directives[directive_id]
        reached = self._of_whole(directive)
        name, here = numbered(directive.type, directive.number), self.aircraft.registration
        if reached is not None and reached.answer is Applies.APPLIES:
            return ""
        if reached is not None and reached.answer is Applies.DOES_NOT_APPLY:
            return (
                f"{name}, which makes this approved data, does not apply to {here}: here it approves nothing."
            )
        return f"Whether {name}, which makes this approved data, reaches {here} cannot be told."

    def of_page(self, publication: PublicationRecord, pdf_page: int) -> ApplicabilityAnswer:
        """Of a whole page. Passages on it with words of their own make it a page that cannot be told."""
        stated = self._stated_by(publication)
        levels = [self._of_whole(publication), self._of_pages(publication, (pdf_page,))]
        own = [self._of_rows(publication, rows) for _, rows in stated.passages_on.get(pdf_page, ())]
        if any(each and each.answer is not Applies.APPLIES for each in own):
            levels.append(
                ApplicabilityAnswer(
                    Applies.CANNOT_TELL,
                    "Parts of this page have words of their own about what they are for: see its passages.",
                    next(each.quote for each in own if each and each.answer is not Applies.APPLIES),
                )
            )
        return self._shown(publication, levels)

    def of_several(
        self, publication: PublicationRecord, places: Sequence[tuple[str, Sequence[int]]]
    ) -> ApplicabilityAnswer:
        """Of several passages together, each by its id and its pages: one answer, or that they differ."""
        found = [self._of_place(publication, passage_id, pages) for passage_id, pages in places]
        answer = _of_all(found) if found else self.of_publication(publication)
        beyond = dict.fromkeys(
            said for passage_id, _ in places if (said := self._beyond_directive(passage_id))
        )
        return replace(answer, why=" ".join((answer.why, *beyond))) if beyond else answer

    def not_applying(self, publications: Iterable[PublicationRecord]) -> NotApplying:
        """Of these publications, all that does not apply.

        What that is of each follows from the documents and from models, serials and articles of the fleet
        list alone: other changes of the library leave it as it was.
        """
        row, held = self.aircraft, {each.id: each for each in publications}
        kept = _outside.of(
            self._catalogue, self._stated.generation, row.model, row.serial, row.fitted, self._words.fleet
        )
        missing = [held[each] for each, _ in kept.missing((each.id, each.type) for each in held.values())]
        self._stated.read_whole(self._catalogue, (each.id for each in missing))
        inside = [each for each in missing if not self._is_outside(each)]
        for start in range(0, len(inside), _AT_ONCE):
            batch = inside[start : start + _AT_ONCE]
            self.read_ahead(each.id for each in batch)
            for each in batch:
                kept.keep((each.id, each.type), self._outside(each))
        found = {
            each.id: kept.once((each.id, each.type), lambda each=each: self._outside(each))
            for each in held.values()
        }
        whole = (each for each, passages in found.items() if passages is None)
        parts = (passage for passages in found.values() for passage in passages or ())
        return NotApplying(tuple(sorted(whole)), tuple(sorted(parts)))

    def _is_outside(self, publication: PublicationRecord) -> bool:
        """Whether the whole of it does not apply."""
        found = self._of_whole(publication)
        return found is not None and found.answer is Applies.DOES_NOT_APPLY

    def _outside(self, publication: PublicationRecord) -> tuple[str, ...] | None:
        """The passages of a publication that do not apply; None = the whole of it does not."""
        if self._is_outside(publication):
            return None
        stated = self._stated_by(publication)
        out_pages = {
            page
            for page in stated.pages
            if (answer := self._of_one_page(publication, page)) and answer.answer is Applies.DOES_NOT_APPLY
        }
        if not out_pages and not stated.passages:
            return ()
        reaching = passages_reaching(self._catalogue, publication.id, out_pages, stated.passages.keys())
        return tuple(
            passage_id
            for passage_id, pages in reaching.items()
            if self._of_place(publication, passage_id, pages).answer is Applies.DOES_NOT_APPLY
        )

    # Levels ------------------------------------------------------------------------------------------------

    def _stated_by(self, publication: PublicationRecord) -> Rows:
        return self._stated.of(self._catalogue, publication.id)

    def _of_whole(self, publication: PublicationRecord) -> ApplicabilityAnswer | None:
        def read() -> ApplicabilityAnswer | None:
            return self._of_rows(publication, self._stated.whole(self._catalogue, publication.id))

        return self._answers.once((publication.id, None), read)

    def _of_pages(self, publication: PublicationRecord, pages: Sequence[int]) -> ApplicabilityAnswer | None:
        """None where no page says anything. It takes every page to leave a passage out."""
        said = [self._of_one_page(publication, page) for page in pages]
        found = [each for each in said if each]
        if not found:
            return None
        out = [each for each in found if each.answer is Applies.DOES_NOT_APPLY]
        if out and len(out) < len(pages):
            return ApplicabilityAnswer(
                Applies.CANNOT_TELL, "It runs over pages of which not all apply.", out[0].quote
            )
        return _together(found)

    def _of_one_page(self, publication: PublicationRecord, page: int) -> ApplicabilityAnswer | None:
        def read() -> ApplicabilityAnswer | None:
            return self._of_rows(publication, self._stated_by(publication).pages.get(page, ()))

        return self._answers.once((publication.id, page), read)

    def _of_rows(self, publication: PublicationRecord, rows: Sequence[Stated]) -> ApplicabilityAnswer | None:
        """What the words of one place say; None without any."""
        whole = self._stated.whole(self._catalogue, publication.id)
        return _agreed([self._words.say(publication, each, whole) for each in rows])

    def _shown(
        self, publication: PublicationRecord, levels: Iterable[ApplicabilityAnswer | None]
    ) -> ApplicabilityAnswer:
        whole, *narrower = levels
        found = [each for each in (whole, *narrower) if each]
        if not found:
            return ApplicabilityAnswer(Applies.CANNOT_TELL, _nothing_said(publication))
        answer = _together(found)
        if whole is None and answer.answer is Applies.APPLIES:
            # "EFFECTIVITY: ALL" in a foot is all of the models that the publication is for.
            why = f"{_nothing_said(publication)} A part of it says: {answer.why}"
            return ApplicabilityAnswer(Applies.CANNOT_TELL, why, answer.quote)
        if answer.answer is Applies.CANNOT_TELL or not self._held:
            return answer
        return ApplicabilityAnswer(answer.answer, f"{answer.why}{self._held}", answer.quote)


def _of_all(found: Sequence[ApplicabilityAnswer]) -> ApplicabilityAnswer:
    """Of several passages: what they all say, else that it is not the same."""
    if len({each.answer for each in found}) == 1:
        return found[0]
    outside = [each for each in found if each.answer is Applies.DOES_NOT_APPLY]
    if not outside:
        return next(each for each in found if each.answer is Applies.CANNOT_TELL)
    return ApplicabilityAnswer(
        Applies.CANNOT_TELL,
        f"Not the same here: of {count_of(len(found), 'passage')}, {len(outside)} do not apply.",
        outside[0].quote,
    )


def _together(found: Sequence[ApplicabilityAnswer]) -> ApplicabilityAnswer:
    """Of several levels, widest first: what leaves it out counts most, then what cannot be told; of equal
    ones the narrowest."""
    for wanted in (Applies.DOES_NOT_APPLY, Applies.CANNOT_TELL, Applies.APPLIES):
        for each in reversed(found):
            if each.answer is wanted:
                return each
    raise ValueError("no level says anything")


def _agreed(found: Sequence[ApplicabilityAnswer]) -> ApplicabilityAnswer | None:
    """Of several words at one place, which may be alternatives: they must agree to leave anything out."""
    if len({each.answer for each in found}) < 2:
        return found[0] if found else None
    unsure = next((each for each in found if each.answer is Applies.CANNOT_TELL), None)
    out = next((each for each in found if each.answer is Applies.DOES_NOT_APPLY), None)
    if unsure is not None:
        return unsure
    return ApplicabilityAnswer(
        Applies.CANNOT_TELL,
        f"Its words on models and serials do not agree for this aircraft: {out.why}" if out else "",
        out.quote if out else "",
    )


def _nothing_said(publication: PublicationRecord) -> str:
    if publication.type in _NO_MODEL:
        kind = publication.type.label
        return f"{kind}: a paper of this kind is tied to no model. Whether it may be used is for the signer."
    return (
        "Nothing was found in it that says which models or serials it is for. Read its title page and its "
        "applicability."
    )
