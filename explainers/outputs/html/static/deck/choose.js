// A question that learners answer: a choice in the picture itself, why it was wrong or right, another try.
// What was chosen is kept in the deck's store on this device; what was told of it stays where it was told.
{
  const word = (key) => deck.words[key];
  const make = deck.element;
  const sign = (mark, kind) => make("span", { class: `choose-sign ${kind}`, "aria-hidden": "true" }, mark);

  function answerOf(slide) {
    deck.store.answers ||= {};
    return (deck.store.answers[slide.id] ||= { picks: [], right: null, asked: false, seconds: 0 });
  }

  function choosing(slide, place) {
    const { options, part } = slide.choice;
    const tells = part !== null;
    const since = performance.now();
    const began = (deck.store.answers || {})[slide.id]?.seconds || 0;
    const clock = slide.pause ? asking.clockIn(slide) : null;
    let gone = false;

    const answered = () => (deck.store.answers || {})[slide.id] || { picks: [], right: null, asked: false };
    const isFree = () => answered().right !== null || answered().asked;
    const isTried = (label) => tells && answered().picks.includes(label);
    const alts = [figures[slide.figure][0]];

    function keep(change) {
      const answer = answerOf(slide);
      change(answer);
      if (!answer.done) answer.seconds = began + (performance.now() - since) / 1000;
      answer.done = answer.right !== null || answer.asked;
      deck.keep();
    }

    // Each option is chosen where it is drawn.
    const spots = options.map(({ label, box }) => {
      const radio = make("input", { type: "radio", name: `choice-${slide.id}`, value: label, change: chosen });
      const state = make("span", { class: "choose-state" });
      const spot = make("label", { class: "choose-spot" }, radio,
        make("span", { class: "unseen" }, deck.filled("choose.option", { label }), " ", state));
      return { label, box, radio, state, spot };
    });

    function laySpots() {
      for (const { box, spot } of spots) deck.lay(spot, box);
    }

    function markSpots() {
      const { right } = answered();
      for (const { label, state, spot } of spots) {
        const is = !isTried(label) ? null : label === right;
        spot.classList.toggle("tried", is === false);
        spot.classList.toggle("right", is === true);
        state.textContent = is === null ? "" : word(is ? "choose.right" : "choose.tried");
      }
    }

    // What is to be done next stands in the bar, where it is in view however the page is scrolled.
    const solution = { text: word("choose.solution"), act: solve };
    const onward = { text: word("next"), act: () => deck.ahead() };

    function offerCheck() {
      if (tells) deck.offer({ text: word("choose.check"), act: check, more: solution });
      else deck.offer({ text: word("choose.note"), act: check, more: onward });
    }

    function offerAgain() {
      if (isFree()) deck.offer({ text: word("choose.on"), act: goOn });
      else if (!tells) deck.offer({ ...onward, more: { text: word("choose.change"), act: again } });
      else deck.offer({ text: word("choose.again"), act: again, more: { text: word("choose.see"), act: goOn } });
    }

    function chosen() {
      deck.hint("");
      if (!isFree()) offerCheck();
    }

    function again() {
      deck.hint("");
      for (const { radio } of spots) radio.checked = false;
      offerCheck();
      const { radio } = spots.find(({ label }) => !isTried(label)) || spots[0];
      radio.focus({ preventScroll: true });
      byId("stage").scrollIntoView({ block: "nearest" });
    }

    function solve() {
      if (answered().picks.length || isFree()) return goOn();
      deck.offer({ text: word("choose.no"), act: offerUnasked, more: { text: word("choose.yes"), act: goOn } });
      deck.hint(word("choose.sure"), true);
      byId("next").focus();
    }

    function offerUnasked() {
      deck.hint("");
      offerCheck();
      byId("more").focus();
    }

    async function check() {
      const found = spots.find(({ radio }) => radio.checked);
      if (!found) {
        deck.hint(word("choose.pick"), true);
        spots[0].radio.focus({ preventScroll: true });
        return;
      }
      const { label } = found;
      const told = tells ? await toldOf(label) : null;
      if (gone) return;
      deck.hint("");
      keep((answer) => {
        if (answer.right === null && answer.picks.at(-1) !== label && !(tells && answer.picks.includes(label))) answer.picks.push(label);
        if (told?.right) answer.right = label;
      });
      if (clock) {
        clock.hold();
        clock.place.hidden = true;
      }
      if (!tells) verdicts.replaceChildren();
      const verdict = told ? tellOf(told) : noted(label);
      if (told && !told.right) found.radio.checked = false;
      markSpots();
      offerAgain();
      verdict.querySelector("h2").focus({ preventScroll: true });
      verdict.scrollIntoView({ block: "nearest" });
      deck.say(verdict.dataset.said);
    }

    const toldOf = async (label) => (await deck.open(part)).told.find((each) => each.label === label);
    const verdicts = make("section", { class: "choose-told", "aria-label": word("choose.told") });

    // What is told of an option is added under what was told before, and its mark to those in the picture.
    function addVerdict(label, heading, said, kind) {
      const known = verdicts.querySelector(`[data-option="${label}"]`);
      if (known) return known;
      const verdict = make("article", { class: `choose-result ${kind}`, "data-option": label, "data-said": said.join(" ") },
        make("h2", { tabindex: "-1" }, ...(kind ? [sign(kind === "right" ? "✓" : "✗", kind)] : []), heading),
        ...said.map((sentence) => make("p", {}, sentence)));
      verdicts.append(verdict);
      return verdict;
    }

    function tellOf(told) {
      const [heading, ...said] = told.said;
      if (told.figure !== null && !verdicts.querySelector(`[data-option="${told.label}"]`)) {
        deck.add(told.figure, slide.figure);
        alts.push(figures[told.figure][0].slice(alts[0].length).trim());
        deck.described(alts.join(" "));
      }
      return addVerdict(told.label, heading, said, told.right ? "right" : "wrong");
    }

    const noted = (label) => addVerdict(label, deck.filled("choose.noted", { label }), [word("choose.notTold")], "");

    async function goOn() {
      if (answered().right === null) keep((answer) => { answer.asked = true; });
      await deck.reveal(part);
      if (!gone) deck.ahead();
    }

    // Whoever goes on by a key is held back until there is an answer, and is told what to do.
    deck.onNext = () => {
      if (!tells) return false;
      if (isFree()) {
        goOn();
        return true;
      }
      deck.hint(word(answered().picks.length ? "choose.holdTried" : "choose.hold"), true);
      return true;
    };

    // What was told before is told again when one comes back.
    async function recall() {
      const { picks } = answered();
      if (picks.length && tells) {
        for (const label of picks) {
          const told = await toldOf(label);
          if (gone) return;
          tellOf(told);
        }
      } else if (picks.length) noted(picks.at(-1));
      if (answered().asked) deck.hint(word("choose.asked"));
    }

    const form = make("form", { class: "choose-form", submit(event) {
      event.preventDefault();
      check();
    }, keydown(event) {
      if (event.key !== "Enter") return;
      event.preventDefault(); // a form whose button stands elsewhere is not sent by this key
      check();
    } }, make("fieldset", {}, make("legend", { class: "unseen" }, word("choose.legend")), ...spots.map(({ spot }) => spot)));
    byId("over").append(form);
    deck.onLayout.push(laySpots);
    place.classList.add("choose");
    place.append(verdicts);
    if (clock) byId("later").append(clock.place);
    if (clock && answered().picks.length) clock.place.hidden = true;
    laySpots();
    markSpots();
    if (answered().picks.length || isFree()) offerAgain();
    else offerCheck();
    recall();
    return () => {
      gone = true;
      clock?.stop();
      deck.onLayout.splice(deck.onLayout.indexOf(laySpots), 1);
      const answer = (deck.store.answers || {})[slide.id];
      if (answer && !answer.done) answer.seconds = began + (performance.now() - since) / 1000;
    };
  }

  let leave = () => {};
  extras.push({
    wants: (moment) => Boolean(moment.choice),
    enter(moment, place) { leave = choosing(moment, place); },
    leave() { leave(); },
  });
}
