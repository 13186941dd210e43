"""How well does search find what a mechanic means? Ours against plain SQLite FTS5, over judged questions.

    python tests/bench/relevance.py --public FOLDERS... [--keep LIBRARY] [--half tuned|held-out]
        [--worse] [--pool FILE] [--write FILE]

Ingests the public documents under FOLDERS (data/how_judged.md names them) and the sample library the usual
way, asks every question of data/questions.csv, and measures the order of the hits by data/judgements.csv.
Prints one table, by class of question; kept runs are in runs/.

--keep   where the library is made, or was made before
--half   only the questions that weights were tuned on, or only the others
--worse  name each question where ours is behind the better of both FTS5 in nDCG@10
--pool   write what stands in any system's first ten and is not judged yet, shuffled, without saying whose
"""

import argparse
import csv
import json
import random
import sys
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parent)]

from relevance_judged import (  # noqa: E402
    CLASSES,
    WORDS_DIFFER,
    Passage,
    Question,
    grades,
    read_questions,
)
from relevance_measures import NDCG_AT, Score, mean, ndcg, recall, reciprocal_rank, right_chapter  # noqa: E402
from relevance_systems import systems  # noqa: E402

from indexer.ingest import ingest  # noqa: E402
from indexer.library.records import PassageRecord  # noqa: E402
from indexer.library.whoosh_engine import WhooshEngine  # noqa: E402
from indexer.settings import Settings  # noqa: E402
from indexer.tagging.tags import StandingValue  # noqa: E402
from server.opened import OpenedLibrary, index_folder  # noqa: E402
from server.search import filed_under, heading  # noqa: E402

SAMPLES = Path(__file__).parents[2] / "sample_docs" / "pdf"
PEERS = ("FTS5", "FTS5, our headings")
AHEAD = 1.20  # asked for, in nDCG@10 over FTS5, where words differ
Scores = dict[str, dict[str, Score]]  # system -> question id -> score
Orders = dict[str, dict[str, list[str]]]  # system -> question id -> passages, best first


def main() -> None:
    options = _options()
    with tempfile.TemporaryDirectory() as scratch:
        folder = options.keep or Path(scratch)
        if not (folder / "catalogue.sqlite").exists():
            _make(folder, options.public)
        with OpenedLibrary.open(folder, Settings()) as library:
            held, passages = _passages(library)
            questions = [
                each
                for each in read_questions()
                if options.half is None or each.held_out == (options.half == "held-out")
            ]
            orders: Orders = {
                name: {each.id: ask(each.text) for each in questions}
                for name, ask in systems(library).items()
            }
    graded = {}
    for each in questions:
        graded[each.id], lost = grades(each, passages.values())
        for judgement in lost:
            print(
                f"{each.id}: no passage for {judgement.file} page {judgement.pdf_page}: {judgement.opening}"
            )
    scores: Scores = {
        name: {each.id: _score(order[each.id], each, graded[each.id], held) for each in questions}
        for name, order in orders.items()
    }
    print(table(questions, scores))
    if options.worse:
        print("\n".join(_worse(questions, scores)))
    if options.pool:
        _write_pool(options.pool, questions, orders, graded, passages)
    if options.write:
        _write(options.write, questions, scores)


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--public", type=Path, nargs="+", required=True)
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--half", choices=("tuned", "held-out"))
    parser.add_argument("--worse", action="store_true")
    parser.add_argument("--pool", type=Path)
    parser.add_argument("--write", type=Path)
    return parser.parse_args()


def _make(folder: Path, public: Sequence[Path]) -> None:
    settings = Settings()
    engine = WhooshEngine(index_folder(folder), settings.search_cache_mb)
    report = ingest([*public, SAMPLES], folder, settings, engine=engine)
    print(f"{len(report.taken)} files taken, {len(report.refused)} refused")


def _passages(library: OpenedLibrary) -> tuple[dict[str, PassageRecord], dict[str, Passage]]:
    held, passages = {}, {}
    for publication in library.publications():
        for record in library.catalogue.passages_of(publication.id):
            held[record.id] = record
            passages[record.id] = Passage(
                record.id, publication.file, record.pdf_page, heading(record), record.text
            )
    return held, passages


def _score(
    order: Sequence[str], question: Question, judged: Mapping[str, int], held: Mapping[str, PassageRecord]
) -> Score:
    hits = [held[passage] for passage in order]
    first = hits[:NDCG_AT]
    return Score(
        recall(order, judged),
        reciprocal_rank(order, judged),
        ndcg(order, judged),
        right_chapter(map(filed_under, hits), question.chapter),
        sum(not filed_under(hit) for hit in first) / len(first) if first else None,
        sum(hit.standing.value is StandingValue.UNDETERMINED for hit in first) / len(first)
        if first
        else None,
    )


def table(questions: Sequence[Question], scores: Scores) -> str:
    """One block for each class, then where words differ, then all; one line for each system."""
    chosen = {kind: [each for each in questions if each.kind == kind] for kind in CLASSES}
    chosen["words differ"] = [each for each in questions if each.kind in WORDS_DIFFER]
    chosen["all"] = list(questions)
    lines = [
        f"{'class':13}{'n':>4}  {'system':20}{'recall@20':>10}{'recip.rank':>11}{'nDCG@10':>9}"
        f"{'chapter<=3':>11}{'no number':>10}{'no standing':>12}  ahead/behind of each peer"
    ]
    for kind, asked in chosen.items():
        if not asked:
            continue
        for name, of_system in scores.items():
            found = mean([of_system[each.id] for each in asked])
            compared = "" if name in PEERS else _compared(asked, of_system, scores)
            numbers = "".join(
                f"{'-':>{width}}" if value is None else f"{value:>{width}.3f}"
                for value, width in zip(asdict(found).values(), (10, 11, 9, 11, 10, 12), strict=True)
            )
            lines.append(f"{kind:13}{len(asked):>4}  {name:20}{numbers}  {compared}")
    differ = {
        name: mean([of[each.id] for each in chosen["words differ"]]).ndcg for name, of in scores.items()
    }
    for peer in PEERS:
        times = differ["ours"] / differ[peer]
        lines.append(
            f"where words differ, nDCG@10 is {times:.2f} times that of {peer} (asked for: {AHEAD:.2f})"
        )
    return "\n".join(lines)


def _compared(asked: Sequence[Question], ours: Mapping[str, Score], scores: Scores) -> str:
    """How many questions are better and how many worse, by more than a hundredth, beside each peer."""
    counts = []
    for peer in PEERS:
        gains = [ours[each.id].ndcg - scores[peer][each.id].ndcg for each in asked]
        counts.append(f"{sum(gain > 0.01 for gain in gains)}/{sum(gain < -0.01 for gain in gains)}")
    return "  ".join(counts)


def _worse(questions: Sequence[Question], scores: Scores) -> list[str]:
    found = [
        (scores["ours"][each.id].ndcg, max(scores[peer][each.id].ndcg for peer in PEERS), each)
        for each in questions
    ]
    worse = sorted((ours - plain, each.id, ours, plain, each) for ours, plain, each in found if ours < plain)
    return [
        f"{each.id} {each.kind}: {each.text}: {ours:.3f}, FTS5 {plain:.3f}"
        for _, _, ours, plain, each in worse
    ]


def _write_pool(
    path: Path,
    questions: Sequence[Question],
    orders: Orders,
    graded: Mapping[str, Mapping[str, int]],
    passages: Mapping[str, Passage],
) -> None:
    chance = random.Random(1)
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(["question", "asked", "file", "pdf_page", "opening", "heading", "text"])
        for each in questions:
            pool = sorted({passage for order in orders.values() for passage in order[each.id][:NDCG_AT]})
            unjudged = [passages[passage] for passage in pool if passage not in graded[each.id]]
            chance.shuffle(unjudged)
            for one in unjudged:
                row = [each.id, each.text, one.file, one.pdf_page, one.opening, one.heading, one.text]
                writer.writerow(row)


def _write(path: Path, questions: Sequence[Question], scores: Scores) -> None:
    kept = {
        "table": table(questions, scores).splitlines(),
        "questions": {
            each.id: {name: asdict(of_system[each.id]) for name, of_system in scores.items()}
            for each in questions
        },
    }
    path.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
