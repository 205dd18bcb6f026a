// Beside the paper: what can be done with what is drawn or chosen, as named buttons and fields with numbers.
import { app, capital, endsOf, nameOf, outlineOf, partnerOf, pieceNumber, pieces, ringOf } from "./app.js";
import { announce, button, choice, field, h } from "./dom.js";
import { beginDraft, closeDraft, endDraft, putByNumbers, takeBack, wordsOf } from "./draw.js";
import { copy, flip, insertCorner, moveCorner, setMarkAlong, sideUnder, takeOut, turnDrawing } from "./change.js";
import { beginMarrying } from "./marry.js";
import { distance, read, shown, typed } from "./plane.js";
import { putAway } from "./own_options.js";
import { readyPart } from "./ready.js";
import { sizesPart } from "./size_grips.js";

const section = (name, title, ...content) => h("section", { class: `part ${name}`, "aria-label": title }, h("h2", {}, title), content);

export const askPart = () => app.ask && h("div", { class: "ask", role: "group", "aria-label": "A question" },
  h("p", {}, app.ask.words),
  h("div", { class: "row" }, app.ask.answers.map(([key, words, does], n) => button(`ask-${key}`, words, () => {
    app.ask = null;
    does();
    app.render();
  }, n === 0 ? { class: "first" } : {}))));

/** What is in hand: the outline that is being drawn, or what is chosen on the paper. */
export const handPart = () => {
  if (app.tool === "draw" && app.draft) return draftPart();
  const outline = outlineOf(app.selected?.id);
  if (app.tool === "marry") {
    return section("hand", "Marry two sides", h("p", {}, app.marrying.first
      ? `Side ${app.marrying.first.n + 1} of ${nameOf(outlineOf(app.marrying.first.id))} is chosen. Choose its partner: click the side, or drag along a part of it.`
      : "Choose a side of a piece, then the side of the base or of an earlier piece that it meets."),
    h("div", { class: "row" }, button("stop-marrying", "Stop", () => {
      app.tool = "select";
      app.marrying = null;
      app.render();
    })));
  }
  if (!outline) {
    return section("hand", "Nothing chosen", h("p", { class: "quiet" },
      "Choose an outline, a corner or a side on the paper, or draw something new."));
  }
  const { kind } = app.selected;
  return kind === "corner" ? cornerPart(outline) : kind === "side" ? sidePart(outline) : outlinePart(outline);
};

const draftPart = () => {
  const { points, target } = app.draft;
  const value = (form, name) => read(form.elements[name].value);
  return section("hand", `Drawing ${typeof target === "string" ? wordsOf(target) : "the piece"}`,
    h("p", { class: "quiet" }, `${points.length} ${points.length === 1 ? "corner" : "corners"}. Click, or give the next corner by numbers.`),
    h("div", { class: "row" },
      button("close-draft", "Close outline", closeDraft, { class: "first", disabled: points.length < 3 }),
      button("take-back", "Take corner back", takeBack, { disabled: !points.length }),
      button("drop-draft", "Stop", () => {
        endDraft();
        app.tool = "select";
        app.render();
      })),
    h("form", {
      class: "numbers",
      onsubmit: (event) => {
        event.preventDefault();
        const form = event.target;
        putByNumbers({ x: value(form, "x"), y: value(form, "y"), length: value(form, "long"), angle: value(form, "angle") });
        form.reset();
        form.elements[points.length ? "long" : "x"].focus();
      },
    }, [["x", "x"], ["y", "y"], ["long", "Length"], ["angle", "Angle °"]].map(([name, words]) =>
      h("label", { class: "field short" }, h("span", {}, words), h("input", { name, "data-key": `draft-${name}`, inputmode: "decimal", autocomplete: "off" }))),
    h("button", { type: "submit", "data-key": "put" }, "Put corner")));
};

const cornerPart = (outline) => {
  const item = app.selected, ring = ringOf(outline, item.hole), [x, y] = ring[item.n] ?? [0, 0];
  const move = (at) => (value) => {
    const number = read(value);
    if (number === null) announce("Write a number such as 2 or 1.5.");
    else moveCorner(item, at === 0 ? [value.trim().replace(",", "."), y] .map(Number) : [x, number]);
  };
  const before = ring[(item.n + ring.length - 1) % ring.length] ?? [0, 0];
  return section("hand", `Corner ${item.n + 1} of ${nameOf(outline)}`,
    h("div", { class: "row" },
      field("corner-x", "x", typed(x), move(0), { inputmode: "decimal", class: "short" }),
      field("corner-y", "y", typed(y), move(1), { inputmode: "decimal", class: "short" }),
      field("corner-length", "Side before", typed(distance(before, [x, y])), (value) => {
        const long = read(value), now = distance(before, [x, y]);
        if (!(long > 0) || !now) announce("Write a length more than 0.");
        else moveCorner(item, [before[0] + ((x - before[0]) * long) / now, before[1] + ((y - before[1]) * long) / now]);
      }, { inputmode: "decimal", class: "short" })),
    h("div", { class: "row" }, button("remove-corner", "Take corner out", () => takeOut(item))));
};

const sidePart = (outline) => {
  const item = app.selected, ring = ringOf(outline, item.hole);
  const long = distance(ring[item.n] ?? [0, 0], ring[(item.n + 1) % ring.length] ?? [0, 0]);
  return section("hand", `Side ${item.n + 1} of ${nameOf(outline)}`,
    h("p", {}, `It is ${shown(long)} long.`),
    h("div", { class: "row" },
      app.store.state.kind === "join-and-cut" && item.hole === null
        && button("marry-side", "Marry this side", () => beginMarrying(item), { class: "first" }),
      button("insert-corner", "Put a corner in", () => insertCorner(item)),
      item.hole !== null && button("remove-hole", "Take hole out", () => takeOut(item))));
};

/** A piece is known by its name: under another one it stays chosen, and where it was. */
const rename = async (outline, number, name) => {
  const told = await app.store.edit({ do: "rename-piece", piece: number, name });
  const now = told.done && pieces()[number];
  if (!now) return;
  if (app.homes.has(outline.id)) app.homes.set(now.id, app.homes.get(outline.id));
  if (app.selected?.id === outline.id) app.selected = { ...app.selected, id: now.id };
  announce(`The piece is called ${now.name} now.`);
};

const outlinePart = (outline) => {
  const item = app.selected, isPiece = outline.role === "piece", number = pieceNumber(outline);
  return section("hand", capital(nameOf(outline)),
    outline.given && outline.given !== "corners" && h("p", { class: "quiet" },
      `Given as ${outline.given === "walk" ? "a walk" : `a ready outline (${outline.ready})`}. Its grips change its sizes. When a corner is moved, its corners are listed instead.`),
    sizesPart(outline),
    isPiece && h("div", { class: "row" },
      field("piece-name", "Name", outline.name, (value) => rename(outline, number, value.trim()), { class: "name" }),
      h("fieldset", { class: "switch" }, h("legend", {}, "It is"), [["join", "joined"], ["cut", "cut away"]].map(([does, words]) =>
        h("label", {}, h("input", {
          type: "radio", name: "does", value: does, checked: outline.does === does, "data-key": `does-${does}`,
          onchange: () => app.store.edit({ do: "set", at: `${outline.field}.does`, value: does }).then((told) => told.done && announce(`The ${outline.name} is ${words}.`)),
        }), words)))),
    outline.role === "option" && h("p", { class: "quiet" }, "An option drawn by hand. What is changed here is changed in the option."),
    isPiece && marriagePart(outline),
    h("div", { class: "row" },
      button("turn-left", "Turn drawing 15° left", () => turnDrawing(outline, 15)),
      button("turn-right", "Turn drawing 15° right", () => turnDrawing(outline, -15)),
      app.store.state.kind === "join-and-cut" && button("copy", "Copy", () => copy(outline)),
      app.store.state.kind === "join-and-cut" && button("flip", "Flipped copy", () => flip(outline), { title: "A new outline, this one turned over" }),
      outline.role === "option" && button("put-away", "Put it away", putAway),
      button("draw-hole", "Draw a hole", () => beginDraft("hole")),
      isPiece && button("remove-piece", "Take piece out", () => takeOut(item))),
    readyPart(outline.field, outline));
};

/** Where a mark lies on its side, by numbers: its own one only where it is, or may be, a part of it. */
const markFields = (piece, key, name, words, ends, whole) => {
  if (!ends || !whole || (key === "side" && !Array.isArray(piece.side))) return [];
  const from = Math.min(...ends.map((p) => distance(whole[0], p))), long = distance(...ends);
  const put = (isGood, does) => (value) => {
    const number = read(value);
    if (number === null || !isGood(number)) announce("Write a number such as 1 or 0.5.");
    else does(number);
  };
  return [h("div", { class: "row" },
    field(`${name}-from`, words, typed(from), put((n) => n >= 0, (start) => setMarkAlong(piece, key, ends, whole, start, long)), { inputmode: "decimal", class: "short" }),
    field(`${name}-long`, "for a length of", typed(long), put((n) => n > 0, (size) => setMarkAlong(piece, key, ends, whole, from, size)), { inputmode: "decimal", class: "short" }))];
};

const marriagePart = (piece) => {
  const number = pieceNumber(piece), side = endsOf(piece.side, piece), partner = partnerOf(piece);
  const meets = partner && endsOf(piece.meets, partner), whole = partner && sideUnder(partner, meets);
  const laid = app.store.now.laid.find((each) => each.id === piece.id);
  const signs = [["", "the sign of its place"], ...app.choices.signs.map((name) => [name, name])];
  return [
    h("p", {}, laid ? laid.line : side && meets ? `Meets ${nameOf(partner)}.` : "Not married yet."),
    h("div", { class: "row" },
      laid && button("show-going", app.moving?.id === piece.id && app.moving.isThere ? "Bring it back" : "Show it go to its place", () => app.showGoing(piece.id), { class: "first" }),
      choice("sign", "Sign", signs, piece.mark ? "" : piece.sign, (name) => app.store.edit({ do: "set-mark", piece: number, sign: name || null }))),
    ...markFields(piece, "side", "own", "Its mark from", side, side && sideUnder(piece, side)),
    ...markFields(piece, "meets", "met", "Meets from", meets, whole),
  ];
};

/** The pieces in their order, moved by a grip or by buttons. */
export const piecesPart = () => {
  if (app.store.state.kind !== "join-and-cut") return null;
  const all = pieces();
  const move = (from, to) => app.store.edit({ do: "reorder", at: "pieces", from, to })
    .then((told) => told.done && announce(`${capital(nameOf(pieces()[to]))} is piece ${to + 1} now.`));
  return section("pieces", "Pieces in order", all.length ? h("ol", { class: "ordered", "data-move": "pieces" }, all.map((piece, n) => h("li", { "data-n": n },
    h("span", { class: "grip", "aria-hidden": "true" }, "\u2630"),
    button(`piece-${piece.id}`, `${capital(piece.name || "piece")}: ${piece.does || "join or cut?"}`, () => {
      app.selected = { id: piece.id, kind: "outline", hole: null, n: null };
      app.tool = "select";
      app.render();
    }, { class: "wide", "aria-pressed": String(app.selected?.id === piece.id) }),
    !piece.given && button(`draw-${piece.id}`, "Draw it", () => beginDraft({ redraw: piece.field })),
    button(`up-${piece.id}`, "\u2191", () => move(n, n - 1), { disabled: n === 0, "aria-label": `${piece.name} earlier` }),
    button(`down-${piece.id}`, "\u2193", () => move(n, n + 1), { disabled: n === all.length - 1, "aria-label": `${piece.name} later` }))))
    : h("p", { class: "quiet" }, "None yet. Draw one beside the base."));
};
