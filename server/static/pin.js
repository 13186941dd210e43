/** The button that keeps a packet on this tablet; where this browser cannot, that is said in its place. */

import { ask, canKeep, made, notes, size, when } from "./kept.js";

const place = document.querySelector("[data-pin]");

async function show() {
  const {pin: id, name} = place.dataset;
  const kept = (await notes())?.pins[id];
  const said = made("p");
  said.setAttribute("role", "status");
  const button = (words, what, style) => {
    const one = made("button", words, {type: "button", className: style});
    one.addEventListener("click", () => act(said, {what, id, name}));
    return one;
  };
  if (kept) said.textContent = `Kept on this tablet, confirmed ${when(kept.confirmed)}, ${size(kept.bytes)}.`;
  const ways = made("p", "", {className: "ways"});
  ways.append(...(kept
    ? [button("Keep it anew", "pin", "button second"), button("Remove from this tablet", "unpin", "button second")]
    : [button("Keep on this tablet", "pin", "button second")]));
  place.replaceChildren(ways, said);
}

async function act(said, words) {
  for (const each of place.querySelectorAll("button")) each.disabled = true;
  said.textContent = words.what === "pin" ? "Fetching the copy ..." : "";
  if (words.what === "pin") await navigator.storage.persist?.();
  const outcome = await ask(words, ({done, of}) => { said.textContent = `${done} of ${of} parts are here.`; });
  if (outcome.failed) {
    await show();
    place.querySelector("[role=status]").textContent = `Nothing new is kept. ${outcome.failed}`;
  } else await show();
}

if (place && canKeep) show();
else place?.querySelector("noscript")?.replaceWith(
  made("p", "This browser keeps no packets on this tablet. The PDF can always be saved."),
);
