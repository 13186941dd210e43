"""What a record entry says besides its sources: which aircraft and articles, which day, which class of work.

Words that matter to the rules are quoted too. Whether work is major or minor is never decided here.
"""

import re
from collections.abc import Iterator, Sequence

from indexer.tagging.entry_articles import models, registrations, serials
from indexer.tagging.entry_fact_records import EntryFact, EntryFacts, FactKind
from indexer.tagging.entry_phrases import DENIED, PHRASES
from indexer.tagging.record_dates import DATE, date_readings
from indexer.tagging.reference_words import spaced
from indexer.tagging.references import find_citations
from indexer.tagging.tags import Citation
from indexer.trade.dashes import plain_dashes

_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{1,2})?"
_UNIT = (
    r"(?P<unit>in(?:ch)?\.?[ -]?(?:lb|pound|#)s?\b\.?|ft\.?[ -]?(?:lb|pound|#)s?\b\.?"
    r"|foot[ -]pounds?|inch[ -]pounds?"
    r"|lbs?\.?[ -]?(?:in|ft)\b\.?|N[ .-]?m\b|newton[ -]?met(?:er|re)s?)"
)
_TORQUE = spaced(
    rf"(?<![\w.-])(?P<low>{_NUMBER})(?: ?(?:-|to|thru|/) ?(?P<high>{_NUMBER}))?[ -]{{0,2}}{_UNIT}"
)
_UNITS = (("in-lb", "in"), ("ft-lb", "ft"), ("ft-lb", "foot"), ("in-lb", "lb"), ("N m", "n"))
_PART_DONE = spaced(
    r"(?<![\w-])(?P<value>part (?:1?[0-9]|[IVX]{1,4}|[A-D])(?![\w.-])|(?:sub)?para"
    r"(?:graph)?s?\.? ?\([a-z]{1,3}\)(?:\([0-9a-z]{1,4}\)){0,4}"
    r"|step [0-9]{1,3}[A-Z]?(?![\w.-])|task [0-9A-Z](?![\w-]))"
)
_DAY = re.compile(
    r"\b(?:date(?:[ ]of[ ](?:work|completion|insp\w*))?|dated?[ ]this|on|work[ ]done|completed?"
    r"|performed|accomplished|done|c/w|complied[ ]with|signed|this[ ]date|insp(?:ected"
    r"|ection)?\.?)[ :,]{1,3}$",
    re.IGNORECASE,
)
_OPENING = re.compile(
    r"[\s\"',;:|-]*(?:(?:W/?O|work[ ]order|job)[ #.:]*[0-9][\w-]*[\s,;:-]*)?(?:date[ ]?:?[ ]*)?",
    re.IGNORECASE,
)
_SENTENCE_END = re.compile(r"[a-z)0-9][.;][ ]+$", re.IGNORECASE)
_NO_DAY = re.compile(
    r"\b(?:due|exp(?:ires?|iration)?|until|next|by|before|dtd|dated|rev|issued|overhaul"
    r"(?:ed)?|mfg|manufactured|since|from|cured?|release|fab|issue|cal|birth|shipped"
    r"|last)[ .:]*(?:on|date)?[ :]*$",
    re.IGNORECASE,
)


def read_entry(text: str, citations: Sequence[Citation] | None = None) -> EntryFacts:
    """What the entry says, each with its words and place, in order.

    citations  of the text where they are known already (find_citations); dates inside them are the sources'
    """
    cited = find_citations(text) if citations is None else citations
    flat = plain_dashes(text).replace("\n", " ")
    named = [*registrations(flat), *serials(flat), *models(flat)]
    found = [
        *named,
        *_days(flat, cited, named),
        *_phrases(flat),
        *_torques(flat),
        *_parts_done(flat),
    ]
    outside = [fact for fact in found if not _of_source(fact, cited)]
    return EntryFacts(tuple(_as_written(text, fact) for fact in sorted(outside, key=lambda fact: fact.start)))


def _as_written(text: str, fact: EntryFact) -> EntryFact:
    words = text[fact.start : fact.end]
    if words == fact.text:
        return fact
    return EntryFact(fact.kind, fact.value, words, fact.start, fact.end, fact.of, fact.denied, fact.readings)


def _of_source(fact: EntryFact, cited: Sequence[Citation]) -> bool:
    """Whether the words name a source and no aircraft or article: "QZ62 MM" does not name the aircraft."""
    if fact.kind not in (FactKind.REGISTRATION, FactKind.SERIAL, FactKind.MODEL):
        return False
    return any(each.start <= fact.start < each.end for each in cited)


def _phrases(flat: str) -> Iterator[EntryFact]:
    taken: list[tuple[FactKind, int, int]] = []
    for phrase in PHRASES:
        for match in phrase.words.finditer(flat):
            if any(
                kind is phrase.kind and match.start() < end and start < match.end()
                for kind, start, end in taken
            ):
                continue
            taken.append((phrase.kind, *match.span()))
            value = phrase.value or match["value"]
            denied = DENIED.search(flat, max(0, match.start() - 40), match.start()) is not None
            yield EntryFact(phrase.kind, value, match[0], *match.span(), denied=denied)


def _torques(flat: str) -> Iterator[EntryFact]:
    for match in _TORQUE.finditer(flat):
        unit = next(name for name, first in _UNITS if match["unit"].lower().startswith(first))
        if match["unit"].lower().startswith("lb"):
            unit = "ft-lb" if "ft" in match["unit"].lower() else "in-lb"
        value = f"{match['low']}-{match['high']}" if match["high"] else match["low"]
        yield EntryFact(FactKind.TORQUE, f"{value} {unit}", match[0], *match.span())


def _parts_done(flat: str) -> Iterator[EntryFact]:
    for match in _PART_DONE.finditer(flat):
        yield EntryFact(FactKind.PART_DONE, " ".join(match["value"].split()), match[0], *match.span())


def _days(flat: str, cited: Sequence[Citation], named: Sequence[EntryFact]) -> Iterator[EntryFact]:
    """Dates that open the entry or a sentence of it, or stand after words that say when the work was done."""
    spans = [(each.start, each.end) for each in named]
    place = opening = 0
    while match := DATE.search(flat, place):
        place = match.end()
        opening = _opening_end(flat, opening, spans)
        before = flat[max(0, match.start() - 40) : match.start()]
        opens = opening >= match.start() or _SENTENCE_END.search(before) is not None
        said = opens or _DAY.search(before) and not _NO_DAY.search(before)
        glued = match.start() and (flat[match.start() - 1].isalnum() or flat[match.start() - 1] in "-/.")
        inside = any(each.start <= match.start() < each.end for each in cited)
        readings = date_readings(match[0])
        if said and not glued and not inside and readings:
            value = readings[0].isoformat() if len(readings) == 1 else ""
            yield EntryFact(FactKind.DATE_OF_WORK, value, match[0], *match.span(), readings=readings)


def _opening_end(flat: str, place: int, named: Sequence[tuple[int, int]]) -> int:
    """Where the words end with which entries begin: marks, serials, models, a work order, a date's word."""
    while True:
        place = _OPENING.match(flat, place).end()
        after = next((end for start, end in named if start == place), None)
        if after is None:
            return place
        place = after
