"""What any search engine must do for us: replace, remove, search, rebuild. Values and one protocol.

The catalogue is the truth; an engine holds one generation of it and can be thrown away.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from indexer.errors import LibraryProblem

NOT_NUMBERED = ""  # the chapter under which passages without a number are grouped and counted


class NoIndex(LibraryProblem):
    """There is no index, or one that may not be trusted: damaged, or of another version."""

    slug = "no-index"

    def __init__(self, folder: str):
        super().__init__(
            f"{folder}: there is no search index here that can be used.",
            "Build it from the catalogue with: hangarleaf ingest --rebuild-index",
        )


@dataclass(frozen=True, slots=True)
class IndexedPassage:
    """One passage as an engine takes it. Ids are text and stay the same over rebuilds."""

    passage_id: str
    publication_id: str
    heading: str  # heading path and title, weighted above the text
    text: str
    chapters: tuple[str, ...]  # ("32",): first = the one it is grouped under; () = not numbered
    sections: tuple[str, ...]  # ("32-41",)
    type: str  # PublicationType value, "" = cannot tell
    standing: str  # StandingValue value


@dataclass(frozen=True, slots=True)
class Filters:
    """Each empty tuple filters nothing; several values of one filter are alternatives.

    without_publications, without_passages   ids of what is left out, whatever the other filters let through
    """

    chapters: tuple[str, ...] = ()  # "32"; NOT_NUMBERED asks for passages without a number
    sections: tuple[str, ...] = ()  # "32-41"
    types: tuple[str, ...] = ()
    standings: tuple[str, ...] = ()
    publications: tuple[str, ...] = ()
    without_publications: tuple[str, ...] = ()
    without_passages: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Also:
    """Other words for some of the words asked for; a passage that holds one of them will do, for less score.

    words   the words of the query that they stand for, one or several that belong together ("tail", "wheel")
    others  each a word or a phrase whose words stand in a row ("tail landing gear")
    weight  of the score of `others`, 0.0 to 1.0; where a word and its others stand, the better counts

    Several of them may name the same word. One that names a word not asked for is left out.
    """

    words: tuple[str, ...]
    others: tuple[str, ...]
    weight: float


@dataclass(frozen=True, slots=True)
class FullTextQuery:
    """What to look for, already taken apart; every string still goes through the engine's analyzer.

    words     all must occur (or any, when any_word)
    phrases   each must occur, its words in order
    excluded  words or phrases that must not occur
    also      other words that will do for some of the words
    No words and no phrases with filters set means "everything the filters let through".
    """

    words: tuple[str, ...] = ()
    phrases: tuple[str, ...] = ()
    excluded: tuple[str, ...] = ()
    any_word: bool = False
    filters: Filters = field(default_factory=Filters)
    also: tuple[Also, ...] = ()


@dataclass(frozen=True, slots=True)
class ScorePart:
    """One named part of a hit's score."""

    name: str  # in words for a person: "brake, in a heading", "cylinder assembly, looked for with jug"
    score: float


@dataclass(frozen=True, slots=True)
class ScoredPassage:
    passage_id: str
    score: float


@dataclass(frozen=True, slots=True)
class ChapterHits:
    """The hits of one chapter: how many there are, and the best few, best first.

    A passage may carry several chapters. It is counted under each of them and grouped under its first
    alone, so counts may add up to more than the total, and a chapter that hits only carry beside another
    has a count and no best.
    """

    chapter: str  # NOT_NUMBERED for the remainder
    count: int  # over all hits
    best: tuple[ScoredPassage, ...]


@dataclass(frozen=True, slots=True)
class FullTextResult:
    """Counts are over all hits, not over the best few. Equal scores stand in order of passage id.

    chapters   every chapter that a hit carries, in order of their best score; those without a best come last
    """

    generation: int  # of the catalogue that this answer speaks of
    total: int
    chapters: tuple[ChapterHits, ...]
    top: tuple[ScoredPassage, ...]  # best over all chapters
    counts_by_type: Mapping[str, int]
    counts_by_standing: Mapping[str, int]


class FullText(Protocol):
    """One library's index. Readers pin one generation for the length of one answer."""

    def generation(self) -> int | None:
        """The catalogue generation the index holds; None when there is no usable index."""

    def apply(self, generation: int, removed: Iterable[str], added: Iterable[IndexedPassage]) -> None:
        """Remove publications by id, then add passages, as one commit that then holds `generation`.

        An error leaves the index as it was. Raises NoIndex when there is none to change (rebuild it),
        LibraryBusy.
        """

    def rebuild(self, generation: int, passages: Iterable[IndexedPassage]) -> None:
        """Throw the index away and build it anew. The old one serves until the new one is complete.

        Raises LibraryBusy.
        """

    def search(self, query: FullTextQuery, limit: int, per_chapter: int) -> FullTextResult:
        """Answer from the newest complete generation: the best `limit`, and `per_chapter` of each chapter.

        Raises NothingToSearchFor when no word is left, NoIndex.
        """

    def marks(self, query: FullTextQuery, text: str) -> Sequence[tuple[int, int]]:
        """Where in `text` the query's words stand: character ranges, in order, for marking."""

    def explain(self, query: FullTextQuery, passage_id: str) -> Sequence[ScorePart]:
        """What the passage's score is made of, greatest part first; the parts add up to the score.

        () when the passage is no hit. A part may take away (a page of contents). Raises as search does.
        """

    def knows(self, word: str) -> bool:
        """Whether the word, or each word of it, stands anywhere in this library. Raises NoIndex."""

    def suggest(self, word: str, limit: int = 5) -> Sequence[str]:
        """Words of this library that the word may be a slip for, best first; () for one that occurs.

        In lower case and without a plural "s". Only words of letters: a wrong digit is another number.
        Raises NoIndex.
        """

    def beginning_with(self, typed: str, limit: int = 8) -> Sequence[str]:
        """Words and numbers of this library that begin with what was typed and are longer, commonest first.

        As they are kept: in lower case, without a plural "s". () for a single character or several words.
        Raises NoIndex.
        """

    def look_alikes(self, word: str) -> Sequence[str]:
        """Words of this library that differ from `word` by look-alikes alone, in order (confusions.py).

        In lower case; whether OCR misread them is for their passages to tell. Raises NoIndex.
        """
