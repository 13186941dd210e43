"""Packs the public data that the chapter model learns from: the needed columns, sorted by row, xz-compressed.

    python tests/training/pack_data.py FOLDER

FOLDER holds the files named in data/SOURCES.md as they came. Run only when a source changes; what it wrote is
kept in data/, so that training needs nothing else.
"""

import csv
import lzma
import sys
from io import StringIO
from pathlib import Path

DATA = Path(__file__).parent / "data"


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def pack(name: str, columns: str, rows: list[dict[str, str]]) -> None:
    """Write data/NAME.csv.xz with these columns of the rows, in order of the first column."""
    names = columns.split()
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(names)
    for row in sorted(rows, key=lambda row: row[names[0]]):
        writer.writerow([" ".join(row[name].split()) for name in names])
    packed = lzma.compress(out.getvalue().encode("utf-8"), preset=9 | lzma.PRESET_EXTREME)
    (DATA / f"{name}.csv.xz").write_bytes(packed)
    print(f"{name}: {len(rows)} rows, {len(packed):,} bytes")


def main(folder: Path) -> None:
    narratives = rows_of(folder / "sdr_narratives_with_cited_refs.csv")
    labelled = [row for row in narratives if row["chapter_excl_generic"]]
    pack("narratives", "row_id chapter_excl_generic text_refs_masked", labelled)
    pack(
        "reports", "row_id jasc part_name part_location text", rows_of(folder / "sdr_2023_jasc_labelled.csv")
    )
    pack("directives", "fr_doc abstract", rows_of(folder / "ad_summaries.csv"))
    pack("definitions", "code heading_in_definitions definition", rows_of(folder / "jasc_definitions.csv"))
    pack("thesaurus", "term manual_term note", rows_of(folder / "thesaurus.csv"))
    regulations = [
        {"part": part, "text": " ".join(paragraph.split())}
        for part in ("39", "45")
        for paragraph in (folder / f"14cfr_part{part}_2015.txt").read_text(encoding="utf-8").split("\n")
        if len(paragraph.split()) >= 8
    ]
    pack("regulations", "part text", regulations)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
