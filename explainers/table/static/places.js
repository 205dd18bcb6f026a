// Where on the page the field of a fault or a warning is: on the paper, among the options, in the text.
import { app, endsOf, partnerOf } from "./app.js";
import { frameOf, framesNow } from "./scene.js";
import { add, average, distance, less, middle, sidesOf } from "./plane.js";

const FIELD = /^(base|outline|pieces\[\d+\])(?:\.holes\[(\d+)\])?(?:\.?(corners|meets|side)?(?:\[(\d+)\])?)?/;
const OPTION = /^options\[(\d+)\]/;

/** The side of an outline on which a marked side lies, as an item of the paper. */
const sideOf = (outline, ends) => {
  const rings = [[null, outline.corners], ...outline.holes.map((ring, n) => [n, ring])];
  for (const [hole, ring] of rings) {
    if (ring.length < 2) continue;
    const n = sidesOf(ring).findIndex(([a, b]) => {
      const long = distance(a, b);
      return ends.every((p) => Math.abs(distance(a, p) + distance(p, b) - long) < 1e-3 * Math.max(1, long));
    });
    if (n >= 0) return { kind: "side", id: outline.id, hole, n };
  }
  return { kind: "outline", id: outline.id, hole: null, n: null };
};

/** Which way is out of an outline at a point of it. */
const outAt = (point, frame) => {
  const way = less(point, add(average(frame.ring), frame.shift)), long = Math.hypot(...way) || 1;
  return way.map((n) => n / long);
};

/** {item, point, out}: what is spoken of on the paper, and where a mark stands beside it; null where it is not there. */
const onPaper = (field) => {
  const match = FIELD.exec(field);
  const frame = match && framesNow().find((each) => each.outline?.field === match[1]);
  if (!frame) return null;
  const { outline, box: b, shift } = frame, hole = match[2] === undefined ? null : Number(match[2]);
  const ring = hole === null ? frame.ring : frame.holes[hole] ?? [];
  const beside = (point, of = frame) => ({ point, out: outAt(point, of) });
  if (match[3] === "corners" && match[4] !== undefined && ring[Number(match[4])]) {
    return { item: { kind: "corner", id: frame.id, hole, n: Number(match[4]) }, ...beside(add(ring[Number(match[4])], shift)) };
  }
  const side = match[3] === "side" ? endsOf(outline.side, outline) : null;
  if (side) return { item: sideOf(outline, side), ...beside(add(middle(side), shift)) };
  const partner = match[3] === "meets" ? partnerOf(outline) : null, there = partner && frameOf(partner.id);
  const met = there && endsOf(outline.meets, partner);
  if (met) return { item: sideOf(partner, met), ...beside(add(middle(met), there.shift), there) };
  if (hole !== null && ring.length) return { item: { kind: "side", id: frame.id, hole, n: 0 }, ...beside(add(ring[0], shift)) };
  return { item: { kind: "outline", id: frame.id, hole: null, n: null }, point: [b.right, b.high], out: [1, -0.3] };
};

export const placeOf = (fault) => {
  const paper = onPaper(fault.field), option = OPTION.exec(fault.field);
  if (paper) return { where: "paper", ...paper };
  if (option) return { where: "option", n: Number(option[1]) };
  return { where: "text", line: fault.line };
};

const textLine = (line) => {
  const part = document.querySelector('[data-key="text-part"]'), area = part?.querySelector("textarea");
  if (!area) return;
  part.open = true;
  const lines = area.value.split("\n"), at = Math.max(0, Math.min(line || 1, lines.length) - 1);
  const start = lines.slice(0, at).join("\n").length + (at ? 1 : 0);
  area.focus();
  area.setSelectionRange(start, start + lines[at].length);
  area.scrollIntoView({ block: "nearest" });
};

/** Bring somebody to where a fault is. */
export const goTo = (fault) => {
  const place = placeOf(fault);
  if (place.where === "paper") {
    app.tool = "select";
    app.selected = place.item;
    app.view.reveal(place.point);
    document.getElementById("paper").scrollIntoView({ block: "nearest" });
    app.focusSelected();
    app.render();
  } else if (place.where === "option") {
    const card = document.querySelectorAll("#options > section > ol > li")[place.n];
    const control = card?.querySelector("summary");
    if (!control) return textLine(fault.line);
    control.focus();
    card.scrollIntoView({ block: "nearest" });
  } else textLine(fault.line);
  return undefined;
};
