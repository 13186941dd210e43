"""Which publications without a number are one book for the shop's entries: the file at a place was replaced.

Without a number a publication is a work by itself (works.py), so another edition of the same file would
lose what was entered. It is taken for the same book where it came to the same place and has the same type and
title (common sense, no source); whatever is carried over must still be found there for sure.
"""

from collections.abc import Iterable
from dataclasses import replace

from indexer.library.relation_rules.entry_places import Book

_ALONE = "alone|"


def followed(books: Iterable[Book]) -> list[Book]:
    """The books, with one work for those that came to one another's place. Two numbers are never made one."""
    held = sorted(books, key=lambda book: book.id)
    by_copy: dict[str, list[Book]] = {}
    for book in held:
        by_copy.setdefault(book.copy_id, []).append(book)
    root = {book.work_id: book.work_id for book in held}

    def root_of(work: str) -> str:
        while root[work] != work:
            work = root[work]
        return work

    for book in held:
        alike = [other for other in by_copy.get(book.replaced_by, ()) if _alike(book, other)]
        if len(alike) != 1 or sum(_alike(one, alike[0]) for one in by_copy[book.copy_id]) != 1:
            continue
        named, other = sorted((root_of(book.work_id), root_of(alike[0].work_id)), key=_alone_last)
        if other.startswith(_ALONE):
            root[other] = named
    return [replace(book, work_id=root_of(book.work_id)) for book in held]


def _alike(one: Book, other: Book) -> bool:
    return bool(one.title.strip()) and one.type == other.type and _plain(one.title) == _plain(other.title)


def _plain(title: str) -> str:
    return " ".join(title.split()).casefold()


def _alone_last(work: str) -> tuple[bool, str]:
    return work.startswith(_ALONE), work
