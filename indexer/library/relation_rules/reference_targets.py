"""Which publications held here a reference may mean, by number, by type and product, or by rule.

Copies on the shelf come first: a replaced one is meant only where nothing current is held.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from indexer.library.relation_rules.held import Held, Shelf, folded
from indexer.library.works import BULLETINS, DIRECTIVES, number_key
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.bulletin_numbers import find_bulletin_numbers
from indexer.trade.publication_types import PublicationType as Type

_MAINTENANCE = frozenset({Type.MAINTENANCE_MANUAL, Type.SERVICE_MANUAL})
_PAPERS = frozenset(
    {
        *BULLETINS,
        *DIRECTIVES,
        Type.TEMPORARY_REVISION,
        Type.ADVISORY_CIRCULAR,
        Type.REGULATION,
        Type.ORDER_OR_HANDBOOK,
    }
)
# Words that some papers print as part of their number, and others before it.
_SERIES = re.compile(r"^(?:FAA-)?(?:AC|ORDER|TCDS|TR|TEMPORARY-REVISION|NO)-(?=[0-9A-Z])")
_PART = re.compile(r"(?:part )?(?P<part>[0-9]{1,4})(?:\.[0-9]+.*| appendix.*)?$")
_MAKERLESS = frozenset(
    {*DIRECTIVES, Type.ADVISORY_CIRCULAR, Type.ORDER_OR_HANDBOOK, Type.REGULATION, Type.AMOC_LETTER}
)


@dataclass(frozen=True, slots=True)
class Manuals:
    """Manuals that may be meant. sure = the source says whose: they share its maker or models."""

    found: list[Held]
    sure: bool


def names_of(held: Held) -> frozenset[str]:
    """Keys that a reference can mean a publication by: its number, its type, the parts of a regulation."""
    names = {f"number {_family(held.type)} {_bare(held.number)}"} if held.number else set()
    if held.type:
        names.add(_manual_name(held.type))
    if held.type is Type.REGULATION:
        names.update(f"part {part}" for part in _parts_of(held))
    return frozenset(names)


def names_in(citation: Citation) -> frozenset[str]:
    """Keys of every publication whose coming or going may change where a reference leads.

    Its own paper is not among them. Where it asks for a manual of a type, `may_be_meant` says of which.
    """
    match citation.kind:
        case CitationKind.REGULATION:
            part = _PART.match(citation.number)
            return frozenset({f"part {part['part']}"} if part else ())
        case CitationKind.CHAPTER | CitationKind.TASK:
            return frozenset({_manual_name(citation.type)})
        case CitationKind.DOCUMENT:
            names = {
                f"number {family} {key}" for family in _families(citation.type) for key in _keys(citation)
            }
            if not citation.number or citation.chapter_number:
                names.add(_manual_name(citation.type))
            return frozenset(names)
    return frozenset()


def may_be_meant(source: Held, target: Held) -> bool:
    """Whether a manual can be among those that the source means by a type alone; see Targets.manuals."""
    return (not source.maker and not source.identity.models) or related(source, target)


def is_by_type(name: str) -> bool:
    """Whether a key asks for a manual of a type."""
    return name.startswith(_BY_TYPE)


_BY_TYPE = "manual "


def _manual_name(type: Type | None) -> str:
    maintenance = type is None or type in _MAINTENANCE
    return f"{_BY_TYPE}{Type.MAINTENANCE_MANUAL.value if maintenance else type.value}"


class Targets:
    """The publications of a library, to be looked up by what references say."""

    def __init__(self, shelf: Shelf, older: frozenset[str]):
        self.shelf = shelf
        self._older = older
        self._by_number: dict[tuple[str, str], list[Held]] = {}
        self._by_type: dict[Type, list[Held]] = {}
        self._by_maker: dict[tuple[Type, str], list[Held]] = {}
        self._by_part: dict[str, list[Held]] = {}
        self._manuals: dict[tuple[str, Type | None], Manuals] = {}
        for each in shelf:
            if each.number:
                self._by_number.setdefault((_family(each.type), _bare(each.number)), []).append(each)
            if each.type and each.on_shelf and each.id not in older:
                self._by_type.setdefault(each.type, []).append(each)
                self._by_maker.setdefault((each.type, each.maker), []).append(each)
            if each.type is Type.REGULATION and each.on_shelf:
                for part in _parts_of(each):
                    self._by_part.setdefault(part, []).append(each)

    def named(self, source: Held, citation: Citation) -> list[Held]:
        """Every publication with the type and number named, whatever its revision."""
        found = {
            each.id: each
            for key in _keys(citation)
            for family in _families(citation.type)
            for each in self._by_number.get((family, key), ())
            if _may_mean(source, each) and type_fits(citation.type, each.type)
        }
        others = [each for _, each in sorted(found.items()) if each.id != source.id]
        current = [each for each in others if each.on_shelf]
        return current or others or [each for each in found.values() if each.id == source.id]

    def is_named(self, held: Held, citation: Citation) -> bool:
        """Whether the publication itself has the type and number named."""
        return _family(held.type) in _families(citation.type) and _bare(held.number) in _keys(citation)

    def manuals(self, source: Held, type: Type | None) -> Manuals:
        """Current manuals of a type for the product of the source; None = a maintenance manual."""
        if (source.id, type) not in self._manuals:
            self._manuals[source.id, type] = self._manuals_of(source, type)
        return self._manuals[source.id, type]

    def _manuals_of(self, source: Held, type: Type | None) -> Manuals:
        types = _MAINTENANCE if type is None or type in _MAINTENANCE else {type}
        if not source.maker and not source.identity.models:
            everyone = [each for kind in types for each in self._by_type.get(kind, ())]
            return Manuals(_others(source, everyone), False)
        makers = {source.maker, ""} | {maker for maker in self._makers() if folded(maker) in source.words}
        if not source.maker:
            makers |= self._makers()
        near = [each for kind in types for maker in makers for each in self._by_maker.get((kind, maker), ())]
        return Manuals(_others(source, [each for each in near if related(source, each)]), True)

    def _makers(self) -> frozenset[str]:
        return frozenset(maker for _, maker in self._by_maker if maker)

    def rules(self, number: str) -> list[Held]:
        """Texts of the part of 14 CFR that a section, part or appendix named is of."""
        match = _PART.match(number)
        return self._by_part.get(match["part"], []) if match else []


def _others(source: Held, found: Iterable[Held]) -> list[Held]:
    return sorted((each for each in found if each.id != source.id), key=lambda each: each.id)


def related(source: Held, target: Held) -> bool:
    """Whether both speak of one product: the same maker, and a model in common where both print models."""
    maker = target.maker and (source.maker == target.maker or folded(target.maker) in source.words)
    mine, theirs = _models(source), _models(target)
    if mine and theirs:
        return bool(mine & theirs) and (bool(maker) or not source.maker or not target.maker)
    return bool(maker)


def _models(held: Held) -> frozenset[str]:
    return frozenset(re.sub(r"\W+", "", tag.value).casefold() for tag in held.identity.models)


def _may_mean(source: Held, target: Held) -> bool:
    if target.type in _MAKERLESS or source.type in DIRECTIVES or not source.maker or not target.maker:
        return True
    return source.maker == target.maker or folded(target.maker) in source.words


def type_fits(named: Type | None, held: Type | None) -> bool:
    """Manuals of every kind are one family; a type that the words name must be that of the manual held."""
    if named is None or held is None or named is held:
        return True
    return {named, held} <= _MAINTENANCE or {named, held} <= BULLETINS or {named, held} <= DIRECTIVES


def _families(type: Type | None) -> tuple[str, ...]:
    return ("manual",) if type is None else (_family(type),)


def _family(type: Type | None) -> str:
    return type.value if type in _PAPERS else "manual"


def _keys(citation: Citation) -> frozenset[str]:
    keys = {_bare(number_key(citation.number, citation.type))}
    if citation.type in BULLETINS:
        keys |= {
            _bare(number_key(found.number, citation.type)) for found in find_bulletin_numbers(citation.text)
        }
    return frozenset(keys - {""})


def _bare(number: str) -> str:
    return _SERIES.sub("", number)


def _parts_of(held: Held) -> Iterable[str]:
    words = " ".join(tag.value for tag in (held.identity.number, held.identity.title) if tag)
    named = re.findall(r"(?i)\bpart\s+([0-9]{1,4})\b", words)
    return named or re.findall(r"(?<![\w.])([0-9]{1,4})(?![\w.])", held.number)
