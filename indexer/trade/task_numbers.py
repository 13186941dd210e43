"""Task and subtask numbers of maintenance manuals (AMTOSS): chapter-section-subject, function, sequence."""

import re
from dataclasses import dataclass, replace
from functools import cache

from indexer.trade.chapter_tables import read_table
from indexer.trade.chapters import ChapterNumber
from indexer.trade.dashes import plain_dashes

# Function codes leave out I and O; the last place of a sequence may become a letter after 999.
_TASK = re.compile(
    r"(?<![\w-])(?:(?P<word>(?:SUB-?)?TASK)\s+)?"
    r"(?:(?P<a>[0-9]{2})-(?P<b>[0-9]{2})-(?P<c>[0-9]{2})-)?"
    r"(?P<function>[0-9][0-9A-HJ-NP-Z]{2})-(?P<sequence>[0-9]{2}[0-9A-Z])"
    r"(?:-(?P<configuration>[0-9A-Z]{1,3}))?(?!\w)(?!-\w)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class TaskNumber:
    """A task or subtask; text[start:end] is the whole number with the word before it.

    number         None for a subtask printed short ("SUBTASK 870-001-002"): it takes its task's number
    configuration  "" when there is none (zeros and blanks are none)
    """

    number: ChapterNumber | None
    function: str
    sequence: str
    configuration: str
    start: int
    end: int

    @property
    def is_subtask(self) -> bool:
        """Sequences 001 to 800 are subtasks, 801 to 999 and those with a letter tasks."""
        return self.sequence.isdigit() and int(self.sequence) <= 800

    @property
    def title(self) -> str | None:
        """What the function code says is done."""
        return function_title(self.function)

    def under(self, task: "TaskNumber") -> "TaskNumber":
        """This subtask with its task's number, when it is printed without one."""
        return self if self.number else replace(self, number=task.number)


def find_tasks(text: str) -> list[TaskNumber]:
    """Task and subtask numbers in order of place; one without a chapter number needs the word SUBTASK."""
    found = []
    for match in _TASK.finditer(plain_dashes(text)):
        if not match["a"] and not (match["word"] or "").upper().startswith("SUB"):
            continue
        number = ChapterNumber(match["a"], match["b"], match["c"]) if match["a"] else None
        configuration = (match["configuration"] or "").upper().strip("0") and match["configuration"].upper()
        found.append(
            TaskNumber(
                number,
                match["function"].upper(),
                match["sequence"].upper(),
                configuration,
                match.start(),
                match.end(),
            )
        )
    return found


def function_title(function: str) -> str | None:
    """The meaning of a function code: its own row, its tens ("413" as "410"), else its hundreds."""
    rows = _functions()
    return next(
        (rows[code] for code in (function, f"{function[:2]}0", f"{function[:1]}xx") if code in rows), None
    )


@cache
def _functions() -> dict[str, str]:
    return {row["function"]: row["title"] for row in read_table("task_functions.csv")}
