/** The packets kept on this tablet, and what happened to their copies. */

import { ask, canKeep, made, notes, size, when } from "./kept.js";

const WHY = {
  superseded: "superseded. The copy on this tablet is withdrawn.",
  changed: "changed. The copy on this tablet is withdrawn.",
  closed: "closed. The copy on this tablet is withdrawn.",
  gone: "not in the library any more. The copy on this tablet is withdrawn.",
  expired: "kept for longer than copies are shown without contact. The copy is deleted.",
  clock: "deleted: the clock of this tablet was set back, so nobody can tell how old the copy is.",
  "other-library": "of another library than the one that answers at this address. The copy is withdrawn.",
  "shut-out": "withdrawn: this tablet may not read the library any more.",
};
const RENEWED = ["superseded", "changed"];
const asked = new URLSearchParams(location.search).get("next") ?? "/";
const next = new URL(asked, location.origin);
const news = document.querySelector("[data-news]");
const list = document.querySelector("[data-kept]");

const button = (words, work, style = "button second") => {
  const one = made("button", words, {type: "button", className: style});
  one.addEventListener("click", work);
  return one;
};

/** One thing that happened, in words; a superseded or changed packet is fetched anew. */
function newsItem(each) {
  const item = made("div", "", {className: "notice alarm"});
  if (each.kind === "unanswered") {
    item.append(made("p", `The library could not say what the copies on this tablet are worth (answer ${each.words}). `
      + "Until it does, nothing else is shown: try again, or remove the copies."));
    return item;
  }
  const first = made("p");
  first.append(made("strong", each.name), ` is ${WHY[each.kind]}`);
  const reasons = made("ul");
  reasons.append(...each.words.map((words) => made("li", words)));
  item.append(first, ...(each.words.length ? [reasons] : []));
  const state = made("p");
  state.setAttribute("role", "status");
  item.append(state);
  if (each.replaced) state.textContent = `A new copy is here since ${when(each.replaced)}.`;
  else if (RENEWED.includes(each.kind)) renew(each, state);
  return item;
}

async function renew(each, state) {
  state.textContent = "Fetching the new copy ...";
  const words = {what: "pin", id: each.id, name: each.name};
  const outcome = await ask(words, ({done, of}) => { state.textContent = `New copy: ${done} of ${of} parts are here.`; });
  state.textContent = outcome.failed ? `No new copy is here. ${outcome.failed}` : "The new copy is here.";
  await showList();
}

async function goOn() {
  await ask({what: "understood"});
  location.assign(next.origin === location.origin ? next.href : "/");
}

async function removeAll(kept) {
  for (const id of Object.keys(kept.pins)) await ask({what: "unpin", id});
  await goOn();
}

async function showNews() {
  const kept = await notes();
  if (!kept?.news.length) return;
  const ways = made("p", "", {className: "ways"});
  if (kept.news.some((each) => each.kind === "unanswered")) {
    ways.append(button("Try again", async () => { await ask({what: "settle"}); location.reload(); }, ""));
    ways.append(button("Remove all copies", () => removeAll(kept)));
  } else ways.append(button("I have read this: go on", goOn, ""));
  news.replaceChildren(made("h2", "Read this first"), ...kept.news.map(newsItem), ways);
  news.hidden = false;
}

async function showList() {
  const pins = Object.entries((await notes())?.pins ?? {});
  const rows = pins.map(([id, pin]) => {
    const row = made("li", "", {className: "notice"});
    row.append(made("p", "", {className: "kept-name"}));
    row.firstChild.append(made("a", pin.name, {href: `/packets/${encodeURIComponent(id)}`, className: "way"}));
    row.append(made("p", `Confirmed by the library ${when(pin.confirmed)}: it may be superseded since. ${size(pin.bytes)}.`));
    row.append(button("Remove from this tablet", async () => { await ask({what: "unpin", id}); await showList(); }));
    return row;
  });
  list.replaceChildren(...(rows.length ? rows : [made("li", "No packet is kept on this tablet.")]));
}

if (canKeep) {
  if (news) showNews();
  showList();
} else if (list) {
  list.replaceChildren(made("li", "This connection is not secure, so the browser keeps nothing. "
    + "The page On the tablet says what to do; a packet can be saved as a PDF."));
}
