"""The shapes of the job packets' answers, for the API's description."""

from datetime import datetime
from typing import Any, Literal

from pydantic import BaseModel, Field

from server.routes.models import State


class PacketHead(BaseModel):
    """aircraft, model and serial as they were when the packet was begun; "" = none."""

    id: str
    job: str
    name: str = Field(description="The job, or when it was begun where none was named.")
    aircraft: str
    model: str
    serial: str
    aircraft_words: str
    begun_at: datetime
    changed_at: datetime
    closed_at: datetime | None


class OpenPacket(PacketHead):
    count: int


class OpenPackets(BaseModel):
    library_state: State
    packets: list[OpenPacket]


class ChangeSince(BaseModel):
    standing: Literal["superseded", "changed"]
    words: str


class PacketItemAnswer(BaseModel):
    """`then`: what was known when it was added; `now`: the same today, "held" false where it is gone."""

    id: int
    kind: Literal["page", "passage", "figure", "part", "finding"]
    about: str
    publication: str
    pdf_page: int
    name: str
    note: str
    added_at: datetime
    then: dict[str, Any]
    now: dict[str, Any]
    is_superseded: bool
    changes: list[ChangeSince]


class PacketAnswer(PacketHead):
    library_state: State
    aircraft_now: dict[str, Any] | None
    aircraft_doubt: str
    standing: Literal["current", "changed", "superseded", "closed"] = Field(
        description="current = nothing held here changed since the items were added; no word about revisions."
    )
    standing_words: list[str]
    copy_: str = Field(alias="copy", description="What the packet says today, in 16 characters.")
    generations: list[int]
    items: list[PacketItemAnswer]
    cautions: list[str]
    caution: str


class PacketStanding(BaseModel):
    id: str
    standing: Literal["current", "changed", "superseded", "closed", "gone"]
    copy_: str | None = Field(alias="copy", description="A copy that bears another mark is to be replaced.")
    changed_at: datetime | None
    words: list[str]


class Standings(BaseModel):
    library_state: State
    packets: list[PacketStanding]


class AddedItem(BaseModel):
    packet: str
    address: str
    name: str
    count: int
    item: int
    new: bool
    begun: bool
    words: str
