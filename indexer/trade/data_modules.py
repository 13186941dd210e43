"""S1000D data module codes: take one apart and say what its information code means."""

import re
from dataclasses import dataclass
from functools import cache

from indexer.trade.chapter_tables import read_table
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.dashes import plain_dashes

_CODE = re.compile(
    r"(?:DMC[- ]?)?(?P<model>[A-Z0-9]{2,14})-(?P<difference>[A-Z0-9]{1,4})-(?P<system>[0-9]{2})"
    r"-(?P<subsystem>[0-9]{2}|[0-9]-[0-9])-(?P<assembly>[0-9]{4}|[0-9]{2})-(?P<disassembly>[0-9]{2})"
    r"(?P<variant>[A-Z0-9]{1,3})-(?P<information>[0-9A-Z]{3})(?P<information_variant>[A-Z])-(?P<location>[A-DT])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class DataModule:
    """The parts of a data module code, in capitals. `number` has the scheme SNS: its project defines it."""

    model: str
    difference: str
    number: ChapterNumber
    disassembly: str
    variant: str
    information: str
    information_variant: str
    location: str

    @property
    def title(self) -> str | None:
        """What kind of information the module holds."""
        return information_title(self.information)


def parse_data_module(text: str) -> DataModule | None:
    """The data module whose code the field is, with or without "DMC"; None when it is not one."""
    match = _CODE.fullmatch(plain_dashes(text).strip())
    if match is None:
        return None
    part = {name: value.upper() for name, value in match.groupdict().items()}
    number = ChapterNumber(part["system"], part["subsystem"].replace("-", ""), part["assembly"], Scheme.SNS)
    return DataModule(
        part["model"],
        part["difference"],
        number,
        part["disassembly"],
        part["variant"],
        part["information"],
        part["information_variant"],
        part["location"],
    )


def information_title(code: str) -> str | None:
    """The meaning of a three-place information code: its own row, else its family ("523" as "5xx")."""
    rows = _information_codes()
    return next((rows[key] for key in (code.upper(), f"{code[:1]}xx") if key in rows), None)


@cache
def _information_codes() -> dict[str, str]:
    return {row["code"]: row["title"] for row in read_table("information_codes.csv")}
