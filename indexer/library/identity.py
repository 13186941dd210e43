"""Which library this is: a random name, given once, so that a copy kept elsewhere knows whose it is."""

import secrets

from indexer.library.catalogue import Catalogue

_KEY = "library_id"
_BYTES = 8


def library_id(catalogue: Catalogue) -> str:
    """The name of this library, 16 hexadecimal digits; made when it has none. It changes no generation.

    Call it outside `reading`. Two that ask at once are given the same.
    """
    with catalogue.reading() as connection:
        row = connection.execute("SELECT value FROM meta WHERE key = ?", (_KEY,)).fetchone()
    if row:
        return row["value"]
    with catalogue.database.writing() as connection:
        connection.execute("INSERT OR IGNORE INTO meta VALUES (?, ?)", (_KEY, secrets.token_hex(_BYTES)))
        return connection.execute("SELECT value FROM meta WHERE key = ?", (_KEY,)).fetchone()["value"]
