"""An airworthiness directive from its plain text, of any era: what it says of itself and of other documents.

The same reading as of a file's pages (directive_reading.py, directive_claims.py), with plain values.
"""

import datetime
from collections.abc import Iterable
from dataclasses import dataclass

from indexer.tagging.applicability import Applicability, read_applicability
from indexer.tagging.directive_claims import stated_claims
from indexer.tagging.directive_old_form import ACTIONS
from indexer.tagging.directive_reading import DirectiveReading, read_directive_flow
from indexer.tagging.directive_replaced import supersedes_in
from indexer.tagging.directive_text import text_flow
from indexer.tagging.flow import one_line
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.chapters import ChapterNumber
from indexer.trade.directive_numbers import normalised_directive
from indexer.trade.publication_types import PublicationType

__all__ = ["Directive", "NamedDocument", "read_directive", "supersedes_in"]

_NO_ACTIONS = (
    "effective date", "comments due", "affected", "applicability", "subject", "reason", "unsafe condition",
    "credit", "alternative", "other faa ad", "additional", "related information", "material incorporated",
    "special flight", "incorporation by reference", "note", "no reporting", "definition", "compliance",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class NamedDocument:
    """Another document as a directive names it.

    document       its number as printed with plain dashes; its title where it has no number
    revision       as printed without the word ("3", "B", "original"); "" = none named
    date           of that revision; None = none named, or not by its day
    paragraphs     the parts meant; () = the whole
    later_allowed  the words also allow later approved revisions
    before         credit only: the work must have been done before this day; None = the day is not printed
    quote          the sentence that names it
    """

    document: str
    revision: str
    date: datetime.date | None
    type: PublicationType | None
    paragraphs: tuple[str, ...]
    later_allowed: bool
    before: datetime.date | None
    quote: str


@dataclass(frozen=True, slots=True)
class Directive:
    """What the text of a directive says. What is not found is "", None or (); nothing is guessed.

    number          written one way: "2024-25-51", "89-24-09", "82-27-13R1"; "" for a proposal
    effective_date  None also where it is effective upon receipt: see effective_words
    supersedes      directives it supersedes, revises or withdraws; those it would, for a proposal
    chapters        only where a subject paragraph prints them: none in the older forms
    applicability   its `text` as printed; .applies(model, serial)
    incorporated, required, credit, alternatives, mentioned
                    the documents it names, each at the level of its words; for a proposal, those it would
    actions         the paragraphs that require something, as printed
    is_rule         False for a proposal, a correction, a rule put off or withdrawn, another authority's
                    directive, and any text that is no directive: then nothing in it binds
    """

    number: str
    amendment: str
    effective_date: datetime.date | None
    supersedes: tuple[str, ...]
    chapters: tuple[ChapterNumber, ...]
    applicability: Applicability
    incorporated: tuple[NamedDocument, ...]
    required: tuple[NamedDocument, ...]
    credit: tuple[NamedDocument, ...]
    alternatives: tuple[NamedDocument, ...]
    mentioned: tuple[NamedDocument, ...]
    actions: tuple[str, ...]
    is_rule: bool
    emergency: bool
    proposal: bool
    correction: bool
    withdraws: tuple[str, ...]
    effective_words: str
    issued: datetime.date | None
    maker: str
    alternative_words: str


def read_directive(text: str) -> Directive:
    """The first directive in the text."""
    reading = read_directive_flow(text_flow(text))
    facts, claims = reading.facts, stated_claims(reading)
    number = facts.number.value if facts.number else ""
    return Directive(
        number=normalised_directive(number) or number,
        amendment=facts.amendment.value if facts.amendment else "",
        effective_date=facts.effective.value if facts.effective else None,
        supersedes=tuple(tag.value for tag in (*facts.replaces, *facts.withdraws)),
        chapters=tuple(tag.value for tag in facts.subjects),
        applicability=read_applicability(facts.applicability.value if facts.applicability else ""),
        incorporated=_named(claims, ClaimKind.INCORPORATES),
        required=_named(claims, ClaimKind.REQUIRES),
        credit=_named(claims, ClaimKind.CREDITS),
        alternatives=_named(claims, ClaimKind.ALTERNATIVE),
        mentioned=_named(claims, ClaimKind.MENTIONS),
        actions=_actions(reading),
        is_rule=facts.is_rule,
        emergency=facts.emergency,
        proposal=facts.proposal,
        correction=facts.correction,
        withdraws=tuple(tag.value for tag in facts.withdraws),
        effective_words=_effective_words(reading),
        issued=facts.issued.value if facts.issued else None,
        maker=reading.maker.value if reading.maker else "",
        alternative_words=facts.alternative.value if facts.alternative else "",
    )


def _effective_words(reading: DirectiveReading) -> str:
    tag = reading.facts.effective or reading.facts.on_receipt
    return tag.evidence.quote if tag else ""


def _named(claims: Iterable[Claim], kind: ClaimKind) -> tuple[NamedDocument, ...]:
    return tuple(
        NamedDocument(
            each.document,
            each.revision,
            each.date,
            each.type,
            each.paragraphs,
            each.later_allowed,
            each.before,
            each.evidence.quote,
        )
        for each in claims
        if each.kind is kind
    )


def _actions(reading: DirectiveReading) -> tuple[str, ...]:
    """Of the lettered form every paragraph whose heading is none of those that require nothing."""
    flow = reading.flow
    if not reading.lettered:
        wanted = [each for each in reading.paragraphs if each.heading == ACTIONS]
    else:
        wanted = [each for each in reading.paragraphs if not each.heading.casefold().startswith(_NO_ACTIONS)]
    return tuple(one_line(flow.text[each.opening : each.end]) for each in wanted)
