"""The command `hangarleaf person`: who may change the library through the service."""

import sys

import click

from server.commands.options import json_option, library_option, settings_for

_AT_THE_MACHINE = "commands on this machine"  # in the history, where nobody says who


def _who(command):
    return click.option("--who", default="", help="Your name, for the history.")(command)


def _passcode(command):
    return click.option(
        "--passcode-stdin", is_flag=True, help="Take the passcode from the first line of standard input."
    )(command)


@click.group()
def person() -> None:
    """Persons who may change the library through the service. The first one named is a librarian.

    While nobody is named, changes are taken from this machine alone, under a name that is typed.
    """


@person.command("list")
@json_option
@library_option
def list_(as_json: bool, library: str | None) -> None:
    """Who is named, and who was ended."""
    from indexer.library import people
    from server import console

    with _catalogue(library) as catalogue:
        found = people.persons(catalogue)
    if as_json:
        return console.show_json([_fields(one) for one in found])
    for one in found:
        click.echo(_words(one))
    if not found:
        click.echo("Nobody is named. Name a librarian first: hangarleaf person add NAME --role librarian")


@person.command()
@click.argument("name")
@click.option(
    "--role", required=True, type=click.Choice(["librarian", "inspector"]), help="What they may do."
)
@_who
@_passcode
@library_option
def add(name: str, role: str, who: str, passcode_stdin: bool, library: str | None) -> None:
    """Name a person; the passcode is asked for."""
    from indexer.library import people

    with _catalogue(library) as catalogue:
        made = people.add(catalogue, name, role, _given(passcode_stdin), who or _AT_THE_MACHINE)
    click.echo(f"Named: {_words(made)}")


@person.command()
@click.argument("name")
@_who
@_passcode
@library_option
def passcode(name: str, who: str, passcode_stdin: bool, library: str | None) -> None:
    """Give a person a new passcode; it ends a lock, and every sign-in under the name."""
    from indexer.library import people

    with _catalogue(library) as catalogue:
        people.person_called(catalogue, name)  # before anybody types a passcode for nobody
        held = people.change_passcode(catalogue, name, _given(passcode_stdin), who or _AT_THE_MACHINE)
    click.echo(f"{held.name} has a new passcode and must sign in with it.")


@person.command()
@click.argument("name")
@_who
@library_option
def end(name: str, who: str, library: str | None) -> None:
    """A person may not sign in any more; entries keep the name."""
    from indexer.library import people

    with _catalogue(library) as catalogue:
        gone = people.end(catalogue, name, who or _AT_THE_MACHINE)
    click.echo(f"Ended: {gone.name}")


def _catalogue(library: str | None):
    """The catalogue alone: no index is needed for persons. Raises LibraryProblem."""
    from indexer.library.catalogue import Catalogue

    return Catalogue.open(settings_for(library).library_folder)


def _given(from_stdin: bool) -> str:
    if from_stdin:
        return sys.stdin.readline().rstrip("\r\n")
    return click.prompt("Passcode, 8 characters or more", hide_input=True, confirmation_prompt="Once more")


def _words(one) -> str:
    until = f", ended {one.ended_at:%Y-%m-%d}" if one.ended_at else ""
    locked = f", locked until {one.locked_until.astimezone():%H:%M}" if one.locked_until else ""
    return f"{one.name}, {one.role.value}{until}{locked}"


def _fields(one) -> dict[str, object]:
    return {
        "name": one.name,
        "role": one.role.value,
        "named_at": one.named_at.isoformat(),
        "ended_at": one.ended_at.isoformat() if one.ended_at else None,
        "locked_until": one.locked_until.isoformat() if one.locked_until else None,
    }
