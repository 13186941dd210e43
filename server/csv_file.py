"""Rows as the text of a CSV file (RFC 4180) that a spreadsheet can open and that runs nothing there. Pure.

Cells that a spreadsheet would run begin with = + - @, tab or the end of a line: OWASP, "CSV Injection".
"""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def csv_text(columns: Sequence[str], rows: Iterable[Mapping[str, Any]]) -> str:
    """CSV text with the names of the columns first. Write it as utf-8-sig: spreadsheets need the mark."""
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, columns, restval="", lineterminator="\r\n")
    writer.writerow({name: safe(name) for name in columns})
    for row in rows:
        writer.writerow({name: safe(value) for name, value in row.items()})
    return out.getvalue()


def safe(value: Any) -> Any:
    """Text that a spreadsheet would run as a formula is set off by an apostrophe."""
    formula = isinstance(value, str) and (
        value.startswith(_FORMULA) or value.lstrip(" ").startswith(_FORMULA)
    )
    return f"'{value}" if formula else value


def plain(value: str) -> str:
    """The text as it was before `safe`."""
    return value[1:] if value.startswith("'") and safe(value[1:]) != value[1:] else value
