"""Lines of records with the sources they name, and how well a reader finds them: whole citations only."""

import re
from dataclasses import dataclass
from pathlib import Path

from indexer.tagging.tags import Citation
from indexer.trade.publication_types import PublicationType as Type

SHORT = {
    "mm": Type.MAINTENANCE_MANUAL, "sm": Type.SERVICE_MANUAL, "srm": Type.STRUCTURAL_REPAIR_MANUAL,
    "cmm": Type.COMPONENT_MAINTENANCE_MANUAL, "ipc": Type.PARTS_CATALOG, "em": Type.ENGINE_MANUAL,
    "pm": Type.PROPELLER_MANUAL, "wdm": Type.WIRING_DIAGRAM_MANUAL, "spm": Type.STANDARD_PRACTICES_MANUAL,
    "sb": Type.SERVICE_BULLETIN, "sl": Type.SERVICE_LETTER, "ad": Type.AIRWORTHINESS_DIRECTIVE,
    "ac": Type.ADVISORY_CIRCULAR, "stc": Type.SUPPLEMENTAL_TYPE_CERTIFICATE,
    "tcds": Type.TYPE_CERTIFICATE_DATA_SHEET, "337": Type.REPAIR_ALTERATION_RECORD,
    "8110": Type.ENGINEERING_APPROVAL, "pma": Type.PARTS_APPROVAL, "8130": Type.RELEASE_CERTIFICATE,
    "amoc": Type.AMOC_LETTER, "saib": Type.AIRWORTHINESS_BULLETIN,
    "ica": Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS, "als": Type.AIRWORTHINESS_LIMITATIONS,
    "afm": Type.FLIGHT_MANUAL, "afms": Type.FLIGHT_MANUAL_SUPPLEMENT, "mel": Type.MINIMUM_EQUIPMENT_LIST,
    "rule": Type.REGULATION, "tr": Type.TEMPORARY_REVISION, "order": Type.ORDER_OR_HANDBOOK,
    "nprm": Type.PROPOSED_DIRECTIVE, "spec": Type.PROCESS_SPECIFICATION, "-": None,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Expected:
    """One source as the line names it. `fields` holds the fields told in the file, and only those."""

    start: int
    end: int
    type: Type | None
    fields: dict[str, str]
    current: bool


@dataclass(frozen=True, slots=True)
class Line:
    text: str
    expected: tuple[Expected, ...]


def read_lines(file: Path) -> list[Line]:
    """The lines of a file in the form that its head tells."""
    lines: list[Line] = []
    for written in file.read_text(encoding="utf-8").splitlines():
        if not written.strip() or written.startswith("#"):
            continue
        if not written.startswith("  "):
            lines.append(Line(written, ()))
            continue
        words, _, told = written.strip().rpartition(" | ")
        line = lines[-1]
        start = line.text.index(words, line.expected[-1].end if line.expected else 0)
        parts = told.split()
        fields = dict(part.split("=", 1) for part in parts[1:] if "=" in part)
        fields = {name: value.replace("_", " ") for name, value in fields.items()}
        one = Expected(start, start + len(words), SHORT[parts[0]], fields, "current" in parts)
        lines[-1] = Line(line.text, (*line.expected, one))
    return lines


def told(citation: Citation) -> dict[str, str]:
    """The fields of a citation that say something, by the file's names."""
    fields = {
        "n": citation.number, "rev": citation.revision, "p": citation.page, "fig": citation.figure,
        "item": citation.item, "par": citation.paragraph,
        "ch": str(citation.chapter_number or ""), "date": str(citation.date or ""),
    }  # fmt: skip
    return {name: value for name, value in fields.items() if value}


_WHOLE = ("n", "rev", "date", "ch", "p", "fig")


def agrees(expected: Expected, citation: Citation, names: tuple[str, ...] = _WHOLE) -> bool:
    """Whether the places overlap, and number, revision, date, chapter, page and figure are those told."""
    found = told(citation)
    overlap = citation.start < expected.end and expected.start < citation.end
    return overlap and all(_plain(found.get(name)) == _plain(expected.fields.get(name)) for name in names)


def _plain(value: str | None) -> str:
    return re.sub(r"\s+", " ", value or "")


@dataclass(slots=True)
class Score:
    """Whole citations expected, found, and right; what was missed and what was too much, in words."""

    expected: int = 0
    found: int = 0
    right: int = 0
    typed: int = 0
    paragraphs: int = 0
    wrong: list[str] | None = None

    @property
    def precision(self) -> float:
        return self.right / self.found

    @property
    def recall(self) -> float:
        return self.right / self.expected


def score(lines: list[Line], find) -> Score:
    """How the finder does on all the lines."""
    result = Score(wrong=[])
    for line in lines:
        found = find(line.text)
        result.expected += len(line.expected)
        result.found += len(found)
        left = list(found)
        for one in line.expected:
            match = next((each for each in left if agrees(one, each)), None)
            if match is None:
                result.wrong.append(f"{line.text}\n      missed {one.type} {one.fields}")
                continue
            left.remove(match)
            result.right += 1
            result.typed += match.type is one.type
            same = match.paragraph == one.fields.get("par", "") and match.item == one.fields.get("item", "")
            result.paragraphs += same and match.claims_current == one.current
            if match.type is not one.type or not same:
                result.wrong.append(
                    f"{line.text}\n      differs {one.type} {one.fields}: {match.type} {told(match)}"
                )
        result.wrong += [f"{line.text}\n      extra {each.type} «{each.text}» {told(each)}" for each in left]
    return result
