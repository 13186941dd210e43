/** Copying words of a page by one tap. Without script the words are selected by one tap. */

/** A button that copies the words of `words`; what was done is said beside it, for eyes and for a screen reader. */
export function copyButton(place, words, label, spoken) {
  const button = Object.assign(document.createElement("button"), {type: "button", textContent: label});
  const said = document.createElement("span");
  button.className = "second";
  button.setAttribute("aria-label", spoken);
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
