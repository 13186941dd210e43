"""How far the librarian is, on the desk: decisions made and questions open."""

from desk_shelf import WHO, of_section, post, questions

from server import desk as librarian
from server.review_progress import review_progress


def progress_of(opened):
    return review_progress(opened, librarian.queue(opened)["counts"])


def test_decisions_and_open_questions_are_counted_and_shown(desk, shelf):
    opened, _ = shelf
    before = progress_of(opened)
    assert before.answered == 0 and sum(before.open.values()) == len(questions(desk)) > 1
    page = desk.get("/desk").text
    assert "No decision made yet" in page and f'max="{before.asked}" value="0"' in page
    question = of_section(desk, "V")
    post(desk, f"/desk/items/{question['id']}", answer="dismiss", **WHO)
    after = progress_of(opened)
    assert after.decided == {"left as it is": 1} and sum(after.open.values()) == len(questions(desk))
    assert "1 decision made" in desk.get("/desk").text
    other = questions(desk)[0]
    post(desk, f"/desk/items/{other['id']}", answer="no_chapter", **WHO)
    assert progress_of(opened).answered >= 2


def test_what_is_taken_back_counts_no_more(desk, shelf):
    opened, _ = shelf
    question = of_section(desk, "V")
    post(desk, f"/desk/items/{question['id']}", answer="dismiss", **WHO)
    made = librarian.entries(opened)["entries"]
    librarian.undo(opened, [each["id"] for each in made], "R. Quill", "Pressed by mistake")
    assert progress_of(opened).answered == 0
