"""Who may do what: the rights there are, and the roles that have them. Pure."""

from enum import StrEnum

from indexer.library.person_records import Role


class Right(StrEnum):
    """What may be done in the library."""

    READ = "read"
    ASK = "ask"  # source check, parts lists, packets, reports: it may be kept, and changes nothing
    TAGS = "tags"  # chapters, types, revisions, standing
    LISTS = "lists"  # the shop's words and its map
    FLEET = "fleet"
    REGISTER = "register"
    INGEST = "ingest"
    PERSONS = "persons"  # persons and tablets


READERS = frozenset({Right.READ, Right.ASK})  # nobody signs in for these
_OF_ROLE = {
    Role.LIBRARIAN: frozenset(Right),
    Role.INSPECTOR: READERS | {Right.TAGS, Right.FLEET, Right.REGISTER},
}
_ROLE_WORDS = {Role.LIBRARIAN: "a librarian", Role.INSPECTOR: "an inspector"}


def has(role: Role | None, right: Right) -> bool:
    """Whether a role has a right; None = nobody is signed in."""
    return right in (READERS if role is None else _OF_ROLE[role])


def role_words(role: Role) -> str:
    """ "a librarian"."""
    return _ROLE_WORDS[role]


def able_words(right: Right) -> str:
    """Who may, in words: "a librarian or an inspector"."""
    return " or ".join(_ROLE_WORDS[role] for role in Role if has(role, right))
