"""Whether something applies to the aircraft in hand, as screens and the terminal say it. Pure."""

from dataclasses import dataclass

from indexer.trade.applies import ApplicabilityAnswer, Applies
from server.words import count_of

LEADS = {
    Applies.APPLIES: "Applies",
    Applies.DOES_NOT_APPLY: "Does not apply",
    Applies.CANNOT_TELL: "Cannot tell",
}


@dataclass(frozen=True, slots=True)
class AppliesWords:
    """kind   of the mark, for the stylesheet: "it-applies", "does-not-apply", "cannot-tell" """

    kind: str
    lead: str  # "Applies to QX-1AB:"
    why: str
    quote: str


def applies_words(answer: ApplicabilityAnswer | None, registration: str) -> AppliesWords | None:
    """None where no aircraft is in hand."""
    if answer is None:
        return None
    of = "for" if answer.answer is Applies.CANNOT_TELL else "to"
    lead = f"{LEADS[answer.answer]} {of} {registration}:"
    kind = "it-applies" if answer.answer is Applies.APPLIES else answer.value.replace(" ", "-")
    return AppliesWords(kind, lead, answer.why, answer.quote)


def hidden_words(hidden: int, registration: str, noun: str = "passage") -> str:
    """ "12 passages that do not apply to QX-1AB are hidden."."""
    if not hidden:
        return f"Nothing is hidden: nothing here was found not to apply to {registration}."
    verb, rest = ("does", "is") if hidden == 1 else ("do", "are")
    return f"{count_of(hidden, noun)} that {verb} not apply to {registration} {rest} hidden."
