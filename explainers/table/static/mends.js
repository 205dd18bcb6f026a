// Faults and warnings: in the list beside the paper and where they speak of, each with what mends it as buttons.
import { app, capital } from "./app.js";
import { announce, button, field, h } from "./dom.js";
import { goTo, placeOf } from "./places.js";

const keyOfFault = (fault) => `${fault.field} ${fault.message}`;

/** What there is to be told, in the order of its numbers: what is only missing is told as what to do next. */
export const toldNow = () => {
  const { faults, warnings } = app.store.now, missing = new Set(missingFields());
  return [
    ...faults.map((fault, number) => ({ fault, of: "fault", number })).filter(({ fault }) => !missing.has(fault.field)),
    ...warnings.map((fault, n) => ({ fault, of: "warning", number: faults.length + n })),
  ];
};

export const missingFields = () => app.store.now.todo.flatMap((each) => each.fields);

const known = () => (app.store.mends?.revision === app.store.state.revision && !app.store.tried ? app.store.mends.mends : null);

export const mendsOf = (of, number, piece = null) =>
  known()?.find((each) => each.of === of && each.number === number && each.piece === piece) ?? null;

/** The buttons of a mend; `at` tells one place on the page from another. */
export const offersOf = (mend, at) => mend && mend.offers.length > 0 && h("div", { class: "row mends" },
  mend.offers.map((offer, n) => button(`mend-${at}-${n}`, offer.words, async () => {
    app.opened = null;
    const told = await app.store.edit(...offer.commands);
    if (told.done) announce(`Done: ${offer.words}.`);
  }, { class: "mend" })));

const acceptPart = (mend, at) => mend?.accepts && h("details", { "data-key": `accept-${at}` },
  h("summary", { "data-key": `accept-open-${at}` }, "It is meant so"),
  field(`reason-${at}`, "Why it may stand, for whoever reads the file", "", (value) => {
    if (value.trim()) accept(mend.accepts, value.trim());
  }),
  button(`accept-do-${at}`, "Let it stand", (event) => {
    const typed = event.target.closest("details").querySelector("input").value.trim();
    if (typed) accept(mend.accepts, typed);
    else announce("Write why it may stand first.");
  }));

let accepting = "";
const accept = async (kind, reason) => {
  if (accepting === `${kind} ${reason}`) return; // left by pressing the button: once is enough
  accepting = `${kind} ${reason}`;
  const told = await app.store.edit({ do: "set", at: `accepted.${kind}`, value: reason });
  accepting = "";
  if (told.done) announce("It may stand; your reason is in the file.");
};

const wordsOf = ({ fault }) => `${capital(fault.message)}.${fault.fix ? ` To mend it: ${fault.fix}.` : ""}`;

const nothingMends = (mend) => mend && mend.of === "fault" && !mend.offers.length
  && h("p", { class: "quiet" }, "No single change was found that mends this and brings up no other fault: look at its place.");

const remark = (told, n) => {
  const { fault, of, number } = told, mend = mendsOf(of, number);
  return h("li", { class: of },
    button(`go-${number}`, `!${n + 1}`, () => {
      app.opened = keyOfFault(fault);
      goTo(fault);
    }, { class: "badge", "aria-label": `Go to the place of ${n + 1}: ${fault.message}` }), " ",
    fault.line ? h("b", {}, `line ${fault.line}`) : null, fault.line ? " " : null, wordsOf(told),
    offersOf(mend, `list-${number}`), nothingMends(mend), acceptPart(mend, `list-${number}`));
};

export const remarksPart = () => {
  const told = toldNow();
  return told.length > 0 && h("ol", { class: "remarks" }, told.map(remark));
};

/** Warnings that are let stand, to be taken back. */
export const acceptedPart = () => {
  const { accepted } = app.store.now;
  return accepted.length > 0 && h("details", { "data-key": "accepted" },
    h("summary", { "data-key": "accepted-open" }, `${accepted.length} ${accepted.length === 1 ? "warning" : "warnings"} let stand`),
    h("ul", {}, accepted.map((each, n) => h("li", {}, `${capital(each.message)}. `,
      button(`warn-again-${n}`, "Warn again", () => app.store.edit({ do: "set", at: `accepted.${each.kind}`, value: null })
        .then((told) => told.done && announce("It is a warning again.")))))));
};

/** The same on the paper: a mark beside what is spoken of, its words beside the mark when it is pressed. */
export const drawMarks = (layer) => {
  const active = layer.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  const { view } = app, taken = new Map();
  const marks = app.draft || app.drag ? [] : toldNow().flatMap((told, n) => {
    const place = placeOf(told.fault);
    if (place.where !== "paper") return [];
    const [x, y] = view.toPixels(place.point);
    if (x < 0 || y < 0 || x > view.width || y > view.height) return [];
    const slot = `${Math.round(x / 24)} ${Math.round(y / 24)}`, beside = taken.get(slot) ?? 0;
    taken.set(slot, beside + 1);
    const isOpen = app.opened === keyOfFault(told.fault);
    const mark = button(`mark-${told.number}`, `!${n + 1}`, () => {
      app.opened = isOpen ? null : keyOfFault(told.fault);
      app.render();
    }, { class: `badge mark-button ${told.of}`, "aria-expanded": String(isOpen), "aria-label": `${n + 1}: ${wordsOf(told)}` });
    const left = Math.max(2, Math.min(view.width - 34, x - 14 + 24 * place.out[0] + 34 * beside));
    const top = Math.max(2, Math.min(view.height - 34, y - 14 - 24 * place.out[1]));
    mark.style.left = `${left}px`;
    mark.style.top = `${top}px`;
    if (!isOpen) return [mark];
    const said = h("div", { class: `said ${told.of}`, role: "group", "aria-label": `About ${n + 1}` },
      button(`close-said-${told.number}`, "×", () => close(told.number), { class: "close", "aria-label": "Close" }),
      h("p", {}, wordsOf(told)), offersOf(mendsOf(told.of, told.number), `paper-${told.number}`),
      nothingMends(mendsOf(told.of, told.number)));
    said.style.left = `${Math.max(4, Math.min(left, view.width - Math.min(300, view.width - 8) - 4))}px`;
    const isLow = top > view.height / 2;
    said.style[isLow ? "bottom" : "top"] = `${isLow ? view.height - top + 4 : top + 34}px`;
    const foot = document.getElementById("paper-tools").offsetHeight + 12; // its buttons are not covered
    said.style.maxHeight = `${Math.max(120, isLow ? top - 10 : view.height - top - 40 - foot)}px`;
    return [mark, said];
  });
  layer.replaceChildren(...marks);
  const again = active && [...layer.querySelectorAll("[data-key]")].find((each) => each.dataset.key === active);
  if (active) (again ?? layer.querySelector("button"))?.focus({ preventScroll: true });
};

const close = (number) => {
  app.opened = null;
  app.render();
  requestAnimationFrame(() => requestAnimationFrame(() =>
    document.querySelector(`[data-key="mark-${number}"]`)?.focus({ preventScroll: true })));
};

export const takeMarks = (layer) => layer.addEventListener("keydown", (event) => {
  const number = event.target.dataset?.key?.match(/\d+/)?.[0];
  if (event.key !== "Escape" || app.opened === null) return;
  close(number ?? 0);
  event.stopPropagation();
});
