import { test } from "node:test";
import assert from "node:assert/strict";
import { Brief, at, withValue, pathText } from "./brief.js";
import { things, namedPoints } from "./things.js";

// A core that keeps its text as JSON: enough to see how the page keeps steps.
const answer = (request) => {
  let says = JSON.parse(request.text || "{}");
  for (const e of request.edits) says = withValue(says, e.path, e.value) ?? {};
  return { text: JSON.stringify(says), says, faults: [], readable: true };
};
const settle = (b) => {
  const r = b.request();
  return b.take(r, answer(r));
};

test("paths", () => {
  assert.equal(pathText(["obstacle", 2, "height_m"]), "obstacle[2].height_m");
  const says = withValue({}, ["obstacle", 1], { name: "x" });
  assert.deepEqual(withValue(says, ["obstacle", 1, "height_m"], 3), { obstacle: [{ name: "x", height_m: 3 }] });
  assert.deepEqual(withValue(says, ["obstacle", 1], null), {});
  assert.equal(at(says, ["obstacle", 2, "name"]), undefined);
  assert.equal(says.obstacle[0].height_m, undefined); // what there was is not touched
});

test("every step is undone and done again, without limit", () => {
  const b = new Brief("{}");
  settle(b);
  for (let i = 1; i <= 2000; i++) {
    b.edit([{ path: ["n"], value: i }], `to ${i}`);
    assert.equal(b.says.n, i);
    assert.ok(settle(b));
  }
  for (let i = 1999; i >= 1; i--) {
    b.undo();
    settle(b);
    assert.equal(b.says.n, i);
  }
  b.undo();
  settle(b);
  assert.ok(!b.canUndo && b.says.n === undefined && !b.unsaved);
  for (let i = 1; i <= 2000; i++) b.redo();
  settle(b);
  assert.ok(!b.canRedo && b.says.n === 2000 && b.unsaved);
});

test("a drag is shown at once and is one step", () => {
  const b = new Brief("{}");
  settle(b);
  for (let i = 0; i < 50; i++) {
    b.drag([{ path: ["x"], value: i }]);
    assert.equal(b.says.x, i);
    settle(b);
    assert.equal(b.text, "{}");
  }
  b.edit(b.open, "moved");
  settle(b);
  assert.equal(b.states.length, 2);
  b.undo();
  settle(b);
  assert.equal(b.says.x, undefined);
});

test("a drag that is broken off leaves nothing", () => {
  const b = new Brief("{}");
  settle(b);
  b.drag([{ path: ["x"], value: 1 }]);
  b.drop();
  settle(b);
  assert.ok(!b.unsaved && b.states.length === 1);
});

test("edits made while an answer is awaited are not lost, and old answers change nothing", () => {
  const b = new Brief("{}");
  settle(b);
  b.edit([{ path: ["a"], value: 1 }], "a");
  const first = b.request();
  b.edit([{ path: ["b"], value: 2 }], "b");
  assert.ok(b.take(first, answer(first)));
  assert.deepEqual(b.says, { a: 1, b: 2 });
  assert.deepEqual(JSON.parse(b.text), { a: 1 });
  settle(b);
  assert.deepEqual(JSON.parse(b.text), { a: 1, b: 2 });
  assert.equal(b.states.length, 3);
  assert.ok(!b.take(first, answer(first)));
  assert.deepEqual(b.says, { a: 1, b: 2 });
});

test("an answer that comes after undoing changes nothing", () => {
  const b = new Brief("{}");
  settle(b);
  b.edit([{ path: ["a"], value: 1 }], "a");
  settle(b);
  const late = b.request();
  b.undo();
  assert.ok(!b.take(late, answer(late)));
  assert.equal(b.text, "{}");
});

test("what is refused is taken back", () => {
  const b = new Brief("{}");
  settle(b);
  b.edit([{ path: ["a"], value: 1 }], "a");
  const r = b.request();
  b.take(r, { ...answer({ text: "{}", edits: [] }), refused: "no" });
  assert.deepEqual(b.says, {});
  assert.equal(b.refused, "no");
  assert.ok(!b.unsaved);
});

test("joined steps are one", () => {
  const b = new Brief("{}");
  settle(b);
  for (const v of [1, 2, 3]) {
    b.edit([{ path: ["x"], value: v }], "moved", "corner 1");
    settle(b);
  }
  b.edit([{ path: ["x"], value: 9 }], "moved", "corner 2");
  settle(b);
  assert.equal(b.states.length, 3);
  b.undo();
  settle(b);
  assert.equal(b.says.x, 3);
});

test("things of any text, however odd", () => {
  for (const says of [{}, { lawn: 3 }, { lawn: { outline: "x" } }, { obstacle: "x" }, { obstacle: [1, null, { kind: "tree" }] }, { probe: [{ at: [1] }] }, { lawn: { outline: [[1, "x"]] } }, { lawn: { part: {} } }]) {
    assert.ok(Array.isArray(things(says)));
    assert.deepEqual(namedPoints(things(says)), []);
  }
  const all = things({ lawn: { outline: [[0, 0], [1, 0], [1, 1]] }, obstacle: [{ kind: "tree", at: [2, 2], crown_m: 3 }, { kind: "solid", name: "wall", footprint: [[0, 0], [1, 0], [1, 1]] }], probe: [{ at: [3, 3] }] });
  assert.deepEqual(all.map((t) => t.name), ["lawn", "obstacle 1", "wall", "probe 1"]);
  assert.equal(namedPoints(all).length, 8);
});
