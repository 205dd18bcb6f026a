// What is not in the file yet: the outline that is being drawn, and the part of a side that is about to be met.
import { app, keyOf } from "./app.js";
import { s } from "./dom.js";
import { add, direction, distance, shown } from "./plane.js";

export const draftParts = (view) => [...drawn(view), ...met(view)];

const drawn = (view) => {
  if (app.tool !== "draw" || !app.draft) return [];
  const { points, cursor, shift } = app.draft;
  const at = (p) => view.toPixels(add(p, shift));
  const parts = [];
  if (points.length) {
    const line = [...points, ...(cursor ? [cursor] : [])].map(at);
    parts.push(s("path", { class: "draft", d: `M${line.join("L")}` }));
    points.forEach((p, n) => {
      const [x, y] = at(p);
      parts.push(s("circle", { cx: x, cy: y, r: n === 0 ? 8 : 5, class: `draft-corner${n === 0 ? " first" : ""}` }));
    });
    if (cursor) {
      const last = points.at(-1), [x, y] = at(cursor), long = distance(last, cursor);
      if (long > 1e-9) {
        const right = x < view.width - 120;
        parts.push(s("text", { x: x + (right ? 16 : -16), y: y - 14, class: `live${right ? "" : " to-left"}` },
          `${shown(long)} · ${shown(Math.round(direction(last, cursor) * 10) / 10)}°`));
      }
    }
  }
  const here = cursor ?? [0, 0], [x, y] = at(here);
  parts.push(s("g", { class: `cursor ${app.draft.why ?? ""}`, "aria-hidden": "true" },
    s("path", { d: `M${x - 11} ${y}H${x + 11}M${x} ${y - 11}V${y + 11}` }), s("circle", { cx: x, cy: y, r: 6 })));
  parts.push(s("circle", {
    cx: x, cy: y, r: 14, class: "hit cursor-hit", role: "button", tabindex: 0, "data-key": keyOf({ kind: "cursor", id: "" }),
    "aria-label": `Next corner at ${shown(here[0])}, ${shown(here[1])}. Arrows move it, Space puts it, Enter closes the outline.`,
  }));
  return parts;
};

const met = (view) => {
  const part = app.marrying?.part;
  if (!part) return [];
  const [a, b] = part.ends.map((end) => view.toPixels(add(end, part.shift)));
  return [
    s("path", { class: "meeting", d: `M${a}L${b}` }),
    s("text", { x: (a[0] + b[0]) / 2 + 14, y: (a[1] + b[1]) / 2 - 14, class: "live" }, shown(distance(...part.ends))),
  ];
};
