"use strict";
// Steps one at a time; when each was on the page is noted, and saved as a file at the end. Nothing leaves the page.
const sections = [...document.querySelectorAll("section[data-step]")];
const part = (id) => document.getElementById(id);
const words = document.body.dataset; // of the buttons, in the language of the lesson
const log = [];
let shown = -1; // -1 before the start, sections.length after the end
let began = 0;
let since = 0;
let saved = false;

const now = () => (performance.now() - began) / 1000;
const running = () => shown >= 0 && shown < sections.length;

function show(index) {
  const moment = now(); // one step ends when the next begins: the clock is read once
  if (running()) log[log.length - 1].end = moment;
  shown = index;
  since = running() ? moment : 0;
  if (running()) {
    const section = sections[index];
    const said = [...section.querySelectorAll(".words p")].map((line) => line.textContent).join(" ");
    log.push({ step: section.dataset.step, start: since, end: since, words: said });
  }
  sections.forEach((section, number) => { section.hidden = number !== index; });
  part("before").hidden = index >= 0;
  part("after").hidden = index < sections.length;
  part("again").disabled = part("back").disabled = index < 0;
  part("next").textContent = index < 0 ? words.start : running() ? words.next : words.save;
  const number = Math.min(Math.max(index + 1, 0), sections.length);
  part("count").textContent = words.count.replace("{number}", number).replace("{total}", sections.length);
  part("progress").value = Math.max(index, 0);
  tick();
  if (index >= sections.length) save();
}

function tick() {
  const left = running() ? Number(sections[shown].dataset.seconds) - (now() - since) : 0;
  part("left").textContent = running() ? words.left.replace("{seconds}", Math.ceil(left)) : "";
  part("left").className = left < 0 ? "over" : "";
}

function next() {
  if (shown < 0) began = performance.now();
  if (shown >= sections.length) save();
  else show(shown + 1);
}

// The same step once more, or the last one after the end: what was said before is not used.
function again() {
  if (shown >= 0) show(Math.min(shown, sections.length - 1));
}

function back() {
  if (shown >= 0) show(Math.max(Math.min(shown, sections.length) - 1, 0));
}

function save() {
  saved = true;
  const note = { about: words.about, lesson: words.lesson, steps: log };
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([JSON.stringify(note, null, 1)], { type: "application/json" }));
  link.download = `${words.lesson}.log.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

const keys = {
  " ": next, Enter: next, ArrowRight: next, ArrowDown: next, PageDown: next,
  a: again, A: again, r: again, R: again, ArrowLeft: back, ArrowUp: back, PageUp: back,
};
addEventListener("keydown", (event) => {
  const act = keys[event.key];
  if (!act || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault(); // or a key on a button would count twice
  act();
});
part("next").addEventListener("click", next);
part("again").addEventListener("click", again);
part("back").addEventListener("click", back);
document.querySelector("main").addEventListener("click", next);
addEventListener("beforeunload", (event) => { if (log.length && !saved) event.preventDefault(); });
setInterval(tick, 200);
show(-1);
