"""Model names as printed: two compared, and the short forms of a list ("737-8, -8200") written out."""

import re
from collections.abc import Collection
from enum import StrEnum
from functools import lru_cache

from indexer.trade.dashes import plain_dashes

_LOOKALIKES = str.maketrans("OIL", "011")
_IDLE = frozenset({"MODEL", "MODELS", "SERIES", "THE", "ALL"})
# Words that make another model of the one before them; any other word after a number is a popular name.
_VARIANTS = frozenset(
    """FREIGHTER CARGO COMBI SPECIAL TURBO SUPER VARIANT VARIANTS SEAPLANE FLOATPLANE AMPHIBIAN AMPHIBIOUS
    MILITARY LONG SHORT STRETCHED EXTENDED CONVERTIBLE PRESSURIZED EXECUTIVE HYDRO MARK CONVERSION CONVERTED
    MODIFIED""".split()
)


class ModelMatch(StrEnum):
    """How far the model asked for and a listed one agree. Only "same" and "different" prove anything.

    same       equal after case, blanks and dashes are set aside; the asked one may carry its maker's name
               before it and the listed one its popular name after it
    kin        one holds the other as a part (172 and R172K, QZ62 and QZ62S), they differ by lookalike
               letters, or one of them is a popular name: a person must say whether it is meant
    different  anything else
    """

    SAME = "same"
    KIN = "kin"
    DIFFERENT = "different"


@lru_cache(maxsize=16384)
def fold_model(name: str) -> str:
    """The name in capitals without blanks, dashes and periods."""
    return re.sub(r"[\s.-]+", "", plain_dashes(name).upper())


def compare_models(asked: str, listed: str, named: Collection[str] = ()) -> ModelMatch:
    """How the model of an aircraft or article agrees with a listed one.

    named  the words of the text in capitals: a maker named there may be set aside in the asked model
    """
    mine, theirs = _words(asked), _words(listed)
    if not mine or not theirs:
        return ModelMatch.KIN
    if fold_model("".join(mine)) == fold_model("".join(theirs)):
        return ModelMatch.SAME
    lead, core = _after_maker(mine)
    plain = _without_popular_name(theirs)
    if fold_model("".join(core)) in (fold_model("".join(theirs)), fold_model("".join(plain))):
        told = all(word in named for word in lead)
        if told or not "".join(core).isdigit():
            return ModelMatch.SAME
        return ModelMatch.KIN
    return ModelMatch.KIN if _kin(core, plain, lead, named) else ModelMatch.DIFFERENT


def is_bare_number(name: str) -> bool:
    """Whether a name is one type number, with or without its popular name ("QZ62S OUZEL SURVEY")."""
    return len(_without_popular_name(_words(name))) == 1


def written_out(short: str, before: str) -> str:
    """A short form with the model it leans on: "-8200" after "737-8" is "737-8200"."""
    stem = before[: before.rfind("-")] if "-" in before else before
    return f"{stem}{short}"


@lru_cache(maxsize=16384)
def _words(name: str) -> tuple[str, ...]:
    found = re.findall(r"[A-Z0-9][A-Z0-9./+-]*", plain_dashes(name).upper())
    return tuple(word for word in found if word not in _IDLE)


def _after_maker(words: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The words before the first one with a digit, where they are names and no variant; then the rest.

    A word of three letters or fewer ("TBM 700", "DA 42") belongs to the type."""
    place = next((at for at, word in enumerate(words) if re.search(r"\d", word)), 0)
    lead = words[:place]
    if any(len(word) < 4 or word in _VARIANTS or not word.isalpha() for word in lead):
        return (), words
    return lead, words[place:]


def _without_popular_name(words: tuple[str, ...]) -> tuple[str, ...]:
    last = max((at for at, word in enumerate(words) if re.search(r"\d", word)), default=-1)
    tail = words[last + 1 :]
    popular = [
        word for word in tail if not (len(tail) > 1 and re.fullmatch(r"I{1,3}|IV|V", word))
    ]  # "Archer II"
    if last >= 0 and all(word.isalpha() and len(word) >= 4 and word not in _VARIANTS for word in popular):
        return words[: last + 1]
    return words


def _kin(
    core: tuple[str, ...], theirs: tuple[str, ...], lead: tuple[str, ...], named: Collection[str]
) -> bool:
    if any("/" in word for word in theirs) and _one_of_many(core, theirs):
        return True
    names = [word for word in core if word.isalpha() and len(word) >= 4]
    if any(word not in named for word in (*lead, *names)):
        return True  # a popular name says nothing of the type's own number
    mine, other = _groups(core), _groups(_after_maker(theirs)[1])
    if not mine or not other:
        return True
    looks = fold_model("".join(core)).translate(_LOOKALIKES) == fold_model("".join(theirs)).translate(
        _LOOKALIKES
    )
    if looks or _within(mine, other) or _within(other, mine):
        return True
    wordy = any(len(word) >= 4 and word.isalpha() for word in (*core, *theirs))
    return wordy and bool(
        {group for group in mine if group.isdigit()} & set(other) or set(core) & set(theirs)
    )


def _one_of_many(core: tuple[str, ...], theirs: tuple[str, ...]) -> bool:
    """Whether the model is one of those written together, as in PA-28-150/160."""
    first, *others = "".join(theirs).split("/")
    alternatives = [first, *others, *(written_out(f"-{other}", first) for other in others)]
    return any(
        _within(_groups(core), _groups((one,))) or _within(_groups((one,)), _groups(core))
        for one in alternatives
    )


@lru_cache(maxsize=16384)
def _groups(words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(re.findall(r"[A-Z]+|\d+", " ".join(words)))


def _within(part: tuple[str, ...], whole: tuple[str, ...]) -> bool:
    return any(whole[at : at + len(part)] == part for at in range(len(whole) - len(part) + 1))
