/**
 * Keeps chosen packets on this tablet, and nothing else of the library. Served as /service-worker.js, with one
 * line before it that fills in GIVEN: {build, statics, shell (addresses), hours (a copy is kept)}.
 *
 * Every page comes from the library. Without contact a kept packet is shown under a cover that says since when
 * it may be superseded, and every other address gives the page /offline. When contact is back, the library is
 * asked what the copies are worth before anything else is shown.
 */
/* global GIVEN */
const SHELL = `shell-${GIVEN.build}`;
const NOTES = "notes";
const NOTE = "/kept-on-this-device"; // never asked of the server
const FORMAT = 2;
const MOST_PINS = 20;
const ANSWER_MS = 12_000; // no answer for so long is no contact
const HOUR_MS = 3_600_000;
const ASK_AGAIN_MS = 600_000; // while there is contact
const SEEN_MS = 60_000; // so exactly is known what time it has been already
const CLOCK_MS = 120_000; // a clock is put right by less than this
const PARTS = /(<(?:img|image|link)\b[^>]*?\s(?:src|href)=")([^"]+)"/g;
const HEADERS = ["content-type", "content-security-policy", "x-content-type-options", "referrer-policy",
  "cross-origin-opener-policy", "cross-origin-resource-policy"];

/** One change of the notes at a time. */
let changing = Promise.resolve();
let asking = null;
const making = new Set(); // names of caches that are being filled

/**
 * pins  id -> {name, cache, copy (what it says, in a word), confirmed (our clock), generation, bytes}
 * state  of the library when it was last asked, as pages bear it; "" = ask before the next page is shown
 * news  what happened to copies, until it was read; away = since when there is no contact, 0 = there is
 */
async function read() {
  const kept = await (await caches.open(NOTES)).match(NOTE);
  const notes = kept ? await kept.json() : {};
  return {format: FORMAT, library: "", state: "", seen: 0, asked: 0, away: 0, pins: {}, news: [], ...notes};
}

function change(how) {
  const done = changing.then(async () => {
    const notes = await read();
    const outcome = await how(notes);
    notes.seen = Math.max(notes.seen, Date.now());
    await (await caches.open(NOTES)).put(NOTE, Response.json(notes));
    await sweep(notes);
    return outcome;
  });
  changing = done.catch(() => undefined); // whoever asked is told of the failure
  return done;
}

/** Deletes every copy that the notes do not name: what was begun and not finished goes too. */
async function sweep(notes) {
  const named = [...making, ...Object.values(notes.pins).map((pin) => pin.cache)];
  const old = (await caches.keys()).filter((name) => name.startsWith("packet-") && !named.includes(name));
  await Promise.all(old.map((name) => caches.delete(name)));
}

function withdraw(notes, id, kind, words = []) {
  notes.news.push({id, name: notes.pins[id].name, kind, words, at: Date.now()});
  delete notes.pins[id];
}

const withdrawAll = (notes, kind, words) =>
  Object.keys(notes.pins).forEach((id) => withdraw(notes, id, kind, words));

/** Takes back what is too old, and everything when the clock was set back: then no age can be told. */
function expire(notes) {
  const now = Date.now();
  if (notes.format !== FORMAT) withdrawAll(notes, "expired");
  if (now < notes.seen - CLOCK_MS) {
    withdrawAll(notes, "clock");
    notes.seen = now;
  }
  for (const [id, pin] of Object.entries(notes.pins)) {
    if (now >= pin.confirmed + GIVEN.hours * HOUR_MS) withdraw(notes, id, "expired");
  }
  notes.format = FORMAT;
}

function inTime(answer) {
  let timer;
  const late = new Promise((_, refuse) => { timer = setTimeout(() => refuse(new TypeError("late")), ANSWER_MS); });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

const lost = () => change((notes) => { expire(notes); notes.away ||= Date.now(); });

// What the copies are worth -------------------------------------------------------------------------------

/** Refuses what something on the way answered in place of the library, such as a guest network's sign-in page. */
function ours(answer) {
  if (answer.type === "opaqueredirect" || answer.headers.has("Answered-By")) return answer;
  throw new TypeError(`an answer ${answer.status} that is not the library's`);
}

/** The time in the address keeps any cache on the way from answering. */
async function askStanding(ids) {
  const address = `/api/packets/standing?ids=${ids.map(encodeURIComponent).join(",")}&asked=${Date.now()}`;
  return ours(await inTime(fetch(address, {cache: "no-store"})));
}

/** Asks the library and takes back what is not as it was. One question at a time, whoever wants to know. */
function settle() {
  asking ??= settled().finally(() => { asking = null; });
  return asking;
}

async function settled() {
  const before = await read();
  const ids = Object.keys(before.pins);
  const asked = Date.now();
  const answer = ids.length ? await askStanding(ids) : null;
  const told = answer?.ok ? await answer.json() : null;
  await change((notes) => {
    expire(notes);
    notes.news = notes.news.filter((each) => each.kind !== "unanswered");
    if (answer && [401, 403].includes(answer.status)) withdrawAll(notes, "shut-out");
    else if (answer && !told) {
      notes.news.push({kind: "unanswered", words: [`${answer.status}`], at: asked});
      return;
    } else if (told && told.library_state.library !== notes.library) withdrawAll(notes, "other-library");
    else if (told) judge(notes, told, ids, asked);
    if (told) notes.state = told.library_state.up_to_date ? told.library_state.mark : "";
    notes.asked = asked;
    notes.away = 0;
  });
}

/** While an ingest is at work nobody knows yet what it brings: then nothing is confirmed. */
function judge(notes, told, ids, asked) {
  for (const id of ids.filter((each) => notes.pins[each])) {
    const found = told.packets.find((each) => each.id === id);
    if (!found || ["gone", "closed"].includes(found.standing)) {
      withdraw(notes, id, found?.standing ?? "gone", found?.words);
    } else if (found.copy !== notes.pins[id].copy) {
      const words = found.standing === "current" ? [] : found.words;
      withdraw(notes, id, found.standing === "superseded" ? "superseded" : "changed", words);
    } else if (told.library_state.up_to_date) {
      notes.pins[id].confirmed = Math.max(notes.pins[id].confirmed, asked);
    }
  }
}

// Keeping a packet ----------------------------------------------------------------------------------------

async function got(address) {
  const answer = ours(await inTime(fetch(address, {cache: "no-store", redirect: "error"})));
  if (!answer.ok) throw new Error(`the library answered ${answer.status}`);
  return answer;
}

const only = (headers) =>
  Object.fromEntries(HEADERS.filter((name) => headers.has(name)).map((name) => [name, headers.get(name)]));

/** All of it or nothing. `tell` is called with {done, of}, pictures and page counted together. */
async function pin({id, name}, tell) {
  const asked = Date.now();
  const cache = `packet-${id}-${asked}`;
  making.add(cache);
  try {
    if (!/^[\w-]+$/.test(id)) throw new Error("this is no packet");
    const answer = await askStanding([id]);
    if (!answer.ok) throw new Error(`the library answered ${answer.status}`);
    const told = await answer.json();
    const [found] = told.packets;
    if (["gone", "closed"].includes(found.standing)) return {failed: found.words.join(" ")};
    const notes = await read();
    if (Object.keys(notes.pins).length >= MOST_PINS && !notes.pins[id]) {
      return {failed: `${MOST_PINS} packets are kept here already. Remove one first.`};
    }
    const {bytes, copy} = await download(id, await caches.open(cache), tell);
    const library = told.library_state;
    await change(async (now) => {
      if (!(await caches.has(cache))) throw new Error("it was interrupted");
      if (now.library !== library.library) withdrawAll(now, "other-library");
      now.library = library.library;
      now.pins[id] = {name, cache, copy, confirmed: asked, generation: library.generation, bytes};
      now.news = now.news.map((each) => (each.id === id ? {...each, replaced: Date.now()} : each));
    });
    return {kept: bytes};
  } catch (problem) {
    const full = problem.name === "QuotaExceededError";
    const cut = problem instanceof TypeError;
    return {failed: full ? "This tablet has no room left for it." : cut ? "Contact was lost." : `${problem.message}.`};
  } finally {
    making.delete(cache);
    await change(() => undefined); // sweeps what was not finished
  }
}

async function download(id, cache, tell) {
  const page = await got(`/packets/${id}/copy`);
  const addresses = [];
  const text = (await page.text())
    .replace(/<script\b[^>]*>[^]*?<\/script>/g, "")
    .replace(PARTS, (_, before, address) => {
      const at = addresses.includes(address) ? addresses.indexOf(address) : addresses.push(address) - 1;
      return `${before}/kept/${id}/${at}"`;
    });
  const of = addresses.length + 1;
  tell({done: 1, of});
  const [, copy] = text.match(/ data-copy="(\w+)"/) ?? [];
  if (!copy) throw new Error("the library sent no copy");
  let bytes = text.length;
  await cache.put("/page", new Response(text, {headers: only(page.headers)}));
  for (const [at, address] of addresses.entries()) {
    const part = await got(address.replaceAll("&amp;", "&"));
    const content = await part.blob();
    bytes += content.size;
    await cache.put(`/kept/${id}/${at}`, new Response(content, {headers: only(part.headers)}));
    tell({done: at + 2, of});
  }
  return {bytes, copy};
}

const unpin = ({id}) => change((notes) => { delete notes.pins[id]; });
const understood = () => change((notes) => {
  notes.news = notes.news.filter((each) => each.kind === "unanswered" && Object.keys(notes.pins).length);
});

// Answering -----------------------------------------------------------------------------------------------

async function shellPage(path) {
  return (await (await caches.open(SHELL)).match(path)) ?? Response.error();
}

const when = (time) => new Date(time).toLocaleString("en-GB", {dateStyle: "long", timeStyle: "short"});

function ago(time) {
  const minutes = Math.max(0, Math.round((Date.now() - time) / 60_000));
  const [count, unit] = minutes < 120 ? [minutes, "minute"] : [Math.floor(minutes / 60), "hour"];
  return `${count} ${unit}${count === 1 ? "" : "s"} ago`;
}

/** The copy under its cover. Times are of this tablet's clock. */
async function covered(id, pin) {
  const page = await (await caches.open(pin.cache)).match("/page");
  const until = pin.confirmed + GIVEN.hours * HOUR_MS;
  const cover = `<section class="without-contact" role="alert" id="cover" data-packet="${id}" data-cache="${pin.cache}"
  data-until="${until}" data-shown="${Date.now()}">
<p><strong>No contact. May be superseded since ${when(pin.confirmed)}</strong>, ${ago(pin.confirmed)}.</p>
</section>
<section class="about-copy">
<p>This is a copy kept on this tablet, of library state ${pin.generation}. It is deleted at ${when(until)}.
Nothing can be copied from it as a citation. Check the revision before use.</p>
<p class="ways"><a class="button second" href="">Try for contact</a> <a class="button second" href="/pinned">Kept on this tablet</a></p>
</section>
<script type="module" src="${GIVEN.statics}/kept_copy.js"></script>`;
  return new Response((await page.text()).replace(/<body[^>]*>/, (body) => body + cover), {headers: page.headers});
}

async function withoutContact(url) {
  await lost();
  const notes = await read();
  if (notes.news.length) return toPinned(url);
  const [, id] = url.pathname.match(/^\/packets\/([^/]+)(?:\/copy)?$/) ?? [];
  return notes.pins[id] ? covered(id, notes.pins[id]) : shellPage("/offline");
}

const toPinned = (url) =>
  Response.redirect(`/pinned?next=${encodeURIComponent(url.pathname + url.search)}`);

async function visit(event, url) {
  if (url.pathname === "/pinned") {
    await change(expire);
    return shellPage("/pinned");
  }
  let answer;
  try {
    const early = Promise.resolve(event.preloadResponse).then((got) => got ?? fetch(event.request));
    answer = ours(await (url.pathname.endsWith("/pdf") ? early : inTime(early))); // a long packet takes its time
  } catch (problem) {
    console.info(`no contact: ${problem.message}`);
    return withoutContact(url);
  }
  const notes = await read();
  const state = answer.headers.get("Library-State");
  const pinned = Object.keys(notes.pins).length;
  try {
    if (notes.away || (pinned && state && state !== notes.state)) await settle();
    else if (pinned && Date.now() > notes.asked + ASK_AGAIN_MS) event.waitUntil(settle().catch(lost));
    else if (pinned && Date.now() > notes.seen + SEEN_MS) event.waitUntil(change(expire));
  } catch (problem) {
    console.info(`no contact: ${problem.message}`);
    return withoutContact(url);
  }
  return (await read()).news.length ? toPinned(url) : answer;
}

/** What an open page asks now and then; it is also how contact is found again. */
async function contact(request) {
  try {
    const answer = ours(await inTime(fetch(request)));
    if ((await read()).away) await settle();
    return answer;
  } catch (problem) {
    console.info(`no contact: ${problem.message}`);
    await lost();
    return Response.error();
  }
}

async function part(path) {
  const notes = await read();
  const pin = notes.pins[path.split("/")[2]];
  return (pin && (await (await caches.open(pin.cache)).match(path))) ?? Response.error();
}

async function install() {
  const shell = await caches.open(SHELL);
  await Promise.all(GIVEN.shell.map(async (address) => shell.put(address, await got(address))));
  await skipWaiting();
}

async function activate() {
  const old = (await caches.keys()).filter((name) => name.startsWith("shell-") && name !== SHELL);
  await Promise.all(old.map((name) => caches.delete(name)));
  await registration.navigationPreload?.enable();
  await change(expire);
  await clients.claim();
}

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));
addEventListener("message", (event) => {
  const [port] = event.ports;
  const tell = (words) => port.postMessage(words);
  const ways = {pin: () => pin(event.data, tell), unpin: () => unpin(event.data), understood, settle};
  event.waitUntil(ways[event.data.what]().then(
    (outcome) => tell({finished: true, ...outcome}),
    (problem) => tell({finished: true, failed: problem.message}),
  ));
});
addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (url.origin !== location.origin || event.request.method !== "GET") return;
  if (event.request.mode === "navigate") event.respondWith(visit(event, url));
  else if (url.pathname === "/api/contact") event.respondWith(contact(event.request));
  else if (url.pathname.startsWith("/kept/")) event.respondWith(part(url.pathname));
  else if (GIVEN.shell.includes(url.pathname)) event.respondWith(shellPage(url.pathname));
});
