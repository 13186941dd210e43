"""What must be known beside the answers of a source check: both sides of a dispute, what overrides a page."""

from collections.abc import Mapping, Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.records import ReferenceState
from indexer.library.relation_rules.cited_dates import cited_days
from indexer.library.works import BULLETINS
from indexer.tagging.tags import Citation, ClaimKind, StandingValue
from indexer.trade.circular_conditions import circular_conditions
from indexer.trade.disputed import Disputed, disputed_for_major_work, disputed_point
from indexer.trade.publication_types import PublicationType as Type
from server.checking.answer_facts import Facts
from server.checking.asking import NEEDS
from server.checking.directive_status import name_of
from server.checking.directives_found import replaced_in_print
from server.checking.enough import INSPECTION, MAJOR
from server.checking.exceptions_found import ExceptionFound
from server.checking.findings import Enough
from server.checking.places import MOST_PAGES, Place
from server.checking.resolving import Resolution
from server.checking.unheld import circular_words, usual_words
from server.currency import Currency
from server.words import date_words


def notes_of(
    catalogue: Catalogue,
    citation: Citation,
    others: Sequence[Citation],
    resolution: Resolution,
    place: Place,
    facts: Facts,
    lacks: Sequence[str],
    answers: Mapping[str, Enough],
    exceptions: Sequence[ExceptionFound],
) -> tuple[str, ...]:
    """What must be known beside the answers, each once. `others`: all references of the entry."""
    publication, kind = facts.publication, facts.kind
    notes: list[str] = [*resolution.notes]
    notes += [facts.reason] if facts.reason else []
    notes += [place.note] if place.note else []
    if publication is None:
        notes += [usual_words(citation)] if usual_words(citation) else []
    if place.state is ReferenceState.NO_SUCH_PLACE and publication:
        notes.append("Look at the page as printed before the reference is signed for.")
    if lacks:
        notes.append(f"The reference is incomplete: {', '.join(lacks)} missing. {NEEDS}")
    notes += [facts.other_number] if facts.other_number else []
    notes += _said_of_the_date(citation)
    notes += circular_words(citation)
    if publication is not None:
        currency = Currency(catalogue)
        notes += currency.of_publication(publication)
        for page in place.pdf_pages[:MOST_PAGES]:
            notes += [
                f"PDF page {page}: {currency.override_words(each)}"
                for each in currency.overrides(publication, page)
            ]
    for newer, claim in replaced_in_print(catalogue, citation):
        notes.append(
            f"{name_of(newer)}, held here, replaces it: «{claim.evidence.quote}». What was done under the "
            "old one is history: check the new one's actions and credit."
        )
    if any(each.level in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES) for each in facts.directives):
        notes.append("Where a directive and the document differ, the directive governs (14 CFR 39.27).")
    notes += [each.words for each in exceptions]
    notes += _disputed(citation, facts, answers)
    if circular_conditions(citation.number) and (manual := _other_manual(others, citation)):
        notes.append(
            f"The entry also names «{manual}». Where the maker's manual covers the repair, the circular "
            "is contrary to the manufacturer's data, or not needed."
        )
    if kind is Type.STRUCTURAL_REPAIR_MANUAL:
        notes.append(
            "Limits of a structural repair manual hold for typical damage to structure that was not "
            "repaired before."
        )
    return tuple(dict.fromkeys(note.strip() for note in notes if note.strip()))


def _said_of_the_date(citation: Citation) -> list[str]:
    """How a date was read that has two readings, and a revision that is called current and not named."""
    notes = []
    days = cited_days(citation)
    if len(days) > 1:
        read = " or ".join(date_words(each) for each in days)
        notes.append(f"«{citation.date_words}» can be read {read}: write the month as a word.")
    if citation.claims_current and not citation.revision:
        notes.append("The entry calls it current and does not say which revision that was: name it.")
    return notes


def _disputed(citation: Citation, facts: Facts, answers: Mapping[str, Enough]) -> list[str]:
    """Both positions where the trade disagrees on what was asked."""
    notes: list[str] = []
    approved = facts.standing.value == StandingValue.APPROVED
    if MAJOR in answers and facts.publication is not None:
        for point in disputed_for_major_work(facts.kind):
            if not approved or point.point is Disputed.REPAIR_MANUAL_STAMP:
                notes += point.sentences
    if INSPECTION in answers:
        notes += disputed_point(Disputed.CURRENT_PROGRAM).sentences
    if facts.kind in BULLETINS and _is_called_mandatory(facts):
        notes.append(
            "«Mandatory» on a bulletin is the maker's word. By itself it requires nothing of an aircraft "
            "operated "
            "under part 91: a directive does (FAA legal interpretation of 11 August 2006, as reported)."
        )
        notes += disputed_point(Disputed.BULLETIN_IN_A_MANUAL).sentences
    return notes


def _is_called_mandatory(facts: Facts) -> bool:
    held = facts.publication.bulletin if facts.publication else None
    printed = held.compliance.value if held and held.compliance else ""
    said = f"{facts.entry} {printed}".casefold()
    return "mandatory" in said and not facts.standing.mandatory


def _other_manual(others: Sequence[Citation], citation: Citation) -> str:
    manuals = (each for each in others if each is not citation and each.type is not Type.ADVISORY_CIRCULAR)
    return next((each.text for each in manuals if each.chapter_number or each.number), "")
