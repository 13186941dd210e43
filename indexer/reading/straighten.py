"""Pictures of pages straightened: how much the lines slant, and the picture turned back. Pure.

The slant is the angle at which rows of letters fall on each other best: the lower edges of all dark spots are
added up along slanted rows, and the sums differ most from row to row where the rows follow the lines.
"""

import numpy as np
from PIL import Image

from indexer.reading.ocr_engine import Picture
from indexer.reading.worn_pictures import best_threshold

MOST_SKEW = 12.0  # degrees; paper is not laid more askew, and drawings are not to be taken for slanted text
LEAST_SKEW = 0.1  # degrees; less does no harm, and turning a picture blurs it
_LOOK_AT_DPI = 100  # enough to tell a line of letters
_COARSE_STEP, _FINE_STEP = 0.5, 0.05  # degrees
_COARSE = np.arange(-MOST_SKEW, MOST_SKEW + _COARSE_STEP / 2, _COARSE_STEP)
_LEAST_EDGES = 300  # dark lower edges; a page with fewer has hardly a word
_STANDS_OUT = 1.25  # how much better than the middle of all angles the best one must be
_CLEARLY = 1.5  # how much better one direction must be than the other
_WHITE = 255


def turned_upright(picture: Picture, turned: int) -> Picture:
    """The picture turned counterclockwise by `turned` degrees (0, 90, 180, 270)."""
    return np.ascontiguousarray(np.rot90(picture, turned // 90))


def without_skew(picture: Picture, skew: float) -> Picture:
    """The picture turned counterclockwise by `skew` degrees, grown so that nothing is cut off."""
    if abs(skew) < LEAST_SKEW:
        return picture
    turned = Image.fromarray(picture).rotate(skew, Image.Resampling.BICUBIC, expand=True, fillcolor=_WHITE)
    return np.asarray(turned)


def lines_run_across(picture: Picture, dpi: float) -> bool | None:
    """Whether lines run across a picture, upright or upside down, or along it; None = nothing tells."""
    small = _reduced(picture, dpi)
    across, along = (_slants(*_lower_edges(turned)) for turned in (small, np.rot90(small)))
    if not across.size or not along.size or max(_prominence(across), _prominence(along)) < _STANDS_OUT:
        return None
    if max(across.max(), along.max()) < _CLEARLY * min(across.max(), along.max()):
        return None  # a list in columns has straight edges both ways
    return bool(across.max() > along.max())


def skew_of(picture: Picture, dpi: float) -> float:
    """Degrees clockwise that the lines of an upright picture slant; 0.0 when nothing tells."""
    ys, xs = _lower_edges(_reduced(picture, dpi))
    scores = _slants(ys, xs)
    if not scores.size or _prominence(scores) < _STANDS_OUT:
        return 0.0
    best = _COARSE[scores.argmax()]
    fine = np.arange(best - _COARSE_STEP, best + _COARSE_STEP + _FINE_STEP / 2, _FINE_STEP)
    skew = round(float(fine[np.argmax([_evenness(ys, xs, angle) for angle in fine])]), 2)
    return skew if LEAST_SKEW <= abs(skew) <= MOST_SKEW else 0.0


def _slants(ys: np.ndarray, xs: np.ndarray) -> np.ndarray:
    """How well rows at each coarse angle follow the lines; empty when too little is on the page."""
    if len(ys) < _LEAST_EDGES:
        return np.empty(0)
    return np.array([_evenness(ys, xs, angle) for angle in _COARSE])


def _prominence(scores: np.ndarray) -> float:
    return float(scores.max() / np.median(scores))


def _reduced(picture: Picture, dpi: float) -> Picture:
    by = max(1, round(dpi / _LOOK_AT_DPI))
    return np.asarray(Image.fromarray(picture).reduce(by))


def _lower_edges(picture: Picture) -> tuple[np.ndarray, np.ndarray]:
    """Rows and columns of dark pixels that have a bright one below."""
    dark = picture < best_threshold(picture)
    return np.nonzero(dark[:-1] & ~dark[1:])


def _evenness(ys: np.ndarray, xs: np.ndarray, angle: float) -> float:
    """How much the number of edges differs from one row to the next, rows slanted clockwise by `angle`."""
    rows = np.rint(ys - xs * np.tan(np.radians(angle))).astype(np.int64)
    counts = np.bincount(rows - rows.min())
    return float((np.diff(counts.astype(float)) ** 2).sum())
