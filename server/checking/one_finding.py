"""Everything found of one citation: the rooms of this folder in order, from the words to the answer."""

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Aircraft
from indexer.library.records import PublicationRecord, ReferenceState
from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.library.works import BULLETINS
from indexer.tagging.entry_fact_records import EntryFacts
from indexer.tagging.tags import Citation, ClaimKind, StandingValue
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.circular_conditions import circular_conditions
from indexer.trade.disputed import Disputed, disputed_for_major_work, disputed_point
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import later_revision
from server.applying import Applying
from server.checking.answer_facts import Facts
from server.checking.asking import NEEDS, ask_whom, missing_in, place_is_missing
from server.checking.directives_found import NONE_HELD, directives_of, name_of, replaced_in_print
from server.checking.enough import INSPECTION, MAJOR, enough
from server.checking.exceptions_found import ExceptionFound, exceptions_of
from server.checking.findings import DirectiveFinding, Resolved, SourceFinding, StandingFinding
from server.checking.places import Place, place_of
from server.checking.resolving import Resolution, resolve
from server.checking.standing_found import PART_APPROVAL, standing_of, without_directives
from server.checking.unheld import circular_words, is_vague, part_approval_named, usual_words
from server.checking.wording import record_words
from server.currency import Currency
from server.current import currency_of, page_currency
from server.words import date_words, publication_name

_MOST_PAGES = 12  # of a place, that are looked at one by one
_WORST = (CurrencyState.SUPERSEDED, CurrencyState.CHECK_EXPIRED, CurrencyState.UNKNOWN, CurrencyState.CURRENT)
NO_AIRCRAFT = "No aircraft is given."
VAGUE = "The words name no document that could be looked up: the reference is incomplete."


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of every citation of an entry.

    text       the whole entry; said: what was read of it
    aircraft   chosen, or named by the entry; None = none
    held_against  how a sentence calls it; says so where the entry named it
    no_aircraft   why there is none
    classes    of work to answer for
    done_on    day of the work, None = not known; today counts for revisions then
    today      the day on which it is asked
    """

    text: str
    aircraft: Aircraft | None
    held_against: str
    no_aircraft: str
    classes: tuple[str, ...]
    done_on: datetime.date | None
    today: datetime.date
    said: EntryFacts = field(default_factory=EntryFacts)
    others: tuple[Citation, ...] = ()  # the other references of the entry


def find(catalogue: Catalogue, citation: Citation, asked: Asked) -> SourceFinding:
    """The finding for one citation; call it inside `reading`."""
    resolution = resolve(catalogue, citation, _words_near(citation, asked), asked.aircraft)
    if is_vague(citation) and resolution.publication is None:
        resolution = Resolution(None, resolution.candidates, VAGUE, only_by_kind=True)
    publication = resolution.publication
    kind = publication.type if publication else citation.type
    place = place_of(catalogue, publication, citation) if publication else Place()
    standing = _standing(catalogue, citation, publication, place)
    current = _currency(catalogue, publication, place, asked.done_on or asked.today)
    if publication is None:
        current = _older_than_held(citation, resolution) or current
    applies = _applies(catalogue, publication, place, asked)
    applying = Applying(catalogue, asked.aircraft) if asked.aircraft else None
    directives = directives_of(catalogue, citation, resolution, standing, asked.done_on, applying)
    standing, unreached = _for_this_aircraft(catalogue, publication, place, standing, directives, asked)
    lacks = missing_in(citation, kind, resolution)
    exceptions = exceptions_of(catalogue, citation, directives, asked.text)
    facts = Facts(
        kind,
        publication,
        publication.number if publication else citation.number,
        resolution.reason or place.reason,
        place.state,
        not place_is_missing(citation, kind),
        asked.held_against if asked.aircraft else "",
        current,
        applies,
        standing,
        directives,
        asked.text,
        asked.said,
        _credited(directives),
        resolution.only_by_kind,
        tuple(each.words for each in exceptions if each.used),
        not_entered=asked.aircraft is None and asked.no_aircraft != NO_AIRCRAFT,
        revision_named=not any("revision" in each or each == "date" for each in lacks),
    )
    answers = {work: enough(facts, work) for work in asked.classes}
    return SourceFinding(
        citation,
        _resolved(publication, place),
        resolution.candidates,
        current,
        applies,
        standing,
        directives,
        answers,
        ask_whom(kind, resolution, current, applies, answers),
        lacks,
        (
            *((unreached,) if unreached else ()),
            *_notes(catalogue, citation, resolution, place, facts, lacks, answers, asked, exceptions),
        ),
        record_words(citation, publication, asked.aircraft),
        "" if directives else NONE_HELD,
    )


def _words_near(citation: Citation, asked: Asked) -> str:
    """The words that may say whose manual is meant: between the reference before it and the one after it."""
    before = max([each.end for each in asked.others if each.end <= citation.start], default=0)
    after = min([each.start for each in asked.others if each.start >= citation.end], default=len(asked.text))
    return asked.text[before:after]


def _resolved(publication: PublicationRecord | None, place: Place) -> Resolved | None:
    if publication is None:
        return None
    name = name_of(publication) if publication.directive else publication_name(publication)
    return Resolved(publication.id, name, publication.revision, place.pdf_pages, place.passages)


def _standing(
    catalogue: Catalogue, citation: Citation, publication: PublicationRecord | None, place: Place
) -> StandingFinding:
    found = standing_of(catalogue, publication, place)
    if publication is not None:
        itself = found.mandatory and publication.type is Type.AIRWORTHINESS_DIRECTIVE
        return replace(found, mandatory=name_of(publication)) if itself else found
    part = part_approval_named(citation)
    usual = citation.type.usual_standing if citation.type else ""
    if part is not None:
        return StandingFinding(PART_APPROVAL, usual, basis=part.source, conditions=(part.sentence,))
    return StandingFinding(found.value, usual)


def _for_this_aircraft(
    catalogue: Catalogue,
    publication: PublicationRecord | None,
    place: Place,
    standing: StandingFinding,
    directives: Sequence[DirectiveFinding],
    asked: Asked,
) -> tuple[StandingFinding, str]:
    """The standing for the aircraft: a directive raises nothing for one that it is not shown to reach.

    With it, what is said of that; "" = nothing.
    """
    if publication is None or asked.aircraft is None or not standing.source:
        return standing, ""
    raising = [each for each in directives if each.number in standing.source.split("; ")]
    raising = [each for each in raising if each.level in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES)]
    if not raising or any(each.reaches is Answer.YES for each in raising):
        return standing, ""
    named = f"{standing.source} approves this place for the aircraft that it reaches."
    return without_directives(catalogue, publication, place), f"{named} {raising[0].note}"


def _currency(
    catalogue: Catalogue, publication: PublicationRecord | None, place: Place, on: datetime.date
) -> CurrencyFinding:
    """The worst state of the pages meant; of the publication where no page is."""
    if publication is None:
        return CurrencyFinding(CurrencyState.UNKNOWN, "The document meant is not known here.")
    if not place.pdf_pages or len(place.pdf_pages) > _MOST_PAGES:
        return currency_of(catalogue, publication, on)
    found = [page_currency(catalogue, publication, page, on) for page in place.pdf_pages]
    return min(found, key=lambda each: _WORST.index(each.state))


def _older_than_held(citation: Citation, resolution: Resolution) -> CurrencyFinding | None:
    """Superseded, where the marks say that a later revision than the one named is held; None = not shown."""
    for each in resolution.named:
        named = each.replaced is None and citation.revision and each.revision
        if named and later_revision(each.revision, citation.revision) is Answer.YES:
            why = f"Revision {each.revision} is held here and is later than revision {citation.revision}."
            return CurrencyFinding(CurrencyState.SUPERSEDED, why)
    return None


def _applies(
    catalogue: Catalogue, publication: PublicationRecord | None, place: Place, asked: Asked
) -> ApplicabilityAnswer:
    """Whether every place meant reaches the aircraft: one that does not is enough to say so."""
    if asked.aircraft is None:
        return ApplicabilityAnswer(Applies.CANNOT_TELL, asked.no_aircraft)
    if publication is None:
        return ApplicabilityAnswer(Applies.CANNOT_TELL, "The document meant is not known here.")
    applying = Applying(catalogue, asked.aircraft)
    passages = list(catalogue.passages(place.passages[:_MOST_PAGES]).values())
    found = [applying.of_passage(publication, each) for each in passages]
    found += [applying.of_page(publication, page) for page in place.pdf_pages[:_MOST_PAGES]]
    found = found or [applying.of_publication(publication)]
    order = (Applies.DOES_NOT_APPLY, Applies.CANNOT_TELL, Applies.APPLIES)
    return min(found, key=lambda each: order.index(each.answer))


def _credited(directives: Sequence[DirectiveFinding]) -> Answer | None:
    """Whether a credit paragraph counts the work; None = none speaks of it."""
    answers = [each.credits for each in directives if each.credits is not None]
    for answer in (Answer.NO, Answer.CANNOT_TELL, Answer.YES):
        if answer in answers:
            return answer
    return None


def _notes(
    catalogue: Catalogue,
    citation: Citation,
    resolution: Resolution,
    place: Place,
    facts: Facts,
    lacks: Sequence[str],
    answers: dict,
    asked: Asked,
    exceptions: Sequence[ExceptionFound],
) -> tuple[str, ...]:
    """What must be known beside the answers; each once."""
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
    notes += _said_of_the_date(citation)
    notes += circular_words(citation)
    if publication is not None:
        currency = Currency(catalogue)
        notes += currency.of_publication(publication)
        for page in place.pdf_pages[:_MOST_PAGES]:
            notes += [
                f"PDF page {page}: {currency.override_words(each)}"
                for each in currency.overrides(publication, page)
            ]
    for newer, claim in replaced_in_print(catalogue, citation):
        notes.append(
            f"{name_of(newer)}, held here, replaces it: «{claim.evidence.quote}». What was done under the "
            f"old one "
            "is history: check the new one's actions and credit."
        )
    if any(each.level in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES) for each in facts.directives):
        notes.append("Where a directive and the document differ, the directive governs (14 CFR 39.27).")
    notes += [each.words for each in exceptions]
    notes += _disputed(citation, facts, answers)
    if circular_conditions(citation.number) and (manual := _other_manual(asked, citation)):
        notes.append(
            f"The entry also names «{manual}». Where the maker's manual covers the repair, the circular "
            f"is contrary "
            "to the manufacturer's data, or not needed."
        )
    if kind is Type.STRUCTURAL_REPAIR_MANUAL:
        notes.append(
            "Limits of a structural repair manual hold for typical damage to structure that was not "
            "repaired before."
        )
    return tuple(dict.fromkeys(note.strip() for note in notes if note.strip()))


def _said_of_the_date(citation: Citation) -> list[str]:
    """How a date was read that has two readings, and a revision that is called current and not named."""
    notes, date = [], citation.date
    in_figures = re.search(r"[0-9]{1,2}[/.-][0-9]{1,2}[/.-][0-9]{2,4}", citation.date_words)
    if date and in_figures and date.day <= 12 and date.day != date.month:
        said = f"«{citation.date_words}» was read month first, as {date_words(date)}"
        notes.append(f"{said}. Day first it is another date.")
    if citation.claims_current and not citation.revision:
        notes.append("The entry calls it current and does not say which revision that was: name it.")
    return notes


def _disputed(citation: Citation, facts: Facts, answers: dict) -> list[str]:
    """Both positions where the trade disagrees on what was asked."""
    notes: list[str] = []
    approved = facts.standing.value == StandingValue.APPROVED
    if MAJOR in answers and facts.publication is not None:
        for point in disputed_for_major_work(facts.kind):
            if not approved or point.point is Disputed.REPAIR_MANUAL_STAMP:
                notes += point.sentences
    if INSPECTION in answers:
        notes += disputed_point(Disputed.CURRENT_PROGRAM).sentences
    if facts.kind in BULLETINS and _is_called_mandatory(citation, facts):
        notes.append(
            "«Mandatory» on a bulletin is the maker's word. By itself it requires nothing of an aircraft "
            "operated "
            "under part 91: a directive does (FAA legal interpretation of 11 August 2006, as reported)."
        )
        notes += disputed_point(Disputed.BULLETIN_IN_A_MANUAL).sentences
    return notes


def _is_called_mandatory(citation: Citation, facts: Facts) -> bool:
    held = facts.publication.bulletin if facts.publication else None
    printed = held.compliance.value if held and held.compliance else ""
    said = f"{facts.entry} {printed}".casefold()
    return "mandatory" in said and not facts.standing.mandatory


def _other_manual(asked: Asked, citation: Citation) -> str:
    manuals = (
        each for each in asked.others if each is not citation and each.type is not Type.ADVISORY_CIRCULAR
    )
    return next((each.text for each in manuals if each.chapter_number or each.number), "")
