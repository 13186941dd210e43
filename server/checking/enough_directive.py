"""Whether a source shows compliance with a directive held here (14 CFR 39.27). Three answers. Pure."""

from indexer.library.records import ReferenceState
from indexer.library.register_records import CurrencyState
from indexer.tagging.tags import ClaimKind, StandingValue
from indexer.trade.applies import Applies
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.publication_types import type_row
from server.checking.answer_facts import (
    RULES_ONLY,
    Facts,
    blocked,
    cannot_tell,
    conditions_of,
    no,
    not_known_to_apply,
    said_not_used,
)
from server.checking.findings import CITED_ITSELF, Enough


def for_directive(facts: Facts) -> Enough:
    """Whether it shows compliance with a directive held here."""
    if facts.standing.value == StandingValue.BLOCKED.value:
        return no(blocked(facts.standing))
    if facts.kind in RULES_ONLY:
        return no(f"{facts.kind.label}: it requires nothing. {type_row(facts.kind).standing_note}.")
    if facts.applies.answer is Applies.DOES_NOT_APPLY:
        return no(f"It does not apply to {facts.aircraft or 'this aircraft'}: {facts.applies.why}")
    if facts.contradicted:
        return no(facts.contradicted[0])
    if facts.not_used:
        return cannot_tell(said_not_used(facts))
    if facts.other_number:
        return cannot_tell(f"{facts.other_number} Cannot tell whether that is the one meant.")
    reached = [each for each in facts.directives if each.reaches is Answer.YES and each.quote]
    if reached and facts.place is ReferenceState.RESOLVED and facts.publication is not None:
        if (unsure := not_known_to_apply(facts)) is not None:
            return unsure
        if not facts.aircraft:
            return cannot_tell(
                f"{reached[0].number} names it: choose the aircraft, to see whether it reaches it."
            )
        first = reached[0]
        what = f"is {first.status}" if first.level == CITED_ITSELF else f"names it ({first.level})"
        return Enough(
            Answer.YES,
            f"{first.number} {what}{conditions_of(facts, for_directive=True)}: «{first.quote}». "
            "For its actions only; where they differ, the "
            "directive governs (14 CFR 39.27).",
        )
    return _not_compliance(facts)


def _not_compliance(facts: Facts) -> Enough:
    superseded = [
        each for each in facts.directives if each.level == CITED_ITSELF and each.reaches is Answer.NO
    ]
    if superseded:
        return no(f"{superseded[0].number}: {superseded[0].status}. {superseded[0].note}")
    credit = [each for each in facts.directives if each.level == ClaimKind.CREDITS]
    if facts.credited is Answer.YES and credit:
        return Enough(Answer.YES, f"{credit[0].number}: {credit[0].note} «{credit[0].quote}»")
    if facts.credited is Answer.NO and credit:
        return no(f"{credit[0].number}: {credit[0].note}")
    unsure = [each for each in facts.directives if each.reaches is Answer.CANNOT_TELL]
    if unsure or credit:
        return cannot_tell(" ".join(f"{each.number}: {each.note}" for each in (unsure or credit)[:1]))
    others = [each for each in facts.directives if each.level in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES)]
    letters = [each for each in facts.directives if each.level == ClaimKind.ALTERNATIVE and each.quote]
    if others and letters:
        return cannot_tell(
            f"{others[0].number}: {others[0].note} {letters[0].number} speaks of an alternative: "
            f"«{letters[0].quote}» {letters[0].note} Read it."
        )
    if others:
        return no(
            f"Not shown as compliance. {others[0].number}: {others[0].note} Needed: the directive's own "
            f"words, "
            "an alternative method the FAA approved (14 CFR 39.19), or a newer directive."
        )
    if facts.directives and all(each.level == ClaimKind.MENTIONS for each in facts.directives):
        return no(f"{facts.directives[0].number} only mentions it: the directive's text is the requirement.")
    if facts.kind is Type.AIRWORTHINESS_DIRECTIVE and facts.current.state is CurrencyState.SUPERSEDED:
        return no(f"{facts.current.why} Look at its actions and its credit: the old one is history.")
    if facts.publication is None:
        return cannot_tell(facts.reason)
    return cannot_tell("None among the directives held here requires it; that does not mean that none does.")
