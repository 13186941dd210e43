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
const SWIPE = {length: 70, slope: 2.5, ms: 1000, edge: 24}; // CSS pixels; the edges belong to the browser

const sheets = [];
const clamp = (value, low, high) => Math.min(high, Math.max(low, value));
const boxOf = (element) => element.getBoundingClientRect();
const middle = ({left, top, width, height}) => [left + width / 2, top + height / 2];
const point = ({clientX, clientY}) => [clientX, clientY];
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
    this.listen();
    const asked = /zoom-(\d+)/.exec(figure.className);
    const mark = this.paper.querySelector(".box");
    if (asked) this.zoomTo(asked[1] / 100, undefined, mark ? this.placeAt(middle(boxOf(mark))) : undefined);
    this.sharpenSoon(0);
  }

  get deep() { return this.scale > 1.01; }
  get most() { return clamp(this.width * NEAREST / this.stage.clientWidth, 4, 40); }

  /** Which part of the paper, across and down, lies at a point of the screen. */
  placeAt([x, y]) {
    const paper = boxOf(this.paper);
    return [(x - paper.left) / paper.width, (y - paper.top) / paper.height];
  }

  /** Make the paper `scale` times as wide as the stage, with `place`, else what lies there now, at the point. */
  zoomTo(scale, at = this.middle(), place = this.placeAt(at)) {
    this.scale = clamp(scale, 1, this.most);
    if (!this.deep) this.scale = 1;
    this.paper.style.width = `${this.scale * 100}%`;
    this.figure.classList.toggle("deep", this.deep);
    const {stage} = this;
    const own = stage.scrollHeight > stage.clientHeight + 1; // whether it moves up and down by itself
    const below = () => boxOf(stage).top - stuckHeight();
    const roll = (top) => scrollBy({top, behavior: "instant"});
    if (own) roll(Math.min(0, below()));
    const paper = boxOf(this.paper);
    const off = () => boxOf(this.paper).top + place[1] * paper.height - at[1];
    stage.scrollLeft += paper.left + place[0] * paper.width - at[0];
    if (own) stage.scrollTop += off();
    roll(own && !this.pinch ? Math.min(off(), below()) : off()); // what the stage cannot give, the window does
    tellSize();
    this.sharpenSoon();
  }

  middle() {
    const [x, y] = middle(boxOf(this.stage));
    return [x, clamp(y, stuckHeight(), innerHeight)];
  }

  sharpenSoon(ms = 120) {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => this.sharpen(), ms);
  }

  /** Ask for the tiles that are in view at the density of the screen; drop those longest out of view. */
  sharpen() {
    const paper = boxOf(this.paper);
    if (!paper.width) return;
    const needed = paper.width * devicePixelRatio / this.width * 72;
    if (needed <= FIRST_DPI * 1.1) return this.drop(0);
    const found = DPIS.findIndex((dpi) => dpi >= needed * 0.9);
    const zoom = found < 0 ? DPIS.length - 1 : found;
    const frame = boxOf(this.stage);
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
      this.zoomTo(this.scale * Math.exp(-clamp(event.deltaY, -100, 100) / 200), point(event));
    });
    on("dblclick", (event) => this.toggle(point(event)));
    on("dragstart", (event) => event.preventDefault());
    let from;
    on("pointerdown", (event) => { from = event.pointerType === "mouse" && !event.button && this.deep && point(event); });
    on("pointermove", (event) => {
      if (!from || !event.buttons) return;
      const [[x, y], now] = [from, point(event)];
      if (!stage.hasPointerCapture(event.pointerId)) {
        if (Math.hypot(now[0] - x, now[1] - y) < 5) return; // still a click
        stage.setPointerCapture(event.pointerId);
      }
      stage.scrollBy(x - now[0], y - now[1]);
      from = now;
    });
  }

  toggle(at) {
    this.zoomTo(this.deep ? 1 : 2.5, at);
  }

  touched(event) {
    const {touches, timeStamp: at} = event;
    this.swipe = this.pinch = null;
    if (touches.length === 1) this.swipe = {from: point(touches[0]), at};
    if (touches.length !== 2) return;
    event.preventDefault();
    const {apart, middle} = spread(touches);
    this.pinch = {apart, scale: this.scale, place: this.placeAt(middle)};
  }

  moved(event) {
    if (!this.pinch || event.touches.length !== 2) return;
    if (event.cancelable) event.preventDefault();
    const [{apart, scale, place}, now] = [this.pinch, spread(event.touches)];
    this.zoomTo(scale * now.apart / apart, now.middle, place); // two fingers move the paper too
  }

  left(event) {
    if (event.touches.length) return;
    const {swipe} = this;
    this.swipe = this.pinch = null;
    if (!swipe) return;
    const [begun, at] = [swipe.from, point(event.changedTouches[0])];
    const [x, y] = [at[0] - begun[0], at[1] - begun[1]];
    if (Math.hypot(x, y) < 12) return this.tapped(event, at);
    const plain = !this.deep && (visualViewport?.scale ?? 1) < 1.01;
    const inside = begun[0] > SWIPE.edge && begun[0] < innerWidth - SWIPE.edge;
    const across = Math.abs(x) > SWIPE.length && Math.abs(x) > Math.abs(y) * SWIPE.slope;
    if (plain && inside && across && event.timeStamp - swipe.at < SWIPE.ms)
      document.querySelector(`a[rel="${x < 0 ? "next" : "prev"}"]`)?.click();
  }

  tapped(event, at) {
    const last = this.tap;
    this.tap = {time: event.timeStamp, at};
    if (!last || event.timeStamp - last.time > 350 || Math.hypot(at[0] - last.at[0], at[1] - last.at[1]) > 40) return;
    event.preventDefault(); // else it is a double click too
    this.tap = null;
    this.toggle(at);
  }
}

/** How far apart two fingers are, and the point between them. */
function spread([one, other]) {
  const [[a, b], [c, d]] = [point(one), point(other)];
  return {apart: Math.max(1, Math.hypot(a - c, b - d)), middle: [(a + c) / 2, (b + d) / 2]};
}

function stuckHeight() {
  return document.querySelector(".stuck")?.offsetHeight ?? 0;
}

/** The sheet that the buttons speak of: the last one that begins above the middle of what is not covered. */
function inView() {
  const half = (stuckHeight() + innerHeight) / 2;
  return sheets.findLast(({stage}) => boxOf(stage).top < half) ?? sheets[0];
}

const size = make("span", {className: "size", role: "status"});

function tellSize() {
  const words = `${Math.round((inView()?.scale ?? 1) * 100)} %`;
  if (size.textContent !== words) size.textContent = words;
}

/** One bar for all sheets, beside what turns the page; where nothing does, below the sheets. */
function addButtons() {
  const button = (textContent, ariaLabel, sized) => make("button", {
    type: "button", className: "second", textContent, ariaLabel,
    onclick: () => inView().zoomTo(sized(inView().scale)),
  });
  const bar = make("div", {className: "zoomers"});
  bar.append(
    size,
    button("\u2212", "Smaller", (scale) => scale / STEP),
    button("Fit", "Page width", () => 1),
    button("+", "Larger", (scale) => scale * STEP),
  );
  const low = document.querySelector(".low") ?? make("div", {className: "low"});
  low.append(bar);
  if (!low.parentElement) sheets[0].figure.parentElement.append(low);
  tellSize();
}

/** Keys: + - 0 for the size; arrows, Home and End move a page that is larger than its stage. */
function keyed(event) {
  if (event.altKey || event.ctrlKey || event.metaKey || event.target.matches("input, select, textarea")) return;
  const sheet = sheets.find(({figure}) => figure.contains(event.target)) ?? inView();
  const wanted = {"+": sheet.scale * STEP, "=": sheet.scale * STEP, "-": sheet.scale / STEP, 0: 1}[event.key];
  const {stage} = sheet;
  const [across, down] = [stage.clientWidth / 4, stage.clientHeight / 4];
  const by = {
    ArrowLeft: [-across, 0], ArrowRight: [across, 0], ArrowUp: [0, -down], ArrowDown: [0, down],
    Home: [-1e6, -1e6], End: [1e6, 1e6],
  }[event.key];
  if (wanted) sheet.zoomTo(wanted);
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
if (sheets.length) {
  addButtons();
  addEventListener("keydown", keyed, {capture: true});
  for (const name of ["scroll", "resize"]) {
    addEventListener(name, () => {
      tellSize();
      sheets.forEach((sheet) => sheet.sharpenSoon());
    }, {passive: true});
  }
}
