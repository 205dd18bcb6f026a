// Drawing an outline corner by corner: the base, a piece, a hole, an option, by clicks, by keys, by numbers.
import { app, capital, nameOf, outlineOf, pieceNumber } from "./app.js";
import { announce } from "./dom.js";
import { aroundAll } from "./frames.js";
import { takeOut } from "./own_options.js";
import { frameOf, framesNow } from "./scene.js";
import { add, box, direction, distance, less, near, shown, sidesOf, snapped, turned, wholeShift } from "./plane.js";

/** What would be drawn now. */
export const targetNow = () => {
  if (app.target) return app.target;
  const state = app.store.state, first = state.outlines.find((each) => each.role !== "piece");
  if (first && !first.corners.length) return "base";
  if (state.kind === "turned-outline") return "option";
  const undrawn = state.outlines.find((each) => each.role === "piece" && !each.given);
  return undrawn ? { redraw: undrawn.field } : "piece";
};

export const wordsOf = (target) => ({
  base: "the base", piece: "a new piece", hole: "a hole in the outline chosen", option: "an option of your own",
})[target] ?? "the outline";

const shiftOf = (target) => {
  if (target === "hole") return frameOf(app.selected?.id)?.shift ?? [0, 0];
  if (target === "option") return frameOf("result")?.shift ?? [0, 0];
  return [0, 0];
};

/** Take up the pencil. */
export const beginDraft = (target = null) => {
  app.tool = "draw";
  app.target = target;
  app.marrying = null;
  const asked = targetNow();
  if (asked === "hole" && !outlineOf(app.selected?.id)) {
    app.tool = "select";
    announce("Choose the outline first that gets the hole.");
    app.render();
    return;
  }
  const shift = shiftOf(asked), centre = app.view.toPaper([app.view.width / 2, app.view.height / 2]);
  let start = less(centre, shift);
  if (asked === "piece") { // beside what there is, where there is room
    const around = aroundAll(framesNow());
    if (framesNow().length) start = [around.right + 2 * app.paper.spacing, around.low];
  } else if (asked === "hole" || asked === "option") start = (frameOf(asked === "hole" ? app.selected.id : "result")?.ring ?? [start])[0];
  else start = [0, 0];
  app.draft = { points: [], cursor: snapped(start, { paper: app.paper, px: 1e9 }).point, shift, target: asked, of: app.selected?.id };
  announce(`Draw ${wordsOf(asked)}: click its corners one after the other, and the first again to close it.`);
  app.render();
};

export const endDraft = () => {
  app.draft = null;
  app.target = null;
};

const lengths = () => {
  const own = app.draft.points.slice(1).map((p, n) => distance(app.draft.points[n], p));
  const others = framesNow().flatMap((frame) => [frame.ring, ...frame.holes])
    .flatMap((ring) => sidesOf(ring).map(([p, q]) => distance(p, q)));
  return [...new Set([...own, ...others].map((each) => each.toFixed(6)))].map(Number);
};

/** Where the next corner would be, of a point of the paper. */
export const aimAt = (point, free) => {
  const { points, shift } = app.draft, local = less(point, shift), px = app.view.scale;
  if (points.length > 2 && distance(local, points[0]) * px < 14) {
    app.draft.cursor = points[0];
    app.draft.why = "close";
    return;
  }
  const found = snapped(local, { paper: app.paper, from: points.at(-1) ?? null, lengths: lengths(), px, free });
  app.draft.cursor = found.point;
  app.draft.why = found.why;
};

/** Put a corner; the first one again closes the outline. */
export const putCorner = (point = app.draft.cursor) => {
  const { points } = app.draft;
  if (points.length > 2 && near(point, points[0])) return closeDraft();
  if (points.length && near(point, points.at(-1))) {
    announce("There is a corner already.");
    return undefined;
  }
  points.push(point);
  app.draft.cursor = point;
  announce(points.length === 1 ? `Corner 1 at ${shown(point[0])}, ${shown(point[1])}`
    : `Corner ${points.length}: a side of ${shown(distance(points.at(-2), point))}, at ${shown(direction(points.at(-2), point))} degrees`);
  app.render();
  return undefined;
};

/** The next corner by numbers: where it is, or how long and in which direction the side is. */
export const putByNumbers = ({ x, y, length, angle }) => {
  if (!app.draft) return;
  const last = app.draft.points.at(-1);
  if (x !== null && y !== null) putCorner([x, y]);
  else if (last && length > 0) putCorner(add(last, turned([length, 0], angle ?? 0)));
  else announce("Give x and y, or, after the first corner, length and angle.");
};

export const takeBack = () => {
  if (!app.draft?.points.length) return;
  app.draft.points.pop();
  announce(`${app.draft.points.length} corners are left.`);
  app.render();
};

/** Move the place of the next corner by steps of the paper. */
export const stepCursor = (dx, dy, fine) => {
  const step = app.paper.spacing * (fine ? 0.1 : 1), cursor = app.draft.cursor ?? [0, 0];
  const next = [cursor[0] + dx * step, cursor[1] + dy * step];
  app.draft.cursor = next.map((n) => Math.round(n * 1e6) / 1e6);
  app.draft.why = "";
  app.view.reveal(add(app.draft.cursor, app.draft.shift));
  const last = app.draft.points.at(-1);
  announce(`${shown(next[0])}, ${shown(next[1])}`
    + (last && !near(last, next) ? `; length ${shown(distance(last, next))}, ${shown(direction(last, next))} degrees` : ""));
  app.renderPaper();
};

/** The outline is done: sent, and the next tool taken up. */
export const closeDraft = async () => {
  const draft = app.draft;
  if (!draft || draft.points.length < 3) {
    announce("An outline needs at least 3 corners.");
    return;
  }
  const { points, target } = draft;
  endDraft();
  app.tool = "select";
  const state = app.store.state;
  if (target === "base") {
    const field = state.outlines.find((each) => each.role !== "piece")?.field ?? "base";
    const told = await app.store.edit({ do: "set-corners", at: field, corners: points });
    if (told.done) {
      app.selected = { id: app.store.state.outlines[0].id, kind: "outline", hole: null, n: null };
      announce("The base is drawn. Draw a piece beside it next.");
    }
  } else if (target === "hole") {
    const outline = outlineOf(draft.of);
    const told = outline && await app.store.edit({ do: "add-hole", at: outline.field, corners: points });
    if (told?.done) announce(`${capital(nameOf(outline))} has a hole.`);
  } else if (target === "option") {
    const told = await app.store.edit(...writtenOut(), { do: "add-option", corners: points });
    if (told.done) {
      takeOut(app.store.state.options.length - 1);
      announce("Your outline is an option now, and on the paper, where it can be changed.");
    }
  } else await sendPiece(points, target);
  app.render();
};

/** Options that are made are written out before one is changed. */
export const writtenOut = () => (app.store.state.made ? [{ do: "write-options" }] : []);

const sendPiece = async (points, target) => {
  // In coordinates of its own, which begin at its lower left, and where it was drawn on the paper.
  const low = box(points), shift = wholeShift([Math.floor(low.left + 1e-6), Math.floor(low.low + 1e-6)], app.paper);
  const corners = points.map((p) => less(p, shift));
  const before = app.store.state.outlines.map((each) => each.id);
  const redraw = target?.redraw;
  const outline = redraw ? app.store.state.outlines.find((each) => each.field === redraw) : null;
  if (outline) app.homes.set(outline.id, shift);
  else app.homes.set("new", shift);
  const told = await app.store.edit(redraw ? { do: "set-corners", at: redraw, corners } : { do: "add-piece", does: "join", corners });
  if (!told.done) return;
  const piece = outline ? outlineOf(outline.id) : app.store.state.outlines.find((each) => !before.includes(each.id));
  if (!piece) return;
  app.selected = { id: piece.id, kind: "outline", hole: null, n: null };
  announce(`${capital(nameOf(piece))} is drawn, piece ${pieceNumber(piece) + 1}. Now marry one of its sides.`);
};
