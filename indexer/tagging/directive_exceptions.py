"""Where a directive says otherwise than its bulletin: the directive governs (14 CFR 39.27). Pure."""

import re
from dataclasses import dataclass

from indexer.trade.sentences import sentence_spans

_BEGINS = re.compile(r"\bWhere\b(?=.*\b(?:this|the) AD\b)", re.DOTALL)
_TURNS = re.compile(
    r",?\s*\b(?:this|the) AD (?:instead )?(?:requires?|does not require|do(?:es)? not|allows?|specif)"
    r"|,\s*(?:for (?:the purposes of )?this AD|replace|use|substitute)\b"
)
# One value may be written in several ways; what is compared is the number and the kind of unit.
_UNITS = {
    "inch-pounds": r"inch[- ]?(?:pounds?|lbs?)|in\.?[- ]?lbs?",
    "foot-pounds": r"f(?:ee|oo)t[- ]?(?:pounds?|lbs?)|ft\.?[- ]?lbs?",
    "psi": r"psi|pounds? per square inch",
    "hours": r"(?:flight )?hours?|hrs?",
    "landings": r"landings?",
    "cycles": r"(?:flight )?cycles?",
    "days": r"days?",
    "months": r"months?",
    "inch": r"inch(?:es)?|in\.",
    "degrees": r"degrees?|deg",
}
_VALUE = re.compile(
    r"(?<![\w.-])(?P<number>\d[\d,]*(?:\.\d+)?)\s*-?\s*(?:(?P<unit>"
    + "|".join(f"(?P<{name.replace('-', '_')}>{words})" for name, words in _UNITS.items())
    + r"))(?![A-Za-z])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class DirectiveException:
    """One sentence of a directive that takes the place of what a bulletin says.

    quote    the sentence as printed
    replaced values with units that the bulletin gives and the directive does not: ("50 inch-pounds",)
    """

    quote: str
    replaced: tuple[str, ...] = ()


def find_exceptions(text: str) -> list[DirectiveException]:
    """The sentences "Where [the bulletin] says ..., this AD requires ..." of a directive's text, in order."""
    found = []
    for start, end in sentence_spans(text):
        sentence = text[start:end]
        begin = _BEGINS.search(sentence)
        turn = _TURNS.search(sentence, begin.end()) if begin else None
        if begin is None or turn is None:
            continue
        before = _values(sentence[begin.start() : turn.start()])
        after = _values(sentence[turn.start() :])
        found.append(DirectiveException(sentence[begin.start() :], tuple(sorted(before - after))))
    return found


def values_replaced(entry: str, exception: DirectiveException) -> tuple[str, ...]:
    """Values of the entry that the directive replaced by others: work to them is not what it requires."""
    return tuple(sorted(_values(entry) & set(exception.replaced)))


def _values(text: str) -> set[str]:
    """ "50 in-lb" and "50 inch-pounds" are one value."""
    values = set()
    for match in _VALUE.finditer(text):
        unit = next(name for name in _UNITS if match[name.replace("-", "_")])
        values.add(f"{match['number'].replace(',', '')} {unit}")
    return values
