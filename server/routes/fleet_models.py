"""The shapes of the JSON answers and questions about the fleet list, for /api/openapi.json."""

import datetime
from typing import Literal

from pydantic import Field

from server.routes.list_models import ImportAnswer, Reasoned, Who
from server.routes.models import Shape, State

KindWord = Literal["engine", "propeller", "appliance", "alteration"]


class Fitted(Shape):
    """An article with its own serial, or an alteration."""

    kind: KindWord
    position: str = Field(examples=["left"], description='"" = the only one.')
    maker: str
    model: str = Field(examples=["Marl 260"], description="Of an alteration: its number or name.")
    serial: str | None = Field(description="Of the article, never of the aircraft; null = not known.")
    note: str


class Aircraft(Shape):
    registration: str = Field(examples=["QX-1AB"], description="As painted, in capitals.")
    maker: str
    model: str = Field(examples=["QZ62"])
    serial: str | None = Field(examples=["QZ-077"], description="Of the airframe; null = not known.")
    note: str
    confirmed_on: datetime.date | None = Field(
        description="When the row was last held against the aircraft; null = never."
    )
    confirmed_by: str = Field(description="Who did; where nobody has, who entered the row.")
    fitted: list[Fitted]


class AircraftAnswer(Aircraft):
    library_state: State


class FleetList(Shape):
    library_state: State
    total: int
    aircraft: list[Aircraft]


class NewFitted(Shape):
    kind: str = Field(max_length=40, examples=["engine"])
    model: str = Field(max_length=200)
    serial: str = Field("", max_length=200)
    maker: str = Field("", max_length=200)
    position: str = Field("", max_length=200)
    note: str = Field("", max_length=1000)


class NewAircraft(Shape):
    registration: str = Field(max_length=40)
    model: str = Field(max_length=200)
    who: str = Who
    serial: str = Field("", max_length=200)
    maker: str = Field("", max_length=200)
    note: str = Field("", max_length=1000)
    fitted: list[NewFitted] = Field([], max_length=100)
    confirmed_on: datetime.date | None = Field(
        None, description="When `who` held the row against the aircraft; null = never: it is only entered."
    )


class Change(Reasoned):
    """What is null stays as it is; `fitted` replaces all that was fitted. This does not confirm the row."""

    registration: str | None = Field(None, max_length=40)
    maker: str | None = Field(None, max_length=200)
    model: str | None = Field(None, max_length=200)
    serial: str | None = Field(None, max_length=200)
    note: str | None = Field(None, max_length=1000)
    fitted: list[NewFitted] | None = Field(None, max_length=100)


class Confirmation(Shape):
    who: str = Who
    on: datetime.date | None = Field(None, description="null = today")


class Fit(Reasoned):
    fitted: NewFitted
    instead: bool = Field(False, description="It takes the place of what is of its kind at its position.")


class Unfit(Reasoned):
    kind: str = Field(max_length=40)
    position: str = Field("", max_length=200)
    model: str = Field("", max_length=200)
    serial: str = Field("", max_length=200)


class FleetToImport(Shape):
    csv: str = Field(
        description="Columns registration, kind, position, maker, model, serial, note, confirmed_on, "
        "confirmed_by; one line for each aircraft and each thing fitted."
    )
    who: str = Who
    why: str = Field(
        "", max_length=1000, description="Given, aircraft that the list has otherwise are changed."
    )


class FleetImportAnswer(ImportAnswer):
    changed: int
