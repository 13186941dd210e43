"""Is this source approved data? An entry of a record or work card -> one finding for each source it cites.

    check(library, text, aircraft, work, on)   answers and keeps the answer in the audit trail -> SourceCheck
    kept(library, id)                          a kept check, as it was answered -> plain data
    kept_list(library, limit, offset)          the trail, newest first -> plain data
    again(library, id)                         the same question today, and what differs -> Again

`SourceCheck.fields()` is the JSON of the API, of `hangarleaf check --json` and of the trail. It decides
nothing: the signer does.
"""

import datetime
from dataclasses import dataclass, replace
from typing import Any

from indexer.errors import QueryProblem
from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.check_records import KeptCheck
from indexer.library.checks import count_checks, keep_check, kept_check, kept_checks
from indexer.library.day import today as day_of
from indexer.library.fleet_records import Aircraft
from indexer.tagging.joined_places import with_places_joined
from indexer.tagging.references import find_citations
from indexer.tagging.tags import Citation
from indexer.trade.circular_conditions import circular_conditions
from server.checking.asking import FOR_THE_REST, NEEDS
from server.checking.comparing import differences
from server.checking.enough import CLASSES, DIRECTIVE, MAJOR, MINOR
from server.checking.entry import Entry, read_entry, without_marks
from server.checking.entry_words import speaks_of_compliance
from server.checking.fields import finding_fields
from server.checking.findings import SourceFinding
from server.checking.held_numbers import with_held_numbers
from server.checking.maker_data import maker_data
from server.checking.one_finding import NO_AIRCRAFT, Asked, find
from server.checking.part_numbers_named import Named, directives_naming_parts
from server.checking.parts_forbidden import lowered
from server.checking.unheld import papers_named
from server.checking.wording import REMINDERS
from server.ocr_debt import owed
from server.ocr_words import Owed
from server.opened import LibraryState, OpenedLibrary
from server.words import CAUTIONS

MOST_TEXT = 20_000  # characters of one entry
MOST_CITATIONS = 200
_OTHERS_NONE = (
    "Of the document cited, none among the directives held here. That does not mean that none applies: check "
    "the authority's list."
)
NOTHING_CITED = f"No source is cited in these words. {NEEDS}"


class CheckRefused(QueryProblem):
    """What was given cannot be checked; nothing was kept."""

    slug = "check-refused"


@dataclass(frozen=True, slots=True)
class SourceCheck:
    """One check as it is answered.

    id        in the audit trail; 0 = not kept
    aircraft  registration as asked for, "" = none; work: class of work, "" = not said
    on        the day the work was done, None = not said
    facts     what the entry itself says that mattered
    notes     what holds for the whole entry: nothing cited, too much cited
    reminders of what the record of this class of work must hold
    """

    id: int
    at: datetime.datetime  # UTC
    text: str
    aircraft: str
    work: str
    on: datetime.date | None
    state: LibraryState
    findings: tuple[SourceFinding, ...]
    facts: tuple[str, ...]
    notes: tuple[str, ...]
    reminders: tuple[str, ...]

    def fields(self) -> dict[str, Any]:
        return {
            "id": self.id,
            "at": self.at.isoformat(timespec="milliseconds"),
            "text": self.text,
            "aircraft": self.aircraft,
            "work": self.work,
            "on": self.on.isoformat() if self.on else None,
            "library_state": self.state.fields(),
            "facts": list(self.facts),
            "notes": list(self.notes),
            "citations": [finding_fields(each) for each in self.findings],
            "reminders": list(self.reminders),
            "cautions": list(CAUTIONS),
        }


@dataclass(frozen=True, slots=True)
class Again:
    """A kept check, the same question asked today, and in what the answers differ; () = in nothing."""

    kept: dict[str, Any]
    now: dict[str, Any]
    differences: tuple[str, ...]

    def fields(self) -> dict[str, Any]:
        return {"kept": self.kept, "now": self.now, "differences": list(self.differences)}


def check(
    library: OpenedLibrary,
    text: str,
    aircraft: str | None = None,
    work: str = "",
    on: datetime.date | None = None,
    keep: bool = True,
) -> SourceCheck:
    """Find every source the text cites, and for each what it is, whether it is current and applies, its
    standing with the words that prove it, what directive reaches it, and whether it is enough.

    aircraft  registration of the fleet list; None and "" = none chosen
    work      one of CLASSES; "" = not said: minor and major are both answered, and work for a directive
              where the entry says that one was complied with
    on        the day the work was done; None = what the entry says, else today
    keep      False leaves the trail as it is
    Raises CheckRefused, AircraftUnknown.
    """
    entry_text = _checked(text, work)
    with library.reading() as status:
        catalogue = library.catalogue
        today = day_of(catalogue)
        chosen = fleet.aircraft(catalogue, aircraft) if aircraft and aircraft.strip() else None
        ours = fleet.fleet(catalogue)
        citations = without_marks(_citations(catalogue, entry_text), ours)
        entry = read_entry(entry_text, citations, ours, today)
        asked = _asked(entry_text, chosen, entry, work, on, today, citations)
        findings = tuple(find(catalogue, each, asked) for each in citations[:MOST_CITATIONS])
        state = library.state(status)
        debt = owed(library)
        named = directives_naming_parts(library, entry_text, citations, asked.done_on or today)
        findings = _beside_parts(findings, named)
    findings = _beside_circulars(library, findings, asked)
    made = SourceCheck(
        0,
        datetime.datetime.now(datetime.UTC),
        entry_text,
        chosen.registration if chosen else "",
        work,
        asked.done_on,
        state,
        findings,
        entry.facts,
        (*(() if findings else _said(named)), *_notes(citations), *_not_read(debt)),
        REMINDERS[work],
    )
    if not keep:
        return made
    kept = keep_check(
        library.catalogue, made.text, made.aircraft, work, state.generation, made.fields(), made.at
    )
    return replace(made, id=kept.id)


def kept(library: OpenedLibrary, check_id: int) -> dict[str, Any]:
    """A check of the trail as it was answered, whatever the library holds now. Raises CheckUnknown."""
    return _kept_fields(kept_check(library.catalogue, check_id))


def kept_list(library: OpenedLibrary, limit: int = 50, offset: int = 0) -> dict[str, Any]:
    """The trail, newest first: for each check its question and how its citations were answered."""
    with library.reading():
        found = kept_checks(library.catalogue, limit, offset)
        total = count_checks(library.catalogue)
    return {"total": total, "offset": offset, "checks": [_short(each) for each in found]}


def again(library: OpenedLibrary, check_id: int) -> Again:
    """Ask a kept check again, without keeping the new answer. Raises CheckUnknown, AircraftUnknown."""
    before = kept(library, check_id)
    day = before.get("on")
    now = check(
        library,
        before["text"],
        before["aircraft"],
        before["work"],
        datetime.date.fromisoformat(day) if day else None,
        keep=False,
    ).fields()
    return Again(before, now, tuple(differences(before, now)))


def _checked(text: str, work: str) -> str:
    if not text.strip():
        raise CheckRefused("Nothing was given to check.", "Paste the entry or the line of the work card.")
    if len(text) > MOST_TEXT:
        raise CheckRefused(
            f"The text has {len(text):,} characters; at most {MOST_TEXT:,} can be checked at once.",
            "Check one entry at a time, or give many as a CSV file.",
        )
    if work and work not in CLASSES:
        raise CheckRefused(
            f"«{work}» is no class of work.",
            f"Give one of {', '.join(CLASSES)}, or none: it is answered both ways.",
        )
    return text.strip()


def _citations(catalogue: Catalogue, text: str) -> list[Citation]:
    found = with_places_joined(text, with_held_numbers(catalogue, text, find_citations(text)))
    return sorted([*found, *papers_named(text, found)], key=lambda each: each.start)


def _asked(
    text: str,
    chosen: Aircraft | None,
    entry: Entry,
    work: str,
    on: datetime.date | None,
    today: datetime.date,
    citations: list[Citation],
) -> Asked:
    held = chosen or entry.aircraft
    called = chosen.registration if chosen else entry.called
    missing = NO_AIRCRAFT
    if held is None and entry.unknown:
        missing = f"{entry.unknown} is not in the fleet list: need the model and the serial number."
    if held is None and (entry.several or entry.alike):
        missing = entry.several or entry.alike
    of_directive = [DIRECTIVE] if speaks_of_compliance(text, entry.said, citations) else []
    classes = tuple(dict.fromkeys((MINOR, MAJOR, *([work] if work else []), *of_directive)))
    day = on or entry.done_on
    other = entry.aircraft if chosen and entry.aircraft and entry.aircraft.id != chosen.id else None
    conflict = (
        f"The entry names {other.registration}, and {called} was chosen: which is meant?" if other else ""
    )
    return Asked(text, held, called, missing, classes, day, today, entry.said, tuple(citations), conflict)


def _beside_parts(findings: tuple[SourceFinding, ...], named: list[Named]) -> tuple[SourceFinding, ...]:
    """Findings with the directives that name a part of the entry: never "none among those held" without, and
    no yes beside one that forbids the part."""
    if not named:
        return findings
    said, forbids = _said(named), [each.forbids for each in named if each.forbids]
    return tuple(
        replace(
            each,
            enough=(answers := lowered(each.enough, forbids)),
            ask=each.ask if answers == each.enough else tuple(dict.fromkeys((*each.ask, FOR_THE_REST))),
            notes=(*said, *each.notes),
            directives_note=" ".join((*said, _OTHERS_NONE)) if each.directives_note else "",
        )
        for each in findings
    )


def _said(named: list[Named]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.words for each in named))


def _beside_circulars(
    library: OpenedLibrary, findings: tuple[SourceFinding, ...], asked: Asked
) -> tuple[SourceFinding, ...]:
    """Circulars that serve only where the maker is silent, with what the maker's manuals speak of."""
    if asked.aircraft is None or not any(circular_conditions(each.citation.number) for each in findings):
        return findings
    said = maker_data(library, asked.aircraft, asked.text, asked.others)
    return tuple(
        replace(each, notes=(*said, *each.notes)) if circular_conditions(each.citation.number) else each
        for each in findings
    )


def _notes(citations: list[Citation]) -> tuple[str, ...]:
    if not citations:
        return (NOTHING_CITED,)
    if len(citations) > MOST_CITATIONS:
        return (
            f"{len(citations)} sources are cited; the first {MOST_CITATIONS} were checked. Check the rest "
            f"by itself.",
        )
    return ()


def _not_read(owed: Owed) -> tuple[str, ...]:
    """What was not looked at. No progress: a kept check must not differ by it."""
    words = " ".join(part for part in (owed.count_words, owed.failed_words) if part)
    return (f"Not searched: {words}",) if words else ()


def _kept_fields(record: KeptCheck) -> dict[str, Any]:
    return {**record.answer, "id": record.id}


def _short(record: KeptCheck) -> dict[str, Any]:
    """One line of the trail."""
    return {
        "id": record.id,
        "at": record.at.isoformat(timespec="milliseconds"),
        "text": record.text,
        "aircraft": record.aircraft,
        "work": record.work,
        "generation": record.generation,
        "citations": [
            {
                "text": each["text"],
                "standing": each["standing"]["value"],
                "current": each["current"]["state"],
                "enough": {work: answer["answer"] for work, answer in each["enough"].items()},
            }
            for each in record.answer["citations"]
        ],
    }
