/** What this tablet keeps: reading the notes of the service worker, and asking it to do something. */

export const canKeep = isSecureContext && "serviceWorker" in navigator && "caches" in self;

/** The notes as service-worker.js describes them; null = nothing was ever kept. */
export async function notes() {
  if (!canKeep || !(await caches.has("notes"))) return null;
  const kept = await (await caches.open("notes")).match("/kept-on-this-device");
  return kept ? kept.json() : null;
}

/** Has the service worker do something: {what: "pin", "unpin", "understood" or "settle", ...}. */
export async function ask(words, progress = () => undefined) {
  const {active} = await navigator.serviceWorker.ready;
  return new Promise((done) => {
    const {port1, port2} = new MessageChannel();
    port1.onmessage = ({data}) => (data.finished ? done(data) : progress(data));
    active.postMessage(words, [port2]);
  });
}

export const when = (time) =>
  new Date(time).toLocaleString("en-GB", {dateStyle: "long", timeStyle: "short"});

export const clock = (time) => new Date(time).toLocaleTimeString("en-GB", {timeStyle: "short"});

export const size = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;

/** An element with words; words enter a page only as text. */
export function made(tag, words = "", more = {}) {
  const {dataset, ...properties} = more;
  const element = Object.assign(document.createElement(tag), {textContent: words}, properties);
  Object.assign(element.dataset, dataset);
  return element;
}
