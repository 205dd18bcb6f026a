// Going from slide to slide, and from moment to moment of a slide: buttons and keys.
// A run is the moments from one stop to the next: they play one after another, and their words stand together.

const store = deck.store;
const lessMotion = matchMedia("(prefers-reduced-motion: reduce)");
let entered = []; // the extras at work, while the picture stands still
let run = { first: 0, last: 0 }; // the moments that are told now
let current = 0; // the moment that is shown
let isPlaying = false;

Object.defineProperty(deck, "calm", { get: () => (store.calm === undefined ? lessMotion.matches : store.calm) });

const reachable = (index) => index >= 0 && index < data.slides.length && !data.slides[index].closed;
const momentsNow = () => data.slides[deck.at].moments;

function runFrom(moments, first) {
  const stop = moments.findIndex((moment, number) => number >= first && moment.stop);
  return { first, last: stop < 0 ? moments.length - 1 : stop };
}

// The runs of a slide, as the places where each starts.
function starts(moments) {
  const found = [];
  for (let first = 0; first < moments.length; first = runFrom(moments, first).last + 1) found.push(first);
  return found;
}

function showPlace() {
  byId("place").textContent = deck.filled("position", { number: deck.at + 1, count: data.slides.length });
  byId("sewn").style.width = `${(100 * (deck.at + 1)) / data.slides.length}%`;
  byId("back").disabled = deck.at === 0 && run.first === 0;
  // Where nothing comes any more, a button that goes on would seem dead.
  byId("next").disabled = deck.at === data.slides.length - 1 && run.last === momentsNow().length - 1;
  byId("again").hidden = deck.calm || !told().some((moment) => moment.motions);
}

const told = () => momentsNow().slice(run.first, run.last + 1);

function paragraphsOf(moment, mark) {
  const lines = moment.said.map((sentence) => element("p", {}, `${sentence} `));
  if (mark && lines.length) lines[0].prepend(element("b", { class: "which" }, `${mark} `));
  if (moment.own && lines.length) lines.push(element("p", { class: "whose" }, `(${deck.words.own_words})`));
  return lines;
}

// The words of a run; what is not yet shown keeps its place, so that nothing moves when it is said.
function sayRun() {
  const moving = told().filter((moment) => moment.motions);
  byId("said").replaceChildren(...told().map((moment, number) => {
    const mark = moving.length > 1 && deck.calm && moving.includes(moment) ? `${moving.indexOf(moment) + 1}` : "";
    return element("div", { class: "moment", "data-moment": run.first + number }, ...paragraphsOf(moment, mark));
  }));
}

function begun(number) {
  const moment = momentsNow()[number];
  current = number;
  deck.layOut(data.slides[deck.at], moment);
  byId("heading").textContent = moment.heading;
  document.title = `${moment.heading} – ${data.title}`;
  for (const words of byId("said").children) words.classList.toggle("to-come", Number(words.dataset.moment) > number);
}

function leaveExtras() {
  for (const extra of entered) extra.leave();
  entered = [];
  deck.onNext = null;
  deck.takesKeys = null;
  deck.offer(null);
  deck.hint("");
  byId("doing").replaceChildren();
  byId("over").replaceChildren();
  byId("later").replaceChildren();
}

// The last picture of the run, and what may be done with it.
function stand() {
  isPlaying = false;
  const slide = data.slides[deck.at];
  const moment = momentsNow()[run.last];
  leaveExtras();
  begun(run.last);
  deck.show(moment.figure);
  const doable = { ...moment, id: slide.id, chapter: slide.chapter };
  for (const extra of extras) {
    if (!extra.wants(doable)) continue;
    const place = element("div");
    byId("doing").append(place);
    entered.push(extra);
    extra.enter(doable, place, deck);
  }
}

function nameInAddress(slide) {
  try { history.replaceState(history.state, "", `#${slide.id}`); } catch { /* framed by a page that keeps its address */ }
}

function tell(first, { play = true, focus = true } = {}) {
  leaveExtras();
  run = runFrom(momentsNow(), first);
  sayRun();
  byId("views").replaceChildren();
  begun(run.first);
  if (play && !deck.calm) deck.play(laidBy(first));
  else stand();
  if (deck.calm) offerStills();
  showPlace();
  for (const heard of deck.onRun) heard(told());
  if (focus) {
    byId("heading").focus({ preventScroll: true });
    scrollTo(0, 0);
  }
}

// Whoever has laid a piece by hand need not see it laid: the number of the first moment that is still to be seen.
function laidBy(first) {
  const before = momentsNow()[first - 1];
  const done = before?.handling && (store.handled || {})[data.slides[deck.at].id]?.done;
  return done ? Math.min(before.handling.until + 1, run.last) : run.first;
}

function enter(index, { atEnd = false, ...how } = {}) {
  const slide = data.slides[index];
  deck.at = index;
  byId("chapter").textContent = slide.chapter;
  tell(atEnd ? starts(slide.moments).at(-1) : 0, how);
  store.at = index;
  store.seen = [...new Set([...(store.seen || []), index])];
  deck.keep();
  nameInAddress(slide);
  for (const each of deck.onSlide) each(slide);
}

// Where nothing moves: what a run starts from, and what each of its moments comes to.
function offerStills() {
  const moving = told().filter((moment) => moment.motions);
  if (!moving.length) return;
  const before = [deck.words.before, moving[0].before, moving[0], "before_picture", ""];
  const stills = moving.length === 1
    ? [before, [deck.words.after, moving[0].figure, moving[0], "after_picture", ""]]
    : [before, ...moving.map((moment, i) => [`${i + 1}`, moment.figure, moment, "after_picture", `${i + 1}: ${moment.heading}`])];
  const buttons = stills.map(([text, figure, moment, key, name], number) => element("button", {
    type: "button",
    "aria-pressed": String(number === stills.length - 1),
    "aria-label": name || null,
    click(event) {
      if (number === stills.length - 1) stand();
      else {
        leaveExtras();
        if (!(key === "before_picture" && moment.elsewhere)) deck.layOut(data.slides[deck.at], moment);
        deck.show(figure);
      }
      for (const button of buttons) button.setAttribute("aria-pressed", String(button === event.currentTarget));
      deck.say(deck.filled(key, { text: figures[figure][0] }));
    },
  }, text));
  byId("views").replaceChildren(...buttons);
}

Object.assign(deck, {
  takesKeys: null, // what may use a key before it turns a slide: says whether it has
  go(index) { if (reachable(index)) enter(index); },
  back() {
    const earlier = starts(momentsNow()).filter((first) => first < run.first);
    if (earlier.length) return tell(earlier.at(-1), { play: false });
    let index = deck.at - 1;
    while (index > 0 && !reachable(index)) index -= 1;
    if (reachable(index)) enter(index, { play: false, atEnd: true });
  },
  next() {
    if (deck.onNext !== null && deck.onNext()) return;
    deck.ahead();
  },
  // What is still to come of the slide, then the next one.
  ahead() {
    if (isPlaying && current < run.last) stand(); // whoever is in a hurry sees and reads the rest of the run at least
    else if (run.last + 1 < momentsNow().length) tell(run.last + 1);
    else if (deck.at === data.slides.length - 1) deck.hint(deck.words.last, true);
    else if (reachable(deck.at + 1)) enter(deck.at + 1);
    else offerPart(data.slides[deck.at + 1].part);
  },
  tool(text, action) {
    const button = element("button", { type: "button", click: action }, text);
    byId("tools").append(button);
    return button;
  },
  // The moments of the run one after another, then its last picture.
  async play(first = run.first) {
    leaveExtras();
    const mine = run;
    isPlaying = true;
    for (let number = first; number <= mine.last; number += 1) {
      begun(number);
      const moment = momentsNow()[number];
      const since = performance.now();
      const skips = stacked !== null && moment.elsewhere;
      if (!skips && !(await playMotions(moment.motions || []))) return;
      if (number === mine.last) break;
      if (!momentsNow()[number + 1].motions) continue; // it needs no waiting for: nothing moves away
      deck.show(moment.figure);
      if (!(await rest(moment.seconds * 1000 - (performance.now() - since)))) return;
    }
    if (run === mine) stand();
  },
});

// Where no choice stands in the slide, whoever goes on may ask for what is closed.
function offerPart(part) {
  const open = async () => {
    await deck.reveal(part);
    deck.go(deck.at + 1);
  };
  deck.offer({ text: deck.words.reveal, act: open });
  deck.hint(deck.words.sealed, true);
  byId("next").focus();
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
  if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || document.querySelector("dialog[open]")) return;
  if (event.target.closest("[type=radio], textarea, [type=text], [contenteditable]")) return;
  if (deck.takesKeys?.(event)) return event.preventDefault();
  if (event.shiftKey || event.target.closest("[data-keys]")) return;
  if (event.key in KEYS) {
    event.preventDefault();
    KEYS[event.key]();
  }
});

byId("back").addEventListener("click", () => deck.back());
byId("again").addEventListener("click", () => tell(run.first));
narrow.addEventListener("change", () => tell(run.first, { play: false, focus: false }));
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
