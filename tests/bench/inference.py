"""How well chapters are worked out from text: tables and a plot, kept in runs/.

    python -m tests.bench.inference [--folder FOLDER] [--cross-validate] [--keep NAME]

Narratives and reports: rows whose SHA-1 modulo 100 is below 20, which training never saw
(tests/training/data). Prose: passages labelled by hand before any model was run, data/prose_labels.csv; the
public papers are looked for under FOLDER, the samples in sample_docs/pdf. Peer, in the same run: the chapter
whose code definitions share most words with the text (cosine).

What counts as right: for reports, the chapter of the reporter's official code; for narratives, the chapter of
the manual that the mechanic cited (masked; about one in fourteen is another system's); for prose, any chapter
that the reader would file the passage under, or gave as also right.
"""

import argparse
import csv
import json
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np

from indexer.reading.document import read_document
from indexer.reading.page import Passage
from indexer.settings import Settings
from indexer.tagging.inference import LIKELY, NO_SYSTEM, POSSIBLE, Guess, guess, log_chances, model
from indexer.tagging.inference_text import features_of, with_heading
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import TaggedPassage
from indexer.trade.evidence import Basis
from tests.training.examples import Example, definitions, examples, is_held_out, reports

HERE = Path(__file__).parent
ROOT = HERE.parents[1]


def ranked(texts: Sequence[str]) -> list[tuple[list[str], float]]:
    """Per text the chapters in order, abstaining or not, and the confidence in the first."""
    learned = model()
    answers = []
    for text in texts:
        chances = log_chances(text)
        order = [int(place) for place in np.argsort(-chances, kind="stable")]
        order = [place for place in order if learned.classes[place] != NO_SYSTEM]
        confidence = float(np.interp(np.exp(chances[order[0]]), learned.raw, learned.measured))
        answers.append(([learned.classes[place] for place in order], confidence))
    return answers


def peer_ranked(texts: Sequence[str]) -> list[list[str]]:
    """Chapters by the likeness of their code definitions' words; what a plain word match gives."""
    bags: dict[str, Counter[str]] = {}
    for each in definitions():
        bags.setdefault(each.chapter, Counter()).update(set(features_of(each.text)))
    held = Counter(word for bag in bags.values() for word in bag)
    rarity = {word: np.log(len(bags) / count) + 0.1 for word, count in held.items()}
    lengths = {
        chapter: np.sqrt(sum((count * rarity[word]) ** 2 for word, count in bag.items()))
        for chapter, bag in bags.items()
    }
    answers = []
    for text in texts:
        words = set(features_of(text)) & rarity.keys()
        scores = {
            chapter: sum(bag[word] * rarity[word] ** 2 for word in words) / lengths[chapter]
            for chapter, bag in bags.items()
        }
        answers.append(sorted(scores, key=lambda chapter: (-scores[chapter], chapter)))
    return answers


def score(cases: Sequence[Example]) -> dict[str, float]:
    """First and first-three right, calibration error (10 equal bins), and how "likely" does."""
    answers = ranked([each.text for each in cases])
    truth = [each.chapter for each in cases]
    right = np.array([chapters[0] == chapter for (chapters, _), chapter in zip(answers, truth, strict=True)])
    third = [chapter in chapters[:3] for (chapters, _), chapter in zip(answers, truth, strict=True)]
    sure = np.array([confidence for _, confidence in answers])
    peer = peer_ranked([each.text for each in cases])
    likely = sure >= LIKELY
    return {
        "cases": len(cases),
        "top1": round(float(right.mean()), 4),
        "top3": round(float(np.mean(third)), 4),
        "calibration_error": round(calibration_error(sure, right), 4),
        "likely_share": round(float(likely.mean()), 4),
        "likely_precision": round(float(right[likely].mean()), 4) if likely.any() else 1.0,
        "possible_or_better_share": round(float((sure >= POSSIBLE).mean()), 4),
        "possible_or_better_precision": round(float(right[sure >= POSSIBLE].mean()), 4),
        "peer_top1": round(float(np.mean([a[0] == t for a, t in zip(peer, truth, strict=True)])), 4),
        "peer_top3": round(float(np.mean([t in a[:3] for a, t in zip(peer, truth, strict=True)])), 4),
    }


def calibration_error(sure: np.ndarray, right: np.ndarray) -> float:
    """Mean difference of confidence and share right over ten bins, weighted by their size."""
    bins = np.minimum((sure * 10).astype(int), 9)
    return float(
        sum(
            (bins == each).mean() * abs(sure[bins == each].mean() - right[bins == each].mean())
            for each in set(bins.tolist())
        )
    )


def labelled_prose(folder: Path) -> Iterator[tuple[dict[str, str], Passage, tuple[Guess, ...]]]:
    """Rows of prose_labels.csv with the passage they name, and the chapters that tagging works out for it;
    passages of files not there are left out."""
    files = {path.name: path for path in (ROOT / "sample_docs" / "pdf").glob("*.pdf")}
    if folder.is_dir():
        files |= {path.name: path for path in folder.rglob("*.pdf")}
    passages: dict[str, list[tuple[Passage, tuple[Guess, ...]]]] = {}
    with (HERE / "data" / "prose_labels.csv").open(encoding="utf-8", newline="") as table:
        for row in csv.DictReader(table):
            name = row["file"]
            if name in files and name not in passages:
                passages[name] = [(each.passage, worked_out(each)) for each in tagged(files[name])]
            for passage, filed in passages.get(name, ()):
                opening = " ".join(passage.text.split())[:48].strip()
                if passage.pdf_page == int(row["pdf_page"]) and opening == row["opening"]:
                    yield row, passage, filed
                    break


def tagged(path: Path) -> list[TaggedPassage]:
    works = tag_document(read_document(path, Settings()))
    return [passage for work in works for passage in work.passages]


def worked_out(passage: TaggedPassage) -> tuple[Guess, ...]:
    """The chapters of a passage that inference gives it, best first."""
    tags = [tag for tag in passage.numbers if tag.evidence.basis is Basis.INFERRED]
    return tuple(
        Guess(tag.value.chapter, tag.evidence.confidence or 0.0, (tag.evidence.quote,)) for tag in tags
    )


def own_order_pages() -> dict[str, object]:
    """Pages of the sample manuals with their own order: those that a person who looks for one of the chapters
    of the page (truth.csv, filed_under) finds there, and those whose commonest chapter is one of them."""
    with (ROOT / "sample_docs" / "truth.csv").open(encoding="utf-8", newline="") as table:
        rows = [row for row in csv.DictReader(table) if row["filed_under"] and row["scheme"] == "OWN"]
    found: dict[str, object] = {}
    for name in dict.fromkeys(row["file"] for row in rows):
        by_page: dict[int, list[Guess]] = {}
        for each in tagged(ROOT / "sample_docs" / "pdf" / name):
            by_page.setdefault(each.passage.pdf_page, []).extend(worked_out(each))
        pages = [(by_page.get(int(row["pdf_page"]), []), row) for row in rows if row["file"] == name]
        wanted = [(said, set(row["filed_under"].replace(";", " ").split())) for said, row in pages]
        tags = [(each, each.chapter in chapters) for said, chapters in wanted for each in said]
        found[name] = {
            "pages": len(pages),
            "pages_under_a_right_chapter": sum(any(g.chapter in c for g in said) for said, c in wanted),
            "pages_whose_commonest_is_right": sum(
                bool(said) and Counter(g.chapter for g in said).most_common(1)[0][0] in c
                for said, c in wanted
            ),
            "chapters_of_passages_among_those_of_their_page": round(share(ok for _, ok in tags), 4),
            "likely_ones_among_those_of_their_page": round(
                share(ok for each, ok in tags if each.confidence >= LIKELY), 4
            ),
        }
    return found


def prose_answers(folder: Path, as_filed: bool = False) -> list[dict[str, object]]:
    """One row per labelled passage: what was said, how surely, and whether that was right.

    as_filed  what the whole of tagging makes of it (its section's vote, front pages left out), else its text
    """
    answers = []
    for row, passage, filed in labelled_prose(folder):
        said = filed if as_filed else guess([with_heading(passage.heading_path, passage.text)])[0]
        files_under = set(row["chapters"].split()) | set(row["also"].split())
        first = said[0] if said else None
        answers.append(
            {
                **row,
                "said": " ".join(each.chapter for each in said),
                "confidence": first.confidence if first else 0.0,
                "words": "; ".join(first.words) if first else "",
                "right": bool(first and first.chapter in files_under),
                "has_chapter": "none" not in row["chapters"].split(),
            }
        )
    return answers


def prose_score(answers: Sequence[dict[str, object]]) -> dict[str, float]:
    likely = [each for each in answers if each["confidence"] >= LIKELY]
    said = [each for each in answers if each["said"]]
    with_chapter = [each for each in answers if each["has_chapter"]]
    none = [each for each in answers if each["chapters"] == "none"]
    return {
        "passages": len(answers),
        "likely": len(likely),
        "likely_precision": round(share(each["right"] for each in likely), 4),
        "said": len(said),
        "said_precision": round(share(each["right"] for each in said), 4),
        "with_chapter": len(with_chapter),
        "recall_of_those_with_chapter": round(share(each["right"] for each in with_chapter), 4),
        "none": len(none),
        "none_left_alone": round(share(not each["said"] for each in none), 4),
    }


def share(flags: Iterator[object]) -> float:
    given = [bool(flag) for flag in flags]
    return sum(given) / len(given) if given else 1.0


def error_against_abstention(answers: Sequence[dict[str, object]]) -> list[tuple[float, float]]:
    """(share abstained, share wrong of those answered), as the confidence asked for rises."""
    answered = sorted(answers, key=lambda each: -float(each["confidence"]))
    points = []
    for count in range(1, len([each for each in answered if each["said"]]) + 1):
        wrong = sum(not each["right"] for each in answered[:count])
        points.append((round(1 - count / len(answered), 4), round(wrong / count, 4)))
    return points[::-1]


def plot(points: Sequence[tuple[float, float]]) -> str:
    """The points as an SVG: abstained to the right, error upward (the full height is 50 %)."""
    width, height, edge = 640, 360, 50
    path = " ".join(
        f"{edge + x * (width - 2 * edge):.1f},{height - edge - min(y, 0.5) * 2 * (height - 2 * edge):.1f}"
        for x, y in points
    )
    across = [
        (edge + x * (width - 2 * edge), height - edge + 18, "middle", x) for x in (0, 0.25, 0.5, 0.75, 1)
    ]
    upward = [(edge - 6, height - edge - y * 2 * (height - 2 * edge), "end", y) for y in (0, 0.05, 0.25, 0.5)]
    marks = "".join(
        f'<text x="{x:.0f}" y="{y:.0f}" text-anchor="{anchor}">{value:.0%}</text>'
        for x, y, anchor, value in (*across, *upward)
    )
    line = height - edge - 0.1 * (height - 2 * edge)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" font-family="sans-serif" '
        f'font-size="12"><rect width="{width}" height="{height}" fill="white"/>{marks}'
        f'<line x1="{edge}" x2="{width - edge}" y1="{line:.0f}" y2="{line:.0f}" stroke="grey" '
        f'stroke-dasharray="4"/><polyline points="{path}" fill="none" stroke="black" stroke-width="2"/>'
        f'<text x="{width / 2}" y="{height - 12}" text-anchor="middle">passages not answered</text>'
        f'<text x="{edge}" y="30">wrong among those answered, labelled prose (dashes: 5 %)</text></svg>\n'
    )


def speed(texts: Sequence[str]) -> dict[str, float]:
    """Load in ms (first call of a fresh process) and ms a text."""
    start = time.perf_counter()
    model()
    loaded = time.perf_counter()
    guess(texts)
    return {
        "load_ms": round((loaded - start) * 1000, 1),
        "ms_a_text": round((time.perf_counter() - loaded) * 1000 / len(texts), 3),
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--folder", type=Path, default=ROOT / "real", help="where the public PDFs lie")
    parser.add_argument("--keep", help="name of this run, as in 2026-11-27: files in runs/")
    parser.add_argument(
        "--cross-validate", action="store_true", help="all reports by folds; needs scikit-learn"
    )
    options = parser.parse_args()
    held = [each for each in examples() if is_held_out(each)]
    result: dict[str, object] = {"levels": {"likely": LIKELY, "possible": POSSIBLE}}
    result["speed"] = speed([each.text for each in held if each.source == "narratives"])
    for source in ("narratives", "reports"):
        result[f"held-out {source}"] = score([each for each in held if each.source == source])
    result["held-out reports, with the part they name"] = score(
        [each for each in reports(with_part=True) if is_held_out(each)]
    )
    if options.cross_validate:
        result |= cross_validation()
    answers = prose_answers(options.folder)
    for part in ("tune", "test"):
        result[f"prose, {part} part"] = prose_score([each for each in answers if each["part"] == part])
    result["prose, all"] = prose_score(answers)
    result["prose, as filed with its section"] = prose_score(prose_answers(options.folder, as_filed=True))
    result["pages of manuals with their own order"] = own_order_pages()
    points = error_against_abstention(answers)
    print(json.dumps(result, indent=2))
    if options.keep:
        runs = HERE / "runs"
        (runs / f"{options.keep}-inference.json").write_text(
            json.dumps(result, indent=2) + "\n", encoding="utf-8"
        )
        (runs / f"{options.keep}-inference-prose.svg").write_text(plot(points), encoding="utf-8")
        with (runs / f"{options.keep}-inference-prose.csv").open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, answers[0].keys(), lineterminator="\n")
            writer.writeheader()
            writer.writerows(answers)


def cross_validation() -> dict[str, object]:
    """All official-code reports and all code definitions, each by a model that has not seen it."""
    from tests.training.train_chapters import cross_validated

    found: dict[str, object] = {}
    taken = [each for each in examples() if not (is_held_out(each) and each.source == "narratives")]
    said = cross_validated(taken, ("reports", "definitions"))
    for source in ("reports", "definitions"):
        named = [
            ([chapter for chapter, _ in chapters if chapter != NO_SYSTEM], each)
            for each, chapters in said
            if each.source == source
        ]
        found[f"cross-validated {source}"] = {
            "cases": len(named),
            "top1": round(share(chapters[0] == each.chapter for chapters, each in named), 4),
            "top3": round(share(each.chapter in chapters[:3] for chapters, each in named), 4),
        }
    return found


if __name__ == "__main__":
    main()
