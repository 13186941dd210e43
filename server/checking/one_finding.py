"""Everything found of one citation: the rooms of this folder in order, from the words to the answer."""

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Aircraft
from indexer.library.records import PublicationRecord
from indexer.library.works import BULLETINS, DIRECTIVES
from indexer.tagging.entry_fact_records import EntryFacts, FactKind
from indexer.tagging.tags import Citation, CitationKind, ClaimKind
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from server.applying import Applying
from server.checking.amoc_letters import letter_meant
from server.checking.answer_facts import Facts
from server.checking.asking import ask_whom, missing_in, place_is_missing
from server.checking.beside_reference import not_used, other_words_before
from server.checking.changed_pages import changed_pages, manual_changed
from server.checking.currency_found import (
    after_the_work,
    currency_at,
    older_than_held,
    replaced_directive,
)
from server.checking.denied import denial_on
from server.checking.directive_status import misprinted, name_of
from server.checking.directives_found import NONE_HELD, directives_of
from server.checking.enough import enough
from server.checking.exceptions_found import exceptions_of
from server.checking.findings import (
    Candidate,
    DirectiveFinding,
    Resolved,
    SourceFinding,
    StandingFinding,
)
from server.checking.limits_held import limit_touched
from server.checking.limits_stretched import stretches_a_limit
from server.checking.notes import notes_of
from server.checking.places import MOST_PAGES, Place, place_of
from server.checking.read_by_ocr import ocr_found, without_ocr
from server.checking.resolving import Resolution, resolve
from server.checking.standing_found import PART_APPROVAL, as_denied, standing_of, without_directives
from server.checking.standing_on_day import on_the_day
from server.checking.task_named import task_found
from server.checking.unheld import is_vague, part_approval_named
from server.checking.wording import record_words, why_not_to_cite
from server.checking.words_beside import (
    NO_MANUALS,
    document_beside,
    other_product,
    unread_beside,
    unread_revision,
)
from server.words import publication_name

_NAMES_NO_PAPER = (FactKind.REGISTRATION, FactKind.SERIAL, FactKind.MODEL, FactKind.OTHER_AIRCRAFT)
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
    done_on    day of the work, None = not known; today counts for revisions and directives then
    today      the library's day on which it is asked
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
    conflict: str = ""  # in words, where the entry names another aircraft than was chosen


def find(catalogue: Catalogue, citation: Citation, asked: Asked) -> SourceFinding:
    """The finding for one citation; call it inside `reading`."""
    resolution = letter_meant(catalogue, citation, asked.others) or resolve(
        catalogue, citation, _words_near(citation, asked), asked.aircraft
    )
    if is_vague(citation) and resolution.publication is None:
        resolution = Resolution(None, resolution.candidates, VAGUE, only_by_kind=True)
    resolution = _unless_something_else_is_named(citation, resolution, asked)
    publication = resolution.publication
    kind = publication.type if publication else citation.type
    place = place_of(catalogue, publication, citation) if publication else Place()
    place = task_found(catalogue, citation, place)
    day = asked.done_on or asked.today
    standing = _standing(catalogue, citation, publication, place)
    idle = ""
    if publication is not None:
        standing, idle = on_the_day(catalogue, publication, place, standing, day)
    changed = changed_pages(catalogue, publication, place, asked.text, asked.others, asked.aircraft, day)
    current = currency_at(catalogue, publication, place, day, changed.cited)
    if publication is None:
        older = older_than_held(citation, resolution)
        current = older or replaced_directive(catalogue, citation, day) or current
    read = ocr_found(catalogue, publication, place)
    applies = without_ocr(catalogue, publication, _applies(catalogue, publication, place, asked), read)
    applying = Applying(catalogue, asked.aircraft) if asked.aircraft else None
    directives = directives_of(
        catalogue, citation, resolution, standing, asked.done_on, asked.today, applying
    )
    standing, unreached = _for_this_aircraft(catalogue, publication, place, standing, directives, asked)
    denial = denial_on(catalogue, publication, place)
    if denial is not None and publication is not None:
        standing = as_denied(publication, standing)
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
        not_used=not_used(asked.text, citation),
        other_number=misprinted(asked.text, citation, publication),
        too_early=after_the_work(publication, asked.done_on),
        stretched=stretches_a_limit(catalogue, publication),
        changed=changed,
        denial=denial,
        limit=limit_touched(
            catalogue,
            publication,
            asked.text,
            citation,
            asked.others,
            asked.aircraft.model if asked.aircraft else "",
        ),
    )
    answers = {work: enough(facts, work) for work in asked.classes}
    uncited = why_not_to_cite(answers, facts.not_used)
    return SourceFinding(
        citation,
        _resolved(publication, place),
        resolution.candidates,
        current,
        applies,
        replace(standing, scope="page", basis="printed", quote=denial.quote, pdf_page=denial.pdf_page)
        if denial
        else standing,
        directives,
        answers,
        ask_whom(kind, resolution, current, applies, answers),
        lacks,
        (
            *(said for said in (uncited, idle, unreached) if said),
            *read.notes,
            *notes_of(
                catalogue, citation, asked.others, resolution, place, facts, lacks, answers, exceptions
            ),
        ),
        "" if uncited else record_words(citation, publication, asked.aircraft, place, changed.cited_words),
        "" if directives else NONE_HELD,
        read,
    )


def _unless_something_else_is_named(citation: Citation, resolution: Resolution, asked: Asked) -> Resolution:
    """A bare place leads to no manual where the words before it name another number or revision."""
    publication = resolution.publication
    if publication is None or citation.kind is CitationKind.REGULATION or publication.type in DIRECTIVES:
        return resolution
    if not_used(asked.text, citation):
        return resolution  # said as such
    known = [*publication.models, *(fact.value for fact in asked.said.facts if fact.kind in _NAMES_NO_PAPER)]
    if (held := asked.aircraft) is not None:
        known += [held.registration, held.model, held.serial]
        known += [name for each in held.fitted for name in (each.model, each.serial)]
    reason = _open_words(citation, publication, asked, known)
    if not reason:
        return resolution
    listed = Candidate(publication.id, publication_name(publication), publication.revision, "has this place")
    return replace(resolution, publication=None, candidates=(listed, *resolution.candidates), reason=reason)


def _open_words(
    citation: Citation, publication: PublicationRecord, asked: Asked, known: Sequence[str]
) -> str:
    """Why the words beside a bare place leave open which document is meant; "" = they do not."""
    held = (citation, asked.others, publication)
    if citation.number:
        if not citation.revision and (said := unread_revision(asked.text, citation, asked.others)):
            return f"Cannot tell: «{said}» was not understood; name the revision."
        makers_own = publication.type in BULLETINS or publication.type not in NO_MANUALS
        said = other_product(asked.text, *held, _no_products(asked)) if makers_own else ""
        return f"The words name «{said}», and the document held here is for another product." if said else ""
    if said := unread_beside(asked.text, *held, known):
        return f"Cannot tell: «{said}» was not understood; name the document."
    if said := document_beside(asked.text, *held):
        return f"The place may be in «{said}», named beside it: not the one held here, or not used."
    if said := other_product(asked.text, *held, _no_products(asked)):
        return f"The words name «{said}», which no manual held here is for: cannot tell."
    said = other_words_before(
        asked.text, citation, asked.others, publication.number, publication.revision, known
    )
    if said:
        return f"The words «{said}» before it may name another document or revision than those held here."
    return ""


def _no_products(asked: Asked) -> list[str]:
    """Names that tell the aircraft and not whose manual is meant."""
    said = [fact.value for fact in asked.said.facts if fact.kind in (FactKind.REGISTRATION, FactKind.SERIAL)]
    return [*said, *((asked.aircraft.registration, asked.aircraft.serial) if asked.aircraft else ())]


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


def _applies(
    catalogue: Catalogue, publication: PublicationRecord | None, place: Place, asked: Asked
) -> ApplicabilityAnswer:
    """Whether every place meant reaches the aircraft: one that does not is enough to say so."""
    if asked.aircraft is None:
        return ApplicabilityAnswer(Applies.CANNOT_TELL, asked.no_aircraft)
    if asked.conflict:
        return ApplicabilityAnswer(Applies.CANNOT_TELL, asked.conflict)
    if publication is None:
        return ApplicabilityAnswer(Applies.CANNOT_TELL, "The document meant is not known here.")
    applying = Applying(catalogue, asked.aircraft)
    if place.several:
        whole = applying.of_publication(publication)
        said = ApplicabilityAnswer(Applies.CANNOT_TELL, place.reason)
        return whole if whole.answer is Applies.DOES_NOT_APPLY else said
    passages = list(catalogue.passages(place.passages[:MOST_PAGES]).values())
    found = [applying.of_passage(publication, each) for each in passages]
    found += [applying.of_page(publication, page) for page in place.pdf_pages[:MOST_PAGES]]
    found = found or [applying.of_publication(publication)]
    order = (Applies.DOES_NOT_APPLY, Applies.CANNOT_TELL, Applies.APPLIES)
    answer = min(found, key=lambda each: order.index(each.answer))
    if answer.answer is Applies.CANNOT_TELL and not answer.quote:
        return _as_the_manual_does(catalogue, publication, applying) or answer
    return answer


def _as_the_manual_does(
    catalogue: Catalogue, publication: PublicationRecord, applying: Applying
) -> ApplicabilityAnswer | None:
    """A temporary revision that names no models is for what the pages it changes are for; None = it is none,
    or they do not agree."""
    found = [
        applying.of_page(catalogue.publication(each.target_id), each.pdf_page)
        for each in manual_changed(catalogue, publication)
    ]
    if not found or len({each.answer for each in found}) > 1:
        return None
    return replace(found[0], why=f"It changes pages of a manual held here, which say: {found[0].why}")


def _credited(directives: Sequence[DirectiveFinding]) -> Answer | None:
    """Whether a credit paragraph counts the work; None = none speaks of it."""
    answers = [each.credits for each in directives if each.credits is not None]
    for answer in (Answer.NO, Answer.CANNOT_TELL, Answer.YES):
        if answer in answers:
            return answer
    return None
