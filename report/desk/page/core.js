// Asking the core: over the loopback server that served this page, or in workers that run
// it as WebAssembly where the page is a file by itself. Both take the same requests and
// give the same answers.

export class Gone extends Error {}
export class TakenOver extends Error {}

export function connect() {
  return document.getElementById("d-core") ? new Workers() : new Loopback(location.hash.slice(1));
}

class Loopback {
  constructor(token) {
    this.token = token;
    this.fileState = null;
  }

  async fetch(path, options = {}) {
    let response;
    try {
      response = await fetch(path, { ...options, headers: { "Desk-Token": this.token } });
    } catch (e) {
      if (e.name === "AbortError") throw new TakenOver();
      throw new Gone("The program behind this page has ended. The brief is still here: download it, or start the program again.");
    }
    this.onState?.(response.headers.get("Desk-File"));
    if (response.status === 409) throw new TakenOver();
    return response;
  }

  async ask(request, signal) {
    const response = await this.fetch("answer", { method: "POST", body: JSON.stringify(request), signal });
    if (!response.ok) throw new Gone((await response.text()).trim());
    return response.json();
  }

  // The brief's file: its name, text and state.
  async file() {
    const response = await this.fetch("brief");
    if (!response.ok) throw new Gone((await response.text()).trim());
    return response.json();
  }

  // Save to it. Where it was changed meanwhile, its own text comes back as changed.
  async save(text, state) {
    const response = await this.fetch("brief", { method: "POST", body: JSON.stringify({ text, state }) });
    if (response.status === 412) return { changed: await response.json() };
    if (!response.ok) throw new Error((await response.text()).trim());
    return { saved: await response.json() };
  }
}

// Workers are two: one for what must come at once, one for whole plans. One that works at
// what nobody waits for any more is ended and begun anew.
class Workers {
  constructor() {
    this.module = unpacked(document.getElementById("d-core").textContent).then((bytes) => WebAssembly.compile(bytes));
    this.quick = new One(this.module);
    this.slow = new One(this.module);
  }

  ask(request, signal) {
    const { plan, files } = request.want;
    return (plan || files ? this.slow : this.quick).ask(JSON.stringify(request), signal);
  }

  async file() {
    return { name: "", text: "", state: "" };
  }
}

class One {
  constructor(module) {
    this.module = module;
    this.begin();
  }

  begin() {
    const source = document.getElementById("d-worker").textContent;
    this.worker = new Worker(URL.createObjectURL(new Blob([source], { type: "text/javascript" })));
    this.ready = this.module.then((m) => this.worker.postMessage({ module: m }));
    this.turn = Promise.resolve();
  }

  ask(text, signal) {
    const mine = this.turn.then(async () => {
      if (signal?.aborted) throw new TakenOver();
      await this.ready;
      return new Promise((resolve, reject) => {
        const stop = () => {
          this.worker.terminate();
          this.begin();
          reject(new TakenOver());
        };
        signal?.addEventListener("abort", stop, { once: true });
        const done = (f) => {
          signal?.removeEventListener("abort", stop);
          f();
        };
        this.worker.onmessage = (e) => done(() => (e.data.error ? reject(new Gone(e.data.error)) : resolve(JSON.parse(e.data.answer))));
        this.worker.onerror = (e) => done(() => reject(new Gone(`The core has stopped: ${e.message}`)));
        this.worker.postMessage({ request: text });
      });
    });
    this.turn = mine.catch(() => {});
    return mine;
  }
}

// What was packed with gzip and base64 into the page.
async function unpacked(base64) {
  const packed = Uint8Array.from(atob(base64.trim()), (c) => c.charCodeAt(0));
  return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}
