// Grips at a walk or a ready outline on the paper: each changes one of its sizes, and it stays what it is.
import { app, capital, drawnOf, keyOf, nameOf, outlineOf, ringOf, sameItem } from "./app.js";
import { marksAlong } from "./change.js";
import { announce, button, field, h, s } from "./dom.js";
import { add, along, average, distance, less, middle, near, read, shown, sidesOf, times, typed } from "./plane.js";

const OUT = 27; // pixels from the outline to a grip
const ALONG = 0.27; // of a side, where its length does not stand

const cross = (a, b) => a[0] * b[1] - a[1] * b[0];
const dot = (a, b) => a[0] * b[0] + a[1] * b[1];
const long = (a) => Math.hypot(...a);

const isWalk = (size) => /^\d+$/.test(size.name);

/** A size as it is called on the page. */
export const sizeWords = (size) => (isWalk(size) ? `step ${size.name}, ${size.words}` : size.name);

/** Where a size is pulled: the place on the outline, which way it moves for each 1, and which way the grip is off. */
const pulled = (ring, size, within) => {
  const { moves } = size, sides = sidesOf(ring);
  if (isWalk(size)) {
    const first = moves.findIndex((m) => long(m) > 1e-9), [a, b] = sides[first - 1];
    const way = less(b, a), out = [way[1], -way[0]];
    const isOut = dot(out, less(middle([a, b]), within)) >= 0;
    return { at: along(a, b, distance(a, b) * (1 - ALONG)), move: moves[first], off: isOut ? out : times(out, -1) };
  }
  let best = null;
  sides.forEach(([a, b], n) => {
    const m = moves[n], other = moves[(n + 1) % ring.length];
    if (long(m) < 1e-9 || !near(m, other, 1e-6) || Math.abs(cross(m, less(b, a))) < 1e-9) return;
    if (!best || long(m) > long(best.move) + 1e-9) best = { at: along(a, b, distance(a, b) * ALONG), move: m, off: m };
  });
  if (best) return best;
  const n = moves.reduce((most, m, k) => (long(m) > long(moves[most]) + 1e-9 ? k : most), 0);
  return { at: ring[n], move: moves[n], off: moves[n] };
};

const towards = (from, way, pixels, view) => {
  const size = long(way) || 1;
  return [from[0] + (way[0] / size) * pixels, from[1] - (way[1] / size) * pixels];
};

/** The grips of an outline that is open. */
export const sizeGrips = (frame, view) => (frame.outline.sizes ?? []).flatMap((size, n) => {
  const ring = size.hole === null ? frame.ring : frame.holes[size.hole];
  if (size.counts || !ring?.length || size.moves.length !== ring.length) return [];
  const { at, move, off } = pulled(ring, size, average(ring));
  const place = towards(view.toPixels(add(at, frame.shift)), off, OUT, view), what = { kind: "size", id: frame.id, hole: size.hole, n };
  const chosen = sameItem(what, app.selected), held = app.drag?.kind === "size" && app.drag.n === n && app.drag.id === frame.id;
  const ends = [-10, 10].map((d) => towards(place, move, d, view));
  const across = [move[1], -move[0]];
  const head = (tip, d) => [1, -1].map((k) => `M${tip}L${towards(towards(tip, move, -d * 0.5, view), across, 4.5 * k, view)}`).join("");
  const left = place[0] > view.width - 120;
  return [
    s("circle", { class: `size-seen${chosen ? " selected" : ""}`, cx: place[0], cy: place[1], r: 13 }),
    s("path", { class: `size-arrow${chosen ? " selected" : ""}`, d: `M${ends[0]}L${ends[1]}${head(ends[0], -10)}${head(ends[1], 10)}` }),
    s("circle", {
      cx: place[0], cy: place[1], r: 14, class: "hit size", "data-key": keyOf(what), role: "slider", tabindex: chosen ? 0 : -1,
      "aria-pressed": null, "data-chosen": chosen ? "" : null,
      "aria-label": `${capital(sizeWords(size))} of ${nameOf(frame.outline)}`, "aria-valuenow": size.value, "aria-valuetext": shown(size.value),
    }),
    (held || chosen) && s("text", { class: `live${left ? " to-left" : ""}`, x: place[0] + (left ? -20 : 20), y: place[1] - 8 },
      `${isWalk(size) ? size.words : size.name} ${shown(size.value)}`),
  ].filter(Boolean);
});

/** What another size comes to: marks on the outline go along, as long as before where they are on a part of a side. */
const resized = (outline, size, value) => {
  const ring = ringOf(outline, size.hole), by = value - size.value;
  const before = sidesOf(ring), after = size.moves.length === ring.length ? sidesOf(ring.map((p, k) => add(p, times(size.moves[k], by)))) : before;
  const moved = (p) => {
    for (let k = 0; k < before.length; k += 1) {
      const [a, b] = before[k], whole = distance(a, b), at = distance(a, p);
      if (near(p, a, 1e-6)) return after[k][0];
      if (near(p, b, 1e-6)) return after[k][1];
      if (Math.abs(at + distance(p, b) - whole) < 1e-6) return along(...after[k], Math.min(at, distance(...after[k])));
    }
    return p;
  };
  return [{ do: "set-size", at: size.at, size: size.name, value }, ...marksAlong(outline, moved)];
};

const round = (value, free) => {
  const step = free || !app.paper.snaps ? 0.01 : app.paper.spacing / 2;
  return Math.max(step, Math.round(Math.round(value / step) * step * 1e6) / 1e6);
};

/** A grip is taken hold of; gives what becomes of it as the pointer moves. */
export const takeSize = (item, start) => {
  const outline = drawnOf(app.store.state).find((each) => each.id === item.id), size = outline?.sizes[item.n];
  if (!size) return null;
  const ring = ringOf(outline, size.hole), { move } = pulled(ring, size, average(ring));
  return (point, free) => {
    const value = round(size.value + dot(less(point, start), move) / dot(move, move), free);
    if (app.drag?.value === value) return;
    app.drag = { ...item, value };
    app.store.try(...resized(outline, size, value));
  };
};

export const setSize = async (item, value) => {
  const outline = outlineOf(item.id), size = outline?.sizes?.[item.n];
  if (!size) return;
  const told = await app.store.edit(...resized(outline, size, value));
  if (told.done) announce(`${capital(nameOf(outline))}: ${sizeWords(size)} is ${shown(value)} now. It stays ${outline.given === "walk" ? "a walk" : "a ready outline"}.`);
};

/** One step of the paper more or less, by keys. */
export const stepSize = (item, way, fine) => {
  const size = outlineOf(item.id)?.sizes[item.n], by = app.paper.spacing * (fine ? 0.1 : 0.5);
  if (size) setSize(item, Math.max(by, Math.round((size.value + way * by) * 1e6) / 1e6));
};

const countButton = (outline, size, n, by) => button(`size-${size.hole ?? ""}-${size.name}-${by < 0 ? "less" : "more"}`, by < 0 ? "−" : "+",
  () => setSize({ id: outline.id, n }, size.value + by), { "aria-label": `${by < 0 ? "Fewer" : "More"}: ${size.words}`, disabled: size.value + by < 1 });

/** The sizes as fields; counts, which have no grip, by buttons too. */
export const sizesPart = (outline) => (outline.sizes?.length ? h("div", { class: "numbers", role: "group", "aria-label": "Its sizes" },
  outline.sizes.map((size, n) => [field(`size-${size.hole ?? ""}-${size.name}`,
    `${size.hole === null ? "" : `hole ${size.hole + 1}: `}${isWalk(size) ? `${size.name}. ${size.words}` : size.name}`, typed(size.value), (value) => {
      const number = read(value);
      if (!(number > 0)) announce("Write a number more than 0, such as 2 or 1.5.");
      else setSize({ id: outline.id, n }, number);
    }, { inputmode: "decimal", class: "short", title: size.words }),
  size.counts && [countButton(outline, size, n, -1), countButton(outline, size, n, 1)]])) : null);
