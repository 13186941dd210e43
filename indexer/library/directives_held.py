"""Directives held here, for readers: what each says of one publication, and what became of one directive.

Every answer about force is for a day that the asker names.
"""

import datetime
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass, replace

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.records import PublicationRecord, RevisionMatch, Supersession, SupersessionKind, Tie
from indexer.library.relation_rules.directive_force import Force, ForceOnDay, ReplacedBy, in_force
from indexer.library.relations import supersessions_of, ties_to
from indexer.library.works import DIRECTIVES, number_key
from indexer.tagging.tags import Claim, ClaimKind, DirectiveFacts
from indexer.trade.evidence import Answer, Evidence, Origin, Tag
from indexer.trade.publication_types import PublicationType


@dataclass(frozen=True, slots=True)
class DirectiveTie:
    """What one directive held here says of a publication.

    number         of the directive, written one way; "" for a proposal
    document       as the directive names it, with `revision` ("" = none named) and `date`
    paragraphs     the parts it means; () = the whole
    before         credit only: the day before which the work must have been done; None = not printed
    raises, reason whether the words can raise the publication's standing, and why not: whatever the day
    applicability  the directive's own words; the tie is for the aircraft they reach and no other
    pdf_page       of the quote in the directive's file, 1-based
    """

    directive_id: str
    number: str
    level: ClaimKind
    match: RevisionMatch
    force: ForceOnDay
    document: str
    revision: str
    date: datetime.date | None
    paragraphs: tuple[str, ...]
    later_allowed: bool
    before: datetime.date | None
    raises: bool
    reason: str
    evidence: Evidence
    applicability: Tag[str] | None

    @property
    def quote(self) -> str:
        return self.evidence.quote

    @property
    def pdf_page(self) -> int | None:
        return self.evidence.pdf_page

    @property
    def raises_now(self) -> bool:
        """On the day that was asked for."""
        return self.raises and self.force.binds

    def credits(self, done_on: datetime.date | None) -> Answer:
        """Whether work done with this document on that day counts for the directive."""
        if self.level is not ClaimKind.CREDITS or self.match is RevisionMatch.OTHER:
            return Answer.NO
        if done_on is None or self.before is None or self.match is not RevisionMatch.EXACT:
            return Answer.CANNOT_TELL
        return Answer.YES if done_on < self.before else Answer.NO


@dataclass(frozen=True, slots=True)
class HeldDirective:
    """One directive held here, with what it replaces and what replaces it among those held."""

    publication: PublicationRecord
    number: str
    facts: DirectiveFacts
    force: ForceOnDay
    replaced_by: tuple[ReplacedBy, ...]

    @property
    def replaces(self) -> tuple[str, ...]:
        return tuple(tag.value for tag in (*self.facts.replaces, *self.facts.withdraws))


@dataclass(frozen=True, slots=True)
class DirectiveNumber:
    """What is held of one directive's number.

    held         its copies on the shelf, by id; () = none is held, which never says that none exists
    replaced_by  what replaces it among the directives held, whether or not it is held itself
    """

    number: str
    held: tuple[HeldDirective, ...]
    replaced_by: tuple[ReplacedBy, ...]


def directives_on(catalogue: Catalogue, publication_id: str, on: datetime.date) -> tuple[DirectiveTie, ...]:
    """Everything that directives and proposals held here say of a publication: strongest first.

    () is "none among the documents held", never "none applies".
    """
    found = []
    with catalogue.reading():
        ties = ties_to(catalogue, publication_id)
        sources = _directives(catalogue, {tie.source_id for tie in ties}, on)
        for tie in ties:
            if tie.source_id in sources:
                found.append(_tie(tie, sources[tie.source_id], _claim_of(catalogue, tie)))
    order = list(ClaimKind)
    found.sort(
        key=lambda each: (not each.raises_now, order.index(each.level), each.number, each.directive_id)
    )
    return tuple(found)


def directive_numbered(catalogue: Catalogue, number: str, on: datetime.date) -> DirectiveNumber:
    """What is held of a directive by its number in any spelling: "AD 82-27-13 R1", "1989-24-09"."""
    key = number_key(number, PublicationType.AIRWORTHINESS_DIRECTIVE)
    with catalogue.reading() as connection:
        rows = connection.execute(
            "SELECT id, number FROM publication WHERE type = ? AND number != ''",
            (PublicationType.AIRWORTHINESS_DIRECTIVE.value,),
        ).fetchall()
        ids = {
            row["id"]
            for row in rows
            if number_key(row["number"], PublicationType.AIRWORTHINESS_DIRECTIVE) == key
        }
        held = _directives(catalogue, ids, on)
        on_shelf = [each for each in held.values() if each.publication.replaced is None]
        replaced_by = {each.id: each for one in on_shelf for each in one.replaced_by}
        for each in _naming_as_replaced(catalogue, connection, key):
            replaced_by.setdefault(each.id, each)
        return DirectiveNumber(
            key,
            tuple(sorted(on_shelf, key=lambda each: each.publication.id)),
            tuple(replaced_by[name] for name in sorted(replaced_by)),
        )


@dataclass(frozen=True, slots=True)
class NotYet:
    """A directive on the shelf that takes effect on a later day; its name as standings have it."""

    name: str
    effective: datetime.date


def not_yet_effective(catalogue: Catalogue, on: datetime.date) -> dict[str, NotYet]:
    """The directives on the shelf that do not bind yet on a day, by id."""
    with catalogue.reading() as connection:
        rows = connection.execute(
            "SELECT id FROM publication WHERE type = ?", (PublicationType.AIRWORTHINESS_DIRECTIVE.value,)
        ).fetchall()
        records = catalogue.publications_with([row["id"] for row in rows])
    found = {}
    for record in records:
        force = in_force(record.directive, (), on) if record.directive else None
        if record.replaced is None and force and force.state is Force.NOT_YET and force.since:
            found[record.id] = NotYet(_name(record), force.since)
    return found


def force_of(catalogue: Catalogue, publication_id: str, on: datetime.date) -> ForceOnDay | None:
    """Whether a directive held here binds on a day; None for a publication that is none."""
    held = _directives(catalogue, {publication_id}, on).get(publication_id)
    return held.force if held else None


def _directives(catalogue: Catalogue, ids: Iterable[str], on: datetime.date) -> dict[str, HeldDirective]:
    found = {}
    for record in catalogue.publications_with(sorted(ids)):
        if record.directive is None or record.type not in DIRECTIVES:
            continue
        replaced_by = _replaced_by(catalogue, record)
        put_off, corrected = _papers_about(catalogue, record)
        force = in_force(record.directive, replaced_by, on, put_off)
        if corrected:
            force = replace(force, why=f"{force.why} {corrected} corrects it: read that too.")
        if record.replaced is not None and force.binds:
            force = ForceOnDay(Force.CANNOT_TELL, "This copy was replaced by another file: read that one.")
        number = number_key(record.number, record.type) if record.number else ""
        if record.type is PublicationType.PROPOSED_DIRECTIVE:
            number = ""
        found[record.id] = HeldDirective(record, number, record.directive, force, replaced_by)
    return found


def _papers_about(catalogue: Catalogue, record: PublicationRecord) -> tuple[str, str]:
    """The files of papers that put this directive off and that correct it; "" = none is held."""
    sources = [tie.source_id for tie in ties_to(catalogue, record.id) if tie.level is ClaimKind.MENTIONS]
    put_off = corrected = ""
    for paper in catalogue.publications_with(sorted(set(sources))):
        facts = paper.directive
        if facts is None or facts.is_rule or facts.proposal or paper.type is not record.type:
            continue
        if number_key(paper.number, paper.type) != number_key(record.number, record.type):
            continue
        put_off = put_off or (paper.file if facts.put_off else "")
        corrected = corrected or (paper.file if facts.correction else "")
    return put_off, corrected


# A pair in no sure order counts, without a day: then nobody can tell whether the older one binds.
_REPLACING = (SupersessionKind.DIRECTIVE, SupersessionKind.CANNOT_TELL)


def _replaced_by(catalogue: Catalogue, record: PublicationRecord) -> tuple[ReplacedBy, ...]:
    """From the supersessions of the catalogue, and from its own words that something replaced it."""
    newer = [
        each
        for each in supersessions_of(catalogue, record.id)
        if each.older_id == record.id and each.kind in _REPLACING
    ]
    records = {each.id: each for each in catalogue.publications_with([each.newer_id for each in newer])}
    found = [_from_record(records[each.newer_id], each) for each in newer]
    with catalogue.reading() as connection:
        rows = connection.execute(
            "SELECT claim_json FROM claim WHERE publication_id = ? AND kind = ?",
            (record.id, ClaimKind.SUPERSEDED_BY.value),
        ).fetchall()
    for row in rows:
        claim = from_json(Claim, row["claim_json"])
        found.append(ReplacedBy(claim.document, record.id, False, None, claim.evidence))
    return tuple(sorted(found, key=lambda each: each.id))


def _from_record(newer: PublicationRecord, supersession: Supersession | None) -> ReplacedBy:
    facts = newer.directive
    effective = facts.effective or (facts.issued if facts.on_receipt else None) if facts else None
    by_ocr = effective is not None and effective.evidence.origin is not Origin.DIGITAL
    if by_ocr or (supersession and supersession.kind is SupersessionKind.CANNOT_TELL):
        effective = None
    return ReplacedBy(
        name=_name(newer),
        id=newer.id,
        withdrawal=bool(facts and facts.withdraws),
        effective=effective.value if effective else None,
        evidence=supersession.evidence if supersession else None,
    )


def _name(record: PublicationRecord) -> str:
    if record.number:
        return f"AD {number_key(record.number, record.type)}"
    return record.title or "a directive without a number"


def _naming_as_replaced(
    catalogue: Catalogue, connection: sqlite3.Connection, number: str
) -> list[ReplacedBy]:
    """Rules and withdrawals on the shelf that say they replace this number, which may not be held."""
    rows = connection.execute(
        "SELECT publication_id, claim_json FROM claim WHERE kind = ? AND document = ?",
        (ClaimKind.SUPERSEDES.value, number),
    ).fetchall()
    claims = {row["publication_id"]: from_json(Claim, row["claim_json"]) for row in rows}
    found = []
    for record in catalogue.publications_with(sorted(claims)):
        facts = record.directive
        if facts is None or record.replaced is not None or not (facts.is_rule or facts.withdraws):
            continue
        named = _from_record(record, None)
        found.append(
            ReplacedBy(named.name, named.id, named.withdrawal, named.effective, claims[record.id].evidence)
        )
    return found


def _claim_of(catalogue: Catalogue, tie: Tie) -> Claim:
    with catalogue.reading() as connection:
        row = connection.execute(
            "SELECT claim_json FROM claim WHERE publication_id = ? AND ordinal = ?",
            (tie.source_id, tie.claim),
        ).fetchone()
    return from_json(Claim, row["claim_json"])


def _tie(tie: Tie, source: HeldDirective, claim: Claim) -> DirectiveTie:
    return DirectiveTie(
        directive_id=tie.source_id,
        number=source.number,
        level=tie.level,
        match=tie.match,
        force=source.force,
        document=claim.document,
        revision=claim.revision,
        date=claim.date,
        paragraphs=tie.paragraphs,
        later_allowed=claim.later_allowed,
        before=claim.before,
        raises=tie.raises,
        reason=tie.reason,
        evidence=tie.evidence,
        applicability=source.facts.applicability,
    )
