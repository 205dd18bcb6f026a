// What lies loose in the picture of a question: it is moved about as cut-outs on paper, and nothing is said of where it lies.
{
  const BACK_MS = 400;

  function looseIn(moment, place) {
    const word = (key) => deck.words[`handle.${key}`];
    const where = `${moment.id} ${stacked ? "stacked" : ""}`; // places are others where panels are stacked
    const kept = (deck.store.loose ??= {})[where] ??= [];
    let chosen = 0;

    const things = moment.loose.map((each, number) => {
      const [x, y] = deck.spot(each.about);
      kept[number] ??= { x, y, turn: 0 };
      const thing = hand.thing(each, moment.figure, {
        start: { ...kept[number] },
        room: hand.room(each, [x, y]),
        isSettled: () => false,
        taken() { choose(number); },
        moved() { kept[number] = thing.pose; },
        dropped() { things[number].takeSide(); things[number].put(); },
      });
      thing.layer.classList.add("loose");
      return thing;
    });

    const steps = moment.loose.map((each, number) => hand.steps(each, (dx, dy, turn, words) => {
      const thing = things[number];
      thing.begin();
      deck.say(thing.step(dx, dy, turn) ? word("edge") : words);
      thing.put();
      deck.keep();
    }));

    function choose(number) {
      chosen = number;
      things.forEach((thing, i) => thing.layer.classList.toggle("chosen", i === number));
      names.forEach((radio, i) => { radio.setAttribute("aria-pressed", String(i === number)); });
      steps.forEach(({ row }, i) => { row.hidden = i !== number; });
    }

    function putBack() {
      things.forEach((thing) => {
        thing.begin();
        thing.pose.turn = hand.wrapped(thing.pose.turn);
        thing.glide([{ x: thing.about[0], y: thing.about[1], turn: 0, ms: BACK_MS }]);
      });
      deck.say(word(things.length > 1 ? "allBack" : "back"));
    }

    const names = things.length > 1 ? things.map((thing, number) => element("button", {
      type: "button", click() { choose(number); },
    }, moment.loose[number].name)) : [];
    const tools = element("details", { class: "loose-tools", toggle() { deck.takesKeys = tools.open ? press : null; } },
      element("summary", {}, word("loose")),
      element("div", { class: "handle" },
        ...(names.length ? [element("div", { class: "handle-which", role: "group", "aria-label": word("whichOne") }, ...names)] : []),
        ...steps.map(({ row }) => row),
        element("div", { class: "handle-row" }, hand.button("putBack", "⤺", putBack)),
        ...hand.how()));
    const press = (event) => steps[chosen].press(event);
    place.append(tools);
    choose(0);
    for (const thing of things) {
      thing.look();
      thing.put();
    }
    const isMoved = () => things.some(({ pose, about }) => pose.turn !== 0 || pose.x !== about[0] || pose.y !== about[1]);
    const stopShowing = hand.show(things, () => !isMoved());
    return () => {
      stopShowing();
      for (const thing of things) thing.leave();
    };
  }

  let leave = () => {};
  extras.push({
    wants: (moment) => Boolean(moment.loose),
    enter(moment, place) { leave = looseIn(moment, place); },
    leave() { leave(); },
  });
}
