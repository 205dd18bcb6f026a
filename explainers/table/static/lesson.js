// The lesson below the drawing: its steps as a strip of stills, their words, the file where these stand.
import { app, capital } from "./app.js";
import { announce, button, choice, h, redraw } from "./dom.js";
import { openPlayer } from "./player.js";
import { refusal, send } from "./sending.js";

const QUIET_MS = 150; // after a change, before the steps are asked for

let strip = null; // the last that was told
let asked = null; // the state for which it was asked
let isAsking = false, isInView = false, isChanged = true;
let editing = null; // the words that are being changed: {step, was, from, draft, theirs}
let quiet = 0, mended = null;
const stills = new Map(); // by key, so that a still that stays is not loaded again

const changed = () => {
  isChanged = true;
  app.renderBelow();
};

const ask = async () => {
  const { state } = app.store;
  if (isAsking || !isInView || !state || asked === state) return;
  isAsking = true;
  asked = state;
  changed();
  try {
    const answer = await fetch("strip", { cache: "no-store" });
    if (answer.ok) strip = await answer.json();
  } catch { /* told by the news */ }
  isAsking = false;
  if (mended) tellMended();
  changed();
  if (asked !== app.store.state) askSoon();
};

const askSoon = () => {
  clearTimeout(quiet);
  quiet = setTimeout(ask, QUIET_MS);
};

/** Ask for the steps whenever there is something new, as long as they are in sight. */
export const takeLesson = (part) => {
  new IntersectionObserver((seen) => {
    isInView = seen.at(-1).isIntersecting;
    ask();
  }, { rootMargin: "150px" }).observe(part);
  app.store.addEventListener("state", () => {
    if (app.store.state !== asked) askSoon();
  });
};

const askAgain = () => {
  asked = null;
  return ask();
};

const still = (step) => {
  if (!stills.has(step.key)) {
    stills.set(step.key, h("img", { src: `still/${step.key}`, alt: "", loading: "lazy", width: 320, height: 163 }));
  }
  return stills.get(step.key);
};

const save = async (step, said, was) => {
  const told = await send("words", { lesson: strip.lesson, step: step.id, said, was });
  if (told.why === "clash") {
    editing = { ...editing, theirs: told.theirs };
    announce("Others have changed these words meanwhile. Choose which are to stay.");
    changed();
    return;
  }
  if (!told.done) {
    announce(refusal(told));
    return;
  }
  mended = { id: step.id, file: strip.lesson, said };
  Object.assign(step, { own: said, said: said || step.said, warnings: [] }); // until it is told anew
  stop(step);
  askAgain();
};

const tellMended = () => {
  const step = strip?.steps.find((each) => each.id === mended.id);
  if (!step || step.own !== mended.said) return; // told when it is there
  const warned = step.warnings.map((each) => `Look at it again: ${each.message}.`).join(" ");
  announce(`${mended.said ? `The words are in ${mended.file}.` : "The program's own words are back."} ${warned}`.trim());
  mended = null;
};

/** Go to a control as soon as it is drawn. */
const focusOn = (key, tries = 30) => requestAnimationFrame(() => {
  const found = isChanged ? null : document.querySelector(`[data-key="${CSS.escape(key)}"]`);
  if (found) {
    found.closest(".step")?.scrollIntoView({ block: "nearest", inline: "nearest" });
    found.focus();
  } else if (tries) focusOn(key, tries - 1);
});

const stop = (step) => {
  editing = null;
  changed();
  focusOn(`words-${step.id}`);
};

const wordsOf = (step, n) => {
  const name = `Step ${n + 1}`;
  if (editing?.step !== step.id) {
    return [
      h("p", { class: "said" }, step.said || h("i", { class: "quiet" }, step.pause_s ? `${Math.round(step.pause_s)} s to try: nothing is said` : "Nothing is said.")),
      step.warnings.map((each) => h("p", { class: "wrong" }, `Warning: ${each.message}. ${capital(each.fix)}.`)),
      strip.lesson && h("div", { class: "row" },
        button(`words-${step.id}`, step.own ? "Change your words" : "Change the words", () => {
          editing = { step: step.id, was: step.own, from: step.said, draft: step.said, theirs: null };
          changed();
          focusOn(`said-${step.id}`);
        }, { "aria-label": `${name}: change the words` }),
        step.own && h("span", { class: "badge" }, "yours")),
    ];
  }
  const text = h("textarea", {
    "data-key": `said-${step.id}`, rows: 7, maxlength: 1000, "aria-label": `${name}: its words`, oninput: (event) => {
      editing.draft = event.target.value; // kept where the step goes for a moment, or is drawn anew
    }, onkeydown: (event) => {
      if (event.key === "Escape") stop(step);
      else if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) done();
      else return;
      event.preventDefault();
    },
  }, editing.draft);
  const done = () => {
    const said = editing.draft.trim().replace(/\s+/g, " ");
    if (said === editing.from && editing.theirs === null) stop(step);
    else save(step, said, editing.was);
  };
  return [
    text,
    editing.theirs !== null && h("div", { class: "ask" },
      h("p", {}, editing.theirs ? `Others wrote meanwhile: ${editing.theirs}` : "Others have put the program's own words back meanwhile."),
      h("div", { class: "row" },
        button(`mine-${step.id}`, "Keep mine", () => save(step, editing.draft.trim().replace(/\s+/g, " "), editing.theirs), { class: "first" }),
        button(`theirs-${step.id}`, "Take theirs", () => {
          stop(step);
          askAgain();
        }))),
    editing.theirs === null && h("div", { class: "row" },
      button(`save-${step.id}`, "Save", done, { class: "first" }),
      button(`stop-${step.id}`, "Leave as it was", () => stop(step)),
      step.own && button(`own-${step.id}`, "The program's own", () => save(step, "", editing.was))),
    h("p", { class: "quiet" }, "Empty brings back the program's own words."),
  ];
};

const card = (step, n) => h("li", { class: "step" },
  button(`still-${step.id}`, still(step), () => openPlayer(strip.steps, n), {
    class: "still", "aria-label": `Step ${n + 1}, ${step.heading}: show it large${step.moves ? " and moving" : ""}`,
  }),
  h("h3", {}, `${n + 1}. ${step.heading}`, step.moves && h("span", { class: "quiet", "aria-hidden": "true" }, " ▶")),
  wordsOf(step, n));

const chooseLesson = async (name) => {
  const told = await send("lesson", { lesson: name });
  if (!told.done) announce(refusal(told));
  else announce(name ? `The lesson ${name} is shown.` : "The item is shown by itself.");
  editing = null;
  await askAgain();
};

const makeLesson = async () => {
  const told = await send("new-lesson", { name: strip.offer });
  await askAgain();
  announce(told.done ? `${told.lesson} is made. Its words can be changed now.` : refusal(told));
  if (told.done) focusOn("lesson-shown");
};

const headPart = () => [
  h("h2", {}, "The lesson, step by step"),
  strip && h("div", { class: "row" },
    strip.lessons.length > 0 && choice("lesson-shown", "Shown in", [...strip.lessons.map((name) => [name, name]), ["", "the item by itself"]], strip.lesson, chooseLesson),
    !strip.lesson && strip.steps.length > 0 && h("p", { class: "quiet grow" }, "Words of your own stand in a lesson's file. "),
    !strip.lesson && strip.steps.length > 0 && button("new-lesson", `Make a lesson of it: ${strip.offer}`, makeLesson, { disabled: !app.store.state.file.saved })),
];

const stepsPart = () => {
  const { state } = app.store;
  if (!strip || (state.verdict.state !== "sound" && !strip.steps.length)) {
    return [headPart(), h("p", { class: "quiet" }, state.verdict.state === "sound" ? "One moment." : "It is shown as soon as the question is sound.")];
  }
  return [
    headPart(),
    strip.why.map((line) => h("p", { class: "wrong" }, line)),
    strip.gone.map((each) => h("p", { class: "wrong" }, `Warning: ${each.field}: ${each.message}. ${capital(each.fix)}.`)),
    strip.steps.length > 0 && h("ol", { class: "strip", "aria-label": "Steps" }, strip.steps.map(card)),
  ];
};

/** Draw the strip anew where anything of it is other than before. */
export const renderLesson = (part) => {
  if (!isChanged) return;
  isChanged = false;
  const row = part.querySelector(".strip"), left = row?.scrollLeft ?? 0;
  // What has the focus below stays where it is, however much higher the strip becomes.
  const focus = document.activeElement, isBelow = focus && part.compareDocumentPosition(focus) === Node.DOCUMENT_POSITION_FOLLOWING;
  const top = isBelow ? focus.getBoundingClientRect().top : 0;
  redraw(part, h("section", { class: "part", "aria-label": "The lesson", "aria-busy": String(isAsking) }, stepsPart()));
  const now = part.querySelector(".strip");
  if (now) now.scrollLeft = left;
  if (isBelow) scrollBy({ top: focus.getBoundingClientRect().top - top, behavior: "instant" });
  const keys = new Set(strip?.steps.map((each) => each.key));
  for (const key of stills.keys()) if (!keys.has(key)) stills.delete(key);
};
