// The page put together.

import { el, set, say, keyed, byId } from "./dom.js";
import { connect } from "./core.js";
import { App } from "./app.js";
import { Drawing } from "./drawing.js";
import { Editor } from "./editor.js";
import { Measure, Check, North, Skyline } from "./measure.js";
import { LightPanel } from "./light.js";
import { AnswerPanel, Print, download, fileStem } from "./answer.js";
import { TextPanel } from "./text.js";
import { Section, Several, Prices } from "./forms.js";
import { Begin } from "./begin.js";
import { OtherStation } from "./stations.js";
import { Count, today } from "./count.js";
import { at } from "./brief.js";

const draftKey = "swardwright-desk";

async function open() {
  const core = connect();
  let start, file;
  try {
    start = (await core.ask({ text: "", want: { start: true } })).start;
    file = await core.file();
  } catch (e) {
    byId("d-notices").append(el("p", { class: "notice", role: "alert" }, e.message));
    return;
  }
  const app = new App(core, start);
  app.file = { name: file.name, state: file.state, kept: file.name !== "" }; // kept by the program, else by the browser
  window.desk = app; // for those who look in with the browser's tools
  const head = new Head(app);
  build(app, head, file);
}

function build(app, head, file) {
  const page = (path) => app.start.pages.find((p) => p.path === path);
  const drawing = new Drawing(app);
  const text = new TextPanel(app);
  const answer = new AnswerPanel(app);
  const zoom = el(
    "div", { class: "acts", role: "group", "aria-label": "View" },
    el("button", { type: "button", onclick: () => drawing.zoom(1.25) }, "Closer"), el("button", { type: "button", onclick: () => drawing.zoom(0.8) }, "Further"), el("button", { type: "button", onclick: () => drawing.fit(true) }, "All of it"),
    el("label", { class: "check" }, el("input", { type: "checkbox", checked: true, onchange: (e) => (app.snapping = e.target.checked) }), " Keep to right angles and whole decimetres"),
  );
  const told = el("p", { class: "told", role: "status" });
  const drawn = el("section", { id: "d-drawn", "aria-labelledby": "d-drawn-h" }, el("h2", { id: "d-drawn-h" }, "The plan drawn"), drawing.frame, told, zoom);
  const add = (part) => (app.parts.push(part), part);
  app.parts.push(head, drawing, { update: () => say(told, app.told ?? "") });
  const left = el("div", { class: "left" }, drawn);
  for (const part of [new LightPanel(app), new Measure(app, drawing), new Editor(app)]) drawn.append(add(part).node);
  const lawn = new Section(app, page("lawn"), { without: ["outline", "horizon"] });
  left.append(add(lawn).node);
  for (const part of [new North(app), new Skyline(app), new Check(app)]) lawn.node.append(add(part).node);
  const own = {
    seen: { extra: (path) => new Count(app, path), first: () => ({ date: today() }) },
    sown: { first: () => ({ date: today() }) },
  };
  const several = (p) => app.start.fields.some((f) => f.path === p && f.kind === "tables");
  for (const p of app.start.pages) {
    if (["lawn", "lawn.part", "obstacle", "probe"].includes(p.path) || (p.path && !app.knows(p.path))) continue;
    const part = p.path === "prices" ? new Prices(app, p) : several(p.path) ? new Several(app, p, own[p.path]) : new Section(app, p);
    left.append(add(part).node);
    if (p.path === "place") part.node.append(add(new OtherStation(app)).node);
  }
  left.append(add(text).node);
  new Print(app);
  app.parts.push(answer);
  const tabs = add(new Variants(app));
  const whole = [left, answer.node];

  // Where a fault is mended: at its field, or on its line of the text.
  app.goTo = (fault) => {
    const thing = /^(obstacle|probe)\[(\d+)\]/.exec(fault.path);
    if (thing) app.choose(`${thing[1]} ${thing[2]}`, 0);
    for (let path = fault.path; path; path = path.replace(/(\[\d+\]|\.?[^.[]+)$/, "")) {
      const field = [...document.querySelectorAll("[data-path]")].find((f) => f.dataset.path === path);
      if (!field) continue;
      for (let d = field.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
      field.scrollIntoView({ block: "center" });
      field.querySelector("input, select")?.focus({ preventScroll: true });
      return;
    }
    text.goTo(fault.line || 1);
  };
  app.where = () => ({ latitude: at(app.brief.says, ["place", "latitude"]), longitude: at(app.brief.says, ["place", "longitude"]) });
  app.showAll = () => {
    byId("d-main").replaceChildren(tabs.node, ...whole);
    head.nav(left);
    drawing.resize();
  };

  const begun = file.text.trim() !== "";
  const draft = readDraft(app.file.name);
  if (begun || draft) {
    app.showAll();
    app.brief.states = [{ text: file.text, what: "as opened" }];
    app.brief.text = app.brief.saved = file.text;
    if (draft && draft !== file.text) {
      app.brief.write(draft, "what was not saved");
      app.notice = "This has what was not saved when the page was last left. Undo shows the file as it is.";
    }
    app.changed();
  } else {
    const begin = new Begin(app, () => app.showAll());
    byId("d-main").replaceChildren(begin.node);
    app.update();
  }
  window.addEventListener("beforeunload", (e) => {
    if (app.brief.unsaved) e.preventDefault();
  });
  window.addEventListener("keydown", (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey || e.target.closest("textarea, input[type=text], input[type=search]")) return;
    const k = e.key.toLowerCase();
    if (k === "z" && !e.shiftKey) app.undo();
    else if (k === "y" || (k === "z" && e.shiftKey)) app.redo();
    else return;
    e.preventDefault();
  });
  document.addEventListener("visibilitychange", () => !document.hidden && app.core.token && app.ask({}).catch(() => {}));
}

// The lawn and its variants, one of them shown.
class Variants {
  constructor(app) {
    this.app = app;
    this.tabs = el("div", { class: "tabs", role: "group", "aria-label": "The lawn and its variants" });
    this.bought = el("p", { class: "note" });
    this.node = el("div", { class: "variants" }, this.tabs, this.bought);
  }

  update() {
    const list = Array.isArray(this.app.brief.says.variant) ? this.app.brief.says.variant : [];
    this.node.hidden = list.length === 0;
    if (this.app.variant > list.length) this.app.showVariant(0);
    keyed(
      this.tabs, [{ name: "As it is" }, ...list], (v, i) => i, (v, i) => el("button", { type: "button", onclick: () => this.app.showVariant(i) }),
      (e, v, i) => {
        say(e, typeof v.name === "string" ? v.name : `variant ${i}`);
        set(e, { "aria-pressed": this.app.variant === i ? "true" : "false" });
      },
    );
    say(this.bought, this.app.bought(this.app.variant));
  }
}

// What was not saved, kept while the tab lives.
function readDraft(name) {
  try {
    const d = JSON.parse(sessionStorage.getItem(draftKey) ?? "null");
    return d?.name === name ? d.text : null;
  } catch {
    return null;
  }
}

function writeDraft(app) {
  try {
    if (app.brief.unsaved) sessionStorage.setItem(draftKey, JSON.stringify({ name: app.file.name, text: app.brief.text }));
    else sessionStorage.removeItem(draftKey);
  } catch {
    // A browser without room for it keeps none.
  }
}

// The head of the page: the lawn's name, the file, and what can be undone and saved.
class Head {
  constructor(app) {
    this.app = app;
    const button = (text, onclick) => el("button", { type: "button", onclick }, text);
    this.undo = button("Undo", () => app.undo());
    this.redo = button("Redo", () => app.redo());
    this.save = button("Save", () => this.saveBrief());
    byId("d-acts").append(this.undo, this.redo, this.save);
    this.changedText = el("p", {});
    this.changed = el("div", { class: "notice", role: "alert", hidden: true }, this.changedText, el("div", { class: "acts" }, button("Bring my changes into it", () => this.bring()), button("Show the file as it is", () => this.showFile())));
    this.notice = el("p", { class: "notice", role: "alert", hidden: true });
    byId("d-notices").append(this.changed, this.notice);
    app.core.onState = (state) => {
      if (!app.file.kept || !state || state === app.file.state || this.saving) return;
      this.onDisk = state;
      this.update();
    };
  }

  nav(left) {
    const links = [...left.querySelectorAll(":scope > section > h2:not(.unseen)")].map((h) => ({ title: h.textContent, at: h.parentElement }));
    links.push({ title: "The answer", at: byId("d-answer") });
    byId("d-nav").replaceChildren(
      el("ul", {}, links.map((l) => el("li", {}, el("a", { href: `#${l.at.id}`, onclick: (e) => this.go(e, l.at) }, l.title)))),
    );
    const skip = document.querySelector(".skip");
    skip.hidden = false;
    skip.onclick = (e) => this.go(e, byId("d-answer"));
  }

  go(e, section) {
    e.preventDefault(); // the address keeps its token
    set(section, { tabindex: -1 });
    section.scrollIntoView();
    section.focus({ preventScroll: true });
  }

  async saveBrief() {
    const { app } = this;
    while (app.brief.settled.length > 0) await app.ask({});
    const text = app.brief.text;
    if (!app.file.kept) {
      download(`${fileStem(app)}.toml`, "application/toml", text);
      app.brief.saved = text;
      app.update();
      return;
    }
    this.saving = true;
    try {
      const { saved, changed } = await app.core.save(text, app.file.state);
      if (saved) {
        app.file.state = saved.state;
        app.brief.saved = text;
        this.onDisk = null;
        app.notice = "";
        app.tell("Saved.");
      } else this.onDisk = changed.state;
    } catch (e) {
      app.notice = `Not saved: ${e.message}`;
    }
    this.saving = false;
    app.update();
  }

  // The file was changed meanwhile: bring what was changed here into it, key by key.
  async bring() {
    const { app } = this;
    const file = await app.core.file();
    const { merged } = await app.ask({ merge: { from: app.brief.saved, into: file.text } });
    this.accept(file);
    app.write(merged.text, "brought into the changed file");
    app.notice = merged.refused
      ? `Your changes could not be put into it: ${merged.refused}. The file is shown as it is; yours is under Undo.`
      : merged.both.length > 0
        ? `Both were changed: ${merged.both.join(", ")}. There the file's own stands; yours is under Undo.`
        : "Your changes are in it now; save to keep them.";
    app.update();
  }

  async showFile() {
    const file = await this.app.core.file();
    this.accept(file);
    this.app.write(file.text, "the changed file");
    this.app.notice = "This is the file as it is on disk; yours is under Undo.";
    this.app.update();
  }

  accept(file) {
    this.app.file.state = file.state;
    this.app.brief.saved = file.text;
    this.onDisk = null;
  }

  update() {
    const { app } = this;
    const { brief } = app;
    const title = typeof brief.says.title === "string" && brief.says.title.trim() ? brief.says.title : "A lawn";
    say(byId("d-title"), title);
    document.title = `${brief.unsaved ? "• " : ""}${title}`;
    say(byId("d-file"), [app.file.name || "not in a file of its own yet", brief.unsaved ? "changes not saved" : app.file.name && brief.text ? "saved" : ""].filter(Boolean).join(" · "));
    set(this.undo, { disabled: !brief.canUndo, title: brief.canUndo ? `Undo: ${brief.states[brief.now].what}` : null });
    set(this.redo, { disabled: !brief.canRedo, title: brief.canRedo ? `Redo: ${brief.states[brief.now + 1].what}` : null });
    set(this.save, { disabled: !brief.text || (!brief.unsaved && app.file.kept) });
    this.changed.hidden = !this.onDisk;
    if (this.onDisk) say(this.changedText, `${app.file.name} was changed by someone else since it was opened here. Nothing of either is lost: choose how to go on.`);
    say(this.notice, app.gone || app.notice || "");
    this.notice.hidden = !this.notice.textContent;
    // At rest only, so that readers of the screen are not talked over.
    if (!app.busy && !app.dirty) {
      const n = brief.faults.length;
      const headline = app.plan?.figures?.headline;
      say(byId("d-status"), app.plan ? headline ?? "" : n > 0 && brief.text ? `${n} ${n === 1 ? "thing is" : "things are"} missing or wrong.` : byId("d-status").textContent);
    }
    writeDraft(app);
  }
}

open();

