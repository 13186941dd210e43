"""axe-core on a page: what a screen reader, a keyboard or weak eyes would meet.

axe-core comes in the test dependency axe-playwright-python. The browser's own debugging channel puts it into
the page, so that the page's Content-Security-Policy stays as it is served.
"""

from importlib.resources import files
from typing import Any

_GRAVE = ("serious", "critical")
_RUN = """async (only) => {
  const options = {resultTypes: ['violations', 'incomplete'], ...(only ? {runOnly: [only]} : {})};
  const found = await axe.run(document, options);
  const told = (kind) => found[kind].map(({id, impact, help, nodes}) => ({id, impact, help,
    at: nodes.map((node) => node.target.join(' ') + ': ' + (node.any[0] || node.all[0] || node.none[0]
      || {message: ''}).message)}));
  return {violations: told('violations'), incomplete: told('incomplete'), passes: found.passes.length};
}"""


def source() -> str:
    return (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")


def violations(page: Any, only: str = "") -> list[str]:
    """The serious and critical violations of a page as it stands, one line each; [] = none.

    All of axe-core's rules that are on by default run, contrast among them; or the one that `only` names.
    """
    if not page.evaluate("typeof window.axe !== 'undefined'"):
        page.evaluate(source())
    found = page.evaluate(_RUN, only)
    assert found["passes"] > 0, "axe-core looked at nothing"
    return [
        f"{one['id']} ({one['impact']}): {one['help']}: {'; '.join(one['at'][:4])}"
        for one in found["violations"]
        if one["impact"] in _GRAVE
    ]
