"""Trains the chapter model and writes indexer/tagging/model/: run from the project's folder.

    python -m tests.training.train_chapters            train, calibrate, write
    python -m tests.training.train_chapters --check    train again and compare with what is stored

Needs scikit-learn (pip install -e .[train]); takes about a minute. Held-out rows are never looked at here:
tests/bench/inference.py measures on them.
"""

import json
import sys
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix
from sklearn.feature_extraction.text import CountVectorizer, TfidfTransformer
from sklearn.isotonic import IsotonicRegression
from sklearn.linear_model import LogisticRegression

from indexer.tagging.inference import NO_SYSTEM
from indexer.tagging.inference_text import features_of
from tests.training.examples import Example, examples, is_held_out, part_of
from tests.training.inputs import inputs_hash

ROOT = Path(__file__).parents[2]
MODEL = ROOT / "indexer" / "tagging" / "model"
LEAST_TEXTS = 2  # texts a feature must stand in
STRENGTH = 20.0  # inverse of the penalty on large weights
BALANCE = 0.35  # 0 = chapters weigh as often as they occur, 1 = all alike
FOLDS = 5
LIKELY_PRECISION = 0.98  # on unseen training rows, for the word "likely"
POSSIBLE = 0.5  # more often right than not
LEVELS = {"least_known_features": 3, "least_known_share": 0.5}


@dataclass(frozen=True, slots=True)
class Trained:
    """Features F, classes K; weights [F, K] as log-odds, before they are rounded to whole steps."""

    features: list[str]
    classes: list[str]
    rarity: NDArray[np.float32]
    weights: NDArray[np.float32]
    bias: NDArray[np.float32]

    def chances(self, texts: Sequence[str]) -> NDArray[np.float64]:
        """Probability [texts, K] of each class."""
        counted = CountVectorizer(analyzer=features_of, vocabulary=self.features, dtype=np.float32)
        counts: csr_matrix = counted.transform(texts)
        counts.data = (1 + np.log(counts.data)).astype(np.float32)
        weighed = counts.multiply(self.rarity).tocsr()
        length = np.sqrt(weighed.multiply(weighed).sum(axis=1)).A1
        scores = (weighed @ self.weights) / np.maximum(length, 1e-9)[:, None] + self.bias
        odds = np.exp((scores - scores.max(axis=1, keepdims=True)).astype(np.float64))
        return odds / odds.sum(axis=1, keepdims=True)


def train(taken: Sequence[Example]) -> Trained:
    """A multinomial logistic regression over the features of the examples."""
    counted = CountVectorizer(analyzer=features_of, min_df=LEAST_TEXTS, dtype=np.float32)
    counts = counted.fit_transform([each.text for each in taken])
    rarity = TfidfTransformer(sublinear_tf=True).fit(counts)
    chapters = np.array([each.chapter for each in taken])
    weights = np.array([each.weight for each in taken])
    of_chapter: Counter[str] = Counter()
    for each in taken:
        of_chapter[each.chapter] += each.weight
    mean = sum(of_chapter.values()) / len(of_chapter)
    weights = weights * np.array([(mean / of_chapter[chapter]) ** BALANCE for chapter in chapters])
    weights = weights * len(weights) / weights.sum()
    fitted = LogisticRegression(C=STRENGTH, max_iter=80, tol=1e-3).fit(
        rarity.transform(counts), chapters, sample_weight=weights
    )
    return Trained(
        features=list(counted.get_feature_names_out()),
        classes=[str(name) for name in fitted.classes_],
        rarity=rarity.idf_.astype(np.float32),
        weights=np.ascontiguousarray(fitted.coef_.T, dtype=np.float32),
        bias=fitted.intercept_.astype(np.float32),
    )


def cross_validated(
    taken: Sequence[Example], of: tuple[str, ...]
) -> list[tuple[Example, list[tuple[str, float]]]]:
    """Per example of these sources what a model that has not seen its row says: chapters, best first."""
    said = []
    for fold in range(FOLDS):
        unseen = [each for each in taken if each.source in of and part_of(each.row + "fold") % FOLDS == fold]
        rows = {(each.source, each.row) for each in unseen}
        if "definitions" in of:  # the code's title would give its definition away
            rows |= {("titles", row) for source, row in rows if source == "definitions"}
        trained = train([each for each in taken if (each.source, each.row) not in rows])
        for each, chances in zip(unseen, trained.chances([each.text for each in unseen]), strict=True):
            order = np.argsort(-chances, kind="stable")
            said.append((each, [(trained.classes[place], float(chances[place])) for place in order[:5]]))
    return said


def calibration(said: Sequence[tuple[Example, list[tuple[str, float]]]]) -> tuple[NDArray, NDArray, float]:
    """(the model's own probability, how often it was right there, confidence from which it is "likely")."""
    pairs = [
        (chance, chapter == each.chapter)
        for each, chapters in said
        for chapter, chance in chapters[:3]
        if chapter != NO_SYSTEM
    ]
    own, right = np.array(pairs, dtype=float).T
    curve = IsotonicRegression(y_min=0.0, y_max=0.995, out_of_bounds="clip").fit(own, right)
    raw = np.linspace(0, 1, 101)
    # Steps are smoothed, and ends are tied to never and always, so that confidence rises with chance.
    measured = np.convolve(np.pad(curve.predict(raw), 2, mode="edge"), np.ones(5) / 5, mode="valid")
    measured = np.maximum.accumulate(measured) + np.linspace(0, 0.004, 101)
    measured[0] = 0.0
    best = [
        (float(np.interp(chance, raw, measured)), chapter == each.chapter)
        for each, chapters in said
        if each.source == "narratives" and chapters[0][0] != NO_SYSTEM
        for chapter, chance in chapters[:1]
    ]
    best.sort(reverse=True)
    sure = np.cumsum([ok for _, ok in best]) / np.arange(1, len(best) + 1)
    enough = [
        confidence
        for (confidence, _), precision in zip(best, sure, strict=True)
        if precision >= LIKELY_PRECISION
    ]
    return raw, measured, min(enough)


def arrays_of(trained: Trained, raw: NDArray, measured: NDArray) -> dict[str, NDArray]:
    """The arrays of the model's file: weights rounded to 1/127 of the largest of their class."""
    steps = np.abs(trained.weights).max(axis=0) / 127
    return {
        "features": np.frombuffer("\n".join(trained.features).encode("utf-8"), dtype=np.uint8),
        "classes": np.array(trained.classes),
        "rarity": trained.rarity.astype(np.float16),
        "weights": np.rint(trained.weights / steps).astype(np.int8),
        "steps": steps.astype(np.float32),
        "bias": trained.bias,
        "raw": raw.astype(np.float32),
        "measured": measured.astype(np.float32),
    }


def main(check: bool) -> int:
    taken = [each for each in examples() if not is_held_out(each)]
    print(f"{len(taken)} examples: {dict(Counter(each.source for each in taken))}")
    trained = train(taken)
    if check:
        return compare(trained)
    said = cross_validated(taken, ("narratives", "reports"))
    raw, measured, likely = calibration(said)
    MODEL.mkdir(exist_ok=True)
    np.savez_compressed(MODEL / "chapters.npz", **arrays_of(trained, raw, measured))
    levels = {"likely": round(likely, 4), "possible": POSSIBLE, **LEVELS, "inputs_sha256": inputs_hash()}
    (MODEL / "levels.json").write_text(json.dumps(levels, indent=2) + "\n", encoding="utf-8")
    size = (MODEL / "chapters.npz").stat().st_size
    print(
        f"{trained.weights.shape[0]} features, {trained.weights.shape[1]} classes, {size:,} bytes, {levels}"
    )
    return 0


def compare(trained: Trained) -> int:
    """0 when the stored weights are those of `trained`, but for a few steps of rounding; 1 when not."""
    with np.load(MODEL / "chapters.npz", allow_pickle=False) as stored:
        same_shape = bytes(stored["features"]).decode("utf-8").split("\n") == trained.features
        near = same_shape and np.abs(stored["weights"] * stored["steps"] - trained.weights).max()
    print("features differ" if not same_shape else f"largest difference of a weight: {near:.4f} log-odds")
    return 0 if same_shape and near < 0.2 else 1


if __name__ == "__main__":
    sys.exit(main("--check" in sys.argv[1:]))
