"""What the documents held here say of one another, in words: superseded, replaced, overridden, required.

Nothing found here never means "current": the library knows only the copies it was given.
"""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from indexer.library import relations
from indexer.library.catalogue import Catalogue
from indexer.library.records import (
    OverrideState,
    PageOverride,
    PassageRecord,
    PublicationRecord,
    RevisionMatch,
    Supersession,
    SupersessionKind,
    Tie,
    UnresolvedClaim,
)
from indexer.tagging.tags import ClaimKind
from indexer.trade.evidence import Evidence
from server.kept import KeptByState
from server.same_task import changed_beside, tasks_of
from server.tag_fields import evidence_fields
from server.words import date_words, numbered, publication_name

Record = TypeVar("Record")
_read = KeptByState(most=100_000)  # what was read of one publication each, and the words made of it
_READ_AHEAD = {
    "ties to": relations.ties_to_many,
    "supersessions": relations.supersessions_of_many,
    "overrides": relations.overrides_of_many,
}
_READ_AHEAD_ALL = _READ_AHEAD | {  # all that `relations` and `unresolved` ask for too
    "ties from": relations.ties_from_many,
    "overrides by": relations.overrides_by_many,
    "unresolved": relations.unresolved_claims_of_many,
}

_SAID_BY = {  # of the tie's target
    ClaimKind.REQUIRES: "Required by",
    ClaimKind.INCORPORATES: "Incorporated by",
    ClaimKind.CREDITS: "Earlier work by this revision is credited by",
    ClaimKind.ALTERNATIVE: "Named as an alternative by",
    ClaimKind.MENTIONS: "Mentioned by",
}
_SAYS_OF = {  # of the tie's source
    ClaimKind.REQUIRES: "Requires",
    ClaimKind.INCORPORATES: "Incorporates",
    ClaimKind.CREDITS: "Credits earlier work by",
    ClaimKind.ALTERNATIVE: "Names as an alternative",
    ClaimKind.MENTIONS: "Mentions",
}
_MATCHES = {
    RevisionMatch.EXACT: "Held here: the revision named.",
    RevisionMatch.LATER_ALLOWED: "Held here: a later revision, which the words allow.",
    RevisionMatch.NOT_NAMED: "No revision is named.",
    RevisionMatch.OTHER: "Held here: another revision than the one named.",
    RevisionMatch.CANNOT_TELL: "Cannot tell whether the revision held here is the one named.",
}


@dataclass(frozen=True, slots=True)
class Relation:
    """How a publication stands to another one held here. `against` = a reason not to use it as it is."""

    kind: str
    publication: str  # id of the other one
    words: str
    evidence: Evidence | None
    against: bool = False

    def fields(self) -> dict[str, Any]:
        return {
            "kind": self.kind,
            "publication": self.publication,
            "words": self.words,
            "evidence": evidence_fields(self.evidence),
        }


class Currency:
    """Reads the catalogue, each thing once in one state of it; make one for each answer, inside `reading`."""

    def __init__(self, catalogue: Catalogue):
        self._catalogue = catalogue
        self._read = _read.of(catalogue, catalogue.generation)

    def read_ahead(self, publications: Iterable[PublicationRecord]) -> None:
        """Read what speaks against many publications in one go, before each is asked about."""
        self._read_of(_READ_AHEAD, [publication.id for publication in publications])

    def read_ahead_all(
        self, publications: Iterable[PublicationRecord], others: Iterable[PublicationRecord] = ()
    ) -> None:
        """The same with all else that documents say of one another.

        others   publications at hand, which sentences may name
        """
        self._read_of(_READ_AHEAD_ALL, [publication.id for publication in publications])
        held = {publication.id: publication for publication in others}
        for _, publication_id in self._read.missing(("publication", each) for each in held):
            self._read.keep(("publication", publication_id), held[publication_id])

    def ties_to(self, publication: PublicationRecord) -> list[Tie]:
        """What other publications say of this one."""
        return self._once("ties to", relations.ties_to, publication.id)

    def ties_from(self, publication: PublicationRecord) -> list[Tie]:
        """What this publication says of others held here."""
        return self._once("ties from", relations.ties_from, publication.id)

    def overridden_pages(self, publication: PublicationRecord) -> frozenset[int]:
        """Its pages (1-based) that temporary revisions held here change."""
        return frozenset(each.pdf_page for each in self._overrides_of(publication))

    def pages_overridden_in_force(self, publication: PublicationRecord) -> frozenset[int]:
        """Those of them that are changed for sure."""
        found = self._overrides_of(publication)
        return frozenset(each.pdf_page for each in found if each.state is OverrideState.IN_FORCE)

    def _read_of(self, kinds: Mapping[str, Callable], ids: Collection[str]) -> None:
        for what, read in kinds.items():
            missing = [
                publication_id for _, publication_id in self._read.missing((what, each) for each in ids)
            ]
            for publication_id, found in read(self._catalogue, missing).items():
                self._read.keep((what, publication_id), found)

    def of_publication(self, publication: PublicationRecord) -> tuple[str, ...]:
        """What is known here against its being current, in sentences; () = nothing known here."""
        return self._read.once(("against", publication.id), lambda: self._against(publication))

    def _against(self, publication: PublicationRecord) -> tuple[str, ...]:
        against = [relation.words for relation in self._supersessions(publication) if relation.against]
        return (*_replaced(publication), *against, *self._of_directives(publication))

    def superseding(self, publication: PublicationRecord) -> list[Relation]:
        """What supersedes a publication, or may: revisions whose order cannot be told are among them."""
        return [relation for relation in self._supersessions(publication) if relation.against]

    def _of_directives(self, publication: PublicationRecord) -> list[str]:
        """Whether directives in force name this revision or another one of the same document."""
        named: dict[str, set[RevisionMatch]] = {}
        for tie in self.ties_to(publication):
            if tie.in_force and tie.level in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES):
                named.setdefault(self.short_name(tie.source_id), set()).add(tie.match)
        superseded = any(relation.against for relation in self._supersessions(publication))
        words = []
        for directive, matches in sorted(named.items()):
            if matches == {RevisionMatch.OTHER}:
                words.append(f"{directive} names another revision of this document, not this one.")
            elif superseded and RevisionMatch.EXACT in matches:
                words.append(f"{directive} names this revision, not the later one.")
        return words

    def of_passage(self, publication: PublicationRecord, passage: PassageRecord) -> tuple[str, ...]:
        """The same, with what overrides the pages that the passage stands on."""
        pages = {passage.pdf_page, *(place.pdf_page for place in passage.boxes)}
        words = dict.fromkeys(
            self.override_words(each)
            if each.pdf_page == passage.pdf_page
            else f"Runs on to PDF page {each.pdf_page}. {self.override_words(each)}"
            for each in self._overrides_of(publication)
            if each.pdf_page in pages
        )
        return (*self.of_publication(publication), *words)

    def overrides(self, publication: PublicationRecord, pdf_page: int) -> list[PageOverride]:
        """Pages of temporary revisions that are read before this page, those in force first."""
        found = [each for each in self._overrides_of(publication) if each.pdf_page == pdf_page]
        return sorted(found, key=lambda each: (list(OverrideState).index(each.state), each.source_pdf_page))

    def beside(self, publication: PublicationRecord, pdf_page: int) -> list[tuple[str, PageOverride]]:
        """What changes other pages of the task of a page (1-based), each with that page as printed."""
        overrides = self._overrides_of(publication)
        if not overrides:
            return []
        tasks = self._read.once(("tasks", publication.id), lambda: tasks_of(self._catalogue, publication))
        return changed_beside(tasks, pdf_page, overrides)

    def beside_words(self, printed_page: str, override: PageOverride) -> str:
        """ "Another page of this task, 402, is changed by TR 32-07: read it first."."""
        which = printed_page or f"PDF page {override.pdf_page}"
        source = self.short_name(override.source_id)
        if override.state is OverrideState.IN_FORCE:
            return f"Another page of this task, {which}, is changed by {source}: read it first."
        return (
            f"Another page of this task, {which}, is changed by {source}; cannot tell whether the manual "
            "already includes it. Read both."
        )

    def override_words(self, override: PageOverride) -> str:
        """ "Overridden by temporary revision 32-07: read that page first."."""
        source = self.short_name(override.source_id)
        if override.state is OverrideState.IN_FORCE:
            return f"Overridden by {source}: read that page first."
        if override.state is OverrideState.SUPERSEDED:
            return f"Changed by {source}, which a later temporary revision supersedes."
        return f"Changed by {source}; cannot tell whether the manual already includes it. Read both."

    def relations(self, publication: PublicationRecord) -> list[Relation]:
        """How a publication stands to others held here, what speaks against it first."""
        return [
            *sorted(self._supersessions(publication), key=lambda relation: not relation.against),
            *self._overridden_pages(publication),
            *(self._said_of(tie) for tie in self.ties_to(publication)),
            *(self._says(tie) for tie in self.ties_from(publication)),
        ]

    def unresolved(self, publication: PublicationRecord) -> list[UnresolvedClaim]:
        """What it says of documents, revisions or pages that are not held here or cannot be told apart."""
        return self._once("unresolved", relations.unresolved_claims, publication.id)

    @staticmethod
    def unresolved_words(claim: UnresolvedClaim) -> str:
        """ "Mentions SB 32-0012, revision 3. Not held here."."""
        says = _SAYS_OF.get(claim.kind, claim.kind.value.capitalize())
        revision = f", revision {claim.revision}" if claim.revision else ""
        return f"{says} {claim.document}{revision}. {claim.reason}"

    def short_name(self, publication_id: str) -> str:
        """What a sentence calls a publication: "AD 2031-04-07", "TR 32-07", else its title."""
        record = self._once("publication", Catalogue.publication, publication_id)
        return numbered(record.type, record.number) or publication_name(record)

    def _supersessions(self, publication: PublicationRecord) -> list[Relation]:
        def read() -> list[Relation]:
            found = self._once("supersessions", relations.supersessions_of, publication.id)
            return [self._supersession(publication, each) for each in found]

        return self._read.once(("order", publication.id), read)

    def _supersession(self, publication: PublicationRecord, each: Supersession) -> Relation:
        older = each.older_id == publication.id
        other = each.newer_id if older else each.older_id
        name = self.short_name(other)
        if each.kind is SupersessionKind.CANNOT_TELL:
            words = f"{self._edition(other)} is held here too, and it cannot be told which is newer."
            return Relation(each.kind.value, other, f"{words} {each.reason}", each.evidence, True)
        if each.kind is SupersessionKind.NEWER_REVISION:
            name = self._edition(other)
        words = f"Superseded by {name}." if older else f"Supersedes {name}."
        reason = f" {each.reason}" if each.kind is SupersessionKind.STATED else ""
        return Relation(each.kind.value, other, f"{words}{reason}", each.evidence, older)

    def _edition(self, publication_id: str) -> str:
        """A revision of the same work: "revision C of 3 May 2031"."""
        record = self._once("publication", Catalogue.publication, publication_id)
        words = f"revision {record.revision}" if record.revision else f"{self.short_name(publication_id)}"
        return f"{words} of {date_words(record.date)}" if record.date else words

    def _overridden_pages(self, publication: PublicationRecord) -> list[Relation]:
        changed = [
            Relation(
                "page overridden",
                each.source_id,
                f"PDF page {each.pdf_page}: {self.override_words(each)}",
                each.evidence,
                each.state is not OverrideState.SUPERSEDED,
            )
            for each in self._overrides_of(publication)
        ]
        changes = [
            Relation(
                "overrides page",
                each.target_id,
                f"Changes PDF page {each.pdf_page} of {self.short_name(each.target_id)}"
                f" ({each.state.value}).",
                each.evidence,
            )
            for each in self._once("overrides by", relations.overrides_by, publication.id)
        ]
        return changed + changes

    def _said_of(self, tie: Tie) -> Relation:
        kind = _SAID_BY.get(tie.level, tie.level.value.capitalize())
        words = (
            f"{kind} {self.short_name(tie.source_id)}{_paragraphs(tie)}. {_MATCHES[tie.match]} {tie.reason}"
        )
        return Relation(tie.level.value, tie.source_id, words.strip(), tie.evidence)

    def _says(self, tie: Tie) -> Relation:
        kind = _SAYS_OF.get(tie.level, tie.level.value.capitalize())
        words = (
            f"{kind} {self.short_name(tie.target_id)}{_paragraphs(tie)}. {_MATCHES[tie.match]} {tie.reason}"
        )
        return Relation(tie.level.value, tie.target_id, words.strip(), tie.evidence)

    def _overrides_of(self, publication: PublicationRecord) -> list[PageOverride]:
        return self._once("overrides", relations.overrides_of, publication.id)

    def _once(self, what: str, read: Callable[[Catalogue, str], Record], publication_id: str) -> Record:
        return self._read.once((what, publication_id), lambda: read(self._catalogue, publication_id))


def _replaced(publication: PublicationRecord) -> tuple[str, ...]:
    if publication.replaced is None:
        return ()
    since = date_words(publication.replaced.since.date())
    return (f"Replaced on {since} by a newer file at the same place.",)


def _paragraphs(tie: Tie) -> str:
    return f", {', '.join(tie.paragraphs)}" if tie.paragraphs else ""
