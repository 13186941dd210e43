"""Text -> the ATA chapters that it is most likely about, each with a confidence that was measured.

A linear model over words (inference_text.py), learned from public reports and definitions by
tests/training/train_chapters.py. Its weights lie in model/ as plain arrays; model/MODEL_CARD.md says where
they come from and what they cannot do. It abstains: a text that says too little, lists titles, or reads like
rules and forms gets no chapter.
"""

import json
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources

import numpy as np
from numpy.typing import NDArray

from indexer.tagging.inference_text import features_of, is_listing

NO_SYSTEM = "none"  # the class of texts that belong to no system: rules, forms, front matter

_LEVELS = json.loads(
    resources.files("indexer.tagging").joinpath("model", "levels.json").read_text(encoding="utf-8")
)
LIKELY: float = _LEVELS["likely"]  # at least this confident: "likely"
POSSIBLE: float = _LEVELS["possible"]  # at least this confident: "possible"; below it nothing is said
_LEAST_FEATURES: int = _LEVELS["least_known_features"]
_LEAST_SHARE: float = _LEVELS["least_known_share"]
_SHOWN_WORDS = 3


@dataclass(frozen=True, slots=True)
class Guess:
    """One chapter a text may belong to.

    chapter     two digits
    confidence  0.0 to 1.0: how often such a guess was right on texts the model had not seen
    words       of the text, folded, that speak most for it; strongest first
    """

    chapter: str
    confidence: float
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Model:
    """Weights as trained. F features, K classes: K - 1 chapters and NO_SYSTEM.

    places     feature -> row of weights
    rarity     float32 [F], what a feature counts for, whatever the class (inverse document frequency)
    weights    int8 [F, K]; times `steps` [K] they are log-odds
    usual      float32 [F], the mean of a row of weights
    bias       float32 [K]
    raw        float32, rising: the model's own probability, and `measured`: how often it was right at that
    """

    classes: tuple[str, ...]
    places: dict[str, int]
    rarity: NDArray[np.float32]
    weights: NDArray[np.int8]
    usual: NDArray[np.float32]
    steps: NDArray[np.float32]
    bias: NDArray[np.float32]
    raw: NDArray[np.float32]
    measured: NDArray[np.float32]


@cache
def model() -> Model:
    """The model that ships with the program; read once, when first asked for."""
    with (
        resources.files("indexer.tagging").joinpath("model", "chapters.npz").open("rb") as file,
        np.load(file, allow_pickle=False) as arrays,
    ):
        features = bytes(arrays["features"]).decode("utf-8").split("\n")
        return Model(
            classes=tuple(str(name) for name in arrays["classes"]),
            places={feature: place for place, feature in enumerate(features)},
            rarity=arrays["rarity"].astype(np.float32),
            weights=arrays["weights"],
            usual=arrays["weights"].mean(axis=1, dtype=np.float32),
            steps=arrays["steps"],
            bias=arrays["bias"],
            raw=arrays["raw"],
            measured=arrays["measured"],
        )


def guess(texts: Sequence[str]) -> list[tuple[Guess, ...]]:
    """Per text its chapters at POSSIBLE or above, best first; () where the model abstains."""
    return [guesses_from(log_chances(text), text) if can_be_judged(text) else () for text in texts]


def can_be_judged(text: str) -> bool:
    """Whether a text says enough, in words the model knows, and is no list of titles."""
    if is_listing(text):
        return False
    words = {feature for feature in _read(text).features if " " not in feature and feature[0] not in "^#"}
    known = sum(feature in model().places for feature in words)
    return known >= _LEAST_FEATURES and known >= _LEAST_SHARE * len(words)


def log_chances(text: str) -> NDArray[np.float64]:
    """The log of the model's own probability of each class, in order of `model().classes`."""
    learned, read = model(), _read(text)
    places, values = read.places, read.values
    scores = (values @ learned.weights[places].astype(np.float32)) * learned.steps + learned.bias
    return normalised(scores.astype(np.float64))


def normalised(scores: NDArray[np.float64]) -> NDArray[np.float64]:
    """Scores [K] shifted so that their exponentials sum to 1."""
    top = scores - scores.max()
    return top - np.log(np.exp(top).sum())


def guesses_from(chances: NDArray[np.float64], text: str) -> tuple[Guess, ...]:
    """The chapters that log chances [K] speak for, at POSSIBLE or above, with the words of the text."""
    learned = model()
    confidences = np.interp(np.exp(chances), learned.raw, learned.measured)
    best = [
        place
        for place in np.argsort(-chances, kind="stable")
        if learned.classes[place] != NO_SYSTEM and confidences[place] >= POSSIBLE
    ]
    return tuple(
        Guess(learned.classes[place], round(float(confidences[place]), 3), telling_words(text, int(place)))
        for place in best
    )


def telling_words(text: str, place: int) -> tuple[str, ...]:
    """The words of a text that speak most for the class at `place`; not words that say it twice."""
    learned, read = model(), _read(text)
    places, values = read.places, read.values
    column = learned.weights[places, place].astype(np.float32)
    gain = dict(zip(places.tolist(), (values * (column - learned.usual[places])).tolist(), strict=True))
    told: list[str] = []
    words = {
        word: gain.get(learned.places.get(word, -1), 0.0) for word in read.features if word[0] not in "^#"
    }
    for word in sorted(words, key=lambda word: (-words[word], word)):
        if words[word] <= 0 or len(told) == _SHOWN_WORDS:
            break
        if not any(set(word.split()) & set(each.split()) for each in told) and "0" not in word.split():
            told.append(word)
    return tuple(told)


@dataclass(frozen=True, slots=True)
class _Read:
    """A text as the model sees it: all its features, and the known ones as rows of weights with what each
    counts (of length 1 in all)."""

    features: tuple[str, ...]
    places: NDArray[np.int64]
    values: NDArray[np.float32]


@lru_cache(maxsize=64)  # one text is asked about several times in a row
def _read(text: str) -> _Read:
    learned, features = model(), features_of(text)
    counts = Counter(learned.places[feature] for feature in features if feature in learned.places)
    places = np.fromiter(counts, dtype=np.int64, count=len(counts))
    values = 1 + np.log(np.fromiter(counts.values(), dtype=np.float32, count=len(counts)))
    values = values * learned.rarity[places]
    length = float(np.sqrt((values**2).sum()))
    return _Read(tuple(features), places, values / length if length else values)
