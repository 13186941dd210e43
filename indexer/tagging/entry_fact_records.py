"""What a record entry says besides its sources. Values only."""

import datetime
from dataclasses import dataclass
from enum import StrEnum


class FactKind(StrEnum):
    """What the words of an entry speak of."""

    REGISTRATION = "registration"
    SERIAL = "serial number"
    MODEL = "model"
    DATE_OF_WORK = "date of work"
    WORK = "class of work"  # as the entry calls it; nothing here decides major or minor
    DIRECTIVE_WORDS = "directive"  # "C/W AD", "PCW", "N/A by serial"
    REPAIRED_BEFORE = "repaired before"
    PRESSURIZED = "pressurized area"
    OTHER_AIRCRAFT = "another aircraft"
    RECOMMENDS_APPROVAL = "recommends approval"
    PART_APPROVAL = "part approval"
    NO_MAKERS_DATA = "maker silent"
    CONTRARY = "contrary to the maker's data"
    LIMITS = "limits"  # "within limits"; value "outside" where the entry says so
    LIFE_LIMIT = "life limit"
    TORQUE = "torque"
    PART_DONE = "part done"
    BATCH = "batch"


class Article(StrEnum):
    """What a serial number or a model is of."""

    AIRCRAFT = "aircraft"
    ENGINE = "engine"
    PROPELLER = "propeller"
    PART = "part"  # an appliance, a component or a part
    UNSAID = "not said"


@dataclass(frozen=True, slots=True)
class EntryFact:
    """One thing said. text == the entry's [start:end], as written.

    value     one way of writing it ("N62QZ", "QB-814", "annual inspection", "50-60 in-lb", "2031-03-14")
    of        SERIAL and MODEL only: what article's
    denied    the entry says that it is not so: "no previous repair", "not a major repair"
    readings  DATE_OF_WORK only: every day the words may mean; value is "" where there is more than one
    """

    kind: FactKind
    value: str
    text: str
    start: int
    end: int
    of: Article = Article.UNSAID
    denied: bool = False
    readings: tuple[datetime.date, ...] = ()


@dataclass(frozen=True, slots=True)
class EntryFacts:
    """All facts of an entry, in order of place."""

    facts: tuple[EntryFact, ...] = ()

    def of_kind(self, kind: FactKind) -> tuple[EntryFact, ...]:
        """The facts of one kind, denied ones too."""
        return tuple(fact for fact in self.facts if fact.kind is kind)

    def says(self, kind: FactKind) -> EntryFact | None:
        """The first fact of the kind that is not denied."""
        return next((fact for fact in self.of_kind(kind) if not fact.denied), None)

    @property
    def done_on(self) -> datetime.date | None:
        """The day of the work; None when it is not said, can be read two ways, or several are said."""
        readings = {day for fact in self.of_kind(FactKind.DATE_OF_WORK) for day in fact.readings}
        return readings.pop() if len(readings) == 1 else None

    def serials_of(self, article: Article) -> tuple[str, ...]:
        """Serial numbers of one sort of article."""
        return tuple(fact.value for fact in self.of_kind(FactKind.SERIAL) if fact.of is article)
