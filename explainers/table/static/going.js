// A piece shown going to its place and back, on a layer of its own, so that what is drawn anew does not stop it.
import { app, capital, nameOf, outlineOf } from "./app.js";
import { announce, s } from "./dom.js";
import { shapePath, frameOf, wayOf } from "./scene.js";
import { add, average } from "./plane.js";

const over = document.getElementById("over");
let drawnFor = "";

const ghost = (isThere) => {
  const frame = frameOf(app.moving.id), laid = app.store.now.laid.find((each) => each.id === app.moving.id);
  over.replaceChildren();
  if (!frame || !laid) return null;
  over.setAttribute("viewBox", `0 0 ${app.view.width} ${app.view.height}`);
  const part = s("g", { class: "going" }, s("path", { d: shapePath(frame.ring, app.view, frame.shift), class: `shape ${frame.outline.does}` }));
  part.style.transformOrigin = app.view.toPixels(add(average(frame.ring), frame.shift)).map((n) => `${n}px`).join(" ");
  part.style.transform = wayOf(laid, app.view, isThere);
  over.append(part);
  drawnFor = seenNow();
  return part;
};

const seenNow = () => JSON.stringify([app.view.left, app.view.top, app.view.scale, app.view.width, app.view.height, app.store.now.revision,
  app.store.now.laid.find((each) => each.id === app.moving?.id)?.corners]);

/** The paper was drawn anew: the piece stays where it has come to. */
export const keepGoing = () => {
  if (!app.moving) over.replaceChildren();
  else if (seenNow() !== drawnFor) ghost(app.moving.isThere);
};

/** Show a piece going to its place, or back. */
export const showGoing = (id) => {
  const laid = app.store.state.laid.find((each) => each.id === id), goes = !(app.moving?.id === id && app.moving.isThere);
  if (!laid) return;
  app.moving = { id, isThere: goes };
  app.drawNow();
  const part = ghost(!goes);
  part?.getBoundingClientRect(); // where it starts from is taken in before it goes
  if (part) part.style.transform = wayOf(laid, app.view, goes);
  const deg = Math.round(Math.abs(laid.turn_deg) * 100) / 100;
  const words = deg < 1e-9 ? "no turn" : deg === 180 ? "half a turn" : `a turn of ${deg} degrees ${laid.turn_deg > 0 ? "anticlockwise" : "clockwise"}`;
  announce(goes ? `${capital(nameOf(outlineOf(id)))} goes to its place: ${words}.` : `${capital(nameOf(outlineOf(id)))} goes back.`);
  const mine = app.moving;
  if (!goes) {
    setTimeout(() => {
      if (app.moving === mine) app.moving = null;
      app.render();
    }, matchMedia("(prefers-reduced-motion: reduce)").matches ? 0 : 1300);
  }
  app.render();
};
