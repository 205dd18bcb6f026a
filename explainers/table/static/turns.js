// How the sheet shows each piece: turned by buttons, by a number; by a dial as long as there is no sheet with grips of its own.
import { app, capital, pieces } from "./app.js";
import { announce, button, field, h, s } from "./dom.js";
import { average, distance, read, turned, typed } from "./plane.js";
import { turnBy, turnTo, turningOf } from "./sheet_grips.js";

const SIZE = 116;

const dial = (piece) => {
  const centre = average(piece.corners), far = Math.max(...piece.corners.map((p) => distance(p, centre)), 1e-9);
  const at = (p) => {
    const [x, y] = turned([(p[0] - centre[0]) / far, (p[1] - centre[1]) / far], piece.turned).map((n) => n * (SIZE / 2 - 24));
    return [SIZE / 2 + x, SIZE / 2 - y];
  };
  const [gx, gy] = turned([SIZE / 2 - 13, 0], piece.turned + 90).map((n, k) => (k === 0 ? SIZE / 2 + n : SIZE / 2 - n));
  let dragged = null;
  const degOf = (event) => {
    const rect = document.querySelector(`[data-dial="${CSS.escape(piece.id)}"]`).getBoundingClientRect();
    const deg = (Math.atan2(rect.top + rect.height / 2 - event.clientY, event.clientX - rect.left - rect.width / 2) * 180) / Math.PI - 90;
    const step = event.altKey ? 1 : 5;
    return ((Math.round(deg / step) * step) % 360 + 360) % 360;
  };
  const move = (event) => {
    const deg = degOf(event);
    if (deg === dragged) return;
    dragged = deg;
    app.store.try({ do: "set", at: `${piece.field}.turned`, value: deg });
  };
  const begin = (event) => {
    event.preventDefault();
    app.dialling = true;
    // The dial is drawn anew meanwhile, so the whole page follows the hand.
    const stop = (end) => {
      document.removeEventListener("pointermove", move);
      document.removeEventListener("pointerup", stop);
      document.removeEventListener("pointercancel", stop);
      app.dialling = false;
      if (end.type === "pointerup" && dragged !== null) turnTo(turningOf(piece), dragged);
      else {
        app.store.settle();
        app.render();
      }
    };
    document.addEventListener("pointermove", move);
    document.addEventListener("pointerup", stop);
    document.addEventListener("pointercancel", stop);
  };
  return s("svg", { class: "dial", viewBox: `0 0 ${SIZE} ${SIZE}`, width: SIZE, height: SIZE, "aria-hidden": "true", "data-dial": piece.id },
    s("circle", { class: "dial-ring", cx: SIZE / 2, cy: SIZE / 2, r: SIZE / 2 - 13 }),
    s("path", { class: `shape ${piece.does || "join"}`, d: `M${piece.corners.map((p) => at(p).map((n) => n.toFixed(1))).join("L")}Z` }),
    s("circle", { class: "dial-grip", cx: gx, cy: gy, r: 8 }),
    s("circle", { class: "dial-hit", cx: gx, cy: gy, r: 13, onpointerdown: begin }));
};

export const turnsPart = () => {
  const all = pieces().filter((piece) => piece.corners.length > 2);
  if (!all.length) return null;
  return h("div", { class: "turns" }, h("h3", {}, "How the sheet shows each piece"), h("ul", {}, all.map((piece) => h("li", {},
    app.store.now.on_sheet.some((each) => each.id === piece.id) ? null : dial(piece),
    h("div", {},
      field(`turned-${piece.id}`, `${capital(piece.name || "piece")} turned °`, typed(piece.turned), (value) => {
        const deg = read(value);
        if (deg === null) announce("Write a number of degrees such as 45.");
        else turnTo(turningOf(piece), deg);
      }, { inputmode: "decimal", class: "short" }),
      h("div", { class: "row" },
        button(`sheet-left-${piece.id}`, "↺ 15°", () => turnBy(turningOf(piece), 15), { "aria-label": `${piece.name} on the sheet 15 degrees left` }),
        button(`sheet-right-${piece.id}`, "↻ 15°", () => turnBy(turningOf(piece), -15), { "aria-label": `${piece.name} on the sheet 15 degrees right` })))))));
};
