"""What a printed applicability says, taken apart: clauses with models, serials, conditions. Values only."""

from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.serials import SerialList


class Article(StrEnum):
    """Whose model and serial the words speak of. Only AIRCRAFT is held against the airframe's own."""

    AIRCRAFT = "aircraft"
    ENGINE = "engine"
    PROPELLER = "propeller"
    APPLIANCE = "appliance"
    UNSTATED = "not stated"


class ConditionKind(StrEnum):
    """Why words alone cannot settle it; the value is who or what can."""

    LIST_ELSEWHERE = "the list stands in another place that must be read"
    RECORD = "it depends on what the records show as done"
    EQUIPMENT = "it depends on what is installed or how the article was built"
    LINE_NUMBERS = (
        "these are line, fuselage or customer numbers, not serials: the cross-reference page is needed"
    )
    UNCLEAR = "the words can be read in more than one way"


@dataclass(frozen=True, slots=True)
class Condition:
    """Words that must also be true, as printed. They narrow a clause and never widen it."""

    kind: ConditionKind
    words: str


@dataclass(frozen=True, slots=True)
class ModelName:
    """One listed model.

    series  True where the words say "series": then variants of it may be meant
    """

    name: str
    series: bool = False


@dataclass(frozen=True, slots=True)
class Clause:
    """One set of models with its serials; a text is the union of its clauses.

    models      () = no model is named: any that the publication covers
    excepted    models taken out again
    serials     None = none named: all of them
    labelled    False where the serials stand without the word serial (a page's EFFECTIVITY line)
    conditions  all of them must be true
    words       the clause as printed
    exceptions_sure  False where more words follow an exception, which may limit it: then it proves nothing
    """

    article: Article
    models: tuple[ModelName, ...]
    excepted: tuple[ModelName, ...]
    serials: SerialList | None
    labelled: bool
    conditions: tuple[Condition, ...]
    words: str
    exceptions_sure: bool = True


@dataclass(frozen=True, slots=True)
class ReadApplicability:
    """unread: words that no rule understood, as printed; while there are any, nothing is proved.
    closed: False where the words say that the list is not complete ("including but not limited to")."""

    clauses: tuple[Clause, ...]
    unread: tuple[str, ...]
    closed: bool
