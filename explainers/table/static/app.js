// What the modules of the page share: the store, what is selected, which tool is in hand, where each outline stands.
import { Store } from "./store.js";

export const app = {
  store: new Store(),
  tool: "select", // select, draw, marry
  target: null, // what is drawn: base, piece, hole, option, or {redraw: field}; null for what comes next
  selected: null, // {id, kind: "outline" | "corner" | "side", hole, n}
  draft: null, // corners so far, see draw.js
  marrying: null, // see marry.js
  drag: null, // a corner or a size that is being dragged
  ask: null, // a question to be answered on the page: {words, answers: [[key, label, does]]}
  paper: { kind: "squares", spacing: 1, snaps: true },
  homes: new Map(), // outline -> where its frame stands
  moving: null, // the piece that is shown going to its place
  keep: new Set(), // letters of options that are not exchanged
  look: false, // whether all is to be seen that is there now
  underlay: null, // the original that lies under the paper, see underlay.js
  opened: null, // the fault of which the words are shown on the paper
  notes: [], // what happened besides, until it has been seen
  ownOut: null, // the number of the option that is on the paper
  picking: null, // the number of the option that is to be exchanged
  render: () => {}, // all of it anew, in the next frame
  renderBelow: () => {}, // the lesson and its build alone
};

export const HOLE = "hole";

export const sameItem = (a, b) =>
  a === b || (!!a && !!b && a.id === b.id && a.kind === b.kind && a.hole === b.hole && a.n === b.n);

export const keyOf = (item) => [item.kind, item.id, item.hole ?? "", item.n ?? ""].join("|");

/** Every outline that may be on the paper: those of the question, and the option that is out. */
export const drawnOf = (state) => {
  const own = app.ownOut === null ? null : state.options[app.ownOut];
  return own?.corners.length && !state.made ? [...state.outlines, { ...own, id: `own-${app.ownOut}`, role: "option" }] : state.outlines;
};

export const outlineOf = (id) => (app.store.now ? drawnOf(app.store.now).find((each) => each.id === id) : null) ?? null;

export const piecesIn = (state) => state?.outlines.filter((each) => each.role === "piece") ?? [];

export const pieces = () => piecesIn(app.store.now);

export const pieceNumber = (outline) => pieces().findIndex((each) => each.id === outline.id);

/** The ring that an item speaks of: of an outline, or of one of its holes. */
export const ringOf = (outline, hole = null) => (hole === null ? outline.corners : outline.holes[hole] ?? []);

/** The field of a ring. */
export const fieldOf = (outline, hole = null) => (hole === null ? outline.field : `${outline.field}.holes[${hole}]`);

export const nameOf = (outline) =>
  outline.role === "base" ? "the base" : outline.role === "piece" ? `the ${outline.name || "piece"}`
    : outline.role === "option" ? `option ${outline.label}` : "the outline";

export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** The two ends of a marked side, however it is given; null where it cannot be read. */
export const endsOf = (side, outline) => {
  if (Array.isArray(side)) return side;
  const ring = outline?.corners ?? [];
  return Number.isInteger(side) && side >= 1 && side <= ring.length ? [ring[side - 1], ring[side % ring.length]] : null;
};

/** The outline that a piece meets. */
export const partnerIn = (state, piece) =>
  (piece.of === "base" ? state.outlines.find((each) => each.role === "base") : piecesIn(state).find((each) => each.name === piece.of)) ?? null;

export const partnerOf = (piece) => partnerIn(app.store.now, piece);
