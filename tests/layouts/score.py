"""How much of each drawn layout is read right: python tests/layouts/score.py [--save scores.json]

Holds what `indexer.reading.document.read_document` gives against truth.json. What is counted:

    words     share of the page's words that are found anywhere on it; watermarks and leader dots do not count
    order     2 * longest common subsequence / (words of the body as read + as it should be); words
              that may stand anywhere do not count
    head, foot, printed_page   pages on which they are right
    headings  share found;  false_headings  lines called a heading that are not
    warnings  share that came out in one passage with the whole step they guard
    passages  share of the body's words that the passages and their heading paths hold
    joined    share of the words divided at a line end that are whole in the passages
    rows      share of the rows of ruled tables found cell by cell
"""

import argparse
import json
import re
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, field
from pathlib import Path

from indexer.reading.document import read_document
from indexer.reading.page import Document, Line, Page, Passage
from indexer.settings import Settings

HERE = Path(__file__).parent
TRUTH: list[dict] = json.loads((HERE / "truth.json").read_text(encoding="utf-8"))


@dataclass
class PageScore:
    """One page. `faults` says in words what is wrong, for a person."""

    pdf_page: int
    words: float
    order: float
    head: bool
    foot: bool
    printed_page: bool
    faults: list[str] = field(default_factory=list)


@dataclass
class LayoutScore:
    """One file. Shares are 1.0 where the layout has none of the thing counted."""

    file: str
    pages: list[PageScore]
    headings: float
    false_headings: int
    warnings: float
    passages: float
    joined: float
    rows: float
    faults: list[str]

    @property
    def words(self) -> float:
        """Of the worst page."""
        return min(page.words for page in self.pages)

    @property
    def order(self) -> float:
        """Of the worst page."""
        return min(page.order for page in self.pages)

    def wrong(self, what: str) -> list[int]:
        """The pages on which `head`, `foot` or `printed_page` is wrong."""
        return [page.pdf_page for page in self.pages if not getattr(page, what)]


def longest_common(first: Sequence[str], second: Sequence[str]) -> int:
    """Length of the longest common subsequence, bit-parallel (Hyyro 2004): one big-integer step a word."""
    places: dict[str, int] = {}
    for n, word in enumerate(first):
        places[word] = places.get(word, 0) | 1 << n
    full = (1 << len(first)) - 1
    row = full
    for word in second:
        matched = row & places.get(word, 0)
        row = ((row + matched) | (row - matched)) & full
    return len(first) - row.bit_count()


LEADER = re.compile(r"[._]{3,}")  # dots or strokes that lead the eye along a line say nothing


def words_of(lines: Iterable[Line]) -> list[str]:
    return [word for line in lines for word in line.text.split() if not LEADER.fullmatch(word)]


def share(found: float, wanted: float) -> float:
    return found / wanted if wanted else 1.0


def difference(name: str, read: Counter, wanted: Counter) -> str:
    """What is missing from and what is too much in a bag of words, shortened."""
    missing, extra = " ".join((wanted - read).elements()), " ".join((read - wanted).elements())
    return f"{name}: " + "; ".join(
        f"{what} «{words[:160]}»" for what, words in (("missing", missing), ("extra", extra)) if words
    )


def score_page(page: Page, truth: dict) -> PageScore:
    said = {place: truth[place].split() for place in ("head", "foot", "body", "either", "aside", "behind")}
    read = {place: words_of(getattr(page, place)) for place in ("head", "foot", "body")}
    faults = []
    wanted = Counter(sum((said[place] for place in ("head", "foot", "body", "either", "aside")), []))
    found = Counter(sum(read.values(), []))
    words = share((wanted & found).total(), wanted.total())
    if words < 1:
        faults.append(difference("words", found & wanted, wanted))
    loose = Counter(said["either"] + said["aside"] + said["behind"])
    body, should_be = Counter(read["body"]), Counter(said["body"])
    surplus = body - should_be
    too_much = surplus - loose
    length = len(read["body"]) - (surplus.total() - too_much.total())
    order = share(2 * longest_common(said["body"], read["body"]), len(said["body"]) + length)
    if order < 0.95:
        faults.append(f"order {order:.3f}: {difference('body', body - loose, should_be - loose)}")
    right = {}
    for place in ("head", "foot"):
        got, should = Counter(read[place]), Counter(said[place])
        right[place] = not (should - got) and not (got - should - loose)
        if not right[place]:
            faults.append(difference(place, got - (got - should & loose), should))
    printed = page.printed_page == truth["printed_page"]
    if not printed:
        faults.append(f"printed page «{page.printed_page}», should be «{truth['printed_page']}»")
    return PageScore(truth["pdf_page"], words, order, right["head"], right["foot"], printed, faults)


def plain(text: str) -> str:
    """Words only: one space between them, no case, no full stop at the end."""
    return " ".join(text.split()).casefold().rstrip(".: ")


def heading_lines(page: Page) -> list[str]:
    """The texts of the page's headings; neighbouring lines of one level also joined."""
    texts, run, level = [], [], 0
    for line in page.body:
        if line.heading_level and line.heading_level == level:
            run.append(line.text)
            texts.append(" ".join(run))
        else:
            run = [line.text]
            level = line.heading_level
        if line.heading_level:
            texts.append(line.text)
    return [plain(text) for text in texts]


def covers(passage: Passage, pdf_page: int) -> bool:
    return passage.pdf_page <= pdf_page <= max(box.pdf_page for box in passage.boxes)


def score_layout(document: Document, truth: dict) -> LayoutScore:
    """One file's score. Raises ValueError when the number of pages is not the truth's."""
    pages = [score_page(page, told) for page, told in zip(document.pages, truth["pages"], strict=True)]
    faults: list[str] = []
    headings = headings_found = false_headings = rows = rows_found = 0
    for page, told in zip(document.pages, truth["pages"], strict=True):
        paths = [
            plain(step) for p in document.passages if p.pdf_page == page.pdf_page for step in p.heading_path
        ]
        called = heading_lines(page)
        wanted = [plain(heading) for heading in told["headings"]]
        headings += len(wanted)
        for heading in wanted:
            if heading in called or heading in paths:
                headings_found += 1
            else:
                faults.append(f"page {page.pdf_page}: heading «{heading}» not found")
        allowed = " ".join(wanted)
        for line in page.body:
            if line.heading_level and plain(line.text) not in allowed:
                false_headings += 1
        read_rows = Counter(
            tuple(plain(cell) for cell in row if cell.strip()) for table in page.tables for row in table.rows
        )
        told_rows = Counter(
            tuple(plain(cell) for cell in row if cell.strip()) for table in told["tables"] for row in table
        )
        rows += told_rows.total()
        rows_found += (told_rows & read_rows).total()
    kept = 0
    for warning in truth["warnings"]:
        guarded, step = plain(warning["text"]), plain(warning["step"])
        near = [plain(passage.text) for passage in document.passages if covers(passage, warning["pdf_page"])]
        if any(guarded in text and step in text[text.index(guarded) :] for text in near):
            kept += 1
        else:
            why = "cut from its step" if any(guarded in text for text in near) else "not whole in any passage"
            faults.append(f"page {warning['pdf_page']}: {warning['kind']} «{guarded[:50]}» {why}")
    body = Counter(word for told in truth["pages"] for word in told["body"].split())
    said = " ".join(passage.text for passage in document.passages)
    paths = " ".join(step for passage in document.passages for step in passage.heading_path)
    held = Counter(f"{said} {paths}".split())
    for pair in truth["joined"]:
        # A divided word stands on the page as two halves and in a passage as one word.
        held.update(halves(pair.split()[1], body))
    passages = share((body & held).total(), body.total())
    if passages < 0.99:
        faults.append(difference("passages", held & body, body))
    whole = plain(said)
    joined = share(sum(plain(pair) in whole for pair in truth["joined"]), len(truth["joined"]))
    return LayoutScore(
        truth["file"], pages, share(headings_found, headings), false_headings,
        share(kept, len(truth["warnings"])), passages, joined, share(rows_found, rows), faults,
    )  # fmt: skip


def halves(word: str, body: Counter) -> list[str]:
    """The two printed halves of a divided word, as the page's words show them; [] when they do not."""
    for n in range(2, len(word) - 1):
        if f"{word[:n]}-" in body and word[n:] in body:
            return [f"{word[:n]}-", word[n:]]
    return []


def score_file(truth: dict) -> LayoutScore:
    return score_layout(read_document(HERE / "drawn" / truth["file"], Settings()), truth)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--save", type=Path, help="write every score and fault as JSON")
    parser.add_argument("--only", default="", help="part of a file name")
    given = parser.parse_args()
    scores = []
    print(f"{'layout':28} words  order  head foot page  headings false  warn  pass  join  rows")
    for truth in TRUTH:
        if given.only not in truth["file"]:
            continue
        try:
            score = score_file(truth)
        except Exception as problem:  # one layout that fails must not hide the other scores
            print(f"{truth['file'][:-4]:28} FAILED {type(problem).__name__}: {problem}")
            scores.append({"file": truth["file"], "failed": f"{type(problem).__name__}: {problem}"})
            continue
        scores.append(asdict(score))
        count = len(score.pages)
        right = " ".join(
            f"{count - len(score.wrong(what))}/{count}" for what in ("head", "foot", "printed_page")
        )
        shares = (score.warnings, score.passages, score.joined, score.rows)
        print(
            f"{truth['file'][:-4]:28} {score.words:.3f}  {score.order:.3f}  {right}  {score.headings:8.2f} "
            f"{score.false_headings:5}  {'  '.join(f'{value:.2f}' for value in shares)}"
        )
        for page in score.pages:
            for fault in page.faults:
                print(f"    page {page.pdf_page} {fault}")
        for fault in score.faults:
            print(f"    {fault}")
    if given.save:
        given.save.write_text(
            json.dumps(scores, indent=1, ensure_ascii=False) + "\n", encoding="utf-8", newline="\n"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
