/** The page about ingest: files are sent one by one with their progress, and the page is kept fresh. */

const BUSY_MS = 1500;
const IDLE_MS = 10000;
const LISTS = ["refused", "came", "lately", "watch", "ocr"];

/** Put what the server says now in place of what it said before, part by part; a part in use is left alone. */
async function refresh() {
  const answer = await fetch("/ingest", {headers: {accept: "text/html"}});
  if (!answer.ok) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
  const said = document.getElementById("said");
  const words = fresh.getElementById("said").textContent;
  const [now, newNow] = [document.getElementById("now"), fresh.getElementById("now")];
  if (said.textContent !== words) said.textContent = words; // the one line that is read out
  // Everything in that part but its heading and the line read out, which stays the same element.
  for (const old of now.querySelectorAll(":scope > :not(h2, #said)")) old.remove();
  now.append(...newNow.querySelectorAll(":scope > :not(h2, #said)"));
  now.dataset.doing = newNow.dataset.doing;
  for (const id of LISTS) {
    const [old, next] = [document.getElementById(id), fresh.getElementById(id)];
    const inUse = old.contains(document.activeElement) || old.querySelector("details[open]");
    if (!inUse && old.innerHTML !== next.innerHTML) old.replaceWith(document.adoptNode(next));
  }
}

async function keepFresh() {
  if (!document.hidden) await refresh().catch(() => {}); // without contact the page stays as it is
  const busy = document.getElementById("now").dataset.doing !== "nothing";
  setTimeout(keepFresh, busy ? BUSY_MS : IDLE_MS);
}

/** One file; tells how much of it has gone. Gives the server's answer, or why there is none. */
function send(file, told) {
  return new Promise((done) => {
    const request = new XMLHttpRequest(); // fetch tells nothing of what has gone up
    const form = new FormData();
    form.append("files", file);
    request.open("POST", "/api/ingest/files");
    request.responseType = "json";
    request.upload.addEventListener("progress", (event) => told(event.loaded, event.total));
    request.addEventListener("load", () => done(request.response ?? {}));
    request.addEventListener("error", () =>
      done({error: {what: `${file.name}: the connection broke off.`, remedy: "Send it again."}}));
    request.send(form);
  });
}

async function sendAll(form) {
  const button = form.querySelector("button");
  const input = form.querySelector("input[type=file]");
  const most = Number(form.dataset.mostMb) * 1e6;
  const files = [...input.files];
  const part = form.querySelector(".sending") ?? form.appendChild(document.createElement("div"));
  const [line, bar, problems] = ["p", "progress", "ul"].map((tag) => document.createElement(tag));
  part.className = "sending";
  line.setAttribute("role", "status");
  bar.setAttribute("aria-label", "Sent of this file");
  part.replaceChildren(line, bar, problems);
  const complain = (error) => {
    const item = document.createElement("li");
    item.textContent = `${error.what} ${error.remedy}`;
    problems.append(item);
  };
  button.disabled = true;
  let sent = 0;
  for (const [place, file] of files.entries()) {
    if (most && file.size > most) {
      complain({what: `${file.name} is over ${form.dataset.mostMb} MB.`, remedy: "Split the file."});
      continue;
    }
    line.textContent = `Sending ${place + 1} of ${files.length}: ${file.name}`;
    const answer = await send(file, (loaded, total) => Object.assign(bar, {max: total, value: loaded}));
    if (answer.error) complain(answer.error);
    else sent += 1;
    await refresh().catch(() => {});
  }
  bar.remove();
  line.textContent = `Sent: ${sent} of ${files.length}.`;
  button.disabled = false;
  input.value = "";
}

document.getElementById("send")?.addEventListener("submit", (event) => {
  event.preventDefault();
  sendAll(event.target);
});
setTimeout(keepFresh, BUSY_MS);
