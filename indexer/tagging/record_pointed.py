"""Sources that a record points at without a word of their kind: "IAW 32-41-00 PG 401", "per mfr's instructions"."""

import re
from collections.abc import Iterator

from indexer.tagging.record_places import Reading, read_places
from indexer.tagging.record_words import MAKERS_WORDS, POINTS, SPECIFICATION
from indexer.tagging.reference_words import spaced
from indexer.trade.publication_types import PublicationType as Type

_SECTION = spaced(
    r"(?P<number>(?:21|23|25|27|29|33|35|39|43|45|61|65|91|121|125|135|137|145)\.[0-9]{1,4}(?:\([a-z0-9]{1,4}\)){0,5})"
    r"(?![\w])(?!\.[0-9])(?! ?(?:hrs?|hours?|lbs?|in|ft|%|psi|volts?))"
)
_SECTION_NEXT = re.compile(r"[ ]{0,2}(?:,|&|and|/)[ ]{0,3}")
_CERTIFICATE = spaced(r"(?P<number>S[AEHPR][0-9]{2,5}[A-Z]{2}(?:-[A-Z])?)(?![\w-])")
_BARE_CIRCULAR = re.compile(r"(?<![\w.-])(?P<number>43[.-]13-[12][A-Z])(?![\w-])", re.IGNORECASE)
# Rules as mechanics type them; capitals and full forms are read by rule_references.py.
_RULE = spaced(
    r"(?<![\w-])(?:(?:CFR ?14|fars?|f\.a\.r\.) |14 ?CFR ?)(?:(?:part|sect?(?:ion)?)\b\.? ?)?(?P<number>[0-9]{1,3}(?:\.[0-9]{1,4})?"
    r"(?:\([a-z0-9]{1,4}\)){0,5})(?![\w])(?!\.[0-9])(?:,? app(?:endix|x)?\b\.? (?P<letter>[A-G])(?![\w]))?"
)
_OWN_NUMBER = spaced(r"(?P<number>[A-Z]{1,5}[0-9]{0,4}(?:-[0-9A-Z]{1,6}){1,4})(?![\w-])")
_CHAPTER = re.compile(r"[0-9]{2}-[0-9]{2}-[0-9]{2}(?![0-9])")


def pointed_sources(flat: str) -> Iterator[Reading]:
    """Readings in no order; some may overlap what is named by its kind."""
    for pointer in POINTS.finditer(flat):
        place = pointer.end()
        for reader in (_makers_words, _specification, _section, _certificate, _chapter, _own_number):
            if found := list(reader(flat, place)):
                yield from found
                break
    for match in _RULE.finditer(flat):
        number = match["number"] if "." in match["number"] else f"part {match['number']}"
        number += f" appendix {match['letter'].upper()}" if match["letter"] else ""
        yield Reading(match.start(), match.end(), Type.REGULATION, number, rule=True)
    for match in _BARE_CIRCULAR.finditer(flat):
        reading = Reading(match.start(), match.end(), Type.ADVISORY_CIRCULAR, match["number"])
        read_places(flat, reading, len(flat))
        yield reading


def _makers_words(flat: str, place: int) -> Iterator[Reading]:
    if match := MAKERS_WORDS.match(flat, place):
        current = re.search("current|latest", match[0], re.IGNORECASE) is not None
        reading = Reading(place, match.end(), None, named=" ".join(match[0].split()), current=current)
        read_places(flat, reading, len(flat))
        yield reading


def _specification(flat: str, place: int) -> Iterator[Reading]:
    if match := SPECIFICATION.match(flat, place):
        reading = Reading(place, match.end(), Type.PROCESS_SPECIFICATION, " ".join(match["number"].split()))
        read_places(flat, reading, len(flat))
        yield reading


def _section(flat: str, place: int) -> Iterator[Reading]:
    while match := _SECTION.match(flat, place):
        yield Reading(match.start(), match.end(), Type.REGULATION, match["number"], rule=True)
        joint = _SECTION_NEXT.match(flat, match.end())
        place = joint.end() if joint else len(flat)


def _certificate(flat: str, place: int) -> Iterator[Reading]:
    if match := _CERTIFICATE.match(flat, place):
        yield Reading(place, match.end(), Type.SUPPLEMENTAL_TYPE_CERTIFICATE, match["number"])


def _chapter(flat: str, place: int) -> Iterator[Reading]:
    if _CHAPTER.match(flat, place):
        reading = Reading(place, place)
        read_places(flat, reading, len(flat))
        if reading.chapter:
            yield reading


def _own_number(flat: str, place: int) -> Iterator[Reading]:
    """A publication called by its number alone, where a place in it or a revision follows."""
    match = _OWN_NUMBER.match(flat, place)
    if match and re.search("[0-9]", match["number"]):
        reading = Reading(place, match.end(), None, match["number"])
        read_places(flat, reading, len(flat))
        if reading.places:
            yield reading
