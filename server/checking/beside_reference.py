"""What an entry says right beside a reference: that it was not used, or words that name something else. Pure.

How such entries are written: common practice, no source.
"""

import re
from collections.abc import Collection, Sequence

from indexer.library.relation_rules.held import folded
from indexer.tagging.tags import Citation
from indexer.trade.evidence import Answer
from indexer.trade.revisions import find_revisions, same_revision

_LEADS_IN = (
    r"(?:IAW|i/a/w|in\s+accordance\s+with|as\s+per|per|ref(?:er(?:ence)?)?\.?(?:\s+to)?|using|by|used)"
)
_USES = r"(?:use|follow(?:ed)?|consult(?:ed)?|refer(?:red)?\s+to|comply\s+with|apply|applied|done\s+to)"
_NAME = rf"(?:the\s+)?(?:(?!{_LEADS_IN}\s)[\w'-]+\s+){{0,4}}"  # "the Aldermoor manual"
_NOT_BY = re.compile(
    rf"\b(?:not|never|neither|nor|cannot|\w+n['\u2019]t)\s+(?:\w+\s+){{0,2}}(?:{_LEADS_IN}|{_USES})\s+{_NAME}$"
    rf"|\b(?:instead\s+of|in\s+(?:lieu|place)\s+of|rather\s+than|in\s+stead\s+of|contrary\s+to|without"
    rf"|no\s+longer|deviat\w+\s+from|departed\s+from|other\s+than|except|ignor\w+|disregard\w+|should\s+have"
    rf"(?:\s+been)?)\s+(?:{_LEADS_IN}\s+)?{_NAME}$",
    re.IGNORECASE,
)
_NOT_USED = re.compile(
    r"[\s,;:()-]*(?:(?:was|were|is|are|has|have|does|did)\s+)?(?:been\s+)?"
    r"(?:not\s+(?:yet\s+)?(?:been\s+)?(?:used|followed|applied|applicable|appl(?:y|ies)|complied|accomplished"
    r"|performed|done|c/w|available|held|consulted|referenced|referred|covered|read|seen|obtained|on\s+hand"
    r"|at\s+hand|cover|address|include|give|have)|does(?:n['\u2019]t|\s+not)\s+\w+|unavailable|except|n/a"
    r"|not\s+n/a)(?![\w-])",
    re.IGNORECASE,
)
_LEAD_IN = re.compile(rf"\b{_LEADS_IN}\s+", re.IGNORECASE)
_CLAUSE_ENDS = re.compile(r"[;\n]|\.(?=\s)|\s-\s|:\s")
# A number with a figure and a letter or a dash in it: "KX-9", "QZM-62-2", "D4410".
_LIKE_A_NUMBER = re.compile(
    r"(?<![\w/.-])(?=[\w-]*\d)(?=[\w-]*[A-Za-z-])[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*(?![\w/-])"
)
_OF_A_THING = re.compile(
    r"\b(?:[PS]/?N|part|serial|model|type|position|pos|item|qty|sta(?:tion)?|[FB]S|WL|BL|WO|W/O|order|TT|TSN|hrs?)"
    r"(?:\s*(?:no|number|numbers|nos)\b)?[.:#\s]*$",
    re.IGNORECASE,
)


def not_used(text: str, citation: Citation) -> str:
    """The words that say that the source was not used or does not apply; "" without them."""
    before = _NOT_BY.search(text[max(0, citation.start - 90) : citation.start])
    if before:
        return " ".join(f"{before[0]}{citation.text}".split())
    after = _NOT_USED.match(text[citation.end : citation.end + 60])
    return " ".join(f"{citation.text}{after[0]}".split()) if after else ""


def _one_piece(name: str) -> str:
    """ "QZ-62" is QZ62."""
    return "".join(folded(name).split())


def other_words_before(
    text: str,
    citation: Citation,
    others: Sequence[Citation],
    number: str,
    revision: str,
    known: Collection[str],
) -> str:
    """Words right before a bare place that name another document or revision than the one held.

    number, revision  of the publication that the place alone would lead to
    known             names that are no document's: models, registrations, serials
    "" = there are none. Words before a lead-in ("IAW") and of another clause are not looked at.
    """
    start = max([each.end for each in others if each.end <= citation.start], default=0)
    said = text[start : citation.start]
    clause = list(_CLAUSE_ENDS.finditer(said))
    said = said[clause[-1].end() :] if clause else said
    lead = list(_LEAD_IN.finditer(said))
    said = said[lead[-1].end() :] if lead else said
    mine = {_one_piece(each) for each in (number, *known)}
    for match in _LIKE_A_NUMBER.finditer(said):
        if _one_piece(match[0]) in mine or _OF_A_THING.search(said[: match.start()]):
            continue
        if not any(match.start() >= each.start and match.end() <= each.end for each in find_revisions(said)):
            return " ".join(said.split()).strip(" ,")
    for found in find_revisions(said):
        if same_revision(found.mark, revision) is not Answer.YES:
            return " ".join(said.split()).strip(" ,")
    return ""
