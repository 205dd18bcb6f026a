// What stands in the page: words, slides, shapes, figures, and the parts that are opened later.

const extras = []; // each {wants(moment), enter(moment, place, deck), leave()}; a moment has its slide's id and chapter

const byId = (id) => document.getElementById(id);
const data = JSON.parse(byId("open").textContent);
const shapes = [];
const figures = [];

function keepPart(part) {
  part.shapes.forEach((shape, i) => { shapes[part.firstShape + i] = shape; });
  part.figures.forEach((figure, i) => { figures[part.firstFigure + i] = figure; });
}
keepPart(data);

// What is remembered while this window is open; a browser that keeps nothing for files is no hindrance.
const kept = `deck ${data.lesson} ${data.slides.length}`;
// Chromium on a busy machine may lose the session's storage of a file that is loaded again; its history it keeps.
function remembered() {
  try {
    return JSON.parse(sessionStorage.getItem(kept)) || history.state?.[kept] || {};
  } catch {
    return history.state?.[kept] || {};
  }
}

const CALM_MS = 250; // browsers refuse a history that changes with each repeat of a key
let later = 0;
function keepInHistory() {
  clearTimeout(later);
  later = setTimeout(() => {
    try { history.replaceState({ [kept]: deck.store }, ""); } catch { /* framed by a page that keeps its history */ }
  }, CALM_MS);
}

async function unpacked(text) {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return JSON.parse(await new Response(stream).text());
}

function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") made.addEventListener(name, value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
}

const opened = new Map(); // part number -> promise of its data

const deck = {
  words: data.words,
  slides: data.slides,
  title: data.title,
  at: 0,
  onNext: null,
  onSlide: [], // each is called with a slide as soon as it is come to, before anything moves
  onRun: [], // each is called with the moments of a run as soon as it begins
  store: remembered(),
  keep() {
    keepInHistory();
    try { sessionStorage.setItem(kept, JSON.stringify(deck.store)); } catch { /* kept for this page alone */ }
  },
  element,
  filled(key, values) {
    return data.words[key].replace(/\{(\w+)\}/g, (whole, name) => (name in values ? String(values[name]) : whole));
  },
  say(text) {
    const live = byId("live");
    live.textContent = live.textContent === text ? `${text}\u00a0` : text; // the same words again are said again
  },
  open(part) {
    if (!opened.has(part)) {
      opened.set(part, unpacked(byId(`part-${part}`).textContent).then((found) => {
        keepPart(found);
        return found;
      }).catch(() => {
        opened.delete(part);
        byId("hint").replaceChildren(element("span", { role: "alert" }, data.words.cannot_open));
        return new Promise(() => {}); // whoever waits for it goes no further
      }));
    }
    return opened.get(part);
  },
  async reveal(part) {
    const found = await deck.open(part);
    for (const [index, slide] of found.slides) data.slides[index] = slide;
    deck.store.revealed = [...new Set([...(deck.store.revealed || []), part])];
    deck.keep();
    listSlides();
    showPlace();
  },
};
