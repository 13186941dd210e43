"""What answers of a source check follow from, and the few sentences that all of them share. Pure."""

from dataclasses import dataclass, field

from indexer.library.records import PublicationRecord, ReferenceState
from indexer.library.register_records import CurrencyFinding
from indexer.tagging.entry_fact_records import EntryFacts
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from server.checking.findings import DirectiveFinding, Enough, StandingFinding

RULES_ONLY = frozenset(
    {Type.REGULATION, Type.ORDER_OR_HANDBOOK, Type.ACCIDENT_REPORT, Type.CODE_TABLE, Type.PROPOSED_DIRECTIVE}
    | {Type.AIRWORTHINESS_BULLETIN}
)


@dataclass(frozen=True, slots=True)
class Facts:
    """All that an answer follows from.

    kind       of the publication, or of the one that the words name; None = not known; number likewise
    reason     why no publication or no place could be told; "" = both are known
    aircraft   registration or words of the aircraft it was held against, "" = none
    complete   False = the reference names no place where one is needed
    entry      the whole entry; said: what was read of it
    """

    kind: Type | None
    publication: PublicationRecord | None
    number: str
    reason: str
    place: ReferenceState
    complete: bool
    aircraft: str
    current: CurrencyFinding
    applies: ApplicabilityAnswer
    standing: StandingFinding
    directives: tuple[DirectiveFinding, ...]
    entry: str
    said: EntryFacts = field(default_factory=EntryFacts)
    credited: Answer | None = None  # None = no credit paragraph speaks of this revision
    only_by_kind: bool = False  # the words do not say whose document it is
    contradicted: tuple[str, ...] = ()  # values of the entry that a directive replaced by others, in words
    not_entered: bool = False  # the entry names an aircraft that the fleet list does not have
    revision_named: bool = True  # False = the reference names neither revision nor date where one is needed


def no(why: str) -> Enough:
    return Enough(Answer.NO, why)


def cannot_tell(why: str) -> Enough:
    return Enough(Answer.CANNOT_TELL, why)


def not_known_to_apply(facts: Facts) -> Enough | None:
    """A circular is tied to no model, and a form to one aircraft: what they say of themselves says more.

    Without an aircraft the answer is about the data, and says so; but a directive is data for the products it
    names alone, and an aircraft that the entry names and nobody entered is not the one to say yes of.
    """
    if facts.applies.answer is not Applies.CANNOT_TELL:
        return None
    if facts.aircraft:
        return cannot_tell(f"Cannot tell whether it applies to {facts.aircraft}: {facts.applies.why}")
    if facts.not_entered or facts.kind is Type.AIRWORTHINESS_DIRECTIVE:
        return cannot_tell(f"Cannot tell whether it applies: {facts.applies.why}")
    return None


def reached(facts: Facts) -> bool:
    return any(each.reaches is Answer.YES for each in facts.directives)


def quoted(standing: StandingFinding) -> str:
    if not standing.quote:
        return ""
    where = f", PDF page {standing.pdf_page}" if standing.pdf_page else ""
    source = f" of {standing.source}" if standing.source else ""
    return f": «{standing.quote}»{where}{source}"
