"""Letters set wide apart ("W A R N I N G") closed up to words, and spaced dots to one leader."""

from collections.abc import Iterator, Sequence
from statistics import median

from indexer.reading.page import Word
from indexer.reading.raw_page import StyledWord

LEADER = "...."
_FEWEST_LETTERS = 5  # fewer single letters in a row are a list ("A B C D"), not a word
_FEWEST_DOTS = 4
_WIDEST_GAP = 0.8  # of the font size, between the letters of one word
_NEXT_WORD = 1.6  # times the usual gap; a wider one parts two words
_FEWEST_PER_WORD = 3  # letters in the average word that comes out
_LETTERS = 0.6  # the share of letters among the characters
_FARTHEST = 3.0  # times the font size, to the next character of the row at all
_SLACK = 0.05  # of the font size
_TOLERANCE = 0.2  # of the font size, between the feet of two characters on one line


def closed_up(words: Sequence[StyledWord]) -> list[StyledWord]:
    """The same words with letterspaced ones joined. `words` in the order of the file."""
    if not any(_is_single(one) and _is_single(two) for one, two in zip(words, words[1:], strict=False)):
        return list(words)
    return [word for run in _runs(words) for word in _joined(run)]


def _is_single(styled: StyledWord) -> bool:
    text = styled[0].text
    return len(text) == 1 and (text.isupper() or text.isdigit() or text in "./-&")


def _runs(words: Sequence[StyledWord]) -> Iterator[list[StyledWord]]:
    """Neighbours on one line that are single characters, together; every other word alone."""
    run: list[StyledWord] = []
    for styled in words:
        if run and not (_is_single(styled) and _is_single(run[-1]) and _is_beside(run[-1], styled)):
            yield run
            run = []
        run.append(styled)
    if run:
        yield run


def _is_beside(one: StyledWord, two: StyledWord) -> bool:
    (left, left_style), (right, right_style) = one, two
    size = right.font_size
    return (
        left_style.direction == right_style.direction == 0
        and left.font_size == size
        and abs(left.box.bottom - right.box.bottom) < _TOLERANCE * size
        and 0 <= right.box.x0 - left.box.x1 < _FARTHEST * size
    )


def _joined(run: list[StyledWord]) -> list[StyledWord]:
    texts = [word.text for word, _ in run]
    if len(run) >= _FEWEST_DOTS and set(texts) == {"."}:
        return [_one(run, LEADER)]
    if len(run) < _FEWEST_LETTERS or sum(map(str.isalpha, texts)) < _LETTERS * len(run):
        return run
    size = run[0][0].font_size
    gaps = [two[0].box.x0 - one[0].box.x1 for one, two in zip(run, run[1:], strict=False)]
    usual = median(gaps)
    if usual > _WIDEST_GAP * size:
        return run
    groups = [[run[0]]]
    for gap, styled in zip(gaps, run[1:], strict=True):
        if gap > usual * _NEXT_WORD + _SLACK * size:
            groups.append([])
        groups[-1].append(styled)
    if len(run) < _FEWEST_PER_WORD * len(groups):
        return run
    return [_one(group, "".join(word.text for word, _ in group)) for group in groups]


def _one(group: list[StyledWord], text: str) -> StyledWord:
    (first, style), (last, _) = group[0], group[-1]
    return Word(text, first.box.union(last.box), first.font_size, first.bold), style
