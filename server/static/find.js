/** Results while typing, groups that open in place, and searches kept on this tablet. Without it the page
 * does its whole job through the form and the links. */

const REST_MS = 900; // after the last key, before the count is said
const SLOW_MS = 400; // before it is said that something is looked for
const MOST_RECENT = 8;
const RECENT = "hangarleaf-recent";
const PINNED = "hangarleaf-pinned";

const form = document.querySelector("form.ask");
const box = form.elements.q;
const found = document.getElementById("found");
const said = document.getElementById("said");
const contact = document.getElementById("contact");

let asking = null; // the request on its way
let shownFor = box.value.trim(); // the words whose results stand on the page
let saying = 0;
let busy; // the timer that says so

/** Words kept on this tablet, or none where the browser keeps nothing (a private window). */
function kept(name) {
  try {
    const held = JSON.parse(localStorage.getItem(name) ?? "[]");
    return Array.isArray(held) ? held.filter((words) => typeof words === "string") : [];
  } catch {
    return [];
  }
}

/** Whether they could be kept. */
function keep(name, list) {
  try {
    localStorage.setItem(name, JSON.stringify(list));
    return true;
  } catch {
    return false;
  }
}

/** A word that a blank follows is whole; else it is still being typed. */
function asked() {
  const query = new URLSearchParams(new FormData(form));
  if (/\S$/.test(box.value)) query.set("begun", "1");
  return query;
}

async function fragment(address, signal) {
  const response = await fetch(address, { signal, headers: { Accept: "text/html" } });
  const html = response.headers.get("Content-Type")?.startsWith("text/html");
  if (!html || (response.status >= 300 && response.status !== 400) || response.redirected) {
    throw new Error(`the service answered ${response.status}`);
  }
  const page = new DOMParser().parseFromString(await response.text(), "text/html");
  return [...page.body.childNodes];
}

async function ask() {
  asking?.abort();
  const mine = (asking = new AbortController());
  const words = box.value.trim();
  const query = asked();
  busy ??= setTimeout(() => found.setAttribute("aria-busy", "true"), SLOW_MS);
  try {
    const parts = await fragment(`/find?${query}`, mine.signal);
    if (mine !== asking) return; // a later key was asked for
    found.replaceChildren(...parts);
    found.classList.remove("older");
    contact.replaceChildren();
    shownFor = words;
    history.replaceState(history.state, "", words ? `/?${query}` : location.pathname);
    document.title = `${words || "Find"} - Hangarleaf`;
    ready();
    sayCount();
  } catch (problem) {
    if (problem.name === "AbortError" || mine !== asking) return;
    noContact(words);
  } finally {
    if (mine === asking) {
      busy = clearTimeout(busy);
      found.removeAttribute("aria-busy");
    }
  }
}

function noContact(words) {
  const older = found.querySelector("[data-said]") && shownFor !== words;
  found.classList.toggle("older", Boolean(older));
  const notice = Object.assign(document.createElement("p"), { className: "notice alarm" });
  notice.textContent = `No contact with the service: nothing was looked for with «${words}».`;
  if (older) notice.textContent += ` What stands below is for the older words «${shownFor}».`;
  contact.replaceChildren(notice);
}

/** The count is said once, when typing rests. */
function sayCount() {
  clearTimeout(saying);
  saying = setTimeout(() => {
    said.textContent = found.querySelector("[data-said]")?.textContent.trim().replace(/\s+/g, " ") ?? "";
  }, REST_MS);
}

/** A closed group fetches its hits when it is opened first. */
async function openGroup(group) {
  const address = group.dataset.hits;
  if (!group.open || !address) return;
  delete group.dataset.hits;
  group.setAttribute("aria-busy", "true");
  try {
    const hits = await fragment(address);
    for (const old of group.querySelectorAll(":scope > :not(summary)")) old.remove();
    group.append(...hits);
  } catch {
    group.dataset.hits = address; // the link to the chapter stays; opening again asks again
    const notice = Object.assign(document.createElement("p"), { className: "notice alarm" });
    notice.textContent = "No contact with the service: close and open again.";
    group.querySelector(":scope > .notice")?.remove();
    group.querySelector("summary").after(notice);
  }
  group.removeAttribute("aria-busy");
}

/** The words are kept when they were used: sent, or led to a page. */
function remember() {
  const words = shownFor;
  if (words) keep(RECENT, [words, ...kept(RECENT).filter((each) => each !== words)].slice(0, MOST_RECENT));
}

function button(text, label, act) {
  const made = Object.assign(document.createElement("button"), { type: "button", textContent: text });
  made.className = "pin button second";
  if (label) made.setAttribute("aria-label", label);
  made.addEventListener("click", act);
  return made;
}

function pin(words) {
  const held = kept(PINNED);
  const is = held.includes(words);
  const changed = is ? held.filter((each) => each !== words) : [words, ...held];
  if (!keep(PINNED, changed)) contact.textContent = "This browser keeps nothing: the search is not remembered.";
}

function line(words, pinned) {
  const item = document.createElement("li");
  const link = Object.assign(document.createElement("a"), { className: "chip", textContent: words });
  link.href = `/?${new URLSearchParams({ q: words })}`;
  item.append(link);
  if (pinned) item.append(button("Forget", `Forget ${words}`, () => (pin(words), ready())));
  return item;
}

/** What the page just shown needs: the kept searches of the start, or the button that remembers this one. */
function ready() {
  const start = found.querySelector(".kept");
  if (start) {
    const lists = { pinned: kept(PINNED), recent: kept(RECENT) };
    for (const [name, list] of Object.entries(lists)) {
      const section = start.querySelector(`.${name}`);
      section.hidden = !list.length;
      section.querySelector("ul").replaceChildren(...list.map((words) => line(words, name === "pinned")));
    }
    start.hidden = !lists.pinned.length && !lists.recent.length;
  }
  const summary = found.querySelector(".summary");
  if (summary && shownFor && keep(PINNED, kept(PINNED))) {
    const made = button("", "", () => (pin(shownFor), show()));
    const show = () => {
      const is = kept(PINNED).includes(shownFor);
      made.textContent = is ? "Remembered" : "Remember";
      made.setAttribute("aria-pressed", String(is));
      made.setAttribute("aria-label", `Remember this search on this tablet: ${shownFor}`);
    };
    show();
    summary.append(made);
  }
}

box.addEventListener("input", ask);
form.addEventListener("submit", () => {
  asking?.abort();
  asking = null;
  shownFor = box.value.trim();
  remember();
});
found.addEventListener("toggle", (event) => event.target.matches("details.group") && openGroup(event.target), true);
found.addEventListener("click", (event) => {
  if (event.target.closest(".hit a, .to")) remember();
  if (event.target.closest(".clear")) {
    keep(RECENT, []);
    ready();
    box.focus();
  }
});
if (shownFor && new URLSearchParams(location.search).get("begun") === null) remember();
ready();
