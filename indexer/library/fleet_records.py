"""The shop's aircraft and what is fitted to them. Values only."""

import datetime
from dataclasses import dataclass
from enum import StrEnum


class FittedKind(StrEnum):
    """Articles with their own serial, and alterations, which have a number."""

    ENGINE = "engine"
    PROPELLER = "propeller"
    APPLIANCE = "appliance"
    ALTERATION = "alteration"


@dataclass(frozen=True, slots=True)
class Fitted:
    """One article or alteration of an aircraft.

    position  "left", "1"; "" = the only one
    model     of an alteration: its number or name ("SA1234ZZ")
    serial    of the article, never of the aircraft; "" = not known
    """

    kind: FittedKind
    model: str
    serial: str = ""
    maker: str = ""
    position: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Aircraft:
    """One aircraft of the shop's fleet list, as a named person entered or confirmed it.

    registration  as painted, in capitals: it is not a serial
    serial        of the airframe; "" = not known
    confirmed_on  when the row was last held against the aircraft and its records; None = never
    confirmed_by  who did; where nobody has, who entered the row
    """

    id: int
    registration: str
    maker: str
    model: str
    serial: str
    fitted: tuple[Fitted, ...]
    note: str
    confirmed_on: datetime.date | None
    confirmed_by: str
