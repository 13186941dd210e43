"""Where sentences of a publication begin and end, for rules that must see a whole sentence and nothing beyond it."""

import re

# A full stop after these, after one letter, or after a paragraph mark ends no sentence.
_ABBREVIATION = re.compile(
    r"(?:^|[\s(])(?:[A-Za-z]|[0-9]{1,3}|nos?|refs?|rev|fig|figs|para|pars?|par|vol|chap|ch|sec|sect|pg|pp|approx|inc|ltd|corp|co"
    r"|mr|mrs|ms|dr|jr|st|vs|etc|e\.g|i\.e|u\.s|dept|amdt|amend|ser|mfg|mfr|max|min|temp|qty|no\.s|jan|feb|mar|apr|jun|jul"
    r"|aug|sept?|oct|nov|dec|f\.a\.a)\.$",
    re.IGNORECASE,
)
_END = re.compile(r"[.!?;]+[\"'\u2019\u201d)\]]*(?=\s|$)|\n[ ]*(?=\n)")


def sentence_spans(text: str) -> list[tuple[int, int]]:
    """(start, end) of each sentence in order, together the whole text. A blank line ends one, a line end does not.

    In doubt two sentences are taken as one: a rule then sees too much, never too little.
    """
    spans = []
    start = 0
    for match in _END.finditer(text):
        if "\n" not in match[0] and _ABBREVIATION.search(text[max(0, match.end() - 12) : match.end()]):
            continue
        if text[start : match.end()].strip():
            spans.append((start, match.end()))
            start = match.end()
    if text[start:].strip():
        spans.append((start, len(text)))
    return spans
