"""Why a passage is among the hits, and why there: the parts of its score, and how its number is known."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from indexer.library.fulltext import ScorePart
from indexer.library.records import PassageRecord, PublicationRecord
from server.looking import look
from server.opened import LibraryState, OpenedLibrary
from server.question import must_ask, parse_filters, parse_question
from server.search import publication_fields
from server.tag_fields import evidence_fields, number_fields


@dataclass(frozen=True, slots=True)
class Why:
    """The parts of a hit's score, greatest first; () when the passage is no hit of the question.

    others    what else the question was looked for by
    any_word  any of the words was enough
    """

    question: str
    state: LibraryState
    passage: PassageRecord
    publication: PublicationRecord
    parts: tuple[ScorePart, ...]
    others: tuple[str, ...]
    any_word: bool

    @property
    def score(self) -> float:
        return sum(part.score for part in self.parts)

    def share(self, part: ScorePart) -> int:
        """Percent of the score; a part that takes away has a negative share."""
        return round(100 * part.score / self.score) if self.score else 0

    def fields(self) -> dict[str, Any]:
        numbers = self.passage.numbers
        return {
            "query": self.question,
            "library_state": self.state.fields(),
            "passage": self.passage.id,
            "publication": publication_fields(self.publication),
            "pdf_page": self.passage.pdf_page,
            "is_hit": bool(self.parts),
            "any_word": self.any_word,
            "score": round(self.score, 4),
            "parts": [
                {"name": part.name, "score": round(part.score, 4), "percent": self.share(part)}
                for part in self.parts
            ],
            "number": number_fields(numbers),
            "how_known": evidence_fields(numbers[0].evidence) if numbers else None,
        }


def why(
    library: OpenedLibrary,
    passage_id: str,
    question: str,
    chapters: Sequence[str] = (),
    types: Sequence[str] = (),
    standings: Sequence[str] = (),
    publications: Sequence[str] = (),
    as_typed: bool = False,
    misread: bool = True,
    begun: bool = False,
) -> Why:
    """Explain one hit of a search, asked as `search` was. Raises QueryProblem, PassageUnknown."""
    asked = parse_question(question)
    filters = parse_filters(chapters, types, standings, publications)
    must_ask(asked, filters)
    library.catch_up()
    with library.reading() as status:
        passage = library.catalogue.passage(passage_id)
        found = look(library, asked, filters, 0, 0, as_typed, misread=misread, begun=begun)
        parts = tuple(library.engine.explain(found.query, passage_id))
        return Why(
            asked.text,
            library.state(status),
            passage,
            library.publication(passage.publication_id),
            parts,
            tuple(dict.fromkeys(other for each in found.wording.also for other in each.others)),
            found.any_word,
        )
