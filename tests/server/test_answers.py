"""The JSON answers: exactly the keys agreed on, and the shapes that their OpenAPI models promise."""

import pytest

from indexer.library.analysis import printed_words
from server.routes import models
from server.search import search

PUBLICATION = {"id", "number", "type", "title", "revision", "entered", "file"}
HIT = {
    "passage",
    "publication",
    "pdf_page",
    "printed_page",
    "number",
    "page_block",
    "standing",
    "heading",
    "snippet",
    "origin",
    "score",
}
BESIDE = {
    "marks",
    "currency",
    "current",
    "applies",
    "misread",
}  # what a hit carries beyond the keys agreed on
BESIDE |= {"read_by_ocr", "doubtful", "cannot_tell"}
# what was read
HOW = {"as_typed", "also_looked_for", "could_mean", "number_taken", "slips", "left_out", "systems"}
HOW |= {"with_misreadings", "misreadings"}


@pytest.fixture(scope="module", params=["small", "samples"])
def answer(request):
    """One answer over the hand-made library, and one over documents that came the whole way."""
    name = {"small": "library", "samples": "samples"}[request.param]
    return search(request.getfixturevalue(name), "brake lining").fields()


def test_a_search_answers_in_the_agreed_shape(answer):
    assert (
        set(answer)
        == {
            "query",
            "library_state",
            "total",
            "aircraft",
            "hidden_not_applying",
            "left_out_not_current",
            "any_word",
            "with_all_words",
            "not_searched",
            "ocr",
            "groups",
            "counts",
        }
        | HOW
    )
    assert set(answer["not_searched"]) == {"pages_without_text", "passages_not_numbered"}
    assert set(answer["counts"]) == {"chapter", "type", "standing"}
    assert {"generation", "changed_at", "publications", "shown_at"} <= set(answer["library_state"])
    assert answer["total"] > 0 and answer["groups"]
    for group in answer["groups"]:
        assert set(group) == {"chapter", "title", "count", "hits"}
        for hit in group["hits"]:
            assert set(hit) == HIT | BESIDE
            assert set(hit["publication"]) == PUBLICATION
            assert set(hit["standing"]) == {"value", "usual", "basis", "quote", "pdf_page", "conditions"}
            assert hit["number"] is None or set(hit["number"]) == {"text", "scheme", "basis"}


def test_counts_are_over_all_hits_and_agree(answer):
    for name in ("type", "standing"):
        assert sum(answer["counts"][name].values()) == answer["total"]
    # A passage with several chapters is counted under each of them.
    assert sum(group["count"] for group in answer["groups"]) >= answer["total"]
    assert answer["counts"]["chapter"] == {
        group["chapter"] or "": group["count"] for group in answer["groups"]
    }


def test_marks_stand_on_the_words_asked_for(answer):
    marked = [
        hit["snippet"][start:end].casefold()
        for group in answer["groups"]
        for hit in group["hits"]
        for start, end in hit["marks"]
    ]
    also = tuple(other for each in answer["also_looked_for"] for other in each["others"])
    assert marked and all(word.startswith(("brake", "lining", "lined", *also)) for word in marked)


def test_hits_are_best_first_and_under_their_own_chapter(answer):
    for group in answer["groups"]:
        last = [
            hit["current"]["state"] == "superseded" or hit["standing"]["value"] == "blocked"
            for hit in group["hits"]
        ]
        scores = [(at_end, -hit["score"]) for at_end, hit in zip(last, group["hits"], strict=True)]
        assert scores == sorted(scores)
        for hit in group["hits"]:
            if group["chapter"]:
                assert hit["number"]["text"].startswith(group["chapter"])


def test_the_limit_is_over_all_hits_and_takes_the_best(samples):
    everything = search(samples, "brake", limit=200).fields()
    few = search(samples, "brake", limit=3).fields()
    best, shown = (
        [
            hit["score"]
            for group in answer["groups"]
            for hit in group["hits"]
            if hit["current"]["state"] != "superseded" and hit["standing"]["value"] != "blocked"
        ]
        for answer in (everything, few)
    )
    assert sorted(shown, reverse=True) == sorted(best, reverse=True)[:3] and len(shown) == 3
    assert few["total"] == everything["total"] > 3
    assert [group["count"] for group in few["groups"]] == [group["count"] for group in everything["groups"]]


def test_one_chapter_does_not_crowd_out_the_next(samples):
    answer = search(samples, "brake", limit=50, per_chapter=2)
    assert len(answer.groups) > 2
    assert all(1 <= len(group.hits) <= 2 for group in answer.groups)


def test_when_nothing_holds_all_words_any_word_will_do_and_the_answer_says_so(samples):
    answer = search(samples, "brake zeppelin").fields()
    assert answer["any_word"] is True and answer["total"] > 0
    assert search(samples, "brake").fields()["any_word"] is False


def test_when_hardly_a_passage_holds_all_of_several_words_those_with_some_follow_it(samples):
    answer = search(samples, "brake pedal spongy", limit=100)
    fields = answer.fields()
    assert fields["any_word"] and 1 <= fields["with_all_words"] <= 3 < fields["total"]
    ranked = sorted((hit for group in answer.groups for hit in group.hits), key=lambda hit: hit.place)
    first = ranked[: answer.with_all]
    assert all({"brake", "pedal", "spongy"} <= set(printed_words(hit.passage.text)) for hit in first)


def test_a_filter_shows_a_part_of_the_same_hits_also_where_hardly_any_holds_all_words(samples):
    everywhere = search(samples, "brake pedal spongy")
    for chapter, count in everywhere.by_chapter.items():
        part = search(samples, "brake pedal spongy", chapters=[chapter or "none"])
        assert part.any_word and part.total == count


def test_two_words_are_both_required_where_one_passage_holds_them(samples):
    answer = search(samples, "pedal spongy")
    assert 1 <= answer.total <= 3 and not answer.any_word


def test_what_was_not_searched_is_counted(library):
    answer = search(library, "brake").fields()
    assert answer["not_searched"] == {"pages_without_text": 1, "passages_not_numbered": 2}


def test_what_was_not_searched_stays_within_the_publications_asked_of(library, ids):
    answer = search(library, "brake", publications=[ids["bulletin"]]).fields()
    assert answer["not_searched"] == {"pages_without_text": 0, "passages_not_numbered": 0}


def test_filters_let_through_only_what_they_name(samples):
    answer = search(samples, "brake", chapters=["32"], types=["SB"], standings=["approved"]).fields()
    assert answer["total"] > 0
    for group in answer["groups"]:
        assert group["chapter"] == "32"
        for hit in group["hits"]:
            assert hit["publication"]["type"] == "service-bulletin"
            assert hit["standing"]["value"] == "approved"


def test_a_chapter_can_be_leafed_through_without_words(samples):
    answer = search(samples, "", chapters=["32-42"]).fields()
    assert answer["total"] > 0
    numbers = {hit["number"]["text"][:5] for group in answer["groups"] for hit in group["hits"]}
    assert numbers == {"32-42"}


OTHER_ROOMS = (  # described and tested by themselves
    "/api/check",
    "/api/contact",
    "/api/desk",
    "/api/figures",
    "/api/fleet",
    "/api/ingest",
    "/api/map",
    "/api/packets",
    "/api/parts",
    "/api/register",
    "/api/reports",
    "/api/system",
    "/api/words",
)
ADDRESSES = [
    ("/api/search?q=brake", models.SearchAnswer),
    ("/api/search?q=brake&chapter=32&type=SB&standing=approved&limit=2", models.SearchAnswer),
    ("/api/search?q=TR+jug+3241", models.SearchAnswer),
    ("/api/search?q=brake&as_typed=true", models.SearchAnswer),
    ("/api/passages/{passage}/why?q=brake", models.WhyAnswer),
    ("/api/passages/{passage}/why?q=zeppelin", models.WhyAnswer),
    ("/api/publications", models.PublicationList),
    ("/api/publications/{publication}", models.PublicationAnswer),
    ("/api/publications/{publication}/pages/{page}/boxes?q=brake", models.PageAnswer),
    ("/api/passages/{passage}", models.PassageAnswer),
    ("/api/status", models.StatusAnswer),
]


@pytest.mark.parametrize(("address", "model"), ADDRESSES, ids=[address for address, _ in ADDRESSES])
@pytest.mark.parametrize("over", ["client", "sample_client"])
def test_every_answer_keeps_its_promised_shape(request, over, address, model):
    client = request.getfixturevalue(over)
    hits = [hit for group in client.get("/api/search?q=brake").json()["groups"] for hit in group["hits"]]
    for hit in hits[:10]:
        names = {
            "publication": hit["publication"]["id"],
            "page": hit["pdf_page"],
            "passage": hit["passage"],
        }
        response = client.get(address.format(**names))
        assert response.status_code == 200
        model.model_validate_json(response.content)


def test_the_description_of_the_api_has_examples_for_every_address(client):
    described = client.get("/api/openapi.json").json()
    assert {path for path in described["paths"] if not path.startswith(OTHER_ROOMS)} == {
        "/api/search",
        "/api/publications",
        "/api/publications/{publication_id}",
        "/api/publications/{publication_id}/effective",
        "/api/publications/{publication_id}/pages/{pdf_page}",
        "/api/publications/{publication_id}/pages/{pdf_page}/boxes",
        "/api/publications/{publication_id}/pages/{pdf_page}/tiles/{zoom}/{column}/{row}",
        "/api/passages/{passage_id}",
        "/api/passages/{passage_id}/why",
        "/api/status",
    }
    shapes = described["components"]["schemas"]
    assert shapes["Hit"]["properties"]["snippet"]["examples"]
    assert shapes["Problem"]["properties"]["slug"]["examples"]


def test_a_hit_box_lies_on_its_page_and_holds_the_words(sample_client):
    hit = sample_client.get("/api/search?q=brake&chapter=32&limit=1").json()["groups"][0]["hits"][0]
    address = f"/api/publications/{hit['publication']['id']}/pages/{hit['pdf_page']}/boxes?q=brake"
    page = sample_client.get(address).json()
    (passage,) = [each for each in page["passages"] if each["passage"] == hit["passage"]]
    assert passage["hit"] is True
    assert page["words"], "the words asked for have boxes of their own"
    for box in [*passage["boxes"], *page["words"]]:
        assert 0 <= box["x0"] < box["x1"] <= page["width"]
        assert 0 <= box["top"] < box["bottom"] <= page["height"]
    inside = [
        word
        for word in page["words"]
        for box in passage["boxes"]
        if box["x0"] - 1 <= word["x0"] <= box["x1"] and box["top"] - 1 <= word["top"] <= box["bottom"]
    ]
    assert inside


def test_a_page_is_a_jpeg_that_no_browser_keeps(sample_client):
    hit = sample_client.get("/api/search?q=brake&limit=1").json()["groups"][0]["hits"][0]
    response = sample_client.get(
        f"/api/publications/{hit['publication']['id']}/pages/{hit['pdf_page']}?dpi=75"
    )
    assert response.headers["content-type"] == "image/jpeg"
    assert response.content.startswith(b"\xff\xd8\xff")
    assert response.headers["cache-control"] == "no-store"
