// The options: as learners see them, what each shows, and every slip that could be another one.
import { app } from "./app.js";
import { announce, button, field, h, picture } from "./dom.js";
import { mendsOf, offersOf } from "./mends.js";
import { beginDraft, writtenOut } from "./draw.js";
import { openButton, ownButtons } from "./own_options.js";
import { read, typed } from "./plane.js";

const edit = (words, ...commands) => app.store.edit(...writtenOut(), ...commands).then((told) => {
  if (told.done && words) announce(words);
  return told;
});

const number = (words, key, label, value, send) => field(key, label, typed(value), (text) => {
  const given = read(text);
  if (given === null) announce("Write a number such as 45 or 1.5.");
  else send(given);
}, { inputmode: "decimal", class: "short", "aria-label": `${words}: ${label}` });

const sizeButton = (option, at, id, name, by) => {
  const scale = Math.round(((option.scale ?? 1) + by) * 100) / 100;
  return button(`option-${by < 0 ? "smaller" : "larger"}-${id}`, by < 0 ? "Smaller" : "Larger", () => edit(`${name} has the size ${scale} now.`,
    { do: "set", at: `${at}.scale`, value: scale === 1 ? null : scale }), { disabled: scale <= 0, "aria-label": `${name} ${by < 0 ? "smaller" : "larger"}` });
};

const card = (option, n, count) => {
  const name = `Option ${option.label}`, at = `options[${n}]`, id = option.label;
  const turn = (deg) => edit(`${name} is turned to ${typed(deg)} degrees.`, { do: "set", at: `${at}.turned`, value: deg === 0 ? null : deg });
  const move = (to) => edit(`${name} is option ${"ABCDEF"[to]} now.`, { do: "reorder", at: "options", from: n, to });
  const word = option.same === null || option.same === undefined ? null
    : option.same ? h("b", { class: "right" }, "✓ right") : h("b", { class: "wrong" }, "✗ wrong");
  return h("li", { class: "option", "data-n": n, "data-label": option.label },
    h("div", { class: "option-head" }, h("span", { class: "grip", "aria-hidden": "true" }, "\u2630"), h("h3", {}, option.label), word,
      option.nearly_right && h("b", { class: "doubt" }, "nearly right")),
    option.svg ? h("div", { class: "on-paper" }, picture(option.svg, name)) : null,
    h("p", { class: "reason" }, option.reason ?? (option.slip ? `slip: ${option.slip}` : "not judged yet")),
    h("details", { "data-key": `more-${id}` }, h("summary", { "data-key": `more-open-${id}` }, `Change ${option.label}`),
      h("div", { class: "row" },
        openButton(option, n)),
      h("div", { class: "row" },
        button(`option-left-${id}`, "↺ 15°", () => turn((option.turned ?? 0) + 15), { "aria-label": `${name} 15 degrees left` }),
        button(`option-right-${id}`, "↻ 15°", () => turn((option.turned ?? 0) - 15), { "aria-label": `${name} 15 degrees right` }),
        number(name, `option-turned-${id}`, "turned °", option.turned ?? 0, turn),
        number(name, `option-scale-${id}`, "size", option.scale ?? 1, (scale) => edit(`${name} has another size.`, { do: "set", at: `${at}.scale`, value: scale === 1 ? null : scale })),
        sizeButton(option, at, id, name, -0.1), sizeButton(option, at, id, name, 0.1)),
      h("div", { class: "row" },
        button(`option-up-${id}`, "↑", () => move(n - 1), { disabled: n === 0, "aria-label": `${name} earlier` }),
        button(`option-down-${id}`, "↓", () => move(n + 1), { disabled: n === count - 1, "aria-label": `${name} later` }),
        button(`option-pick-${id}`, app.picking === n ? "Do not exchange" : "Exchange", () => {
          app.picking = app.picking === n ? null : n;
          announce(app.picking === n ? `Choose what comes in the place of option ${option.label}.` : "Nothing is exchanged.");
          app.render();
        }, { "aria-pressed": String(app.picking === n) }),
        button(`option-out-${id}`, "Take out", () => edit(`${name} is taken out.`, { do: "remove", at })),
        option.same === false && h("label", { class: "tick" }, h("input", {
          type: "checkbox", "data-key": `keep-${id}`, checked: app.keep.has(id), onchange: (event) => {
            if (event.target.checked) app.keep.add(id);
            else app.keep.delete(id);
            app.render();
          },
        }), "keep when others are exchanged"))));
};

export const optionsPart = () => {
  const state = app.store.now, { options, made } = state, later = app.store.later;
  const wrong = options.filter((each) => each.same === false && !app.keep.has(each.label)).map((each) => each.label).join("");
  const without = later?.without ?? [];
  const canMake = state.laid.length > 0 || state.kind === "turned-outline";
  return h("section", { class: "part options", "aria-label": "Options" }, h("h2", {}, "Options"),
    made && h("p", {}, `Made anew whenever the file is read. `, h("span", { class: "row" }, button("make-others", "Make others", () => app.store.edit({ do: "make-options", make: made.make, seed: made.seed + 1 })
      .then((told) => told.done && announce("Other options are made."))), button("write-out", "Write them out", () => edit("The options are written out.")))),
    without.length > 0 && options.length > 0 && h("p", { class: "doubt" }, `No option tests ${without.map((name) => `the ${name}`).join(" or ")}.`),
    options.length > 0 && without.map((name) => offersOf(mendsOf("without", null, name), `without-${name}`)),
    options.length > 0 && h("ol", { class: "cards", "data-move": "options" }, options.map((option, n) => card(option, n, options.length))),
    h("div", { class: "row" },
      !options.length && canMake && button("make-options", "Make five options", () => app.store.edit({ do: "make-options", make: 4, seed: 1 }).then((told) => {
        if (told.done) announce(app.store.state.options.length ? `${app.store.state.options.length} options are made.` : "Options are asked for.");
      }), { class: "first" }),
      canMake && !options.some((each) => each.same || (!each.slip && !each.corners.length)) && button("add-right", "Add the right one", () => edit("The right outline is an option.", { do: "add-option" })),
      options.length < 6 && canMake && button("draw-option", "Draw one by hand", () => beginDraft("option")),
      ownButtons(canMake),
      state.verdict.state === "sound" && wrong && button("exchange-others", app.keep.size ? "Exchange those not kept" : "Exchange all wrong ones", () =>
        app.store.edit(...writtenOut(), { do: "exchange-options", labels: wrong, seed: 1 + Math.floor(Math.random() * 9999) }).then((told) => told.done && announce("Other options are in their place.")))),
    slipsPart(later, options));
};

const slipsPart = (later, options) => {
  if (!later?.slips.length && !later?.refused?.length) return null;
  const target = app.picking !== null && options[app.picking] ? app.picking : null;
  const label = target === null ? null : options[target].label;
  const take = (slip) => {
    app.picking = null;
    return target === null ? edit(`${slip.words}: an option more.`, slip.command)
      : edit(`${slip.words} is option ${label} now.`, { do: "exchange-option", option: target, slip: slip.slip, piece: slip.piece || null });
  };
  const full = target === null && options.length >= 6;
  return h("details", { "data-key": "slips", open: true }, h("summary", { "data-key": "slips-open" }, target === null ? "More slips that work" : `In the place of option ${label}`),
    full && h("p", { class: "quiet" }, "There are six options, the most that there may be. Choose Exchange at one of them first."),
    h("ul", { class: "cards small" }, later.slips.map((slip) => h("li", { class: "option" },
      h("div", { class: "on-paper", "aria-hidden": "true" }, picture(slip.svg, slip.words)),
      button(`slip-${slip.slip}-${slip.piece}`, slip.words, () => take(slip), { class: "wide", disabled: full })))),
    later.refused?.length > 0 && h("details", { "data-key": "refused" }, h("summary", { "data-key": "refused-open" }, "Slips that cannot be an option"),
      later.refused.map((each) => h("p", {}, `${each.slips.join(", ")}: ${each.why}.`))));
};
