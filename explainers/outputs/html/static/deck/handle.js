// Laying a piece by hand. Poses are compared here, never worked out: what the piece must come to, what is said there, and
// how near counts, stand in the slide's data.
{
  const SNAP_MS = 200;
  const BACK_MS = 500;
  const SHIFT_MS = 1600;
  const MS_A_DEGREE = 1000 / 60; // as calm as in the clip

  // One slide's piece, from when the slide is entered until it is left.
  function handled(slide, place) {
    const { nearDeg, near, reach, ...own } = slide.handling;
    const word = (key) => deck.words[`handle.${key}`];
    const inPicture = (landing) => ({ ...landing, at: deck.spot(landing.at) });
    const meeting = inPicture(own.meeting);
    const slips = own.slips.map(inPicture);
    const about = deck.spot(own.about);
    const first = { x: about[0], y: about[1], turn: 0 };
    const kept = (deck.store.handled ??= {})[slide.id] ??= { ...first, done: "", stacked: stacked !== null };
    const isElsewhere = kept.stacked !== (stacked !== null); // the window has been turned since: places are others
    let state = kept.done; // what was said last: "met", "shown", a slip, or how far it is; "" for nothing yet
    const isSettled = () => state === "met" || state === "shown";
    const settledPose = { x: meeting.at[0], y: meeting.at[1], turn: meeting.turn };
    const start = isElsewhere ? (isSettled() ? settledPose : first) : { x: kept.x, y: kept.y, turn: kept.turn };

    const piece = hand.thing(slide.handling, slide.figure, {
      start: { ...start },
      room: hand.room(slide.handling, about),
      isSettled,
      taken() {
        if (isSettled()) tell("", [word("lead")]);
      },
      moved() {
        Object.assign(kept, piece.pose, { done: isSettled() ? state : "", stacked: stacked !== null });
      },
      dropped: () => settle("", true),
    });

    const off = (landing) => ({
      turn: Math.abs(hand.wrapped(piece.pose.turn - landing.turn)),
      away: Math.hypot(piece.pose.x - landing.at[0], piece.pose.y - landing.at[1]),
    });
    const isThere = ({ turn, away }) => turn <= nearDeg && away <= near;
    const howFar = ({ turn, away }) => Math.max(turn / nearDeg, away / near);
    const isAway = () => howFar(off({ at: about, turn: 0 })) > 0;

    // What is true of where the piece lies now: a key, and the sentences.
    function found() {
      const { turn, away } = off(meeting);
      if (isThere({ turn, away })) return ["met", meeting.said];
      const [slip] = slips.map((each, number) => ({ ...each, number, ...off(each) })).filter(isThere)
        .sort((one, other) => howFar(one) - howFar(other));
      if (slip) return [`slip-${slip.number}`, slip.said];
      let key = "apart";
      if (turn <= nearDeg) key = turn <= hand.EXACT ? "turnIsRight" : "turnIsNear";
      else if (away <= near) key = away <= hand.EXACT ? "placeIsRight" : "placeIsNear";
      return [key, [word(key)]];
    }

    function tell(key, words) {
      state = key;
      said.textContent = words.join(" ");
      said.dataset.state = isSettled() ? "met" : key.startsWith("slip") ? "slip" : key;
      for (const button of steps.buttons) button.setAttribute("aria-disabled", String(isSettled()));
      tick.hidden = !isSettled();
      again.hidden = !isSettled();
    }

    // The piece has made a step or been let go of. `before` is said before what is new of where it lies.
    function settle(before, always) {
      const [key, words] = found();
      const isNew = always || key !== state;
      tell(key, words);
      if (before || isNew) deck.say([...(before ? [before] : []), ...(isNew ? words : [])].join(" "));
      if (key !== "met") return piece.put();
      piece.glide([{ ...settledPose, turn: piece.pose.turn + hand.wrapped(meeting.turn - piece.pose.turn), ms: SNAP_MS }]);
    }

    const steps = hand.steps(slide.handling, (dx, dy, turn, words) => {
      piece.begin();
      if (isSettled()) return deck.say(word("again"));
      const isStuck = piece.step(dx, dy, turn);
      settle(isStuck ? word("edge") : words, false);
      deck.keep();
    });

    function putBack() {
      piece.begin();
      tell("", [word("lead")]);
      deck.say(word("back"));
      piece.pose.turn = hand.wrapped(piece.pose.turn);
      piece.glide([{ ...first, ms: BACK_MS }]);
    }

    // The true motion, from where the piece lay at first: the whole turn, then the way to its place.
    function showMe() {
      piece.begin();
      tell("", [word("lead")]);
      piece.pose.turn = hand.wrapped(piece.pose.turn);
      const stops = [...(stacked ? [] : own.via), meeting.at];
      const lengths = stops.map(([x, y], i) => Math.hypot(x - (stops[i - 1] ?? about)[0], y - (stops[i - 1] ?? about)[1]));
      const whole = lengths.reduce((sum, length) => sum + length, 0);
      const way = stops.map(([x, y], i) => ({ x, y, turn: meeting.turn, ms: (SHIFT_MS * lengths[i]) / whole, even: true }));
      const turn = { ...first, turn: meeting.turn, ms: MS_A_DEGREE * Math.abs(meeting.turn) };
      piece.glide([...(isAway() ? [{ ...first, ms: BACK_MS }] : []), turn, ...way], () => {
        tell("shown", meeting.said);
        piece.put();
        deck.keep();
        deck.say(meeting.said.join(" "));
      });
    }

    const tick = element("span", { class: "handle-tick", "aria-hidden": "true", hidden: true }, "✓");
    const said = element("p", { class: "handle-said" }, word("lead"));
    const again = element("p", { class: "handle-again", hidden: true }, word("again"));
    place.append(element("section", { class: "handle", "aria-label": word("title") },
      element("div", { class: "handle-state" }, tick, element("div", {}, said, again)),
      steps.row,
      element("div", { class: "handle-row" }, steps.large, hand.button("putBack", "⤺", putBack), hand.button("show", "▷", showMe)),
      ...hand.how()));
    deck.takesKeys = steps.press;
    if (isSettled()) tell(state, meeting.said);
    piece.look();
    piece.put();
    const stopShowing = hand.show([piece], () => !isAway());
    return () => {
      stopShowing();
      piece.leave();
    };
  }

  let leave = () => {};
  extras.push({
    wants: (moment) => Boolean(moment.handling),
    enter(moment, place) { leave = handled(moment, place); },
    leave() { leave(); },
  });
}
