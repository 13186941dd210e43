"""The librarian's desk: from a decision to the listing and the search, and back. A small invented library."""

import re

import pytest
from asking import joined
from click.testing import CliRunner
from desk_shelf import SAYS, WHO, chapters_found, of_section, post, questions
from test_writing import ask

from indexer.library.entry_values import QUICK_REASONS
from indexer.library.records import EntryKind
from indexer.library.shop_entries import add_entry
from indexer.settings import Settings
from indexer.tagging.inference import LIKELY
from server.app import create_app
from server.cli import main
from server.routes import desk_models
from server.routes.desk_view import buttons


def test_one_decision_files_a_whole_section_for_search_and_undo_takes_it_back(desk, own_manual):
    item = of_section(desk, "V")
    assert item["passages"] == 3 and [tag["value"]["text"] for tag in item["suggestions"]] == ["32"]
    assert chapters_found(desk, "zinnober") == [None]

    answer = post(desk, f"/desk/items/{item['id']}", file_under="32", back="/desk?cause=likely", **WHO)
    assert answer.status_code == 303 and answer.headers["location"] == "/desk?cause=likely&done=1"
    assert chapters_found(desk, "zinnober") == ["32"]
    assert of_section(desk, "V") is None and of_section(desk, "VI") is not None
    shown = desk.get(f"/publications/{own_manual}/pages/2").text
    assert "entered by the shop" in shown and "R. Quill" in shown

    undone = post(desk, "/desk/entries/undo", entries="1", who="R. Quill", why="slip", back="/desk")
    assert undone.status_code == 303
    assert chapters_found(desk, "zinnober") == [None]
    assert of_section(desk, "V") == item, "the same question, under the same id"


def test_the_trail_shows_who_when_why_and_what_it_was_before(desk):
    item = of_section(desk, "V")
    post(desk, f"/desk/items/{item['id']}", answer="chapters", chapters="27; 32-41", **WHO)
    post(desk, "/desk/entries/undo", entries="1", who="S. Brass", why="looked again")
    (entry,) = desk.get("/api/desk/entries").json()["entries"]
    assert (entry["value"], entry["before"], entry["section"]) == ("27;32-41", "32; none", "V")
    assert (entry["who"], entry["why"], entry["state"]) == ("R. Quill", "Read on the page", "undone")
    assert (entry["undone_by"], entry["undone_why"]) == ("S. Brass", "looked again")
    page = desk.get("/desk/entries").text
    for words in ("R. Quill", "Read on the page", "S. Brass", "looked again", "27, 32-41", "Section V"):
        assert words in page


def test_a_dismissed_question_does_not_come_back_and_changes_nothing(desk):
    item = of_section(desk, "VI")
    before = chapters_found(desk, "battery")
    assert post(desk, f"/desk/items/{item['id']}", answer="dismiss", **WHO).status_code == 303
    assert of_section(desk, "VI") is None and chapters_found(desk, "battery") == before
    (entry,) = desk.get("/api/desk/entries").json()["entries"]
    assert entry["kind"] == "settled" and entry["value"].endswith(": 24")
    post(desk, "/desk/entries/undo", entries="1", **WHO)
    assert of_section(desk, "VI") == item


@pytest.mark.parametrize("cause", ["type", "no-text", "not-numbered"])
def test_every_cause_can_be_dismissed(desk, cause):
    item = questions(desk, cause=cause)[0]
    assert post(desk, f"/desk/items/{item['id']}", answer="dismiss", **WHO).status_code == 303
    assert item["id"] not in [other["id"] for other in questions(desk)]
    assert not questions(desk, cause="check-again")


def test_a_type_that_was_not_found_is_set(desk, shelf):
    (item,) = questions(desk, cause="type")
    answer = post(desk, f"/desk/items/{item['id']}", answer="type", type="service-letter", **SAYS)
    assert "waits for a second person" in desk.get(answer.headers["location"]).text
    assert not questions(desk, cause="type"), "the answer waits; nobody is asked again"
    owner = item["publication"]["id"]
    assert shelf[0].publication(owner).type is None
    (waiting,) = questions(desk, cause="waiting")
    post(desk, f"/desk/items/{waiting['id']}", answer="agree", who="M. Ohler", why="seen")
    assert not questions(desk, cause="type") and not questions(desk, cause="waiting")
    assert shelf[0].publication(owner).type == "service-letter"
    assert "Service letter" in desk.get(f"/publications/{owner}").text


def test_what_the_shop_entered_of_an_identity_is_marked_wherever_it_is_shown(desk, shelf, own_manual):
    library = shelf[0]
    copy_id = library.publication(own_manual).copy_id
    post(desk, f"/desk/items/{of_section(desk, 'V')['id']}", file_under="32", **WHO)
    for kind, value in ((EntryKind.REVISION, "B"), (EntryKind.DATE, "2031-02-20")):
        made = add_entry(library.catalogue, copy_id, 1, "R. Quill", "seen", kind, value)
        library.catch_up()
        assert kind.value not in library.publication(own_manual).entered, "one person changes nothing"
        post(desk, f"/desk/items/{questions(desk, cause='waiting')[0]['id']}", answer="agree", who="M. Ohler")
        assert second_entry_of(desk, made.id) == "M. Ohler"
    undone = post(desk, "/desk/entries/undo", entries=str(made.id), who="R. Quill", why="slip", back="/desk")
    notice = desk.get(f"/desk?done={made.id}").text
    assert undone.status_code == 303 and "until a second person agrees to taking it back" in notice
    words = "revision B, 20 February 2031 (revision and date entered by the shop)"
    card = of_section(desk, "VI")
    assert card["publication"]["entered"] == ["revision", "date"]
    hits = [hit for group in desk.get("/api/search?q=zinnober").json()["groups"] for hit in group["hits"]]
    assert [hit["publication"]["entered"] for hit in hits] == [["revision", "date"]]
    for address in ("/?q=zinnober", "/system/32", f"/publications/{own_manual}", "/desk"):
        assert words in desk.get(address).text, address


def second_entry_of(desk, entry_id: int) -> str:
    return next(e["second"] for e in desk.get("/api/desk/entries").json()["entries"] if e["id"] == entry_id)


@pytest.mark.parametrize(
    ("form", "says"),
    [
        ({"file_under": "32", "who": "", "why": "x"}, "no name is given"),
        ({"file_under": "32", "who": "R. Quill"}, "no reason is given"),
        ({"answer": "chapters", "chapters": "99x", **WHO}, "no assigned chapter"),
        ({"answer": "chapters", "chapters": "", **WHO}, "no chapter is given"),
        ({"answer": "", **WHO}, "no answer was chosen"),
        ({"answer": "agree", **WHO}, "no entry waits here"),
    ],
)
def test_a_refused_form_says_why_and_keeps_what_was_typed(desk, form, says):
    item = of_section(desk, "V")
    answer = post(desk, f"/desk/items/{item['id']}", **form)
    assert answer.status_code == 400 and says in answer.text
    assert f'value="{form["who"]}"' in answer.text
    assert not desk.get("/api/desk/entries").json()["entries"]


def test_a_question_that_was_answered_is_not_answered_twice(desk):
    item = of_section(desk, "V")
    assert post(desk, f"/desk/items/{item['id']}", file_under="32", **WHO).status_code == 303
    again = post(desk, f"/desk/items/{item['id']}", file_under="24", **WHO)
    assert again.status_code == 404 and "Look at the queue again" in again.text
    assert len(desk.get("/api/desk/entries").json()["entries"]) == 1


def test_the_form_leads_back_to_the_desk_and_nowhere_else(desk):
    item = of_section(desk, "V")
    answer = post(desk, f"/desk/items/{item['id']}", file_under="32", back="//evil.example/desk", **WHO)
    assert answer.headers["location"].startswith("/desk?done=")


def test_the_name_is_remembered_on_the_device(desk):
    answer = post(desk, f"/desk/items/{of_section(desk, 'V')['id']}", file_under="32", **WHO)
    cookie = answer.headers["set-cookie"]
    assert "R.%20Quill" in cookie and "HttpOnly" in cookie and "SameSite=strict" in cookie
    name = cookie.partition(";")[0]
    assert 'value="R. Quill"' in desk.get("/desk", headers={"cookie": name}).text


def test_a_tag_that_is_wrong_is_put_right_from_its_page(desk, own_manual, shelf):
    link = re.search(
        r'href="(/desk/new\?[^"]*passage=[^"]*)"', desk.get(f"/publications/{own_manual}/pages/2").text
    )
    form = desk.get(link[1].replace("&amp;", "&"))
    assert form.status_code == 200 and "All of section V" in form.text
    one = f"{own_manual}-1"
    given = {"publication": own_manual, "pdf_page": "2", "passage": one, **WHO}
    answer = post(desk, "/desk/new", reach="passage", answer="chapters", chapters="12", **given)
    assert answer.status_code == 303
    filed = {
        each.id: [str(tag.value) for tag in each.numbers]
        for each in shelf[0].catalogue.passages_of(own_manual)
    }
    assert filed[one] == ["12", "V"] and filed[f"{own_manual}-0"] == ["32", "V"]
    wrong = post(desk, "/desk/new", reach="pages", last_page="x", answer="chapters", chapters="12", **given)
    assert wrong.status_code == 400 and "no PDF page" in wrong.text


def test_what_raises_a_standing_waits_for_a_second_person(desk, own_manual):
    given = {"publication": own_manual, "pdf_page": "2", "passage": f"{own_manual}-0", **SAYS}
    post(desk, "/desk/new", reach="passage", answer="standing", standing="acceptable", **given)

    def standing():
        return desk.get(f"/api/passages/{own_manual}-0").json()["standing"]["value"]

    (item,) = questions(desk, cause="waiting")
    assert standing() == "undetermined" and questions(desk)[0] == item, "what waits comes first"
    same = post(desk, f"/desk/items/{item['id']}", answer="agree", who="Quill, R.")
    assert same.status_code == 400 and "cannot be the second person" in same.text
    assert standing() == "undetermined"
    api = desk.request("POST", f"/api/desk/entries/{item['entry']}/agree", json={"who": "R. Quill"})
    assert api.status_code == 409 and api.json()["error"]["slug"] == "second-person-refused"
    assert post(desk, f"/desk/items/{item['id']}", answer="agree", who="S. Brass").status_code == 303
    assert standing() == "acceptable" and not questions(desk, cause="waiting")


RAISES = [("standing", "acceptable"), ("type", "service-letter"), ("revision", "B"), ("date", "2031-02-20")]


@pytest.mark.parametrize(("kind", "value"), RAISES)
@pytest.mark.parametrize("reason", [*QUICK_REASONS, " known from the work. ", "; ".join(QUICK_REASONS)])
def test_a_quick_reason_raises_nothing(desk, own_manual, kind, value, reason):
    given = {"publication": own_manual, "pdf_page": "2", "passage": f"{own_manual}-0", "reach": "passage"}
    says = {"who": "R. Quill", "why_quick": reason, "answer": kind, kind: value}
    refused = post(desk, "/desk/new", **given, **says)
    assert (
        refused.status_code == 400 and "is no reason for what a second person is to agree to" in refused.text
    )
    assert "Write the words printed there, or name the document that says so." in refused.text
    api = {"publication": own_manual, "pdf_page": 2, "kind": kind, "value": value, "why": reason}
    answer = desk.request("POST", "/api/desk/entries", json={**api, "who": "R. Quill"})
    assert answer.json()["error"]["slug"] == "entry-refused"
    assert not desk.get("/api/desk/entries").json()["entries"], "nothing is kept"
    words = {"printed": "Page 2 prints: FAA approved"}
    assert post(desk, "/desk/new", **given, **says, **words).status_code == 303


def test_what_lowers_a_standing_takes_a_quick_reason_and_raising_it_again_takes_words(desk, own_manual):
    given = {"publication": own_manual, "pdf_page": "2", "passage": f"{own_manual}-0", "reach": "passage"}
    made = post(desk, "/desk/new", answer="standing", standing="blocked", **given, **WHO)
    assert made.status_code == 303
    (entry,) = desk.get("/api/desk/entries").json()["entries"]
    card = desk.get("/desk/entries").text
    assert 'name="why_quick"' not in card and "Words printed there, or the document that says so" in card
    back = {"entries": str(entry["id"]), "back": "/desk/entries"}
    refused = post(desk, "/desk/entries/undo", **back, **WHO)
    assert refused.status_code == 400 and "is no reason" in refused.text
    assert (
        post(desk, "/desk/entries/undo", **back, who="R. Quill", why="Letter 7 allows it").status_code == 303
    )


def test_a_question_whose_answer_two_persons_answer_for_offers_no_quick_reason(desk):
    asked = questions(desk, cause="type")
    assert asked
    for item in asked:
        page = desk.get(f"/desk/items/{item['id']}").text
        assert 'name="why_quick"' not in page
        assert page.count("Words printed there, or the document that says so") == 1
        refused = post(desk, f"/desk/items/{item['id']}", answer="type", type="service-letter", **WHO)
        assert refused.status_code == 400 and "is no reason" in refused.text


def test_another_machine_reads_the_desk_and_gets_no_buttons(shelf, desk):
    app, cookies = create_app(shelf[0], Settings(), network=True), joined(shelf[0])
    item = of_section(desk, "V")
    for address in (
        "/desk",
        f"/desk/items/{item['id']}",
        "/desk/entries",
        "/map",
        f"/map?publication={shelf[1]}",
    ):
        far = ask(app, "GET", address, client="192.168.1.20", cookies=cookies)
        assert far.status_code == 200 and "You can read here, not change" in far.text
        assert not re.search(r"<button(?! class=\"unseen\")", far.text), address
    refused = ask(
        app,
        "POST",
        f"/desk/items/{item['id']}",
        client="192.168.1.20",
        data={**WHO, "file_under": "32"},
        cookies=cookies,
    )
    assert "only on the machine that serves it" in refused.text
    assert refused.status_code == 403 and of_section(desk, "V") == item


def test_hostile_words_of_an_entry_stay_words(desk, shelf, own_manual):
    library = shelf[0]
    copy_id = library.publication(own_manual).copy_id
    add_entry(
        library.catalogue, copy_id, 2, "<b>x</b>", '"><script>alert(1)</script>', EntryKind.NOTE, "<i>n</i>"
    )
    page = desk.get("/desk/entries").text
    assert "<script>alert" not in page and "<i>n</i>" not in page and "&lt;i&gt;n" in page


def test_the_api_decides_as_the_page_does(desk):
    item = of_section(desk, "V")
    body = {"kind": "chapters", "value": "32", "who": "R. Quill", "why": "read on the page"}
    made = desk.request("POST", f"/api/desk/items/{item['id']}", json=body)
    assert made.status_code == 200 and made.json()[0]["value"] == "32"
    assert chapters_found(desk, "zinnober") == ["32"]
    entry = made.json()[0]["id"]
    undone = desk.request("POST", f"/api/desk/entries/{entry}/undo", json={"who": "Q", "why": "slip"})
    assert undone.json()[0]["state"] == "undone" and chapters_found(desk, "zinnober") == [None]
    bad = desk.request("POST", f"/api/desk/items/{item['id']}", json={**body, "value": "99x"})
    assert bad.status_code == 400 and bad.json()["error"]["slug"] == "entry-refused"
    assert desk.get("/api/desk?cause=nonsense").status_code == 400
    assert desk.get("/desk?cause=nonsense").status_code == 400


def test_the_command_decides_as_the_page_does(shelf, desk):
    library, _ = shelf
    at = ["--library", str(library.folder)]
    item = of_section(desk, "V")

    def run(*arguments):
        return CliRunner().invoke(main, [*arguments, *at])

    listed = run("desk", "--cause", "likely")
    assert item["id"] in listed.stdout and "--file-under 32" in listed.stdout
    who = ["--who", "R. Quill", "--why", "read on the page"]
    done = run("desk", "decide", item["id"], "--file-under", "32", *who)
    assert done.exit_code == 0 and "32" in done.stdout
    assert chapters_found(desk, "zinnober") == ["32"]
    assert "R. Quill" in run("desk", "entries").stdout
    assert run("desk", "undo", "1", *who).exit_code == 0
    assert of_section(desk, "V") == item
    assert run("desk", "decide", item["id"], *who).exit_code == 2, "no answer was given"
    gone = run("desk", "decide", "0000000000000000-0", "--dismiss", *who)
    assert gone.exit_code == 2 and "Look at the queue again" in gone.stderr
    assert run("desk", "agree", "1", "--who", "S. Brass").exit_code == 2


def test_the_answers_have_the_shapes_that_the_api_describes(desk, own_manual):
    item = of_section(desk, "V")
    desk_models.QueueAnswer.model_validate(desk.get("/api/desk?limit=100").json())
    desk_models.Question.model_validate(desk.get(f"/api/desk/items/{item['id']}").json())
    post(desk, f"/desk/items/{item['id']}", file_under="32", **WHO)
    desk_models.EntryList.model_validate(desk.get("/api/desk/entries").json())
    post(desk, "/map", publication=own_manual, map="VI|24", **WHO)
    answer = desk.get(f"/api/map/sections?publication={own_manual}").json()
    assert desk_models.SectionList.model_validate(answer).lines
    assert [desk_models.MapLine.model_validate(line) for line in desk.get("/api/map").json()]


def suggestion(chapter, sure):
    return {
        "value": {"text": chapter},
        "evidence": {"basis": "inferred", "confidence": sure, "rule": "words of the passage"},
    }


def test_a_button_keeps_every_chapter_that_the_passages_carry():
    both = [suggestion("34", LIKELY), suggestion("37", LIKELY - 0.1)]
    found = buttons({"cause": "likely", "filed": ["34", "37"], "suggestions": both})
    assert [(each["value"], each["how"]) for each in found] == [
        ("34;37", "possible"),  # one of the two is
        ("34", "likely"),
        ("37", "possible"),
    ]
    assert "34 Navigation and 37" in found[0]["words"] and found[1]["words"] == "34 Navigation alone"
    (one,) = buttons({"cause": "likely", "filed": ["34"], "suggestions": both[:1]})
    assert (one["value"], one["words"], one["how"]) == ("34", "34 Navigation", "likely")
    read = [suggestion("34", LIKELY), suggestion("31", LIKELY)]
    other = buttons({"cause": "disagree", "filed": ["34", "37"], "suggestions": read})
    assert [each["value"] for each in other] == ["34;37", "34;37;31", "31;37"]
    assert other[-1]["words"].endswith("instead")
    read[0]["evidence"]["basis"] = "printed"
    kept = buttons({"cause": "disagree", "filed": ["34", "37"], "suggestions": read})
    assert [each["value"] for each in kept] == ["34;37", "34;37;31"], "no tap drops a printed number"


def test_the_card_lists_what_it_covers(desk):
    page = desk.get("/desk").text
    for item in questions(desk):
        for heading in item["covers"]:
            assert heading in page
    assert of_section(desk, "V")["covers"] == ["SECTION V"]
