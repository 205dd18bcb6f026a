// Going from slide to slide: buttons, keys, the list, the menu, and what is printed.

const store = deck.store;
const lessMotion = matchMedia("(prefers-reduced-motion: reduce)");
let entered = []; // the extras at work on this slide, while its picture stands still

Object.defineProperty(deck, "calm", { get: () => (store.calm === undefined ? lessMotion.matches : store.calm) });

const reachable = (index) => index >= 0 && index < data.slides.length && !data.slides[index].closed;

function showPlace() {
  const words = deck.filled("position", { number: deck.at + 1, count: data.slides.length });
  byId("place").textContent = words;
  byId("sewn").style.width = `${(100 * (deck.at + 1)) / data.slides.length}%`;
  byId("back").disabled = deck.at === 0;
  byId("again").hidden = deck.calm || !(data.slides[deck.at].motions || []).length;
}

function sayParagraphs(place, slide) {
  const lines = slide.said.map((sentence) => element("p", {}, `${sentence} `));
  if (slide.own && slide.said.length) lines.push(element("p", { class: "whose" }, `(${deck.words.own_words})`));
  place.replaceChildren(...lines);
}

function leaveExtras() {
  for (const extra of entered) extra.leave();
  entered = [];
  deck.onNext = null;
  byId("doing").replaceChildren();
}

// The last picture of a slide, and what may be done with it.
function stand(slide) {
  leaveExtras();
  deck.show(slide.figure);
  for (const extra of extras) {
    if (!extra.wants(slide)) continue;
    const place = element("div");
    byId("doing").append(place);
    entered.push(extra);
    extra.enter(slide, place, deck);
  }
}

function nameInAddress(slide) {
  try { history.replaceState(history.state, "", `#${slide.id}`); } catch { /* framed by a page that keeps its address */ }
}

function enter(index, { play = true, focus = true } = {}) {
  leaveExtras();
  const slide = data.slides[index];
  deck.at = index;
  byId("heading").textContent = slide.heading;
  byId("chapter").textContent = slide.chapter;
  document.title = `${slide.heading} – ${data.title}`;
  sayParagraphs(byId("said"), slide);
  byId("views").replaceChildren();
  if (play && !deck.calm) deck.play();
  else stand(slide);
  if (deck.calm) offerBeforeAndAfter(slide);
  store.at = index;
  store.seen = [...new Set([...(store.seen || []), index])];
  deck.keep();
  nameInAddress(slide);
  showPlace();
  markInList();
  for (const told of deck.onSlide) told(slide);
  if (focus) {
    byId("heading").focus({ preventScroll: true });
    scrollTo(0, 0);
  }
}

function offerBeforeAndAfter(slide) {
  if (!(slide.motions || []).length) return;
  const buttons = [["before", slide.before], ["after", slide.figure]].map(([key, figure]) =>
    element("button", {
      type: "button",
      "aria-pressed": String(key === "after"),
      click(event) {
        if (key === "after") stand(slide);
        else {
          leaveExtras();
          deck.show(figure);
        }
        for (const button of buttons) button.setAttribute("aria-pressed", String(button === event.currentTarget));
        deck.say(deck.filled(`${key}_picture`, { text: figures[figure][0] }));
      },
    }, deck.words[key]));
  byId("views").replaceChildren(...buttons);
}

Object.assign(deck, {
  go(index) { if (reachable(index)) enter(index); },
  back() {
    let index = deck.at - 1;
    while (index > 0 && !reachable(index)) index -= 1;
    if (reachable(index)) enter(index, { play: false });
  },
  next() {
    if (deck.onNext !== null && deck.onNext()) return;
    if (deck.at === data.slides.length - 1) deck.say(deck.words.last);
    else if (reachable(deck.at + 1)) enter(deck.at + 1);
    else offerPart(data.slides[deck.at + 1].part);
  },
  tool(text, action) {
    const button = element("button", { type: "button", click: action }, text);
    byId("tools").append(button);
    return button;
  },
  // The motions of the slide one after another, then its last picture.
  async play() {
    const slide = data.slides[deck.at];
    leaveExtras();
    if (await playMotions(slide.motions || [])) stand(slide);
  },
});

// Where no choice stands in the slide, whoever goes on may ask for what is closed.
function offerPart(part) {
  if (!byId("ask")) {
    const button = element("button", { type: "button", id: "ask", async click() {
      await deck.reveal(part);
      deck.go(deck.at + 1);
    } }, deck.words.reveal);
    byId("doing").append(button);
  }
  byId("ask").focus();
  deck.say(deck.words.sealed);
}

function listSlides() {
  const places = [];
  let chapter = null;
  data.slides.forEach((slide, index) => {
    if (slide.chapter !== chapter) {
      chapter = slide.chapter;
      places.push(element("h3", {}, chapter), element("ol", { start: index + 1 }));
    }
    const line = slide.closed
      ? element("span", { class: "closed" }, deck.words.closed)
      : element("button", { type: "button", class: "goto", click() {
        byId("choices").close();
        deck.go(index);
      } }, slide.heading);
    places.at(-1).append(element("li", { "data-index": index }, line));
  });
  byId("list").replaceChildren(...places);
  markInList();
}

function markInList() {
  for (const line of byId("list").querySelectorAll("li")) {
    const button = line.querySelector("button");
    if (!button) continue;
    if (Number(line.dataset.index) === deck.at) button.setAttribute("aria-current", "page");
    else button.removeAttribute("aria-current");
  }
}

const KEYS = {
  ArrowRight: () => deck.next(),
  PageDown: () => deck.next(),
  ArrowLeft: () => deck.back(),
  PageUp: () => deck.back(),
  Home: () => deck.go(0),
  End: () => deck.go(data.slides.findLastIndex((slide) => !slide.closed)),
};

addEventListener("keydown", (event) => {
  if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
  if (byId("choices").open || event.target.closest("input, select, textarea, summary, [contenteditable], [data-keys]")) return;
  if (event.key in KEYS) {
    event.preventDefault();
    KEYS[event.key]();
  }
});

function choosePalette(name) {
  if (name) document.documentElement.dataset.palette = name;
  else delete document.documentElement.dataset.palette;
}

function enlarge(larger) {
  const stage = byId("stage");
  stage.classList.toggle("larger", larger);
  byId("larger").textContent = larger ? deck.words.smaller : deck.words.larger;
  if (larger) {
    for (const [name, value] of [["tabindex", "0"], ["role", "region"], ["data-keys", ""]]) stage.setAttribute(name, value);
    stage.setAttribute("aria-label", deck.words.larger_region);
  } else for (const name of ["tabindex", "role", "data-keys", "aria-label"]) stage.removeAttribute(name);
}

function printSeen() {
  const seen = (store.seen || []).filter(reachable).sort((a, b) => a - b);
  byId("printed").replaceChildren(...seen.map((index) => {
    const slide = data.slides[index];
    const said = element("div");
    sayParagraphs(said, slide);
    const picture = deck.card(slide.figure, data.view);
    picture.removeAttribute("aria-hidden");
    picture.setAttribute("role", "img");
    picture.setAttribute("aria-label", slide.alt);
    return element("article", {}, element("h2", {}, slide.heading), picture, said);
  }));
}

byId("back").addEventListener("click", () => deck.back());
byId("next").addEventListener("click", () => deck.next());
byId("again").addEventListener("click", () => deck.play());
byId("menu").addEventListener("click", () => {
  byId("choices").showModal();
  byId("list").querySelector("[aria-current]")?.scrollIntoView({ block: "nearest" });
});
byId("close").addEventListener("click", () => byId("choices").close());
byId("print").addEventListener("click", () => { byId("choices").close(); print(); });
byId("larger").addEventListener("click", () => enlarge(!byId("stage").classList.contains("larger")));
byId("calm").addEventListener("change", (event) => {
  store.calm = event.target.checked;
  deck.keep();
  enter(deck.at, { play: false, focus: false });
});
for (const radio of document.querySelectorAll("[name=palette]")) {
  radio.checked = radio.value === (store.palette || "");
  radio.addEventListener("change", () => {
    store.palette = radio.value;
    deck.keep();
    choosePalette(radio.value);
  });
}
addEventListener("beforeprint", printSeen);
addEventListener("afterprint", () => byId("printed").replaceChildren());
addEventListener("hashchange", () => {
  const index = data.slides.findIndex((slide) => `#${slide.id}` === location.hash);
  if (index !== deck.at && reachable(index)) deck.go(index);
  else nameInAddress(data.slides[deck.at]); // no such slide, or one that is still closed
});

async function begin() {
  choosePalette(store.palette || "");
  byId("calm").checked = deck.calm;
  byId("bar").hidden = byId("size").hidden = false;
  for (const part of store.revealed || []) await deck.reveal(part);
  listSlides();
  const asked = data.slides.findIndex((slide) => `#${slide.id}` === location.hash);
  enter(reachable(asked) ? asked : 0, { focus: false });
}
begin();
