"""What each claim comes to among the publications held here: ties, and claims that cannot be resolved."""

from dataclasses import dataclass

from indexer.library.records import RevisionMatch, Tie, UnresolvedClaim
from indexer.library.relation_rules.held import Held, Shelf
from indexer.library.relation_rules.naming import fits_revision, identifies, revision_match
from indexer.library.works import BULLETINS
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.evidence import Answer, Origin
from indexer.trade.publication_types import PublicationType

RAISING = (ClaimKind.REQUIRES, ClaimKind.INCORPORATES)
TYING = (*RAISING, ClaimKind.CREDITS, ClaimKind.ALTERNATIVE, ClaimKind.MENTIONS)

NOT_HELD = "No document with this number is held here."
NO_NUMBER = "No number can be read in it."


@dataclass(frozen=True)
class Tied:
    ties: tuple[Tie, ...]
    unresolved: tuple[UnresolvedClaim, ...]


def tie_claims(shelf: Shelf, out_of_force: dict) -> Tied:
    """Resolve every tying claim of the publications on the shelf."""
    ties: list[Tie] = []
    unresolved: list[UnresolvedClaim] = []
    for source, ordinal, claim in shelf.speaking():
        if claim.kind not in TYING:
            continue
        named = shelf.named_by(source, claim)
        if not named:
            unresolved.append(unresolved_claim(source, ordinal, claim, NOT_HELD))
            continue
        found = _of_claim(source, ordinal, claim, named, in_force(source, out_of_force))
        ties += found
        if reason := _why_unresolved(claim, found):
            unresolved.append(unresolved_claim(source, ordinal, claim, reason))
    return Tied(tuple(ties), tuple(unresolved))


def in_force(source: Held, out_of_force: dict) -> bool:
    """A rule on the shelf with a number, which nothing held here replaces."""
    return source.is_rule and source.on_shelf and bool(source.number) and source.id not in out_of_force


def unresolved_claim(source: Held, ordinal: int, claim: Claim, reason: str) -> UnresolvedClaim:
    return UnresolvedClaim(
        source.id, ordinal, claim.kind, claim.document, claim.revision, reason, claim.evidence
    )


def _of_claim(source: Held, ordinal: int, claim: Claim, named: list[Held], force: bool) -> list[Tie]:
    exact = [each for each in named if fits_revision(claim, each) is Answer.YES]
    meant = [each for each in exact if identifies(source, claim, each)]
    makers = {each.maker for each in meant if each.maker}
    ties = []
    for target in named:
        match = revision_match(claim, target, meant)
        reason = _why_not_raised(source, claim, target, match, force, len(makers) > 1)
        ties.append(
            Tie(
                source_id=source.id,
                claim=ordinal,
                target_id=target.id,
                level=claim.kind,
                match=match,
                paragraphs=claim.paragraphs,
                evidence=claim.evidence,
                in_force=force,
                raises=not reason,
                reason=reason,
            )
        )
    return ties


def _why_not_raised(
    source: Held, claim: Claim, target: Held, match: RevisionMatch, force: bool, ambiguous: bool
) -> str:
    """Why the tie raises nothing, in words for a person; "" when it does raise. Any doubt is a reason."""
    if source.type is not PublicationType.AIRWORTHINESS_DIRECTIVE:
        return "Only a directive can raise the standing of another document."
    if claim.kind not in RAISING:
        return f"The directive does not require it: {claim.kind.value}."
    if not force:
        return "It is not shown to be a rule in force, or a directive held here replaces or withdraws it."
    if claim.evidence.origin is not Origin.DIGITAL or not target.known_from_digital_text:
        return "The numbers were read by OCR: compare them with the pages as printed."
    if match not in (RevisionMatch.EXACT, RevisionMatch.LATER_ALLOWED):
        return f"The directive does not name this revision: {match.value}."
    if ambiguous:
        return "Documents of several makers bear this number and revision: cannot tell which is meant."
    if not identifies(source, claim, target):
        return "The directive names neither its date nor its maker or model: cannot tell whether it is meant."
    if target.type not in BULLETINS and not claim.paragraphs:
        return "The directive does not say which part of it."
    return ""


def _why_unresolved(claim: Claim, found: list[Tie]) -> str:
    """Why none of the ties is to the revision meant; "" when one is, or a mere mention asks for none."""
    matches = {tie.match for tie in found}
    if RevisionMatch.EXACT in matches or RevisionMatch.LATER_ALLOWED in matches:
        return ""
    if matches == {RevisionMatch.NOT_NAMED} and claim.kind is ClaimKind.MENTIONS:
        return ""
    if all(tie.match is RevisionMatch.NOT_NAMED for tie in found):
        return "Held here; no revision is named."
    if all(tie.match is RevisionMatch.OTHER for tie in found):
        return "Held here, but not at the revision named."
    return "Held here; cannot tell whether it is the revision named."
