// The paper as it is seen: squares, outlines with their corners and sides, marks, faults, what is being drawn.
import { app, capital, endsOf, keyOf, nameOf, partnerOf, pieces, sameItem } from "./app.js";
import { s } from "./dom.js";
import { framesOf } from "./frames.js";
import { nameOver } from "./names.js";
import { add, angleAt, average, distance, less, middle, shown, sidesOf, times } from "./plane.js";
import { draftParts } from "./draft_seen.js";
import { notesHere } from "./notes_here.js";
import { sizeGrips } from "./size_grips.js";

const ROOT = Math.sqrt(3) / 2;
let frames = [];

export const framesNow = () => frames;
export const frameOf = (id) => frames.find((each) => each.id === id) ?? null;

export const shapePath = (ring, view, shift = [0, 0]) =>
  ring.length ? `M${ring.map((p) => view.toPixels(add(p, shift)).map((n) => n.toFixed(2)).join(" ")).join("L")}Z` : "";

/** An outline of which a corner or a size is dragged is drawn where the hand is; what comes of it is told later. */
const asDragged = (frame) => {
  const { drag } = app;
  if (drag?.id !== frame.id || !frame.outline) return frame;
  const rings = [frame.ring, ...frame.holes], at = (drag.hole ?? -1) + 1;
  if (drag.kind === "corner") rings[at] = rings[at].map((p, n) => (n === drag.n ? drag.to : p));
  else {
    const size = frame.outline.sizes[drag.n], by = drag.value - size.value;
    rings[at] = rings[at].map((p, n) => add(p, times(size.moves[n], by)));
    const sizes = frame.outline.sizes.map((each) => (each === size ? { ...size, value: drag.value } : each));
    return { ...frame, ring: rings[0], holes: rings.slice(1), outline: { ...frame.outline, sizes } };
  }
  return { ...frame, ring: rings[0], holes: rings.slice(1) };
};

const gridOf = (view) => {
  let step = app.paper.spacing;
  while (step * view.scale < 9) step *= 5;
  const [right, low] = view.toPaper([view.width, view.height]), fine = [], strong = [];
  const put = (n, from, to) => (n % 5 === 0 ? strong : fine).push(`M${view.toPixels(from)}L${view.toPixels(to)}`);
  const slanted = app.paper.kind === "triangles", high = slanted ? step * ROOT : step;
  for (let n = Math.ceil(low / high); n * high <= view.top; n += 1) put(n, [view.left, n * high], [right, n * high]);
  if (!slanted) {
    for (let n = Math.ceil(view.left / step); n * step <= right; n += 1) put(n, [n * step, low], [n * step, view.top]);
  } else {
    for (const lean of [1, -1]) {
      const at = (x, y) => x - (lean * y) / (2 * ROOT);
      const ends = [at(view.left, low), at(view.left, view.top), at(right, low), at(right, view.top)];
      for (let n = Math.ceil(Math.min(...ends) / step); n * step <= Math.max(...ends); n += 1) {
        const x = (y) => n * step + (lean * y) / (2 * ROOT);
        put(n, [x(low), low], [x(view.top), view.top]);
      }
    }
  }
  return s("g", { class: "grid", "aria-hidden": "true" },
    s("path", { d: fine.join("") }), s("path", { class: "strong", d: strong.join("") }));
};

/** Whether something on the paper is what is chosen. */
export const isChosen = (element) => element.getAttribute("aria-pressed") === "true" || element.dataset.chosen === "";

const label = (at, words, kind) => s("text", { x: at[0].toFixed(1), y: at[1].toFixed(1), class: kind }, words);

const item = (what, tag, shape, words) => s(tag, {
  ...shape,
  class: `hit ${what.kind}`,
  "data-key": keyOf(what),
  role: "button",
  tabindex: sameItem(what, app.selected) ? 0 : -1,
  "aria-pressed": String(sameItem(what, app.selected)),
  "aria-label": words,
});

const cornersAndSides = (frame, view, isOpen) => {
  const parts = [], { outline, shift } = frame;
  [null, ...frame.holes.keys()].forEach((hole) => {
    const ring = hole === null ? frame.ring : frame.holes[hole];
    if (!ring.length) return;
    const of = hole === null ? nameOf(outline) : `hole ${hole + 1} of ${nameOf(outline)}`;
    const inside = view.toPixels(add(average(ring), shift));
    sidesOf(ring).forEach(([p, q], n) => {
      if (ring.length < 2) return;
      const [a, b] = [p, q].map((end) => view.toPixels(add(end, shift)));
      const what = { kind: "side", id: frame.id, hole, n };
      const words = `Side ${n + 1} of ${of}, length ${shown(distance(p, q))}`;
      const shape = { d: `M${a}L${b}` };
      const chosen = app.marrying?.first && sameItem(app.marrying.first, what);
      parts.push(s("path", { ...shape, class: `side-seen${sameItem(what, app.selected) ? " selected" : ""}${chosen ? " chosen" : ""}` }));
      parts.push(item(what, "path", shape, words));
      if (isOpen && distance(a, b) > 34) {
        const half = middle([a, b]), way = less(b, a), far = distance(a, b) || 1;
        const slant = 13 + 13 * Math.abs(way[1] / far); // a number is wider than high
        const out = [(-way[1] / far) * slant, (way[0] / far) * slant];
        const side = distance(add(half, out), inside) > distance(less(half, out), inside) ? out : [-out[0], -out[1]];
        parts.push(label(add(half, side), shown(distance(p, q)), "measure"));
      }
    });
    ring.forEach((p, n) => {
      const at = view.toPixels(add(p, shift)), what = { kind: "corner", id: frame.id, hole, n };
      const words = `Corner ${n + 1} of ${of}, at ${shown(p[0])}, ${shown(p[1])}`
        + (ring.length > 2 ? `, ${shown(angleAt(ring, n))} degrees` : "");
      const chosen = sameItem(what, app.selected);
      if (isOpen || chosen) parts.push(s("circle", { cx: at[0], cy: at[1], r: chosen ? 8 : 5.5, class: `corner-seen${chosen ? " selected" : ""}` }));
      parts.push(item(what, "circle", { cx: at[0], cy: at[1], r: 13 }, words));
      if (chosen && ring.length > 2) parts.push(label([at[0], at[1] - 16], `${shown(angleAt(ring, n))}°`, "measure"));
    });
  });
  return parts;
};

const frameParts = (frame, view) => {
  const { outline, shift, box: b } = frame;
  const kind = outline === null ? "result" : outline.role === "piece" ? outline.does || "join" : outline.role === "option" ? "own" : "base";
  const isOpen = outline !== null && app.selected?.id === frame.id;
  const d = [frame.ring, ...frame.holes].map((ring) => shapePath(ring, view, shift)).join("");
  const [x, y] = view.toPixels([b.left, b.high]), [right, low] = view.toPixels([b.right, b.low]);
  const parts = [];
  if (outline === null || frame.outline.role === "piece" || frame.outline.role === "option") {
    parts.push(s("rect", { class: "frame", x: x - 20, y: y - 36, width: right - x + 40, height: low - y + 56, rx: 8 }));
  }
  parts.push(label([x - 4, y - 20], nameOver(frame, frames, view), "frame-name"));
  parts.push(s("path", { d, class: `shape ${kind}${outline && !outline.whole ? " unfinished" : ""}`, "fill-rule": "evenodd" }));
  if (outline === null) return s("g", { class: "frame-of result", "data-outline": "result", "data-shift": shift.join(" ") }, parts);
  const whole = { kind: "outline", id: frame.id, hole: null, n: null };
  parts.push(item(whole, "path", { d, "fill-rule": "evenodd" }, `${capital(nameOf(outline))}, ${frame.ring.length} corners${outline.role === "piece" ? `, ${outline.does}` : ""}`));
  if (sameItem(whole, app.selected)) parts.push(s("path", { d, class: "shape-selected" }));
  parts.push(...marksOn(frame, view));
  parts.push(...cornersAndSides(frame, view, isOpen));
  if (isOpen && app.tool === "select") parts.push(...sizeGrips(frame, view));
  return s("g", { class: "frame-of", "data-outline": frame.id, "data-shift": shift.join(" ") }, parts);
};

/** The sides that are married: of the piece, and where it meets. */
const marksOn = (frame, view) => pieces().flatMap((piece) => [
  [piece.id === frame.id ? endsOf(piece.side, piece) : null, piece],
  [partnerOf(piece)?.id === frame.id ? endsOf(piece.meets, frame.outline) : null, piece],
]).filter(([ends]) => ends).flatMap(([ends, piece]) => {
  const [a, b] = ends.map((end) => view.toPixels(add(end, frame.shift)));
  const inside = view.toPixels(add(average(frame.ring), frame.shift)), half = middle([a, b]);
  const way = less(b, a), far = distance(a, b) || 1;
  let away = [(-way[1] / far) * 20, (way[0] / far) * 20];
  if (distance(add(half, away), inside) > distance(less(half, away), inside)) away = [-away[0], -away[1]];
  const words = piece.mark || piece.sign;
  return [s("path", { class: "mark", d: `M${a}L${b}` }), ...(words && far > 44 ? [label(add(half, away), words, "mark-name")] : [])];
});

/** Everything anew; whoever has the focus keeps it. */
export const drawScene = (svg, view, state) => {
  frames = framesOf(state, app.drag !== null || app.store.tried !== null).map(asDragged);
  const active = svg.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  svg.setAttribute("viewBox", `0 0 ${view.width} ${view.height}`);
  for (const [name, value] of [["left", view.left], ["top", view.top], ["scale", view.scale]]) svg.dataset[name] = value;
  svg.dataset.tool = app.tool;
  svg.dataset.revision = app.store.state.revision;
  if (app.store.later) svg.dataset.later = app.store.later.revision;
  const open = app.selected?.id;
  const ordered = [...frames].sort((a, b) => Number(a.id === open) - Number(b.id === open));
  svg.replaceChildren(gridOf(view), ...ordered.map((frame) => frameParts(frame, view)), ...draftParts(view),
    ...notesHere(frames, view));
  const items = [...svg.querySelectorAll(".hit")];
  if (items.length && !items.some((each) => each.getAttribute("tabindex") === "0")) items[0].setAttribute("tabindex", "0");
  if (active) {
    const again = items.find((each) => each.dataset.key === active) ?? items.find((each) => each.getAttribute("tabindex") === "0");
    focusQuietly(again);
  }
};

/** Give the focus back to what had it, or to what is pressed: the paper stays where it was moved to. */
export const focusQuietly = (element) => {
  app.isQuiet = true;
  element?.focus({ preventScroll: true });
  app.isQuiet = false;
};

/** How a piece comes to its place: as a CSS transform from where it is drawn; `turn` only, or all of it. */
export const wayOf = (laid, view, isThere) => {
  const frame = frameOf(laid.id), base = frames.find((each) => each.outline && each.outline.role !== "piece" && each.outline.role !== "option");
  if (!frame || !base) return null;
  const drawn = frame.outline.turned ?? 0, from = add(average(frame.ring), frame.shift);
  const to = add(average(laid.corners), base.shift), d = less(view.toPixels(to), view.toPixels(from));
  return isThere
    ? `translate(${d[0]}px, ${d[1]}px) rotate(${-(drawn + laid.turn_deg)}deg)`
    : `translate(0px, 0px) rotate(${-drawn}deg)`;
};

