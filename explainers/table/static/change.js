// Changes of an outline that is there: its corners, copies of it, turned and flipped; the marks on it go along.
import { app, capital, fieldOf, nameOf, outlineOf, partnerIn, pieceNumber, piecesIn, ringOf } from "./app.js";
import { announce } from "./dom.js";
import { add, along, angleAt, average, distance, flipped, middle, near, shown, sidesOf, turned } from "./plane.js";

const around = (ring, n) => ({
  before: distance(ring[(n + ring.length - 1) % ring.length], ring[n]),
  after: distance(ring[n], ring[(n + 1) % ring.length]),
});

/** Commands that take the marks on an outline along, when its points move: of what is, whatever is being tried. */
export const marksAlong = (outline, moved) => piecesIn(app.store.state).flatMap((piece, number) => {
  const command = { do: "marry", piece: number };
  const put = (key, ends) => {
    const now = ends.map(moved);
    if (!now.every((p, n) => near(p, ends[n], 1e-12))) command[key] = now;
  };
  if (piece.id === outline.id && Array.isArray(piece.side)) put("side", piece.side);
  if (partnerIn(app.store.state, piece)?.id === outline.id && Array.isArray(piece.meets)) put("meets", piece.meets);
  return command.side || command.meets ? [command] : [];
});

/** What moving a corner comes to: marks that end at it go along, and those on a part of its sides stay on them. */
export const cornerMoved = (outline, hole, n, to) => {
  const ring = ringOf(outline, hole), from = ring[n];
  const next = ring.map((p, k) => (k === n ? to : p));
  const sides = [n, (n + ring.length - 1) % ring.length];
  const whole = sidesOf(ring), after = sidesOf(next);
  const moved = (p) => {
    if (near(p, from)) return to;
    for (const k of sides) {
      const [a, b] = whole[k], long = distance(a, b), at = distance(a, p);
      if (long && Math.abs(at + distance(p, b) - long) < 1e-6 && !near(p, a) && !near(p, b)) {
        return along(...after[k], Math.min(at, distance(...after[k]))); // a part stays as long as it was
      }
    }
    return p;
  };
  return [{ do: "move-corner", at: fieldOf(outline, hole), corner: n, to }, ...marksAlong(outline, moved)];
};

const verdict = () => ({ sound: "sound", unsound: "not sound yet", refused: "not finished yet" })[app.store.state.verdict.state];

export const moveCorner = async (item, to) => {
  const outline = outlineOf(item.id);
  if (!outline) return;
  const told = await app.store.edit(...cornerMoved(outline, item.hole, item.n, to));
  const ring = told.done ? ringOf(outlineOf(item.id) ?? outline, item.hole) : null;
  if (!ring) return;
  const long = around(ring, item.n);
  announce(`Corner ${item.n + 1} at ${shown(to[0])}, ${shown(to[1])}: sides of ${shown(long.before)} and ${shown(long.after)}, `
    + `${shown(angleAt(ring, item.n))} degrees; the question is ${verdict()}`);
};

export const insertCorner = async (item, at = null) => {
  const outline = outlineOf(item.id), ring = ringOf(outline, item.hole);
  const to = at ?? middle([ring[item.n], ring[(item.n + 1) % ring.length]]);
  const told = await app.store.edit({ do: "insert-corner", at: fieldOf(outline, item.hole), corner: item.n + 1, to });
  if (!told.done) return;
  app.selected = { ...item, kind: "corner", n: item.n + 1 };
  announce(`A corner is put in at ${shown(to[0])}, ${shown(to[1])}.`);
  app.focusSelected?.();
};

/** Take out what is chosen: a corner, a hole, a piece. */
export const takeOut = async (item) => {
  const outline = item && outlineOf(item.id);
  if (!outline) return;
  if (item.kind === "corner") {
    const told = await app.store.edit({ do: "remove-corner", at: fieldOf(outline, item.hole), corner: item.n });
    if (told.done) {
      const count = ringOf(outlineOf(item.id), item.hole).length;
      app.selected = { ...item, n: Math.min(item.n, count - 1) };
      announce(`The corner is taken out; ${count} are left.`);
    }
  } else if (item.hole !== null) {
    const told = await app.store.edit({ do: "remove", at: fieldOf(outline, item.hole) });
    if (told.done) {
      app.selected = { ...item, kind: "outline", hole: null, n: null };
      announce("The hole is taken out.");
    }
  } else if (outline.role === "piece") {
    const told = await app.store.edit({ do: "remove", at: outline.field });
    if (told.done) {
      app.selected = null;
      announce(`${capital(nameOf(outline))} is taken out. Undo brings it back.`);
    }
  } else if (outline.role === "option") {
    const told = await app.store.edit({ do: "remove", at: outline.field });
    if (told.done) {
      app.ownOut = null;
      app.selected = null;
      announce("The option is taken out. Undo brings it back.");
    }
  } else announce("The base stays: move its corners, or draw it anew.");
  app.render();
};

const addPiece = async (outline, corners, words) => {
  const before = app.store.state.outlines.map((each) => each.id);
  const told = await app.store.edit({ do: "add-piece", does: outline.does || "join", corners });
  const piece = told.done && app.store.state.outlines.find((each) => !before.includes(each.id));
  if (!piece) return;
  app.selected = { id: piece.id, kind: "outline", hole: null, n: null };
  announce(`${capital(nameOf(piece))} is new: ${words}`);
  app.render();
};

export const copy = (outline) => addPiece(outline, outline.corners, `a copy of ${nameOf(outline)}.`);

/** A new outline, since turning over is no turn. */
export const flip = (outline) => {
  const about = middle(outline.corners);
  return addPiece(outline, outline.corners.map((p) => flipped(p, about)).reverse(),
    `${nameOf(outline)} flipped over.`);
};

/** Turn the drawing itself; how the sheet shows it is another thing. */
export const turnDrawing = async (outline, deg) => {
  const about = average(outline.corners), moved = (p) => turned(p, deg, about);
  const commands = [{ do: "set-corners", at: outline.field, corners: outline.corners.map(moved) }];
  outline.holes.forEach((hole, n) => commands.push({ do: "set-corners", at: fieldOf(outline, n), corners: hole.map(moved) }));
  const told = await app.store.edit(...commands, ...marksAlong(outline, moved));
  if (told.done) announce(`The drawing of ${nameOf(outline)} is turned by ${shown(deg)} degrees.`);
};

/** The mark on a side, by where it begins and how long it is. */
export const setMarkAlong = (piece, key, ends, corner, start, long) => {
  const [a, b] = corner, whole = distance(a, b);
  const from = Math.min(Math.max(0, start), whole), to = Math.min(from + long, whole);
  const at = (d) => add(a, [((b[0] - a[0]) * d) / whole, ((b[1] - a[1]) * d) / whole]);
  return app.store.edit({ do: "marry", piece: pieceNumber(piece), [key]: [at(from), at(to)] });
};

/** The side of a ring on which a mark lies. */
export const sideUnder = (outline, ends) => {
  if (!ends) return null;
  const rings = [outline.corners, ...outline.holes];
  for (const ring of rings) {
    for (const [a, b] of sidesOf(ring)) {
      const long = distance(a, b);
      if (ends.every((p) => Math.abs(distance(a, p) + distance(p, b) - long) < 1e-3 * Math.max(1, long))) return [a, b];
    }
  }
  return null;
};

