"""Who is signed in: a token that only the browser holds, and the person and the end that belong to it."""

import datetime
import hashlib
import secrets

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.people import person_of_row
from indexer.library.person_records import Person

_TOKEN_BYTES = 32


def sign_in(catalogue: Catalogue, person: Person, hours: float) -> str:
    """Sign a person in, and return the new token. Sign-ins that have run out are forgotten.

    hours   until it ends
    """
    token = secrets.token_urlsafe(_TOKEN_BYTES)
    at = rows.now()
    until = rows.moment(at) + datetime.timedelta(hours=hours)
    with catalogue.database.writing() as connection:
        connection.execute("DELETE FROM sign_in WHERE until <= ?", (at,))
        connection.execute(
            "INSERT INTO sign_in VALUES (?, ?, ?, ?)",
            (token_hash(token), person.id, at, until.isoformat(timespec="milliseconds")),
        )
    return token


def sign_out(catalogue: Catalogue, token: str) -> None:
    """End one sign-in; nothing happens where there is none."""
    with catalogue.database.writing() as connection:
        connection.execute("DELETE FROM sign_in WHERE token_hash = ?", (token_hash(token),))


def signed_in(catalogue: Catalogue, token: str) -> Person | None:
    """Who holds this token; None when it is unknown or has run out, or the person was ended."""
    if not token:
        return None
    with catalogue.reading() as connection:
        row = connection.execute(
            "SELECT person.* FROM sign_in JOIN person ON person.id = person_id"
            " WHERE token_hash = ? AND until > ? AND ended_at = ''",
            (token_hash(token), rows.now()),
        ).fetchone()
    return person_of_row(row) if row else None


def token_hash(token: str) -> str:
    """What is kept of a token: whoever reads the catalogue can sign in with none of it."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
