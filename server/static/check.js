/** Buttons that copy suggested record wording, and folded parts that paper shows open. Without script the words are
 * selected by one tap. */

import { copyButton } from "./copying.js";

for (const place of document.querySelectorAll("[data-copy-from]")) {
  const words = document.getElementById(place.dataset.copyFrom);
  copyButton(place, words, "Copy the words", `Copy the words of reference ${place.dataset.finding}`);
}

/** Paper shows what is folded on the screen; afterwards it is folded as before. */
const folded = () => document.querySelectorAll("details.more:not([open])");
let unfolded = [];
addEventListener("beforeprint", () => {
  unfolded = [...folded()];
  unfolded.forEach((part) => { part.open = true; });
});
addEventListener("afterprint", () => {
  unfolded.forEach((part) => { part.open = false; });
  unfolded = [];
});
