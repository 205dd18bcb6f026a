// Grips on the sheet itself: pieces and options are turned where learners will see them, by mouse, finger or arrow keys.
import { app, capital, nameOf, outlineOf } from "./app.js";
import { announce, h, picture, s } from "./dom.js";
import { writtenOut } from "./draw.js";
import { shown } from "./plane.js";

const FAR = 15; // pixels from what is turned to its grip
const FINGER = 14; // radius of what is pressed
const NEAREST = 9; // of a grip to the edge of the sheet

/** Degrees in [0, 360), to a hundredth. */
export const degrees = (deg) => Math.round((((deg % 360) + 360) % 360) * 100) / 100;

const asked = new Map(); // what was asked for and is not answered yet: presses in a row add up

/** What there is to turn: a piece or an option, with the command that turns it. */
const turning = (part) => {
  const { state, now } = app.store;
  const outline = part.id ? outlineOf(part.id) : null;
  const n = part.id ? -1 : state.options.findIndex((each) => each.label === part.option);
  if (!outline && n < 0) return null;
  const deg = outline ? outline.turned ?? 0 : now.options[n]?.turned ?? 0;
  const at = `${outline ? outline.field : `options[${n}]`}.turned`;
  return {
    key: `turn-${part.id ?? `option-${part.option}`}`, name: outline ? nameOf(outline) : `option ${part.option}`, isOption: !outline, deg,
    commands: (to) => [...(outline ? [] : writtenOut()), { do: "set", at, value: degrees(to) === 0 ? null : degrees(to) }],
  };
};

/** Turn a piece or an option on the sheet to so many degrees. */
export const turnTo = async (one, deg) => {
  const value = degrees(deg);
  asked.set(one.key, value);
  const told = await app.store.edit(...one.commands(value));
  if (asked.get(one.key) === value) asked.delete(one.key);
  if (told.done) announce(`The sheet shows ${one.name} turned by ${shown(value)} degrees.`);
};

export const turnBy = (one, deg) => turnTo(one, (asked.get(one.key) ?? one.deg) + deg);

/** Of a piece, as the buttons beside the sheet turn it. */
export const turningOf = (piece) => turning({ id: piece.id, option: "" });

const boxOf = (svg) => svg.viewBox.baseVal;

/** How far it is from a point inside a box to its edge, in a direction. */
const toEdge = ([x, y], [dx, dy], [left, top, right, low]) => Math.min(
  dx > 1e-9 ? (right - x) / dx : dx < -1e-9 ? (left - x) / dx : Infinity,
  dy > 1e-9 ? (low - y) / dy : dy < -1e-9 ? (top - y) / dy : Infinity,
);

/** Where the grip of a part stands and where its stem begins, in units of the sheet: over its upper side, unturned. */
const gripAt = (part, deg, view, unit) => {
  const angle = ((deg + 90) * Math.PI) / 180, way = [Math.cos(angle), -Math.sin(angle)];
  const sheet = [view.x + NEAREST * unit, view.y + NEAREST * unit, view.x + view.width - NEAREST * unit, view.y + view.height - NEAREST * unit];
  const edge = toEdge(part.middle, way, part.room), far = Math.min(edge + FAR * unit, toEdge(part.middle, way, sheet));
  return [far, Math.min(edge, far)].map((d) => [part.middle[0] + d * way[0], part.middle[1] + d * way[1]]);
};

const onScreen = ([x, y]) => new DOMPoint(x, y).matrixTransform(document.querySelector(".sheet-grips").getScreenCTM());

const drag = (event, one, part) => {
  event.preventDefault();
  let deg = null;
  app.dialling = one.key;
  // The sheet makes room for what is turned, and its middle with it: turned about where it was when it was taken up, an
  // option never runs after its own place.
  const middle = onScreen(part.middle);
  const move = (moved) => {
    const step = moved.altKey ? 1 : 5;
    const to = degrees(Math.round(((Math.atan2(middle.y - moved.clientY, moved.clientX - middle.x) * 180) / Math.PI - 90) / step) * step);
    if (to === deg) return;
    deg = to;
    app.store.try(...one.commands(to));
  };
  // The sheet is drawn anew meanwhile, so the whole page follows the hand.
  const stop = (end) => {
    for (const [name, does] of [["pointermove", move], ["pointerup", stop], ["pointercancel", stop]]) document.removeEventListener(name, does);
    app.dialling = false;
    if (end.type === "pointerup" && deg !== null) turnTo(one, deg);
    else {
      app.store.settle();
      app.render();
    }
  };
  for (const [name, does] of [["pointermove", move], ["pointerup", stop], ["pointercancel", stop]]) document.addEventListener(name, does);
};

const keyed = (event, one) => {
  const way = { ArrowLeft: 1, ArrowUp: 1, ArrowRight: -1, ArrowDown: -1 }[event.key];
  if (!way || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  turnBy(one, way * (event.shiftKey ? 1 : 15));
};

const grip = (part, view, unit) => {
  const one = turning(part);
  if (!one) return null;
  const [x, y] = part.middle, [[gx, gy], edge] = gripAt(part, one.deg, view, unit);
  const isHeld = app.dialling === one.key, line = `M${isHeld ? part.middle : edge}L${gx} ${gy}`;
  const left = gx > view.x + view.width * 0.75;
  return s("g", {
    class: `turn-grip${one.isOption ? " of-option" : ""}${isHeld ? " held" : ""}`, role: "slider", tabindex: 0, "data-key": one.key,
    "aria-label": `${capital(one.name)} on the sheet`, "aria-valuemin": 0, "aria-valuemax": 360, "aria-valuenow": degrees(one.deg),
    "aria-valuetext": `turned by ${shown(degrees(one.deg))} degrees`, "aria-roledescription": "grip that turns",
    onkeydown: (event) => keyed(event, one), onpointerdown: (event) => !event.button && drag(event, one, part),
  },
  s("title", {}, `Turn ${one.name}: drag, or arrow keys`),
  s("path", { class: "stem", d: line }), s("circle", { class: "middle", cx: x, cy: y, r: 2.5 * unit }),
  s("circle", { class: "knob", cx: gx, cy: gy, r: 7 * unit }),
  s("circle", { class: "press", cx: gx, cy: gy, r: FINGER * unit }),
  isHeld && s("text", { x: gx + (left ? -18 : 18) * unit, y: gy + 5 * unit, "font-size": 15 * unit, "text-anchor": left ? "end" : "start" }, `${shown(degrees(one.deg))}°`));
};

/** The sheet with a grip at everything that is turned on it. */
export const sheetWithGrips = (wide) => {
  const { sheet, on_sheet: parts } = app.store.now, shownSheet = picture(sheet, "The question sheet");
  const view = boxOf(shownSheet), unit = view.width / Math.max(120, Math.min(wide, Number(shownSheet.getAttribute("width"))));
  return h("div", { class: "sheet-room" }, shownSheet,
    s("svg", { class: "sheet-grips", viewBox: shownSheet.getAttribute("viewBox"), role: "group", "aria-label": "Grips on the sheet" },
      [...parts].sort((a, b) => Number(!a.option) - Number(!b.option)).map((part) => grip(part, view, unit))));
};
