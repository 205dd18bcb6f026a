// The lesson, or the item by itself, built from the page: what is made, how far it is, where it is.
import { app } from "./app.js";
import { announce, button, h, redraw } from "./dom.js";
import { refusal, send } from "./sending.js";

const ASK_MS = 700;
const OUTPUTS = [
  ["page", "Page that learners handle"], ["slides", "Slides"], ["sheets", "Sheets to print"], ["clip", "Clip (takes some minutes)"],
];
const NAMES = Object.fromEntries(OUTPUTS.map(([key, words]) => [key, words.replace(/ \(.*/, "")]));
const STATES = { waiting: "to come", making: "being made", made: "made", kept: "there already, from the same files", "not made": "not made" };
const ENDS = { made: "It is built.", failed: "It could not be built.", stopped: "The build was stopped." };

const chosen = new Set(["page", "slides", "sheets"]);
let told = null, isChanged = true, isAsking = false, timer = 0;

const ask = async () => {
  if (isAsking) return;
  isAsking = true;
  const before = told?.state;
  try {
    const answer = await fetch("builds", { cache: "no-store" });
    if (answer.ok) told = await answer.json();
  } catch { /* told by the news */ }
  isAsking = false;
  if (before === "making" && told.state !== "making") announce(`${ENDS[told.state]} ${told.state === "made" ? `The files are in ${told.folder}.` : told.said.at(-1) ?? ""}`);
  isChanged = true;
  app.renderBelow();
  clearTimeout(timer);
  if (told?.state === "making") timer = setTimeout(ask, ASK_MS);
};

/** Whoever else began or ended a build: it is told with the news. */
export const takeBuilds = () => app.store.addEventListener("state", () => {
  if (app.store.tried === null) ask();
});

const begin = async () => {
  const answer = await send("build", { outputs: [...chosen] });
  if (!answer.done) announce(refusal(answer));
  else announce(`${answer.builds.of} is being built.`);
  ask();
};

const stop = async () => {
  await send("stop-build", {});
  announce("The build is being stopped.");
  ask();
};

const row = ({ output, state, files, done, total }) => h("li", {},
  h("b", {}, NAMES[output]), ` ${STATES[state]}`,
  state === "making" && total > 0 && h("progress", { max: total, value: done, "aria-label": `${NAMES[output]}, ${done} of ${total} parts` }),
  files.length > 0 && h("ul", {}, files.length > 6 ? h("li", {}, `${files.length} files`) : files.map((file) => h("li", {}, h("code", {}, file)))));

const buildPart = () => {
  const { state } = app.store, isMaking = told?.state === "making";
  const isReady = state.verdict.state === "sound" && state.file.saved;
  return h("section", { class: "part", "aria-label": "Build" }, h("h2", {}, "Build"),
    !isMaking && h("fieldset", { class: "outputs" }, h("legend", {}, "What is made"), OUTPUTS.map(([key, words]) =>
      h("label", { class: "tick" }, h("input", {
        type: "checkbox", "data-key": `output-${key}`, checked: chosen.has(key), onchange: (event) => {
          if (event.target.checked) chosen.add(key);
          else chosen.delete(key);
          isChanged = true;
          app.renderBelow();
        },
      }), words))),
    h("div", { class: "row" }, isMaking ? button("build-stop", "Stop building", stop)
      : button("build-go", "Build", begin, { class: "first", disabled: !isReady || !chosen.size })),
    !isReady && !isMaking && h("p", { class: "quiet" }, "It can be built as soon as the question is sound and in its file."),
    told && told.state === "none" && h("p", { class: "quiet" }, "It goes into ", h("code", {}, told.folder)),
    told && told.state !== "none" && [
      h("p", { class: told.state === "failed" ? "wrong" : "" }, isMaking ? `${told.of} is being built into ` : `${told.of}: ${ENDS[told.state]} The folder is `, h("code", {}, told.folder)),
      told.said.map((line) => h("p", { class: told.state === "failed" ? "wrong" : "quiet" }, line)),
      h("ul", { class: "made" }, told.outputs.map(row)),
    ]);
};

let seen = null;

/** Draw the part anew where anything of it is other than before. */
export const renderBuild = (part) => {
  const { state } = app.store, ready = `${state.verdict.state} ${state.file.saved}`;
  if (!isChanged && ready === seen) return;
  isChanged = false;
  seen = ready;
  redraw(part, buildPart());
};
