"""The shapes of the JSON that the shop's lists share: words, fleet and revision register."""

from pydantic import Field

from server.routes.models import Shape

Who = Field(
    "",
    max_length=200,
    description="The name of the person who does it. May be left out by who is signed in.",
)


class Reasoned(Shape):
    """Who takes something out or back, and why."""

    who: str = Who
    why: str = Field(max_length=1000)


class LineProblem(Shape):
    line: int
    what: str


class ImportAnswer(Shape):
    """With any problem nothing was taken."""

    added: int
    already: int
    problems: list[LineProblem]
