// The desk in Firefox: served, by mouse and keys, and as one file from disk.
//   node firefox.mjs PROGRAM BRIEF ONE-FILE AXE     with puppeteer-core where node finds it
import { spawn, execFileSync } from "node:child_process";
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import assert from "node:assert/strict";

const [program, brief, oneFile, axe] = process.argv.slice(2);
const puppeteer = createRequire(join(process.cwd(), "x.js"))("puppeteer-core");
const dir = mkdtempSync(join(tmpdir(), "desk-"));
const file = join(dir, "lawn.toml");
copyFileSync(brief, file);

const desk = spawn(program, ["desk", file, "--no-open"]);
const address = await new Promise((done, fail) => {
  let said = "";
  desk.stdout.on("data", (d) => {
    said += d;
    const found = /http\S+/.exec(said);
    if (found) done(found[0]);
  });
  desk.on("exit", (code) => fail(new Error(`the desk ended with ${code}`)));
});

const browser = await puppeteer.launch({ browser: "firefox", executablePath: "/usr/bin/firefox-esr", headless: true });
let failed = null;
try {
  const complaints = [];
  const page = await browser.newPage();
  page.setDefaultTimeout(120000);
  page.on("pageerror", (e) => complaints.push(e.message));
  page.on("console", (m) => m.type() === "error" && complaints.push(m.text()));
  await page.setViewport({ width: 1280, height: 900 });
  await page.goto(address);
  await page.waitForFunction(() => window.desk?.plan);

  // A corner by the mouse.
  const place = (selector) =>
    page.evaluate((s) => {
      const e = document.querySelector(s);
      e.scrollIntoView({ block: "center", behavior: "instant" });
      const r = e.getBoundingClientRect();
      return [r.x + r.width / 2, r.y + r.height / 2];
    }, selector);
  const settled = () => page.waitForFunction(() => !desk.dirty && !desk.busy && desk.brief.settled.length === 0);
  await page.evaluate(() => desk.choose("lawn", 0));
  const before = await page.evaluate(() => desk.brief.text);
  const [x, y] = await place('.corner[data-corner="1"]');
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 10; i++) await page.mouse.move(x + 4 * i, y);
  await page.mouse.up();
  await settled();
  const dragged = await page.evaluate(() => desk.brief.text);
  assert.notEqual(dragged, before, "the mouse moved nothing");

  // The same by keys, and back.
  await page.evaluate(() => document.querySelector('.corner[data-corner="2"]').focus());
  await page.keyboard.press("ArrowLeft");
  await settled();
  assert.notEqual(await page.evaluate(() => desk.brief.text), dragged, "the arrow moved nothing");
  for (let i = 0; i < 2; i++) {
    await page.keyboard.down("Control");
    await page.keyboard.press("z");
    await page.keyboard.up("Control");
    await settled();
  }
  assert.equal(await page.evaluate(() => desk.brief.text), before, "undoing does not give the brief back");

  // A form, saved.
  const cut = await page.$('input[name="use.mowing_mm"]');
  await cut.click({ count: 3 });
  await cut.type("33");
  await page.keyboard.press("Tab");
  await page.waitForFunction(() => desk.plan && desk.brief.text.includes("mowing_mm = 33"));
  await page.click("#d-acts button:nth-child(3)");
  await page.waitForFunction(() => !desk.brief.unsaved);
  assert.match(readFileSync(file, "utf8"), /mowing_mm = 33/, "not saved");

  for (const width of [1280, 768, 390, 320]) {
    await page.setViewport({ width, height: 800 });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(over <= 0, `at ${width} pixels it scrolls sideways by ${over}`);
  }
  assert.deepEqual(complaints, []); // axe itself tries styles that the policy stops
  await page.evaluate(readFileSync(axe, "utf8") + "\n; 0");
  const violations = await page.evaluate(async () => (await axe.run(document)).violations.map((v) => `${v.id}: ${v.nodes[0].target}`));
  assert.deepEqual(violations, []);
  await page.close();

  // The page without a program.
  const alone = await browser.newPage();
  alone.setDefaultTimeout(180000);
  await alone.goto(`file://${resolve(oneFile)}`);
  const chooser = await alone.waitForSelector("form.begin input[type=file]");
  await chooser.uploadFile(file);
  await alone.waitForFunction(() => window.desk?.plan);
  const figures = await alone.evaluate(() => JSON.stringify(desk.plan.figures));
  const want = JSON.parse(execFileSync(program, ["plan", file, "--json", "-"], { maxBuffer: 1 << 28 }).toString());
  assert.deepEqual(JSON.parse(figures), want, "the file's plan is not the program's");
  console.log("the desk works in Firefox, served and from disk");
} catch (e) {
  failed = e;
} finally {
  await browser.close();
  desk.removeAllListeners("exit");
  desk.kill("SIGINT");
  rmSync(dir, { recursive: true, force: true });
}
if (failed) {
  console.error(failed);
  process.exit(1);
}
