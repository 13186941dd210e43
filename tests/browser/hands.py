"""The two ways in which a person works a page here: with a finger, and with the keys alone.

Both can write, press and see; journeys are written once for both. A finger counts its taps, and what it taps
must be covered by nothing. Each place that the keys come to must show that it has the focus.
"""

from typing import Any

MOST_TABS = 400

# What the browser itself took down of every press, over all pages of the tab.
_WITNESS = """addEventListener('pointerdown', (event) => {
  sessionStorage.setItem('hands', `${sessionStorage.getItem('hands') ?? ''}${event.pointerType} `);
}, true);"""

_IN_VIEW = """(target) => {
  const box = target.getBoundingClientRect();
  return box.top >= 0 && box.top + Math.min(box.height, 48) <= innerHeight;
}"""

# An outline of two pixels or more, of the element itself or of what it stands in: WCAG 2.2, criterion 2.4.7,
# and the width asked for by criterion 2.4.13. The calendar button inside a date field is Chromium's own, and
# so is the ring around it: the field itself is then not :focus-visible, and nothing of the page can show it.
_FOCUS = """() => {
  const at = document.activeElement;
  if (!at || at === document.body || at === document.documentElement) return null;
  let outlined = at.type === 'date' && !at.matches(':focus-visible');
  for (let each = at; each && !outlined; each = each.parentElement) {
    const style = getComputedStyle(each);
    outlined = each.matches(':focus-within') && style.outlineStyle !== 'none'
      && parseFloat(style.outlineWidth) >= 2;
  }
  return {outlined, words: `${at.tagName} ${(at.innerText || at.name || at.ariaLabel || '').slice(0, 60)}`};
}"""


class Fingers:
    """A finger on the screen: counts `taps`, and `scrolls` to what is not in view; has no mouse."""

    def __init__(self, page: Any, scripted: bool = True):
        self.page, self.scripted = page, scripted
        self.taps = self.scrolls = 0
        if scripted:
            page.add_init_script(_WITNESS)

    def press(self, target: Any) -> None:
        """Tap it; Playwright holds that it is in view, still, and what the finger meets there."""
        self.see(target)
        self.taps += 1
        target.tap()

    def write(self, field: Any, words: str) -> None:
        """Tap into a field and type; the key that sends a form is not among the letters."""
        assert "\n" not in words
        self.press(field)
        field.and_(self.page.locator(":focus")).wait_for()
        self.page.keyboard.type(words)

    def see(self, shown: Any) -> None:
        shown.wait_for()
        if not shown.evaluate(_IN_VIEW):
            self.scrolls += 1
            shown.scroll_into_view_if_needed()

    def witnessed(self) -> None:
        """That the browser saw the taps that were counted, by a finger, and nothing else."""
        assert self.page.evaluate("sessionStorage.getItem('hands')").split() == ["touch"] * self.taps


class Keys:
    """The keyboard alone: counts the `keys` that are no letters."""

    scripted = True

    def __init__(self, page: Any):
        self.page = page
        self.keys = 0

    def press(self, target: Any) -> None:
        """Go there with Tab and press Enter."""
        self._go(target)
        self._key("Enter")

    def write(self, field: Any, words: str) -> None:
        self._go(field)
        self.page.keyboard.type(words)

    def see(self, shown: Any) -> None:
        """It is there: the page scrolls by keys as every page does."""
        shown.wait_for()

    def _go(self, target: Any) -> None:
        target.wait_for()
        for _ in range(MOST_TABS):
            if target.evaluate("(target) => target === document.activeElement"):
                return
            self._key("Tab")
            at = self.page.evaluate(_FOCUS)
            assert at is None or at["outlined"], f"the focus does not show at {at['words']}"
        raise AssertionError(f"Tab does not come to {target}")

    def _key(self, key: str) -> None:
        self.keys += 1
        self.page.keyboard.press(key)
