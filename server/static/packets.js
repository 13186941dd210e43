/** Job packets without leaving the page. Every form works without this module. */

/** What was done is said in a line that screen readers read out, made before there is anything to say. */
function statusBeside(form) {
  const said = Object.assign(document.createElement("span"), {className: "packed-said"});
  said.setAttribute("role", "status");
  form.append(said);
  return said;
}

/** The entry on top leads to the packet and says how many items are in it. */
function countOnTop(told) {
  const entry = document.querySelector('nav[aria-label="Main"] > a[href^="/packets"]');
  if (!entry) return;
  const count = entry.querySelector(".count") ?? Object.assign(document.createElement("b"), {className: "count"});
  const unseen = Object.assign(document.createElement("span"), {className: "unseen", textContent: " in it"});
  count.replaceChildren(String(told.count), unseen);
  entry.append(" ", count);
  entry.href = told.address;
}

/** "Add to packet" adds in place, also in lists that came later; the button then leads to the packet. */
export async function addInPlace(form) {
  const said = form.querySelector(".packed-said") ?? statusBeside(form);
  const button = form.querySelector("button");
  button.disabled = true;
  try {
    const answer = await fetch("/api/packets/add", {method: "POST", body: new URLSearchParams(new FormData(form))});
    const told = await answer.json();
    if (!answer.ok) throw new Error(`${told.error.what} ${told.error.remedy}`);
    const link = Object.assign(document.createElement("a"), {
      className: "button second packed", href: told.address, textContent: "In the packet",
    });
    button.replaceWith(link);
    link.focus();
    said.textContent = told.words;
    countOnTop(told);
  } catch (problem) {
    button.disabled = false;
    said.textContent = problem instanceof TypeError ? "No contact with the library: nothing was added." : problem.message;
  }
}

/** Up and down move an item in place; the same button keeps the focus, so that it can be tapped again. */
function orderInPlace(items) {
  items.addEventListener("submit", async (event) => {
    const form = event.target.closest("form.order");
    if (!form) return;
    event.preventDefault();
    const answer = await fetch(form.action, {
      method: "POST", body: new URLSearchParams(new FormData(form, event.submitter)),
    }).catch(() => null);
    if (!answer?.ok) {
      document.getElementById("packet-said").textContent = "No contact with the library: the order stays as it was.";
      return;
    }
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const id = form.closest("[data-item]").id;
    const value = event.submitter.value;
    items.replaceChildren(...page.getElementById("items").childNodes);
    const moved = document.getElementById(id);
    const place = [...items.querySelectorAll("[data-item]")].indexOf(moved) + 1;
    (moved.querySelector(`form.order button[value="${value}"]:not(:disabled)`) ?? moved.querySelector("form.order button:not(:disabled)"))?.focus();
    document.getElementById("packet-said").textContent = `Now item ${place}.`;
  });
}

addEventListener("submit", (event) => {
  if (!event.target.matches("form.pack")) return;
  event.preventDefault();
  addInPlace(event.target);
});
const items = document.getElementById("items");
if (items) orderInPlace(items);
