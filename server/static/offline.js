/** Lets this tablet keep packets, and marks an open page that has lost contact with the library. */

import { canKeep, clock, made, notes } from "./kept.js";
import { noCopying } from "./without_contact.js";

const EVERY_MS = 30_000; // while the page is looked at
const ANSWER_MS = 10_000;
const DAY = "2031-01-31".length; // with which the mark of a state ends
const state = document.querySelector('meta[name="library-state"]')?.content;
const root = document.documentElement;
let seen = Date.now(); // when the library last answered
let timer = 0;

const isWithout = () => "contact" in root.dataset; // "lost", or "old": the library or the day has changed

function bar(role) {
  document.getElementById("contact")?.remove();
  const place = made("div", "", {id: "contact", className: "without-contact"});
  place.setAttribute("role", role);
  document.body.prepend(place);
  return place;
}

/** Marks the page; the time is that of the last answer, since nobody knows what came after it. */
export function lost() {
  if (root.dataset.contact === "lost" || !state) return;
  root.dataset.contact = "lost";
  const words = made("p");
  words.append(made("strong", `No contact since ${clock(seen)}. This page may be superseded since then.`));
  words.append(" Nothing can be copied from it as a citation.");
  bar("alert").append(words);
}

/** A page of another state or day stays marked until it is made anew, and nothing is copied from it. */
function found(now) {
  if (now === state) {
    delete root.dataset.contact;
    document.getElementById("contact")?.remove();
    return;
  }
  const what = now.slice(0, -DAY) === state.slice(0, -DAY) ? "Another day has begun" : "The library has changed";
  root.dataset.contact = "old";
  changed(`${what} since this page was made.`, "Show the page as it is now", location.href);
}

function changed(what, label, address) {
  const words = made("p", `${what} `);
  words.append(made("a", label, {href: address, className: "button second"}));
  bar("status").append(words);
}

/** Asks the library for its state: some 100 bytes. Gives whether it answered. */
async function look() {
  clearTimeout(timer);
  try {
    const answer = await fetch("/api/contact", {cache: "no-store", signal: AbortSignal.timeout(ANSWER_MS)});
    if (!answer.ok) throw new TypeError(`the library answered ${answer.status}`);
    const told = await answer.json();
    seen = Date.now();
    if (state) found(told.mark);
    if ((await notes())?.news.length && location.pathname !== "/pinned") {
      changed("What is kept on this tablet has changed.", "See what changed", "/pinned");
    }
  } catch (problem) {
    console.info(`no contact: ${problem.message}`);
    lost();
  }
  again();
}

/** A page that nobody looks at asks nothing, so that a sleeping tablet sleeps on. */
function again() {
  clearTimeout(timer);
  if (document.visibilityState === "visible") timer = setTimeout(look, EVERY_MS);
}

function watch() {
  addEventListener("offline", lost);
  addEventListener("online", look);
  document.addEventListener("visibilitychange", () => {
    clearTimeout(timer);
    if (document.visibilityState === "visible") look();
  });
  addEventListener("pageshow", (event) => {
    if (!event.persisted) return;
    lost(); // a page brought back from memory is old until the library has answered
    look();
  });
  noCopying(isWithout, (words) => {
    const said = document.querySelector("#contact .said")
      ?? bar("alert").appendChild(made("p", "", {className: "said"}));
    said.textContent = words;
  });
  if (navigator.onLine) again();
  else look();
}

watch();
if (canKeep) {
  const scope = {scope: "/", updateViaCache: "none"};
  const register = () => navigator.serviceWorker.register("/service-worker.js", scope).catch(
    (problem) => console.warn(`nothing can be kept on this tablet: ${problem.message}`),
  );
  if (document.readyState === "complete") register();
  else addEventListener("load", register);
}
