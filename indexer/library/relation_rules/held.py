"""What the rules of this folder work on: publications held here, as values. Nothing is read or written."""

import datetime
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

from indexer.library.works import BULLETINS, DIRECTIVES, claimed_keys, maker_key, number_key
from indexer.tagging.tags import Claim, DirectiveFacts, Identity, Standing
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Origin
from indexer.trade.publication_types import PublicationType


@dataclass(frozen=True)
class Held:
    """One publication. `text` is all its words where it is a directive, "" elsewhere."""

    id: str
    on_shelf: bool  # False = its copy was replaced: it is still spoken of, and no longer speaks
    identity: Identity
    claims: tuple[Claim, ...] = ()
    directive: DirectiveFacts | None = None
    text: str = ""

    @property
    def type(self) -> PublicationType | None:
        return self.identity.type.value if self.identity.type else None

    @cached_property
    def number(self) -> str:
        """For comparison with others of its type; "" = unknown."""
        printed = self.identity.number or (self.directive.number if self.directive else None)
        return number_key(printed.value, self.type) if printed else ""

    @property
    def name(self) -> str:
        """For sentences: "AD 2031-04-07", else the number or title as printed."""
        identity = self.identity
        if self.type in DIRECTIVES and self.number:
            return f"AD {self.number}"
        return next(
            (tag.value for tag in (identity.number, identity.title) if tag), "a publication without a number"
        )

    @cached_property
    def maker(self) -> str:
        return maker_key(self.identity.maker.value) if self.identity.maker else ""

    @property
    def revision(self) -> str:
        return self.identity.revision.value if self.identity.revision else ""

    @property
    def date(self) -> datetime.date | None:
        return self.identity.date.value if self.identity.date else None

    @property
    def is_rule(self) -> bool:
        return self.type is PublicationType.AIRWORTHINESS_DIRECTIVE and bool(
            self.directive and self.directive.is_rule
        )

    @property
    def withdraws(self) -> bool:
        """A paper of the authority that takes directives out of force and puts nothing in their place."""
        return self.type is PublicationType.AIRWORTHINESS_DIRECTIVE and bool(
            self.directive and self.directive.withdraws
        )

    @property
    def puts_off(self) -> bool:
        """A paper of the authority that delays or stays the directive whose number it bears."""
        return self.type is PublicationType.AIRWORTHINESS_DIRECTIVE and bool(
            self.directive and self.directive.put_off and not self.directive.is_rule
        )

    @property
    def takes_out_of_force(self) -> bool:
        return self.is_rule or self.withdraws

    @property
    def known_from_digital_text(self) -> bool:
        """False when number, revision or date were read by OCR, which may take one digit for another."""
        tags = (self.identity.number, self.identity.revision, self.identity.date)
        return all(tag.evidence.origin is Origin.DIGITAL for tag in tags if tag)

    @cached_property
    def words(self) -> str:
        """Everything this publication says, for looking for a maker or a model: " folded words "."""
        identity, facts = self.identity, self.directive
        parts = [self.text, *(claim.evidence.quote for claim in self.claims)]
        parts += [tag.value for tag in (identity.title, identity.maker, *identity.models) if tag]
        parts += [facts.applicability.value] if facts and facts.applicability else []
        return folded(" ".join(parts))


@dataclass(frozen=True)
class HeldPassage:
    id: str
    pages: tuple[int, ...]  # pdf pages it lies on, 1-based, the one it begins on first
    heading_path: tuple[str, ...]
    text: str
    numbers: tuple[ChapterNumber, ...]
    standing: Standing  # from the publication's own words
    origin: Origin = Origin.DIGITAL  # of its text


class HeldText(Protocol):
    """The inside of a publication: each part is read only where a rule needs it."""

    @property
    def printed_pages(self) -> Mapping[int, str]:
        """pdf page, 1-based -> printed page, "" = none"""

    @property
    def passages(self) -> tuple[HeldPassage, ...]: ...

    def numbers_on(self, pdf_page: int) -> frozenset[ChapterNumber]:
        """Numbers of the passages that begin on a page; where none begins, of those that run onto it."""


class Shelf:
    """All publications of a library, to be looked up by what claims say."""

    def __init__(self, held: Iterable[Held]):
        self.all = sorted(held, key=lambda each: each.id)
        self.by_id = {each.id: each for each in self.all}
        self._by_number: dict[tuple[str, str], list[Held]] = {}
        for each in self.all:
            if each.number:
                self._by_number.setdefault((_family(each.type), each.number), []).append(each)

    def __iter__(self) -> Iterator[Held]:
        return iter(self.all)

    def speaking(self) -> Iterator[tuple[Held, int, Claim]]:
        """Every claim of a publication on the shelf, with its place among the publication's claims."""
        for each in self.all:
            if each.on_shelf:
                for ordinal, claim in enumerate(each.claims):
                    yield each, ordinal, claim

    def with_number(self, type: PublicationType | None, number: str) -> list[Held]:
        return self._by_number.get((_family(type), number), [])

    def named_by(self, source: Held, claim: Claim) -> list[Held]:
        """The publications whose type and number a claim names, in order of id; never the claim's own.

        Where the claim does not say the type, only a manual can be meant. A publication of a maker other
        than the source's is left out, unless the source is a directive or names that maker.
        """
        found = {each.id: each for key in claimed_keys(claim) for each in self.with_number(claim.type, key)}
        return [each for _, each in sorted(found.items()) if each.id != source.id and _may_mean(source, each)]


def folded(text: str) -> str:
    """Words in small letters between single blanks, one at each end too, so that whole words are found."""
    words = re.findall(r"[^\W_]+", text.casefold())
    return f" {' '.join(words)} "


def _family(type: PublicationType | None) -> str:
    """Types whose numbers may be confused with each other: manuals of every kind are one family."""
    if type in DIRECTIVES or type in BULLETINS or type is PublicationType.TEMPORARY_REVISION:
        return type.value
    return "manual"


def _may_mean(source: Held, target: Held) -> bool:
    if source.type in DIRECTIVES or not source.maker or not target.maker or source.maker == target.maker:
        return True
    return folded(target.maker) in source.words
