"""Put words that reach more at every place of every known applicability, and look for what is still shut out.

    python tests/bench/applicability_sweep.py [--every N]

A text that says "and any airplane with kit 9" anywhere may reach any airplane, so nothing may be shut out by
it. Each form of tests/tagging/data/applicability_forms.csv and applicability_blind.csv is read again with
each phrase put before each of its words but the first. Prints how many were read and each that is wrong;
ends with 1 where there is one. --every N takes each Nth place of a form only.
"""

import argparse
import csv
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from indexer.tagging.applicability import read_applicability
from indexer.trade.applies import Applies

DATA = Path(__file__).parents[1] / "tagging" / "data"
FORMS = ("applicability_forms.csv", "applicability_blind.csv")
PHRASES = (
    "and any airplane with kit 9",
    "or any airplane modified by SB 7",
    "and all other models",
    "and those with kit 9 installed",
    "plus any aircraft fitted with kit 9",
    "as well as airplanes with kit 9",
    "and airplanes on which kit 9 is installed",
    "and others",
    "also helicopters converted to kit 9",
    "and all serial numbers modified by SB 7",
    "and serial numbers listed in Appendix 9",
    "including any airplane with kit 9",
    ", and similar models,",
    "; any airplane repaired with kit 9;",
    "(and any airplane with kit 9)",
)


def forms() -> dict[str, list[tuple[str, str]]]:
    """Text -> the models and serials that are asked of it."""
    found = defaultdict(list)
    for name in FORMS:
        if (DATA / name).exists():
            with (DATA / name).open(encoding="utf-8", newline="") as file:
                for row in csv.DictReader(file):
                    found[row["text"]].append((row["model"], row["serial"]))
    return found


def widened(text: str, every: int) -> Iterator[str]:
    pieces = text.split(" ")
    for place in range(1, len(pieces) + 1, every):
        for phrase in PHRASES:
            yield " ".join([*pieces[:place], phrase, *pieces[place:]])


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--every", type=int, default=1, help="take each Nth place of a form only")
    every = parser.parse_args().every
    read = wrong = 0
    for text, asked in forms().items():
        for longer in widened(text, every):
            read += 1
            applicability = read_applicability(longer)
            for model, serial in asked:
                answer = applicability.applies(model, serial)
                if answer.answer is Applies.DOES_NOT_APPLY:
                    wrong += 1
                    print(f"{model} {serial}: {answer.why}\n    {longer}")
    print(f"{read} texts read, {wrong} answers that shut something out")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
