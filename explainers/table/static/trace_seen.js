// What was read, drawn over the original: outlines with their numbers, married sides with their marks, what was passed by.
import { s } from "./dom.js";
import { distance, middle } from "./plane.js";

/** sheet: the element that has the shape of the original; frame: the part of the source that it shows. */
export const drawRead = (sheet, svg, told, frame, choose) => {
  const ratio = frame.width / frame.height;
  sheet.style.aspectRatio = String(ratio);
  sheet.style.setProperty("--ratio", String(ratio));
  const { width, height } = sheet.getBoundingClientRect();
  if (!width || !height) return;
  svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  svg.setAttribute("aria-hidden", "true"); // all of it stands beside it as words and controls
  const put = ([x, y]) => [((x - frame.x) / frame.width) * width, ((y - frame.y) / frame.height) * height];
  const ringsOf = (rings) => rings.map((ring) => `M${ring.filter(Boolean).map((p) => put(p).map((n) => n.toFixed(1))).join("L")}Z`).join("");
  const isSmall = width < 480; // numbers alone; what each is stands beside it
  const badge = (at, number, what, mark, kind) => {
    const words = `${number}${isSmall ? "" : what}${mark}`, [x, y] = put(at), high = isSmall ? 18 : 22;
    const wide = (isSmall ? 9 : 14) + 8 * words.length;
    return s("g", { class: `read-badge ${kind}` },
      s("rect", { x: x - wide / 2, y: y - high / 2, width: wide, height: high, rx: high / 2 }), s("text", { x, y: y + 5 }, words));
  };
  const shapes = [], labels = [];
  for (const each of [...told.left_out.map((one) => ({ ...one, role: "out" })), ...told.outlines]) {
    const d = ringsOf(each.rings);
    const shape = s("path", { class: `read ${each.role}`, d, "fill-rule": "evenodd", "data-number": each.number });
    shape.addEventListener("click", () => choose(each.number));
    shapes.push(s("path", { class: "read-halo", d }), shape);
    if (each.role !== "out") {
      each.rings.flat().filter(Boolean).forEach((p) => {
        const [x, y] = put(p);
        shapes.push(s("circle", { class: `read-corner ${each.role}`, cx: x, cy: y, r: isSmall ? 3 : 4.5 }));
      });
    }
    for (const ends of [each.side, each.meets]) {
      if (!ends?.every(Boolean)) continue;
      const [a, b] = ends.map(put), half = middle([a, b]);
      shapes.push(s("path", { class: "read-side", d: `M${a}L${b}` }));
      if (each.mark && distance(a, b) > 30) labels.push(s("text", { class: "read-mark", x: half[0], y: half[1] - 7 }, each.mark));
    }
    const doubted = each.role !== "out" && !(each.sure && !each.doubts.length);
    const at = each.place ?? each.rings[0].find(Boolean);
    if (at) labels.push(badge(at, each.number, each.role === "base" ? " base" : "", doubted ? " ?" : "", each.role));
    each.hole_numbers?.forEach((number, n) => {
      const ring = each.rings[each.rings.length - each.hole_numbers.length + n].filter(Boolean);
      if (ring.length) labels.push(badge(middle(ring), number, " hole", "", "hole"));
    });
  }
  for (const { at } of told.passed) {
    if (!at) continue;
    const [x, y] = put(at);
    labels.push(s("path", { class: "read-passed", d: `M${x - 7} ${y - 7}L${x + 7} ${y + 7}M${x - 7} ${y + 7}L${x + 7} ${y - 7}` }));
  }
  svg.replaceChildren(...shapes, ...labels);
};
