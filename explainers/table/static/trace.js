// A drawing traced: a file is read by the program, what was read is shown over it, a person puts it right and takes it.
// Until it is taken nothing of the question is changed.
import { app, capital } from "./app.js";
import { announce, button, choice, field, h, redraw } from "./dom.js";
import { endDraft } from "./draw.js";
import { originalOf } from "./original.js";
import { box, read, typed } from "./plane.js";
import { drawRead } from "./trace_seen.js";
import { layUnder } from "./underlay.js";

const TYPES = ["image/png", "image/jpeg", "image/svg+xml",
  "application/vnd.openxmlformats-officedocument.presentationml.presentation", ".png", ".jpg", ".jpeg", ".svg", ".pptx"];
const MOST = 30_000_000;
const MOST_LONG = 24; // units that a base is long, most often
const TRUST = "Nothing has been checked against the original but by your eye: compare every corner before you take it.";

let now = null; // what is being traced: {file, asked, told, original, fault, isReading, isAsked}
let round = 0;

const said = h("p", { class: "trace-said", role: "status" });
const panel = h("div", { class: "trace-panel" });
const foot = h("div", { class: "row trace-foot" });
const image = h("img", { alt: "" });
const over = document.createElementNS("http://www.w3.org/2000/svg", "svg");
const sheet = h("div", { class: "trace-sheet" }, image, over);
const dialog = h("dialog", { id: "trace", "aria-labelledby": "trace-title" },
  h("h2", { id: "trace-title", tabindex: -1 }, "Trace a drawing"), said,
  h("div", { class: "trace-body" }, h("div", { class: "trace-picture" }, sheet), panel), foot);
const chooser = h("input", { type: "file", accept: TYPES.join(","), hidden: true, tabindex: -1, "aria-hidden": "true" });
document.body.append(dialog, chooser);

const say = (words) => {
  said.textContent = "";
  requestAnimationFrame(() => {
    said.textContent = words;
  });
};

const choose = () => {
  chooser.value = ""; // so that the same file can be chosen again
  chooser.click();
};

/** The button that begins it. */
export const tracePart = () => button("trace", "Trace a drawing", choose,
  { title: "An SVG drawing, a slide (PPTX), a picture or a photo of squared paper; or drop one on the page" });

chooser.addEventListener("change", () => {
  const [file] = chooser.files;
  if (file) begin(file);
});

const begin = (file) => {
  if (now?.original?.url) URL.revokeObjectURL(now.original.url);
  now = { file, asked: { unit: 1, grid: 0.5, slide: 1, base: null, without: new Set(), holes: new Set(), pieces: new Set() },
    bytes: null, told: null, original: null, fault: null, isReading: false, isAsked: false };
  if (!dialog.open) dialog.showModal();
  document.getElementById("trace-title").focus();
  readAnew();
};

/** Ask the program, with all that has been put right; only the newest answer counts. */
const readAnew = async () => {
  const mine = ++round, { file, asked } = now;
  now.isReading = true;
  now.isAsked = false;
  now.fault = null;
  say("Reading the drawing …");
  render();
  if (!file.size || file.size > MOST) {
    return failed(file.size ? { message: `the file has more than ${MOST / 1e6} million bytes`, fix: "save it smaller" }
      : { message: "the file is empty", fix: "choose another" });
  }
  const query = new URLSearchParams({ unit: typed(asked.unit), grid: typed(asked.grid), slide: asked.slide, source: file.name.slice(0, 200) });
  if (asked.base !== null) query.set("base", asked.base);
  for (const name of ["without", "holes", "pieces"]) if (asked[name].size) query.set(name, [...asked[name]].join(","));
  let isOk, found;
  try {
    now.bytes ??= new Blob([await file.arrayBuffer()]); // as it is now, whatever becomes of the file
    if (mine !== round || !now) return undefined;
    const answer = await fetch(`trace?${query}`, { method: "POST", headers: { "Content-Type": "application/octet-stream" }, body: now.bytes });
    const isJson = (answer.headers.get("Content-Type") ?? "").includes("json");
    isOk = answer.ok;
    found = isJson ? await answer.json() : { message: (await answer.text()).trim().replace(/\.$/, ""), fix: "" };
  } catch {
    isOk = false;
    found = { message: "the program does not answer, or the file cannot be opened any more", fix: "see whether it still runs, and choose the file again" };
  }
  if (mine !== round || !now) return undefined;
  if (!isOk) return failed(found);
  const unit = asked.isGuessed ? null : guessed(found);
  asked.isGuessed = true;
  if (unit) {
    asked.unit = unit;
    return readAnew();
  }
  now.original ??= await originalOf(now.bytes, found);
  if (mine !== round || !now) return undefined;
  now.told = found;
  now.isReading = false;
  const { length } = found.outlines, doubts = found.open.length;
  say(`${length === 1 ? "One outline was" : `${length} outlines were`} read; ${doubts ? `${doubts} to be looked at` : "nothing is in doubt"}. ${TRUST}`);
  return render();
};

/** What a length of 1 may be in a drawing whose units are points or hairs: so long that sides are whole, or halves. */
const guessed = ({ kind, outlines }) => {
  const points = outlines.flatMap((each) => [each.corners, ...each.holes].flat()).filter(Boolean), b = box(outlines[0].corners.filter(Boolean));
  const long = Math.max(b.right - b.left, b.high - b.low);
  if (kind !== "drawing" || (long >= 2 && long <= MOST_LONG)) return null;
  for (const part of [1, 2]) {
    for (let n = 2; n <= MOST_LONG; n += 1) {
      const unit = long / n;
      if (points.flat().every((value) => Math.abs((value * part) / unit - Math.round((value * part) / unit)) < 0.03)) return Number(typed(unit)) || null;
    }
  }
  return Number(typed(long / 8)) || null;
};

const failed = ({ message, fix }) => {
  now.isReading = false;
  now.fault = { message, fix };
  say(`It cannot be read: ${message}. ${fix ? `To mend it: ${fix}.` : ""}`);
  render();
};

const change = (what) => {
  what(now.asked);
  readAnew();
};

const ROLES = [["base", "The base"], ["piece", "A piece"], ["hole", "A hole"], ["out", "Left out"]];

/** Say what a shape is. */
const setRole = (number, role) => change((asked) => {
  for (const each of [asked.without, asked.holes, asked.pieces]) each.delete(number);
  if (asked.base === number) asked.base = null;
  if (role === "base") asked.base = number;
  else (role === "out" ? asked.without : role === "hole" ? asked.holes : asked.pieces).add(number);
});

const sizeOf = (corners) => {
  const xs = corners.filter(Boolean).map((p) => p[0]), ys = corners.filter(Boolean).map((p) => p[1]);
  return `${typed(Math.max(...xs) - Math.min(...xs))} × ${typed(Math.max(...ys) - Math.min(...ys))}`;
};

const shapesPart = () => {
  const { told } = now, rows = [];
  for (const each of told.outlines) {
    const does = each.role === "base" ? "" : each.does === "join" ? ", joined" : each.does === "cut" ? ", cut away" : ", joined or cut to be decided";
    rows.push([each.number, each.role, `${each.corners.length} corners, ${sizeOf(each.corners)}${does}`, each.sure && !each.doubts.length]);
    for (const hole of each.hole_numbers) rows.push([hole, "hole", `in outline ${each.number}`, true]);
  }
  for (const each of told.left_out) rows.push([each.number, "out", "left out", true]);
  rows.sort((a, b) => a[0] - b[0]);
  return h("section", {}, h("h3", {}, "What was read"),
    h("p", { class: "quiet" }, "Click the outline that is the base, or say here what each is."),
    h("ul", { class: "trace-shapes" }, rows.map(([number, role, words, sure]) => h("li", { class: role === "out" ? "quiet" : "" },
      h("span", { class: "badge", "aria-hidden": "true" }, String(number)),
      choice(`role-${number}`, `Outline ${number}`, ROLES, role, (value) => setRole(number, value)),
      h("span", {}, words, sure ? "" : h("span", { class: "doubt" }, " · look at it"))))));
};

const told = (title, list, words) => list.length > 0 && h("section", {}, h("h3", {}, title),
  h("ul", { class: "remarks" }, list.slice(0, 30).map((each) => h("li", {}, words(each)))));

const UNITS = { picture: "Squares to a length of 1", slide: "Centimetres to a length of 1", drawing: "Units to a length of 1" };

const numbersPart = () => {
  const { asked, told: { kind } } = now;
  const positive = (key, most) => (value) => {
    const number = read(value);
    if (number > 0 && number <= most) change((each) => {
      each[key] = number;
    });
    else say("Write a number more than 0, such as 1 or 0.5.");
  };
  return h("div", { class: "row" },
    field("trace-unit", UNITS[kind], typed(asked.unit), positive("unit", 1e5), { inputmode: "decimal" }),
    field("trace-grid", "Corners go to every", typed(asked.grid), positive("grid", 1e3), { inputmode: "decimal" }),
    kind === "slide" && slideField());
};

const slideField = () => field("trace-slide", "Slide", String(now.asked.slide), (value) => {
  if (!/^\d{1,4}$/.test(value.trim()) || !Number(value)) return say("Write the number of a slide, such as 1.");
  return change((asked) => {
    Object.assign(asked, { slide: Number(value), base: null, without: new Set(), holes: new Set(), pieces: new Set() });
  });
}, { inputmode: "numeric" });

const nameOf = (about) => {
  const one = now.told.outlines.find((each) => each.name === about);
  return one ? `Outline ${one.number}: ` : "";
};

const isSlide = () => now.told?.kind === "slide" || /\.pptx$/i.test(now.file.name);

const render = () => {
  const { told: found, fault, isReading, original } = now, isRead = !!found && !fault;
  dialog.classList.toggle("reading", isReading || !!fault); // what is shown is of before
  dialog.classList.toggle("without-picture", !found || !original);
  said.classList.toggle("refused", !!fault);
  dialog.setAttribute("aria-busy", String(isReading));
  sheet.hidden = !found || !original;
  if (original && image.getAttribute("src") !== original.url) {
    image.hidden = !original.url;
    if (original.url) image.src = original.url;
    else image.removeAttribute("src");
  }
  image.alt = original?.url ? `The original, ${now.file.name}` : "";
  if (found && original) drawRead(sheet, over, found, original.frame, (number) => setRole(number, "base"));
  redraw(panel,
    fault && found && h("p", {}, button("trace-as-read", "As it was read first", () => change((asked) => {
      Object.assign(asked, { unit: 1, grid: 0.5, slide: 1, base: null, without: new Set(), holes: new Set(), pieces: new Set() });
    }))),
    fault && !found && isSlide() && h("div", { class: "row" }, slideField()),
    found && numbersPart(),
    found?.kind === "slide" && h("p", { class: "quiet" }, "A slide itself cannot be shown here: compare the outlines with it where it was drawn."),
    isRead && shapesPart(),
    isRead && told("Still to be decided", found.open, (each) => `${nameOf(each.about)}${capital(each.message)}. To mend it: ${each.fix}.`),
    isRead && told("Not taken", found.passed, (each) => `✕ ${capital(each.name)}: ${each.message}. To mend it: ${each.fix}.`),
    isRead && told("How it was read", found.remarks, (each) => each));
  redraw(foot, now.isAsked ? askPart() : [
    button("trace-take", "Take it to the table", take, { class: "first", disabled: !isRead || isReading }),
    button("trace-other", "Another drawing", choose),
    button("trace-leave", "Not taken", () => dialog.close()),
  ]);
};

const askPart = () => h("div", { class: "ask", role: "group", "aria-label": "A question" },
  h("p", {}, "There is a question on the table already. It is replaced by this one; one Undo brings it back."),
  h("div", { class: "row" },
    button("trace-replace", "Replace it", put, { class: "first" }),
    button("trace-keep", "Keep it", () => {
      now.isAsked = false;
      render();
      foot.querySelector("button").focus();
    })));

const take = () => {
  if (!app.store.state.outlines.some((each) => each.corners.length)) return put();
  now.isAsked = true;
  render();
  say("There is a question on the table already. Replace it, or keep it?");
  return foot.querySelector("button").focus();
};

/** The one change of the question: a whole text, or of a kind with one outline alone that outline. */
const changed = ({ text, outlines: [base] }) => {
  const { store } = app, { kind, outlines } = store.state;
  if (kind === "join-and-cut") return store.text(text);
  const drawn = outlines.find((each) => each.role !== "piece"), at = drawn?.field ?? "outline";
  return store.edit({ do: "set-corners", at, corners: base.corners },
    ...(drawn?.holes ?? []).map(() => ({ do: "remove", at: `${at}.holes[0]` })),
    ...base.holes.map((corners) => ({ do: "add-hole", at, corners })));
};

const put = async () => {
  const { told: found, original } = now;
  const done = await changed(found);
  if (!done.done) {
    say(done.message ? `It was not taken: ${done.message}.` : "It was not taken: others have changed the question. Look at it, and take it once more.");
    now.isAsked = false;
    render();
    foot.querySelector("button").focus();
    return;
  }
  now.original = null; // it goes under the paper
  now.isTaken = true;
  endDraft();
  Object.assign(app, { tool: "select", marrying: null, selected: null, ask: null, look: true });
  app.homes.clear();
  app.view.fitted = false;
  layUnder(original, found.plane, app.store.state.outlines.map((each) => each.id));
  dialog.close();
  announce(`Taken to the table. ${original.url ? "The original lies underneath: drag corners until they lie on it. " : ""}Nothing has been checked against the original but by your eye.`);
  app.render();
};

dialog.addEventListener("close", () => {
  round += 1;
  if (now?.original?.url) URL.revokeObjectURL(now.original.url);
  image.removeAttribute("src");
  over.replaceChildren();
  if (!now?.isTaken) announce("Not taken: everything is as it was.");
  now = null;
  document.querySelector('[data-key="trace"]')?.focus();
});
new ResizeObserver(() => {
  if (now?.told && now.original) drawRead(sheet, over, now.told, now.original.frame, (number) => setRole(number, "base"));
}).observe(sheet);

/** A file may be dropped anywhere, or put in from the clipboard. */
const holdsFiles = (event) => [...event.dataTransfer?.types ?? []].includes("Files");
for (const kind of ["dragenter", "dragover"]) {
  document.addEventListener(kind, (event) => {
    if (!holdsFiles(event)) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = "copy";
    document.body.classList.add("dropping");
  });
}
document.addEventListener("dragleave", (event) => {
  if (!event.relatedTarget) document.body.classList.remove("dropping");
});
document.addEventListener("drop", (event) => {
  document.body.classList.remove("dropping");
  if (!holdsFiles(event)) return;
  event.preventDefault();
  const [file] = event.dataTransfer.files;
  if (file) begin(file);
});
document.addEventListener("paste", (event) => {
  const [file] = event.clipboardData?.files ?? [];
  if (!file) return;
  event.preventDefault();
  begin(file);
});
