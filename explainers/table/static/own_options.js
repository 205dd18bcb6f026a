// Options drawn by hand, on the paper: one at a time is there to be changed as any outline is.
import { app } from "./app.js";
import { announce, button } from "./dom.js";
import { writtenOut } from "./draw.js";

/** Have an option stand on the paper, chosen. */
export const takeOut = (n) => {
  app.ownOut = n;
  app.homes.delete(`own-${n}`);
  app.tool = "select";
  app.selected = { id: `own-${n}`, kind: "outline", hole: null, n: null };
  app.look = true;
  app.render();
};

export const putAway = () => {
  app.ownOut = null;
  app.selected = null;
  announce("The option is put away; it stands among the others.");
  app.render();
};

/** A copy of the right outline as an option, to be changed. */
const beginFromRight = async () => {
  const { result, outlines } = app.store.state, right = result ?? outlines[0];
  const holes = right.holes.map((corners) => ({ corners }));
  const n = app.store.state.options.length;
  const told = await app.store.edit(...writtenOut(), { do: "add-option", corners: right.corners },
    ...holes.map(({ corners }) => ({ do: "add-hole", at: `options[${n}]`, corners })));
  if (!told.done) return;
  takeOut(n);
  announce("A copy of the right outline is an option, and on the paper. Change it there.");
};

export const ownButtons = (canMake) => {
  const { state } = app.store, right = state.result ?? (state.kind === "turned-outline" ? state.outlines[0] : null);
  return canMake && right?.corners.length && state.options.length < 6
    ? button("copy-right", "Draw one from the right one", beginFromRight) : null;
};

/** For the card of an option: only one whose corners stand in the file can be changed. */
export const openButton = (option, n) => (option.corners.length && !app.store.state.made
  ? button(`option-open-${option.label}`, app.ownOut === n ? "Put it away" : "Change it on the paper", () => (app.ownOut === n ? putAway() : takeOut(n))) : null);
