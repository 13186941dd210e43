"""How long does a check of one line take? Ours against a plain search of the texts for the number.

    python tests/bench/source_check.py FOLDER              makes a library of 50,000 passages there
    python tests/bench/source_check.py FOLDER --scale 0.1

Both in the same run. The library is that of relating_library.py. Ours gives the whole finding: document,
revision, place, standing, directives, whether it is enough; once without and once with the audit trail, which
waits for the disk. The peer looks for the cited number in every passage with LIKE and gives the passages: it
knows neither revision nor standing. The machine is shared: look at the times of the processor. Results: a
table here, and every single time in tests/bench/runs/.
"""

import argparse
import datetime
import json
import os
import platform
import random
import sys
from pathlib import Path

import relating_library as library
from making import take
from times import Times, shown, timed

sys.path[:0] = [str(library.ROOT / "tests" / "server")]

from plain_engine import PlainEngine  # noqa: E402

from indexer.library import fleet  # noqa: E402
from indexer.library.catalogue import Catalogue  # noqa: E402
from indexer.library.relations import relate  # noqa: E402
from indexer.settings import Settings  # noqa: E402
from server.opened import OpenedLibrary  # noqa: E402
from server.render import PagePictures  # noqa: E402
from server.sourcecheck import check  # noqa: E402

RUNS = Path(__file__).parent / "runs"
SCALE = 0.5  # of 100,000 passages
ROUNDS = 3
TARGET_MS = 50.0


class NoEngine(PlainEngine):
    """Nothing is searched for here; an index would only cost the time to build it."""

    def rebuild(self, *_: object, **__: object) -> None: ...


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("--scale", type=float, default=SCALE, help="1.0 = 100,000 passages")
    options = parser.parse_args()
    folder = options.folder / "library"
    with Catalogue.open(folder, create=True) as catalogue:
        if not catalogue.publications():
            for made in library.publications(options.scale):
                take(catalogue, options.folder / "in", made)
            relate(catalogue)
            for place in range(round(library.MAKERS * options.scale)):
                fleet.add(
                    catalogue,
                    f"N{100 + place}C",
                    f"C-{place:02}1",
                    "R. Quill",
                    "12",
                    library.maker_name(place),
                )
        pictures = PagePictures(folder / "cache" / "pages", Settings())
        opened = OpenedLibrary(folder, catalogue, NoEngine(), pictures)
        status = catalogue.status()
        print(f"{status.publications} publications, {status.passages} passages")
        asked = lines(options.scale)
        check(opened, asked[0][1], keep=False)
        found: dict[str, list[Times]] = {}
        answered: dict[str, list[str]] = {}
        for kind, line, number, aircraft in asked:
            for _ in range(ROUNDS):
                spent, answer = timed(check, opened, line, aircraft, keep=False)
                found.setdefault(f"ours, {kind}", []).append(spent)
                answered.setdefault(kind, []).append(said(answer))
            found.setdefault("ours, all", []).append(spent)
            found.setdefault("ours, kept in the trail", []).append(timed(check, opened, line, aircraft)[0])
            found.setdefault("peer: LIKE over the passages", []).append(timed(like, catalogue, number)[0])
        pictures.close()
    for name, times in found.items():
        print(f"{name:36}{shown(times)}")
    for kind, answers in answered.items():
        print(f"{kind:36}{ {each: answers.count(each) for each in sorted(set(answers))} }")
    quick = sum(each.processor < TARGET_MS for each in found["ours, all"])
    print(f"under {TARGET_MS:.0f} ms of the processor: {quick} of {len(found['ours, all'])} lines")
    kept = {
        "date": datetime.date.today().isoformat(),
        "machine": {"cores": os.cpu_count(), "load": os.getloadavg()[0], "python": platform.python_version()},
        "library": {"publications": status.publications, "passages": status.passages},
        "times_ms": {
            name: [[round(each, 3) for each in one] for one in times] for name, times in found.items()
        },
        "answers": {
            kind: {each: answers.count(each) for each in set(answers)} for kind, answers in answered.items()
        },
    }
    path = RUNS / f"{kept['date']}-source-check.json"
    path.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


def lines(scale: float) -> list[tuple[str, str, str, str]]:
    """(kind, line of a record, number to look for, registration of the aircraft or "")"""
    chance = random.Random("lines")
    found = []
    for _ in range(20):
        place = chance.randrange(max(1, round(library.MAKERS * scale)))
        model = f"C-{place:02}1"
        chapter = f"{chance.choice(library.CHAPTERS)}-{10 * chance.randint(1, 4)}-00"
        mark = f"N{100 + place}C"
        bulletin = library.bulletin_number(model, 1 + 3 * chance.randrange(4))
        own = library.own_number(place - place % 2)
        section = f"{chance.randint(1, 9)}-{chance.randint(1, 40)}"
        found += [
            (
                "manual by number",
                f"Done IAW Maintenance Manual MM-{model}, Rev 4, {chapter} page 201.",
                f"MM-{model}",
                mark,
            ),
            ("manual by kind", f"Done IAW AMM {chapter} page 202.", chapter, mark),
            ("bulletin", f"C/W {bulletin} Rev A, Part 2.", bulletin, mark),
            (
                "directive",
                f"C/W AD 2031-0{chance.randint(1, 4)}-{place * 2 + 1:02}.",
                f"2031-01-{place:02}",
                mark,
            ),
            ("manual of its own order", f"Done IAW {own} paragraph {section}.", own, ""),
            ("not held", "Done IAW Maintenance Manual MM-X99, Rev 2, 32-10-00 page 201.", "MM-X99", mark),
            ("kind alone", "Done IAW MM.", "MM", ""),
        ]
    return found


def said(answer) -> str:
    """How the first citation was answered: so that a fast wrong answer is seen."""
    if not answer.findings:
        return "nothing cited"
    first = answer.findings[0]
    held = "document and place" if first.resolved and first.resolved.passages else "document"
    return f"{held if first.resolved else 'not told'}, minor {first.enough['minor'].answer.value}"


def like(catalogue: Catalogue, number: str) -> list:
    with catalogue.reading() as connection:
        return connection.execute("SELECT id FROM passage WHERE text LIKE ?", (f"%{number}%",)).fetchall()


if __name__ == "__main__":
    main()
