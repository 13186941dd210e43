"""The command `hangarleaf desk`: the librarian's queue, decisions, and the trail of entries."""

from typing import Any

import click

from server.commands.options import json_option, library_option, opened, who_option, why_option


@click.group(invoke_without_command=True)
@click.option("--cause", multiple=True, metavar="CAUSE", help="Such as likely or not-numbered. Repeatable.")
@click.option("--left-out", is_flag=True, help="Show what nobody is asked about instead.")
@click.option("--limit", type=click.IntRange(min=0), default=20, show_default=True, help="Most shown.")
@json_option
@library_option
@click.pass_context
def desk(
    context: click.Context,
    cause: tuple[str, ...],
    left_out: bool,
    limit: int,
    as_json: bool,
    library: str | None,
) -> None:
    """What the machine is unsure of, the most useful question first; and what people said of it."""
    context.obj = library
    if context.invoked_subcommand is not None:
        return
    from server import console
    from server import desk as librarian
    from server.commands import desk_console

    with opened(library) as held:
        answer = librarian.queue(held, cause, limit, left_out=left_out)
        if as_json:
            console.show_json(answer)
        else:
            desk_console.show_queue(answer, librarian.names(held))


@desk.command()
@click.argument("item")
@click.option("--file-under", metavar="CHAPTERS", help="32, or '32-41; 24'; none = belongs to no chapter.")
@click.option("--type", "kind", metavar="TYPE", help="The type of its publication, such as AMM.")
@click.option("--revision", help="The revision of its publication, as printed.")
@click.option("--date", help="The date of that revision: 2031-05-12.")
@click.option("--dismiss", is_flag=True, help="Leave it as it is.")
@who_option
@why_option
@json_option
@library_option
@click.pass_context
def decide(
    context: click.Context,
    item: str,
    file_under: str | None,
    kind: str | None,
    revision: str | None,
    date: str | None,
    dismiss: bool,
    who: str,
    why: str,
    as_json: bool,
    library: str | None,
) -> None:
    """Answer the question ITEM for all that it covers."""
    from indexer.library.records import EntryKind
    from server import desk as librarian

    given = [
        (EntryKind.CHAPTERS, "" if file_under == "none" else file_under),
        (EntryKind.TYPE, kind),
        (EntryKind.REVISION, revision),
        (EntryKind.DATE, date),
    ]
    answers = [(which, value) for which, value in given if value is not None]
    if len(answers) + dismiss != 1:
        raise click.UsageError("Give one answer: --file-under, --type, --revision, --date or --dismiss.")
    with opened(library or context.obj) as held:
        if dismiss:
            made = librarian.dismiss(held, item, who, why)
        else:
            made = librarian.decide(held, item, *answers[0], who, why)
        _show(held, librarian.entries_by_id(held, [each.id for each in made]), as_json)


@desk.command()
@click.option("--state", help="In force, waits for a second person, check again, or undone.")
@click.option("--publication", help="Its id, number or file name.")
@json_option
@library_option
@click.pass_context
def entries(
    context: click.Context, state: str | None, publication: str | None, as_json: bool, library: str | None
) -> None:
    """Every entry of the shop, the newest first: who, when, why, and what it changed."""
    from indexer.library.records import EntryState
    from server import desk as librarian
    from server.shelf import named

    states = {each.value: each for each in EntryState}
    if state is not None and state.casefold() not in states:
        raise click.UsageError(f"«{state}» is no state of an entry. Choose one of: {', '.join(states)}.")
    with opened(library or context.obj) as held:
        one = named(held, publication).id if publication else ""
        found = librarian.entries(held, one, states[state.casefold()] if state else None)
        _show(held, found["entries"], as_json, found)


@desk.command()
@click.argument("entry", nargs=-1, required=True, type=click.IntRange(min=1))
@who_option
@why_option
@json_option
@library_option
@click.pass_context
def undo(
    context: click.Context, entry: tuple[int, ...], who: str, why: str, as_json: bool, library: str | None
) -> None:
    """Take entries back; they stay in the trail."""
    from server import desk as librarian

    with opened(library or context.obj) as held:
        librarian.undo(held, entry, who, why)
        _show(held, librarian.entries_by_id(held, entry), as_json)


@desk.command()
@click.argument("entry", type=click.IntRange(min=1))
@who_option
@json_option
@library_option
@click.pass_context
def agree(context: click.Context, entry: int, who: str, as_json: bool, library: str | None) -> None:
    """Agree, as the second person, to an entry that raises a standing."""
    from server import desk as librarian

    with opened(library or context.obj) as held:
        librarian.agree(held, entry, who)
        _show(held, librarian.entries_by_id(held, [entry]), as_json)


def _show(held: Any, entries_shown: list[dict[str, Any]], as_json: bool, whole: Any = None) -> None:
    from server import console
    from server import desk as librarian
    from server.commands import desk_console

    if as_json:
        console.show_json(entries_shown if whole is None else whole)
    else:
        desk_console.show_entries(entries_shown, librarian.names(held))
