"""What answers of a source check follow from, and the few sentences that all of them share. Pure."""

from dataclasses import dataclass, field

from indexer.library.records import PublicationRecord, ReferenceState
from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.library.works import DIRECTIVES
from indexer.tagging.entry_fact_records import EntryFacts
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from server.checking.changed_pages import ChangedPages
from server.checking.denied import Denial
from server.checking.findings import DirectiveFinding, Enough, StandingFinding
from server.checking.limits_held import LimitTouched
from server.words import date_words

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
    not_used: str = ""  # words of the entry that say that the source was not used
    other_number: str = ""  # what does not fit the directive held: its amendment, its date; "" = all fits
    too_early: str = ""  # the day of the work, where the revision held is dated after it; "" = it is not
    stretched: str = ""  # words of a bulletin that stretch a limit
    changed: ChangedPages = ChangedPages()  # by temporary revisions: the pages meant, and others of the task
    denial: Denial | None = None  # what the page prints against its own approval
    limit: LimitTouched | None = None  # a limit that the entry touches beside a bulletin


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
    """The words quoted and where they stand, or who of the shop entered it; without the last full stop."""
    if standing.entered:
        return f". {standing.entered.removesuffix('.')}"
    if not standing.quote:
        return ""
    where = f", PDF page {standing.pdf_page}" if standing.pdf_page else ""
    source = f" of {standing.source}" if standing.source else ""
    return f": «{standing.quote}»{where}{source}"


def blocked(standing: StandingFinding) -> str:
    """What blocks it: the notice as printed, or the shop's entry."""
    if standing.entered:
        return f"The shop blocks it as a source. {standing.entered}"
    return f"A notice blocks it as a source: «{standing.quote}»."


def denied(facts: Facts) -> str:
    """That the page itself says it is not approved, in words; "" = it does not."""
    if facts.denial is None:
        return ""
    return f"The page itself says «{facts.denial.quote}» (PDF page {facts.denial.pdf_page})."


def said_not_used(facts: Facts) -> str:
    return f"The entry says «{facts.not_used}»: that names no source of the work."


def conditions_of(facts: Facts, for_directive: bool = False) -> str:
    """What a yes hangs on, for its first sentence: ", if it applies to ..., and if this revision ..."; or "".

    for_directive  it is given for a directive, which names its revision itself
    """
    said = list(facts.changed.beside)
    if facts.standing.entered and not for_directive:
        said.append("on the shop's entry alone")
    through = facts.standing.source
    if through and not for_directive:
        said.append(f"for the actions of {through} only")
    if facts.applies.answer is not Applies.APPLIES:
        said.append("if it applies to the aircraft")
    if for_directive or through or facts.kind in DIRECTIVES:
        said.append("if no later directive replaces it")
    elif facts.current.state is not CurrencyState.CURRENT:
        said.append("if this revision is current")
    if not facts.revision_named and facts.publication is not None:
        mark, date = facts.publication.revision, facts.publication.date
        named = f"revision {mark}" if mark else f"the one of {date_words(date)}" if date else "the one"
        said.append(f"if {named}, held here, was used")
    if not said:
        return ""
    return f", {' and '.join([', '.join(said[:-1]), said[-1]] if said[1:] else said)}"
