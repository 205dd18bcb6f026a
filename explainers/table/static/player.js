// One step large, and moving as it does in the clip; who wants less motion sees how it begins and how it ends.
import { button, h } from "./dom.js";
import { LEAD_MS, REST_MS, deck, filled, staged } from "./engine.js";
import { refusal, send } from "./sending.js";

const lessMotion = matchMedia("(prefers-reduced-motion: reduce)");

let steps = [], at = 0;
let motion = null; // what the step shows, see outputs/html/engine.py
let parts = []; // each motion with when it begins, in ms
let total = 0, now = 0, isPlaying = false, turn = 0;
let stage = null; // the motion that is in the picture: {number, show}

const dialog = h("dialog", { id: "player", "aria-labelledby": "player-heading" });
const heading = h("h2", { id: "player-heading", tabindex: "-1" });
const said = h("p", { class: "player-said", "aria-live": "polite" });
const place = h("p", { class: "quiet", role: "status" }); // the line of the page is out of reach meanwhile
const play = button("player-play", "", () => (lessMotion.matches ? jump() : isPlaying ? pause() : start()));
const far = h("input", {
  type: "range", min: 0, max: 1000, value: 0, "aria-label": "How far the motion is", oninput: () => {
    const part = far.value / 1000; // before it is told how far the motion is
    pause();
    seek(part * total);
  },
});
const back = button("player-back", "Step before", () => show(at - 1));
const on = button("player-on", "Next step", () => show(at + 1));
dialog.append(
  h("div", { class: "player-head" }, heading, button("player-close", "Close", () => dialog.close())),
  h("div", { class: "player-room" }, deck.svg), said, place,
  h("div", { class: "row player-motion" }, play, h("label", { class: "field" }, far)),
  h("div", { class: "row" }, back, on),
);
deck.svg.setAttribute("role", "img");
document.body.append(dialog);
dialog.addEventListener("close", () => {
  pause();
  document.querySelector(`[data-key="${CSS.escape(`still-${steps[at]?.id}`)}"]`)?.focus();
});
dialog.addEventListener("click", (event) => {
  if (event.target === dialog) dialog.close(); // beside it
});

const named = () => {
  const isOver = now >= total;
  play.textContent = lessMotion.matches ? (isOver ? "Show the start" : "Show the end") : isPlaying ? "Pause" : isOver && total ? "Play again" : "Play";
  far.value = String(total ? Math.round((now / total) * 1000) : 0);
  far.setAttribute("aria-valuetext", `${(now / 1000).toFixed(1)} of ${(total / 1000).toFixed(1)} seconds`);
};

/** Show what is seen at a time of the step. */
const seek = (ms) => {
  now = Math.min(Math.max(0, ms), total);
  const number = parts.findLastIndex((each) => now >= each.start);
  const part = parts[number];
  if (!part) {
    stage = null;
    deck.show(motion.before);
  } else if (now >= part.end) {
    stage = null;
    deck.show(part.motion.to);
  } else {
    if (stage?.number !== number) stage = { number, show: staged(part.motion) };
    stage.show((now - part.start) / (part.end - part.start));
  }
  named();
};

const pause = () => {
  isPlaying = false;
  turn += 1;
  named();
};

const start = () => {
  if (now >= total) seek(0);
  isPlaying = true;
  const mine = ++turn;
  let last = performance.now();
  const next = (time) => {
    if (mine !== turn || !dialog.open) return;
    seek(now + Math.max(0, time - last));
    last = time;
    if (now < total) requestAnimationFrame(next);
    else pause();
  };
  named();
  requestAnimationFrame(next);
};

const jump = () => {
  seek(now >= total ? 0 : total);
  place.textContent = now ? "So the step ends." : "So the step begins.";
};

const show = async (n) => {
  pause();
  at = n;
  const step = steps[n], mine = ++turn;
  place.textContent = "";
  heading.textContent = `${n + 1}. ${step.heading}`;
  said.textContent = step.said;
  back.disabled = n === 0;
  on.disabled = n === steps.length - 1;
  const told = await send("motion", { key: step.key });
  if (mine !== turn || !dialog.open) return;
  if (!told.done) {
    said.textContent = refusal(told);
    return;
  }
  motion = told.motion;
  parts = [];
  total = 0;
  motion.motions.forEach((each, number) => {
    const begin = total + (number ? REST_MS : LEAD_MS);
    total = begin + each.seconds * 1000;
    parts.push({ motion: each, start: begin, end: total });
  });
  filled(motion);
  stage = null;
  dialog.querySelector(".player-motion").hidden = !total;
  far.closest("label").hidden = lessMotion.matches;
  seek(lessMotion.matches ? total : 0);
  if (!total) deck.show(motion.after);
  else if (!lessMotion.matches) start();
};

export const openPlayer = (all, n) => {
  steps = all;
  deck.svg.replaceChildren();
  dialog.querySelector(".player-motion").hidden = true;
  dialog.showModal();
  heading.focus();
  show(n);
};
