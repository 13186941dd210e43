/** The page's picture, sharp at any size: pinch, wheel, double tap, buttons and keys; swipe to turn.
 *
 * The paper is as wide as its stage times the scale, and the stage scrolls over it. Tiles lie on the small first
 * picture, which stays under them until they have come. Everything laid over the paper is sized with it.
 */

const TILE = 512; // pixels of a side, as the service cuts them
const DPIS = [75, 150, 300, 600]; // by zoom
const FIRST_DPI = 75; // of the picture under the tiles
const MOST_TILES = 48; // of one sheet: about 50 MB in memory
const NEAREST = 4; // CSS pixels for a point of the page, at the deepest
const STEP = 1.5;
const SWIPE = {length: 70, slope: 2.5, ms: 700, edge: 24}; // CSS pixels; the edges belong to the browser

const sheets = [];
const clamp = (value, low, high) => Math.min(high, Math.max(low, value));
const make = (tag, given) => Object.assign(document.createElement(tag), given);

class Sheet {
  constructor(figure) {
    this.figure = figure;
    this.stage = figure.querySelector(".stage");
    this.paper = figure.querySelector(".paper");
    this.width = Number(figure.dataset.width);
    this.height = Number(figure.dataset.height);
    this.tiles = new Map();
    this.layer = make("div", {className: "tiles"});
    this.paper.querySelector("img").after(this.layer);
    this.scale = 1;
    this.addButtons();
    this.listen();
    const asked = /zoom-(\d+)/.exec(figure.className);
    if (asked) this.zoomTo(asked[1] / 100);
    if (asked) this.showMark();
    this.sharpenSoon(0);
  }

  get deep() { return this.scale > 1.01; }
  get most() { return clamp(this.width * NEAREST / this.stage.clientWidth, 4, 40); }

  /** Which part of the paper, across and down, lies at (x, y) on the screen. */
  placeAt(x, y) {
    const paper = this.paper.getBoundingClientRect();
    return [(x - paper.left) / paper.width, (y - paper.top) / paper.height];
  }

  /** Make the paper `scale` times as wide as the stage, with `place`, else what lies there now, at (x, y). */
  zoomTo(scale, x, y, place) {
    const frame = this.stage.getBoundingClientRect();
    x ??= frame.left + frame.width / 2;
    y ??= clamp((frame.top + frame.bottom) / 2, stuckHeight(), innerHeight);
    const [across, down] = place ?? this.placeAt(x, y);
    this.scale = clamp(scale, 1, this.most);
    if (!this.deep) this.scale = 1;
    this.paper.style.width = `${this.scale * 100}%`;
    this.figure.classList.toggle("deep", this.deep);
    const {stage} = this;
    const own = stage.scrollHeight > stage.clientHeight + 1; // whether it moves up and down by itself
    const below = () => stage.getBoundingClientRect().top - stuckHeight();
    const roll = (top) => scrollBy({top, behavior: "instant"});
    if (own) roll(Math.min(0, below()));
    const off = () => {
      const paper = this.paper.getBoundingClientRect();
      return [paper.left + across * paper.width - x, paper.top + down * paper.height - y];
    };
    stage.scrollLeft += off()[0];
    if (own) stage.scrollTop += off()[1];
    roll(own && !place ? Math.min(off()[1], below()) : off()[1]); // what the stage cannot give, the window does
    this.size.textContent = `${Math.round(this.scale * 100)} %`;
    this.sharpenSoon();
  }

  showMark() {
    const mark = this.paper.querySelector(".box");
    if (!mark) return;
    const [box, frame] = [mark.getBoundingClientRect(), this.stage.getBoundingClientRect()];
    this.stage.scrollLeft += box.left + box.width / 2 - frame.left - frame.width / 2;
    this.stage.scrollTop += box.top + box.height / 2 - frame.top - frame.height / 2;
  }

  sharpenSoon(ms = 120) {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => this.sharpen(), ms);
  }

  /** Ask for the tiles that are in view at the density of the screen; drop those longest out of view. */
  sharpen() {
    const paper = this.paper.getBoundingClientRect();
    if (!paper.width) return;
    const needed = paper.width * devicePixelRatio / this.width * 72;
    if (needed <= FIRST_DPI * 1.1) return this.drop(0);
    const found = DPIS.findIndex((dpi) => dpi >= needed * 0.9);
    const zoom = found < 0 ? DPIS.length - 1 : found;
    const frame = this.stage.getBoundingClientRect();
    const tiles = this.width * DPIS[zoom] / 72 / TILE / paper.width; // for one CSS pixel
    const left = Math.max(0, frame.left, paper.left) - paper.left;
    const top = Math.max(0, frame.top, paper.top) - paper.top;
    const right = Math.min(innerWidth, frame.right, paper.right) - paper.left;
    const bottom = Math.min(innerHeight, frame.bottom, paper.bottom) - paper.top;
    const wanted = [];
    for (let row = Math.floor(top * tiles); row < bottom * tiles - 0.01; row++)
      for (let column = Math.floor(left * tiles); column < right * tiles - 0.01; column++)
        wanted.push({zoom, column, row, away: Math.hypot(
          column + 0.5 - (left + right) / 2 * tiles, row + 0.5 - (top + bottom) / 2 * tiles)});
    wanted.sort((a, b) => a.away - b.away);
    for (const tile of wanted.slice(0, MOST_TILES)) this.show(tile);
    this.drop(MOST_TILES);
  }

  show({zoom, column, row}) {
    const name = `${zoom}/${column}/${row}`;
    const kept = this.tiles.get(name);
    this.tiles.delete(name); // the last asked for stands last
    if (kept) return this.tiles.set(name, kept);
    const image = make("img", {alt: "", draggable: false, decoding: "async"});
    const percent = (pixels, size) => `${pixels / (size * DPIS[zoom] / 72) * 100}%`;
    image.style.left = percent(column * TILE, this.width);
    image.style.top = percent(row * TILE, this.height);
    image.style.zIndex = zoom;
    image.onload = () => {
      image.style.width = percent(image.naturalWidth, this.width);
      image.style.height = percent(image.naturalHeight, this.height);
    };
    image.onerror = () => { // the picture under it stays; the next look asks again
      image.remove();
      this.tiles.delete(name);
    };
    image.src = `${this.figure.dataset.tiles}/${name}`;
    this.layer.append(image);
    this.tiles.set(name, image);
  }

  drop(most) {
    for (const [name, image] of this.tiles) {
      if (this.tiles.size <= most) return;
      image.removeAttribute("src"); // ends the loading of one that has not come
      image.remove();
      this.tiles.delete(name);
    }
  }

  addButtons() {
    const bar = make("div", {className: "zoomers"});
    const button = (textContent, ariaLabel, onclick) =>
      make("button", {type: "button", className: "second", textContent, ariaLabel, onclick});
    this.size = make("span", {className: "size", role: "status"});
    bar.append(
      this.size,
      button("\u2212", "Smaller", () => this.zoomTo(this.scale / STEP)),
      button("Fit", "Page width", () => this.zoomTo(1)),
      button("+", "Larger", () => this.zoomTo(this.scale * STEP)),
    );
    this.figure.append(bar);
  }

  listen() {
    const {stage} = this;
    const on = (name, hear) => stage.addEventListener(name, hear, {passive: false});
    stage.addEventListener("scroll", () => this.sharpenSoon(), {passive: true});
    on("touchstart", (event) => this.touched(event));
    on("touchmove", (event) => this.moved(event));
    on("touchend", (event) => this.left(event));
    on("touchcancel", () => { this.pinch = this.swipe = null; });
    on("wheel", (event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      this.zoomTo(this.scale * Math.exp(-clamp(event.deltaY, -100, 100) / 200), event.clientX, event.clientY);
    });
    on("dblclick", (event) => {
      if (event.timeStamp - (this.lastTouch ?? -9e9) > 800) this.toggle(event.clientX, event.clientY);
    });
    on("dragstart", (event) => event.preventDefault());
    on("pointerdown", (event) => {
      if (event.pointerType !== "mouse" || event.button || !this.deep) return;
      const from = {x: event.clientX, y: event.clientY, left: stage.scrollLeft, top: stage.scrollTop};
      const drag = (move) => {
        if (!stage.hasPointerCapture(event.pointerId)) {
          if (Math.hypot(move.clientX - from.x, move.clientY - from.y) < 5) return; // still a click
          stage.setPointerCapture(event.pointerId);
        }
        stage.scrollTo(from.left + from.x - move.clientX, from.top + from.y - move.clientY);
      };
      stage.addEventListener("pointermove", drag);
      stage.addEventListener("pointerup", () => stage.removeEventListener("pointermove", drag), {once: true});
    });
  }

  toggle(x, y) {
    this.zoomTo(this.deep ? 1 : 2.5, x, y);
  }

  touched(event) {
    if (event.touches.length === 2) {
      event.preventDefault();
      this.swipe = null;
      const from = spread(event.touches);
      this.pinch = {apart: from.apart, scale: this.scale, place: this.placeAt(from.x, from.y)};
    } else if (event.touches.length === 1) {
      const [{clientX: x, clientY: y}] = event.touches;
      this.swipe = {x, y, at: event.timeStamp};
    } else {
      this.swipe = this.pinch = null;
    }
  }

  moved(event) {
    if (!this.pinch || event.touches.length !== 2) return;
    if (event.cancelable) event.preventDefault();
    const [{apart, scale, place}, now] = [this.pinch, spread(event.touches)];
    this.zoomTo(scale * now.apart / apart, now.x, now.y, place); // two fingers move the paper too
  }

  left(event) {
    this.lastTouch = event.timeStamp;
    const {swipe} = this;
    if (this.pinch) this.pinch = event.touches.length ? this.pinch : null;
    if (!swipe || event.touches.length) return;
    this.swipe = null;
    const [{clientX, clientY}] = event.changedTouches;
    const [x, y] = [clientX - swipe.x, clientY - swipe.y];
    if (Math.hypot(x, y) < 12) return this.tapped(event, clientX, clientY);
    const plain = !this.deep && (visualViewport?.scale ?? 1) < 1.01;
    const inside = swipe.x > SWIPE.edge && swipe.x < innerWidth - SWIPE.edge;
    const across = Math.abs(x) > SWIPE.length && Math.abs(x) > Math.abs(y) * SWIPE.slope;
    if (plain && inside && across && event.timeStamp - swipe.at < SWIPE.ms) turn(x < 0 ? "next" : "prev");
  }

  tapped(event, x, y) {
    const last = this.tap;
    this.tap = {at: event.timeStamp, x, y};
    if (!last || event.timeStamp - last.at > 350 || Math.hypot(x - last.x, y - last.y) > 40) return;
    event.preventDefault();
    this.tap = null;
    this.toggle(x, y);
  }
}

function spread([a, b]) {
  return {
    apart: Math.max(1, Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY)),
    x: (a.clientX + b.clientX) / 2,
    y: (a.clientY + b.clientY) / 2,
  };
}

function turn(rel) {
  document.querySelector(`a[rel="${rel}"]`)?.click();
}

function stuckHeight() {
  return document.querySelector(".stuck")?.offsetHeight ?? 0;
}

/** Keys: + - 0 for the size; arrows, Home and End move a page that is larger than its stage. */
function keyed(event) {
  if (event.altKey || event.ctrlKey || event.metaKey || event.target.matches("input, select, textarea")) return;
  const sheet = sheets.find((each) => each.figure.contains(event.target)) ?? sheets.find((each) => each.deep) ?? sheets[0];
  const size = {"+": sheet.scale * STEP, "=": sheet.scale * STEP, "-": sheet.scale / STEP, 0: 1}[event.key];
  const {stage} = sheet;
  const [across, down] = [stage.clientWidth / 4, stage.clientHeight / 4];
  const by = {
    ArrowLeft: [-across, 0], ArrowRight: [across, 0], ArrowUp: [0, -down], ArrowDown: [0, down],
    Home: [-1e6, -1e6], End: [1e6, 1e6],
  }[event.key];
  if (size) sheet.zoomTo(size);
  else if (by && sheet.deep) stage.scrollBy(...by);
  else return;
  event.preventDefault();
  event.stopImmediatePropagation(); // an arrow that moves the page does not turn it
}

/** The strip and the warnings leave most of the screen to the page: warnings begin with their first words. */
function fitStuck() {
  const stuck = document.querySelector(".stuck");
  if (!stuck) return;
  const tell = () => document.documentElement.style.setProperty("--stuck", `${stuck.offsetHeight}px`);
  const guard = stuck.querySelector(".guard");
  if (guard && stuck.offsetHeight > innerHeight * 0.3) guard.open = false;
  new ResizeObserver(tell).observe(stuck);
  tell();
}

fitStuck();
document.documentElement.classList.add("viewer");
for (const figure of document.querySelectorAll(".sheet[data-tiles]")) sheets.push(new Sheet(figure));
if (sheets.length) addEventListener("keydown", keyed, {capture: true});
for (const name of ["scroll", "resize"]) {
  addEventListener(name, () => sheets.forEach((sheet) => sheet.sharpenSoon()), {passive: true});
}
