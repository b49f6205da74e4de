// The answer beside the drawing: the first page of the plan in its own words, its faults
// while there are any, and the whole plan to read, print and take away.

import { el, set, say, keyed } from "./dom.js";

const formNames = { pdf: "PDF", html: "page (HTML)", json: "figures (JSON)", csv: "bill (CSV)", ics: "calendar" };

// What the plan's own style lacks to stand beside ours: no margins, our dark scheme,
// drawings on paper in every scheme.
const beside = `
:host { container-type: inline-size; }
.body { margin: 0; padding: 0; max-width: none; background: none; color: var(--ink); }
figure { background: #fff; color: #1a1a1a; }
.sign, #answer .beside figure { display: none; } /* the lawn is drawn already */
figcaption { background: var(--ground); }
@media screen and (prefers-color-scheme: dark) {
  :host { --ink: #f1f1ee; --quiet: #b8b8b8; --rule: #555555; --faint: #2b2b2a; --ground: #1a1a1a; }
  a { color: #8fc9ee; }
}`;

// A piece of the plan's own page, in its own style, apart from ours.
class Shown {
  // alone says that it is the plan's page and nothing else: to be printed.
  constructor(alone = false) {
    this.alone = alone;
    this.node = el("div", { class: "shown" });
    this.root = this.node.attachShadow({ mode: "open" });
    this.root.addEventListener("click", (e) => {
      const a = e.target.closest("a[href^='#']");
      if (!a) return;
      e.preventDefault();
      this.root.getElementById(decodeURIComponent(a.getAttribute("href").slice(1)))?.scrollIntoView();
    });
  }

  show(page, pick) {
    if (this.page === page) return;
    this.page = page;
    // Styles are taken out before the page is parsed: our policy lets none in by markup.
    let style = "";
    const plain = page.replace(/<style>([\s\S]*?)<\/style>/g, (all, css) => ((style += css), "")).replace(/ style="/g, ' data-style="');
    const doc = new DOMParser().parseFromString(plain, "text/html");
    style = style.replace(/:root\b/g, ":host").replace(/(^|[\s,{}])body\b/g, "$1.body");
    if (!this.alone) style = style.replace(/@media screen and \(max-width/g, "@container (max-width"); // by the column's width, not the window's
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(this.alone ? style : style + beside);
    this.root.adoptedStyleSheets = [sheet];
    const body = el("div", { class: "body" });
    body.append(...pick(doc).map((n) => document.importNode(n, true)));
    for (const e of body.querySelectorAll("[data-style]")) e.style.cssText = e.dataset.style;
    if (!this.alone) {
      // Our own headings name it, and its stand a level below them.
      for (const s of body.querySelectorAll("section")) set(s, { role: "presentation", "aria-labelledby": null });
      for (const h of body.querySelectorAll("h4")) set(h, { "aria-level": 3 });
    }
    for (const f of body.querySelectorAll("figure")) set(f, { tabindex: 0, "aria-label": f.querySelector("title")?.textContent ?? "Drawing" }); // they may scroll
    this.root.replaceChildren(body);
  }
}

// The sections of a plan's page that hold no others, the answer first.
const sectionsOf = (doc) => [...doc.querySelectorAll("main section[id]")].filter((s) => !s.querySelector("section[id]") && !(s.querySelector("nav") && s.id !== "answer"));
const heading = (section) => section.querySelector("h2, h3");

export class AnswerPanel {
  constructor(app) {
    this.app = app;
    this.state = el("p", { class: "note" });
    this.problem = el("p", { class: "fault" });
    this.faultsTitle = el("h3", {});
    this.faults = el("ol", { class: "faults" });
    this.first = new Shown();
    this.folds = el("div", { class: "folds" });
    this.more = el("button", { type: "button", onclick: () => this.showAll() }, "Show the evidence as well");
    this.files = el("div", { class: "acts", role: "group", "aria-label": "Take the plan away" });
    this.node = el(
      "aside", { id: "d-answer", class: "answer", tabindex: -1, "aria-labelledby": "d-answer-h" }, el("h2", { id: "d-answer-h" }, "The answer"), this.state, this.faultsTitle, this.faults, this.problem, this.first.node, this.folds, this.more,
      el("h3", {}, "To take away"), this.files,
    );
    for (const f of app.start.forms) this.files.append(el("button", { type: "button", onclick: (e) => this.take(f, e.currentTarget) }, formNames[f] ?? f));
    this.files.append(el("button", { type: "button", onclick: () => download(`${fileStem(app)}.toml`, "application/toml", app.brief.text) }, "brief (TOML)"));
  }

  showAll() {
    this.app.pageParts = [];
    this.more.remove();
    this.app.changed();
  }

  async take(form, button) {
    set(button, { "aria-busy": "true" });
    try {
      const answer = await this.app.ask({ files: [form] });
      for (const f of answer.files ?? []) download(f.name, f.type, Uint8Array.from(atob(f.data), (c) => c.charCodeAt(0)));
      if (!answer.files) this.app.tell("The brief has faults; there is no plan of it yet.");
    } catch (e) {
      this.app.tell(e.message);
    }
    set(button, { "aria-busy": null });
    this.app.update();
  }

  update() {
    const { brief, plan, lastPlan, problem } = this.app;
    const n = brief.faults.length;
    say(this.faultsTitle, n === 0 ? "" : n === 1 ? "One thing is missing or wrong" : `${n} things are missing or wrong`);
    this.faultsTitle.hidden = n === 0;
    keyed(this.faults, brief.faults, (f, i) => `${i} ${f.said}`, (f) => el("li", {}, el("button", { type: "button", class: "link", onclick: () => this.app.goTo(f) }, f.said)), () => {});
    say(this.problem, problem);
    const old = !plan && lastPlan;
    set(this.first.node, { class: `shown${old ? " old" : ""}` });
    say(this.state, plan || n > 0 || problem ? (old && n > 0 ? "Below is the last plan there was." : "") : lastPlan ? "Being planned anew." : "Being planned.");
    const show = plan ?? lastPlan;
    if (show) {
      this.first.show(show.page, (doc) => {
        const [first, ...others] = sectionsOf(doc);
        this.sections = others.map((s) => ({ id: s.id, title: heading(s)?.textContent ?? s.id }));
        for (const e of [heading(first), ...first.querySelectorAll("nav")]) e?.remove();
        const most = doc.querySelector("#lawn .notice"); // what limits it, and what would do most
        return [...doc.querySelectorAll(".warning")].slice(0, 1).concat(first, most ?? []);
      });
      keyed(
        this.folds, this.sections, (s) => s.id,
        (s) => {
          const shown = new Shown();
          const fold = el("details", {}, el("summary", {}), shown.node);
          fold.fill = () => {
            const page = (this.app.plan ?? this.app.lastPlan)?.page;
            if (fold.open && page) shown.show(page, (doc) => sectionsOf(doc).filter((e) => e.id === s.id).map((e) => (heading(e)?.remove(), e)));
          };
          fold.addEventListener("toggle", fold.fill);
          return fold;
        },
        (fold, s) => {
          say(fold.firstChild, s.title);
          fold.fill();
        },
      );
    }
    for (const b of this.files.children) if (!b.textContent.startsWith("brief")) set(b, { disabled: n > 0 || !brief.text });
  }
}

// The whole plan, put on the page when it is printed.
export class Print {
  constructor(app) {
    const shown = new Shown(true);
    document.getElementById("d-print").append(shown.node);
    window.addEventListener("beforeprint", () => app.lastPlan && shown.show(app.lastPlan.page, whole));
  }
}

const whole = (doc) => [...doc.body.children].filter((e) => !e.classList.contains("skip"));

export const fileStem = (app) => app.file.name.replace(/\.toml$/i, "") || String(app.brief.says.title ?? "").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "lawn";

// Hand a file to the browser to save.
export function download(name, type, data) {
  const url = URL.createObjectURL(new Blob([data], { type }));
  el("a", { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}
