/** Nothing is copied as a citation from a page that may be superseded; what was typed may be. */

const WORDS = "Not copied: there is no contact with the library, or it has changed; this page may be superseded.";

export function noCopying(isWithout, say) {
  for (const name of ["copy", "cut", "dragstart", "contextmenu"]) {
    addEventListener(name, (event) => {
      if (!isWithout() || event.target.closest?.("input, textarea")) return;
      event.preventDefault();
      event.clipboardData?.clearData();
      say(WORDS);
    }, true);
  }
}
