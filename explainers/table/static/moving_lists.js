// Lists whose entries are moved by a grip; each has buttons for the same beside it.
export const takeLists = (part, moved) => {
  let taken = null;
  const entryAt = (event) => {
    const entry = document.elementFromPoint(event.clientX, event.clientY)?.closest("[data-move] > li");
    return entry && entry.parentElement === taken.list ? entry : null;
  };
  part.addEventListener("pointerdown", (event) => {
    const entry = event.target.closest(".grip")?.closest("li");
    if (!entry || event.button) return;
    event.preventDefault();
    taken = { list: entry.parentElement, entry, from: Number(entry.dataset.n) };
    entry.classList.add("taken");
    part.setPointerCapture(event.pointerId);
  });
  part.addEventListener("pointermove", (event) => {
    if (!taken) return;
    for (const each of taken.list.children) each.classList.toggle("over", each === entryAt(event) && each !== taken.entry);
  });
  const drop = (event) => {
    if (!taken) return;
    const over = event.type === "pointerup" ? entryAt(event) : null;
    for (const each of taken.list.children) each.classList.remove("over", "taken");
    const { list, from } = taken;
    taken = null;
    if (over && Number(over.dataset.n) !== from) moved(list.dataset.move, from, Number(over.dataset.n));
  };
  part.addEventListener("pointerup", drop);
  part.addEventListener("pointercancel", drop);
};
