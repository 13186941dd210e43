"""How long does a question about a part take? Ours against LIKE over the same rows.

    python tests/bench/parts.py FOLDER                makes a library of 200,000 rows there
    python tests/bench/parts.py FOLDER --rows 20000

Both in the same run. Twenty parts catalogues of 200 figures with 50 rows each: makers' own numbers, which one
to three catalogues have, and hardware to standards, of which the commonest washer has thousands of rows; each
fifth catalogue is read by OCR. Ours gives the labelled groups with their first 50 rows, numbers close by,
numbers that are only named, lines of the number index, and what could not be read. The peer looks for the
number in every row with LIKE and gives the rows: it knows no other way of writing it, likeness or order. The
machine is shared: look at the times of the processor. Results: a table here, and every single time in
tests/bench/runs/.
"""

import argparse
import datetime
import json
import os
import platform
import random
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "library"), str(ROOT / "tests" / "server")]

from making import Made, take  # noqa: E402
from plain_engine import PlainEngine  # noqa: E402
from times import shown, timed  # noqa: E402

from indexer.library.catalogue import Catalogue  # noqa: E402
from indexer.library.relations import relate  # noqa: E402
from indexer.settings import Settings  # noqa: E402
from indexer.tagging.parts_rows import (  # noqa: E402
    IndexedNumber,
    PartNote,
    PartNoteKind,
    PartsFigure,
    PartsList,
    PartsRow,
    UsageCode,
)
from indexer.trade.evidence import Box, Origin, PageBox  # noqa: E402
from indexer.trade.publication_types import PublicationType  # noqa: E402
from server.opened import OpenedLibrary  # noqa: E402
from server.parts import find_parts, part_row  # noqa: E402
from server.render import PagePictures  # noqa: E402

RUNS = Path(__file__).parent / "runs"
ROWS = 200_000
FIGURE_ROWS, FIGURES = 50, 200
ROUNDS = 5
TARGET_MS = 20.0
NOUNS = """bolt nut washer screw pin cotter bushing bearing seal packing spring bracket support clamp hose
    tube elbow tee union valve piston cylinder housing cover plate shim spacer lever arm link rod cable pulley
    guide hinge latch lock strut fork axle wheel tire brake disc lining caliper torque tubing panel door
    window frame rib stringer skin fairing duct filter pump motor starter alternator regulator relay switch
    lamp lens socket connector harness terminal placard gasket ring retainer clip knob handle seat
    belt""".split()
KINDS = """main nose left right upper lower inner outer forward aft front rear fixed flexible rigid lock
    support drain vent return supply pressure check relief control idle trim flap rudder elevator
    aileron""".split()


class NoEngine(PlainEngine):
    """Nothing is searched for here; an index would only cost the time to build it."""

    at = 0

    def generation(self) -> int:
        return self.at

    def rebuild(self, generation: int, *_: object, **__: object) -> None:
        self.at = generation


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("--rows", type=int, default=ROWS)
    options = parser.parse_args()
    folder = options.folder / "library"
    taken_s = 0.0
    with Catalogue.open(folder, create=True) as catalogue:
        if not catalogue.publications():
            for made in catalogues(options.rows):
                spent, _ = timed(take, catalogue, options.folder / "in", made)
                taken_s += spent.processor / 1000
            relate(catalogue)
    settings = Settings()
    pictures = PagePictures(options.folder / "pages", settings)
    found: dict[str, Any] = {}
    with OpenedLibrary(folder, Catalogue.open(folder), NoEngine(), pictures) as library:
        held = count(library.catalogue)
        for kind, asked in questions(library.catalogue).items():
            ours, peers, rows, peer_rows = [], [], 0, 0
            for _ in range(ROUNDS):
                for each in asked:
                    spent, answer = timed(find_parts, library, each)
                    ours.append(spent)
                    rows = sum(group["count"] for group in answer["groups"])
                    spent, held_by_peer = timed(like, library.catalogue, each)
                    peers.append(spent)
                    peer_rows = len(held_by_peer)
            print(f"{kind:24} ours {shown(ours)}  last answer {rows} rows")
            print(f"{'':24} LIKE {shown(peers)}  last answer {peer_rows} rows")
            found[kind] = {"ours": ours, "like": peers, "rows": rows, "rows_like": peer_rows}
        row_ids = [group["rows"][0]["id"] for group in find_parts(library, washer())["groups"]]
        spent = [timed(part_row, library, row_ids[0])[0] for _ in range(ROUNDS)]
        print(f"{'one row, commonest part':24} ours {shown(spent)}")
        found["one row"] = {"ours": spent}
    size_mb = (folder / "catalogue.sqlite").stat().st_size / 1e6
    print(
        f"{held} rows; taken in {taken_s:.0f} s of the processor (0 = made before); "
        f"catalogue {size_mb:.0f} MB"
    )
    numbers = [each.processor for name, times in found.items() if "number" in name for each in times["ours"]]
    high = sorted(numbers)[int(len(numbers) * 0.95)]
    print(
        f"part numbers: p95 {high:.1f} ms of the processor, target {TARGET_MS:.0f} ms: "
        f"{'met' if high < TARGET_MS else 'MISSED'}"
    )
    RUNS.mkdir(exist_ok=True)
    day = datetime.date.today().isoformat()
    kept = {
        "date": day,
        "machine": {"cores": os.cpu_count(), "load": os.getloadavg()[0], "python": platform.python_version()},
        "rows": held,
        "taken_s": round(taken_s, 1),
        "catalogue_mb": round(size_mb, 1),
        "times_ms": found,
    }
    (RUNS / f"{day}-parts.json").write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


def catalogues(rows: int) -> Iterator[Made]:
    """Parts catalogues with so many rows in all; every fifth is read by OCR."""
    chance = random.Random(62)
    for place in range(max(1, rows // (FIGURES * FIGURE_ROWS))):
        origin = Origin.OCR if place % 5 == 4 else Origin.DIGITAL
        figures, held = [], []
        for ordinal in range(FIGURES):
            page = 2 * ordinal + 2
            title = f"{chance.choice(KINDS)} {chance.choice(NOUNS)} installation".upper()
            figures.append(PartsFigure(ordinal, str(ordinal + 1), "", title, (page - 1,), (page,)))
            above: int | None = None
            for item in range(FIGURE_ROWS):
                own = len(held)
                row = _row(chance, place, own, ordinal, item, page, above, origin)
                if row.indenture == 0:
                    above = own
                held.append(row)
        index = tuple(
            IndexedNumber(
                each.part_number, f"{each.figure + 1}-{each.item}", "1", 2 * FIGURES + 1, Box(72, 72, 300, 84)
            )
            for each in held[::10]
        )
        yield Made(
            f"parts-{place}.pdf",
            PublicationType.PARTS_CATALOG,
            f"IPC-{place}",
            "1",
            datetime.date(2000 + place % 30, 1, 1),
            f"Maker {place}",
            "PARTS CATALOG",
            (f"M{place}",),
            pages=2 * FIGURES + 1,
            parts=PartsList(tuple(figures), tuple(held), index),
        )


def _row(
    chance: random.Random,
    place: int,
    ordinal: int,
    figure: int,
    item: int,
    page: int,
    above: int | None,
    origin: Origin,
) -> PartsRow:
    top = 90.0 + 12 * item
    dots = 0 if item % 12 == 0 else 1
    name = f"{chance.choice(NOUNS)}, {chance.choice(KINDS)} {chance.choice(NOUNS)}".upper()
    number = washer() if chance.random() < 0.02 else _number(chance, place)
    notes = ()
    if chance.random() < 0.03:
        other = _number(chance, place)
        notes = (PartNote(PartNoteKind.SUPERSEDED_BY, f"SUPSD BY {other}", other),)
    return PartsRow(
        ordinal,
        figure,
        str(item + 1),
        number,
        name,
        dots,
        str(chance.randint(1, 8)),
        page,
        (PageBox(page, Box(72, top, 540, top + 10)),),
        f"{item + 1} {number} {'.' * dots}{name}",
        usage=(UsageCode("A", "S/N 0001 THRU 0350", page),) if chance.random() < 0.2 else (),
        above=above if dots else None,
        notes=notes,
        number_box=Box(110, top, 180, top + 10),
        callouts=(PageBox(page - 1, Box(200, 300, 212, 310)),),
        origin=origin,
        confidence=0.9 if origin is Origin.OCR else None,
    )


def washer() -> str:
    return "AN960-10"


def _number(chance: random.Random, place: int) -> str:
    if chance.random() < 0.4:
        return chance.choice(
            (
                f"AN{chance.randint(3, 8)}-{chance.randint(3, 40)}{chance.choice(('', 'A', 'H'))}",
                f"MS20470AD{chance.randint(3, 6)}-{chance.randint(3, 20)}",
                f"NAS1149F{chance.randint(3, 9):02}{chance.randint(16, 63)}P",
            )
        )
    return f"{60 + (place + chance.randint(0, 2)) % 40}-{chance.randint(1000, 9999)}-{chance.randint(1, 99)}"


def questions(catalogue: Catalogue) -> dict[str, list[str]]:
    """Numbers of rows here by chance, and what else is asked for."""
    chance = random.Random(14)
    with catalogue.reading() as connection:
        held = sorted(each[0] for each in connection.execute("SELECT DISTINCT part_number FROM part_row"))
    own = chance.sample([each for each in held if each[0].isdigit()], 15)
    standard = chance.sample([each for each in held if not each[0].isdigit()], 10)
    return {
        "number of a maker": own,
        "number, other form": [each.replace("-", " ") for each in own],
        "number to a standard": standard,
        "commonest number": [washer()],
        "number not here": ["99-9999-999X", "ZZ-1234"],
        "words": ["brake lining", "main wheel bearing", "cotter pin", "jug", "fuel pump"],
        "fig 14 item 7": ["fig 14 item 7"],
    }


def count(catalogue: Catalogue) -> int:
    with catalogue.reading() as connection:
        return connection.execute("SELECT COUNT(*) FROM part_row").fetchone()[0]


def like(catalogue: Catalogue, asked: str) -> list:
    with catalogue.reading() as connection:
        return connection.execute(
            "SELECT publication_id, ordinal FROM part_row WHERE record_json LIKE ?", (f"%{asked}%",)
        ).fetchall()


if __name__ == "__main__":
    main()
