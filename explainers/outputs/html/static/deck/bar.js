// The bar at the foot of the window: the one thing to do next has its place there, and so has what is said of it.
{
  let offered = null; // in place of going on: {text, act, more: {text, act}}

  Object.assign(deck, {
    // null: the button goes on, as on most slides
    offer(next) {
      offered = next;
      byId("next").textContent = next?.text ?? deck.words.next;
      byId("more").hidden = !next?.more;
      byId("more").textContent = next?.more?.text ?? "";
    },
    // Words above the buttons, where they are seen wherever the page is scrolled to.
    hint(text, aloud) {
      byId("hint").textContent = text;
      if (aloud) deck.say(text);
    },
  });

  byId("next").addEventListener("click", () => (offered ? offered.act() : deck.next()));
  byId("more").addEventListener("click", () => offered?.more?.act());
  // What is reached by a key or brought into view does not come to lie under the bar, however high that is.
  const measure = () => document.documentElement.style.setProperty("--bar", `${byId("bar").offsetHeight}px`);
  new ResizeObserver(() => requestAnimationFrame(measure)).observe(byId("bar"));
}
