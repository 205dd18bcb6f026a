// What was answered, told to the learner, on the last slide and from the menu. Nobody else is told, unless the learner copies it.
{
  const TOOK_S = 5; // the time taken, in steps of this

  const word = (key) => deck.words[key];
  const make = deck.element;
  const { lasting, button } = asking;

  // In words: for the learner, and as text for the teacher.
  function answersTold() {
    const questions = [];
    for (const slide of deck.slides) {
      const { choice } = slide.moments?.find((moment) => moment.choice) ?? {};
      const answer = choice && (deck.store.answers || {})[slide.id];
      if (!answer || !(answer.picks.length || answer.asked)) continue;
      const lines = [];
      if (answer.picks.length) lines.push(deck.filled("answers.chose", { labels: answer.picks.join(", ") }));
      if (answer.right !== null) lines.push(deck.filled("answers.wasRight", { label: answer.right }));
      else if (choice.part !== null && answer.picks.length) lines.push(word("answers.notRight"));
      if (answer.asked) lines.push(word("answers.solution"));
      const seconds = Math.max(TOOK_S, Math.round(answer.seconds / TOOK_S) * TOOK_S);
      lines.push(deck.filled("answers.took", { time: lasting(seconds) }));
      questions.push({ chapter: slide.chapter, lines });
    }
    return questions;
  }

  const asText = () => [deck.title, ...answersTold().map(({ chapter, lines }) => [chapter, ...lines].join("\n"))].join("\n\n");

  function answersIn(place, forgotten) {
    const questions = answersTold();
    const state = make("p", { class: "choose-note" });
    const tell = (key) => {
      state.textContent = word(key);
      deck.say(word(key));
    };
    const text = make("textarea", { class: "choose-text", readonly: true, rows: "8", "aria-label": word("answers.text"), hidden: true });
    const copy = button("answers.copy", async () => {
      try {
        await navigator.clipboard.writeText(asText());
        tell("answers.copied");
      } catch { // no clipboard, or it may not be used: the text is there to be copied by hand
        text.value = asText();
        text.hidden = false;
        text.focus();
        text.select();
        tell("answers.byHand");
      }
    });
    const forget = button("answers.forget", () => {
      delete deck.store.answers;
      deck.keep();
      answersIn(place, forgotten);
      const told = place.querySelector(".choose-note");
      told.textContent = word("answers.forgotten");
      deck.say(word("answers.forgotten"));
      forgotten?.();
      told.focus();
    });
    state.tabIndex = -1;
    place.replaceChildren(
      ...(questions.length ? questions.flatMap(({ chapter, lines }) => [
        make("h3", {}, chapter),
        make("ul", {}, ...lines.map((line) => make("li", {}, line))),
      ]) : [make("p", {}, word("answers.none"))]),
      ...(questions.length ? [make("div", { class: "choose-buttons" }, copy, forget)] : []),
      state, text, make("p", { class: "choose-where" }, word("answers.where")));
  }

  const dialog = make("dialog", { class: "choose-answers", "aria-labelledby": "answers-title" });

  function showAnswers() {
    byId("choices").close();
    let forgotten = false;
    const body = make("div");
    answersIn(body, () => { forgotten = true; });
    dialog.replaceChildren(
      make("div", { class: "choose-answers-head" },
        make("h2", { id: "answers-title" }, word("answers.title")), button("close", () => dialog.close())),
      body);
    dialog.onclose = () => {
      if (forgotten) deck.go(deck.at); // the marks on its cards are gone too
      else byId("menu").focus();
    };
    document.body.append(dialog);
    dialog.showModal();
  }

  let offered = false;
  extras.push({
    wants: () => deck.slides.some((slide) => slide.moments?.some((moment) => moment.choice)),
    enter(moment, place) {
      if (!offered) deck.tool(word("answers.title"), showAnswers);
      offered = true;
      if (deck.at !== deck.slides.length - 1) return;
      const body = make("div");
      place.append(make("section", { class: "choose-end", "aria-label": word("answers.title") }, make("h2", {}, word("answers.title")), body));
      answersIn(body);
    },
    leave() {},
  });
}
