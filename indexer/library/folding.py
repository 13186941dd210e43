"""One written form for what is written in many: case, accents, ligatures, dashes, plurals. Pure.

Folding is the same for what is indexed and for what is asked, so it need not be right, only equal on both
sides; but it must not bring together words that mean different things to a mechanic. Hence no stemming: a
plural "s" goes, and nothing else ("fitting" is not "fit", "inspected" is not "inspection").
"""

import unicodedata
from functools import lru_cache

_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u2043\ufe58\ufe63\uff0d"
_APOSTROPHES = "\u2018\u2019\u201b\u02bc\u2032"
_INVISIBLE = "\u00ad\u200b\u200c\u200d\u2060\ufeff"  # soft hyphen, zero widths
_REPLACED = {
    **dict.fromkeys(_DASHES, "-"),
    **dict.fromkeys(_APOSTROPHES, "'"),
    **dict.fromkeys(_INVISIBLE, ""),
    "\u2044": "/",  # fraction slash, also what ½ falls apart into
    "\u2215": "/",
}

# Plurals that the rules below would get wrong, and words that end in s and are no plurals.
_IRREGULAR = {
    "ads": "ad",  # airworthiness directives
    "sbs": "sb",  # service bulletins
    "axes": "axis",
    "gases": "gas",
    "buses": "bus",
    "busses": "bus",
    "lenses": "lens",
    "biases": "bias",
    "canvases": "canvas",
    "appendices": "appendix",
    "caches": "cache",
}
_NO_PLURAL = frozenset(
    ["alias", "always", "atlas", "bias", "canvas", "gas", "lens", "perhaps", "series", "species", "whereas"]
)


def folded(text: str) -> tuple[str, list[int] | None]:
    """`text` in lower case, with plain dashes, apostrophes and Latin letters without accents or ligatures.

    Gives the folded text and, for each of its characters, the place in `text` it came from; None = the same
    place.
    """
    if text.isascii():
        return text.lower(), None
    letters: list[str] = []
    origins: list[int] = []
    for place, letter in enumerate(text):
        plain = _plain(letter)
        if len(plain) > 2 and "/" in plain and letters and letters[-1].isdigit():
            plain = f"-{plain}"  # 5½ falls apart into 51/2; it means 5-1/2
        letters.extend(plain)
        origins.extend([place] * len(plain))
    return "".join(letters), origins


@lru_cache(maxsize=4096)
def _plain(letter: str) -> str:
    if letter in _REPLACED:
        return _REPLACED[letter]
    parts = unicodedata.normalize("NFKD", letter).casefold()
    return "".join(_REPLACED.get(part, part) for part in parts if unicodedata.category(part) != "Mn")


def singular(word: str) -> str:
    """`word` (folded, letters only) without its plural ending; "bus", "gas" and "chassis" have none."""
    if len(word) < 3 or word[-1] != "s":
        return word
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if len(word) < 4 or word in _NO_PLURAL or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return f"{word[:-3]}y" if len(word) > 4 else word[:-1]  # assemblies; ties
    if word.endswith(("sses", "ches", "shes", "xes", "zzes")):
        return word[:-2]
    return word[:-1]
