"""The shop's own list of words: a page to read and edit it, and the same as JSON under /api/words."""

import datetime
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Path, Request
from fastapi.responses import HTMLResponse, JSONResponse, Response
from pydantic import Field

from indexer.errors import HangarleafError
from indexer.library import shop_words
from indexer.library.shop_lists import Imported
from server.list_imports import import_fields
from server.rights import Right
from server.routes import models
from server.routes.answers import csv_file, described
from server.routes.asker import SentBy
from server.routes.list_models import ImportAnswer, Reasoned, Who
from server.routes.list_pages import after, after_import
from server.routes.shown import library_of, shown, state_of
from server.routes.writer import writer
from server.routes.writing import Form, require
from server.words_list import import_words, word_fields, words_list

router = APIRouter(default_response_class=HTMLResponse)
api_router = APIRouter(
    prefix="/api/words",
    responses={
        400: {"model": models.ProblemAnswer, "description": "Not entered: name, word or reason is missing."},
        403: {"model": models.ProblemAnswer, "description": "This asker may not change it; it says why."},
        404: {"model": models.ProblemAnswer, "description": "There is no such word."},
    },
)
Shape = models.Shape


class ShopWord(Shape):
    id: int
    term: str = Field(examples=["donut"], description="As people here say it.")
    manual_terms: list[str] = Field(examples=[["rubber shock disc"]], description="As manuals print it.")
    note: str
    who: str
    made_at: datetime.datetime


class ShopWordList(Shape):
    library_state: models.State
    total: int
    words: list[ShopWord]


class NewWord(Shape):
    term: str = Field(max_length=200)
    manual_terms: list[str] = Field(max_length=50)
    who: str = Who
    note: str = Field("", max_length=1000)


class WordsToImport(Shape):
    csv: str = Field(description="Columns term, manual_terms (parted by ;), note, who, date.")
    who: str = Who


@api_router.get("", **described(ShopWordList, "The shop's own list of words"))
def get_words(request: Request) -> Response:
    return JSONResponse(words_list(library_of(request)))


@api_router.post("", dependencies=[require(Right.LISTS)], **described(ShopWord, "Add a word"))
def post_word(request: Request, word: NewWord, who: SentBy) -> Response:
    catalogue = library_of(request).catalogue
    return JSONResponse(
        word_fields(shop_words.add_word(catalogue, word.term, word.manual_terms, who, word.note))
    )


@api_router.post(
    "/import", dependencies=[require(Right.LISTS)], **described(ImportAnswer, "Add the lines of a CSV text")
)
def post_words(request: Request, sent: WordsToImport, who: SentBy) -> Response:
    taken = shop_words.import_csv(library_of(request).catalogue, sent.csv, who)
    return JSONResponse(import_fields(taken), 400 if taken.problems else 200)


@api_router.post(
    "/{word_id}/remove", dependencies=[require(Right.LISTS)], **described(ShopWord, "Take a word out")
)
def post_word_removal(
    request: Request, word_id: Annotated[int, Path(ge=1, le=2**62)], removal: Reasoned, who: SentBy
) -> Response:
    gone = shop_words.remove_word(library_of(request).catalogue, word_id, who, removal.why)
    return JSONResponse(word_fields(gone))


@router.get("/words")
def words_page(request: Request, done: str = "") -> Response:
    return _page(request, done=done[:200])


@router.get("/words.csv")
def words_csv(request: Request) -> Response:
    return csv_file(shop_words.export_csv(library_of(request).catalogue), "shop-words.csv")


@router.post("/words", dependencies=[require(Right.LISTS)])
def add_from_page(request: Request, form: Form) -> Response:
    def add() -> str:
        word = shop_words.add_word(
            library_of(request).catalogue,
            form.get("term", ""),
            form.get("manual_terms", ""),
            form.get("who", ""),
            form.get("note", ""),
        )
        return f"Added: {word.term} = {'; '.join(word.manual_terms)}."

    return after(form, "/words", add, partial(_page, request))


@router.post("/words/remove", dependencies=[require(Right.LISTS)])
def remove_from_page(request: Request, form: Form) -> Response:
    def remove() -> str:
        number = form.get("word", "")
        gone = shop_words.remove_word(
            library_of(request).catalogue,
            int(number) if number.isascii() and number.isdigit() else 0,
            form.get("who", ""),
            form.get("why", ""),
        )
        return f"Taken out: {gone.term}."

    return after(form, "/words", remove, partial(_page, request))


@router.post("/words/import", dependencies=[require(Right.LISTS)])
def import_from_page(request: Request, form: Form) -> Response:
    def take() -> Imported:
        return shop_words.import_csv(library_of(request).catalogue, form.get("csv", ""), form.get("who", ""))

    return after_import(form, "/words", take, import_words, partial(_page, request))


def _page(
    request: Request,
    given: dict[str, str] | None = None,
    problem: HangarleafError | None = None,
    lines: list[dict[str, Any]] | None = None,
    said: str = "",
    done: str = "",
) -> Response:
    library = library_of(request)
    return shown(
        request,
        "words.html",
        state_of(library),
        400 if problem or lines else 200,
        words=words_list(library)["words"],
        given=given or {},
        problem=problem,
        lines=lines or [],
        said=said,
        done=done,
        writer=writer(request, Right.LISTS),
    )
