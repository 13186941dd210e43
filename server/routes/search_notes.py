"""How a question was understood, as the search page shows it: sentences, each with its links. Pure."""

from dataclasses import dataclass, replace

from server.routes.addresses import OFF, ON, Asked, Chip
from server.search import SearchAnswer
from server.understood import NoteKind, Way, notes_on


@dataclass(frozen=True, slots=True)
class NoteView:
    """quiet   of less weight than the hits below it
    line    said in one line above them: it is so at every key while typing
    """

    words: str
    links: tuple[Chip, ...]
    quiet: bool
    line: bool = False


def note_views(answer: SearchAnswer, asked: Asked) -> list[NoteView]:
    """`asked` = the search as its address holds it; its filters stay in every link."""
    return [
        NoteView(
            note.words,
            tuple(Chip(way.words, _address(way, asked, answer, note.kind)) for way in note.ways),
            note.kind in (NoteKind.ALSO, NoteKind.LEFT_OUT, NoteKind.MISREAD),
            note.kind is NoteKind.BEGUN,
        )
        for note in notes_on(answer)
    ]


def _address(way: Way, asked: Asked, answer: SearchAnswer, kind: NoteKind) -> str:
    chapters = asked.chapter
    if kind is NoteKind.NUMBER:  # the chapter that the number was taken for is no filter of the other way
        named = {number.chapter for number in answer.numbers.numbers}
        given = answer.numbers.question.text == answer.question.text
        chapters = asked.chapter if given else tuple(each for each in asked.chapter if each not in named)
    return replace(
        asked,
        q=way.question,
        chapter=chapters,
        as_typed=(ON,) if way.as_typed else (),
        misread=() if way.misread else (OFF,),
        begun=(),  # another way to ask is a question, and nothing is being typed any more
    ).address
