"""Standing of an authority's own papers: a directive in force, a proposal, a circular."""

from collections.abc import Sequence

from indexer.reading.page import Page, Passage
from indexer.tagging.directive_reading import DirectiveReading
from indexer.tagging.flow import body_flow
from indexer.tagging.standing import information_words
from indexer.tagging.standing_scope import usual_standing
from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.evidence import Evidence
from indexer.trade.publication_types import PublicationType as Type

FOREIGN_DIRECTIVE_CONDITION = (
    "Issued by another authority, or not shown to be a final rule: look for the FAA's own directive."
)
# AC 43.13-1B (8 September 1998, Change 1) paragraph 1, and the same policy for 43.13-2B (from memory), in our
# own words.
_MAY_SERVE_AS_APPROVED = {
    "43.13-1B": (
        "May serve as approved data for a repair only where the user finds it appropriate to the product, "
        "directly applicable to the repair, and not contrary to the manufacturer's data; non-pressurized "
        "areas; only where the manufacturer gives no instructions.",
        "Name chapter, page and paragraph in block 8 of Form 337.",
    ),
    "43.13-2B": (
        "May serve as approved data for a listed alteration only where the user finds it appropriate to the "
        "product, directly applicable to the alteration, and not contrary to the manufacturer's data; "
        "non-pressurized areas of aircraft of 12,500 pounds or less.",
        "Name chapter, page and paragraph in block 8 of Form 337.",
    ),
}


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
    """A circular that says it is not mandatory or no regulation is information; without the words, not
    determined."""
    usual = usual_standing(Type.ADVISORY_CIRCULAR)
    conditions = _MAY_SERVE_AS_APPROVED.get(number or "", ())
    evidence = _own_words(pages)
    value = StandingValue.INFORMATION if evidence else StandingValue.UNDETERMINED
    standing = Standing(value, usual, evidence, "document" if evidence else "", conditions=conditions)
    return {passage.ordinal: standing for passage in passages}


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
