"""What listed pages name that leads nowhere among the documents held here: documents, rules, places.

Documents come first, for somebody may have to get them; rules stand together; last come places in documents
held here that could not be told apart.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from indexer.library.records import Reference, ReferenceState
from indexer.library.works import DIRECTIVES, number_key
from indexer.tagging.tags import CitationKind
from indexer.trade.bulletin_numbers import normalised_bulletin
from indexer.trade.publication_types import PublicationType
from server.system_entries import Entries
from server.system_lines import Around
from server.system_records import NotHere, NotHereKind
from server.words import numbered

_KINDS = list(NotHereKind)
_CFR = "14 CFR "


@dataclass(frozen=True, slots=True)
class Missing:
    """All that is named under one key: a document however its number is written, a rule, a place."""

    kind: NotHereKind
    name: str
    words: str
    named_by: tuple[tuple[str, int | None], ...]  # publication id, pdf page


def not_here_of(found: Entries, around: Around) -> tuple[NotHere, ...]:
    """Every such naming on the listed pages, those of one key together."""
    named: dict[NotHere, dict[tuple[str, int | None], None]] = {}
    for publication_id, record in found.subjects.items():
        for claim in around.currency.unresolved(record):
            words = around.currency.unresolved_words(claim)
            kind = NotHereKind.DOCUMENT
            said = NotHere(
                kind, _key(claim.document), claim.document, claim.revision, claim.kind.value, words, ()
            )
            named.setdefault(said, {})[publication_id, claim.evidence.pdf_page] = None
    for entry in (*found.on, *found.may_be):
        for reference in around.refers.get(entry.place.passage_id, ()):
            if reference.state is not ReferenceState.RESOLVED:
                place = (entry.place.publication_id, entry.place.pdf_page)
                named.setdefault(said_by(reference), {})[place] = None
    ranked = sorted(named, key=lambda each: (_KINDS.index(each.kind), each.key, each.document, each.reason))
    return tuple(
        NotHere(
            each.kind,
            each.key,
            each.document,
            each.revision,
            each.state,
            each.reason,
            tuple(sorted(named[each], key=lambda place: (place[0], place[1] or 0))),
        )
        for each in ranked
    )


def said_by(reference: Reference) -> NotHere:
    """What a reference that is not resolved says, without its place."""
    citation = reference.citation
    printed = " ".join(citation.text.split())
    state, reason = reference.state.value, reference.reason
    if citation.kind is CitationKind.REGULATION:
        name = citation.number or printed
        if printed.startswith(_CFR) and not name.startswith(_CFR):
            name = f"{_CFR}{name}"
        key = name.removeprefix(_CFR).casefold()
        return NotHere(NotHereKind.RULE, key, name, "", state, reason, ())
    if citation.kind is CitationKind.DOCUMENT and reference.state is ReferenceState.NOT_HELD:
        name = numbered(citation.type, citation.number) or printed
        key = _key(citation.number, citation.type) if citation.number else printed.casefold()
        return NotHere(NotHereKind.DOCUMENT, key, name, citation.revision, state, reason, ())
    return NotHere(NotHereKind.PLACE, printed.casefold(), printed, "", state, reason, ())


def _key(number: str, kind: PublicationType | None = None) -> str:
    """A number without its type's word, which claims do not give: "SB QZ62-32-0114" -> "QZ62-32-0114"."""
    if kind in DIRECTIVES or number.upper().startswith("AD "):
        return f"AD {number_key(number, PublicationType.AIRWORTHINESS_DIRECTIVE)}"
    return normalised_bulletin(number) or number_key(number, kind)


def missing(said: Iterable[NotHere]) -> tuple[Missing, ...]:
    """One line a document, rule or place, in the order of what is said of it."""
    groups: dict[tuple[NotHereKind, str], list[NotHere]] = {}
    for each in said:
        groups.setdefault((each.kind, each.key), []).append(each)
    return tuple(_missing(kind, group) for (kind, _), group in groups.items())


def _missing(kind: NotHereKind, group: Sequence[NotHere]) -> Missing:
    # The longest name says most: "SB QZ62-32-0114" rather than "QZ62-32-0114".
    name = max((each.document for each in group), key=lambda name: (len(name), name))
    referred = [each for each in group if any(each.state == state for state in ReferenceState)] or group
    reasons = dict.fromkeys(
        each.reason.replace(f" ({each.revision})", "") or each.state.capitalize() for each in referred
    )
    revisions = list(dict.fromkeys(each.revision for each in group if each.revision))
    named_at = f"Named at revision {' and '.join(revisions)}. " if revisions else ""
    places = dict.fromkeys(place for each in group for place in each.named_by)
    return Missing(kind, name, named_at + " ".join(reasons), tuple(places))


def rules_words(found: Iterable[Missing]) -> str:
    """ "Rules: 14 CFR 39.19, part 39; 1 CFR part 51 (not held here)"; "" when none is named."""
    names = [each.name for each in found if each.kind is NotHereKind.RULE]
    federal = [name.removeprefix(_CFR) for name in names if name.startswith(_CFR)]
    others = [name for name in names if not name.startswith(_CFR)]
    listed = [f"{_CFR}{', '.join(federal)}"] if federal else []
    return f"Rules: {'; '.join(listed + others)} (not held here)" if names else ""
