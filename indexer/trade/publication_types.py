"""The types of publication a repair shop holds, and the standing each usually has.

Facts: common teaching of the trade for US-registered civil aircraft, with the basis named per row in
tables/publication_types.csv. The usual standing of a type is never a finding of approval.
"""

import csv
import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import resources


class PublicationType(StrEnum):
    """The value is the word used in files, filters and the API; `.label` is for the screen."""

    MAINTENANCE_MANUAL = "maintenance-manual"
    SERVICE_MANUAL = "service-manual"
    INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS = "instructions-for-continued-airworthiness"
    AIRWORTHINESS_LIMITATIONS = "airworthiness-limitations"
    PARTS_CATALOG = "parts-catalog"
    STRUCTURAL_REPAIR_MANUAL = "structural-repair-manual"
    COMPONENT_MAINTENANCE_MANUAL = "component-maintenance-manual"
    ENGINE_MANUAL = "engine-manual"
    PROPELLER_MANUAL = "propeller-manual"
    WIRING_DIAGRAM_MANUAL = "wiring-diagram-manual"
    STANDARD_PRACTICES_MANUAL = "standard-practices-manual"
    SERVICE_BULLETIN = "service-bulletin"
    SERVICE_LETTER = "service-letter"
    AIRWORTHINESS_DIRECTIVE = "airworthiness-directive"
    PROPOSED_DIRECTIVE = "proposed-directive"
    AMOC_LETTER = "amoc-letter"
    AIRWORTHINESS_BULLETIN = "airworthiness-bulletin"
    TYPE_CERTIFICATE_DATA_SHEET = "type-certificate-data-sheet"
    SUPPLEMENTAL_TYPE_CERTIFICATE = "supplemental-type-certificate"
    FLIGHT_MANUAL = "flight-manual"
    FLIGHT_MANUAL_SUPPLEMENT = "flight-manual-supplement"
    MINIMUM_EQUIPMENT_LIST = "minimum-equipment-list"
    ADVISORY_CIRCULAR = "advisory-circular"
    REPAIR_ALTERATION_RECORD = "repair-alteration-record"
    ENGINEERING_APPROVAL = "engineering-approval"
    PARTS_APPROVAL = "parts-approval"
    RELEASE_CERTIFICATE = "release-certificate"
    PROCESS_SPECIFICATION = "process-specification"
    ORDER_OR_HANDBOOK = "order-or-handbook"
    REGULATION = "regulation"
    ACCIDENT_REPORT = "accident-report"
    TEMPORARY_REVISION = "temporary-revision"
    CODE_TABLE = "code-table"

    @property
    def label(self) -> str:
        """The name on the screen."""
        return type_row(self).title

    @property
    def usual_standing(self) -> str:
        """ "approved", "acceptable", "information" or "undetermined": never more than "usually"."""
        return type_row(self).usual_standing


@dataclass(frozen=True, slots=True)
class TypeRow:
    type: PublicationType
    title: str
    short: str
    also: tuple[str, ...]
    usual_standing: str
    standing_note: str
    source: str


@cache
def _table() -> dict[PublicationType, TypeRow]:
    text = (
        resources.files("indexer.trade").joinpath("tables/publication_types.csv").read_text(encoding="utf-8")
    )
    rows = {}
    for row in csv.DictReader(text.splitlines()):
        kind = PublicationType(row["type"])
        rows[kind] = TypeRow(
            kind,
            row["title"],
            row["short"],
            tuple(name.strip() for name in row["also"].split(";") if name.strip()),
            row["usual_standing"],
            row["standing_note"],
            row["source"],
        )
    return rows


def type_row(kind: PublicationType) -> TypeRow:
    """All that is known of a type."""
    return _table()[kind]


def parse_type(text: str) -> PublicationType | None:
    """A type from its value, title, short form or another trade name; None when it is none of them."""
    return _names().get(_folded(text))


@cache
def _names() -> dict[str, PublicationType]:
    names = {}
    for row in _table().values():
        for name in (row.type.value, row.title, row.short, *row.also):
            names.setdefault(_folded(name), row.type)
    return names


def _folded(name: str) -> str:
    return re.sub(r"[\W_]+", " ", name).strip().casefold()
