"""What an entry itself says that matters to its sources: aircraft, day, and what was done. Pure."""

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from indexer.library.fleet_records import Aircraft
from indexer.tagging.entry_fact_records import Article, EntryFacts, FactKind
from indexer.tagging.entry_facts import read_entry as facts_of
from indexer.tagging.tags import Citation
from server.words import date_words

_LIKE_FIGURES = str.maketrans("IO", "10")
_LIKE_A_MARK = re.compile(r"(?<![\w-])[A-Z0-9]{1,2}-?[A-Z0-9]{2,6}(?![\w-])")


@dataclass(frozen=True, slots=True)
class Entry:
    """What the entry says.

    aircraft  of the fleet list, or made of the model and serial that the entry gives; None = none, or several
    called    how a sentence calls it
    unknown   a registration that is not in the fleet list; "" = none
    several   in words, where the entry names more than one aircraft of the fleet list; "" = it does not
    alike     in words, where a mark is one of the fleet list but for a letter that looks like a figure
    done_on   the day of the work, None = not said, or not to be read for sure
    facts     what mattered, in words for a person
    said      all that was read
    """

    aircraft: Aircraft | None = None
    called: str = ""
    unknown: str = ""
    several: str = ""
    alike: str = ""
    done_on: datetime.date | None = None
    facts: tuple[str, ...] = ()
    said: EntryFacts = field(default_factory=EntryFacts)


def read_entry(
    text: str, citations: Sequence[Citation], fleet: Sequence[Aircraft], today: datetime.date
) -> Entry:
    """Aircraft, day and words of an entry, looked for outside its references."""
    said = facts_of(text, citations)
    found, unknown = _registrations(text, citations, said, fleet)
    facts: list[str] = []
    aircraft, called, several, alike = None, "", "", ""
    if len(found) == 1:
        aircraft, called = found[0], f"{found[0].registration}, which the entry names"
        facts.append(f"The entry names {found[0].registration}, which is in the fleet list.")
    elif found:
        named = ", ".join(each.registration for each in found)
        several = f"The entry names several aircraft of the fleet list ({named}): choose one."
        facts.append(several)
    elif alike := _nearly(text, citations, fleet):
        facts.append(alike)
    else:
        aircraft = _stated(said, today)
        if aircraft is not None:
            called = f"model {aircraft.model}, serial {aircraft.serial}, as the entry says"
            facts.append(f"The entry gives model {aircraft.model} and serial {aircraft.serial}.")
    facts += [f"The entry names {unknown}, which is not in the fleet list."] if unknown else []
    facts += _day_words(said)
    work = dict.fromkeys(fact.value for fact in said.of_kind(FactKind.WORK) if not fact.denied)
    facts += (
        [f"The entry speaks of: {', '.join(work)}. That does not decide the class of work."] if work else []
    )
    return Entry(aircraft, called, unknown, several, alike, said.done_on, tuple(facts), said)


def _day_words(said: EntryFacts) -> list[str]:
    if said.done_on is not None:
        return [f"Work of {date_words(said.done_on)}, as the entry says."]
    unsure = [fact.text for fact in said.of_kind(FactKind.DATE_OF_WORK)]
    if not unsure:
        return []
    return [f"The day of the work cannot be read for sure: «{', '.join(unsure)}»."]


def _stated(said: EntryFacts, today: datetime.date) -> Aircraft | None:
    """An aircraft made of the one model and the one serial that the entry gives; no article's serial."""
    models = {
        fact.value
        for fact in said.of_kind(FactKind.MODEL)
        if fact.of in (Article.AIRCRAFT, Article.UNSAID) and not fact.denied
    }
    serials = {*said.serials_of(Article.AIRCRAFT), *said.serials_of(Article.UNSAID)}
    if len(models) != 1 or len(serials) != 1:
        return None
    return Aircraft(0, "", "", models.pop(), serials.pop(), (), "", today, "the entry")


def _registrations(
    text: str, citations: Sequence[Citation], said: EntryFacts, fleet: Sequence[Aircraft]
) -> tuple[list[Aircraft], str]:
    """Aircraft of the fleet that the entry speaks of, and the first mark that is none of theirs.

    An aircraft named as another one ("field approval of N777XJ") is not the one worked on.
    """
    others = {_mark(fact.value) for fact in said.of_kind(FactKind.OTHER_AIRCRAFT)}
    by_mark = {_mark(each.registration): each for each in fleet}
    found = {
        held.registration: held
        for match in _LIKE_A_MARK.finditer(text.upper())
        if (held := by_mark.get(_mark(match[0]))) is not None
        and _mark(match[0]) not in others
        and not any(each.start <= match.start() < each.end for each in citations)
    }
    named = [fact.value for fact in said.of_kind(FactKind.REGISTRATION) if not fact.denied]
    unknown = [each for each in named if _mark(each) not in by_mark and _mark(each) not in others]
    return list(found.values()), unknown[0] if unknown else ""


def without_marks(citations: Sequence[Citation], fleet: Sequence[Aircraft]) -> list[Citation]:
    """The citations without those that are registrations of the fleet: after "SB 24 Rev C, QX-1AB" the mark
    of the aircraft looks like one more bulletin."""
    marks = {_mark(each.registration) for each in fleet}
    return [each for each in citations if _mark(each.text) not in marks]


def _nearly(text: str, citations: Sequence[Citation], fleet: Sequence[Aircraft]) -> str:
    """A mark with the letter I or O where one of ours has a figure: US marks have neither (14 CFR 47.15)."""
    ours = {_mark(each.registration): each.registration for each in fleet}
    for match in _LIKE_A_MARK.finditer(text.upper()):
        meant = ours.get(_mark(match[0]).translate(_LIKE_FIGURES))
        outside = not any(each.start <= match.start() < each.end for each in citations)
        if meant and outside:
            return f"{match[0]} is not in the fleet list, {meant} is: which is meant?"
    return ""


def _mark(registration: str) -> str:
    return re.sub(r"[\s-]", "", registration).upper()
