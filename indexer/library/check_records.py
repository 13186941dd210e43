"""A source check as it was answered and kept. Values only."""

import datetime
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class KeptCheck:
    """One check of the audit trail.

    aircraft    registration, "" = none was chosen; work: class of work, "" = not said
    generation  of the library that answered
    answer      all that was answered, as plain data
    """

    id: int
    at: datetime.datetime  # UTC
    text: str
    aircraft: str
    work: str
    generation: int
    answer: dict[str, Any]
