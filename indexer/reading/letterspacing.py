"""Letters set wide apart ("W A R N I N G") closed up to words, and spaced dots to one leader."""

from collections.abc import Iterator, Sequence
from statistics import median

from indexer.reading.page import Word
from indexer.reading.raw_page import PlacedWord

LEADER = "...."
_FEWEST_LETTERS = 5  # fewer single letters in a row are a list ("A B C D"), not a word
_FEWEST_DOTS = 4
_WIDEST_GAP = 0.8  # of the font size, between the letters of one word
_NEXT_WORD = 1.6  # times the usual gap; a wider one parts two words
_FEWEST_PER_WORD = 3  # letters in the average word that comes out
_TOLERANCE = 0.05  # of the font size


def closed_up(words: Sequence[PlacedWord]) -> list[PlacedWord]:
    """The same words with letterspaced ones joined. `words` in the order of the file."""
    if not any(_is_single(one) and _is_single(two) for one, two in zip(words, words[1:], strict=False)):
        return list(words)
    return [word for run in _runs(words) for word in _joined(run)]


def _is_single(placed: PlacedWord) -> bool:
    text = placed.word.text
    return len(text) == 1 and (text.isupper() or text.isdigit() or text in "./-&")


def _runs(words: Sequence[PlacedWord]) -> Iterator[list[PlacedWord]]:
    """Neighbours on one line that are single characters, together; every other word alone."""
    run: list[PlacedWord] = []
    for placed in words:
        if run and not (_is_single(placed) and _is_single(run[-1]) and _is_beside(run[-1], placed)):
            yield run
            run = []
        run.append(placed)
    if run:
        yield run


def _is_beside(one: PlacedWord, two: PlacedWord) -> bool:
    size = two.word.font_size
    return (
        one.direction == two.direction == 0
        and one.word.font_size == size
        and abs(one.word.box.bottom - two.word.box.bottom) < 0.2 * size
        and 0 <= two.word.box.x0 - one.word.box.x1 < 3 * size
    )


def _joined(run: list[PlacedWord]) -> list[PlacedWord]:
    if len(run) >= _FEWEST_DOTS and all(placed.word.text == "." for placed in run):
        return [_one(run, LEADER)]
    letters = sum(placed.word.text.isalpha() for placed in run)
    if len(run) < _FEWEST_LETTERS or letters < 0.6 * len(run):
        return run
    size = run[0].word.font_size
    gaps = [two.word.box.x0 - one.word.box.x1 for one, two in zip(run, run[1:], strict=False)]
    usual = median(gaps)
    if usual > _WIDEST_GAP * size:
        return run
    groups = [[run[0]]]
    for gap, placed in zip(gaps, run[1:], strict=True):
        if gap > usual * _NEXT_WORD + _TOLERANCE * size:
            groups.append([])
        groups[-1].append(placed)
    if len(run) < _FEWEST_PER_WORD * len(groups):
        return run
    return [_one(group, "".join(placed.word.text for placed in group)) for group in groups]


def _one(group: list[PlacedWord], text: str) -> PlacedWord:
    first, last = group[0], group[-1]
    word = Word(text, first.word.box.union(last.word.box), first.word.font_size, first.word.bold)
    return PlacedWord(word, first.direction, first.invisible)
