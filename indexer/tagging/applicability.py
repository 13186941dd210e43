"""Which models and serials a text says it reaches: ranges, lists, exceptions, conditions. Three-valued."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache

from indexer.tagging.applicability_clauses import Article, ReadApplicability
from indexer.tagging.applicability_deciding import decide, models_beside, prefixes_beside
from indexer.tagging.applicability_reach import Asked
from indexer.tagging.applicability_reading import read_clauses
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Origin

_READ_BY_MACHINE = "These words were read by character recognition, which may misread numbers"


@dataclass(frozen=True, slots=True)
class Applicability:
    """What a printed applicability says, as read.

    text    as given
    read    its clauses, and the words that could not be read
    origin  of the text: what was read by character recognition never gives "does not apply"
    """

    text: str
    read: ReadApplicability = field(repr=False)
    origin: Origin = Origin.DIGITAL

    @property
    def articles(self) -> frozenset[Article]:
        """Whose models and serials the clauses speak of; empty when the words do not say."""
        return frozenset(clause.article for clause in self.read.clauses) - {Article.UNSTATED}

    @property
    def article(self) -> Article:
        """Of the first clause that says it; UNSTATED for words such as "S/N 1001 thru 1050". Hold ENGINE,
        PROPELLER and APPLIANCE against the fitted article's model and serial, never the aircraft's."""
        kinds = (clause.article for clause in self.read.clauses if clause.article is not Article.UNSTATED)
        return next(kinds, Article.UNSTATED)

    def applies(
        self,
        model: str,
        serial: str = "",
        *,
        article: Article | None = None,
        beside: Iterable["Applicability"] = (),
    ) -> ApplicabilityAnswer:
        """Whether it reaches this model and serial, as the shop wrote them; "" = not known.

        A model may carry its maker's name in front ("Aldermoor QZ62"). It matches a listed one exactly, apart
        from case, blanks and dashes. Where a listed name only shares a part with it (QZ62 and QZ62S, 172 and
        R172K) or is a series, the answer is "cannot tell" unless the model itself is listed too. A serial
        must be written as the list writes it: leading zeros, dashes, O for 0 and I for 1 make it loose.

        article  whose model and serial these are; None = the article of the words
        beside   wider words of the same publication (its title page): models and serial prefixes that they
                 name are known to be different ones, so that "QZS-001 and on" does not hold QZ-077
        """
        wider = [other.read for other in beside]
        asked = Asked(model.strip(), serial.strip(), article, prefixes_beside(wider), models_beside(wider))
        answer = decide(self.text, self.read, asked)
        if self.origin is Origin.DIGITAL:
            return answer
        if answer.answer is Applies.DOES_NOT_APPLY:
            why = f'{_READ_BY_MACHINE}; as read: "{answer.why}" Hold it against the page.'
            return ApplicabilityAnswer(Applies.CANNOT_TELL, why, answer.quote)
        return ApplicabilityAnswer(answer.answer, f"{answer.why} {_READ_BY_MACHINE}.", answer.quote)


@lru_cache(maxsize=4096)
def read_applicability(text: str, origin: Origin = Origin.DIGITAL) -> Applicability:
    """Take a printed applicability apart; line ends count as blanks. Text that cannot be read is no error:
    its answer is "cannot tell"."""
    return Applicability(text, read_clauses(text), origin)
