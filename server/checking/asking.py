"""What a reference lacks, and whom to ask. Pure; common practice, no source, where no other is named."""

from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.library.works import BULLETINS, DIRECTIVES
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.circular_conditions import circular_conditions
from indexer.trade.evidence import Answer
from indexer.trade.part_approvals import part_approval_of_type
from indexer.trade.publication_types import PublicationType as Type
from server.checking.findings import Enough
from server.checking.places import names_a_place
from server.checking.resolving import Resolution

NEEDS = (
    "A reference that can be checked names the document (title or number), its revision and date, and "
    "the place "
    "in it: chapter-section-subject and page, or paragraph or figure."
)
_WITHOUT_REVISION = frozenset(
    {
        *DIRECTIVES, Type.ADVISORY_CIRCULAR, Type.REGULATION, Type.AIRWORTHINESS_BULLETIN, Type.AMOC_LETTER,
        Type.REPAIR_ALTERATION_RECORD, Type.ENGINEERING_APPROVAL, Type.PARTS_APPROVAL,
        Type.RELEASE_CERTIFICATE, Type.ORDER_OR_HANDBOOK, Type.SUPPLEMENTAL_TYPE_CERTIFICATE,
    }
)  # fmt: skip
_WHOLE = frozenset({*_WITHOUT_REVISION - {Type.ADVISORY_CIRCULAR}, *BULLETINS, Type.TEMPORARY_REVISION})
_SIGNER = "the holder of the inspection authorization who signs, or the repair station's procedures"
FOR_THE_REST = f"For what cannot be told: {_SIGNER}."


def missing_in(citation: Citation, kind: Type | None, resolution: Resolution) -> tuple[str, ...]:
    """What the reference itself lacks, in words."""
    lacks: list[str] = []
    if citation.kind is CitationKind.REGULATION:
        return ()
    if not citation.number and (resolution.only_by_kind or resolution.publication is None):
        papers = kind in BULLETINS | DIRECTIVES | {Type.ADVISORY_CIRCULAR}
        lacks.append("number" if papers else "which document: its number, or title and model")
    if kind not in _WITHOUT_REVISION:
        held = resolution.publication
        undated = held is not None and not held.revision and held.date is not None  # told by its date alone
        if not citation.revision and not citation.date:
            lacks.append("date" if undated else "revision and date")
        elif not citation.revision and held is not None and held.revision:
            lacks.append("revision")
    if place_is_missing(citation, kind):
        lacks.append("chapter, page and paragraph" if _is_circular(kind) else "chapter or page")
    elif _is_circular(kind) and circular_conditions(citation.number):
        lacks += [] if citation.page else ["page"]
        lacks += [] if citation.paragraph else ["paragraph"]
    return tuple(lacks)


def place_is_missing(citation: Citation, kind: Type | None) -> bool:
    """Whether no place is named where one is needed. A bulletin or a directive may be meant as a whole."""
    return kind not in _WHOLE and not names_a_place(citation) and citation.kind is not CitationKind.TASK


def _is_circular(kind: Type | None) -> bool:
    return kind is Type.ADVISORY_CIRCULAR


def ask_whom(
    kind: Type | None,
    resolution: Resolution,
    current: CurrencyFinding,
    applies: ApplicabilityAnswer,
    answers: dict[str, Enough],
) -> tuple[str, ...]:
    """Whom to ask for what could not be told; () when nothing is open."""
    if part_approval_of_type(kind) is not None:
        return (f"For the data of the work itself: {_SIGNER}.",)
    if kind is Type.REGULATION:
        return ()
    asked: list[str] = []
    if resolution.publication is None and resolution.candidates:
        asked.append("The person who wrote the entry: which of the documents listed was used.")
    elif resolution.publication is None:
        asked.append("The person who wrote the entry for the document, then its publisher for a copy.")
    if current.state is not CurrencyState.CURRENT and kind not in _WITHOUT_REVISION:
        asked.append("The librarian, against the maker's list of current revisions: which one is current.")
    if kind in DIRECTIVES:
        asked.append("The authority's list of directives: whether it is in force, and what else applies.")
    if applies.answer is Applies.CANNOT_TELL:
        asked.append("The aircraft's records: model, serial number and what is fitted.")
    if any(each.answer is Answer.CANNOT_TELL for each in answers.values()):
        asked.append(FOR_THE_REST)
    return tuple(asked)
