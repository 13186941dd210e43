"""Standing by directive: the only rule anywhere that raises a passage above its publication's own words.

A directive in force makes the named revision of a bulletin approved and mandatory, to the extent it says
(common teaching of the trade; 14 CFR 39.27: where a directive and a document differ, the directive
governs). In any doubt the passage stays as it was, and a condition says what cannot be told.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from indexer.library.records import RevisionMatch, Tie
from indexer.library.relation_rules.exceptions import exceptions
from indexer.library.relation_rules.held import Held, HeldPassage, HeldText, Shelf
from indexer.library.relation_rules.paragraphs import find_paragraphs
from indexer.library.relation_rules.supersession import OutOfForce
from indexer.tagging.tags import Claim, ClaimKind, Standing, StandingValue
from indexer.trade.evidence import Basis, Evidence, Origin

_LONG_QUOTE = 400  # characters


@dataclass(frozen=True)
class DirectiveStanding:
    passage_id: str
    directive_id: str
    standing: Standing


@dataclass(frozen=True)
class _Reach:
    """What one directive says of one publication: its raising ties, strongest first, and parts it names."""

    directive: Held
    ties: tuple[Tie, ...]
    paragraphs: tuple[str, ...]

    @property
    def strongest(self) -> Tie:
        return self.ties[0]


def raised_standings(
    shelf: Shelf, ties: Iterable[Tie], texts: Mapping[str, HeldText], out_of_force: Mapping[str, OutOfForce]
) -> list[DirectiveStanding]:
    """The standing of every passage that a directive changes, by passage id."""
    given: dict[str, DirectiveStanding] = {}
    for target_id, reaches in sorted(_reaches(shelf, ties).items()):
        for reach in reaches:
            for each in _by_one(reach, texts[target_id].passages):
                held = given.get(each.passage_id)
                if held is None or _rank(each.standing) > _rank(held.standing):
                    given[each.passage_id] = each
    for each in _no_longer_in_force(shelf, out_of_force, texts):
        given.setdefault(each.passage_id, each)
    return [given[passage_id] for passage_id in sorted(given)]


def _reaches(shelf: Shelf, ties: Iterable[Tie]) -> dict[str, list[_Reach]]:
    """Target id -> the directives that reach it, strongest claim first, then by number."""
    pairs: dict[tuple[str, str], list[Tie]] = {}
    for tie in ties:
        if tie.raises:
            pairs.setdefault((tie.target_id, tie.source_id), []).append(tie)
    found: dict[str, list[_Reach]] = {}
    for (target_id, source_id), held in pairs.items():
        directive = shelf.by_id[source_id]
        ordered = tuple(sorted(held, key=lambda tie: (_weakness(tie), tie.claim)))
        named = _paragraphs_named(shelf, directive, shelf.by_id[target_id], ordered)
        found.setdefault(target_id, []).append(_Reach(directive, ordered, named))
    for reaches in found.values():
        reaches.sort(
            key=lambda reach: (_weakness(reach.strongest), reach.directive.number, reach.directive.id)
        )
    return found


def _weakness(tie: Tie) -> tuple[bool, bool]:
    return tie.match is not RevisionMatch.EXACT, tie.level is not ClaimKind.REQUIRES


def _paragraphs_named(shelf: Shelf, directive: Held, target: Held, ties: tuple[Tie, ...]) -> tuple[str, ...]:
    """Every paragraph of the target that the directive names.

    A list of incorporated material names documents whole; where the requiring paragraphs name parts of one,
    those parts are all that is required. A sentence that names a part and no revision counts here too: it
    can only narrow what is raised.
    """
    named = [part for tie in ties for part in tie.paragraphs]
    for claim in directive.claims:
        if _requires_without_revision(claim) and target in shelf.named_by(directive, claim):
            named += claim.paragraphs
    return tuple(dict.fromkeys(named))


def _requires_without_revision(claim: Claim) -> bool:
    return claim.kind is ClaimKind.REQUIRES and not claim.revision and not claim.date


def _by_one(reach: _Reach, passages: tuple[HeldPassage, ...]) -> Iterable[DirectiveStanding]:
    """What the directive gives each passage, less what it makes an exception for.

    An exception that names a part which cannot be found leaves all passages as they were. So does a passage
    stay that was read by OCR: its words may not be the ones that the directive calls for.
    """
    excepted = exceptions(reach.directive.text)
    found = find_paragraphs(excepted, passages)
    touched = found.whole | found.partly
    own = {passage.id: passage.standing for passage in passages}
    scanned = {passage.id for passage in passages if passage.origin is not Origin.DIGITAL}
    named = ", ".join(excepted)
    for each in _called_for(reach, passages):
        raised = each.standing.value is StandingValue.APPROVED and each.standing.mandatory
        if raised and each.passage_id in scanned:
            note = f"{reach.directive.name} calls for it. This page was read by OCR: read the page itself."
            yield replace(each, standing=_noted(own[each.passage_id], note))
            continue
        if raised and (found.not_found or each.passage_id in touched):
            note = (
                f"{reach.directive.name} calls for this document and makes an exception for {named}: "
                "cannot tell whether this passage is meant, read the directive."
            )
            each = replace(each, standing=_noted(own[each.passage_id], note))
        yield each


def _called_for(reach: _Reach, passages: tuple[HeldPassage, ...]) -> Iterable[DirectiveStanding]:
    directive = reach.directive
    if not reach.paragraphs:
        for passage in passages:
            standing = _raised(reach, passage.standing, "bulletin revision")
            yield DirectiveStanding(passage.id, directive.id, standing)
        return
    found = find_paragraphs(reach.paragraphs, passages)
    named, missing = ", ".join(reach.paragraphs), ", ".join(found.not_found)
    for passage in passages:
        own = passage.standing
        if passage.id in found.whole:
            standing = _raised(reach, own, "section")
        elif found.not_found:
            standing = _noted(
                own,
                f"{directive.name} names {missing}, which cannot be found here: "
                "cannot tell which paragraphs it means.",
            )
        elif passage.id in found.partly:
            standing = _noted(
                own,
                f"{directive.name} calls for {named}: part of this passage is among them, "
                "read it on the page.",
            )
        else:
            continue
        yield DirectiveStanding(passage.id, directive.id, standing)


def _noted(own: Standing, condition: str) -> Standing:
    return replace(own, conditions=(*own.conditions, condition))


def _raised(reach: _Reach, own: Standing, scope: str) -> Standing:
    directive, tie = reach.directive, reach.strongest
    if own.value is StandingValue.BLOCKED:
        note = (
            f"{directive.name} calls for it, but this copy bears a notice that blocks its use: get a copy "
            "without the notice."
        )
        return replace(own, mandatory=True, conditions=(*own.conditions, note))
    if tie.match is RevisionMatch.LATER_ALLOWED:
        # Which later revisions the authority has approved does not stand in the directive.
        return _noted(
            own,
            f"{directive.name} names an earlier revision and allows later approved ones: show that this "
            "revision is approved.",
        )
    conditions = [_extent(directive), _reached(directive)]
    if tie.level is ClaimKind.INCORPORATES:
        conditions.append(f"As applicable to the actions that {directive.name} requires.")
    quoted = tie.evidence
    evidence = Evidence(
        basis=Basis.LINKED_DIRECTIVE,
        rule=f"{tie.level.value} by directive",
        quote=quoted.quote,
        pdf_page=quoted.pdf_page,
        box=quoted.box,
        source=directive.name,
        origin=quoted.origin,
    )
    return Standing(
        StandingValue.APPROVED,
        own.usual,
        evidence,
        scope,
        mandatory=True,
        conditions=(*own.conditions, *conditions),
    )


def _extent(directive: Held) -> str:
    effective = directive.directive.effective if directive.directive else None
    since = f", effective {effective.value.isoformat()}" if effective else ""
    return f"For the products and conditions named in {directive.name} only{since}."


def _reached(directive: Held) -> str:
    """The directive's own words about which aircraft it reaches: an aircraft is held against these."""
    words = directive.directive.applicability if directive.directive else None
    if words is None:
        return f"Which aircraft {directive.name} reaches could not be read: read the directive."
    quote = words.value
    if len(quote) > _LONG_QUOTE:  # every passage of a bulletin carries it
        quote = f"{quote[:_LONG_QUOTE].rsplit(' ', 1)[0]} ..."
    return f"Only for the aircraft that {directive.name} reaches: «{quote}»"


def _rank(standing: Standing) -> tuple[bool, bool]:
    """A directive that raises goes before one that only leaves a doubt."""
    return standing.value is StandingValue.APPROVED and standing.mandatory, standing.mandatory


def _no_longer_in_force(
    shelf: Shelf, out_of_force: Mapping[str, OutOfForce], texts: Mapping[str, HeldText]
) -> Iterable[DirectiveStanding]:
    """A replaced directive is history: none of its passages is approved or mandatory any more."""
    for directive_id, why in sorted(out_of_force.items()):
        evidence = why.evidence
        if evidence and why.by != directive_id:
            source = shelf.by_id[why.by].name
            evidence = replace(
                evidence, basis=Basis.LINKED_DIRECTIVE, rule="replaced directive", source=source
            )
        for passage in texts[directive_id].passages:
            own = passage.standing
            history = Standing(
                StandingValue.INFORMATION,
                own.usual,
                evidence,
                "document",
                mandatory=False,
                conditions=(why.sentence,),
            )
            yield DirectiveStanding(passage.id, why.by, history)
