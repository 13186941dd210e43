"""Which publication a reference of a record means. What is ambiguous is shown, never chosen."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from indexer.library.catalogue import Catalogue
from indexer.library.cited import holds_number, prints_page_date, publications_called
from indexer.library.fleet_records import Aircraft
from indexer.library.records import PublicationRecord, ReferenceState
from indexer.library.relation_rules.cited_dates import certain_day, cited_days
from indexer.library.relation_rules.reference_targets import names_in, type_fits
from indexer.library.relation_rules.references import of_revision
from indexer.library.works import BULLETINS, DIRECTIVES, number_key
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import Scheme
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import normalised_revision
from server.checking.findings import Candidate
from server.checking.narrowing import BY_WORDS, as_held, is_called, narrowed
from server.checking.places import place_of
from server.words import count_of, date_words, publication_name

MOST_CANDIDATES = 12
_PLACES = frozenset(
    {CitationKind.FIGURE, CitationKind.PAGE, CitationKind.PARAGRAPH, CitationKind.OWN_SECTION}
)
_MANUALS_ONLY = frozenset({CitationKind.CHAPTER, CitationKind.TASK, CitationKind.OWN_SECTION})
ALIKE = "Makers number alike: the words name neither maker nor model, so another one's may be meant."
_FIGURES_ALONE = re.compile(r"(?:(?:[AEMC]?SB|SL|SI|SIL|TR|TEMPORARY-REVISION|NO)-)?[0-9-]{1,10}")
_OF_THE_AUTHORITY = frozenset(
    {
        *DIRECTIVES, Type.ADVISORY_CIRCULAR, Type.AIRWORTHINESS_BULLETIN, Type.REGULATION,
        Type.ORDER_OR_HANDBOOK, Type.TYPE_CERTIFICATE_DATA_SHEET, Type.AMOC_LETTER,
    }
)  # fmt: skip
NO_DOCUMENT = "The words name a place and no document."
NOT_HELD = "Not in this library: cannot tell."


@dataclass(frozen=True, slots=True)
class Resolution:
    """What a reference means among the publications held here.

    publication  None = not held, or it cannot be told which is meant
    candidates   those it may mean; next to a publication, others that must be known beside it
    reason       why there is no publication, in words for a person; "" with one
    notes        how it was found out, where the words alone do not say
    named        publications with the number named, whatever their revision: what directives say of them
    only_by_kind True when the words say nothing but the kind of manual
    """

    publication: PublicationRecord | None
    candidates: tuple[Candidate, ...] = ()
    reason: str = ""
    notes: tuple[str, ...] = ()
    named: tuple[PublicationRecord, ...] = ()
    only_by_kind: bool = False


def resolve(catalogue: Catalogue, citation: Citation, words: str, aircraft: Aircraft | None) -> Resolution:
    """The publication meant.

    words     that may say whose manual it is: those around the reference
    aircraft  chosen, None = none; it narrows what a kind of manual may mean
    """
    if citation.kind is CitationKind.REGULATION:
        return _rule(catalogue, citation)
    if citation.number and not _own_place(citation):
        named = _with_number(catalogue, _as_revised(citation)) or _with_number(catalogue, citation)
        if named:
            return _of_number(catalogue, citation, named, words, aircraft)
        if citation.chapter_number is None or str(citation.chapter_number) != citation.number:
            return Resolution(None, reason=NOT_HELD)  # never another document that has the same chapter
    own = citation.chapter_number is None or citation.chapter_number.scheme is Scheme.OWN
    if citation.kind in _PLACES and citation.type is None and own:
        return Resolution(None, reason=NO_DOCUMENT)
    if citation.type in BULLETINS | DIRECTIVES and not citation.number:
        return Resolution(None, reason="The words name the kind of paper and not its number.")
    return _by_kind(catalogue, citation, words, aircraft)


def _as_revised(citation: Citation) -> Citation:
    """ "AD 2031-07-11 Rev 1" as its number is printed: 2031-07-11R1."""
    if citation.type not in DIRECTIVES or not citation.revision.isdecimal() or citation.revision == "0":
        return citation
    return replace(citation, number=re.sub(r"[ -]?R[0-9]+$", "", citation.number) + f"R{citation.revision}")


def _own_place(citation: Citation) -> bool:
    """A task has a number of its own, which is no publication's."""
    return citation.kind is CitationKind.TASK


def _rule(catalogue: Catalogue, citation: Citation) -> Resolution:
    held = [each for each in publications_called(catalogue, names_in(citation)) if each.replaced is None]
    if len(held) == 1:
        return Resolution(held[0], named=tuple(held))
    if held:
        return Resolution(None, _candidates(held, "holds the text of this part"), "Several texts are held.")
    return Resolution(None, reason="The text of this rule is not in this library.")


def _with_number(catalogue: Catalogue, citation: Citation) -> list[PublicationRecord]:
    """Publications with the number named, of any kind where the words name none, replaced ones too."""
    kinds: Iterable[Type | None] = (citation.type,) if citation.type else (None, *Type)
    keys = {
        name
        for kind in kinds
        for name in names_in(replace(citation, kind=CitationKind.DOCUMENT, type=kind))
        if name.startswith("number ")
    }
    return publications_called(catalogue, keys)


def _of_number(
    catalogue: Catalogue,
    citation: Citation,
    named: list[PublicationRecord],
    words: str,
    aircraft: Aircraft | None,
) -> Resolution:
    """Among those with the number: the kind named, the maker meant, then the revision named."""
    fitting = [each for each in named if type_fits(citation.type, each.type)]
    if not fitting:
        reason = "This number is held here, but of another kind of document than the words say."
        return Resolution(None, _candidates(named, "has this number"), reason, named=tuple(named))
    if (reason := _other_revision_of_a_rule(citation, fitting)) is not None:
        return Resolution(None, _candidates(fitting, "without the revision named"), reason)
    notes: tuple[str, ...] = ()
    works = _works(fitting)
    if len(works) == 1 and _is_weak(citation) and not _is_told(citation, fitting, words, aircraft):
        return _dated(catalogue, citation, fitting, (ALIKE,), only_by_kind=True)
    if len(works) > 1:
        fitting, why = narrowed(fitting, words, aircraft)
        works = _works(fitting)
        notes = (why,) if why else ()
    if len(works) > 1 and citation.type not in DIRECTIVES:
        reason = f"{len(works)} documents held here have this number, and the words do not say which."
        return Resolution(None, _candidates(fitting, "has this number"), reason, named=tuple(fitting))
    return _dated(catalogue, citation, fitting, notes)


def _other_revision_of_a_rule(citation: Citation, held: Sequence[PublicationRecord]) -> str | None:
    """Why a directive with the number is not the one named; None = it is. R1 ends a revised number."""
    mark = normalised_revision(citation.revision)
    if citation.type not in DIRECTIVES or mark in ("", "original"):
        return None
    if any(re.search(rf"R ?{re.escape(mark)}$", each.number, re.IGNORECASE) for each in held):
        return None
    return f"{citation.number} is held here, and not its revision {citation.revision}: cannot tell."


def _is_weak(citation: Citation) -> bool:
    """Whether other makers may have the same number: figures alone, as of "SB 27" or "TR 32-07".

    Numbers that the authority gives are its own.
    """
    if citation.type in _OF_THE_AUTHORITY:
        return False
    return _FIGURES_ALONE.fullmatch(number_key(citation.number, citation.type)) is not None


def _is_told(
    citation: Citation, held: Sequence[PublicationRecord], words: str, aircraft: Aircraft | None
) -> bool:
    """Whether more than the number tells it: a model, the maker, its date, or the aircraft worked on."""
    day = certain_day(citation)
    if day is not None and any(day == each.date for each in held):
        return True
    told, why = narrowed(held, words, aircraft)
    return bool(told) and bool(why)


def _dated(
    catalogue: Catalogue,
    citation: Citation,
    held: Sequence[PublicationRecord],
    notes: tuple[str, ...],
    only_by_kind: bool = False,
) -> Resolution:
    """The revision named. A date beside it may be that of the page: pages that did not change keep theirs."""
    found = _of_revision(citation, held, notes, only_by_kind)
    if found.publication is not None or not (citation.revision and citation.date and citation.page):
        return found
    by_mark = _of_revision(replace(citation, date=None), held, notes, only_by_kind)
    meant = by_mark.publication
    days = cited_days(citation) if meant is not None else ()
    for day in (each for each in days if prints_page_date(catalogue, meant.id, each, citation.page)):
        said = f"{date_words(day)} is the date that page {citation.page} prints, not the revision's."
        return replace(by_mark, notes=(*by_mark.notes, said))
    return found


def _of_revision(
    citation: Citation, held: Sequence[PublicationRecord], notes: tuple[str, ...], only_by_kind: bool = False
) -> Resolution:
    """Among the revisions of one work. The one named; the only one on the shelf; else none is chosen."""
    by_id = {each.id: each for each in held}
    if citation.revision or citation.date:
        found, reason, state = of_revision(citation, [as_held(each) for each in held])
        meant = _shelf_first([by_id[each.id] for each in found])
        if state is not ReferenceState.RESOLVED:
            return Resolution(
                None, _candidates(meant, "another revision of it"), reason, notes, tuple(held), only_by_kind
            )
    else:
        meant = [each for each in held if each.replaced is None] or list(held)
    revisions = {each.revision_id for each in meant}
    if len(revisions) > 1 and not (citation.type in DIRECTIVES and len(meant) == 1):
        newest = _newest(meant)
        listed = sorted(meant, key=lambda each: (each is not newest, _order(each)))
        candidates = tuple(
            _candidate(each, "the newest held here" if each is newest else "also held here")
            for each in listed
        )
        reason = f"No revision is named, and {len(revisions)} are held here."
        if citation.revision or citation.date:
            reason = "Several revisions held here fit what is named."
        return Resolution(None, candidates[:MOST_CANDIDATES], reason, notes, tuple(held), only_by_kind)
    chosen, *others = meant
    twins = _candidates(others, "the same revision in another file")
    return Resolution(chosen, twins, "", notes, tuple(held), only_by_kind)


def _by_kind(catalogue: Catalogue, citation: Citation, words: str, aircraft: Aircraft | None) -> Resolution:
    """A manual named by its kind alone, or a chapter number without a document."""
    asked = replace(citation, kind=CitationKind.DOCUMENT, number="", chapter_number=None)
    held = [each for each in publications_called(catalogue, names_in(asked)) if each.replaced is None]
    kind = (citation.type or Type.MAINTENANCE_MANUAL).label.lower()
    if not held:
        return Resolution(None, reason=f"No {kind} is in this library: cannot tell.")
    meant, why = narrowed(held, words, aircraft)
    if citation.named and not any(is_called(each, citation.named) for each in meant):
        meant = []
    if not meant:
        return Resolution(None, reason=f"No {kind} that is called so is in this library: cannot tell.")
    if (other := _of_another_kind(citation, meant, held)) is not None:
        return other
    number = citation.chapter_number
    if number is not None and number.scheme is not Scheme.OWN:
        holding = [each for each in meant if holds_number(catalogue, each.id, number)]
        if not holding:
            reason = f"No {kind} held here that can be meant prints {number}."
            return Resolution(None, _candidates(meant, f"does not print {number}"), reason)
        meant = holding
    works = _works(meant)
    if len(works) == 1 and number is not None and number.scheme is Scheme.OWN:
        holding = [each for each in meant if _holds_section(catalogue, each, citation)]
        if not holding:
            reason = f"{number} of its own order was not found in any {kind} held here that can be meant."
            return Resolution(None, _candidates(meant, f"{number} was not found in it"), reason)
        meant = holding
    if len(works) > 1:
        reason = f"{count_of(len(works), 'manual')} held here can be meant, and the words do not say which."
        return Resolution(None, _candidates(meant, why or f"a {kind}"), reason, only_by_kind=not why)
    if number is None and not why.startswith(BY_WORDS):
        reason = f"The words say only «{citation.text}»: which {kind} is meant is not said."
        return Resolution(
            None, _candidates(meant, why or f"the only {kind} held here"), reason, only_by_kind=True
        )
    prints = f" that prints {number}" if number is not None and number.scheme is not Scheme.OWN else ""
    notes = (why,) if why else (f"Taken because it is the only {kind} held here{prints}.",)
    return _dated(catalogue, citation, meant, notes, only_by_kind=not why)


def _of_another_kind(
    citation: Citation, meant: Sequence[PublicationRecord], held: Sequence[PublicationRecord]
) -> Resolution | None:
    """Nothing told, where the words name a service manual and only maintenance manuals are left, or the other
    way round: another maker's, or one not held here, may be meant. None = one of the kind named is left.
    """
    named = citation.type
    if named is None or any(each.type is named for each in meant):
        return None
    kind = named.label.lower()
    left = [_candidate(each, f"a {each.type.label.lower()}, not a {kind}") for each in meant if each.type]
    so = [each for each in held if each.type is named]
    others = _candidates(so, f"a {kind}; nothing shows that it is meant")
    reason = f"The words name a {kind}, and none held here is shown to be the one meant."
    return Resolution(None, (*left, *others)[:MOST_CANDIDATES], reason)


def _holds_section(catalogue: Catalogue, held: PublicationRecord, citation: Citation) -> bool:
    """Whether the part of the manual's own order stands in it, wherever in that part the place may be."""
    part = replace(citation, page="", figure="", item="", paragraph="")
    return place_of(catalogue, held, part).state is not ReferenceState.NO_SUCH_PLACE


def _works(held: Iterable[PublicationRecord]) -> set[str]:
    return {each.work_id for each in held}


def _newest(held: Sequence[PublicationRecord]) -> PublicationRecord | None:
    """By date alone, and only where every revision prints one."""
    if any(each.date is None for each in held):
        return None
    return max(held, key=lambda each: (each.date, each.id))


def _order(record: PublicationRecord) -> tuple:
    return (record.date is None, -(record.date.toordinal() if record.date else 0), record.id)


def _shelf_first(held: Sequence[PublicationRecord]) -> list[PublicationRecord]:
    return sorted(held, key=lambda each: (each.replaced is not None, each.id))


def _candidates(held: Iterable[PublicationRecord], why: str) -> tuple[Candidate, ...]:
    return tuple(_candidate(each, why) for each in sorted(held, key=_order))[:MOST_CANDIDATES]


def _candidate(record: PublicationRecord, why: str) -> Candidate:
    dated = f", {date_words(record.date)}" if record.date else ""
    gone = "; replaced by a newer file" if record.replaced else ""
    return Candidate(record.id, publication_name(record), record.revision, f"{why}{dated}{gone}")
