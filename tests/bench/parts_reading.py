"""Parts lists: how many rows are read right and how long it takes, beside pdfplumber's own tables.

    python tests/bench/parts_reading.py [--repeat 3] [--save]

Rows are those of the layouts drawn in tests/parts, with their truth; the same scorer counts for all. Times
are of the processor, for the machine is shared. Ours is timed over pages that are laid out already (what
reading costs is in bench/reading.py); pdfplumber over whole pages, for it lays them out itself: the two are
not alike, and the table says so. What a page costs that is no parts page is measured on the sample
maintenance manual, taken for a component manual.
"""

import argparse
import json
import platform
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from statistics import median

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
sys.path += [str(ROOT), str(HERE.parent / "parts")]

from parts_layouts import books  # noqa: E402
from parts_references import STRATEGIES, our_rows, pdfplumber_rows, right_rows  # noqa: E402
from parts_score import score_rows  # noqa: E402

from indexer.reading.document import read_document  # noqa: E402
from indexer.settings import Settings  # noqa: E402
from indexer.tagging.parts_list import read_parts_list  # noqa: E402
from indexer.trade.publication_types import PublicationType  # noqa: E402

NO_PARTS = ROOT / "sample_docs/pdf/qz62-maintenance-manual.pdf"


def measure(repeat: int) -> dict:
    """Raw seconds of every run, and the rows right of each way."""
    with tempfile.TemporaryDirectory() as folder:
        drawn = [(book, book.write(Path(folder))) for book in books()]
        read = [(book, path, read_document(path, Settings()).pages) for book, path in drawn]
        found = {"rows": sum(len(book.rows) for book, _ in drawn), "pages": sum(len(p) for *_, p in read)}
        seconds, right, whole = [], 0, 0
        for _ in range(repeat):
            began = time.process_time()
            parts = [read_parts_list(PublicationType(book.kind), pages) for book, _, pages in read]
            seconds.append(time.process_time() - began)
        for (book, _), each in zip(drawn, parts, strict=True):
            right += right_rows(book, our_rows(each))
            whole += score_rows(book, each).right
        found["ours"] = {"right": right, "every cell right": whole, "seconds": seconds}
        for name, strategy in STRATEGIES.items():
            began = time.process_time()
            right = sum(right_rows(book, pdfplumber_rows(path, strategy)) for book, path in drawn)
            found[name] = {"right": right, "seconds": [time.process_time() - began]}
    pages = read_document(NO_PARTS, Settings()).pages
    seconds = []
    for _ in range(repeat):
        began = time.process_time()
        parts = read_parts_list(PublicationType.COMPONENT_MAINTENANCE_MANUAL, pages)
        seconds.append(time.process_time() - began)
    found["no parts page"] = {"pages": len(pages), "rows": len(parts.rows), "seconds": seconds}
    return found


def table(found: dict) -> str:
    """The result for a person: rows right, and milliseconds a page."""
    lines = [f"{found['rows']} rows on {found['pages']} pages; Python {platform.python_version()}"]
    for name in ("ours", *STRATEGIES):
        each = found[name]
        spent = median(each["seconds"]) * 1000 / found["pages"]
        note = "pages laid out already" if name == "ours" else "with its own laying out"
        lines.append(f"{name:26} {each['right']:4} rows right  {spent:7.1f} ms a page ({note})")
    none = found["no parts page"]
    lines.append(
        f"{'a page without parts':26} {none['rows']:4} rows        "
        f"{median(none['seconds']) * 1000 / none['pages']:7.2f} ms a page"
    )
    return "\n".join(lines)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--repeat", type=int, default=3)
    asked.add_argument("--save", action="store_true", help="keep the raw numbers in tests/bench/runs")
    given = asked.parse_args()
    found = measure(given.repeat)
    print(table(found))
    if given.save:
        kept = HERE / "runs" / f"{date.today()}-parts-reading.json"
        kept.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
