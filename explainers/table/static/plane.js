// The little geometry of drawing: distances, snapping, moved copies. What is true of a question is never decided here.
export const TOLERANCE = 1e-3;
const ROOT = Math.sqrt(3) / 2;

export const add = (p, q) => [p[0] + q[0], p[1] + q[1]];
export const less = (p, q) => [p[0] - q[0], p[1] - q[1]];
export const times = (p, k) => [p[0] * k, p[1] * k];
export const distance = (p, q) => Math.hypot(q[0] - p[0], q[1] - p[1]);
export const near = (p, q, within = TOLERANCE) => distance(p, q) <= within;
export const along = (p, q, d) => add(p, times(less(q, p), d / (distance(p, q) || 1)));

/** A number as it is shown, to three decimals. */
export const shown = (number) => {
  const value = Math.round(number * 1000) / 1000;
  return String(value === 0 ? 0 : value).replace("-", "\u2212");
};

/** A number as it is typed into a field. */
export const typed = (number) => {
  const value = Math.round(number * 1e4) / 1e4;
  return String(value === 0 ? 0 : value);
};

/** A number that somebody typed, or null. */
export const read = (text) => {
  const plain = String(text).trim().replace("\u2212", "-").replace(/^(-?\d*),(\d+)$/, "$1.$2");
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
};

/** The direction from one point to another, degrees anticlockwise from the right, 0 to 360. */
export const direction = (p, q) => {
  const deg = (Math.atan2(q[1] - p[1], q[0] - p[0]) * 180) / Math.PI;
  return (deg + 360) % 360;
};

export const sidesOf = (ring) => ring.map((corner, n) => [corner, ring[(n + 1) % ring.length]]);

const area = (ring) => ring.reduce((sum, p, n) => {
  const q = ring[(n + 1) % ring.length];
  return sum + p[0] * q[1] - q[0] * p[1];
}, 0) / 2;

/** The angle inside an outline at a corner, degrees. */
export const angleAt = (ring, n) => {
  const before = ring[(n + ring.length - 1) % ring.length], after = ring[(n + 1) % ring.length];
  const turn = (direction(ring[n], before) - direction(ring[n], after) + 720) % 360;
  return area(ring) >= 0 ? turn : (360 - turn) % 360;
};

export const box = (points) => {
  const xs = points.map((p) => p[0]), ys = points.map((p) => p[1]);
  return { left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
};

export const middle = (points) => {
  const b = box(points);
  return [(b.left + b.right) / 2, (b.low + b.high) / 2];
};

export const average = (points) => times(points.reduce(add, [0, 0]), 1 / points.length);

export const turned = (p, deg, about = [0, 0]) => {
  const angle = (deg * Math.PI) / 180, [x, y] = less(p, about);
  return add(about, [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)]);
};

export const flipped = (p, about) => [2 * about[0] - p[0], p[1]];

/** How far along a side the foot of a point lies, and how far the point is from it. */
export const foot = (p, [from, to]) => {
  const length = distance(from, to) || 1, way = times(less(to, from), 1 / length), d = less(p, from);
  const at = Math.min(length, Math.max(0, d[0] * way[0] + d[1] * way[1]));
  return { at, off: distance(p, add(from, times(way, at))) };
};

/** The point of the paper that is nearest; `step` is its spacing, `part` 2 for half squares too. */
export const onPaper = (p, paper, part = 1) => {
  const step = paper.spacing / part;
  if (paper.kind !== "triangles") return [Math.round(p[0] / step) * step, Math.round(p[1] / step) * step];
  const row = Math.round(p[1] / (step * ROOT));
  const x = Math.round(p[0] / step - row / 2) + row / 2;
  return [x * step, row * step * ROOT];
};

/** A shift of a frame that keeps it on the paper's points, at least as far as asked. */
export const wholeShift = (p, paper) => {
  const high = paper.kind === "triangles" ? paper.spacing * ROOT * 2 : paper.spacing;
  return [Math.round(p[0] / paper.spacing) * paper.spacing, Math.round(p[1] / high) * high];
};

/** Where a point that is drawn by hand is meant to be: on the paper, or as long as another side.
 *
 * from    : the corner before, or null
 * lengths : of other sides
 * px      : pixels a unit
 */
export const snapped = (p, { paper, from = null, lengths = [], px, free = false }) => {
  if (free || !paper.snaps) return { point: p, why: "" };
  const found = [{ point: onPaper(p, paper), why: "paper", cost: 0 }];
  if ((px * paper.spacing) / 2 >= 13) found.push({ point: onPaper(p, paper, 2), why: "half", cost: 4 });
  if (from) {
    const deg = Math.round(direction(from, p) / 15) * 15;
    for (const length of lengths) {
      const point = add(from, turned([length, 0], deg));
      if (distance(point, p) * px < 10) found.push({ point, why: "length", cost: 3 });
    }
  }
  return found.reduce((best, each) =>
    distance(each.point, p) * px + each.cost < distance(best.point, p) * px + best.cost - 1e-9 ? each : best);
};

/** How far along a side a mark may begin or end: its ends, and whole and half steps from both. */
export const snappedAlong = (at, length, paper, free = false) => {
  if (free || !paper.snaps) return at;
  const step = paper.spacing / 2;
  const known = [0, length, Math.round(at / step) * step, length - Math.round((length - at) / step) * step];
  return known.filter((each) => each >= -1e-9 && each <= length + 1e-9)
    .reduce((best, each) => (Math.abs(each - at) < Math.abs(best - at) - 1e-9 ? each : best), 0);
};
