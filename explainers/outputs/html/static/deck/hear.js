// The recorded voice: heard when asked for, or at each slide where somebody has asked for that.

if (data.words.hear) {
  const words = data.words;
  const sound = element("audio", { preload: "auto" });
  const trouble = element("span", { role: "status" });
  const button = element("button", { type: "button", id: "hear", click: press });
  const scratch = words.hear_scratch ? [element("span", {}, words.hear_scratch)] : [];
  const place = element("div", { id: "voice", hidden: true }, button, ...scratch, trouble);
  const each = element("input", { type: "checkbox", id: "hear-each", change: () => {
    deck.store.hearEach = each.checked;
    deck.keep();
  } });
  each.checked = deck.store.hearEach === true;

  // Once all has been heard it begins anew.
  function press() {
    if (!sound.paused) return sound.pause();
    if (sound.ended && next >= takes.length) next = 0;
    if (sound.ended) return hearOn(true);
    hear(true);
  }

  function label() {
    button.textContent = sound.paused ? words.hear : words.hear_pause;
  }

  // asked: somebody has pressed the button; a browser may refuse what nobody asked for, and then that is no fault
  function hear(asked) {
    sound.play().catch((error) => { if (asked && error.name !== "AbortError") fail(); });
  }

  function fail() {
    trouble.textContent = words.hear_failed;
  }

  for (const event of ["play", "pause", "ended"]) sound.addEventListener(event, label);
  sound.addEventListener("error", () => { if (sound.hasAttribute("src")) fail(); });

  let takes = []; // of the moments that are told now, one after another
  let next = 0;

  function hearOn(asked) {
    sound.src = takes[next];
    next += 1;
    hear(asked);
  }

  sound.addEventListener("ended", () => { if (next < takes.length) hearOn(false); });

  deck.onRun.push((moments) => {
    sound.pause();
    trouble.textContent = "";
    takes = moments.flatMap((moment) => (moment.take ? [moment.take] : []));
    next = 1;
    place.hidden = !takes.length;
    if (takes.length) [sound.src] = takes;
    else sound.removeAttribute("src");
    label();
    if (takes.length && each.checked) hear(false);
  });
  byId("said").after(place);
  byId("tools").append(element("label", {}, each, words.hear_each));
}
