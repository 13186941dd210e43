"""A bar of progress on the error stream, for work that takes minutes; none where there is no terminal."""

import sys

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn


def progress_bar() -> Progress:
    """Use it in `with`; what is to be said beside it goes to its console."""
    console = Console(stderr=True, highlight=False, markup=False, soft_wrap=not sys.stderr.isatty())
    return Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        TimeElapsedColumn(),
        console=console,
        disable=not console.is_terminal,
    )
