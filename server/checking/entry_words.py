"""Words of an entry that change what its sources may be used for. Pure; common practice, no source."""

import re

_OLD_REPAIR = re.compile(
    r"\b(?:(?:previous(?:ly)?|prior|old|existing|earlier|former)[ -]+(?:\w+[ "
    r"-]+){0,2}(?:repair(?:ed|s)?|patch(?:ed)?|doubler)"
    r"|(?:over|on|at|adjacent[ ]to|next[ ]to)[ ](?:an?[ ]|the[ ])?(?:old|existing|previous|prior|earlier)[ ]"
    r"(?:\w+[ ])?(?:repair|patch|doubler)|already[ ](?:been[ ])?repaired|repair[ ](?:over|on)[ ]repair)\b",
    re.IGNORECASE,
)
_NO_OLD_REPAIR = re.compile(
    r"\b(?:not|never|no|without|free[ ]of)[ ](?:an?[ ]|any[ ]|been[ ]|been[ ]previously[ ])?$", re.IGNORECASE
)
_LIFE = re.compile(
    r"\b(?:retirement[ ](?:life|time)|life[ -]?limit(?:s|ed)?|airworthiness[ ]limitations?"
    r"|(?:extend\w*|exten[ds]\w*|increase\w*)[ ](?:the[ ]|of[ ]|of[ ]the[ ])?(?:\w+[ "
    r"]){0,2}(?:life|retirement|limit))\b",
    re.IGNORECASE,
)
_RECOMMENDS = re.compile(r"\brecommend(?:s|ed|ing)?\s+(?:the\s+)?approval\b", re.IGNORECASE)
_ALTERATION = re.compile(r"\b(?:alteration|altered|modif(?:y|ied|ication))\b", re.IGNORECASE)


def says_repaired_before(text: str) -> str:
    """The words that say the place was repaired before, "" without them or where they deny it."""
    for match in _OLD_REPAIR.finditer(text):
        if not _NO_OLD_REPAIR.search(text[: match.start()]):
            return match[0]
    return ""


def speaks_of_life_limit(text: str) -> str:
    """The words that speak of an airworthiness limitation or a life limit; "" without them."""
    match = _LIFE.search(text)
    return match[0] if match else ""


def recommends_approval(text: str) -> str:
    """Words by which an approval is recommended and not given; "" without them."""
    match = _RECOMMENDS.search(text)
    return match[0] if match else ""


def speaks_of_alteration(text: str) -> str:
    """The word that makes the work an alteration; "" without it."""
    match = _ALTERATION.search(text)
    return match[0] if match else ""
