"""Which directives a text says that it supersedes, revises or takes out of force. No file is opened.

"The FAA is superseding Airworthiness Directive (AD) 2019-07-05, which applied to ..."; "Supersedes AD
98-25-06, Amendment 39-10930"; "This AD revises AD 2020-11-12". What an earlier directive replaced is not
read: "AD 2019-07-05, which superseded AD 2017-01-03".
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from indexer.tagging.directive_layout import Paragraph
from indexer.tagging.flow import Flow, plain
from indexer.trade.directive_numbers import normalised_directive
from indexer.trade.evidence import Tag

# A blank after a joint is left where the register's text was broken over a line.
DIRECTIVE_NUMBER = r"(?:(?:19|20)\d{2}|\d{2})-\s?\d{2}-\s?\d{2}(?:[\s-]?R\d{1,2}(?!\d))?(?![\d-])"
_NAME = r"(?:(?:emergency|priority\s+letter|telegraphic)\s+)?(?:airworthiness\s+directives?|\bADs?\b)"
_NAMES = rf"(?:{_NAME}\s*(?:\(ADs?\)\s*)?(?:for\s+)?(?:No\.\s*)?)+"
_VERB = (
    r"\b(?:(?P<replaces>supersed(?:es?|ing)|supersedure\s+of|would\s+have\s+superseded|replac(?:es?|ing))"
    r"|(?P<revises>revis(?:es?|ing))|(?P<removes>remov(?:es?|ing)|rescind(?:s|ing)?|withdraw(?:s|ing)?"
    r"|cancel(?:s|ing)?"
    r"|rescission\s+of|withdrawal\s+of|removal\s+of))"
)
_SAID = re.compile(
    rf"{_VERB}\s+(?:the\s+(?:existing\s+)?)?(?:(?:requirements|provisions)\s+of\s+)?(?:{_NAMES})?"
    rf"(?P<number>{DIRECTIVE_NUMBER})",
    re.IGNORECASE,
)
_NEXT = re.compile(
    rf"(?:,?\s*Amendment\s+(?:No\.\s*)?39-\s?\d+)?(?:\s*\([^()]*\))*(?:\s*,\s*(?:and|or)?\s*|\s*;\s*"
    rf"(?:and\s+)?|\s+(?:and|or)\s+)"
    rf"(?:{_NAMES})?(?P<number>{DIRECTIVE_NUMBER})",
    re.IGNORECASE,
)
# Later in the sentence, each with what it applied to: "AD 77-04-06, which applied to ...; AD 2002-13-06,
# which applied to ...".
_ALSO = re.compile(
    rf"(?:;\s*(?:and\s+)?|,?\s+and\s+){_NAMES}(?P<number>{DIRECTIVE_NUMBER})(?=\s*,?\s*which\s+appl)",
    re.IGNORECASE,
)
_SENTENCE_END = re.compile(r"[^.]\.\s+(?=[A-Z(])")
# A proposal that is itself withdrawn replaces nothing.
_WITHDRAWN_PROPOSAL = re.compile(
    r"withdraw\w*\s+(?:a|the|its)\s+(?:supplemental\s+)?(?:notice|NPRM|propos)", re.IGNORECASE
)

_LISTED = re.compile(
    r"\b(?:replaces|supersedes|revises)\s+(?:the\s+)?(?:following\s+)?(?:ADs?"
    r"|airworthiness\s+directives?)\b[^.;:]{0,80}"
    r"\b(?:paragraphs?\s+\([a-z]\)|following|listed|identified|specified)",
    re.IGNORECASE,
)
_LIST_ITEM = re.compile(rf"\(\d+\)\s*(?:{_NAMES})(?P<number>{DIRECTIVE_NUMBER})", re.IGNORECASE)
_SUMMARY = re.compile(r"\bSUMMARY:\s*")
_AFTER_SUMMARY = re.compile(r"\b(?:DATES|EFFECTIVE DATE|ADDRESSES|FOR FURTHER INFORMATION)\b")
_SHORT = 4000  # characters: a text without any form, such as an abstract, is read whole up to here


@dataclass(frozen=True, slots=True)
class Replaced:
    """One directive that gives way. plain(text)[start:end] is the number; the sentence begins at `sentence`.

    number  written one way: "2005-19-28", "80-13-12R1"
    verb    "supersedes", "revises" or "removes"
    """

    number: str
    verb: str
    sentence: int
    start: int
    end: int


def find_replaced(text: str) -> list[Replaced]:
    """Every directive the text says it replaces, each once, in order.

    Words of a proposal count alike: whether the text binds is for the reader of its form.
    """
    words = plain(text)
    found: dict[str, Replaced] = {}
    for said in _SAID.finditer(words):
        start, end = _sentence(words, said.start())
        if _WITHDRAWN_PROPOSAL.search(words, start, said.start() + 1):
            continue
        verb = "supersedes" if said["replaces"] else "revises" if said["revises"] else "removes"
        matches = [said]
        while following := _NEXT.match(words, matches[-1].end()):
            matches.append(following)
        matches += _ALSO.finditer(words, matches[-1].end(), end)
        for match in matches:
            number = normalised_directive(re.sub(r"-\s", "-", match["number"]))
            if number:
                found.setdefault(number, Replaced(number, verb, start, *match.span("number")))
    return list(found.values())


def supersedes_in(text: str) -> tuple[str, ...]:
    """Numbers of the directives that a title, abstract or directive says it supersedes, revises or removes.

    For a proposal, those it would. () when none is named.
    """
    return tuple(each.number for each in find_replaced(text))


def _sentence(words: str, place: int) -> tuple[int, int]:
    start = 0
    for stop in _SENTENCE_END.finditer(words, max(0, place - 1500), place):
        start = stop.end()
    after = _SENTENCE_END.search(words, place)
    return start, after.end() if after else len(words)


def replaced_directives(
    flow: Flow,
    start: int,
    end: int,
    rule_start: int,
    paragraphs: tuple[Paragraph, ...],
    lettered: bool,
    own: str,
) -> tuple[Tag[str], ...]:
    """Directives that the directive in flow.text[start:end] replaces.

    From the first of these places that names any: its paragraph of affected directives (which also may say
    "None."), its order of amendment, its summary.

    own  its own number, which it does not replace
    """
    affected = [each for each in paragraphs if each.heading.casefold().startswith("affected")]
    places = [(each.start, each.end, "directive affected directives paragraph") for each in affected]
    if places and lettered:
        return _tags(flow, places, own)
    line = paragraphs[0].opening if paragraphs else end
    summary = _SUMMARY.search(flow.plain, start, end)
    if summary:
        after = _AFTER_SUMMARY.search(flow.plain, summary.end(), rule_start or end)
        before = [(summary.end(), after.start() if after else rule_start, "directive summary")]
    else:
        before = [(start, rule_start, "directive preamble")] if rule_start - start <= _SHORT else []
    for group in (places, [(rule_start, line, "directive order of amendment")], before):
        if found := _tags(flow, group, own):
            return found
    return ()


def _tags(flow: Flow, places: Iterable[tuple[int, int, str]], own: str) -> tuple[Tag[str], ...]:
    found: dict[str, Tag[str]] = {}
    own_number = normalised_directive(own)
    for start, end, rule in places:
        text = flow.text[start:end]
        said = [(each.number, each.sentence, each.end) for each in find_replaced(text)]
        if _LISTED.search(plain(text)):
            for item in _LIST_ITEM.finditer(plain(text)):
                number = normalised_directive(re.sub(r"-\s", "-", item["number"]))
                if number:
                    said.append((number, *item.span()))
        for number, first, last in said:
            if number != own_number:
                evidence = flow.evidence(start + first, start + last, rule)
                found.setdefault(number, Tag(number, evidence))
    return tuple(found.values())
