/** Says whether this browser would keep packets over the connection that the page came by. */

const place = document.getElementById("browser");
if (place) {
  const can = window.isSecureContext && "serviceWorker" in navigator;
  place.textContent = can ? place.dataset.yes : place.dataset.no;
}
