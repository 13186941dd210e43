"""Which publication a work is: type, number, title, maker, models, revision, date; each with its evidence."""

from collections.abc import Mapping, Sequence

from indexer.reading.page import Page
from indexer.tagging.bulletins import BULLETINS, affected_paragraph
from indexer.tagging.directive_reading import DirectiveReading, publication_date
from indexer.tagging.identity_maker import publication_maker, publication_models
from indexer.tagging.identity_number import publication_number
from indexer.tagging.identity_revision import revision_and_date
from indexer.tagging.identity_title import publication_title
from indexer.tagging.identity_type import publication_type
from indexer.tagging.tags import Identity
from indexer.tagging.title_block import title_block
from indexer.trade.publication_types import PublicationType as Type

_PAPERS_WITHOUT_MAKER = (
    Type.ADVISORY_CIRCULAR, Type.ORDER_OR_HANDBOOK, Type.REGULATION, Type.ACCIDENT_REPORT, Type.CODE_TABLE,
    Type.RELEASE_CERTIFICATE, Type.AIRWORTHINESS_BULLETIN, Type.AMOC_LETTER,
)  # fmt: skip


def identify(
    pages: Sequence[Page], properties: Mapping[str, str], directive: DirectiveReading | None
) -> Identity:
    """The identity of one work from its pages and, where it is the whole file, the file's properties."""
    block = title_block(pages)
    kind = publication_type(pages, block, properties, directive)
    value = kind.value if kind else None
    lettered = directive if value in (Type.AIRWORTHINESS_DIRECTIVE, Type.PROPOSED_DIRECTIVE) else None
    revision, date = revision_and_date(value, pages, block)
    if lettered:
        # A directive has no revision mark of its own; its effective date is the date that counts.
        revision, date = (
            None,
            lettered.facts.effective or (publication_date(lettered, pages) if lettered.proposal else None),
        )
    if value is Type.AMOC_LETTER:
        revision = None  # the marks in it are those of the bulletins it speaks of
    if value is Type.ACCIDENT_REPORT:
        date = None  # the day on its title page is the accident's
    affected = affected_paragraph(pages) if value in BULLETINS else None
    makerless = value in _PAPERS_WITHOUT_MAKER
    return Identity(
        type=kind,
        number=publication_number(value, pages, block, lettered, properties),
        title=publication_title(value, block, properties, lettered),
        maker=None if makerless else publication_maker(block, lettered),
        models=() if makerless else publication_models(block, lettered, affected),
        revision=revision,
        date=date,
    )


def type_value(identity: Identity) -> Type | None:
    """The type without its evidence; None = cannot tell."""
    return identity.type.value if identity.type else None
