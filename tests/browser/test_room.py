"""That the browser test room itself sees what it must see."""

import axe
import pytest
from in_chromium import PHONE, tabs
from usable import small_targets

FAULTY = """<!doctype html><html lang="en"><title>Faulty</title>
<main><h1>Faulty</h1><img src="data:image/gif;base64,R0lGODlhAQABAAAAACw="><button>OK</button>
<p style="color: #ccc; background: #fff">Hardly there</p></main></html>"""


def test_the_demonstration_is_served(demo, tab):
    page = tab(PHONE, "dark", touch=True)
    page.goto(f"{demo}/fleet")
    assert page.get_by_text("QZ-077").count() >= 1
    page.goto(f"{demo}/register")
    assert page.get_by_text("overdue").count() >= 1


def test_axe_sees_a_picture_without_words_and_faint_text(tab):
    page = tab()
    page.set_content(FAULTY)
    found = " ".join(axe.violations(page))
    assert "image-alt" in found and "color-contrast" in found
    assert [target.partition(":")[0] for target in small_targets(page)] == ["OK"]


def test_axe_runs_under_the_content_security_policy_as_served(demo, tab):
    page = tab()
    answer = page.goto(f"{demo}/about")
    assert "default-src 'self'" in answer.headers["content-security-policy"]
    axe.violations(page)


@pytest.mark.parametrize(
    "script, complaint",
    [
        ("console.error('broken')", "broken"),
        ("setTimeout(() => { throw new Error('thrown') })", "thrown"),
        ("fetch('http://192.0.2.1/').catch(() => {})", "another machine"),  # reserved address, RFC 5737
    ],
)
def test_a_complaint_of_the_browser_fails_the_test(chromium, script, complaint):
    with pytest.raises(AssertionError, match=complaint), tabs(chromium) as make:
        page = make()
        page.set_content("<title>One</title>")
        page.evaluate(script)
        page.wait_for_function("true")
