// A question that learners answer: a clock that is never in the way, a choice, why it was wrong or right, another try.
// What was chosen is kept in the deck's store on this device; nobody is told, unless the learner copies it.
{
  const PATCHES = 6;
  const MORE_S = 30;
  const TICK_MS = 250;
  const COARSE_S = 10; // the time left is told in steps of this, so that nothing hurries
  const TOOK_S = 5; // the time taken, in steps of this

  const word = (key) => deck.words[key];
  const make = deck.element;
  const button = (key, click, more = {}) => make("button", { type: "button", click, ...more }, word(key));
  const sign = (mark, kind) => make("span", { class: `choose-sign ${kind}`, "aria-hidden": "true" }, mark);

  function lasting(seconds) {
    const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
    if (!minutes) return deck.filled("clock.seconds", { count: rest });
    if (rest) return deck.filled(minutes === 1 ? "clock.minuteMore" : "clock.minutesMore", { minutes, count: rest });
    return minutes === 1 ? word("clock.minute") : deck.filled("clock.minutes", { count: minutes });
  }

  function answerOf(slide) {
    deck.store.answers ||= {};
    return (deck.store.answers[slide.id] ||= { picks: [], right: null, asked: false, seconds: 0 });
  }

  // The clock of a slide runs only when it is started. When it has run down, a sentence says so, and that is all.
  const clocks = new Map();

  function clockIn(slide) {
    if (!clocks.has(slide.id)) clocks.set(slide.id, { total: slide.pause, left: slide.pause, running: false, begun: false });
    const clock = clocks.get(slide.id);
    const patches = Array.from({ length: PATCHES }, () => make("span"));
    const row = make("div", { class: "choose-patches", "aria-hidden": "true" }, ...patches);
    const told = make("p", { class: "choose-time" });
    const run = button("clock.start", () => {
      if (clock.running) clock.running = false;
      else {
        if (clock.left <= 0) clock.left = clock.total;
        Object.assign(clock, { running: true, begun: true, at: performance.now() });
      }
      show(true);
    });
    const more = button("clock.more", () => {
      clock.left = Math.max(0, clock.left) + MORE_S;
      clock.total = Math.max(clock.total + MORE_S, clock.left);
      if (clock.begun && clock.up) Object.assign(clock, { running: true, at: performance.now() });
      clock.up = false;
      show(true);
    });
    const off = button("clock.turnOff", () => {
      deck.store.noClock = !deck.store.noClock;
      deck.keep();
      Object.assign(clock, { total: slide.pause, left: slide.pause, running: false, begun: false, up: false });
      show(true);
    });

    function words() {
      if (deck.store.noClock) return word("clock.off");
      if (clock.up) return word("clock.up");
      if (!clock.begun) return deck.filled("clock.ready", { time: lasting(Math.round(clock.left)) });
      const few = clock.left <= COARSE_S;
      const time = lasting(Math.ceil(clock.left / COARSE_S) * COARSE_S);
      if (clock.running) return few ? word("clock.fewLeft") : deck.filled("clock.left", { time });
      return few ? word("clock.fewHeld") : deck.filled("clock.held", { time });
    }

    function show(aloud) {
      const text = words();
      if (told.textContent !== text) told.textContent = text;
      if (aloud) deck.say(text);
      const gone = clock.up ? 1 : 1 - clock.left / clock.total;
      patches.forEach((patch, i) => patch.classList.toggle("filled", gone >= (i + 1) / PATCHES));
      row.hidden = run.hidden = more.hidden = Boolean(deck.store.noClock);
      run.textContent = word(clock.running ? "clock.stop" : "clock.start");
      off.textContent = word(deck.store.noClock ? "clock.turnOn" : "clock.turnOff");
    }

    function tick() {
      if (!clock.running) return;
      const now = performance.now();
      clock.left -= (now - clock.at) / 1000;
      clock.at = now;
      const up = clock.left <= 0;
      if (up) Object.assign(clock, { left: 0, running: false, up: true });
      show(up);
    }

    show(false);
    const timer = setInterval(tick, TICK_MS);
    const place = make("section", { class: "choose-clock", "aria-label": word("clock.title") },
      row, told, make("div", { class: "choose-buttons" }, run, more, off));
    const hold = () => {
      clock.running = false;
      show(false);
    };
    return { place, hold, stop() { clearInterval(timer); hold(); } };
  }

  // The cards, the picture and the words of one question.
  function choosing(slide, place) {
    const { options, part } = slide.choice;
    const tells = part !== null;
    const since = performance.now();
    const began = (deck.store.answers || {})[slide.id]?.seconds || 0;
    const clock = slide.pause ? clockIn(slide) : null;
    let gone = false;

    const answered = () => (deck.store.answers || {})[slide.id] || { picks: [], right: null, asked: false };
    const settled = () => answered().asked || answered().right !== null;

    const note = make("p", { class: "choose-note" });
    const tell = (key) => {
      note.textContent = word(key);
      deck.say(word(key));
    };

    function keep(change) {
      const answer = answerOf(slide);
      change(answer);
      if (!answer.done) answer.seconds = began + (performance.now() - since) / 1000;
      answer.done = answer.right !== null || answer.asked;
      deck.keep();
    }

    const cards = options.map(({ label, box }) => {
      const picture = deck.card(slide.figure, box);
      picture.style.aspectRatio = `${box[2]} / ${box[3]}`; // any other shape would show the neighbours' letters
      picture.style.setProperty("--across-by-down", box[2] / box[3]);
      const radio = make("input", { type: "radio", name: `choice-${slide.id}`, value: label, change() { note.textContent = ""; } });
      const state = make("span", { class: "choose-state" });
      const card = make("label", { class: "choose-card" }, make("span", { class: "choose-picture" }, picture),
        make("span", { class: "choose-name" }, radio, deck.filled("choose.option", { label })), state);
      return { label, box, radio, state, card };
    });

    function markCards() {
      const { picks, right } = answered();
      for (const { label, state, card } of cards) {
        const is = !tells || !picks.includes(label) ? null : label === right;
        card.classList.toggle("tried", is === false);
        card.classList.toggle("right", is === true);
        if (is === null) state.replaceChildren();
        else state.replaceChildren(sign(is ? "✓" : "✗", is ? "right" : "wrong"), word(is ? "choose.right" : "choose.tried"));
      }
    }

    const ask = button("choose.solution", () => {
      if (answered().picks.length || settled()) goOn();
      else {
        sure.hidden = false;
        sure.firstChild.focus({ preventScroll: true });
        sure.scrollIntoView({ block: "nearest" });
      }
    });
    const sure = make("div", { class: "choose-sure", hidden: true },
      make("p", { tabindex: "-1" }, word("choose.sure")),
      make("div", { class: "choose-buttons" }, button("choose.yes", () => goOn()), button("choose.no", () => {
        sure.hidden = true;
        ask.focus();
      })));
    const form = make("form", { class: "choose-form", submit(event) {
      event.preventDefault();
      check();
    } },
    make("fieldset", {}, make("legend", {}, word("choose.legend")), make("div", { class: "choose-cards" }, ...cards.map(({ card }) => card))),
    note,
    make("div", { class: "choose-buttons" },
      make("button", { type: "submit", class: "choose-main" }, word(tells ? "choose.check" : "choose.note")), ...(tells ? [ask] : [])),
    sure);
    const result = make("section", { class: "choose-result", hidden: true });

    // The picture stays in view where there is room for both.
    function bring(part) {
      scrollTo(0, 0);
      part.scrollIntoView({ block: "nearest" });
    }

    async function check() {
      const chosen = cards.find(({ radio }) => radio.checked);
      if (!chosen) {
        tell("choose.pick");
        cards[0].radio.focus();
        return;
      }
      const { label } = chosen;
      const told = tells ? (await deck.open(part)).told.find((each) => each.label === label) : null;
      if (gone) return;
      keep((answer) => {
        if (answer.right === null && answer.picks.at(-1) !== label && !(tells && answer.picks.includes(label))) answer.picks.push(label);
        if (told?.right) answer.right = label;
      });
      if (told) showResult(told, chosen.box);
      else showNoted(label);
    }

    // Words, picture and buttons in place of the cards; what is said stands there and is read out.
    function replaceCards(heading, said, kind, picture, ...buttons) {
      const title = make("h2", { tabindex: "-1" }, ...(kind ? [sign(kind === "right" ? "✓" : "✗", kind)] : []), heading);
      result.className = `choose-result ${kind}`;
      result.replaceChildren(
        ...(picture ? [picture] : []),
        make("div", { class: "choose-told" }, title, ...said.map((sentence) => make("p", {}, sentence)),
          make("div", { class: "choose-buttons" }, ...buttons)));
      form.hidden = true;
      result.hidden = false;
      if (clock) {
        clock.hold();
        clock.place.hidden = true;
      }
      title.focus({ preventScroll: true });
      bring(result);
      deck.say(said.join(" "));
    }

    function showResult(told, box) {
      const [heading, ...said] = told.said;
      let picture = null;
      if (told.figure !== null) {
        deck.show(told.figure);
        picture = deck.card(told.figure, box);
        picture.style.aspectRatio = `${box[2]} / ${box[3]}`;
      }
      if (told.right) replaceCards(heading, said, "right", picture, button("choose.on", goOn, { class: "choose-main" }));
      else {
        replaceCards(heading, said, "wrong", picture,
          button("choose.again", again, { class: "choose-main" }), button("choose.see", goOn));
      }
    }

    function showNoted(label) {
      replaceCards(deck.filled("choose.noted", { label }), [word("choose.notTold")], "", null, button("choose.change", again));
    }

    function again() {
      deck.show(slide.figure);
      markCards();
      for (const { radio } of cards) radio.checked = false;
      note.textContent = "";
      sure.hidden = result.hidden = true;
      form.hidden = false;
      if (clock) clock.place.hidden = false;
      const { picks } = answered();
      (cards.find(({ label }) => !picks.includes(label)) || cards[0]).radio.focus({ preventScroll: true });
      bring(form);
    }

    async function goOn() {
      if (answered().right === null) keep((answer) => { answer.asked = true; });
      await deck.reveal(part);
      if (!gone) deck.go(deck.at + 1);
    }

    // Whoever goes on is held back until there is an answer, and is told what to do.
    deck.onNext = () => {
      if (!tells || answered().asked) return false;
      if (answered().right !== null) {
        goOn();
        return true;
      }
      tell(answered().picks.length ? "choose.holdTried" : "choose.hold");
      if (!result.hidden) result.querySelector("h2").focus();
      else (cards.find(({ radio }) => radio.checked) || cards[0]).radio.focus();
      return true;
    };

    if (answered().asked) note.textContent = word("choose.asked");
    markCards();
    place.classList.add("choose");
    place.append(...(clock ? [clock.place] : []), form, result);
    return () => {
      gone = true;
      clock?.stop();
      const answer = (deck.store.answers || {})[slide.id];
      if (answer && !answer.done) answer.seconds = began + (performance.now() - since) / 1000;
    };
  }

  // What was answered, in words: for the learner, and as text for the teacher.
  function answersTold() {
    const questions = [];
    for (const slide of deck.slides) {
      const answer = slide.choice && (deck.store.answers || {})[slide.id];
      if (!answer || !(answer.picks.length || answer.asked)) continue;
      const lines = [];
      if (answer.picks.length) lines.push(deck.filled("answers.chose", { labels: answer.picks.join(", ") }));
      if (answer.right !== null) lines.push(deck.filled("answers.wasRight", { label: answer.right }));
      else if (slide.choice.part !== null && answer.picks.length) lines.push(word("answers.notRight"));
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

  let leave = null;
  let offered = false;
  extras.push({
    wants: () => deck.slides.some((slide) => slide.choice),
    enter(slide, place) {
      if (!offered) deck.tool(word("answers.title"), showAnswers);
      offered = true;
      if (slide.choice) leave = choosing(slide, place);
      else if (deck.at === deck.slides.length - 1) {
        const body = make("div");
        place.append(make("section", { class: "choose-end", "aria-label": word("answers.title") }, make("h2", {}, word("answers.title")), body));
        answersIn(body);
      }
    },
    leave() {
      leave?.();
      leave = null;
    },
  });
}
