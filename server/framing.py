"""Words that only frame a question: "how do I", "where is", "on this aircraft", "please". Pure.

No manual prints them beside the answer, so they would only keep it away. They are left out, and the answer
says which. Nothing in quotes or behind a minus is touched, and a word that turns a step round ("not", "no",
"off", "before", "without") is never left out; "on" is, but only inside a frame. Where nothing would be left,
nothing is left out. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from indexer.library.analysis import printed_words
from server.question import Question

# At the beginning of a question; one may follow another.
_OPENINGS = tuple(
    sorted(
        (
            tuple(line.split())
            for line in """
    how do i
    how do you
    how do we
    how can i
    how can we
    how should i
    how does one
    how is
    how are
    how to
    where is
    where are
    where's
    where can i find
    where do i find
    what is
    what are
    what's
    show me
    tell me about
    find
    find me
    look for
    look up
    search for
    i need
    i want
    i am looking for
    i'm looking for
    can you
    everything on
    everything about
    everything for
    all about
    anything on
    anything about
    information on
    information about
    info on
    documents on
    documents about
    please
    """.strip().splitlines()
        ),
        key=len,
        reverse=True,
    )
)
_PLACES = frozenset("on of for in".split())
_WHICH = frozenset("this the that my our".split())
_OURS = frozenset(["my", "our"])  # the others, and "of", "for", "in", are stop words and cost nothing
_AIRCRAFT = frozenset("aircraft airplane aeroplane airplanes plane ship helicopter rotorcraft".split())
_CLOSINGS = frozenset(["please"])
# Before a frame these say something about it: "not on the aircraft" is a state, and so is "turn on the pump".
_TURNS = frozenset("not no never without except unless until".split())
_SWITCHES = frozenset(
    """come comes leave power powered press push put remain remains selected stay stays switch switched
    switches switching turn turned turning turns""".split()
)


@dataclass(frozen=True, slots=True)
class Framed:
    """A question without its frame.

    left_out   what was taken away, as typed, in order
    subject    where an aircraft or a place was named with "on the ...", the words before that; else all words
    """

    question: Question
    left_out: tuple[str, ...] = ()
    subject: tuple[str, ...] = ()


def without_frame(question: Question) -> Framed:
    """The question without the words that only frame it."""
    bare = [word.casefold().replace("\u2019", "'").strip(".,;:?!()[]") for word in question.words]
    frames: list[tuple[int, int]] = []  # words[first:end], in order
    named_after = len(bare)
    for first, end in question.runs:
        at = first
        if first == 0 and _begins(question):
            for opening in _openings(bare, first, end):
                frames.append(opening)
                at = opening[1]
            if frames and (stop := _aircraft(bare, at - 1, first, end)):
                frames[-1], at = (frames[-1][0], stop), stop  # everything on this aircraft
        while at < end:
            stop = _aircraft(bare, at, first, end) or _place(bare, at, first, end)
            if stop:
                named_after = min(named_after, at)
            elif bare[at] in _CLOSINGS and at == len(bare) - 1:
                stop = at + 1
            if stop and any(printed_words(word) for word in question.words[at:stop]):
                frames.append((at, stop))
            at = max(at + 1, stop)
    gone = {at for first, end in frames for at in range(first, end)}
    kept = [at for at in range(len(bare)) if at not in gone]
    says_something = question.phrases or any(printed_words(question.words[at]) for at in kept)
    if not says_something:
        return Framed(question, (), question.words)
    left_out = tuple(" ".join(question.words[first:end]).strip(".,;:?!") for first, end in frames)
    subject = tuple(question.words[at] for at in kept if at < named_after)
    return Framed(_cut(question, frames, kept), left_out, subject or tuple(question.words[at] for at in kept))


def left_out_words(left_out: Sequence[str]) -> str:
    """ "" when nothing was."""
    words = ", ".join(f"«{words}»" for words in left_out)
    return f"Left out, because it only frames the question: {words}." if words else ""


def _begins(question: Question) -> bool:
    return bool(question.places) and not question.text[: question.places[0][0]].strip()


def _openings(bare: list[str], at: int, end: int) -> Iterator[tuple[int, int]]:
    """Openings one after another from the first word on."""
    while found := next((one for one in _OPENINGS if tuple(bare[at : min(end, at + len(one))]) == one), None):
        yield at, at + len(found)
        at += len(found)


def _aircraft(bare: list[str], at: int, first: int, end: int) -> int:
    """Where "on this aircraft" that begins here ends; 0 = it does not."""
    if at + 2 >= end or bare[at] not in _PLACES or bare[at + 1] not in _WHICH:
        return 0
    turned = at > first and bare[at - 1] in (_TURNS | _SWITCHES if bare[at] == "on" else _TURNS)
    return at + 3 if bare[at + 2] in _AIRCRAFT and not turned else 0


def _place(bare: list[str], at: int, first: int, end: int) -> int:
    """Where "on the" ends between two names that stay, brakes on the Hedgeling; 0 = it is none."""
    if at == first or at + 1 >= end or bare[at] not in _PLACES or bare[at - 1] in _TURNS | _SWITCHES:
        return 0
    if bare[at + 1] in (_WHICH if bare[at] in ("on", "for") else _OURS):
        return at + 2 if at + 2 < end else 0
    tail_number = bare[at] == "on" and bare[at + 1][:1].isalpha() and any(map(str.isdigit, bare[at + 1]))
    return at + 1 if tail_number else 0


def _cut(question: Question, frames: list[tuple[int, int]], kept: list[int]) -> Question:
    """The question with some words out of its text, and the places of the others moved."""
    text, places = question.text, list(question.places)
    for first, end in reversed(frames):
        start = places[first][0]
        stop = places[end][0] if end < len(places) and not _between(question, end) else places[end - 1][1]
        text = text[:start] + text[stop:]
        places[end:] = [(a - stop + start, b - stop + start) for a, b in places[end:]]
    blanks = len(text) - len(text.lstrip())
    return replace(
        question,
        text=text.strip(),
        words=tuple(question.words[at] for at in kept),
        places=tuple((places[at][0] - blanks, places[at][1] - blanks) for at in kept),
    )


def _between(question: Question, at: int) -> bool:
    """Whether something else stands between a word and the one before it."""
    return bool(question.text[question.places[at - 1][1] : question.places[at][0]].strip())
