"""Persons of the shop who may change the library, and tablets that may read it."""

import datetime
from dataclasses import dataclass
from enum import StrEnum


class Role(StrEnum):
    """What a person of the shop is here; the words are the trade's."""

    LIBRARIAN = "librarian"
    INSPECTOR = "inspector"


@dataclass(frozen=True, slots=True)
class Person:
    """ended_at   None = may sign in; locked_until   None = not locked. Times in UTC."""

    id: int
    name: str
    role: Role
    named_at: datetime.datetime
    ended_at: datetime.datetime | None = None
    locked_until: datetime.datetime | None = None


@dataclass(frozen=True, slots=True)
class Tablet:
    """A device that gave the shop's code. Times in UTC."""

    id: int
    name: str
    joined_at: datetime.datetime
    last_seen: datetime.datetime
    ended_at: datetime.datetime | None = None
