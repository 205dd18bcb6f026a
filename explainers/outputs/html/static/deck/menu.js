// The menu: the list of slides, colours, less movement, a larger picture, and what is printed.

function listSlides() {
  const places = [];
  let chapter = null;
  data.slides.forEach((slide, index) => {
    if (slide.chapter !== chapter) {
      chapter = slide.chapter;
      places.push(element("h3", {}, chapter), element("ol", { start: index + 1 }));
    }
    const line = slide.closed
      ? element("span", { class: "closed" }, deck.words.closed)
      : element("button", { type: "button", class: "goto", click() {
        byId("choices").close();
        deck.go(index);
      } }, slide.moments[0].heading);
    places.at(-1).append(element("li", { "data-index": index }, line));
  });
  byId("list").replaceChildren(...places);
  markInList();
}

function markInList() {
  for (const line of byId("list").querySelectorAll("li")) {
    const button = line.querySelector("button");
    if (!button) continue;
    if (Number(line.dataset.index) === deck.at) button.setAttribute("aria-current", "page");
    else button.removeAttribute("aria-current");
  }
}
deck.onSlide.push(markInList);

function choosePalette(name) {
  if (name) document.documentElement.dataset.palette = name;
  else delete document.documentElement.dataset.palette;
}

function enlarge(larger) {
  const stage = byId("stage");
  stage.classList.toggle("larger", larger);
  byId("larger").textContent = larger ? deck.words.smaller : deck.words.larger;
  if (larger) {
    for (const [name, value] of [["tabindex", "0"], ["role", "region"], ["data-keys", ""]]) stage.setAttribute(name, value);
    stage.setAttribute("aria-label", deck.words.larger_region);
  } else for (const name of ["tabindex", "role", "data-keys", "aria-label"]) stage.removeAttribute(name);
}

function printedMoment(moment) {
  const said = element("div", {}, ...paragraphsOf(moment, ""));
  const picture = deck.card(moment.figure, data.view);
  picture.removeAttribute("aria-hidden");
  picture.setAttribute("role", "img");
  picture.setAttribute("aria-label", moment.alt);
  return element("article", {}, element("h2", {}, moment.heading), picture, said);
}

// A moment that asks nothing and says nothing new over the picture before it is not printed twice.
function printSeen() {
  const seen = (deck.store.seen || []).filter(reachable).sort((a, b) => a - b);
  const moments = seen.flatMap((index) => data.slides[index].moments.filter((moment) => moment.said.length));
  byId("printed").replaceChildren(...moments.map(printedMoment));
}

byId("menu").addEventListener("click", () => {
  byId("choices").showModal();
  byId("list").querySelector("[aria-current]")?.scrollIntoView({ block: "nearest" });
});
byId("close").addEventListener("click", () => byId("choices").close());
byId("print").addEventListener("click", () => { byId("choices").close(); print(); });
byId("larger").addEventListener("click", () => enlarge(!byId("stage").classList.contains("larger")));
byId("calm").addEventListener("change", (event) => {
  deck.store.calm = event.target.checked;
  deck.keep();
  tell(run.first, { play: false, focus: false });
});
for (const radio of document.querySelectorAll("[name=palette]")) {
  radio.checked = radio.value === (deck.store.palette || "");
  radio.addEventListener("change", () => {
    deck.store.palette = radio.value;
    deck.keep();
    choosePalette(radio.value);
  });
}
addEventListener("beforeprint", printSeen);
addEventListener("afterprint", () => byId("printed").replaceChildren());
