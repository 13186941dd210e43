"""One topic of the twin's maintenance manual as its content files write it."""

from dataclasses import dataclass

BLOCKS = {
    "1": "Description and operation",
    "101": "Troubleshooting / fault isolation",
    "201": "Maintenance practices",
    "301": "Servicing",
    "401": "Removal/installation",
    "501": "Adjustment/test",
    "601": "Inspection/check",
}


@dataclass(frozen=True)
class Section:
    """`start` is the printed number of its first page; `date` as printed in the foot."""

    number: str
    start: str
    title: str
    date: str
    text: str
    effectivity: str = "ALL"
    data_standing: str = "undetermined"
    directive: str = ""
    note: str = ""
    later_pages: tuple[tuple[int, dict], ...] = ()

    @property
    def block(self) -> str:
        return BLOCKS[self.start]
