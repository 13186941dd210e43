/** A copy kept on this tablet, while it is read: nothing is copied from it. It ends when its time is over, when it
 * was withdrawn, on this page or another, and says when there is contact again. */

import { made, notes } from "./kept.js";
import { noCopying } from "./without_contact.js";

const LOOK_MS = 10_000;
const ASK_MS = 30_000;
const cover = document.getElementById("cover");
const {until, shown, packet, cache} = cover.dataset;
const said = made("p", "", {className: "said"});
cover.append(said);

function end(heading, words) {
  timers.forEach(clearInterval);
  const over = made("main");
  over.append(made("h1", heading), made("p", words));
  over.append(made("a", "Packets kept here", {href: "/pinned", className: "button"}));
  document.body.replaceChildren(over);
}

async function look() {
  const now = Date.now();
  if (now >= Number(until) || now < Number(shown)) {
    end("This copy is too old", "It is no longer shown. With contact, open the packet anew.");
  } else if ((await notes())?.pins[packet]?.cache !== cache) {
    end("This copy was withdrawn", "It is no longer what is kept on this tablet.");
  }
}

/** The service worker has the library say what the copy is worth before it passes on that there is contact. */
async function ask() {
  if (document.visibilityState !== "visible") return;
  const answer = await fetch("/api/contact", {cache: "no-store"}).catch(() => null);
  if (!answer?.ok) return;
  await look();
  said.replaceChildren("There is contact again. ", made("a", "Open the packet as it is now", {href: ""}));
}

const timers = [setInterval(look, LOOK_MS), setInterval(ask, ASK_MS)];
document.addEventListener("visibilitychange", look);
addEventListener("pageshow", look);
addEventListener("online", ask);
noCopying(() => true, (words) => { said.textContent = words; });
