"""The directives held here that speak of a cited document: each by its level, and whether it reaches it.

Only what a directive in force requires or incorporates, at the revision it names, makes a document mandatory
(14 CFR 39.27). Nothing found means "none among the directives held here", never "none applies".
"""

import datetime
import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from indexer.library.catalogue import Catalogue
from indexer.library.cited import claim_of, claims_on
from indexer.library.records import PublicationRecord, RevisionMatch, Tie
from indexer.library.relation_rules.cited_dates import is_of_day
from indexer.library.relation_rules.reference_targets import names_in
from indexer.library.relations import ties_to
from indexer.library.works import BULLETINS, DIRECTIVES, claimed_keys, number_key
from indexer.tagging.tags import Citation, CitationKind, Claim, ClaimKind
from indexer.trade.applies import Applies
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import same_revision
from server.applying import Applying
from server.checking.directive_status import Status, name_of, status_of
from server.checking.findings import CITED_ITSELF, DirectiveFinding, StandingFinding
from server.checking.paragraph_ranges import lies_inside
from server.checking.resolving import Resolution
from server.words import date_words

NONE_HELD = (
    "None among the directives held here. That does not mean that none applies: check the authority's list."
)
_SPEAKING = frozenset({*DIRECTIVES, Type.AMOC_LETTER})
_LEVELS = (
    ClaimKind.REQUIRES,
    ClaimKind.INCORPORATES,
    ClaimKind.CREDITS,
    ClaimKind.ALTERNATIVE,
    ClaimKind.MENTIONS,
)
_SERIES = frozenset(
    "SB ASB MSB CSB ESB SEB SEL MEB SL SIL SI SERVICE BULLETIN LETTER NO TR AC AD NPRM FAA".split()
)
_RAISING = frozenset({ClaimKind.REQUIRES, ClaimKind.INCORPORATES})
_LATER = "Later revisions are not covered by its words: that takes an alternative method or a new directive."


@dataclass(frozen=True, slots=True)
class _Said:
    """One statement of a directive about the cited document; tie = how it fits the publication meant."""

    source: PublicationRecord
    claim: Claim
    tie: Tie | None


def directives_of(
    catalogue: Catalogue,
    citation: Citation,
    resolution: Resolution,
    standing: StandingFinding,
    on: datetime.date | None,
    today: datetime.date,
    applying: Applying | None = None,
) -> tuple[DirectiveFinding, ...]:
    """Directives and letters about directives that speak of the cited document, those that reach it first.

    standing  of the passages meant: what the directives made mandatory among them
    on        the day of the work, None = not known: what is in force today counts then, and no credit
    applying  of the aircraft, None = none: a directive raises nothing for an aircraft it does not reach
    """
    day = on or today
    found = _itself(catalogue, resolution, day)
    for said in _statements(catalogue, citation, resolution):
        # Credit is for work done before the directive bound: it counts as the directive stands now.
        credited = today if said.claim.kind is ClaimKind.CREDITS else day
        each = _finding(catalogue, citation, resolution, standing, said, on, credited)
        if each is not None and applying is not None and each.reaches is Answer.YES:
            each = _for_aircraft(each, applying, said.source)
        if each is not None and applying is not None and said.claim.kind in _RAISING and not each.says:
            each = replace(each, says=reach_words(applying, said.source))
        if each is not None and applying is not None and each.credits is Answer.YES:
            each = _credited_for(each, applying, said.source)
        if each is not None and each not in found:
            found.append(each)
    levels = {CITED_ITSELF: -1, **{level.value: place for place, level in enumerate(_LEVELS)}}
    return tuple(
        sorted(found, key=lambda each: (each.reaches is not Answer.YES, levels[each.level], each.number))
    )


def replaced_in_print(catalogue: Catalogue, citation: Citation) -> list[tuple[PublicationRecord, Claim]]:
    """Rules held here that say they replace the directive cited, whether or not that one is held."""
    if citation.type is not Type.AIRWORTHINESS_DIRECTIVE:
        return []
    return [
        (said.source, said.claim)
        for said in _statements(catalogue, citation, Resolution(None), {ClaimKind.SUPERSEDES})
        if said.source.type is Type.AIRWORTHINESS_DIRECTIVE
    ]


def _itself(catalogue: Catalogue, resolution: Resolution, day: datetime.date) -> list[DirectiveFinding]:
    record = resolution.publication
    if record is None or record.type not in DIRECTIVES:
        return []
    status = status_of(catalogue, record, day)
    proof = record.directive.effective if record.directive else None
    superseded = status.words.startswith("superseded")
    note = "Look at the directive in force, its actions and its credit." if superseded else ""
    return [
        DirectiveFinding(
            name_of(record),
            record.id,
            CITED_ITSELF,
            status.words,
            proof.evidence.quote if proof else "",
            proof.evidence.pdf_page if proof else None,
            note,
            status.holds,
        )
    ]


def _statements(
    catalogue: Catalogue,
    citation: Citation,
    resolution: Resolution,
    kinds: Iterable[ClaimKind] = frozenset(_LEVELS),
) -> list[_Said]:
    """What directives on the shelf say of the document, by tie where it is held, else by its number."""
    ties: dict[tuple[str, int], Tie] = {}
    if resolution.publication is not None:
        ties = {(tie.source_id, tie.claim): tie for tie in ties_to(catalogue, resolution.publication.id)}
    claims = {
        (source, ordinal): claim
        for source, ordinal, claim in claims_on(catalogue, _pieces(citation))
        if _names(claim, citation)
    }
    if resolution.publication is not None:  # the ties have weighed maker and date, which a number leaves open
        claims = {place: claim for place, claim in claims.items() if place in ties}
    for place in ties:
        claim = claims.get(place) or claim_of(catalogue, *place)
        if claim is not None:
            claims[place] = claim
    wanted = set(kinds)
    sources = {each.id: each for each in catalogue.publications_with([source for source, _ in claims])}
    return [
        _Said(sources[place[0]], claim, ties.get(place))
        for place, claim in sorted(claims.items())
        if claim.kind in wanted and place[0] in sources and sources[place[0]].type in _SPEAKING
    ]


def _pieces(citation: Citation) -> list[str]:
    """The pieces of the number that stand in every way of writing it: no series, no century of a year."""
    pieces = re.findall(r"[A-Z0-9]+", citation.number.upper())
    if citation.type in DIRECTIVES:
        return [piece for piece in pieces if piece.isdecimal()][1:3]
    return [piece for piece in pieces if piece not in _SERIES]


def _names(claim: Claim, citation: Citation) -> bool:
    """Whether a claim names the cited number; bulletins and directives are never taken for each other."""
    types = {claim.type, citation.type} - {None}
    if len(types) == 2 and not types <= BULLETINS and not types <= DIRECTIVES:
        return False
    kind = citation.type or claim.type
    mine = {number_key(citation.number, kind)}
    for name in names_in(replace(citation, kind=CitationKind.DOCUMENT, type=kind)):
        mine |= {name.rpartition(" ")[2]} if name.startswith("number ") else set()
    return bool((mine - {""}) & claimed_keys(replace(claim, type=kind)))


def _finding(
    catalogue: Catalogue,
    citation: Citation,
    resolution: Resolution,
    standing: StandingFinding,
    said: _Said,
    on: datetime.date | None,
    day: datetime.date,
) -> DirectiveFinding | None:
    status = status_of(catalogue, said.source, day)
    match = said.tie.match if said.tie else _match(said.claim, citation)
    level, name = said.claim.kind, name_of(said.source)
    reaches, credits, note, says = Answer.NO, None, "", ""
    if level in _RAISING:
        if match is RevisionMatch.OTHER:
            says = _other_revision(said.claim, citation, resolution)
        reaches, note = _raising(said, status, match, citation, resolution, standing, name)
    elif level is ClaimKind.CREDITS:
        if match is RevisionMatch.OTHER:
            return None
        credits = _credits(said.claim.before or status.effective, match, status, on)
        note = _credit(said.claim.before or status.effective, match, on)
    elif level is ClaimKind.ALTERNATIVE:
        letter = said.source.type is Type.AMOC_LETTER
        note = (
            "Holds only for the directive, aircraft and holder the letter names (14 CFR 39.19)."
            if letter
            else "This directive speaks of alternative methods beside it: read which of them hold."
        )
    else:
        note = "Mentioned only: nothing in these words requires it."
    quote = said.claim.evidence
    return DirectiveFinding(
        name,
        said.source.id,
        level.value,
        status.words,
        quote.quote,
        quote.pdf_page,
        note,
        reaches,
        credits,
        says,
    )


def _for_aircraft(found: DirectiveFinding, applying: Applying, source: PublicationRecord) -> DirectiveFinding:
    """A directive reaches a document only for the aircraft that it reaches itself (14 CFR 39.3, 39.27)."""
    answer = applying.of_publication(source)
    if answer.answer is Applies.APPLIES:
        return found
    reaches = Answer.NO if answer.answer is Applies.DOES_NOT_APPLY else Answer.CANNOT_TELL
    said = "does not reach" if reaches is Answer.NO else "is not shown to reach"
    registration = applying.aircraft.registration
    return replace(found, reaches=reaches, note=f"The directive {said} {registration}: {answer.why}")


def reach_words(applying: Applying | None, source: PublicationRecord) -> str:
    """What a directive that requires a document does where it is not known to reach the aircraft; "" = it is.

    applying   None = of no known aircraft
    """
    answer = applying.of_publication(source).answer if applying else Applies.CANNOT_TELL
    registration = applying.aircraft.registration if applying else "the aircraft"
    if answer is Applies.APPLIES:
        return ""
    if answer is Applies.DOES_NOT_APPLY:
        return f"Names it; does not apply to {registration}"
    return f"Names it; whether it applies to {registration} cannot be told"


def _credited_for(found: DirectiveFinding, applying: Applying, source: PublicationRecord) -> DirectiveFinding:
    """Credit hangs on the words and the day; whether the directive reaches the aircraft is said with it."""
    reached = _for_aircraft(replace(found, reaches=Answer.YES), applying, source)
    if reached.reaches is Answer.YES:
        return found
    if reached.reaches is Answer.NO:
        return replace(found, credits=Answer.CANNOT_TELL, note=reached.note)
    return replace(found, note=f"{found.note} {reached.note}")


def _match(claim: Claim, citation: Citation) -> RevisionMatch:
    """How the revision cited stands to the one a directive names, by their marks and dates alone."""
    if not claim.revision and not claim.date:
        return RevisionMatch.NOT_NAMED
    answers = []
    if claim.revision and citation.revision:
        answers.append(same_revision(claim.revision, citation.revision))
    if claim.date and citation.date:
        answers.append(is_of_day(citation, claim.date))
    if Answer.NO in answers:
        return RevisionMatch.OTHER
    return RevisionMatch.EXACT if Answer.YES in answers else RevisionMatch.CANNOT_TELL


def _raising(
    said: _Said,
    status: Status,
    match: RevisionMatch,
    citation: Citation,
    resolution: Resolution,
    standing: StandingFinding,
    name: str,
) -> tuple[Answer, str]:
    """Whether what a directive requires or incorporates is what is cited, and what that means."""
    named = _revision_words(said.claim)
    cited = _cited_words(citation, resolution)
    parts = ", ".join(said.claim.paragraphs)
    if status.holds is Answer.NO:
        return Answer.NO, f"It raises nothing: {status.words}."
    if match is RevisionMatch.OTHER:
        later = "Its words also allow later approved revisions: cannot tell whether this is one."
        allowed = said.claim.later_allowed
        return (
            Answer.CANNOT_TELL if allowed else Answer.NO,
            f"Names {named}, not {cited}. {later if allowed else _LATER}",
        )
    if match is RevisionMatch.CANNOT_TELL:
        return Answer.CANNOT_TELL, f"Names {named}; cannot tell whether that is what is cited."
    if said.tie is None or not said.tie.raises or status.holds is not Answer.YES:
        why = said.tie.reason if said.tie else "The document is not held here."
        return Answer.CANNOT_TELL, f"Names {named or 'no revision'}. {why}".strip()
    if name in standing.mandatory.split("; "):
        return Answer.YES, f"Required as named: {parts}." if parts else "Reaches the place cited."
    if parts and citation.paragraph and lies_inside(citation.paragraph, said.claim.paragraphs):
        return Answer.YES, f"Required as named: {parts}."
    if parts and citation.paragraph:
        return Answer.CANNOT_TELL, f"Names {parts} of it. Whether the place cited is part of that: read both."
    if parts:
        return Answer.CANNOT_TELL, f"Requires {parts} of it, not all: name the part."
    return Answer.CANNOT_TELL, "Cannot tell whether it reaches the place cited: read it."


def _credits(
    before: datetime.date | None, match: RevisionMatch, status: Status, on: datetime.date | None
) -> Answer:
    """Whether the work counts: by the day it was done, for the very revision, by a rule in force."""
    if on is None or before is None or match is not RevisionMatch.EXACT or status.holds is not Answer.YES:
        return Answer.CANNOT_TELL
    return Answer.YES if on < before else Answer.NO


def _credit(before: datetime.date | None, match: RevisionMatch, on: datetime.date | None) -> str:
    if match is not RevisionMatch.EXACT:
        return "Credits earlier work by a revision; cannot tell whether it is this one."
    if before is None:
        return "Credits work done before a day that was not found: cannot tell."
    day = date_words(before)
    if on is None:
        return f"Credits work by this revision. Say on which day the work was done: credit only before {day}."
    if on < before:
        return f"Work done on {date_words(on)} is before {day}: credited."
    return f"No credit: work done on {date_words(on)} is not before {day}."


def _other_revision(claim: Claim, citation: Citation, resolution: Resolution) -> str:
    """What a directive that names another revision does, so that nobody takes it for this one's."""
    verb = "Requires" if claim.kind is ClaimKind.REQUIRES else "Incorporates"
    named, cited = _revision_words(claim), _cited_words(citation, resolution)
    later = "; it allows later approved ones, cannot tell whether this is one" if claim.later_allowed else ""
    return f"{verb} {named}, not this one ({cited}){later}"


def _revision_words(claim: Claim) -> str:
    words = f"revision {claim.revision}" if claim.revision else ""
    dated = f"of {date_words(claim.date)}" if claim.date else ""
    return f"{words} {dated}".strip()


def _cited_words(citation: Citation, resolution: Resolution) -> str:
    mark = citation.revision or (resolution.publication.revision if resolution.publication else "")
    if mark:
        return f"revision {mark}"
    return f"the one of {date_words(citation.date)}" if citation.date else "the revision cited"
