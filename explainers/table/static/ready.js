// Ready outlines, put in with their sizes: as what is chosen, or as a new piece.
import { app } from "./app.js";
import { announce, choice, h } from "./dom.js";
import { endDraft } from "./draw.js";
import { read } from "./plane.js";

let chosen = "rectangle";

const sizesIn = (form, kind) => {
  const sizes = {};
  for (const { name, optional } of kind.sizes) {
    const text = form.elements[name].value.trim();
    if (text === "" && optional) continue;
    const number = read(text);
    if (number === null) return null;
    sizes[name] = number;
  }
  return sizes;
};

export const readyPart = (field, outline) => {
  const kind = app.choices.ready.find((each) => each.name === chosen);
  const isNew = field === null, isFirst = !isNew && !outline;
  const send = async (event) => {
    event.preventDefault();
    const sizes = sizesIn(event.target, kind);
    if (!sizes) {
      announce("Write a number for each size, such as 2 or 1.5.");
      return;
    }
    const at = isNew ? `pieces[${app.store.state.outlines.filter((each) => each.role === "piece").length}]` : field;
    const told = await app.store.edit(...(isNew ? [{ do: "add-piece", does: "join" }] : []), { do: "set-ready", at, ready: chosen, sizes });
    if (told.done) {
      endDraft();
      app.tool = "select";
      const made = app.store.state.outlines.find((each) => each.field === at);
      if (made) app.selected = { id: made.id, kind: "outline", hole: null, n: null };
      announce(`A ready outline, ${chosen}, is in its place.`);
      app.render();
    }
  };
  const name = isNew || isFirst ? "ready-new" : "ready-here";
  return h("details", { "data-key": name }, h("summary", { "data-key": `${name}-open` }, isNew ? "A ready outline as a new piece" : isFirst ? "Begin with a ready outline" : outline?.corners.length ? "Make it a ready outline" : "Take a ready outline"),
    choice(`${name}-kind`, "Outline", app.choices.ready.map((each) => [each.name, each.name]), chosen, (value) => {
      chosen = value;
      app.render();
    }),
    h("p", { class: "quiet" }, kind.what),
    h("form", { class: "numbers", onsubmit: send },
      kind.sizes.map((size) => h("label", { class: "field short" }, h("span", {}, size.name), h("input", {
        name: size.name, "data-key": `${name}-${chosen}-${size.name}`, value: size.example ?? "", inputmode: "decimal", title: size.what, autocomplete: "off",
      }))),
      h("button", { type: "submit", "data-key": `${name}-put` }, "Put it in")));
};

