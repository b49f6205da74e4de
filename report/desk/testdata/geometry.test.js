import { test } from "node:test";
import assert from "node:assert/strict";
import * as g from "./geometry.js";

const close = (a, b) => assert.ok(Math.abs(a - b) < 1e-9, `${a} is not ${b}`);

test("areas and sides of known figures", () => {
  const square = [[0, 0], [4, 0], [4, 4], [0, 4]];
  close(g.area(square), 16);
  close(g.area([...square].reverse()), 16);
  assert.deepEqual(g.sides([[0, 0], [3, 0], [3, 4]]), [3, 4, 5]); // Euclid, Elements I.47
  assert.ok(g.inside(square, [1, 1]) && !g.inside(square, [5, 1]));
});

test("a right angle is found, with a whole length", () => {
  const ring = [[0, 0], [6, 0], [6.07, 3.98], [0, 4]];
  const s = g.snap([6.07, 3.98], { ring, i: 2, reach: 0.15 });
  assert.deepEqual(s.at, [6, 4]);
  assert.equal(s.said, "square");
});

test("square to a side that runs askew", () => {
  // From (0, 0) to (3, 4); square to it at (3, 4) runs (-4, 3), 5 m of it end in (-1, 7).
  const s = g.snap([-1.01, 7.04], { ring: [[0, 0], [3, 4], [-1.01, 7.04]], i: 2, reach: 0.15 });
  assert.deepEqual(s.at, [-1, 7]);
});

test("a point that is there is met", () => {
  assert.deepEqual(g.snap([2.1, 2.12], { others: [[2, 2], [2, 2.13]], reach: 0.2 }).at, [2, 2.13]);
});

test("whole decimetres where nothing is near", () => {
  assert.deepEqual(g.snap([2.123, -0.04], { ring: [], i: 0, reach: 0.01 }).at, [2.1, 0]);
});

test("snapping never moves a point farther than it may", () => {
  let seed = 1;
  const random = () => ((seed = (seed * 16807) % 2147483647) / 2147483647) * 10;
  for (let n = 0; n < 5000; n++) {
    const ring = Array.from({ length: 4 }, () => [random(), random()]);
    const p = ring[2];
    const reach = 0.2;
    const s = g.snap(p, { ring, i: 2, others: [[random(), random()]], reach });
    const d = g.distance(s.at, p);
    assert.ok(d <= 1.5 * reach + 0.1, `moved by ${d}`);
    assert.ok(s.at.every((v) => Math.abs(v * 100 - Math.round(v * 100)) < 1e-6), `${s.at} is not to the centimetre`);
  }
});

test("a gable stays a rectangle", () => {
  const ring = [[0, 0], [8, 0], [8, 5], [0, 5]];
  const moved = g.rectangleWith(ring, 2, [10, 6]);
  assert.deepEqual(moved, [[0, 0], [10, 0], [10, 6], [0, 6]]);
  const askew = g.rectangleOver([0, 0], [3, 4], [-3, 6]);
  assert.ok(g.isRectangle(askew));
  assert.ok(g.isRectangle(g.rectangleWith(askew, 1, [4, 5])));
  assert.ok(!g.isRectangle([[0, 0], [8, 0], [9, 5], [0, 5]]));
});

test("lengths as they are typed", () => {
  for (const [text, want] of [["12.5", 12.5], ["12,5", 12.5], ["12.5 m", 12.5], ["350 cm", 3.5], ["-2", -2], ["−2", -2], ["10 ft", 3.048], ["10'", 3.048], ["12' 6\"", 3.81], ["12 ft 6 in", 3.81], ["6 in", 0.1524], [".5", 0.5]]) {
    close(g.readLength(text), want); // 1 ft is 0.3048 m: international yard and pound agreement, 1959
  }
  for (const none of ["", "x", "12 miles", "1.2.3", "ft"]) assert.equal(g.readLength(none), null, none);
  for (const [text, want] of [["3", 3], ["3,5", 3.5], ["-0.5", -0.5], [".5", 0.5]]) close(g.readNumber(text), want);
  for (const none of ["", "3 m", "1,2,3", "1e3", "NaN"]) assert.equal(g.readNumber(none), null, none);
});

test("nice steps", () => {
  for (const [span, n, want] of [[10, 5, 2], [9, 7, 2], [1, 5, 0.2], [100, 4, 50], [0, 4, 1]]) close(g.niceStep(span, n), want);
});

test("cells as runs cover each cell once", () => {
  const cells = { x0: 1, y0: 2, col: [0, 1, 2, 0, 2], row: [0, 0, 0, 1, 1], zone: [0, 0, 1, 0, 1] };
  const paths = g.runs(cells, 0.5, (k) => cells.zone[k]);
  assert.equal(paths.size, 2);
  assert.equal((paths.get(0).match(/M/g) ?? []).length, 2); // a run of two below, one above
  assert.equal((paths.get(1).match(/M/g) ?? []).length, 2);
  assert.equal((g.seams(cells, 0.5).match(/M/g) ?? []).length, 1); // only one pair of neighbours differs
  assert.deepEqual(g.heart(cells, 0.5, 1), { at: [2.25, 2.25], wide: 1 });
  assert.equal(g.heart(cells, 0.5, 3), null);
});
