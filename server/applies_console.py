"""The aircraft in hand, and what applies to it, printed for a person at a terminal."""

import datetime

from rich.console import Console

from indexer.library.fleet_records import Aircraft
from indexer.trade.applies import ApplicabilityAnswer
from server.applies_words import applies_words
from server.fleet import aircraft_words, confirmed_words
from server.words import shortened


def show_in_hand(out: Console, row: Aircraft | None, on: datetime.date) -> str:
    """The aircraft that everything below is marked for; returns its registration, "" = none."""
    if row is None:
        return ""
    out.print(f"Marked for {aircraft_words(row)}; {confirmed_words(row, on)}.")
    return row.registration


def show_applies(out: Console, answer: ApplicabilityAnswer | None, registration: str) -> None:
    if words := applies_words(answer, registration):
        quote = f' "{shortened(words.quote)}"' if words.quote else ""
        out.print(f"    {words.lead} {words.why}{quote}")
