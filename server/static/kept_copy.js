/** A copy kept on this device, while it is read: nothing is copied from it, and it ends when its time is over. */

import { made } from "./kept.js";
import { noCopying } from "./without_contact.js";

const cover = document.getElementById("cover");
const {until, shown} = cover.dataset;
const said = made("p", "", {className: "said"});
cover.append(said);

function look() {
  const now = Date.now();
  if (now < Number(until) && now >= Number(shown)) return;
  clearInterval(timer);
  const over = made("main");
  over.append(made("h1", "This copy is too old"), made("p", "It is no longer shown. With contact, open the packet anew."));
  over.append(made("a", "Packets kept here", {href: "/pinned", className: "button"}));
  document.body.replaceChildren(over);
}

const timer = setInterval(look, 10_000);
document.addEventListener("visibilitychange", look);
addEventListener("pageshow", look);
noCopying(() => true, (words) => { said.textContent = words; });
