"""Standing of an authority's own papers: a directive in force, a proposal, a circular."""

import re
from collections.abc import Sequence

from indexer.reading.page import Page, Passage
from indexer.tagging.directive_reading import DirectiveReading
from indexer.tagging.flow import body_flow
from indexer.tagging.standing import information_words
from indexer.tagging.standing_scope import usual_standing
from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.circular_conditions import circular_conditions
from indexer.trade.evidence import Evidence
from indexer.trade.publication_types import PublicationType as Type

FOREIGN_DIRECTIVE_CONDITION = (
    "Issued by another authority, or not shown to be a final rule: look for the FAA's own directive."
)
_ACCEPTABLE_METHODS = re.compile(
    r"[^.]*\bmethods,?\s+techniques,?\s+(?:and|or)\s+practices\s+acceptable\s+to\s+the\s+administrator\b[^.]*\.?",
    re.IGNORECASE,
)


def directive_standings(
    reading: DirectiveReading, kind: Type, passages: Sequence[Passage]
) -> dict[int, Standing]:
    """Per passage ordinal: the rule's own text binds; a preamble, a proposal and a foreign directive do
    not."""
    usual = usual_standing(kind)
    if reading.proposal:
        proposed = Standing(StandingValue.INFORMATION, usual, reading.proposal, scope="document")
        return {passage.ordinal: proposed for passage in passages}
    if reading.adopted is None:
        unknown = Standing(StandingValue.UNDETERMINED, usual, conditions=(FOREIGN_DIRECTIVE_CONDITION,))
        return {passage.ordinal: unknown for passage in passages}
    effective = reading.facts.effective
    since = f"In force from {effective.value:%d %B %Y}" if effective else "In force from its effective date"
    if reading.facts.on_receipt:
        since = "In force upon receipt"
    rule = Standing(
        StandingValue.APPROVED,
        usual,
        reading.adopted,
        scope="document",
        mandatory=True,
        conditions=(
            "For the products and conditions that the directive names.",
            f"{since}, unless a later directive replaces it.",
        ),
    )
    preamble = Standing(StandingValue.UNDETERMINED, usual)
    return {passage.ordinal: rule if _of_the_rule(reading, passage) else preamble for passage in passages}


def circular_standings(
    number: str | None, pages: Sequence[Page], passages: Sequence[Passage]
) -> dict[int, Standing]:
    """What a circular says of itself: acceptable methods where it is one of those that may also serve as
    approved data under conditions, information where it says that it is not mandatory or no regulation, else
    not determined. Never approved: the conditions are the user's to find true."""
    usual = usual_standing(Type.ADVISORY_CIRCULAR)
    held = circular_conditions(number or "")
    conditions = held.conditions if held else ()
    acceptable = _acceptable_methods(pages) if held else None
    information = _own_words(pages)
    evidence = acceptable or information
    value = StandingValue.UNDETERMINED
    if evidence:
        value = StandingValue.ACCEPTABLE if acceptable else StandingValue.INFORMATION
    standing = Standing(value, usual, evidence, "document" if evidence else "", conditions=conditions)
    return {passage.ordinal: standing for passage in passages}


def _acceptable_methods(pages: Sequence[Page]) -> Evidence | None:
    flow = body_flow(pages[:4])
    found = _ACCEPTABLE_METHODS.search(flow.plain)
    if found is None:
        return None
    start = found.start() + len(found[0]) - len(found[0].lstrip())
    return flow.evidence(start, found.end(), "circular gives acceptable methods")


def _own_words(pages: Sequence[Page]) -> Evidence | None:
    flow = body_flow(pages[:4])
    said = information_words(flow.text)
    if said is None:
        return None
    start = flow.text.find(said.quote)
    return flow.evidence(start, start + len(said.quote), "circular says it is no regulation")


def _of_the_rule(reading: DirectiveReading, passage: Passage) -> bool:
    """Whether the passage begins at or after the rule's number line."""
    flow = reading.flow
    for start, printed in flow.places():
        if printed.pdf_page == passage.pdf_page and _within(printed.line.box, passage):
            return reading.rule_start <= start < reading.end
    return False


def _within(box, passage: Passage) -> bool:
    x, y = (box.x0 + box.x1) / 2, (box.top + box.bottom) / 2
    return any(
        place.pdf_page == passage.pdf_page
        and place.box.x0 - 2 <= x <= place.box.x1 + 2
        and place.box.top - 2 <= y <= place.box.bottom + 2
        for place in passage.boxes
    )
