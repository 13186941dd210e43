"""How complete the listing of a system is, against libraries whose truth is known page by page.

    python tests/bench/system_recall.py [--documents 2000] [--scans 0.4] [--samples] [--keep FOLDER]

Draws the library (generated/write.py) or takes the sample library, ingests it the usual way, asks for the
listing of every chapter, and counts page by page: what is printed, referred to and worked out from the text;
then takes in the shop's map of half of the own-order manuals and counts what is mapped. Prints one table.

recall     share of (page, chapter) pairs of the truth that stand in the listing of that chapter
precision  share of (page, chapter) pairs listed as likely or possible that the truth has
"""

import argparse
import csv
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parent)]

from generated.write import write_library  # noqa: E402

from indexer.ingest import ingest  # noqa: E402
from indexer.library.shop_map import import_csv  # noqa: E402
from indexer.library.whoosh_engine import WhooshEngine  # noqa: E402
from indexer.settings import Settings  # noqa: E402
from indexer.trade.chapters import all_chapters  # noqa: E402
from server.opened import OpenedLibrary, index_folder  # noqa: E402
from server.system import everything_on, remainder_of  # noqa: E402
from server.system_records import How  # noqa: E402

SAMPLES = Path(__file__).parents[2] / "sample_docs"
Place = tuple[str, int]  # file, pdf page (1-based)
Pairs = set[tuple[Place, str]]  # with the chapter
PISTON_ENGINE = "85"  # of the JASC table: it lists what ATA Spec 100 files under 72, which is counted there
KNOWN = (How.PRINTED, How.SHOP_ENTRY, How.MAPPED, How.LIKELY, How.POSSIBLE)
INFERRED = (How.LIKELY, How.POSSIBLE)


@dataclass(slots=True)
class Truth:
    """What is known of a library's pages; `own` and `unnumbered` print no chapter number."""

    printed: Pairs
    own: Pairs
    unnumbered: Pairs
    mapped: Pairs  # those of `own` that the shop's map speaks of
    refers: Pairs
    scans: set[Place]
    none: set[Place]  # title pages, contents


def generated_truth(rows: Iterable[dict[str, str]]) -> Truth:
    truth = Truth(set(), set(), set(), set(), set(), set(), set())
    for row in rows:
        place = (row["file"], int(row["pdf_page"]))
        if row["scan"] == "1":
            truth.scans.add(place)
            continue
        if row["how"] == "none":
            truth.none.add(place)
        for chapter in filter(None, row["chapters"].split(";")):
            getattr(truth, row["how"]).add((place, chapter))
            if row["mapped"] == "1" and row["how"] == "own":
                truth.mapped.add((place, chapter))
        truth.refers.update((place, number[:2]) for number in filter(None, row["refers"].split(";")))
    return truth


def sample_truth(rows: Iterable[dict[str, str]]) -> Truth:
    """The samples' own truth; for pages without a chapter number those a person would file them under."""
    truth = Truth(set(), set(), set(), set(), set(), set(), set())
    for row in rows:
        place = (row["file"], int(row["pdf_page"]))
        if row["text_state"] != "text":
            truth.scans.add(place)
        elif row["chapter"] and row["scheme"] in ("ATA", ""):
            truth.printed.add((place, row["chapter"]))
        elif row["filed_under"]:
            kind = truth.own if row["scheme"] == "OWN" else truth.unnumbered
            kind.update((place, chapter) for chapter in row["filed_under"].split(";"))
    return truth


def listings(library: OpenedLibrary) -> dict[How, Pairs]:
    """Every page of every chapter's listing, by how it is known."""
    found: dict[How, Pairs] = defaultdict(set)
    for chapter in all_chapters():
        if chapter == PISTON_ENGINE:
            continue
        answer = everything_on(library, chapter)
        for section in answer.sections:
            for line in section.lines:
                found[line.how].update(
                    ((line.publication.file, page.pdf_page), chapter) for page in line.pages
                )
    return found


def share(part: int, whole: int) -> str:
    return f"{part / whole:.4f} ({part:,} of {whole:,})" if whole else "none"


def recall(wanted: Pairs, found: Pairs) -> str:
    return share(len(wanted & found), len(wanted))


def pages_right(wanted: Pairs, found: Pairs) -> str:
    """Share of pages that stand under at least one right chapter."""
    pages = {place for place, _ in wanted}
    return share(len({place for place, _ in wanted & found}), len(pages))


def union(found: dict[How, Pairs], kinds: Iterable[How]) -> Pairs:
    return set().union(*(found[how] for how in kinds))


def before_map(truth: Truth, found: dict[How, Pairs]) -> Iterator[tuple[str, str]]:
    inferred, wanted = union(found, INFERRED), truth.own | truth.unnumbered
    likely = found[How.LIKELY]
    yield "printed: recall", recall(truth.printed, union(found, KNOWN))
    yield "printed: listed as printed and not in the truth", f"{len(found[How.PRINTED] - truth.printed):,}"
    if truth.refers:
        yield "referred to: recall", recall(truth.refers, union(found, How))
    yield "worked out from the text: recall", recall(wanted, union(found, KNOWN))
    right = wanted | truth.printed
    yield "worked out from the text: precision", share(len(inferred & right), len(inferred))
    yield "of that, likely: precision", share(len(likely & right), len(likely))
    yield "own-order manuals: pages under a right chapter", pages_right(truth.own, union(found, KNOWN))
    yield "title and contents pages listed by their text", f"{len({p for p, _ in inferred} & truth.none):,}"


def not_listed(library: OpenedLibrary) -> Iterator[tuple[str, str]]:
    """What stands in no listing, by cause: it is counted at the end of every listing."""
    with library.reading():
        for cause in remainder_of(library):
            yield f"in no listing: {cause.unit}s that {cause.words}", f"{cause.total:,}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--documents", type=int, default=2000)
    parser.add_argument("--scans", type=float, default=0.0)
    parser.add_argument("--samples", action="store_true", help="the sample library in place of a drawn one")
    parser.add_argument("--keep", type=Path, help="draw and ingest here, and keep it")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        place = given.keep or Path(folder)
        files, home = SAMPLES / "pdf" if given.samples else place / "files", place / "library"
        if given.samples:
            truth = sample_truth(csv.DictReader((SAMPLES / "truth.csv").open(encoding="utf-8")))
        else:
            write_library(files, given.documents, given.scans, 1)
            truth = generated_truth(csv.DictReader((files / "truth.csv").open(encoding="utf-8")))
        settings, begun = Settings(), time.perf_counter()
        report = ingest(
            [files], home, settings, engine=WhooshEngine(index_folder(home), settings.search_cache_mb)
        )
        print(f"documents: {len(report.taken):,} taken, {len(report.refused):,} refused")
        print(f"ingest: {time.perf_counter() - begun:.0f} s")
        with OpenedLibrary.open(home, settings) as library:
            for name, value in (*before_map(truth, listings(library)), *not_listed(library)):
                print(f"{name}: {value}")
            if truth.mapped:
                text = (files / "map.csv").read_text(encoding="utf-8")
                print("map:", import_csv(library.catalogue, text, "R. Quill"))
                mapped = listings(library)[How.MAPPED]
                print("mapped: recall:", recall(truth.mapped, mapped))
                print("mapped: not in the truth:", f"{len(mapped - truth.mapped):,}")


if __name__ == "__main__":
    main()
