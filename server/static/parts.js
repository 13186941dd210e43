/** Comforts of the parts pages: an item is marked on its figure without a new page, and a number is copied by one tap. */

import { copyButton } from "./copying.js";

const SVG = "http://www.w3.org/2000/svg";

/** A box on a picture: [pdf page, x, y, width, height], in points from the page's top left. */
function mark([, x, y, width, height]) {
  const box = document.createElementNS(SVG, "rect");
  box.setAttribute("class", "box");
  Object.entries({x, y, width, height, rx: 2}).forEach(([name, value]) => box.setAttribute(name, value));
  return box;
}

/** The layer of marks over a picture; made where the page came without one. */
function marks(sheet) {
  const held = sheet.querySelector("svg");
  if (held) return held;
  const picture = sheet.querySelector("img");
  const layer = document.createElementNS(SVG, "svg");
  layer.setAttribute("viewBox", `0 0 ${sheet.dataset.width} ${sheet.dataset.height}`);
  layer.setAttribute("preserveAspectRatio", "none");
  layer.setAttribute("role", "img");
  layer.setAttribute("aria-label", "The item is outlined");
  picture.after(layer);
  return layer;
}

/** Mark a row and its callouts; gives the sheet with the first of them. */
function show(row, art) {
  const callouts = JSON.parse(row.dataset.callouts);
  let first = null;
  for (const sheet of art.querySelectorAll(".sheet")) {
    const here = callouts.filter(([pdfPage]) => String(pdfPage) === sheet.dataset.page);
    const layer = here.length || sheet.querySelector("svg") ? marks(sheet) : null;
    layer?.replaceChildren(...here.map(mark));
    if (here.length) first ??= sheet;
  }
  for (const other of row.parentElement.querySelectorAll(".marked")) {
    other.classList.remove("marked");
    other.removeAttribute("aria-current");
  }
  row.classList.add("marked");
  row.setAttribute("aria-current", "true");
  art.querySelector(".marked-row").textContent = row.dataset.marked;
  const back = Object.assign(document.createElement("a"), {className: "tap", href: `#${row.id}`, textContent: "Back to its row"});
  art.querySelector(".marked-back").replaceChildren(back);
  return first;
}

/** A tap on a row that is on no other link of it marks the row; its link with the item does it without script. */
function markByTap() {
  const art = document.getElementById("art");
  if (!art) return;
  for (const row of document.querySelectorAll("tr[data-callouts]")) {
    row.addEventListener("click", (event) => {
      const link = event.target.closest("a");
      if (link && !link.closest(".item")) return;
      if (event.ctrlKey || event.metaKey || event.shiftKey || String(getSelection())) return;
      event.preventDefault();
      const sheet = show(row, art);
      history.replaceState(null, "", row.querySelector(".item a").href);
      const box = sheet?.querySelector(".box");
      (box ?? art.querySelector(".marked-row")).scrollIntoView({block: "center", inline: "center"});
    });
  }
}

/** What adds to a packet in place comes with the first tap; without contact the form goes its own way. */
addEventListener("submit", function first(event) {
  if (!event.target.matches("form.pack")) return;
  event.preventDefault();
  removeEventListener("submit", first);
  import("./packets.js").then(({addInPlace}) => addInPlace(event.target), () => event.target.submit());
});

for (const place of document.querySelectorAll("[data-copy-from]")) {
  const words = document.getElementById(place.dataset.copyFrom);
  copyButton(place, words, "Copy the number", `Copy the part number ${words.textContent}`);
}
markByTap();
