"""A clause of an applicability while it is read."""

from dataclasses import dataclass, field

from indexer.tagging.applicability_clauses import Article, Condition, ModelName
from indexer.trade.serials import SerialList


@dataclass(slots=True)
class Draft:
    """A clause while it is read; the fields are those of Clause.

    general          "all airplanes", "ALL": no model is meant to be named
    noun             the kind of article was named
    start            where it begins in its segment
    """

    article: Article = Article.UNSTATED
    models: list[ModelName] = field(default_factory=list)
    excepted: list[ModelName] = field(default_factory=list)
    serials: SerialList | None = None
    labelled: bool = False
    conditions: list[Condition] = field(default_factory=list)
    general: bool = False
    noun: bool = False
    exceptions_sure: bool = True
    start: int = 0

    @property
    def is_bare_noun(self) -> bool:
        """ "The airplanes", with nothing that says which."""
        return self.noun and not (
            self.models or self.excepted or self.serials or self.general or self.conditions
        )

    @property
    def says_something(self) -> bool:
        return bool(
            self.models or self.excepted or self.serials or self.general or self.noun or self.conditions
        )
