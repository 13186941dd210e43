"""One page looked over for every eye and hand, in one visit: the browser's settings change, the page stays.

Sizes and ratios: WCAG 2.2, success criteria 1.4.3 and 1.4.6 (contrast), 1.4.4 (text to 200 %), 1.4.10 (no
scrolling sideways, down to 320 CSS pixels), 2.4.11 (what has the focus is not hidden), 2.5.8 (targets; the 48
CSS pixels asked here are the shop's gloves, wider than its 24).

On every page: both themes, each also with strong contrast and with the system's colours, on a phone; targets
on a phone and a desk; sideways scrolling and cut words on the narrowest phone, and with double text on a
phone, a tablet and a desk. A tablet with plain text has the layout that double text fills there, and more
room in it. test_journeys.py walks the tablet both ways, test_screenshots.py draws it.
"""

from typing import Any

import axe
from in_chromium import DESK, PHONE, SCHEMES, TABLET
from usable import faint, sideways, small_targets, unfold

NARROWEST = (320, 844)
_PLAIN = {"color_scheme": "light", "contrast": "no-preference", "forced_colors": "none"}

TEXT_SIZE = """(times) => {
  const root = document.documentElement;
  root.style.fontSize = '';
  if (times !== 1) root.style.fontSize = times * parseFloat(getComputedStyle(root).fontSize) + 'px';
}"""

# Words that their own box cuts off at the side, where the reader cannot scroll them into view. What
# is clipped away whole is for screen readers alone.
_CUT = """() => [...document.querySelectorAll('a, button, h1, h2, p, dd, label, summary')]
  .filter((each) => each.checkVisibility() && !each.closest('.unseen, .skip, .roomy'))
  .filter((each) => ['hidden', 'clip'].includes(getComputedStyle(each).overflowX)
    && getComputedStyle(each).clipPath === 'none'
    && each.scrollWidth > each.clientWidth + 1).map((each) => each.innerText.slice(0, 60))"""

# Each thing that takes the focus is given it, and has to be the top one somewhere on a grid over its box.
# It comes to it from both ends of the page, as with Tab and with Shift+Tab.
_HIDDEN_FOCUS = """() => {
  const stays = [...document.querySelectorAll('body *')]
    .some((each) => ['sticky', 'fixed'].includes(getComputedStyle(each).position) && each.checkVisibility());
  if (!stays) return [];
  const takers = [...document.querySelectorAll(
    'a[href], button, input, select, textarea, summary, [tabindex="0"]')]
    .filter((each) => each.checkVisibility() && !each.disabled
      && !each.matches('.skip, .unseen, [type=hidden]'));
  const shown = (each) => [...each.getClientRects()].some((box) => [.02, .25, .5, .75, .98].some((x) =>
    [.05, .5, .95].some((y) => {
      const top = document.elementFromPoint(box.left + x * box.width, box.top + y * box.height);
      return top && (each.contains(top) || [...each.labels || []].some((label) => label.contains(top)));
    })));
  const hidden = [];
  for (const way of [takers, [...takers].reverse()]) {
    for (const each of way) {
      each.focus();
      if (document.activeElement === each && !shown(each))
        hidden.push((each.innerText || each.name).slice(0, 60));
    }
  }
  return takers.length ? [...new Set(hidden)] : ['(nothing here takes the focus)'];
}"""


def faults(page: Any) -> list[str]:
    """What is wrong with the page that is open, for whom; [] = nothing. Leaves it open as it was opened."""
    found = []
    page.emulate_media(**_PLAIN)
    page.set_viewport_size(_size(PHONE))
    page.evaluate("document.querySelectorAll('main details').forEach((fold) => { fold.open = true; })")
    found += axe.violations(page)
    page.emulate_media(**_PLAIN | {"color_scheme": "dark"})
    found += [f"dark: {each}" for each in axe.violations(page, only="color-contrast")]
    for scheme in SCHEMES:
        page.emulate_media(**_PLAIN | {"color_scheme": scheme, "contrast": "more"})
        found += [f"strong contrast, {scheme}: too faint: {each}" for each in faint(page, 7, 4.5)]
        page.emulate_media(**_PLAIN | {"color_scheme": scheme, "forced_colors": "active"})
        found += [f"system colours, {scheme}: too faint: {each}" for each in faint(page)]
    page.emulate_media(**_PLAIN)
    found += hidden_focus(page)
    unfold(page)
    for size in (PHONE, DESK):
        page.set_viewport_size(_size(size))
        found += [f"at {size[0]}: too small: {each}" for each in small_targets(page)]
    for times, sizes in ((1, (NARROWEST,)), (2, (PHONE, TABLET, DESK))):
        page.evaluate(TEXT_SIZE, times)
        for size in sizes:
            page.set_viewport_size(_size(size))
            at = f"at {size[0]}, text x {times}"
            if (pixels := sideways(page)) > 0:
                found.append(f"{at}: runs {pixels} px off the side")
            found += [f"{at}: cut: {each}" for each in page.evaluate(_CUT)]
    page.evaluate(TEXT_SIZE, 1)
    return found


def hidden_focus(page: Any) -> list[str]:
    """What can have the focus while something that stays in place covers it whole."""
    return [f"covered while it has the focus: {each}" for each in page.evaluate(_HIDDEN_FOCUS)]


def _size(size: tuple[int, int]) -> dict[str, int]:
    return {"width": size[0], "height": size[1]}
