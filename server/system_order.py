"""The order of a system's listing: what a technician must read first stands first. Pure.

Directives and what goes with them, bulletins, temporary revisions, then manuals by page block, parts,
structure, wiring, letters, circulars, the rest: common practice, no source.
"""

from dataclasses import dataclass
from functools import cache

from indexer.trade.page_blocks import page_blocks
from indexer.trade.publication_types import PublicationType as Type

NO_TYPE = "type-not-determined"
NO_BLOCK = ""


@dataclass(frozen=True, slots=True)
class GroupKind:
    """One part of the listing.

    key      used in addresses and JSON
    short    for a link of a word or two
    types    the types of publication in it; () = those whose type was not determined
    blocks   the set of page blocks its manuals print, "" = none
    """

    key: str
    title: str
    short: str
    types: tuple[Type, ...]
    blocks: str = ""


_FIRST = (
    GroupKind("directives", "Airworthiness directives", "Directives", (Type.AIRWORTHINESS_DIRECTIVE,)),
    GroupKind("proposed", "Proposed directives (not rules)", "Proposed", (Type.PROPOSED_DIRECTIVE,)),
    GroupKind("amoc", "AMOC letters", "AMOC", (Type.AMOC_LETTER,)),
    GroupKind("bulletins", "Service bulletins", "Bulletins", (Type.SERVICE_BULLETIN,)),
    GroupKind("temporary", "Temporary revisions", "Temporary revisions", (Type.TEMPORARY_REVISION,)),
    GroupKind("limitations", "Airworthiness limitations", "Limitations", (Type.AIRWORTHINESS_LIMITATIONS,)),
    GroupKind(
        "maintenance",
        "Maintenance manuals",
        "Maintenance",
        (Type.MAINTENANCE_MANUAL, Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS),
        "maintenance",
    ),
    GroupKind(
        "engine",
        "Engine and propeller manuals",
        "Engine and propeller",
        (Type.ENGINE_MANUAL, Type.PROPELLER_MANUAL),
        "engine",
    ),
    GroupKind("service-manuals", "Service manuals", "Service manuals", (Type.SERVICE_MANUAL,)),
    GroupKind(
        "component", "Component manuals", "Component", (Type.COMPONENT_MAINTENANCE_MANUAL,), "component"
    ),
    GroupKind("parts", "Parts catalogs", "Parts", (Type.PARTS_CATALOG,)),
    GroupKind(
        "structure", "Structural repair manuals", "Structure", (Type.STRUCTURAL_REPAIR_MANUAL,), "structural"
    ),
    GroupKind("wiring", "Wiring diagrams", "Wiring", (Type.WIRING_DIAGRAM_MANUAL,)),
    GroupKind(
        "practices", "Standard practices", "Practices", (Type.STANDARD_PRACTICES_MANUAL,), "maintenance"
    ),
    GroupKind("letters", "Service letters", "Letters", (Type.SERVICE_LETTER,)),
    GroupKind(
        "information", "Airworthiness information bulletins", "Information", (Type.AIRWORTHINESS_BULLETIN,)
    ),
    GroupKind("circulars", "Advisory circulars", "Circulars", (Type.ADVISORY_CIRCULAR,)),
)
_NAMED = {kind for group in _FIRST for kind in group.types}
GROUPS = (
    *_FIRST,
    *(GroupKind(kind.value, kind.label, kind.label, (kind,)) for kind in Type if kind not in _NAMED),
    GroupKind(NO_TYPE, "Type of publication not determined", "Type not determined", ()),
)
_BY_TYPE = {kind: group for group in GROUPS for kind in group.types}

# One paper on one subject: where a part of it is on the system, all of it is listed, and what it is tied to.
ONE_SUBJECT = frozenset(
    [
        Type.AIRWORTHINESS_DIRECTIVE,
        Type.PROPOSED_DIRECTIVE,
        Type.AMOC_LETTER,
        Type.SERVICE_BULLETIN,
        Type.SERVICE_LETTER,
        Type.AIRWORTHINESS_BULLETIN,
        Type.TEMPORARY_REVISION,
    ]
)


def group_of(kind: Type | None) -> GroupKind:
    """The part of the listing in which publications of a type stand."""
    return _BY_TYPE[kind] if kind else GROUPS[-1]


@cache
def block_order(group: GroupKind, block: str) -> tuple[int, str]:
    """Where a page block stands in its group; pages without one come last."""
    titles = [each.title for each in page_blocks(group.blocks)] if group.blocks else []
    if block == NO_BLOCK:
        return len(titles) + 1, ""
    return (titles.index(block) if block in titles else len(titles)), block
