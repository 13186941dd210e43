"""From all publications to all that follows from them together. Pure; the order they come in is nothing."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from indexer.library.records import PageOverride, Supersession, Tie, UnresolvedClaim
from indexer.library.relation_rules.held import Held, HeldText, Shelf
from indexer.library.relation_rules.overrides import page_overrides
from indexer.library.relation_rules.raised_standing import DirectiveStanding, raised_standings
from indexer.library.relation_rules.supersession import (
    directives_out_of_force,
    superseded_ids,
    supersessions,
)
from indexer.library.relation_rules.ties import NOT_HELD, tie_claims, unresolved_claim
from indexer.tagging.tags import ClaimKind


@dataclass(frozen=True)
class Derived:
    supersessions: tuple[Supersession, ...]
    ties: tuple[Tie, ...]
    overrides: tuple[PageOverride, ...]
    standings: tuple[DirectiveStanding, ...]
    unresolved: tuple[UnresolvedClaim, ...]


def derive(held: Iterable[Held], texts: Mapping[str, HeldText]) -> Derived:
    """`texts` gives the inside of a publication by id; it is asked only for those that a rule looks into."""
    shelf = Shelf(held)
    out_of_force = directives_out_of_force(shelf)
    gives_way = supersessions(shelf)
    tied = tie_claims(shelf, out_of_force)
    overridden = page_overrides(shelf, texts, superseded_ids(gives_way))
    unresolved = [*tied.unresolved, *overridden.unresolved, *_superseded_not_held(shelf)]
    return Derived(
        tuple(gives_way),
        tied.ties,
        overridden.overrides,
        tuple(raised_standings(shelf, tied.ties, texts, out_of_force)),
        tuple(sorted(unresolved, key=lambda each: (each.publication_id, each.claim))),
    )


def _superseded_not_held(shelf: Shelf) -> Iterable[UnresolvedClaim]:
    for source, ordinal, claim in shelf.speaking():
        if claim.kind in (ClaimKind.SUPERSEDES, ClaimKind.SUPERSEDED_BY) and not shelf.named_by(
            source, claim
        ):
            yield unresolved_claim(source, ordinal, claim, NOT_HELD)
