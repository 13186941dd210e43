/** The button that keeps a packet on this device; where that cannot be, the page says why and stays as it is. */

import { ask, canKeep, made, notes, size, when } from "./kept.js";

const place = document.querySelector("[data-pin]");

async function show() {
  const {pin: id, name} = place.dataset;
  const kept = (await notes())?.pins[id];
  const said = made("p");
  said.setAttribute("role", "status");
  const button = (words, what, style) => {
    const made_ = made("button", words, {type: "button", className: style});
    made_.addEventListener("click", () => act(made_, said, {what, id, name}));
    return made_;
  };
  if (kept) said.textContent = `Kept on this device, confirmed ${when(kept.confirmed)}, ${size(kept.bytes)}.`;
  const ways = kept
    ? [button("Keep it anew", "pin", "second"), button("Remove from this device", "unpin", "second")]
    : [button("Keep on this device", "pin", "second")];
  place.replaceChildren(...ways, said);
}

async function act(button, said, words) {
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
