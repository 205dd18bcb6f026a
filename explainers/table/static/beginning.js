// An empty page: which kind of question it is to be is chosen before anything is drawn.
import { app, capital } from "./app.js";
import { announce, h } from "./dom.js";
import { beginDraft, endDraft } from "./draw.js";

/** Whether nothing is drawn yet. */
export const isEmpty = () => !app.store.state.outlines.some((each) => each.corners.length || each.given);

const choose = async (kind) => {
  if (kind === app.store.state.kind) return;
  endDraft();
  const told = await app.store.edit({ do: "set", at: "kind", value: kind === app.choices.kinds[0] ? null : kind });
  if (!told.done) return;
  beginDraft();
  announce(`The question is of the kind ${words(kind)} now. Draw its outline.`);
};

const words = (kind) => kind.replaceAll("-", " ");

/** The kinds of question there are, the usual one first. */
export const kindPart = () => {
  const { kinds } = app.choices, { state } = app.store;
  if (!isEmpty() || !state.readable || kinds.length < 2 || app.draft?.points.length) return null;
  return h("section", { class: "part", "aria-label": "The kind of question" },
    h("fieldset", { class: "switch" }, h("legend", {}, "The kind of question"), kinds.map((kind) => h("label", {}, h("input", {
      type: "radio", name: "kind", "data-key": `kind-${kind}`, checked: state.kind === kind, onchange: () => choose(kind),
    }), capital(words(kind))))));
};
