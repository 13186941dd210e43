"""Whether a page can be used: with gloves, at arm's length, without scrolling sideways."""

from typing import Any

GLOVE = 48  # CSS pixels

# A radio button or a check box is hit by its label too (HTML, "labeled control"): the label is measured.
# A link on the picture of a page is as large as its words; the list beside the picture has the same one.
_SMALL_TARGETS = """(glove) => [...document.querySelectorAll(
    'a, button, input:not([type=hidden]), select, textarea, summary')]
  .filter(target => target.checkVisibility() && !target.matches('.skip, .unseen, svg a'))
  .map(target => ['radio', 'checkbox'].includes(target.type) ? target.closest('label') : target)
  .map(target => ({box: target.getBoundingClientRect(), words: target.innerText || target.name}))
  .filter(({box}) => box.width < glove || box.height < glove)
  .map(({box, words}) => `${words}: ${box.width} x ${box.height}`)"""

# Contrast by WCAG 2.1, "relative luminance" and "contrast ratio"; 4.5 for text, 3 for large text (success
# criterion 1.4.3: large = 24 px, or bold from 18.66 px).
_CONTRAST = """([least, leastLarge]) => {
  const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
  const rgba = (color) => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = color;
    canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data];
  };
  const luminance = ([r, g, b]) => {
    const linear = (v) => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    return 0.2126 * linear(r / 255) + 0.7152 * linear(g / 255) + 0.0722 * linear(b / 255);
  };
  const ground = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const color = rgba(getComputedStyle(at).backgroundColor);
      if (color[3] === 255) return color;
    }
    return [255, 255, 255, 255];
  };
  const weak = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let seen = 0;
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!node.textContent.trim() || !element.checkVisibility()) continue;
    if (element.closest('.skip, .unseen, svg')) continue;
    const style = getComputedStyle(element);
    const [one, two] = [luminance(rgba(style.color)), luminance(ground(element))];
    const ratio = (Math.max(one, two) + 0.05) / (Math.min(one, two) + 0.05);
    const size = parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    seen += 1;
    if (ratio < (large ? leastLarge : least)) weak.push(`${node.textContent.trim()}: ${ratio.toFixed(2)}`);
  }
  return {seen, weak};
}"""


def unfold(page: Any) -> None:
    """Open every fold, so that what is inside is measured too."""
    page.evaluate("() => document.querySelectorAll('details').forEach((fold) => { fold.open = true; })")


def small_targets(page: Any) -> list[str]:
    """What could be missed with a gloved finger: words and size of each."""
    return page.evaluate(_SMALL_TARGETS, GLOVE)


def sideways(page: Any) -> int:
    """CSS pixels by which the page runs off the side."""
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def faint(page: Any, least: float = 4.5, least_large: float = 3) -> list[str]:
    """Text whose contrast to its ground is less than it must be: words and ratio of each."""
    contrast = page.evaluate(_CONTRAST, [least, least_large])
    assert contrast["seen"] > 10
    return contrast["weak"]


def usable(page: Any, at: str) -> None:
    """That every target can be hit with gloves, nothing runs off the side, and all words can be read."""
    unfold(page)
    assert (small := small_targets(page)) == [], f"too small at {at}: {small}"
    assert (off := sideways(page)) <= 0, f"{at} runs off by {off} px"
    assert (weak := faint(page)) == [], f"too faint at {at}: {weak}"
