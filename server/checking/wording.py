"""Suggested words for the record. What the reference lacks is marked in brackets and never invented. Pure.

A revision or a date that the entry does not give is plain only where the entry tells document and revision
for sure: its number, with a revision or a date of one reading. Else it stands in brackets, as held here.
Nothing is suggested for a source that the entry denies, or that no class of work may cite.

A good reference names title, number, revision, date, chapter-section-subject and page (common practice, no
source). What an entry must hold: 14 CFR 43.9(a), 43.11(a), part 43 Appendix B.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from indexer.library.fleet_records import Aircraft
from indexer.library.records import PublicationRecord, ReferenceState
from indexer.library.relation_rules.cited_dates import certain_day, cited_days
from indexer.library.works import BULLETINS, DIRECTIVES
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import Scheme
from indexer.trade.evidence import Answer
from indexer.trade.part_approvals import part_approval_of_type
from indexer.trade.publication_types import PublicationType as Type
from server.checking.directive_status import name_of
from server.checking.findings import Enough
from server.checking.places import Place, names_a_place
from server.words import date_words, numbered

_UNREVISED = frozenset(
    {*DIRECTIVES, Type.ADVISORY_CIRCULAR, Type.REGULATION, Type.AIRWORTHINESS_BULLETIN, Type.AMOC_LETTER}
)
_MAINTENANCE = (
    "14 CFR 43.9(a): describe the work or refer to data acceptable to the Administrator; the date it was "
    "completed; who did it, if another than the signer; then signature, certificate number and kind of "
    "certificate. The signature is the approval for return to service, for the work performed only."
)
_INSPECTION = (
    "14 CFR 43.11(a): type and extent of the inspection, date and total time in service, signature with "
    "number and "
    "kind of certificate, and the statement that the aircraft was found airworthy or not; list what was "
    "found."
)
_MAJOR = (
    "Part 43 Appendix B: a major repair or alteration goes on FAA Form 337, with the approved data in "
    "item 8: a "
    "signed copy to the owner, one to the FAA Aircraft Registration Branch within 48 hours after return "
    "to service. "
    "For major repairs a repair station may use the customer's work order instead (Appendix B(b))."
)
_DIRECTIVE = (
    "14 CFR 91.417(a)(2)(v), as reported: number and revision date of the directive, method of "
    "compliance, date and "
    "time in service, and for a recurring action when it is next due."
)
REMINDERS = {
    "minor": (_MAINTENANCE,),
    "major": (_MAINTENANCE, _MAJOR),
    "directive": (_MAINTENANCE, _DIRECTIVE),
    "inspection": (_INSPECTION,),
    "": (_MAINTENANCE, f"If the work is major: {_MAJOR}"),
}


def why_not_to_cite(answers: Mapping[str, Enough], not_used: str) -> str:
    """Why no words are suggested: the entry denies it, or no class of work may cite it; "" = they are."""
    if not_used:
        return f"Not to be cited: the entry says «{not_used}»."
    if all(each.answer is Answer.NO for each in answers.values()):
        return f"Not to be cited: {next(iter(answers.values())).why}"
    return ""


def record_words(
    citation: Citation,
    publication: PublicationRecord | None,
    aircraft: Aircraft | None,
    place: Place | None = None,
    changed_by: Sequence[str] = (),
) -> str:
    """The reference as a record should give it; "" when nothing is known that it could name.

    place  where it was found in the publication: what was not found there is not suggested
    changed_by  temporary revisions of the page that the entry cites too, in words
    """
    kind = publication.type if publication else citation.type
    if part_approval_of_type(kind) is not None:
        return ""  # a part's approval is no data to work by
    if citation.kind is CitationKind.REGULATION:
        return f"14 CFR {citation.number}" if citation.number else ""
    document = _document(citation, publication)
    if not document:
        return ""
    parts = [f"IAW {document}"]
    if kind in _UNREVISED:
        parts += _amended(publication)
    elif publication is not None and not citation.revision and not citation.date:
        parts.append(_held_here(publication))
    elif publication is not None and not _is_told(citation):
        parts += _as_far_as_told(citation, publication)
    else:
        parts += [_revision(citation, publication), _date(citation, publication)]
    parts += _place(citation, kind) if place is None else _place_found(citation, kind, place)
    parts += changed_by
    if aircraft is not None:
        serial = f"S/N {aircraft.serial}" if aircraft.serial else "[serial?]"
        parts.append(
            ", ".join(
                each
                for each in (
                    f"aircraft {aircraft.registration}".strip(),
                    " ".join((aircraft.maker, aircraft.model)).strip(),
                    serial,
                )
                if each
            )
        )
    return ", ".join(part for part in parts if part) + "."


def _document(citation: Citation, publication: PublicationRecord | None) -> str:
    """Maker, title and number as the document prints them; else what the reference says and a mark."""
    if publication is None:
        if not citation.number:
            label = citation.type.label if citation.type else ""
            return f"{label} [number?]".strip() if label else ""
        return numbered(citation.type, citation.number)
    if publication.type in DIRECTIVES:
        return name_of(publication)
    maker = publication.identity.maker.value if publication.identity.maker else ""
    title = publication.title
    if maker and maker.casefold() not in title.casefold():
        title = f"{maker} {title}".strip()
    number = numbered(publication.type, publication.number)
    models = "" if number else f"model {', '.join(publication.models[:3])}" if publication.models else ""
    return ", ".join(part for part in (title, number or models) if part)


def _revision(citation: Citation, publication: PublicationRecord | None) -> str:
    """The mark as the document prints it, where one was found for what the entry names; else the entry's."""
    mark = (publication.revision if publication else "") or citation.revision
    if not mark:
        return "" if publication is not None and publication.date else "[revision?]"
    return _mark(mark)


def _mark(mark: str) -> str:
    return "original issue" if mark == "original" else f"Rev {mark}"


def _held_here(publication: PublicationRecord) -> str:
    """The revision held, as a question: the entry names none."""
    dated = f"dated {date_words(publication.date)}" if publication.date else ""
    held = ", ".join(
        each for each in (_mark(publication.revision) if publication.revision else "", dated) if each
    )
    return f"[{held} is held here: was it used?]" if held else "[revision?], [date?]"


def _is_told(citation: Citation) -> bool:
    """Whether the entry tells document and revision for sure: its number, and a revision or a date of one
    reading. What it does not say of that revision then follows: a revision has one date."""
    return bool(citation.number) and (bool(citation.revision) or certain_day(citation) is not None)


def _as_far_as_told(citation: Citation, publication: PublicationRecord) -> list[str]:
    """What the entry says of revision and date; what only the document held here says, marked as such."""
    mark = _revision(citation, publication)
    if mark and not citation.revision and not mark.startswith("["):
        mark = f"[{mark} as held here]"
    date = _date(citation, publication)
    if certain_day(citation) is None and not date.startswith("["):
        date = f"[{date} as held here]"
    return [mark, date]


def _date(citation: Citation, publication: PublicationRecord | None) -> str:
    if publication is not None and publication.date:
        return f"dated {date_words(publication.date)}"
    if len(cited_days(citation)) > 1:
        return f"[date? «{citation.date_words}» can be read two ways]"
    return f"dated {date_words(citation.date)}" if citation.date else "[date?]"


def _amended(publication: PublicationRecord | None) -> list[str]:
    facts = publication.directive if publication else None
    if facts is None:
        return []
    parts = [f"Amendment {facts.amendment.value}"] if facts.amendment else []
    return [*parts, f"effective {date_words(facts.effective.value)}"] if facts.effective else parts


def _place_found(citation: Citation, kind: Type | None, place: Place) -> list[str]:
    """The place named, as far as it was found."""
    if place.state is ReferenceState.RESOLVED:
        return _place(citation, kind)
    if place.state is ReferenceState.CANNOT_TELL:
        return [*_place(citation, kind), "[place not found for sure]"]
    if not place.pdf_pages or citation.chapter_number is None:
        return ["[chapter, page or paragraph?]"]
    task = citation.number if citation.kind is CitationKind.TASK else ""
    kept = "" if task else citation.number
    gone = replace(citation, page="", figure="", item="", paragraph="", number=kept)
    named = (
        ("page", citation.page),
        ("figure", citation.figure),
        ("paragraph", citation.paragraph),
        ("task", task),
    )
    return [*_place(gone, kind), *(f"[{word}?]" for word, value in named if value)]


def _own_word(citation: Citation) -> str:
    """What the entry calls the part of a document of its own order: Form 337 and the like want it so."""
    value = citation.chapter_number.chapter if citation.chapter_number else ""
    called = rf"\b(?P<word>ch|group|part)[a-z]*[ .:#-]*{re.escape(value)}\b"
    found = re.search(called, citation.text, re.IGNORECASE)
    return {"ch": "chapter"}.get(word := found["word"].lower(), word) if found else "section"


def _place(citation: Citation, kind: Type | None) -> list[str]:
    number = citation.chapter_number
    parts = []
    if citation.kind is CitationKind.TASK and citation.number:
        parts.append(f"task {citation.number}")
    elif number is not None and str(number) != citation.number:
        parts.append(f"{_own_word(citation)} {number}" if number.scheme is Scheme.OWN else str(number))
    for word, value in (("page", citation.page), ("figure", citation.figure), ("item", citation.item)):
        if value:
            parts.append(f"{word} {value}")
    if citation.paragraph:
        named = citation.paragraph[:1].isalpha() and len(citation.paragraph.split()) > 1
        parts.append(citation.paragraph if named else f"paragraph {citation.paragraph}")
    needs = kind not in DIRECTIVES and kind not in (*BULLETINS, Type.TEMPORARY_REVISION)
    if not names_a_place(citation) and citation.kind is not CitationKind.TASK and needs:
        parts.append("[chapter, page or paragraph?]")
    return parts
