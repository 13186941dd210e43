"""Whether a directive binds on a given day: the catalogue has no clock, so a day is always asked for. Pure.

A directive that replaces another does so from its own effective date; until then the older one binds (14 CFR
39.11 and 39.13: each directive is an amendment with its effective date; common teaching of the trade).
"""

import datetime
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from indexer.tagging.tags import DirectiveFacts
from indexer.trade.dates import date_words
from indexer.trade.evidence import Evidence, Origin


class Force(StrEnum):
    IN_FORCE = "in force"
    NOT_YET = "not yet effective"
    SUPERSEDED = "superseded"
    WITHDRAWN = "withdrawn"
    PROPOSAL = "proposal"
    NO_RULE = "not a rule in force as printed"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class ReplacedBy:
    """What takes a directive out of force.

    name        for sentences: "AD 2031-04-07"
    id          the publication that says so; the directive's own id where it says so itself
    withdrawal  it puts nothing in its place
    effective   the day from which; None = not printed, or not to be read for sure
    """

    name: str
    id: str
    withdrawal: bool
    effective: datetime.date | None
    evidence: Evidence | None = None


@dataclass(frozen=True, slots=True)
class ForceOnDay:
    """The answer for one day, in words for a person.

    by     the name of what replaced or withdrew it, or will; "" = nothing held here does
    since  the day its state began; None = no day is known. NOT_YET: the day on which it takes effect
    """

    state: Force
    why: str
    by: str = ""
    since: datetime.date | None = None

    @property
    def binds(self) -> bool:
        return self.state is Force.IN_FORCE


def in_force(
    facts: DirectiveFacts, replaced_by: Iterable[ReplacedBy], on: datetime.date, put_off_by: str = ""
) -> ForceOnDay:
    """Whether a directive that says this of itself binds on a day.

    put_off_by  the name of a paper that delays or stays it; "" = none is held

    "In force" is said of what is held here: another directive, not held, may have replaced it.
    """
    if facts.proposal:
        return ForceOnDay(Force.PROPOSAL, "A proposed directive is information and binds nobody.")
    if not facts.is_rule:
        return ForceOnDay(
            Force.NO_RULE,
            "It is not shown to be a final rule of the FAA in force: a correction, a withdrawal, a rule put "
            "off, or another authority's directive.",
        )
    own = _own_state(facts, on)
    if own.state is not Force.IN_FORCE:
        return own
    if put_off_by:
        why = f"{put_off_by} puts it off or stays it: cannot tell from which day it binds."
        return ForceOnDay(Force.CANNOT_TELL, why, put_off_by)
    return _after_others(sorted(replaced_by, key=_when), on) or own


def _own_state(facts: DirectiveFacts, on: datetime.date) -> ForceOnDay:
    effective = facts.effective
    if effective and effective.evidence.origin is not Origin.DIGITAL:
        return ForceOnDay(Force.CANNOT_TELL, "Its effective date was read by OCR: compare it with the page.")
    if effective:
        day = effective.value
        if on < day:
            return ForceOnDay(Force.NOT_YET, f"Effective {date_words(day)}.", since=day)
        return ForceOnDay(Force.IN_FORCE, f"Effective since {date_words(day)}.", since=day)
    if facts.on_receipt and facts.issued:
        day = facts.issued.value
        if on < day:
            return ForceOnDay(Force.NOT_YET, f"Issued {date_words(day)}, effective upon receipt.", since=day)
        return ForceOnDay(Force.IN_FORCE, f"Effective upon receipt; issued {date_words(day)}.", since=day)
    year = _year(facts)
    if year and on.year > year + 1 and not facts.on_receipt:
        return ForceOnDay(Force.IN_FORCE, f"It prints no effective date; its number is of {year}.")
    return ForceOnDay(Force.CANNOT_TELL, "It prints no effective date.")


def _year(facts: DirectiveFacts) -> int | None:
    """Of its number. Numbers had two digits of the year before 2000."""
    if not facts.number or facts.number.evidence.origin is not Origin.DIGITAL:
        return None
    digits = facts.number.value.partition("-")[0]
    return int(digits) if len(digits) == 4 else 1900 + int(digits) if len(digits) == 2 else None


def _when(each: ReplacedBy) -> tuple[bool, datetime.date, str]:
    return each.effective is None, each.effective or datetime.date.max, each.id


def _after_others(replaced_by: list[ReplacedBy], on: datetime.date) -> ForceOnDay | None:
    """What those that replace it make of it; None = nothing. The earliest day counts."""
    dated = [each for each in replaced_by if each.effective is not None]
    undated = [each for each in replaced_by if each.effective is None]
    if dated and dated[0].effective <= on:
        first = dated[0]
        done, state = _done(first)
        why = f"{done} by {first.name} from {date_words(first.effective)}."
        return ForceOnDay(state, why, first.name, first.effective)
    if undated:
        why = f"{_done(undated[0])[0]} by {undated[0].name}, and from which day cannot be told."
        return ForceOnDay(Force.CANNOT_TELL, why, undated[0].name)
    if dated:
        why = f"In force until {dated[0].name} takes its place on {date_words(dated[0].effective)}."
        if dated[0].withdrawal:
            why = f"In force until {dated[0].name} withdraws it on {date_words(dated[0].effective)}."
        return ForceOnDay(Force.IN_FORCE, why, dated[0].name)
    return None


def _done(each: ReplacedBy) -> tuple[str, Force]:
    return ("Withdrawn", Force.WITHDRAWN) if each.withdrawal else ("Superseded", Force.SUPERSEDED)
