"""Circulars that may be used as approved data, and only under the conditions they print themselves.

AC 43.13-1B: 8 September 1998, Change 1, paragraph 1 (read in a published copy). AC 43.13-2B: 3 March 2008;
its conditions are from memory. The sentences are ours; `quote` is the circular's own.
"""

import re
from dataclasses import dataclass

from indexer.trade.dashes import plain_dashes


@dataclass(frozen=True, slots=True)
class CircularConditions:
    """What must be true before data of a circular may be used as approved data.

    number      "43.13-1B"
    work        "repair" or "alteration": the only work it speaks of
    limits      where it reaches at all
    findings    the three that the user makes, and nobody can make for him
    to_record   what Form 337 must name
    quote       its own words for the three findings, "" when they were not read
    source      where this stands; says when it is from memory
    """

    number: str
    work: str
    limits: tuple[str, ...]
    findings: tuple[str, str, str]
    to_record: str
    quote: str
    source: str

    @property
    def conditions(self) -> tuple[str, ...]:
        """The conditions as sentences for a person, in the order to check them."""
        serve = (
            f"May serve as approved data for {self.work}s only where the user finds that it "
            f"{_listed(self.findings)}."
        )
        return (*self.limits, serve, self.to_record)

    @property
    def minor(self) -> str:
        """What it is for work that is not major."""
        return (
            "For minor work it gives methods acceptable to the FAA, where the maker's manual gives none "
            "and inside the same limits."
        )


_CIRCULARS = (
    CircularConditions(
        "43.13-1B",
        "repair",
        (
            "Non-pressurized areas only.",
            "Only where the manufacturer gives no repair or maintenance instructions.",
            "It speaks mostly of minor repairs.",
        ),
        (
            "(a) is appropriate to the product",
            "(b) is directly applicable to the repair",
            "(c) is not contrary to the manufacturer's data",
        ),
        "Name its chapter, page and paragraph in block 8 of Form 337.",
        "appropriate to the product being repaired; b. it is directly applicable to the repair being made; "
        "and c. it is not contrary to manufacturer's data",
        "AC 43.13-1B, 8 September 1998, Change 1, paragraph 1",
    ),
    CircularConditions(
        "43.13-2B",
        "alteration",
        (
            "Non-pressurized areas of aircraft of 12,500 pounds or less only.",
            "Only the alterations that it lists.",
            "Only where the manufacturer gives no instructions.",
        ),
        (
            "(a) is appropriate to the product",
            "(b) is directly applicable to the alteration",
            "(c) is not contrary to the manufacturer's data",
        ),
        "Name its chapter, page and paragraph in block 8 of Form 337.",
        "",
        "AC 43.13-2B, 3 March 2008, first page (from memory)",
    ),
)
_NUMBER = re.compile(
    r"^\W*(?:(?:FAA\s+)?(?:AC|advisory\s+circular)\W*(?:no\W*)?)?(?P<number>43\.13(?:-[12][A-Z]?)?)"
    r"(?:[\s,]+(?:CHG|change)\.?\s*[0-9]+)?\W*$",
    re.IGNORECASE,
)


def circular_conditions(number: str) -> CircularConditions | None:
    """Of a circular named exactly ("43.13-1B", "AC 43.13-1B CHG 1"); None for any other, for an older edition
    ("43.13-1A") and for a number that leaves open which is meant ("43.13")."""
    named = _named(number)
    return next((each for each in _CIRCULARS if each.number == named), None)


def circulars_that_may_be_meant(number: str) -> tuple[CircularConditions, ...]:
    """Those that a number cut short may mean: both for "43.13", the first for "43.13-1"; () for a full
    one."""
    named = _named(number)
    if named is None or circular_conditions(number):
        return ()
    return tuple(each for each in _CIRCULARS if each.number.startswith(named))


def _named(number: str) -> str | None:
    found = _NUMBER.match(plain_dashes(number))
    return found["number"].upper() if found else None


def _listed(parts: tuple[str, ...]) -> str:
    return f"{', '.join(parts[:-1])}, and {parts[-1]}"
