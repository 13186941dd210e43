"""Options that several commands share, and the settings they lead to."""

import os
from collections.abc import Callable
from dataclasses import replace

import click

from indexer.settings import Settings, from_environment


def library_option(command: Callable) -> Callable:
    return click.option(
        "--library",
        metavar="DIR",
        default=None,
        help="Folder of the library; else the setting HANGARLEAF_LIBRARY, else a per-user data folder.",
    )(command)


def json_option(command: Callable) -> Callable:
    return click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")(command)


def who_option(command: Callable) -> Callable:
    return click.option("--who", required=True, help="Your name; it is kept with the entry.")(command)


def why_option(command: Callable) -> Callable:
    return click.option("--why", required=True, help="The reason, in a few words.")(command)


def settings_for(library: str | None) -> Settings:
    """Settings from the environment, with --library above them. Raises SettingRefused."""
    settings = from_environment(os.environ)
    return replace(settings, library=library) if library else settings


def say_demonstration(settings: Settings) -> None:
    """Say on the error stream where the library is the demonstration; nothing where there is none yet.

    Raises LibraryProblem.
    """
    from indexer.library.catalogue import Catalogue
    from indexer.library.database import FILE_NAME
    from indexer.library.day import demonstration_words

    if not (settings.library_folder / FILE_NAME).exists():
        return
    with Catalogue.open(settings.library_folder) as catalogue:
        if words := demonstration_words(catalogue):
            click.echo(words, err=True)


def opened(library: str | None):
    """The library, opened and caught up; use it as a context manager.

    Raises LibraryProblem, among them PersonUnknown where persons are named and --who is none of them. On the
    error stream, so that no list or JSON is spoiled: that it is the demonstration, and of which day.
    """
    from indexer.library.day import demonstration_words
    from server.opened import OpenedLibrary  # here, so that `hangarleaf --help` loads no engine

    settings = settings_for(library)
    held = OpenedLibrary.open(settings.library_folder, settings)
    if words := demonstration_words(held.catalogue):
        click.echo(words, err=True)
    try:
        _know_who(held.catalogue)
    except BaseException:
        held.close()
        raise
    return held


def _know_who(catalogue) -> None:
    """Whoever can run commands here has the library's files; but entries stand under names that are known."""
    from indexer.library import people
    from indexer.library.problems import PersonUnknown

    context = click.get_current_context(silent=True)
    who = " ".join((context.params.get("who") or "").split()) if context else ""
    if who and people.any_named(catalogue) and people.person_called(catalogue, who).name != who:
        raise PersonUnknown(who)
