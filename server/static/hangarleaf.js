/** Small comforts. Every page does its whole job without them. */

const PLACE = "hangarleaf-place";

/** Coming back to a list by the back button lands where it was left, also after the page was made anew. */
function rememberPlace() {
  const key = `${PLACE}:${location.pathname}${location.search}`;
  addEventListener("pagehide", () => sessionStorage.setItem(key, String(scrollY)));
  const [navigation] = performance.getEntriesByType("navigation");
  const kept = sessionStorage.getItem(key);
  if (navigation?.type === "back_forward" && kept && !location.hash) scrollTo(0, Number(kept));
}

/** The left and right arrow keys turn pages, unless the reader is typing. */
function turnByKey() {
  addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (event.target.closest("input, select, textarea")) return;
    const rel = { ArrowLeft: "prev", ArrowRight: "next" }[event.key];
    if (rel) document.querySelector(`a[rel="${rel}"]`)?.click();
  });
}

/** What the bar keeps behind "More" closes by Escape, and by a tap beside it. */
function closeTheRest() {
  const rest = document.querySelector(".rest-of-it");
  addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !rest?.open) return;
    rest.open = false;
    rest.querySelector("summary").focus();
  });
  addEventListener("click", (event) => {
    if (rest?.open && !rest.contains(event.target)) rest.open = false;
  });
}

rememberPlace();
closeTheRest();
turnByKey();
