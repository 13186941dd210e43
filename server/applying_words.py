"""Printed words on models and serials, held against one aircraft and against what is fitted to it.

Engine, propeller and appliance words are held against what the fleet list shows as fitted, never against the
aircraft's own serial. The rules are common practice, no source.
"""

from collections.abc import Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.fleet import fleet
from indexer.library.fleet_records import Aircraft, Fitted, FittedKind
from indexer.library.fleet_values import key_of
from indexer.library.records import PublicationRecord
from indexer.library.stated import Stated
from indexer.tagging.applicability_clauses import Article
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Origin
from indexer.trade.publication_types import PublicationType as Type
from server.fleet import serial_words
from server.kept import KeptByState
from server.stated_words import names_one_of, read_once, told
from server.words import date_words

_ARTICLES = {  # kinds of paper that are about an article, whatever their words say
    Type.ENGINE_MANUAL: Article.ENGINE,
    Type.PROPELLER_MANUAL: Article.PROPELLER,
    Type.COMPONENT_MAINTENANCE_MANUAL: Article.APPLIANCE,
}
_OF_AIRCRAFT = (  # kinds of paper that no engine, propeller or appliance has
    Type.STRUCTURAL_REPAIR_MANUAL,
    Type.FLIGHT_MANUAL,
    Type.FLIGHT_MANUAL_SUPPLEMENT,
    Type.MINIMUM_EQUIPMENT_LIST,
)
FITTED = {
    Article.ENGINE: FittedKind.ENGINE,
    Article.PROPELLER: FittedKind.PROPELLER,
    Article.APPLIANCE: FittedKind.APPLIANCE,
}
_WHOSE = "The words do not say whose models and serial numbers these are: an aircraft's, or an article's."
_fleets = KeptByState(most=1)
_ONE_OF_A_KIND = (FittedKind.ENGINE, FittedKind.PROPELLER)  # of which a fleet row can name all


class HeldAgainst:
    """One aircraft of the fleet; make one for each answer."""

    def __init__(self, catalogue: Catalogue, aircraft: Aircraft):
        self._catalogue = catalogue
        self.aircraft = aircraft
        self._alterations = [each.model for each in aircraft.fitted if each.kind is FittedKind.ALTERATION]
        self._fleets = _fleets.of(catalogue, catalogue.generation)

    def say(
        self, publication: PublicationRecord, stated: Stated, whole: Sequence[Stated]
    ) -> ApplicabilityAnswer:
        """What words of a publication say; `whole` = all its words that speak of the whole of it."""
        evidence = stated.words.evidence
        text, origin = stated.words.value, evidence.origin
        beside = tuple(each.words.value for each in whole if each is not stated)
        article = self._article(publication, text, origin, whole)
        if article in FITTED:
            found = self._of_articles(article, text, origin, beside)
        else:
            row = self.aircraft
            found = told(text, origin, row.model, row.serial, Article.AIRCRAFT, beside)
            if (
                found.answer is Applies.DOES_NOT_APPLY
                and article is Article.UNSTATED
                and not self._is_of_aircraft(publication, text, origin)
            ):
                found = ApplicabilityAnswer(Applies.CANNOT_TELL, _WHOSE, found.quote)
            found = self._with_alterations(found, text)
        page = f" (PDF page {evidence.pdf_page})" if evidence.pdf_page else ""
        return ApplicabilityAnswer(found.answer, f"{found.why}{page}", found.quote)

    def _article(
        self, publication: PublicationRecord, text: str, origin: Origin, whole: Sequence[Stated]
    ) -> Article:
        """Whose model and serial words speak of. Where they do not say, the rest of the publication may."""
        if publication.type in _ARTICLES:
            return _ARTICLES[publication.type]
        own = read_once(text, origin)
        if own.article is not Article.UNSTATED:
            return own.article
        for each in whole:
            wide = read_once(each.words.value, each.words.evidence.origin).article
            if wide is not Article.UNSTATED:
                return wide
        return Article.UNSTATED

    def _is_of_aircraft(self, publication: PublicationRecord, text: str, origin: Origin) -> bool:
        """Whether words that do not say whose models they list list an aircraft's: it takes a paper that only
        aircraft have, or an aircraft's model of the fleet list."""
        return publication.type in _OF_AIRCRAFT or names_one_of(text, origin, self.fleet)

    @property
    def fleet(self) -> frozenset[tuple[str, str]]:
        """Model and serial of every aircraft of the shop."""

        def read() -> frozenset[tuple[str, str]]:
            return frozenset((each.model, each.serial) for each in fleet(self._catalogue))

        return self._fleets.once("fleet", read)

    def _of_articles(
        self, article: Article, text: str, origin: Origin, beside: tuple[str, ...]
    ) -> ApplicabilityAnswer:
        """Held against what is fitted of a kind. No list of what is fitted to an aircraft is ever closed but
        that of its engines and propellers, and that only where each has its place."""
        kind = FITTED[article]
        fitted = [each for each in self.aircraft.fitted if each.kind is kind]
        if not fitted:
            return ApplicabilityAnswer(
                Applies.CANNOT_TELL,
                f"It is for {_a(kind)}, and the fleet list shows none on {self.aircraft.registration}. "
                f"Look at the aircraft, and enter what is fitted.",
                text,
            )
        answers = [(each, told(text, origin, each.model, each.serial, article, beside)) for each in fitted]
        day = self.aircraft.confirmed_on
        listed = f"the fleet list{f' of {date_words(day)}' if day else ', never confirmed,'} shows"
        for wanted in (Applies.APPLIES, Applies.CANNOT_TELL):
            for each, found in answers:
                if found.answer is wanted:
                    why = f"{_article_words(each)}, as {listed} it: {found.why}"
                    return ApplicabilityAnswer(wanted, why, found.quote)
        them = "; ".join(_article_words(each) for each, _ in answers)
        _, found = answers[0]
        if kind not in _ONE_OF_A_KIND or (len(fitted) == 1 and fitted[0].position):
            return ApplicabilityAnswer(
                Applies.CANNOT_TELL,
                f"It does not reach {them}, but the fleet list may not name every {kind.value}: {found.why}",
                found.quote,
            )
        return ApplicabilityAnswer(
            Applies.DOES_NOT_APPLY, f"{them}, all that {listed}: {found.why}", found.quote
        )

    def _with_alterations(self, found: ApplicabilityAnswer, text: str) -> ApplicabilityAnswer:
        """An alteration may have changed the model: said, where the words do not name it."""
        if not self._alterations or found.answer is Applies.CANNOT_TELL:
            return found
        plain = key_of(text)
        unnamed = [each for each in self._alterations if key_of(each) not in plain]
        if not unnamed:
            return found
        note = f"Fitted is {', '.join(unnamed)}, which these words do not name: it may change what applies."
        return ApplicabilityAnswer(found.answer, f"{found.why} {note}", found.quote)


def _a(kind: FittedKind) -> str:
    return f"{'a' if kind is FittedKind.PROPELLER else 'an'} {kind.value}"


def _article_words(each: Fitted) -> str:
    named = " ".join(filter(None, (each.kind.value, each.position, each.maker, each.model)))
    return f"{named}, {serial_words(each.serial)}"
