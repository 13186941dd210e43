"""The page templates and the few filters they use. Everything is escaped unless a template says otherwise."""

import datetime
from pathlib import Path

from fastapi.templating import Jinja2Templates
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from server.first_sentence import first_sentence
from server.routes import static_files
from server.words import CAUTIONS, SHORT_CAUTION, basis_words, count_of, shortened

_FOLDER = Path(__file__).parent.parent / "templates"


def moment(when: datetime.datetime | None) -> str:
    """A moment on this machine's clock, to the minute: "4 March 2031, 14:05"."""
    if when is None:
        return "never"
    local = when.astimezone()
    return f"{local.day} {local:%B %Y, %H:%M}"


def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(_FOLDER),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(count_of=count_of, moment=moment, basis=basis_words, shortened=shortened)
    environment.filters.update(first_sentence=first_sentence)
    environment.globals.update(
        cautions=CAUTIONS, short_caution=SHORT_CAUTION, state=None, wide=False, here="", hand=None
    )
    environment.globals.update(static=static_files.ADDRESS, person=None, packet_in_hand=None)
    return environment


templates = Jinja2Templates(env=_environment())
