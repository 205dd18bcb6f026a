// The original beneath the outlines that were traced from it, laid to their coordinates, so that corners are dragged over it.
import { app } from "./app.js";
import { announce, button, h } from "./dom.js";

const MOST_SIDE = 1600;

const paper = document.getElementById("paper");
const image = h("img", { alt: "" });
const under = h("div", { id: "under", "aria-hidden": "true" }, image);
paper.before(under);

const product = (a, b) => a.map((row) => b[0].map((_, n) => row[0] * b[0][n] + row[1] * b[1][n] + row[2] * b[2][n]));

const inverse = ([[a, b, c], [d, e, f], [g, p, i]]) => {
  const of = a * (e * i - f * p) - b * (d * i - f * g) + c * (d * p - e * g);
  return of ? [
    [e * i - f * p, c * p - b * i, b * f - c * e],
    [f * g - d * i, a * i - c * g, c * d - a * f],
    [d * p - e * g, b * g - a * p, a * e - b * d],
  ].map((row) => row.map((value) => value / of)) : null;
};

/** Lay a picture under the paper. plane takes (x, y, 1) of the item to the source; ids: the outlines that were traced. */
export const layUnder = ({ url, frame }, plane, ids) => {
  putAway();
  const back = inverse(plane);
  if (!url || !back) return;
  const by = Math.min(1, MOST_SIDE / Math.max(frame.width, frame.height)) || 1;
  const size = [Math.max(1, frame.width * by), Math.max(1, frame.height * by)];
  const way = product(back, [[frame.width / size[0], 0, frame.x], [0, frame.height / size[1], frame.y], [0, 0, 1]]);
  app.underlay = { url, size, way, ids: new Set(ids), strength: 70, isShown: true, since: app.store.state.undo, text: app.store.state.text, isUndone: false };
  image.src = url;
  image.style.width = `${size[0]}px`;
  image.style.height = `${size[1]}px`;
};

const putAway = () => {
  if (app.underlay) URL.revokeObjectURL(app.underlay.url);
  app.underlay = null;
  image.removeAttribute("src");
};

/** Whether the original lies under the paper now: not while its taking is undone. */
export const isUnder = () => !!app.underlay?.isShown && !isUndone();

const isUndone = () => app.store.state.undo < app.underlay.since;

/** Whether an outline stands where it lies on the original. */
export const isOver = (id) => isUnder() && app.underlay.ids.has(id);

/** With every drawing of the paper: the picture where the view has it. */
export const placeUnder = () => {
  if (app.underlay?.isUndone && app.store.state.undo === app.underlay.since && app.store.state.text !== app.underlay.text) {
    putAway(); // its taking was undone, and something else done instead
    app.homes.clear();
    app.render();
  }
  if (app.underlay) app.underlay.isUndone = isUndone();
  const { underlay, view } = app, base = app.store.now?.outlines.find((each) => each.role !== "piece");
  const isSeen = isUnder() && !!base?.corners.length;
  under.hidden = !isSeen;
  paper.classList.toggle("over-picture", isSeen);
  if (!isSeen) return;
  const { scale, left, top } = view, [wide, high] = underlay.size;
  const seen = product([[scale, 0, -left * scale], [0, -scale, top * scale], [0, 0, 1]], underlay.way);
  const middle = seen[2][0] * (wide / 2) + seen[2][1] * (high / 2) + seen[2][2] || 1;
  const [[a, b, c], [d, e, f], [g, p, i]] = seen.map((row) => row.map((value) => value / middle));
  image.style.transform = `matrix3d(${[a, d, 0, g, b, e, 0, p, 0, 0, 1, 0, c, f, 0, i].join(",")})`;
  image.style.opacity = String(underlay.strength / 100);
};

export const underlayPart = () => app.underlay && !isUndone() && h("section", { class: "part", "aria-label": "The original underneath" },
  h("h2", {}, "The original underneath"),
  h("p", { class: "quiet" }, "Drag corners until they lie on the picture. Nothing has been checked against it but by your eye."),
  h("div", { class: "row" },
    h("label", { class: "tick" }, h("input", {
      type: "checkbox", "data-key": "underlay", checked: app.underlay.isShown, onchange: (event) => {
        app.underlay.isShown = event.target.checked;
        app.homes.clear();
        app.look = true;
        announce(app.underlay.isShown ? "The original is shown: all outlines lie where they were traced."
          : "The original is hidden: the pieces lie beside the base.");
        app.render();
      },
    }), "show it"),
    h("label", { class: "field" }, h("span", {}, "How strongly"), h("input", {
      type: "range", min: 10, max: 100, step: 5, value: app.underlay.strength, "data-key": "underlay-strength",
      "aria-valuetext": `${app.underlay.strength} per cent`, oninput: (event) => {
        app.underlay.strength = Number(event.target.value);
        event.target.setAttribute("aria-valuetext", `${app.underlay.strength} per cent`);
        placeUnder();
      },
    })),
    button("underlay-away", "Put it away", () => {
      putAway();
      app.homes.clear();
      app.look = true;
      announce("The original is put away.");
      app.render();
    })));
