// What comes next, for somebody who draws: told by the program, begun by a button; and notes that stay until seen.
import { app, outlineOf } from "./app.js";
import { announce, button, h } from "./dom.js";
import { beginDraft } from "./draw.js";
import { beginMarrying } from "./marry.js";

const begin = (todo) => {
  const piece = todo.piece ? outlineOf(todo.piece) : null;
  if (todo.does === "draw-base") beginDraft("base");
  else if (todo.does === "draw-piece") beginDraft(piece ? { redraw: piece.field } : "piece");
  else if (todo.does === "marry") {
    app.selected = piece ? { id: piece.id, kind: "outline", hole: null, n: null } : app.selected;
    beginMarrying(null);
  } else if (todo.does === "make-options") {
    return app.store.edit({ do: "make-options", make: 4, seed: 1 })
      .then((told) => told.done && announce("Five options are made: the right one and four slips."));
  }
  app.drawNow();
  document.getElementById("paper").querySelector(".cursor-hit, .hit[tabindex='0']")?.focus({ preventScroll: true });
  document.getElementById("paper").scrollIntoView({ block: "nearest" });
  return undefined;
};

/** What is still to be done, each with the button that begins it; the first one is the next. */
export const todoPart = () => {
  const { todo } = app.store.now;
  return todo.length > 0 && h("div", { class: "todo" }, h("h3", {}, "Still to do"),
    h("ol", {}, todo.map((each, n) => h("li", {},
      each.ready ? button(`todo-${n}`, each.words, () => begin(each), n === 0 ? { class: "first" } : {}) : h("p", {}, each.words)))));
};

/** The one that comes next, beside the paper. */
export const nextPart = () => {
  const next = app.store.now.todo.find((each) => each.ready);
  return !app.draft && app.tool !== "marry" && next ? h("p", { class: "next" }, `Next: ${next.how}`) : null;
};

/** Something happened besides what was asked for: told where the eyes are, until it has been seen. */
export const noteDown = (words) => {
  app.notes = [...app.notes.filter((each) => each !== words), words].slice(-4);
  setTimeout(() => announce(words), 60);
  app.render();
};

export const notesPart = () => app.notes.length > 0 && h("div", { class: "ask notes", role: "group", "aria-label": "What happened besides" },
  app.notes.map((words) => h("p", {}, words)),
  button("notes-seen", app.notes.length === 1 ? "Seen" : "All seen", () => {
    app.notes = [];
    app.render();
  }));

const OF_A_PIECE = /^pieces\[(\d+)\]/, OF_AN_OPTION = /^options\[(\d+)\]/;
const called = (at) => {
  const piece = OF_A_PIECE.exec(at), option = OF_AN_OPTION.exec(at);
  if (piece) return `the ${app.store.state.outlines.find((each) => each.field === `pieces[${piece[1]}]`)?.name || "piece"}`;
  return option ? `option ${"ABCDEF"[Number(option[1])] ?? Number(option[1]) + 1}` : at === "base" ? "the base" : "the outline";
};

/** The notes of an answer in words. */
export const takeNotes = (notes) => {
  const renamed = notes.filter((each) => each.note === "renamed");
  for (const note of notes) {
    if (note.note === "became-corners") {
      noteDown(`${note.was === "walk" ? "The walk" : "The ready outline"} of ${called(note.field)} has become corners: from now on the file lists them. Undo brings it back.`);
    }
  }
  if (renamed.length) {
    noteDown(`The name ${renamed[0].name} stands now wherever the piece is named: ${[...new Set(renamed.map((each) => called(each.field)))].join(", ")}.`);
  }
};
