// What the program says of the question: where the file is, the verdict, faults and warnings, the sheet.
import { app, capital } from "./app.js";
import { announce, button, h } from "./dom.js";
import { acceptedPart, mendsOf, missingFields, offersOf, remarksPart } from "./mends.js";
import { todoPart } from "./next.js";
import { sheetWithGrips } from "./sheet_grips.js";

const STATES = { sound: ["✓ Sound", "right"], unsound: ["✗ Not sound", "wrong"], refused: ["Not finished yet", "doubt"] };

const section = (name, title, ...content) => h("section", { class: `part ${name}`, "aria-label": title }, h("h2", {}, title), content);

const settled = (keep, words) => app.store.answer(keep).then((told) => {
  if (!told.done) return;
  announce(words);
  document.querySelector('[data-key="tool-select"]')?.focus({ preventScroll: true }); // what was pressed is gone
});

/** Asked when the file is another than was seen. */
export const bannerPart = () => {
  const { file } = app.store.state, other = file.other;
  const told = [];
  if (!app.store.online) told.push(h("p", { class: "wrong" }, "The program has stopped or cannot be reached. What you see is the last that it told; nothing can be changed until it answers."));
  if (file.failed) told.push(h("p", { class: "wrong" }, `The file cannot be written: ${file.failed}`));
  if (other) {
    const why = {
      clash: `${file.name} was changed elsewhere in the same place as here.`,
      unreadable: `${file.name} cannot be read just now${other.fault ? `: ${other.fault}` : ""}.`,
      gone: `${file.name} is no longer there.`,
    }[other.why];
    told.push(h("p", {}, h("b", {}, why), " It is left alone until you answer."),
      h("ul", {}, other.clashes.map((each) => h("li", {}, h("code", {}, each.field), " here: ", h("code", {}, each.ours.text ?? "nothing"), "; in the file: ", h("code", {}, each.theirs.text ?? "nothing")))),
      h("div", { class: "row" },
        button("keep-ours", other.why === "gone" ? "Write the file again" : "Keep what is on this page", () => settled("ours", "What is on this page is kept."), { class: "first" }),
        other.has_text && button("keep-theirs", "Take what is in the file", () => settled("theirs", "What is in the file is taken. Undo brings back what was here."))));
  }
  return told.length ? h("section", { class: "banner", "aria-label": "About the file", tabindex: -1 }, told) : null;
};

export const fileLine = () => {
  const { file } = app.store.state;
  const where = file.other ? "left alone until you answer" : file.saved ? "saved" : "kept in its journal";
  return [h("b", {}, file.name), ` · ${where}`];
};

export const verdictPart = () => {
  const state = app.store.now, { verdict } = state, [words, kind] = STATES[verdict.state];
  return section("verdict", "Verdict",
    h("p", { class: `state ${kind}` }, words, verdict.key ? ` · key ${verdict.key}` : "", state.pause_s ? ` · pause ${Math.round(state.pause_s)} s` : ""),
    verdict.state !== "sound" && verdict.because.map((line) => h("p", {}, line)),
    offersOf(mendsOf("verdict", null), "verdict"),
    todoPart(),
    remarksPart(),
    acceptedPart(),
    proofPart(state));
};

const proofPart = (state) => {
  const later = app.store.later;
  const lines = verdict(state).concat(later?.certificate ?? []);
  return lines.length ? h("details", { "data-key": "proof" }, h("summary", { "data-key": "proof-open" }, "The proof"), lines.map((line) => h("p", {}, line))) : null;
};

const verdict = (state) => (state.verdict.state === "sound" ? state.verdict.because : []);

export const sheetPart = (turns) => {
  const { sheet } = app.store.now;
  return section("sheet", "The sheet, as learners see it",
    sheet ? h("div", { class: "on-paper" }, sheetWithGrips(document.getElementById("sheet").clientWidth - 40)) : h("p", { class: "quiet" }, "It is shown as soon as the question can be solved."),
    turns);
};

/** The title and the text of the file. */
export const textPart = () => {
  const { state } = app.store, fields = new Set(missingFields());
  const missing = state.faults.filter((each) => fields.has(each.field));
  return section("text", "The file",
    state.readable && h("label", { class: "field" }, h("span", {}, "Title"), h("input", {
      "data-key": "title", value: state.title, autocomplete: "off",
      onchange: (event) => app.store.edit({ do: "set", at: "title", value: event.target.value.trim() || null }).then((told) => told.done && announce("The title is changed.")),
    })),
    h("details", { "data-key": "text-part", open: !state.readable }, h("summary", { "data-key": "text-open" }, "Its text"),
      missing.length > 0 && h("ul", {}, missing.map((each) => h("li", {}, `${each.line ? `line ${each.line}: ` : ""}${capital(each.message)}. ${capital(each.fix)}.`))),
      h("label", { class: "field tall" }, h("span", {}, "The text of the file"), h("textarea", { "data-key": "text", rows: 14, spellcheck: "false" }, state.text)),
      button("use-text", "Use this text", (event) => app.store.text(event.target.closest("details").querySelector("textarea").value).then((told) => told.done && announce("The text is taken.")))));
};
