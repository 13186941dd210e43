"""What a line of the shop's map calls a manual, and which of the manuals held here that is. Pure.

A line speaks of one work. It names it by number, by a title that is not the kind of book alone ("SHOP MANUAL"
may be any airplane's), by model and title ("H-14 Service Manual"), or by the file. A name that fits several
works names none of them.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from indexer.library.records import PublicationRecord
from indexer.library.works import maker_key, number_key
from indexer.trade.publication_titles import says_kind_alone
from indexer.trade.publication_types import PublicationType


@dataclass(frozen=True, slots=True)
class Called:
    """What a publication is called by. maker: folded for comparison; the rest as printed, "" = none"""

    id: str
    work_id: str
    type: PublicationType | None
    maker: str
    number: str
    title: str
    file: str
    first_page: int
    on_shelf: bool


class Names:
    """The names of the publications held, also of replaced files."""

    def __init__(self, held: Iterable[Called], models_of: Callable[[str], Sequence[str]]):
        """models_of: publication id -> its models as printed; asked for few of them"""
        self._models_of = models_of
        self._numbers: dict[PublicationType | None, dict[str, list[Called]]] = {}
        self._titles: dict[str, list[Called]] = {}
        self._works: dict[str, list[str]] = {}
        self._held = sorted(held, key=lambda each: each.id)
        for each in self._held:
            self._works.setdefault(each.work_id, []).append(each.id)
            if each.number:
                numbers = self._numbers.setdefault(each.type, {})
                numbers.setdefault(number_key(each.number, each.type), []).append(each)
            if each.title:
                self._titles.setdefault(_plain(each.title), []).append(each)

    def fitting(self, name: str) -> list[Called]:
        """Every publication that a name may mean; by id. A number goes before a title, that before a file."""
        return self._numbered(name) or self._titled(name) or self._of_models(name) or self._filed(name)

    def reached(self, name: str) -> list[str]:
        """Ids of all revisions of the one work that a name means; [] where it fits none, or several."""
        found = self.fitting(name)
        if not self.are_one(found):
            return []
        works = dict.fromkeys(each.work_id for each in found)
        return [publication for work in works for publication in self._works[work]]

    def are_one(self, found: Sequence[Called]) -> bool:
        """Whether these are one work: nothing that is printed tells them apart. False for none."""
        if len({each.work_id for each in found}) < 2:
            return bool(found)
        one_file = len({_plain(each.file) for each in found}) == 1
        for told in (
            {each.type for each in found} - {None},
            {each.maker for each in found} - {""},
            {number_key(each.number, each.type) for each in found} - {""},
            # Two that lie on the shelf under one file name are two files, or two books bound in one.
            {each.id for each in found if each.on_shelf and one_file},
        ):
            if len(told) > 1:
                return False
        models = [set(self._models_of(each.id)) for each in found]
        return all(one & other or not one or not other for one in models for other in models)

    def key(self, called: Called) -> str:
        """What a line calls this publication: the first of number, title, file and page that means it alone.

        "" where it has no such name.
        """
        title = "" if says_kind_alone(called.title) else called.title
        for name in (called.number, title, called.file, _with_page(called)):
            if name and called.id in self.reached(name):
                return name
        return ""

    def line_name(self, name: str) -> str:
        """How a line writes a name that fits one work; "" for any other name.

        It is the key, or the name as given where the key does not reach all that this reaches.
        """
        found = self.fitting(name)
        if not self.are_one(found):
            return ""
        key = self.key(found[0])
        alike = {each.id for each in found}.issubset(self.reached(key)) if key else False
        return key if alike else " ".join(name.split())

    def nearly(self, name: str) -> list[Called]:
        """Those whose number or file is a name but for blanks and marks: "K9SM" is nearly K-9 SM."""
        wanted = _bare(name)
        return [
            each
            for each in self._held
            if wanted and (_bare(each.number) == wanted or _bare(each.file) in (wanted, f"{wanted}pdf"))
        ]

    def of_kind(self, title: str) -> list[Called]:
        """Those with a title that says the kind of book alone; such a title names none of them."""
        return self._titles.get(_plain(title), []) if says_kind_alone(title) else []

    def _numbered(self, name: str) -> list[Called]:
        return [
            each
            for type, numbers in self._numbers.items()
            for each in numbers.get(number_key(name, type) or "?", ())
        ]

    def _titled(self, name: str) -> list[Called]:
        return [] if says_kind_alone(name) else self._titles.get(_plain(name), [])

    def _of_models(self, name: str) -> list[Called]:
        words = _plain(name).split()
        for place in range(1, len(words)):
            model, title = " ".join(words[:place]), " ".join(words[place:])
            found = [
                each for each in self._titles.get(title, ()) if model in map(_plain, self._models_of(each.id))
            ]
            if found:
                return found
        return []

    def _filed(self, name: str) -> list[Called]:
        return self._files.get(_plain(name), [])

    @cached_property
    def _files(self) -> dict[str, list[Called]]:
        """Made when it is asked for: most lines name a manual by its number or title."""
        files: dict[str, list[Called]] = {}
        for each in self._held:
            file = _plain(each.file)
            for name in (file, file.removesuffix(".pdf"), _plain(_with_page(each))):
                files.setdefault(name, []).append(each)
        return files


def names_of(records: Iterable[PublicationRecord]) -> Names:
    held = {record.id: record for record in records}
    return Names(map(called, held.values()), lambda publication: held[publication].models)


def called(record: PublicationRecord) -> Called:
    maker = maker_key(record.identity.maker.value) if record.identity.maker else ""
    return Called(
        record.id,
        record.work_id,
        record.type,
        maker,
        record.number,
        record.title,
        record.file,
        record.first_page,
        record.replaced is None,
    )


def _with_page(each: Called) -> str:
    """For one of several books bound in a file."""
    return f"{each.file}, PDF page {each.first_page}"


def _bare(text: str) -> str:
    return re.sub(r"[\W_]+", "", text).casefold()


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()
