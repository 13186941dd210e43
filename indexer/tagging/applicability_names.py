"""The names of models in a printed applicability, and the maker's name before them."""

import re
from dataclasses import dataclass, field

from indexer.tagging import applicability_words as words
from indexer.tagging.applicability_clauses import Condition, ConditionKind, ModelName
from indexer.trade.model_names import written_out
from indexer.trade.serial_lists import starts_serials, take_serials

_BETWEEN = re.compile(r"\s*(?:,\s*(?:and\s+|or\s+|&\s*)?|(?:and|or|&)\s+)")
_SERIES_OF_ONE = re.compile(r"\s+series(?=\s*(?:,|and\b))", re.IGNORECASE)
_BRACKET = re.compile(r"\s*\(([^()]*)\)")
_NEXT_WORD = re.compile(r" (?=[A-Z0-9-])")
_MOST_WORDS = 4


@dataclass(slots=True)
class TakenNames:
    """Names in order, where they end, brackets among them that narrow, and brackets that may reach more."""

    end: int
    names: list[ModelName] = field(default_factory=list)
    conditions: list[Condition] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)


def take_names(text: str, start: int, lettered: bool = False, table: bool = False) -> TakenNames:
    """Names with "," "and" "&" "or" between them; a short form ("-8200") is written out.

    lettered  True after the word Model: then a name need not hold a digit
    table     True in a table, where a number right after a name begins the serials
    """
    taken = TakenNames(start)
    place = start
    while True:
        place += len(text[place:]) - len(text[place:].lstrip())
        name, end = _one_name(text, place, table)
        if not name or not (lettered or re.search(r"\d", name)) or is_noun(text, place):
            return taken
        if name.startswith("-") and taken.names:
            name = written_out(name, taken.names[-1].name)
        end = _past_brackets(text, end, taken)
        series = _SERIES_OF_ONE.match(text, end)
        taken.names.append(ModelName(name, bool(series)))
        taken.end = series.end() if series else end
        between = _BETWEEN.match(text, taken.end)
        if not between:
            return taken
        place = between.end()


def maker_end(text: str, start: int) -> int | None:
    """Where the maker's name ends, when one stands here and a model or a kind of article follows it."""
    found = words.MAKER.match(text, start)
    if not found or found.end() == start:
        return None
    bare = words.NOTE.sub(lambda note: " " * len(note[0]), found[0])
    if words.MODEL.match(found[0]) or words.NOTE.match(found[0]) or words.NO_MAKER.search(bare):
        return None
    if words.GOES_ON.search(found[0]) or any(is_other_word(text, start + at) for at in _word_places(bare)):
        return None
    return found.end()


def is_noun(text: str, place: int) -> bool:
    """Whether a kind of article stands here ("airplanes")."""
    return any(pattern.match(text, place) for _, pattern in words.ARTICLES)


def is_other_word(text: str, place: int) -> bool:
    """Whether a word with a meaning of its own stands here, which is no part of a name."""
    return words.OTHER_WORD.match(text, place) is not None


def holds_serials(told: str) -> bool:
    """Whether a bracket begins with serials."""
    told = told.strip()
    return bool(words.LABELLED.match(told) or words.ALL_SERIALS.match(told) or starts_serials(told, 0))


def _one_name(text: str, place: int, table: bool) -> tuple[str, int]:
    """Words of one name up to a mark or a word that is no name, and where it ends; "" without any."""
    taken: list[str] = []
    end = place
    while len(taken) < _MOST_WORDS:
        found = words.NAME_WORD.match(text, place)
        if not found or is_other_word(text, place) or (taken and found[0].startswith("-")):
            break
        if (words.NO_MAKER.fullmatch(found[0]) and not _is_code(text, found)) or starts_serials(text, place):
            break
        if table and taken and re.search(r"\d", found[0]) and re.search(r"\d", "".join(taken)):
            break
        taken.append(found[0])
        end = found.end()
        gap = _NEXT_WORD.match(text, end)
        if not gap:
            break
        place = gap.end()
    return " ".join(taken), end


def _is_code(text: str, found: re.Match) -> bool:
    """ "AS 350" is a name, though "as" is none."""
    follows = text[found.end() : found.end() + 2].strip()
    return found[0].isupper() and len(found[0]) == 2 and follows.isdigit()


def _past_brackets(text: str, place: int, taken: TakenNames) -> int:
    """Another name of the model in brackets is set aside; a bracket that narrows is a condition."""
    while True:
        found = _BRACKET.match(text, place)
        if (
            not found
            or holds_serials(found[1])
            and (take_serials(text, found.start(1)) or "all" in found[1].lower())
        ):
            return place
        if words.GOES_ON.search(found[1]) or words.MAY_WIDEN.search(found[1]):
            taken.unread.append(found[0].strip())
        if words.VARIANT_BRACKET.search(found[1]):
            taken.conditions.append(Condition(ConditionKind.UNCLEAR, found[0].strip()))
        place = found.end()


def _word_places(maker: str) -> list[int]:
    """Where the words of a maker's name begin: not the small joining words, or a kind of article after the
    first word ("Airbus Helicopters")."""
    small = ("the", "of", "and", "&")
    return [
        found.start()
        for found in re.finditer(r"[^\s,]+", maker)
        if found[0].lower() not in small
        and not (found.start() and any(each.match(found[0]) for _, each in words.ARTICLES))
    ]
