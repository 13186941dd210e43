"""Where sentences begin and end, for rules that must see a whole sentence and nothing beyond it."""

import re

# A full stop after these, after one letter, or after a paragraph number ends no sentence.
_ABBREVIATION = re.compile(
    r"(?:^|[\s(])(?:[A-Za-z]|[0-9]{1,3}|nos?|refs?|rev|figs?|paras?|pars?|vol|chap|ch|sect?|secs|pg|pp|approx|inc|ltd|corp"
    r"|co|mr|mrs|ms|dr|jr|st|vs|etc|e\.g|i\.e|u\.s|dept|amdt|amend|ser|mfg|mfr|max|min|temp|qty"
    r"|jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec|f\.a\.a)\.$",
    re.IGNORECASE,
)
_END = re.compile(r"[.!?;]{1,5}[\"'\u2019\u201d)\]]{0,3}(?=\s|$)|\n(?=\n)")


def sentence_spans(text: str) -> list[tuple[int, int]]:
    """(start, end) of each sentence of squeezed text, in order, without blanks around it.

    A blank line ends a sentence and a line's end does not. In doubt two sentences are taken as one: a rule
    then sees too much, never too little.
    """
    spans = []
    start = 0
    for match in _END.finditer(text):
        if "\n" not in match[0] and _ABBREVIATION.search(text[max(0, match.end() - 12) : match.end()]):
            continue
        spans += _trimmed(text, start, match.end())
        start = match.end()
    return spans + _trimmed(text, start, len(text))


def _trimmed(text: str, start: int, end: int) -> list[tuple[int, int]]:
    part = text[start:end]
    if not part.strip():
        return []
    return [(start + len(part) - len(part.lstrip()), end - len(part) + len(part.rstrip()))]
