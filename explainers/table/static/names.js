// What stands over each outline: as much of its name as its neighbours leave room for.
import { capital, nameOf, pieces } from "./app.js";

const SIZE = 14; // pixels, as in the style of the page
const CLEAR = 8; // pixels before a neighbour
const pen = document.createElement("canvas").getContext("2d");
const known = new Map();

const wideOf = (words) => {
  if (!known.has(words)) {
    if (known.size > 500) known.clear();
    pen.font = `700 ${SIZE}px ${getComputedStyle(document.body).fontFamily}`;
    known.set(words, pen.measureText(words).width);
  }
  return known.get(words);
};

/** The longest first. */
const namesOf = (outline) => {
  if (outline === null) return ["Finished outline", "Finished"];
  if (outline.role !== "piece") return [capital(nameOf(outline).replace(/^the /i, ""))];
  const number = `${pieces().indexOf(outline) + 1}`, name = `${number} ${capital(outline.name || "piece")}`;
  return [`${name}: ${outline.does || "join or cut?"}`, name, number];
};

/** How far a name may reach before it runs into a frame on its right; names stand over their frames. */
const roomFor = (frame, frames, view) => {
  const [x, y] = view.toPixels([frame.box.left, frame.box.high]);
  return Math.min(Infinity, ...frames.filter((each) => each !== frame).map(({ box: b }) => {
    const [left, top] = view.toPixels([b.left, b.high]), [, low] = view.toPixels([b.right, b.low]);
    return left > x && top - 36 < y - 14 && y - 34 < low + 20 ? left - x - CLEAR : Infinity;
  }));
};

export const nameOver = (frame, frames, view) => {
  const names = namesOf(frame.outline), room = roomFor(frame, frames, view);
  return names.find((words) => wideOf(words) <= room) ?? names.at(-1);
};
