"""What headings and first lines say a passage is for: "S/N 62-0101 and on", "(Pre SB QZ62-32-0114)".

A line speaks for a passage only where it holds nothing else: a step that begins "On airplanes S/N 1001 and
on, remove ..." speaks for itself, and other steps stand beside it.
"""

import re
from collections.abc import Iterator

from indexer.reading.page import Passage, PassageKind
from indexer.tagging.flow import one_line, plain
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.serial_lists import LABEL

_STATE = r"(?:pre|post)[-\s](?:SB|ASB|service\s+bulletin|mod(?:ification)?|STC)\b"
_DONE = (
    r"(?:not\s+)?(?:modified|altered|equipped|fitted)\b|(?:not\s+)?incorporating\b|with(?:out)?\b|having\b"
    r"|(?:that|which)\s+(?:have|has|are|were)\b|(?:before|after|prior\s+to)\s+incorporation\b"
)
_AIRPLANES = r"(?:airplanes?|aircraft|helicopters?)"
# A whole line or heading, or what stands at the end of a heading in brackets or after a comma.
_ALONE = re.compile(
    rf"\(?\s*(?:(?:for|on|applicable\s+to|effective\s+on)\s+)?(?:{_AIRPLANES},?\s+)?(?:"
    rf"{LABEL}\s*:?\s*(?=\S*\d)\S.*|{_STATE}.*|{_AIRPLANES}\s+(?:{_DONE}).*|(?:{_DONE})\s*(?={LABEL}).*"
    rf"|all\s+(?:{_AIRPLANES}|serials?|serial\s+numbers|models)"
    r")\s*[).:]*",
    re.IGNORECASE,
)
_IN_HEADING = re.compile(
    rf"(?:\(|,\s*|\s-\s)(?P<told>(?:{_AIRPLANES},?\s+)?(?:{LABEL}\s*:?\s*(?=\S*\d)[^()]*|{_STATE}[^()]*"
    rf"|{_AIRPLANES}\s+(?:{_DONE})[^()]*|models?\s+(?=[A-Z0-9-]*\d)[^()]*))\)?\s*$",
    re.IGNORECASE,
)
_IN_ROW = re.compile(rf"(?P<told>{_STATE}(?:\s+[A-Z0-9][A-Z0-9/.-]*\d[A-Z0-9/.-]*)?)", re.IGNORECASE)
_LONGEST = 200  # characters of a line that says only this


def passage_effectivity(passage: Passage) -> Iterator[Tag[str]]:
    """What the headings over a passage, its own lines, or the rows of a parts list say; widest first."""
    for heading in passage.heading_path:
        told = _told(heading)
        if told:
            yield _tag(passage, told, "effectivity in the heading")
    if passage.kind is PassageKind.PARTS_ROW:
        rows = list(dict.fromkeys(found["told"] for found in _IN_ROW.finditer(plain(passage.text))))
        if rows:
            yield _tag(passage, "\n".join(rows), "effectivity in the row")
        return
    own = [line for line in passage.text.split("\n") if _is_alone(line)]
    heads = {one_line(heading) for heading in passage.heading_path}
    lines = [one_line(line) for line in own if one_line(line) not in heads]
    first = passage.text.lstrip().split("\n")[0]
    if lines and (_is_alone(first) or one_line(first) in heads):
        yield _tag(passage, "\n".join(lines), "effectivity in the first line")


def _told(heading: str) -> str:
    text = plain(heading).strip()
    if _is_alone(text):
        return one_line(heading)
    found = _IN_HEADING.search(text)
    return one_line(heading.strip()[found.start("told") : found.end("told")]) if found else ""


def _is_alone(line: str) -> bool:
    text = plain(line).strip()
    return len(text) <= _LONGEST and _ALONE.fullmatch(text) is not None


def _tag(passage: Passage, words: str, rule: str) -> Tag[str]:
    box = passage.boxes[0].box if passage.boxes else None
    evidence = Evidence(Basis.PRINTED, rule, one_line(words), passage.pdf_page, box, origin=passage.origin)
    return Tag(words, evidence)
