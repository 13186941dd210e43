"""What a standing is on a day: a directive gives and takes from the day on which it binds, never before.

The catalogue keeps standing without a clock, as if every directive held were effective. Here the stored
standing is held against the day that is asked about (14 CFR 39.11 and 39.13: each directive is an amendment
with its effective date).
"""

import datetime
from dataclasses import replace

from indexer.library.catalogue import Catalogue
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.library.relations import ties_to
from indexer.library.works import DIRECTIVES
from indexer.tagging.tags import StandingValue
from indexer.trade.evidence import Answer, Basis
from indexer.trade.publication_types import PublicationType as Type
from server.checking.directive_status import name_of, status_of
from server.checking.findings import StandingFinding
from server.checking.places import Place
from server.checking.standing_found import of_passages, without_directives


def on_the_day(
    catalogue: Catalogue,
    publication: PublicationRecord,
    place: Place,
    found: StandingFinding,
    day: datetime.date,
) -> tuple[StandingFinding, str]:
    """The standing that counts on a day, and what is said of it; "" = the stored one does."""
    if publication.type is Type.AIRWORTHINESS_DIRECTIVE:
        return _of_directive(catalogue, publication, place, found, day)
    if publication.type in DIRECTIVES:
        return found, ""
    idle = _not_binding(catalogue, publication, day)
    if not idle:
        return found, ""
    passages = list(catalogue.passages(place.passages).values()) or catalogue.passages_of(publication.id)
    through = {_through(each) for each in passages} & idle.keys()
    if not through or (place.pdf_pages and not place.passages):
        return found, ""
    counting = [
        replace(each, standing=each.own_standing) if _through(each) in through else each for each in passages
    ]
    said = " ".join(f"Nothing is approved through {name}. {idle[name]}." for name in sorted(through))
    return of_passages(publication, counting), said


def _not_binding(catalogue: Catalogue, publication: PublicationRecord, day: datetime.date) -> dict[str, str]:
    """Directives held here that call for a publication and do not bind on the day: name -> how they stand."""
    sources = {tie.source_id for tie in ties_to(catalogue, publication.id) if tie.raises}
    found = {}
    for record in catalogue.publications_with(sorted(sources)):
        status = status_of(catalogue, record, day)
        if status.holds is not Answer.YES:
            found[name_of(record)] = f"{status.words[:1].upper()}{status.words[1:]}"
    return found


def _through(passage: PassageRecord) -> str:
    """The directive that a passage has its standing from; "" = from none."""
    evidence = passage.standing.evidence
    return evidence.source if evidence is not None and evidence.basis is Basis.LINKED_DIRECTIVE else ""


def _of_directive(
    catalogue: Catalogue,
    publication: PublicationRecord,
    place: Place,
    found: StandingFinding,
    day: datetime.date,
) -> tuple[StandingFinding, str]:
    """A directive's own: nothing before its day; what replaces it makes it history from that one's day on."""
    status = status_of(catalogue, publication, day)
    if status.holds is Answer.YES and found.source:
        own = without_directives(catalogue, publication, place)
        return (
            own,
            f"{found.source}, held here, takes its place later: on the day asked about it is in force.",
        )
    if found.value == StandingValue.APPROVED.value and status.holds is Answer.NO:
        lowered = replace(found, value=StandingValue.UNDETERMINED.value, mandatory="")
        return lowered, f"{status.words[:1].upper()}{status.words[1:]}."
    return found, ""
