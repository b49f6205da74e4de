// The brief as the page holds it: its text, what the text says, the changes on their way to
// it, and every state it was in. No element of the page is known here.

// A path is a list of keys, and numbers of elements from 1: ["obstacle", 2, "height_m"].
export const pathText = (path) => path.reduce((s, p) => (typeof p === "number" ? `${s}[${p}]` : s ? `${s}.${p}` : p), "");

export function at(says, path) {
  return path.reduce((v, p) => (v === undefined || v === null ? undefined : typeof p === "number" ? v[p - 1] : v[p]), says);
}

// A copy of a tree with one value changed, or with null taken out.
export function withValue(says, path, value) {
  if (path.length === 0) return value;
  const [p, ...rest] = path;
  if (typeof p === "number") {
    const list = [...(says ?? [])];
    const inner = withValue(list[p - 1], rest, value);
    if (inner === null) list.splice(p - 1, 1);
    else list[p - 1] = inner;
    return list.length > 0 ? list : null;
  }
  const table = { ...(says ?? {}) };
  const inner = withValue(table[p], rest, value);
  if (inner === null || inner === undefined) delete table[p];
  else table[p] = inner;
  return table;
}

// Brief holds the text as the core last gave it back, and the edits made since. While
// something is dragged its edits are open: they are shown and asked about, but no state
// of the brief until they are settled.
export class Brief {
  constructor(text = "") {
    this.text = text;
    this.read = {};
    this.readable = true;
    this.faults = [];
    this.settled = []; // edits on their way, a list a step
    this.open = []; // of what is being dragged
    this.states = [{ text, what: "as opened" }];
    this.now = 0;
    this.saved = text;
    this.asked = 0;
  }

  // What the brief says with all edits made.
  get says() {
    if (this.shown?.of === this.read && this.shown.settled === this.settled && this.shown.open === this.open) return this.shown.says;
    let says = this.read;
    for (const e of [...this.settled.flat(), ...this.open]) says = withValue(says, e.path, e.value) ?? {};
    this.shown = { of: this.read, settled: this.settled, open: this.open, says };
    return says;
  }

  get unsaved() {
    return this.settled.length > 0 || this.text !== this.saved;
  }

  get canUndo() {
    return this.now > 0;
  }

  get canRedo() {
    return this.now < this.states.length - 1;
  }

  // Show edits that are not settled yet, in place of the ones before.
  drag(edits) {
    this.open = edits;
  }

  // Make edits one step. Steps with the same word to join them, such as an arrow key held
  // down, are one to undo.
  edit(edits, what, join = null) {
    this.open = [];
    const step = edits.map((e) => ({ path: e.path, value: e.value ?? null }));
    Object.assign(step, { what, join });
    this.settled = [...this.settled, step];
  }

  drop() {
    this.open = [];
  }

  // The text written anew, by hand or from elsewhere.
  write(text, what, join = null) {
    this.settled = [];
    this.open = [];
    this.text = text;
    this.push(text, what, join);
  }

  push(text, what, join = null) {
    const last = this.states[this.now];
    if (text === last.text) return;
    const joined = join !== null && join === last.join;
    this.states = [...this.states.slice(0, this.now + (joined ? 0 : 1)), { text, what, join }];
    this.now = this.states.length - 1;
  }

  undo() {
    this.go(-1);
  }

  redo() {
    this.go(1);
  }

  go(steps) {
    const to = this.now + steps;
    if (to < 0 || to >= this.states.length) return;
    this.now = to;
    this.text = this.states[to].text;
    this.settled = [];
    this.open = [];
  }

  // What is to be asked of the core now, and what to do with its answer.
  request() {
    const { text, settled, open } = this;
    return { text, settled, open, edits: [...settled.flat(), ...open] };
  }

  // Take an answer in. False where the brief has gone another way since.
  take(request, answer) {
    if (request.text !== this.text || request.settled.some((s, i) => s !== this.settled[i])) return false;
    this.refused = answer.refused ?? "";
    if (this.refused) {
      this.settled = this.settled.slice(request.settled.length);
      this.open = this.open === request.open ? [] : this.open;
      this.read = answer.says;
      this.faults = answer.faults;
      return true;
    }
    this.faults = answer.faults;
    this.readable = answer.readable;
    if (request.open.length > 0) return true; // of a drag: the text stays what it was
    const last = request.settled.at(-1);
    if (last) this.push(answer.text, last.what, last.join);
    this.text = answer.text;
    this.read = answer.says;
    this.settled = this.settled.slice(request.settled.length);
    return true;
  }
}
