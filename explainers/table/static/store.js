// What the program knows of the file, and the one way of changing it: commands are sent, the new state comes back.
const JSON_TYPE = { "Content-Type": "application/json" };
const QUIET_MS = 500; // after a change, before what takes longer is asked for
const TRY_MS = 60; // between two tries while something is dragged

export class Store extends EventTarget {
  state = null; // the last that was told for sure
  tried = null; // what would come of what is being dragged; else null
  later = null;
  mends = null; // of faults and warnings, asked for after the rest
  online = true;
  #edits = Promise.resolve();
  #trying = false;
  #next = null;
  #round = 0;
  #quiet = 0;
  #waiting = 0; // changes of ours that are not answered yet

  /** What is to be shown: what is tried, else what is. */
  get now() {
    return this.tried ?? this.state;
  }

  async start() {
    await this.load();
    this.#listen();
  }

  /** The state anew; whether it is a later one than was known, and none of our own changes was on its way. */
  async load() {
    const waited = this.#waiting;
    try {
      const answer = await fetch("state", { cache: "no-store" });
      if (!answer.ok) throw new Error(String(answer.status));
      const state = await answer.json(), isLater = this.state !== null && state.revision > this.state.revision;
      this.#take(state);
      return isLater && !waited;
    } catch {
      this.#gone();
      return false;
    }
  }

  /** Do commands, all or none; gives the answer. One change waits for the one before it. */
  edit(...commands) {
    return this.#post("edit", () => ({ commands }));
  }

  text(text) {
    return this.#post("edit", () => ({ text }));
  }

  undo() {
    return this.#post("undo", () => ({}));
  }

  redo() {
    return this.#post("redo", () => ({}));
  }

  answer(keep) {
    return this.#post("answer", () => ({ keep }));
  }

  /** See what commands would come to; only the newest answer counts, and none that comes after `settle`. */
  try(...commands) {
    this.#next = commands;
    if (!this.#trying) this.#tryNext();
  }

  /** Nothing is dragged any more. */
  settle() {
    this.#round += 1;
    this.#next = null;
    this.tried = null;
  }

  async #tryNext() {
    this.#trying = true;
    while (this.#next) {
      const commands = this.#next, round = this.#round;
      this.#next = null;
      try {
        const { status, told } = await this.#send("try", { revision: this.state.revision, commands });
        if (status === 200 && round === this.#round && !this.#next) {
          this.tried = told.state;
          this.#tell("state");
        }
      } catch { /* the change itself will tell */ }
      await new Promise((done) => setTimeout(done, TRY_MS));
    }
    this.#trying = false;
  }

  #post(where, body) {
    this.#waiting += 1;
    const mine = this.#edits.then(async () => {
      try {
        const { status, told } = await this.#send(where, { revision: this.state.revision, ...body() });
        this.settle();
        if (told.state) this.#take(told.state);
        else this.#tell("state");
        if (status !== 200) this.#tell("refused", told);
        else this.#tell("done", told);
        return told;
      } catch {
        this.settle();
        this.#gone();
        return { done: false };
      } finally {
        this.#waiting -= 1;
      }
    });
    this.#edits = mine.then(() => {}, () => {});
    return mine;
  }

  async #send(where, body) {
    const answer = await fetch(where, { method: "POST", headers: JSON_TYPE, body: JSON.stringify(body) });
    const kind = answer.headers.get("Content-Type") ?? "";
    const told = kind.includes("json") ? await answer.json() : { done: false, message: await answer.text(), fix: "" };
    return { status: answer.status, told };
  }

  #take(state) {
    if (this.state && state.revision < this.state.revision) return;
    this.online = true;
    this.state = state;
    this.#tell("state");
    clearTimeout(this.#quiet);
    if (this.later?.revision !== state.revision) this.#quiet = setTimeout(() => this.#askLater(), QUIET_MS);
  }

  async #askLater() {
    try {
      const answer = await fetch("later", { cache: "no-store" });
      if (!answer.ok) return;
      const later = await answer.json();
      if (later.revision !== this.state.revision) return; // asked again with the state that is to come
      this.later = later;
      this.#tell("later");
      await this.#askMends(later);
      if (later.revision === this.state.revision) this.#tell("quiet"); // nothing more comes of the last change
    } catch { /* told by the news */ }
  }

  async #askMends({ revision, without }) {
    const { faults, warnings, verdict } = this.state;
    if (!faults.length && !warnings.length && !without.length && verdict.state === "sound") return;
    const mends = await (await fetch("mends", { cache: "no-store" })).json();
    if (mends.revision !== revision || revision !== this.state.revision) return;
    this.mends = mends;
    this.#tell("mends");
  }

  #listen() {
    const news = new EventSource("news");
    let first = true;
    news.onmessage = (event) => {
      // The first tells what is so now: most often what has just been loaded, unless it changed in between.
      if (!first || !this.#knows(event.data)) this.#edits.then(async () => {
        if (await this.load() && !this.#waiting) this.#tell("others");
      });
      first = false;
    };
    news.onopen = () => {
      if (!this.online) this.load();
    };
    news.onerror = () => this.#gone();
  }

  #knows(news) {
    if (!this.state) return false;
    const [revision, saved, asked] = news.split(" ");
    const { revision: own, file } = this.state;
    return String(own) === revision && file.saved === (saved === "1") && (asked === "-") === (file.other === null);
  }

  #gone() {
    this.online = false;
    this.#tell("state");
  }

  #tell(what, detail) {
    if (this.state) this.dispatchEvent(new CustomEvent(what, { detail }));
  }
}
