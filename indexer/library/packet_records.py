"""Job packets: what is collected for one job on one aircraft."""

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class PacketItemKind(StrEnum):
    PAGE = "page"
    PASSAGE = "passage"
    FIGURE = "figure"
    PART = "part"
    FINDING = "finding"


@dataclass(frozen=True, slots=True)
class PacketItem:
    """One thing collected.

    publication_id  "" for a finding
    pdf_page        1-based, to last_page; 0 for a finding
    about           id of the passage, figure, row or source check; "" for a page
    words           what it was called when it was added
    as_added        revision, currency and standing as they were then, in words
    """

    id: int
    kind: PacketItemKind
    publication_id: str
    pdf_page: int
    last_page: int
    about: str
    note: str
    words: str
    as_added: Mapping[str, Any]
    added_at: datetime.datetime


@dataclass(frozen=True, slots=True)
class Packet:
    """aircraft  registration, "" = none; model and serial as they were when it was begun. Times in UTC."""

    id: str
    job: str
    aircraft: str
    model: str
    serial: str
    begun_at: datetime.datetime
    changed_at: datetime.datetime
    closed_at: datetime.datetime | None
    items: tuple[PacketItem, ...] = ()
