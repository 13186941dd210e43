"""Which publication gives way to which: directives, statements in print, and newer revisions of one work."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from indexer.library.records import Supersession, SupersessionKind
from indexer.library.relation_rules.held import Held, Shelf
from indexer.library.relation_rules.naming import fits_revision
from indexer.library.works import DIRECTIVES, number_key
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.evidence import Answer, Evidence, Origin
from indexer.trade.publication_types import PublicationType
from indexer.trade.revisions import later_revision, same_revision

_GONE = "No longer in force."
_PUT_OFF = "A paper held here puts it off or stays it: cannot tell whether it is in force."
_READ_BY_OCR = "was read by OCR, which may take one figure for another"
_OCR_SAYS = "read by OCR: cannot tell whether it is in force, read the page."
_REVISED = re.compile(r"(?P<base>.+?)R(?P<revision>\d+)$")


@dataclass(frozen=True)
class OutOfForce:
    """Why a directive held here is no longer in force, and who says so."""

    by: str  # publication id; the directive's own where it says so itself
    sentence: str
    evidence: Evidence | None


def directives_out_of_force(shelf: Shelf) -> dict[str, OutOfForce]:
    """Publication id -> why, for directives that a rule held here replaces or that say they were replaced."""
    gone: dict[str, OutOfForce] = {}
    for source, _, claim in shelf.speaking():
        if source.type is not PublicationType.AIRWORTHINESS_DIRECTIVE:
            continue
        if claim.kind is ClaimKind.SUPERSEDES and source.takes_out_of_force:
            done = "Withdrawn" if source.withdraws else "Superseded"
            for older in _directives_named(shelf, source, claim):
                sentence = f"{done} by {source.name}. {_GONE}"
                if not _sure(claim, source, older):
                    sentence = f"{done} by {source.name}, as {_OCR_SAYS}"
                _add(gone, older, OutOfForce(source.id, sentence, claim.evidence))
        if claim.kind is ClaimKind.SUPERSEDED_BY:
            sentence = f"Superseded by {claim.document}. {_GONE}"
            if not _sure(claim, source):
                sentence = f"Superseded by {claim.document}, as {_OCR_SAYS}"
            _add(gone, source, OutOfForce(source.id, sentence, claim.evidence))
        if source.puts_off and claim.kind is ClaimKind.MENTIONS:
            for put_off in shelf.named_by(source, claim):
                if put_off.number == source.number:
                    _add(gone, put_off, OutOfForce(source.id, _PUT_OFF, claim.evidence))
    for newer, older in _revised_directives(shelf):
        sure = newer.known_from_digital_text and older.known_from_digital_text
        sentence = (
            f"Replaced by {newer.name}. {_GONE}" if sure else f"Replaced by {newer.name}, as {_OCR_SAYS}"
        )
        _add(gone, older, OutOfForce(newer.id, sentence, None))
    return gone


def supersessions(shelf: Shelf) -> list[Supersession]:
    """Every pair of held publications of which one gives way to the other, or which have no sure order."""
    found: dict[tuple, Supersession] = {}
    for each in (*_between_directives(shelf), *_stated(shelf), *_revisions(shelf)):
        found.setdefault((each.older_id, each.newer_id, each.kind), each)
    return [found[key] for key in sorted(found)]


def _sure(claim: Claim, *named: Held) -> bool:
    """Whether the claim, and the numbers it goes by, stand in digital text."""
    return claim.evidence.origin is Origin.DIGITAL and all(each.known_from_digital_text for each in named)


def _add(gone: dict[str, OutOfForce], directive: Held, why: OutOfForce) -> None:
    # Several may say so; the first by id is kept, so that the order of taking does not matter.
    held = gone.get(directive.id)
    if held is None or (why.by, why.sentence) < (held.by, held.sentence):
        gone[directive.id] = why


def _directives_named(shelf: Shelf, source: Held, claim: Claim) -> list[Held]:
    return [each for each in shelf.named_by(source, claim) if each.number != source.number]


def _revised_directives(shelf: Shelf) -> Iterator[tuple[Held, Held]]:
    """(newer, older) where R1 stands beside its base number, or R2 beside R1."""
    directives = [
        each for each in shelf if each.type is PublicationType.AIRWORTHINESS_DIRECTIVE and each.number
    ]
    numbered: dict[str, list[tuple[int, Held]]] = {}
    for each in directives:
        revised = _REVISED.match(each.number)
        base, revision = (revised["base"], int(revised["revision"])) if revised else (each.number, 0)
        numbered.setdefault(base, []).append((revision, each))
    for members in numbered.values():
        for (one, first), (other, second) in combinations(members, 2):
            newer, older = (first, second) if one > other else (second, first)
            if one != other and newer.is_rule and newer.on_shelf:
                yield newer, older


def _between_directives(shelf: Shelf) -> Iterator[Supersession]:
    kind = SupersessionKind.DIRECTIVE
    for source, _, claim in shelf.speaking():
        if source.type is not PublicationType.AIRWORTHINESS_DIRECTIVE:
            continue
        named = _directives_named(shelf, source, claim)
        if claim.kind is ClaimKind.SUPERSEDES and source.takes_out_of_force:
            does = "withdraws" if source.withdraws else "replaces"
            for older in named:
                yield _told(older, source, kind, f"{source.name} {does} it.", claim)
        elif claim.kind is ClaimKind.SUPERSEDED_BY:
            for newer in (each for each in named if each.is_rule):
                yield _told(source, newer, kind, f"{newer.name} replaces it.", claim)
    for newer, older in _revised_directives(shelf):
        if newer.known_from_digital_text and older.known_from_digital_text:
            yield Supersession(older.id, newer.id, kind, f"{newer.name} is a revision of it.")
        else:
            reason = f"The number of one {_READ_BY_OCR}."
            yield Supersession(older.id, newer.id, SupersessionKind.CANNOT_TELL, reason)


def _told(older: Held, newer: Held, kind: SupersessionKind, sentence: str, claim: Claim) -> Supersession:
    """What a claim says; no more than "cannot tell" where it or a number it goes by was read by OCR."""
    if _sure(claim, older, newer):
        return Supersession(older.id, newer.id, kind, sentence, claim.evidence)
    reason = f"{sentence} But this {_READ_BY_OCR}: read the page."
    return Supersession(older.id, newer.id, SupersessionKind.CANNOT_TELL, reason, claim.evidence)


def _stated(shelf: Shelf) -> Iterator[Supersession]:
    """Any other publication that says what it replaces, or by what it was replaced."""
    for source, _, claim in shelf.speaking():
        if source.type in DIRECTIVES or claim.type in DIRECTIVES:
            continue
        if claim.kind not in (ClaimKind.SUPERSEDES, ClaimKind.SUPERSEDED_BY):
            continue
        for other in shelf.named_by(source, claim):
            if not _of_one_manual(source, other):
                continue
            if _same_work(source, other) and not claim.revision and not claim.date:
                continue  # "replaces all earlier issues": the dates of the revisions say which those are
            if (claim.revision or claim.date) and fits_revision(claim, other) is not Answer.YES:
                continue
            older, newer = (other, source) if claim.kind is ClaimKind.SUPERSEDES else (source, other)
            sentence = f"{source.name} says so."
            yield _told(older, newer, SupersessionKind.STATED, sentence, claim)


def _revisions(shelf: Shelf) -> Iterator[Supersession]:
    works: dict[tuple, list[Held]] = {}
    for each in shelf:
        if each.type and each.number and each.type not in DIRECTIVES:
            works.setdefault((each.type, each.number), []).append(each)
    for members in works.values():
        for one, other in combinations(members, 2):
            yield from _two_revisions(one, other)


def _two_revisions(one: Held, other: Held) -> Iterator[Supersession]:
    if one.maker and other.maker and one.maker != other.maker or not _of_one_manual(one, other):
        return
    same = same_revision(one.revision, other.revision)
    if one.date == other.date and (
        same is Answer.YES or (one.date and not one.revision and not other.revision)
    ):
        return  # two copies of one revision
    newer, older, reason = _in_order(one, other, same)
    if not reason:
        reason = f"Of {newer.date.isoformat()}, after {older.date.isoformat()}."
        yield Supersession(older.id, newer.id, SupersessionKind.NEWER_REVISION, reason)
    else:
        yield Supersession(one.id, other.id, SupersessionKind.CANNOT_TELL, reason)


def _in_order(one: Held, other: Held, same: Answer) -> tuple[Held, Held, str]:
    """(newer, older, ""), or a reason why no order can be told. Marks of revisions only ever contradict."""
    if not _same_work(one, other):
        return one, other, "The maker is not printed on both."
    if one.date is None or other.date is None:
        return one, other, "The date of the revision is not printed on both."
    if one.date == other.date:
        return one, other, "Both bear the same date."
    newer, older = (one, other) if one.date > other.date else (other, one)
    if same is Answer.YES:
        return one, other, "Both bear the same revision and different dates."
    if later_revision(older.revision, newer.revision) is Answer.YES:
        return one, other, "The order of the dates is not the order of the revisions."
    if not (one.known_from_digital_text and other.known_from_digital_text):
        return one, other, f"The number, revision or date of one {_READ_BY_OCR}."
    return newer, older, ""


def _same_work(one: Held, other: Held) -> bool:
    """Type, number and maker agree; where no maker is printed on either, the titles must agree."""
    if (one.type, one.number) != (other.type, other.number):
        return False
    if one.maker or other.maker:
        return one.maker == other.maker
    titles = [
        each.identity.title.value.casefold().split() if each.identity.title else None for each in (one, other)
    ]
    return titles[0] is not None and titles[0] == titles[1]


def _of_one_manual(one: Held, other: Held) -> bool:
    """False for two temporary revisions of different manuals: each manual numbers its own."""
    if not one.type is other.type is PublicationType.TEMPORARY_REVISION:
        return True
    manuals = [
        {
            number_key(claim.document, claim.type)
            for claim in each.claims
            if claim.kind is ClaimKind.CHANGES_PAGE
        }
        for each in (one, other)
    ]
    return bool(manuals[0] & manuals[1])


def superseded_ids(found: Iterable[Supersession]) -> Mapping[str, list[Supersession]]:
    """Publication id -> what it gives way to; pairs without an order are left out."""
    by_older: dict[str, list[Supersession]] = {}
    for each in found:
        if each.kind is not SupersessionKind.CANNOT_TELL:
            by_older.setdefault(each.older_id, []).append(each)
    return by_older
