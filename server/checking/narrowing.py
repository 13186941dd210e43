"""Which of several publications an entry means: by the words beside the reference, or the aircraft. Pure."""

import re
from collections.abc import Sequence

from indexer.library.fleet_records import Aircraft
from indexer.library.records import PublicationRecord
from indexer.library.relation_rules.held import Held, folded
from indexer.library.relation_rules.reference_targets import related
from indexer.library.works import maker_key
from indexer.tagging.tags import Identity
from indexer.trade.evidence import Basis, Evidence, Tag

BY_WORDS = "Narrowed by the entry's words:"


def narrowed(
    held: Sequence[PublicationRecord], words: str, aircraft: Aircraft | None
) -> tuple[list[PublicationRecord], str]:
    """Those that the words name by model or maker; else those for the aircraft; and why."""
    said = folded(words)
    by_model = [each for each in held if any(_says_model(said, model) for model in each.models)]
    if by_model:
        by_maker = [each for each in by_model if _says_maker(said, each)]
        return by_maker or by_model, f"{BY_WORDS} the model they name."
    by_maker = [each for each in held if _says_maker(said, each)]
    if by_maker:
        return by_maker, f"{BY_WORDS} the maker they name."
    if aircraft is not None:
        source = _as_source(aircraft)
        for_it = [each for each in held if any(related(one, as_held(each)) for one in source)]
        if for_it:
            return for_it, f"Narrowed by the aircraft chosen, {aircraft.registration}."
    return list(held), ""


def is_called(publication: PublicationRecord, called: str) -> bool:
    """Whether the name that the words give may be this publication's: a model, its maker, or its title."""
    said = folded(called)
    if any(_says_model(said, model) for model in publication.models) or _says_maker(said, publication):
        return True
    return bool(said.split()) and set(said.split()) <= set(folded(publication.title).split())


def _says_model(said: str, model: str) -> bool:
    """Whether a model stands in the words: as printed, or written in one piece or with a dash."""
    telling = re.search(r"\d", model) and len(re.sub(r"\W", "", model)) >= 3
    if not telling:
        return False
    one_piece = re.sub(r"\W", "", model).casefold()
    return folded(model) in said or f" {one_piece} " in said or one_piece in _pairs(said)


def _pairs(said: str) -> set[str]:
    """Neighbouring words in one piece: "qz 62" is "qz62"."""
    each = said.split()
    return {a + b for a, b in zip(each, each[1:], strict=False)}


def _says_maker(said: str, publication: PublicationRecord) -> bool:
    maker = maker_key(publication.identity.maker.value) if publication.identity.maker else ""
    return bool(maker) and (folded(maker) in said or f" {maker.split()[0]} " in said)


def as_held(record: PublicationRecord) -> Held:
    """A publication as the rules across documents take it."""
    return Held(record.id, record.replaced is None, record.identity, (), record.directive)


def _as_source(aircraft: Aircraft) -> list[Held]:
    """The aircraft, and each article fitted to it, as something that speaks of its maker and model."""
    named = [(aircraft.maker, aircraft.model), *((each.maker, each.model) for each in aircraft.fitted)]
    return [_speaking(maker, model) for maker, model in named if model]


def _speaking(maker: str, model: str) -> Held:
    said = Evidence(Basis.SHOP_ENTRY, "fleet list")
    who = Tag(maker, said) if maker else None
    return Held("", True, Identity(None, None, None, who, (Tag(model, said),), None, None))
