"""The first sentence of a reason, for a line that must be read at a glance. Pure."""

import re

_END = re.compile(r"(?<=[\w»)\"])[.?!](?=\s+[A-Z«\"])")
_SHORT_FORMS = ("no", "rev", "pg", "fig", "par", "vol", "ch", "sec", "temp", "nos")


def first_sentence(text: str) -> str:
    """What stands before the first full stop that ends a sentence outside a quotation; else the whole text.

    A stop after a short form ("Rev.") or a single letter ends nothing.
    """
    for found in _END.finditer(text):
        before = text[: found.start()]
        if before.count("«") > before.count("»"):
            continue
        last = re.split(r"[^\w]+", before)[-1].casefold()
        if last in _SHORT_FORMS or (len(last) == 1 and last.isalpha()):
            continue
        return text[: found.end()]
    return text
