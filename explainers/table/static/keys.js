// The paper by keys alone: one thing on it has the focus, arrows move it or go on to the next.
import { app, drawnOf, outlineOf, ringOf } from "./app.js";
import { closeDraft, beginDraft, endDraft, putCorner, stepCursor, takeBack } from "./draw.js";
import { insertCorner, moveCorner, takeOut } from "./change.js";
import { beginMarrying, chooseSide } from "./marry.js";
import { announce } from "./dom.js";
import { frameOf, isChosen } from "./scene.js";
import { stepSize } from "./size_grips.js";
import { add, middle } from "./plane.js";

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** What an element of the paper stands for. */
export const itemOf = (element) => {
  if (!element?.dataset?.key) return null;
  const [kind, id, hole, n] = element.dataset.key.split("|");
  return { kind, id, hole: hole === "" || hole === undefined ? null : Number(hole), n: n === "" || n === undefined ? null : Number(n) };
};

const itemsOn = (svg) => [...svg.querySelectorAll(".hit")];

const bringIntoSight = (item) => {
  const frame = frameOf(item.id), ring = frame && ringOf(outlineOf(item.id), item.hole);
  if (!ring?.length) return;
  const point = item.kind === "corner" ? ring[item.n]
    : item.kind === "side" ? middle([ring[item.n], ring[(item.n + 1) % ring.length]]) : ring[0];
  app.view.reveal(add(point, frame.shift));
};

export const takeKeys = (svg) => {
  const go = (item) => {
    if (!item) return;
    app.selected = item.kind === "cursor" ? app.selected : item;
    bringIntoSight(item);
    app.drawNow();
    itemsOn(svg).find((each) => each.getAttribute("tabindex") === "0")?.focus({ preventScroll: true });
    app.render();
  };
  app.focusSelected = () => {
    app.drawNow();
    itemsOn(svg).find(isChosen)?.focus({ preventScroll: true });
  };

  const next = (from, by, isWanted) => {
    const order = itemsOn(svg).map(itemOf);
    // In the order of the file, whichever outline lies on top.
    const rank = new Map(drawnOf(app.store.now).map((each, n) => [each.id, n]));
    order.sort((a, b) => rank.get(a.id) - rank.get(b.id));
    const wanted = order.filter(isWanted);
    if (!wanted.length) return null;
    const at = wanted.findIndex((each) => each.kind === from.kind && each.id === from.id && each.hole === from.hole && each.n === from.n);
    if (at >= 0) return wanted[(at + by + wanted.length) % wanted.length];
    return wanted.find((each) => each.id === from.id) ?? wanted[0];
  };

  svg.addEventListener("focusin", (event) => {
    const item = itemOf(event.target.closest(".hit"));
    if (item && item.kind !== "cursor" && !app.isQuiet) bringIntoSight(item);
  });

  svg.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey) return;
    const arrow = ARROWS[event.key], item = itemOf(event.target.closest(".hit"));
    if (app.tool === "draw" && app.draft ? drawing(event, arrow) : item && choosing(event, arrow, item)) {
      event.preventDefault();
      event.stopPropagation();
    }
  });

  const drawing = (event, arrow) => {
    if (arrow) stepCursor(...arrow, event.shiftKey);
    else if (event.key === " ") putCorner();
    else if (event.key === "Enter") closeDraft();
    else if (event.key === "Backspace" || event.key === "Delete") takeBack();
    else if (event.key === "Escape") stop();
    else return false;
    return true;
  };

  const choosing = (event, arrow, item) => {
    const isActive = event.key === "Enter" || event.key === " ";
    if (arrow && item.kind === "corner" && app.tool === "select") step(item, arrow, event.shiftKey);
    else if (arrow && item.kind === "size" && app.tool === "select") stepSize(item, arrow[0] + arrow[1], event.shiftKey);
    else if (event.key === "PageDown" || (arrow && (arrow[0] > 0 || arrow[1] < 0))) go(next(item, 1, (each) => each.kind === item.kind || item.kind === "outline" && each.kind === "outline"));
    else if (event.key === "PageUp" || arrow) go(next(item, -1, (each) => each.kind === item.kind));
    else if (event.key === "Home" || event.key === "o") go(next({ ...item, kind: "outline", hole: null, n: null }, 0, (each) => each.kind === "outline"));
    else if (event.key === "c") go(next(item, 1, (each) => each.kind === "corner" && each.id === item.id));
    else if (event.key === "s") go(next(item, 1, (each) => each.kind === "side" && each.id === item.id));
    else if (event.key === "g") go(next(item, 1, (each) => each.kind === "size" && each.id === item.id));
    else if (event.key === "Delete" || event.key === "Backspace") takeOut(item).then(() => app.focusSelected());
    else if ((event.key === "Insert" || event.key === "+") && item.kind === "side") insertCorner(item);
    else if (event.key === "Escape") stop();
    else if (event.key === "m" && item.kind === "side") beginMarrying(outlineOf(item.id)?.role === "piece" ? item : null);
    else if (event.key === "d") beginDraft();
    else if (isActive && app.tool === "marry" && item.kind === "side") chooseSide(item);
    else if (isActive) go(item);
    else return false;
    return true;
  };

  const stop = () => {
    endDraft();
    app.marrying = null;
    app.tool = "select";
    announce("Nothing is drawn or married now.");
    app.drawNow();
    itemsOn(svg).find((each) => each.getAttribute("tabindex") === "0")?.focus({ preventScroll: true });
    app.render();
  };

  const step = (item, [dx, dy], fine) => {
    const ring = ringOf(outlineOf(item.id), item.hole), size = app.paper.spacing * (fine ? 0.1 : 1);
    const to = [ring[item.n][0] + dx * size, ring[item.n][1] + dy * size].map((n) => Math.round(n * 1e6) / 1e6);
    moveCorner(item, to);
  };

  document.addEventListener("keydown", (event) => {
    const isWriting = event.target.closest?.("input, textarea, select");
    if (!(event.ctrlKey || event.metaKey) || isWriting || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key === "z") app.step(event.shiftKey ? "redo" : "undo");
    else if (key === "y") app.step("redo");
    else return;
    event.preventDefault();
  });
};
