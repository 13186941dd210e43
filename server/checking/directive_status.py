"""How a directive held here stands on the day of the work, and what a sentence calls it."""

import datetime
import re
from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.directives_held import force_of
from indexer.library.records import PublicationRecord
from indexer.library.relation_rules.cited_dates import cited_days
from indexer.library.relation_rules.directive_force import Force
from indexer.library.works import DIRECTIVES, number_key
from indexer.tagging.tags import Citation
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from server.words import date_words, numbered, publication_name

IN_FORCE = "in force"
_AMENDMENT = re.compile(r"\b(?:amendment|amdt\.?)\s+(39-[0-9]{3,6})", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Status:
    """How a directive stands. `holds`: YES = a rule in force on the day; CANNOT_TELL = it cannot be told."""

    words: str
    holds: Answer
    effective: datetime.date | None = None


def status_of(catalogue: Catalogue, record: PublicationRecord, on: datetime.date) -> Status:
    """Whether a directive is a rule in force on a day: that of the work, else the library's today."""
    if record.type is Type.AMOC_LETTER:
        return Status("alternative method of compliance, for the aircraft and holder it names", Answer.NO)
    force = force_of(catalogue, record.id, on)
    if force is None:
        return Status("not shown to be a rule", Answer.NO)
    facts = record.directive
    effective = facts.effective.value if facts and facts.effective else None
    since = f", effective {date_words(effective)}" if effective else ""
    match force.state:
        case Force.IN_FORCE:
            return Status(f"{IN_FORCE}{since}", Answer.YES, effective)
        case Force.SUPERSEDED | Force.WITHDRAWN:
            return Status(f"{force.state.value} by {force.by}", Answer.NO, effective)
        case Force.NOT_YET:
            words = force.state.value
            if force.since:
                words = f"effective from {date_words(force.since)}: not in force on {date_words(on)}"
            return Status(words, Answer.NO, effective)
        case Force.PROPOSAL:
            return Status("proposed: not a rule", Answer.NO)
        case Force.NO_RULE:
            return Status(force.state.value, Answer.NO)
    return Status(f"cannot tell whether it is in force: {force.why}", Answer.CANNOT_TELL, effective)


def misprinted(text: str, citation: Citation, record: PublicationRecord | None) -> str:
    """What an entry says of a directive and the one held does not print: amendment or date; "" = it agrees.

    A date may be that of issue or of effect; a date that can be read two ways agrees with either.
    """
    if record is None or record.type is not Type.AIRWORTHINESS_DIRECTIVE or record.directive is None:
        return ""
    facts, said = record.directive, text[citation.start : citation.end + 40]
    amendment = _AMENDMENT.search(said)
    if amendment and facts.amendment and amendment[1] not in facts.amendment.value:
        return (
            f"The entry says amendment {amendment[1]}, and {name_of(record)} prints {facts.amendment.value}."
        )
    days = cited_days(citation)
    printed = {record.date, facts.effective.value if facts.effective else None} - {None}
    if days and printed and not printed & set(days):
        held = " and ".join(date_words(each) for each in sorted(printed))
        return f"The entry says {citation.date_words}, and {name_of(record)} prints {held}."
    return ""


def name_of(record: PublicationRecord) -> str:
    """ "AD 2031-07-11"; a letter by its title."""
    if record.type in DIRECTIVES and record.directive and record.directive.number:
        return numbered(Type.AIRWORTHINESS_DIRECTIVE, number_key(record.directive.number.value, record.type))
    return numbered(record.type, record.number) or publication_name(record)
