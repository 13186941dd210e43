"""The standing of the passages that a reference means: the least that any of them has.

"Approved" needs quoted words of digital text in scope, or a directive in force; text read by OCR gives
nothing. Maker's instructions are acceptable by what they are, where the words that say so are printed. The
usual standing of the type stands beside the finding and is none.
"""

from collections.abc import Sequence
from dataclasses import replace

from indexer.library.catalogue import Catalogue
from indexer.library.cited import standing_counts
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.tagging.standing import FOREIGN_CONDITION
from indexer.tagging.tags import StandingValue
from indexer.trade.circular_conditions import circular_conditions
from indexer.trade.evidence import Basis, Evidence, Origin
from indexer.trade.part_approvals import part_approval_of_type
from indexer.trade.publication_types import PublicationType as Type
from server.checking.findings import StandingFinding
from server.checking.places import Place
from server.words import basis_words, count_of, entered_words

PART_APPROVAL = "part approval"
# From the least to the most. What says nothing stands below what is shown to be acceptable.
_RANKS = (
    StandingValue.BLOCKED,
    StandingValue.INFORMATION,
    StandingValue.UNDETERMINED,
    StandingValue.ACCEPTABLE,
    StandingValue.APPROVED,
)
READ_BY_OCR = "The words that would approve it were read by OCR and prove nothing: read the page itself."
# 14 CFR 43.13(a) names the maintenance manual and the instructions for continued airworthiness; the others
# are what makers issue beside them (common practice, no source).
INSTRUCTIONS = frozenset(
    {
        Type.MAINTENANCE_MANUAL, Type.SERVICE_MANUAL, Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS,
        Type.STRUCTURAL_REPAIR_MANUAL, Type.COMPONENT_MAINTENANCE_MANUAL, Type.ENGINE_MANUAL,
        Type.PROPELLER_MANUAL, Type.WIRING_DIAGRAM_MANUAL, Type.STANDARD_PRACTICES_MANUAL,
        Type.SERVICE_BULLETIN, Type.TEMPORARY_REVISION,
    }
)  # fmt: skip
NO_WORDS = "No approval words were found for it."


def standing_of(catalogue: Catalogue, publication: PublicationRecord | None, place: Place) -> StandingFinding:
    """The finding for a place of a publication; without a publication nothing is found."""
    if publication is None:
        return StandingFinding(StandingValue.UNDETERMINED.value)
    usual = publication.type.usual_standing if publication.type else ""
    part = part_approval_of_type(publication.type)
    if part is not None:
        return StandingFinding(PART_APPROVAL, usual, conditions=(part.sentence,), basis=part.source)
    passages, mixed = _meant(catalogue, publication, place)
    if not passages:
        return StandingFinding(StandingValue.UNDETERMINED.value, usual, conditions=(NO_WORDS,))
    found = _of_no_place(place, _by_kind(publication, least_of(passages, usual)))
    circular = circular_conditions(publication.number)
    more = (*mixed, *(circular.conditions if circular else ()))
    return replace(found, conditions=tuple(dict.fromkeys((*found.conditions, *more))))


def without_directives(catalogue: Catalogue, publication: PublicationRecord, place: Place) -> StandingFinding:
    """The same from its own words alone: for an aircraft that no directive is shown to reach."""
    passages = list(catalogue.passages(place.passages).values()) or catalogue.passages_of(publication.id)
    own = of_passages(publication, [replace(each, standing=each.own_standing) for each in passages])
    return _of_no_place(place, own)


def _of_no_place(place: Place, found: StandingFinding) -> StandingFinding:
    """Nothing is approved or acceptable where it cannot be told which of several places is meant."""
    if not place.several or found.value not in (StandingValue.APPROVED.value, StandingValue.ACCEPTABLE.value):
        return found
    return StandingFinding(StandingValue.UNDETERMINED.value, found.usual, conditions=(place.reason,))


def as_denied(publication: PublicationRecord, found: StandingFinding) -> StandingFinding:
    """The same of a page that prints that it is not approved: no more than what the document's kind gives."""
    if found.value == StandingValue.BLOCKED.value or found.source or found.entered:
        return found
    bare = replace(
        found,
        value=StandingValue.UNDETERMINED.value,
        scope="",
        basis="",
        quote="",
        pdf_page=None,
        conditions=(),
    )
    return _by_kind(publication, bare)


def of_passages(publication: PublicationRecord, passages: Sequence[PassageRecord]) -> StandingFinding:
    """The least standing among passages of a publication, and what its kind makes of it; not empty."""
    usual = publication.type.usual_standing if publication.type else ""
    return _by_kind(publication, least_of(passages, usual))


def least_of(passages: Sequence[PassageRecord], usual: str = "") -> StandingFinding:
    """The least standing among passages, in words and with its proof. `passages` not empty."""
    ranked = sorted(passages, key=lambda each: (_RANKS.index(_proved(each)), each.ordinal))
    least = ranked[0]
    standing, evidence, value = least.standing, least.standing.evidence, _proved(least)
    conditions = [each for passage in ranked for each in passage.standing.conditions]
    if value is not standing.value:
        conditions.insert(0, READ_BY_OCR)
    read = [each.origin for each in passages if each.origin is not Origin.DIGITAL]
    mandatory = ""
    if all(each.standing.mandatory for each in passages):
        mandatory = _mandatory_by(passages)
    entered = entered_words(evidence) if evidence and evidence.basis is Basis.SHOP_ENTRY else ""
    if entered:
        conditions.insert(0, entered)
    return StandingFinding(
        value.value,
        usual or standing.usual.value,
        standing.scope,
        basis_words(evidence) if evidence else "",
        "" if entered else standing.quote,
        evidence.pdf_page if evidence and not entered else None,
        tuple(dict.fromkeys(conditions)),
        mandatory,
        evidence.source if evidence and not entered else "",
        bool(read),
        entered,
    )


def _by_kind(publication: PublicationRecord, found: StandingFinding) -> StandingFinding:
    """Acceptable by what the document is, where nothing printed says otherwise and no OCR was needed."""
    tag, kind = publication.identity.type, publication.type
    foreign = FOREIGN_CONDITION in found.conditions
    if found.value != StandingValue.UNDETERMINED.value or kind is None or tag is None:
        return found
    if (
        kind.usual_standing == StandingValue.INFORMATION.value
        and circular_conditions(publication.number) is None
    ):
        basis = f"by type of publication, {basis_words(tag.evidence)}"
        return replace(found, value=StandingValue.INFORMATION.value, scope="document", basis=basis)
    if kind not in INSTRUCTIONS:
        return found
    if (found.shown and not foreign) or found.read_by_ocr or READ_BY_OCR in found.conditions:
        return found
    evidence = tag.evidence
    printed = evidence.basis is Basis.PRINTED and evidence.origin is Origin.DIGITAL and evidence.quote.strip()
    if not printed and evidence.basis is not Basis.SHOP_ENTRY:
        return found
    basis = f"by type of publication, {basis_words(evidence)}"
    if not printed:
        said = entered_words(evidence)
        return replace(
            found,
            value=StandingValue.ACCEPTABLE.value,
            scope="document",
            basis=basis,
            quote="",
            pdf_page=None,
            conditions=(said, *found.conditions),
            entered=said,
        )
    return replace(
        found,
        value=StandingValue.ACCEPTABLE.value,
        scope="document",
        basis=basis,
        quote=evidence.quote or kind.label,
        pdf_page=evidence.pdf_page,
    )


def _proved(passage: PassageRecord) -> StandingValue:
    """The standing that may be said. Without words of digital text, or a person of the shop, not approved."""
    standing = passage.standing
    if standing.value not in (StandingValue.APPROVED, StandingValue.ACCEPTABLE):
        return standing.value
    evidence = standing.evidence
    if evidence is None or not evidence.quote.strip():
        return StandingValue.UNDETERMINED
    entered = evidence.basis is Basis.SHOP_ENTRY
    digital = evidence.origin is Origin.DIGITAL and passage.origin is Origin.DIGITAL
    sure = entered or (digital and evidence.basis in (Basis.PRINTED, Basis.LINKED_DIRECTIVE))
    return standing.value if sure else StandingValue.UNDETERMINED


def _mandatory_by(passages: Sequence[PassageRecord]) -> str:
    """What makes them mandatory: the directives, else the rule's own name for the section."""
    return "; ".join(dict.fromkeys(_by(each.standing.evidence) for each in passages))


def _by(evidence: Evidence | None) -> str:
    if evidence is not None and evidence.basis is Basis.LINKED_DIRECTIVE and evidence.source:
        return evidence.source
    quote = evidence.quote.casefold() if evidence else ""
    return "Airworthiness Limitations section" if "limitations" in quote else "a rule in force, as quoted"


def _meant(
    catalogue: Catalogue, publication: PublicationRecord, place: Place
) -> tuple[list[PassageRecord], tuple[str, ...]]:
    """The passages meant; of a whole publication one for each standing that occurs, and what that says."""
    if place.passages:
        return list(catalogue.passages(place.passages).values()), ()
    if place.pdf_pages:
        return [], ()
    counts = standing_counts(catalogue, publication.id)
    if publication.directive is not None and any(each.value is StandingValue.APPROVED for each in counts):
        counts = [each for each in counts if each.value is not StandingValue.UNDETERMINED]  # its preamble
    passages = list(catalogue.passages(each.first for each in counts).values())
    approved = sum(each.passages for each in counts if each.value is StandingValue.APPROVED)
    total = sum(each.passages for each in counts)
    if 0 < approved < total:
        said = f"{approved:,} of {count_of(total, 'passage')} are shown as approved, the others are not:"
        return passages, (f"{said} name the place.",)
    return passages, ()
