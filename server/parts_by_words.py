"""Rows by the words of their nomenclature, with what else those words are called.

All words must be in a row. A word that the row lacks may stand in an assembly above it or in the title of its
figure ("brake lining" finds LINING under BRAKE ASSEMBLY), but never the word that names the part itself: such
rows come last, in a group of their own, each with where the word stands.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from indexer.library import parts
from indexer.library.analysis import printed_words
from indexer.library.catalogue import Catalogue
from indexer.library.parts_records import PlacedRow, RowKey
from indexer.library.shop_words import shop_words
from indexer.library.word_forms import word_forms
from indexer.trade.part_numbers import loose_key
from server.framing import without_frame
from server.kept import KeptByState
from server.parts_by_place import every_figure
from server.parts_found import Found, Within
from server.parts_words import GROUPS, joined
from server.question import parse_question
from server.wording import AlsoLooked, Source, wording_of

_MOST_CLIMBED = 3_000  # rows whose assemblies are looked at for a word
_MOST_QUOTED = 3  # names as the manuals print them
_MOST_ABOVE = 12
_kept_titles = KeptByState(most=1)


@dataclass(slots=True)
class _Clause:
    """One word of the question, and the rows that have it or what else it is called."""

    word: str
    ways: list[tuple[str, ...]]  # words that must stand together in a row, the word typed first
    direct: set[RowKey] = field(default_factory=set)
    other: set[RowKey] = field(default_factory=set)  # by another name alone
    titles: set[tuple[str, int]] = field(default_factory=set)  # figures whose title has it

    @property
    def rows(self) -> set[RowKey]:
        return self.direct | self.other


def by_words(catalogue: Catalogue, text: str, publications: Collection[str], within: Within | None) -> Found:
    """Rows that have all the words.

    publications   ids to stay within
    within         None = at any figure and item
    Raises UnclosedQuote.
    """
    question = without_frame(parse_question(text)).question
    words = [*question.words, *question.phrases]
    wording = wording_of(
        question,
        shop_words(catalogue),
        forms=lambda word: word_forms(word, lambda form: parts.knows_word(catalogue, form)),
    )
    clauses = [_clause(catalogue, word, publications) for word in words if printed_words(word)]
    by_word = {clause.word: clause for clause in clauses}
    named = [(also, _add_others(catalogue, also, by_word, publications)) for also in wording.also]
    found = Found()
    if not clauses:
        return found
    for clause in clauses:
        if not clause.rows:
            found.said.append(f"No row of the parts lists has «{clause.word}», or what else it is called.")
    full = set.intersection(*(clause.rows for clause in clauses))
    full = _kept(catalogue, full, within)
    direct = set.intersection(*(clause.direct for clause in clauses))
    for key in full & direct:
        found.add("words", key)
    _add_under_others(found, named, full - direct)
    _add_by_assembly(found, catalogue, clauses, full, "," in question.text, within)
    shown = [key for group in found.groups.values() for key, _ in group]
    found.said += _manual_says(catalogue, named, shown)
    return found


def _add_under_others(
    found: Found, named: Sequence[tuple[AlsoLooked, dict[str, set[RowKey]]]], keys: set[RowKey]
) -> None:
    """Rows that lack a word typed and have what it is called instead: each says which, as does the group."""
    ways: dict[str, int] = {}
    for key in keys:
        said = [
            f"the list says {other.upper()} for {' '.join(also.words)}"
            for also, rows in named
            if also.source is not Source.WORD_FORM
            for other, having in rows.items()
            if key in having
        ]
        said = list(dict.fromkeys(said))[:_MOST_QUOTED]
        ways.update((each, ways.get(each, 0) + 1) for each in said)
        found.add("other words", key, _sentence(said))
    most = sorted(ways, key=lambda each: (-ways[each], each))[:_MOST_QUOTED]
    if most:
        found.labels["other words"] = f"{GROUPS['other words']}: {joined(most)}"


def _sentence(said: Sequence[str]) -> str:
    words = joined(said) if said else ""
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def _clause(catalogue: Catalogue, word: str, publications: Collection[str]) -> _Clause:
    clause = _Clause(word, [tuple(printed_words(word))])
    clause.direct = _on(parts.keys_with_words(catalogue, clause.ways[0]), publications)
    if any(letter.isdigit() for letter in word) and (key := loose_key(word)):
        clause.direct |= _on((each.key for each in parts.with_loose_key(catalogue, key)), publications)
    return clause


def _add_others(
    catalogue: Catalogue, also: AlsoLooked, clauses: dict[str, _Clause], publications: Collection[str]
) -> dict[str, set[RowKey]]:
    """Rows by another name that they have of words of the question: they are given to each of those words."""
    rows: dict[str, set[RowKey]] = {}
    for other in also.others:
        way = tuple(printed_words(other))
        held = _on(parts.keys_with_words(catalogue, way), publications)
        rows[other] = held
        for word in also.words:
            if word in clauses:
                clauses[word].ways.append(way)
                if also.source is Source.WORD_FORM:
                    clauses[word].direct |= held
                else:
                    clauses[word].other |= held - clauses[word].direct
    return rows


def _on(keys: Iterable[RowKey], publications: Collection[str]) -> set[RowKey]:
    return {key for key in keys if key[0] in publications}


def _kept(catalogue: Catalogue, keys: set[RowKey], within: Within | None) -> set[RowKey]:
    """Those at the figure and item that are asked about."""
    if within is None:
        return keys
    held = parts.placed(catalogue, keys)
    return {key for key, each in held.items() if within(key[0], each.figure, each.item)}


def _add_by_assembly(
    found: Found,
    catalogue: Catalogue,
    clauses: Sequence[_Clause],
    full: set[RowKey],
    inverted: bool,
    within: Within | None,
) -> None:
    """Rows that lack words which their assemblies or their figure's title have.

    inverted   the part is named first: "lining, brake"
    """
    head = clauses[0] if inverted else clauses[-1]
    others = [clause for clause in clauses if clause is not head]
    if not others:
        return
    titles = _titles(catalogue)
    for clause in others:
        clause.titles = {
            place for place, words in titles.items() if any(words.issuperset(way) for way in clause.ways)
        }
    held = set.intersection(
        *({key[0] for key in clause.rows} | {place[0] for place in clause.titles} for clause in others)
    )
    candidates = {key for key in head.rows - full if key[0] in held}
    if len(candidates) > _MOST_CLIMBED:
        found.said.append(
            "Too many rows lack only one of the words: the assemblies above them were not looked at. Add a "
            "word, or choose a parts list."
        )
        return
    at = parts.placed(catalogue, candidates)
    known = dict(at)
    _read_above(catalogue, known)
    for key, row in at.items():
        if within and not within(key[0], row.figure, row.item):
            continue
        above = _above(row, known)
        supplied = [_supplied(clause, row, above) for clause in others]
        if all(said is not None for said in supplied):
            found.add("assembly words", key, " ".join(dict.fromkeys(said for said in supplied if said)))


def _supplied(clause: _Clause, row: PlacedRow, above: Sequence[PlacedRow]) -> str | None:
    """Where a word stands: "" = in the row itself, None = nowhere."""
    if row.key in clause.rows:
        return ""
    for each in above:
        if each.key in clause.rows:
            return f"«{clause.word}» stands in the assembly above it: {each.nomenclature}."
    if (row.publication_id, row.figure) in clause.titles:
        return f"«{clause.word}» stands in the title of its figure."
    return None


def _read_above(catalogue: Catalogue, known: dict[RowKey, PlacedRow]) -> None:
    """Read the assemblies above some rows, a level at a time."""
    level = list(known.values())
    for _ in range(_MOST_ABOVE):
        wanted = {(each.publication_id, above) for each in level for above in each.above}
        found = parts.placed(catalogue, wanted - known.keys())
        if not found:
            return
        known |= found
        level = list(found.values())


def _above(row: PlacedRow, known: dict[RowKey, PlacedRow]) -> list[PlacedRow]:
    """The assemblies above a row with their variants, the nearest first."""
    chain: dict[RowKey, PlacedRow] = {}
    level = [row]
    for _ in range(_MOST_ABOVE):
        keys = [(row.publication_id, above) for each in level for above in each.above]
        level = [known[key] for key in dict.fromkeys(keys) if key in known and key not in chain]
        if not level:
            break
        chain |= {each.key: each for each in level}
    return list(chain.values())


def _titles(catalogue: Catalogue) -> dict[tuple[str, int], frozenset[str]]:
    """The words of every figure's title on the shelf, made once for each state of the library."""

    def read() -> dict[tuple[str, int], frozenset[str]]:
        return {
            (each.publication_id, each.figure.ordinal): frozenset(printed_words(each.figure.title))
            for each in every_figure(catalogue)
        }

    return _kept_titles.of(catalogue, catalogue.generation).once("all", read)


def _manual_says(
    catalogue: Catalogue,
    named: Iterable[tuple[AlsoLooked, dict[str, set[RowKey]]]],
    shown: Sequence[RowKey],
) -> list[str]:
    """ "jug: the manual says CYLINDER ASSEMBLY", for other names by which rows shown were found."""
    said = []
    for also, rows in named:
        if also.source is Source.WORD_FORM:
            continue
        here = [key for key in shown if any(key in having for having in rows.values())][:50]
        names = dict.fromkeys(each.row.nomenclature for each in parts.rows(catalogue, here).values())
        if names:
            said.append(f"{' '.join(also.words)}: the manual says {joined(list(names)[:_MOST_QUOTED])}.")
    return said
