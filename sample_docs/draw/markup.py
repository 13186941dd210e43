"""The plain markup of the content files, turned into blocks to draw.

Blocks are parted by an empty line. The first characters of a block say what it is:

    == Title                 topic title
    # 1. General             heading
    A. / (1) / (a)           steps of level 1, 2, 3
    WARNING: CAUTION: NOTE:  alerts
    !figure name | Figure 401. Title           (!figure name 17 5 6 | ... prints 17, 5, 6 for 1, 2, 3)
    !ruled Table 401. Title  then rows "| cell | cell"; the first row is the head; "!plain" draws no rules
    !break                   next page          !bottom   push the next block to the foot of the page
    !gap 40                  white space of 40 points
    !centre text / !big text / !small text / !sign Name | Office | Date
    ^ before a block         a revision bar beside it
    anything else            a paragraph
"""

import re
from dataclasses import dataclass


@dataclass(frozen=True)
class Block:
    kind: str
    text: str = ""
    label: str = ""  # "A.", "(1)", "WARNING:"
    rows: tuple[tuple[str, ...], ...] = ()
    changed: bool = False


_STEPS = ((r"[A-Z]\. ", "step1"), (r"\(\d+\) ", "step2"), (r"\([a-z]{1,4}\) ", "step3"))
_ALERT = re.compile(r"(WARNING|CAUTION|NOTE): ")


def blocks(text: str) -> list[Block]:
    """The blocks of one topic's text, in order."""
    return [_block(part) for part in re.split(r"\n\s*\n", text.strip("\n")) if part.strip()]


def _block(part: str) -> Block:
    changed = part.startswith("^ ")
    part = part[2:] if changed else part
    lines = part.splitlines()
    if part.startswith("!"):
        command, _, rest = lines[0][1:].partition(" ")
        rest, *rows = re.split(r"\n\|", "\n".join([rest, *lines[1:]]))
        cells = tuple(tuple(_flat(cell) for cell in row.split("|")) for row in rows)
        return Block(command, _flat(rest), rows=cells, changed=changed)
    flat = _flat(part)
    if flat.startswith("== "):
        return Block("title", flat[3:], changed=changed)
    if flat.startswith("# "):
        return Block("heading", flat[2:], changed=changed)
    alert = _ALERT.match(flat)
    if alert:
        return Block("alert", flat[alert.end() :], label=f"{alert[1]}:", changed=changed)
    for pattern, kind in _STEPS:
        found = re.match(pattern, flat)
        if found:
            return Block(kind, flat[found.end() :], label=found[0].strip(), changed=changed)
    return Block("text", flat, changed=changed)


def _flat(text: str) -> str:
    return " ".join(text.split())
