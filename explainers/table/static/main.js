// The drawing table: what is told by the program goes to the paper and beside it, what is done goes back.
import { app, capital, outlineOf } from "./app.js";
import { isEmpty, kindPart } from "./beginning.js";
import { renderBuild, takeBuilds } from "./build.js";
import { announce, button, field, h, redraw } from "./dom.js";
import { beginDraft, endDraft, targetNow, writtenOut } from "./draw.js";
import { aroundAll } from "./frames.js";
import { keepGoing, showGoing } from "./going.js";
import { takeHands } from "./hands.js";
import { askPart, handPart, piecesPart } from "./inspector.js";
import { takeKeys } from "./keys.js";
import { renderLesson, takeLesson } from "./lesson.js";
import { beginMarrying } from "./marry.js";
import { drawMarks, takeMarks } from "./mends.js";
import { takeLists } from "./moving_lists.js";
import { noteChange } from "./notes_here.js";
import { optionsPart } from "./options.js";
import { nextPart, noteDown, notesPart, takeNotes } from "./next.js";
import { read } from "./plane.js";
import { readyPart } from "./ready.js";
import { bannerPart, fileLine, sheetPart, textPart, verdictPart } from "./report.js";
import { drawScene, framesNow } from "./scene.js";
import { tracePart } from "./trace.js";
import { turnsPart } from "./turns.js";
import { placeUnder, underlayPart } from "./underlay.js";
import { View } from "./view.js";

const part = (id) => document.getElementById(id);
const paper = part("paper");
app.view = new View();
const marks = document.getElementById("marks");
takeMarks(marks);

const measure = () => {
  const { width, height } = paper.getBoundingClientRect();
  app.view.width = Math.max(100, width);
  app.view.height = Math.max(100, height);
};

app.drawNow = () => {
  if (!app.store.now) return;
  measure();
  if (!app.view.fitted && paper.getBoundingClientRect().width) {
    app.view.fitted = true;
    drawScene(paper, app.view, app.store.now);
    app.view.fit(aroundAll(framesNow()));
  }
  drawScene(paper, app.view, app.store.now);
  const ids = framesNow().map((each) => each.id).join(" ");
  if ((ids !== known || app.look) && !app.draft && !app.drag) {
    known = ids;
    app.look = false;
    if (!inSight()) {
      app.view.fit(aroundAll(framesNow()));
      drawScene(paper, app.view, app.store.now);
    }
  }
  keepGoing();
  placeUnder();
};

let known = "";
const inSight = () => framesNow().every(({ box }) => {
  const [x, y] = app.view.toPixels([box.left, box.high]), [right, low] = app.view.toPixels([box.right, box.low]);
  return x >= 10 && y >= 30 && right <= app.view.width - 10 && low <= app.view.height - 10;
});

const tools = () => {
  const { state } = app.store, marries = state.kind === "join-and-cut";
  const tool = (name, words, does) => button(`tool-${name}`, words, does, { "aria-pressed": String(app.tool === name) });
  return [
    h("div", { class: "row", role: "group", "aria-label": "Tools" },
      tool("select", "Choose", () => {
        endDraft();
        app.marrying = null;
        app.tool = "select";
        app.render();
      }),
      tool("draw", { base: "Draw the base", option: "Draw an option" }[targetNow()] ?? "Draw a piece", () => {
        beginDraft();
        app.drawNow();
        paper.querySelector(".cursor-hit")?.focus({ preventScroll: true });
      }),
      marries && tool("marry", "Marry sides", () => {
        const item = app.selected?.kind === "side" && outlineOf(app.selected.id)?.role === "piece" ? app.selected : null;
        beginMarrying(item);
      })),
    tracePart(),
    h("div", { class: "row", role: "group", "aria-label": "Undo and redo" },
      button("undo", "Undo", () => app.step("undo"), { disabled: !state.undo }),
      button("redo", "Redo", () => app.step("redo"), { disabled: !state.redo })),
  ];
};

const paperTools = () => [
  button("zoom-out", "−", () => zoomed(1 / 1.25), { "aria-label": "Smaller" }),
  button("zoom-in", "+", () => zoomed(1.25), { "aria-label": "Larger" }),
  button("fit", "Show all", () => {
    app.view.fit(aroundAll(framesNow()));
    app.render();
  }),
  h("details", { "data-key": "paper-settings", class: "pop" }, h("summary", { "data-key": "paper-open" }, "Paper"),
    h("div", { class: "pop-up" },
      h("fieldset", { class: "switch" }, h("legend", {}, "Paper"), ["squares", "triangles"].map((kind) => h("label", {}, h("input", {
        type: "radio", name: "paper-kind", "data-key": `paper-${kind}`, checked: app.paper.kind === kind, onchange: () => {
          app.paper.kind = kind;
          app.homes.clear();
          app.render();
        },
      }), kind))),
      field("paper-spacing", "Spacing", String(app.paper.spacing), (value) => {
        const spacing = read(value);
        if (spacing > 0 && spacing <= 1000) app.paper.spacing = spacing;
        app.homes.clear();
        app.render();
      }, { inputmode: "decimal", class: "short" }),
      h("div", { class: "row" }, [["halves", "½", 1 / 2, "half as wide"], ["fifths", "⅕", 1 / 5, "a fifth as wide"], ["double", "× 2", 2, "twice as wide"], ["fives", "× 5", 5, "five times as wide"]]
        .map(([key, words, by, told]) => button(`spacing-${key}`, words, () => {
          app.paper.spacing = Math.min(1000, Math.max(1e-3, Math.round(app.paper.spacing * by * 1e6) / 1e6));
          app.homes.clear();
          app.render();
        }, { "aria-label": `Spacing ${told}` }))),
      h("label", { class: "tick" }, h("input", {
        type: "checkbox", "data-key": "snaps", checked: app.paper.snaps, onchange: (event) => {
          app.paper.snaps = event.target.checked;
        },
      }), "corners snap to it"),
      h("div", { class: "row" }, [["left", -60, 0], ["right", 60, 0], ["up", 0, -60], ["down", 0, 60]].map(([way, dx, dy]) =>
        button(`pan-${way}`, { left: "←", right: "→", up: "↑", down: "↓" }[way], () => {
          app.view.pan(-dx, -dy);
          app.render();
        }, { "aria-label": `See more on the ${way === "up" ? "top" : way === "down" ? "bottom" : way}` }))))),
];

const zoomed = (factor) => {
  app.view.zoom(factor);
  app.render();
};

/** The paper alone, in the next frame: while something on it follows the hand. */
let paperAsked = false;
app.renderPaper = () => {
  if (paperAsked) return;
  paperAsked = true;
  requestAnimationFrame(() => {
    paperAsked = false;
    app.drawNow();
    if (!app.drag) drawMarks(marks); // told anew when the drag has come to something
  });
};

let asked = false;
app.render = () => {
  if (asked) return;
  asked = true;
  requestAnimationFrame(() => {
    asked = false;
    renderNow();
  });
};

// A button that is drawn anew between press and release would not be pressed: what is beside the paper waits.
let isPressed = false, release = 0;
document.addEventListener("pointerdown", (event) => {
  clearTimeout(release); // of the press before, which must not end this one
  isPressed = !paper.contains(event.target);
}, true);
for (const end of ["pointerup", "pointercancel"]) {
  document.addEventListener(end, () => {
    clearTimeout(release);
    release = setTimeout(() => {
      isPressed = false;
      app.render();
    });
  }, true);
}

/** What stands below the drawing, by itself: it has news of its own, for which nothing else is drawn anew. */
const below = () => {
  if (isPressed || !app.store.state) return;
  renderLesson(part("steps"));
  renderBuild(part("build"));
};
app.renderBelow = () => requestAnimationFrame(below);

let seen = null;
const renderNow = () => {
  const { store } = app;
  if (!store.state) return;
  const { selected } = app;
  if (selected && !outlineOf(selected.id)) app.selected = null;
  app.drawNow();
  // Of what stands beside the paper only the sheet is drawn anew under a hand that turns something on it: what stands over it
  // would push it away. Turned so that there is no sheet, the last one stays until it is let go.
  if (app.dialling && (store.now.sheet || app.dialling === true)) redraw(part("sheet"), sheetPart(turnsPart()));
  if (isPressed) return;
  drawMarks(marks);
  redraw(part("tools"), tools());
  redraw(part("paper-tools"), paperTools());
  redraw(part("banner"), bannerPart());
  redraw(part("file"), fileLine());
  redraw(part("hand"), askPart(), notesPart(), kindPart(), nextPart(), underlayPart(), handPart(), piecesPart(),
    (isEmpty() ? readyPart(store.state.outlines[0]?.field ?? "base", null) : store.state.kind === "join-and-cut" && readyPart(null, null)));
  if (app.ask && seen !== app.ask) part("hand").querySelector(".ask button")?.focus();
  seen = app.ask;
  redraw(part("verdict"), verdictPart());
  redraw(part("sheet"), sheetPart(turnsPart()));
  redraw(part("options"), optionsPart());
  redraw(part("text"), textPart());
  below();
  document.title = `${store.state.title || store.state.name} · drawing table`;
  if (part("title").textContent !== (store.state.title || store.state.name)) part("title").textContent = store.state.title || store.state.name;
};

app.step = async (way) => {
  const told = await app.store[way]();
  if (told.done) announce(`${way === "undo" ? "Undone" : "Done again"}: the question is ${app.store.state.verdict.state === "refused" ? "not finished" : app.store.state.verdict.state} now.`);
};

app.showGoing = showGoing;

let why = null;
app.store.addEventListener("state", () => {
  const other = app.store.state.file.other;
  if (other && other.why !== why) setTimeout(() => announce("There is a question about the file, at the top of the page."), 60);
  why = other?.why ?? null;
  if (app.moving && !app.store.state.laid.some((each) => each.id === app.moving.id)) app.moving = null;
  app.render();
});
app.store.addEventListener("later", () => app.render());
app.store.addEventListener("mends", () => { // the paper stays as it is
  if (isPressed) return; // drawn with the rest when it is let go
  drawMarks(marks);
  redraw(part("verdict"), verdictPart());
  redraw(part("options"), optionsPart());
});
app.store.addEventListener("quiet", () => {
  paper.dataset.quiet = app.store.later.revision;
});
app.store.addEventListener("done", ({ detail }) => {
  noteChange(detail.notes);
  takeNotes(detail.notes ?? []);
  if (detail.merged) noteDown("Others have changed the file too; both changes are kept.");
});
app.store.addEventListener("others", () => { // what is asked about the file is told by itself
  if (!app.store.state.file.other) noteDown("The question was changed elsewhere: you see it as it is now.");
});
app.store.addEventListener("refused", ({ detail }) => {
  const why = detail.why === "clash" ? "Others have changed the same field. Look at it again: the page shows theirs now."
    : detail.why === "stale" ? "Others were quicker. Look at it again, and do it once more."
      : `${capital(detail.message ?? "it cannot be done")}. ${detail.fix ? `${capital(detail.fix)}.` : ""}`;
  announce(why);
});

part("look").addEventListener("click", () => {
  const dark = document.documentElement.dataset.theme
    ? document.documentElement.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  document.documentElement.dataset.theme = dark ? "light" : "dark";
});
let wide = 0;
new ResizeObserver(() => {
  const { width } = paper.getBoundingClientRect();
  if (wide && Math.abs(width - wide) > 1) app.view.fitted = false; // as when a tablet is turned
  wide = width;
  app.render();
}).observe(paper);
takeHands(paper);
takeKeys(paper);
takeLesson(part("steps"));
takeBuilds();
for (const id of ["hand", "options"]) {
  takeLists(part(id), (at, from, to) => app.store.edit(...(at === "options" ? writtenOut() : []), { do: "reorder", at, from, to })
    .then((told) => told.done && announce(`Moved to place ${to + 1}.`)));
}
app.choices = await (await fetch("choices", { cache: "no-store" })).json();
await app.store.start();
if (isEmpty() && app.store.state.readable) beginDraft();
