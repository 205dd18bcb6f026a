// What has to be said where one is looking: in a box beside the outline on the paper.
import { app, drawnOf } from "./app.js";
import { s } from "./dom.js";

const LETTER = 7.6; // pixels, about

const FORMER = { walk: "walk", ready: "ready outline" };

/** What is to be said of an outline just now. */
const wordsFor = (frame) => {
  const before = drawnOf(app.store.state).find((each) => each.id === frame.id);
  if (app.drag?.kind === "corner" && app.drag.id === frame.id && FORMER[before?.given]) return `The ${FORMER[before.given]} becomes corners`;
  return app.noted?.field === frame.outline?.field || app.noted?.field?.startsWith(`${frame.outline?.field}.`) ? app.noted.words : "";
};

/** It is told what has become of a field. */
export const noteChange = (notes) => {
  const note = (notes ?? []).find((each) => each.note === "became-corners");
  app.noted = note ? { field: note.field, words: `The ${FORMER[note.was]} has become corners` } : null;
};

export const notesHere = (frames, view) => frames.filter((frame) => frame.outline).flatMap((frame) => {
  const words = wordsFor(frame);
  if (!words) return [];
  const wide = words.length * LETTER + 18, [left] = view.toPixels([frame.box.left, 0]), [, high] = view.toPixels([0, frame.box.high]);
  const x = Math.max(4, Math.min(view.width - wide - 4, left - 8)), y = Math.max(4, high - 74);
  return [s("g", { class: "note-here" }, s("rect", { x, y, width: wide, height: 28, rx: 6 }), s("text", { x: x + 9, y: y + 19 }, words))];
});
