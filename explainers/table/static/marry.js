// Marrying two sides: one of a piece, and the one that it meets, whole or a part of it that is dragged out.
import { app, capital, nameOf, outlineOf, pieceNumber, ringOf } from "./app.js";
import { cornerMoved } from "./change.js";
import { announce } from "./dom.js";
import { frameOf } from "./scene.js";
import { along, distance, foot, less, shown, snappedAlong } from "./plane.js";

const SAME = 1e-3; // of the longer of two sides

export const beginMarrying = (first = null) => {
  app.tool = "marry";
  app.draft = null;
  app.marrying = { first, part: null };
  announce(first ? `Now choose the side that ${nameOf(outlineOf(first.id))} meets.`
    : "Choose a side of a piece, then the side that it meets.");
  app.render();
};

const ends = (item) => {
  const ring = ringOf(outlineOf(item.id), item.hole);
  return [ring[item.n], ring[(item.n + 1) % ring.length]];
};

/** Which of two sides is of the piece that is laid, and which is met; null where they cannot be. */
const paired = (one, other) => {
  const [a, b] = [one, other].map((item) => outlineOf(item.id));
  if (!a || !b || a.id === b.id) return null;
  const [n, m] = [pieceNumber(a), pieceNumber(b)];
  return n > m ? { mine: one, met: other } : { mine: other, met: one };
};

/** The part of a side that would be met by a piece as long as its own side, or the one that is dragged out. */
const partOf = (met, point, long, from = null) => {
  const side = ends(met), whole = distance(...side), shift = frameOf(met.id).shift;
  const { at } = foot(less(point, shift), side);
  let start, end;
  if (from !== null) {
    [start, end] = [from, snappedAlong(at, whole, app.paper)].sort((p, q) => p - q);
  } else {
    const room = Math.max(0, whole - long);
    start = Math.min(room, Math.max(0, snappedAlong(Math.min(room, Math.max(0, at - long / 2)), room, app.paper)));
    end = Math.min(whole, start + long);
  }
  return { met, ends: [along(...side, start), along(...side, end)], shift };
};

/** The side of the piece that is to be laid, or the part of it that was dragged out before. */
const mineOf = (pair) => (pair.mine === app.marrying.first ? app.marrying.firstPart : null) ?? ends(pair.mine);

/** The pointer drags along the side that is to be the first of two. */
export const showFirstPart = (item, point, from) => {
  app.marrying.part = partOf(item, point, 0, from);
};

/** The pointer is over a side, or drags along it. */
export const showPart = (item, point, from = null) => {
  const pair = app.marrying?.first && item ? paired(app.marrying.first, item) : null;
  app.marrying.part = pair && pair.met === item ? partOf(item, point, distance(...mineOf(pair)), from) : null;
};

/** Of the sides on which a drag may have begun, as two do at a corner, the one that it goes along. */
export const sideAlong = (item, start, point) => {
  const ring = ringOf(outlineOf(item.id), item.hole), { shift } = frameOf(item.id);
  const [from, to] = [less(start, shift), less(point, shift)];
  const near = ring.map((_, n) => ({ ...item, n })).filter((each) => foot(from, ends(each)).off * app.view.scale < 14);
  const best = near.sort((a, b) => foot(to, ends(a)).off - foot(to, ends(b)).off)[0];
  return best && best.n !== item.n ? best : item;
};

/** Where along a side a drag begins. */
export const startAlong = (item, point) => {
  const side = ends(item);
  return snappedAlong(foot(less(point, frameOf(item.id).shift), side).at, distance(...side), app.paper);
};

/** A side is chosen: the first of two, or the second. */
export const chooseSide = (item, point = null, from = null) => {
  const { first } = app.marrying, outline = outlineOf(item.id);
  const pair = first ? paired(first, item) : null;
  if (!first || !pair) {
    const side = ends(item), isPart = point && from !== null && outline.role === "piece";
    const drawn = isPart ? partOf(item, point, 0, from).ends : side, isShort = distance(...drawn) > 1e-6 && distance(...drawn) < distance(...side) - 1e-6;
    app.marrying = { first: item, firstPart: isShort ? drawn : null, part: null };
    announce(`${isShort ? "A part of side" : "Side"} ${item.n + 1} of ${nameOf(outline)}, length ${shown(distance(...(isShort ? drawn : side)))}. Now choose ${
      outline.role === "piece" ? "the side that it meets" : "the side of the piece that meets it"}.`);
    app.render();
    return;
  }
  const mine = mineOf(pair), met = ends(pair.met), long = distance(...mine), whole = distance(...met);
  let part = met;
  if (item === pair.met && point && (from !== null || whole > long * (1 + SAME))) {
    part = partOf(item, point, long, from).ends;
  } else if (whole > long * (1 + SAME)) part = [met[0], along(...met, long)];
  if (distance(...part) < 1e-6) part = met;
  settle(pair, mine, part);
};

const lengthsDiffer = (a, b) => Math.abs(a - b) > SAME * Math.max(a, b);

const settle = (pair, mine, part) => {
  const piece = outlineOf(pair.mine.id), partner = outlineOf(pair.met.id);
  const long = distance(...mine), asked = distance(...part);
  app.marrying = { first: null, part: null };
  if (!lengthsDiffer(long, asked)) {
    finish(piece, partner, mine, part);
    return;
  }
  const differ = shown(Math.abs(long - asked)), name = nameOf(piece);
  const answers = [["mend", `Make the side of ${name} ${shown(asked)} long`, () => mend(pair, mine, part)]];
  if (long > asked) answers.push(["mark", `Mark ${shown(asked)} of it`, () => finish(piece, partner, [mine[0], along(...mine, asked)], part)]);
  answers.push(["leave", "Leave it", () => {}]);
  app.ask = {
    words: `The side of ${name} is ${shown(long)} long, the other ${shown(asked)}: ${differ} ${long > asked ? "too long" : "too short"}.`,
    answers,
  };
  announce(app.ask.words);
  app.render();
};

/** Move the end of the piece's side, so that both are as long as each other. */
const mend = async (pair, mine, part) => {
  const piece = outlineOf(pair.mine.id), ring = ringOf(piece, pair.mine.hole);
  const to = along(...mine, distance(...part)), corner = (pair.mine.n + 1) % ring.length;
  await finish(piece, outlineOf(pair.met.id), [mine[0], to], part, cornerMoved(piece, pair.mine.hole, corner, to));
};

const finish = async (piece, partner, side, meets, before = []) => {
  const told = await app.store.edit(...before, {
    do: "marry", piece: pieceNumber(piece), side, meets, of: partner.role === "piece" ? partner.name : "base",
  });
  app.tool = "select";
  app.look = true;
  app.selected = { id: piece.id, kind: "outline", hole: null, n: null };
  if (told.done) {
    const laid = app.store.state.laid.find((each) => each.id === piece.id);
    const fault = app.store.state.faults.find((each) => each.field.includes(piece.field));
    announce(laid ? laid.line : fault ? `${capital(fault.message)}. ${capital(fault.fix)}.` : `${capital(nameOf(piece))} is married to ${nameOf(partner)}.`);
    if (laid) app.showGoing?.(piece.id);
  }
  app.render();
};

export const stopMarrying = () => {
  app.marrying = null;
};

