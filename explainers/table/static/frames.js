// Where each outline stands on the paper: the base in its own coordinates, pieces and the finished outline beside it.
import { app, drawnOf } from "./app.js";
import { box, wholeShift } from "./plane.js";
import { isOver, isUnder } from "./underlay.js";

const GAP = 1.5; // steps of the paper between frames
const ROW = 16; // steps, beside the base, before a next row begins

const apart = (a, b, gap) =>
  a.right + gap <= b.left || b.right + gap <= a.left || a.high + gap <= b.low || b.high + gap <= a.low;

const shifted = (b, [x, y]) => ({ left: b.left + x, right: b.right + x, low: b.low + y, high: b.high + y });

const freeShift = (shape, taken, start, rowEnd, gap, step) => {
  for (let row = 0; row < 60; row += 1) {
    for (let x = start[0]; x <= rowEnd; x += step) {
      const shift = wholeShift([x - shape.left, start[1] - row * step - shape.low], app.paper);
      const there = shifted(shape, shift);
      if (taken.every((each) => apart(each, there, gap))) return shift;
    }
  }
  return wholeShift([start[0] - shape.left, start[1] - 70 * step - shape.low], app.paper);
};

/** Every outline that there is to be seen: {id, outline, ring, holes, shift, box}. */
export const framesOf = (state, still) => {
  const step = app.paper.spacing, gap = GAP * step, taken = [], frames = [];
  const drawn = drawnOf(state).filter((each) => each.corners.length > 0);
  const base = drawn.find((each) => each.role !== "piece" && each.role !== "option");
  const first = base ? box(base.corners) : { left: 0, right: 0, low: 0, high: 0 };
  const place = (id, shape, start, rowEnd) => {
    if (!app.homes.has(id) && app.homes.has("new") && id !== "result") { // where it was just drawn
      app.homes.set(id, app.homes.get("new"));
      app.homes.delete("new");
    }
    let shift = app.homes.get(id);
    const fits = shift && taken.every((each) => apart(each, shifted(shape, shift), gap / 2));
    if (!shift || (!fits && !still)) {
      shift = freeShift(shape, taken, start, rowEnd, gap, step);
      app.homes.set(id, shift);
    }
    taken.push(shifted(shape, shift));
    return shift;
  };
  for (const outline of drawn) {
    const ring = outline.corners, shape = box(ring);
    let shift = [0, 0];
    if (outline !== base && isOver(outline.id)) taken.push(shape);
    else if (outline !== base) {
      shift = place(outline.id, shape, [first.right + gap, first.low], first.right + gap + ROW * step);
    } else taken.push(shape);
    frames.push({ id: outline.id, outline, ring, holes: outline.holes, shift, box: shifted(shape, shift) });
  }
  const after = state.result ?? state.laid.at(-1)?.after ?? null;
  if (after && state.laid.length && !isUnder()) { // over the original there is what was drawn on it alone
    const shape = box(after.corners);
    taken.push(...state.laid.map((each) => box(each.corners))); // a piece in its place is not covered
    const shift = place("result", shape, [first.left, first.low - gap - (shape.high - shape.low)], first.left);
    frames.push({ id: "result", outline: null, ring: after.corners, holes: after.holes, shift, box: shifted(shape, shift) });
  }
  return frames;
};

/** The box around all of them. */
export const aroundAll = (frames) => {
  if (!frames.length) return { left: -1, right: 9, low: -1, high: 7 };
  const laid = app.store.now.laid.flatMap((each) => each.corners);
  const around = box([...laid, ...frames.flatMap(({ box: b }) => [[b.left, b.low], [b.right, b.high]])]);
  return { ...around, high: around.high + 0.6 * app.paper.spacing };
};
