/** Buttons that copy suggested record wording, and folded parts that paper shows open. Without script the words are
 * selected by one tap. */

/** What was copied is said beside the button, for eyes and for a screen reader. */
function copyButton(place) {
  const words = document.getElementById(place.dataset.copyFrom);
  const button = Object.assign(document.createElement("button"), {type: "button", textContent: "Copy the words"});
  const said = document.createElement("span");
  button.className = "second";
  button.setAttribute("aria-label", `Copy the words of reference ${place.dataset.finding}`);
  said.setAttribute("role", "status");
  button.addEventListener("click", async () => {
    said.textContent = (await copied(words)) ? "Copied." : "Selected: copy with the keyboard or a long press.";
  });
  place.append(button, said);
}

/** The clipboard is closed to pages that came without encryption: then the words are selected and copied. */
async function copied(words) {
  if (navigator.clipboard) {
    try {
      await navigator.clipboard.writeText(words.textContent);
      return true;
    } catch (refused) {
      console.info(`the clipboard is closed: ${refused.message}`);
    }
  }
  getSelection().selectAllChildren(words);
  return document.execCommand("copy");
}

document.querySelectorAll("[data-copy-from]").forEach(copyButton);

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
