"""The command `hangarleaf`: arguments in, exit code out. The same functions as the pages and the JSON API.

0    done
1    some files were refused; each is named with the reason and the remedy
2    the command, the question or the library cannot be used as given
130  stopped by the reader (Ctrl-C)
"""

import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from indexer.errors import FileRefused, HangarleafError
from server.commands import check as check_command
from server.commands import desk as desk_command
from server.commands import fleet as fleet_command
from server.commands import map as map_command
from server.commands import ocr as ocr_command
from server.commands import packet as packet_command
from server.commands import part as part_command
from server.commands import person as person_command
from server.commands import register as register_command
from server.commands import system as system_command
from server.commands import tablet as tablet_command
from server.commands import words as words_command
from server.commands.options import json_option, library_option, opened, say_demonstration, settings_for

REFUSED, USAGE, STOPPED = 1, 2, 130
DEFAULT_PORT = 8017
NETWORK = "0.0.0.0"  # to listen there = on every address of this machine


class Commands(click.Group):
    """Turns every problem of ours into two plain sentences and an exit code, never a traceback."""

    def main(self, *args: Any, **kwargs: Any) -> Any:
        kwargs["standalone_mode"] = False
        for stream in (sys.stdout, sys.stderr):  # a console that lacks a letter shows a stand-in for it
            stream.reconfigure(errors="replace")
        try:
            code = super().main(*args, **kwargs)
        except click.ClickException as problem:
            problem.show()
            code = USAGE
        except (click.Abort, KeyboardInterrupt):
            click.echo("Stopped. What was done before is kept.", err=True)
            code = STOPPED
        except HangarleafError as problem:
            complain(problem.what, problem.remedy)
            code = REFUSED if isinstance(problem, FileRefused) else USAGE
        sys.exit(code or 0)


def complain(what: str, remedy: str) -> None:
    """What happened and what to do, on the error stream."""
    click.echo(what, err=True)
    if remedy:
        click.echo(remedy, err=True)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="hangarleaf", prog_name="hangarleaf")
def main() -> None:
    """Find the page in the shop's own publications, with the evidence for every tag.

    Reference aid only: it approves no work, no data and no part.
    """


@main.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
@click.option("--read-again", is_flag=True, help="Read again what an older version of the program has read.")
@click.option("--rebuild-index", is_flag=True, help="Build the search index anew from the catalogue.")
@click.option("--no-ocr", is_flag=True, help="Leave scanned pages for later: hangarleaf ocr.")
@json_option
@library_option
def ingest(
    paths: tuple[Path, ...],
    read_again: bool,
    rebuild_index: bool,
    no_ocr: bool,
    as_json: bool,
    library: str | None,
) -> int:
    """Take PDF files, or folders with all their subfolders, into the library; then read scanned pages."""
    from server import reading_scans, taking_in

    if not (paths or read_again or rebuild_index):
        raise click.UsageError("Name a PDF file or a folder, or give --read-again or --rebuild-index.")
    if paths and read_again:
        raise click.UsageError("Give --read-again without files: it reads the library's own copies.")
    settings = settings_for(library)
    say_demonstration(settings)
    refused = taking_in.take_in(list(paths), settings, as_json) if paths else 0
    if read_again:
        refused += taking_in.take_again(settings, as_json)
    if rebuild_index:
        taking_in.rebuild(settings, as_json)
    if not no_ocr and (paths or read_again):
        reading_scans.after_ingest(settings, as_json)
    return REFUSED if refused else 0


@main.command()
@click.argument("query", nargs=-1)
@click.option("--chapter", multiple=True, help="32, or 32-41, or none (without a number). May be repeated.")
@click.option("--type", "kinds", multiple=True, metavar="TYPE", help="Such as AMM, SB, AD. May be repeated.")
@click.option("--standing", multiple=True, help="Such as approved. May be repeated.")
@click.option("--publication", multiple=True, help="Its id, number or file name. May be repeated.")
@click.option("--limit", type=click.IntRange(min=0), default=20, show_default=True, help="Most hits shown.")
@click.option("--as-typed", is_flag=True, help="Look for nothing but the words and numbers as they stand.")
@click.option("--no-misreadings", is_flag=True, help="Not for what OCR may have made of the words.")
@click.option("--aircraft", default="", metavar="REG", help="Say of each hit whether it applies to it.")
@click.option("--hide-not-applying", is_flag=True, help="Leave out what does not apply; the count is said.")
@click.option("--current", is_flag=True, help="Leave out what is known not to be current; the count is said.")
@click.option("--why", "with_reasons", is_flag=True, help="Say of each hit why it is here, and why there.")
@json_option
@library_option
def search(
    query: tuple[str, ...],
    chapter: tuple[str, ...],
    kinds: tuple[str, ...],
    standing: tuple[str, ...],
    publication: tuple[str, ...],
    limit: int,
    as_typed: bool,
    no_misreadings: bool,
    aircraft: str,
    hide_not_applying: bool,
    current: bool,
    with_reasons: bool,
    as_json: bool,
    library: str | None,
) -> None:
    """Search the library; hits are grouped by chapter.

    Quote a phrase for the shell: hangarleaf search '"master cylinder"'. Leave words out with a minus after
    two dashes: hangarleaf search -- tire -nose.
    """
    from server import console
    from server.search import note_if_missed
    from server.search import search as find
    from server.shelf import named
    from server.why import why

    question = " ".join(query)
    reasons = {}
    with opened(library) as shelf:
        ids = [named(shelf, one).id for one in publication]
        answer = find(
            shelf,
            question,
            chapter,
            kinds,
            standing,
            ids,
            limit=limit,
            as_typed=as_typed,
            aircraft=aircraft,
            hide_not_applying=hide_not_applying,
            current=current,
            misread=not no_misreadings,
        )
        note_if_missed(shelf, answer)
        if with_reasons:
            asked = (question, chapter, kinds, standing, ids, as_typed, not no_misreadings)
            reasons = {
                hit.passage.id: why(shelf, hit.passage.id, *asked)
                for group in answer.groups
                for hit in group.hits
            }
    if as_json:
        told = [reason.fields() for reason in reasons.values()]
        console.show_json(answer.fields() | ({"why": told} if with_reasons else {}))
    else:
        console.show_search(answer, reasons)


@main.command()
@click.argument("publication")
@click.argument("pdf_page", required=False, type=click.IntRange(min=1))
@json_option
@library_option
def show(publication: str, pdf_page: int | None, as_json: bool, library: str | None) -> None:
    """Show a publication (by id, number or file name), or one of its pages with its passages and tags."""
    from server import console, leaf, shelf
    from server.ocr_debt import wanted

    with opened(library) as held:
        record = shelf.named(held, publication)
        if pdf_page is None:
            answer = shelf.publication(held, record.id)
            return console.show_json(answer) if as_json else console.show_publication(answer)
        answer = leaf.page(held, record.id, pdf_page)
        if answer["not_read"]:
            wanted(held, record.copy_id, pdf_page)
        return console.show_json(answer) if as_json else console.show_page(answer)


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@json_option
@library_option
def tags(file: Path, as_json: bool, library: str | None) -> None:
    """Show every passage of one PDF with its tags and evidence. Nothing is kept; no library is needed."""
    from server import console
    from server.loose_tags import tags_of

    found = tags_of(file, settings_for(library))
    return console.show_json(found) if as_json else console.show_tags(found)


@main.command()
@json_option
@library_option
def status(as_json: bool, library: str | None) -> None:
    """Show what the library holds, what search cannot find, and which files were refused."""
    from server import console, shelf

    with opened(library) as held:
        answer = shelf.status(held)
    return console.show_json(answer) if as_json else console.show_status(answer)


@main.command()
@click.option(
    "--host", help="Listen there; default: this machine only. 0.0.0.0 opens it to the local network."
)
@click.option(
    "--port", type=click.IntRange(0, 65535), default=DEFAULT_PORT, show_default=True, help="0 = any free."
)
@click.option("--lan", is_flag=True, help="Open it to the local network, for tablets: as --host 0.0.0.0.")
@click.option("--https", is_flag=True, help="Encrypt the way, with a certificate that the shop makes itself.")
@click.option(
    "--certificate", metavar="FILE", help="Encrypt the way with this certificate (PEM, whole chain)."
)
@click.option("--certificate-key", metavar="FILE", help="The key of --certificate (PEM, no passphrase).")
@click.option("--ocr", is_flag=True, help="Read scanned pages in the background while it is served.")
@click.option(
    "--watch", metavar="DIR", default=None, help="Take in new and changed PDF files of this folder."
)
@library_option
def serve(
    host: str | None,
    port: int,
    lan: bool,
    https: bool,
    certificate: str | None,
    certificate_key: str | None,
    ocr: bool,
    watch: str | None,
    library: str | None,
) -> None:
    """Serve the library's pages and its JSON API; on this machine only, unless --lan or --host is given."""
    if lan and host:
        raise click.UsageError("--lan and --host both say where to listen; leave one out.")
    if bool(certificate) != bool(certificate_key):
        raise click.UsageError("--certificate and --certificate-key belong together; give both.")
    if https and certificate:
        raise click.UsageError(
            "--https makes a certificate of the shop's own; leave it out beside --certificate."
        )
    from server.serving import Encryption
    from server.serving import serve as run

    settings = settings_for(library)
    if watch is not None:
        settings = replace(settings, watch_folder=watch)
    say_demonstration(settings)
    files = [Path(name).expanduser() if name else None for name in (certificate, certificate_key)]
    encryption = Encryption(https, *files)
    run(settings, NETWORK if lan else host or "127.0.0.1", port, ocr=ocr, encryption=encryption)


@main.command()
@click.option("--lan", is_flag=True, help="Open it to the local network, for a tablet.")
@click.option("--https", is_flag=True, help="Encrypt the way, with a certificate made for this demo.")
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="Default: any free port.")
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@library_option
def demo(lan: bool, https: bool, port: int, no_browser: bool, library: str | None) -> int:
    """Take the sample library into a fresh folder, serve it, and open its first page."""
    from server.demo import demo as run

    return REFUSED if run(library, settings_for(None), lan, port, not no_browser, https) else 0


main.add_command(check_command.check)
main.add_command(check_command.checks)
main.add_command(desk_command.desk)
main.add_command(fleet_command.fleet)
main.add_command(map_command.shop_map, "map")
main.add_command(part_command.figure)
main.add_command(part_command.part)
main.add_command(part_command.part_list)
main.add_command(ocr_command.ocr)
main.add_command(person_command.person)
main.add_command(packet_command.packet)
main.add_command(register_command.effective)
main.add_command(register_command.register)
main.add_command(system_command.system)
main.add_command(tablet_command.tablet)
main.add_command(words_command.words)


if __name__ == "__main__":
    main()
