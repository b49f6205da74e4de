// The geometry of drawing: pure functions over points [x, y] in metres, x to the right and
// y up the page.

export const distance = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);

// Coordinates are kept to the centimetre, as a tape is read.
export const toCentimetre = (x) => Math.round(x * 100) / 100 + 0;
export const pointToCentimetre = (p) => [toCentimetre(p[0]), toCentimetre(p[1])];

// The length of each side, the one after each corner; the last goes back to the first.
export const sides = (ring) => ring.map((p, i) => distance(p, ring[(i + 1) % ring.length]));

// The area inside an outline, by the surveyor's formula.
export function area(ring) {
  let sum = 0;
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length];
    sum += p[0] * q[1] - q[0] * p[1];
  });
  return Math.abs(sum) / 2;
}

export function middle(ring) {
  const n = ring.length;
  return [ring.reduce((s, p) => s + p[0], 0) / n, ring.reduce((s, p) => s + p[1], 0) / n];
}

// The box around points, or nothing.
export function extent(points) {
  if (points.length === 0) return null;
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

export function inside(ring, p) {
  let within = false;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length];
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < a[0] + ((p[1] - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) within = !within;
  });
  return within;
}

// The point of the line through from in direction u that lies nearest to p.
function onLine(p, from, u) {
  const along = (p[0] - from[0]) * u[0] + (p[1] - from[1]) * u[1];
  return [from[0] + along * u[0], from[1] + along * u[1]];
}

function unit(a, b) {
  const d = distance(a, b);
  return d > 0 ? [(b[0] - a[0]) / d, (b[1] - a[1]) / d] : null;
}

// Where two lines cross; nothing where they run alike.
function crossing(a, u, b, v) {
  const cross = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(cross) < 1e-6) return null;
  const t = ((b[0] - a[0]) * v[1] - (b[1] - a[1]) * v[0]) / cross;
  return [a[0] + t * u[0], a[1] + t * u[1]];
}

// Snap moves a point that is being placed to where it was likely meant, if that lies within
// reach: onto a point that is there already, square to or in line with the sides beside it
// or the axes of the plan, and to whole decimetres of length. ring is the outline it is
// corner i of, others are points to meet. It says what it did.
export function snap(p, { ring = [], i = 0, others = [], reach = 0.2 }) {
  const near = others.filter((o) => distance(o, p) <= reach).sort((a, b) => distance(a, p) - distance(b, p))[0];
  if (near) return { at: pointToCentimetre(near), said: "on a point that is there" };

  const n = ring.length;
  const guides = [];
  const beside = n > 1 ? [(i + n - 1) % n, (i + 1) % n] : [];
  beside.forEach((k, turn) => {
    const from = ring[k];
    const before = ring[turn === 0 ? (i + n - 2) % n : (i + 2) % n];
    const directions = [[[1, 0], "level"], [[0, 1], "upright"]];
    const side = n > 2 && unit(before, from);
    if (side) directions.unshift([[-side[1], side[0]], "square"], [side, "in line"]);
    let best = null;
    for (const [u, said] of directions) {
      const q = onLine(p, from, u);
      const off = distance(p, q);
      if (off <= reach && (!best || off < best.off - 1e-9)) best = { from, u, q, off, said };
    }
    if (best && distance(best.q, from) > 1e-6) guides.push(best);
  });
  if (guides.length === 2) {
    const both = crossing(guides[0].from, guides[0].u, guides[1].from, guides[1].u);
    if (both && distance(both, p) <= 1.5 * reach) {
      return { at: pointToCentimetre(both), said: [...new Set(guides.map((g) => g.said))].join(" and ") };
    }
  }
  if (guides.length > 0) {
    const g = guides.sort((a, b) => a.off - b.off)[0];
    const along = Math.round(distance(g.from, g.q) * 10) / 10;
    const way = unit(g.from, g.q);
    return { at: pointToCentimetre([g.from[0] + along * way[0], g.from[1] + along * way[1]]), said: `${g.said}, ${along.toFixed(1)} m` };
  }
  return { at: [Math.round(p[0] * 10) / 10 + 0, Math.round(p[1] * 10) / 10 + 0], said: "" };
}

// A length as it is typed, in metres: 12.5, 12,5 m, 350 cm, 12 ft 6 in, 12' 6". Nothing where
// it is none.
export function readLength(text) {
  const t = String(text).trim().toLowerCase().replace(/(\d),(\d)/g, "$1.$2").replace(/−/g, "-");
  const metric = /^(-?\d*\.?\d+)\s*(mm|cm|m)?$/.exec(t);
  if (metric) return Number(metric[1]) * { mm: 0.001, cm: 0.01, m: 1 }[metric[2] ?? "m"];
  const feet = /^(-?)(?:(\d*\.?\d+)\s*(?:ft|'|′))?\s*(?:(\d*\.?\d+)\s*(?:in|"|″))?$/.exec(t);
  if (feet && (feet[2] || feet[3])) return (feet[1] ? -1 : 1) * (Number(feet[2] ?? 0) * 0.3048 + Number(feet[3] ?? 0) * 0.0254);
  return null;
}

// A number as it is typed, with a decimal point or comma.
export function readNumber(text) {
  const t = String(text).trim().replace(/^(-?\d*),(\d+)$/, "$1.$2").replace("−", "-");
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(t) ? Number(t) : null;
}

// The step of 1, 2 or 5 times a power of ten that parts a span in at most n.
export function niceStep(span, n) {
  if (!(span > 0)) return 1;
  const base = 10 ** Math.floor(Math.log10(span / n));
  return [1, 2, 5, 10].map((m) => m * base).find((s) => span / s <= n + 1e-9);
}

// Squares of a grid as one path for each value, runs of a row joined: few elements, however
// many cells. value(k) is the k-th cell's, or null for none.
export function runs(cells, side, value) {
  const rows = new Map();
  cells.col.forEach((c, k) => {
    const v = value(k);
    if (v === null) return;
    const row = cells.row[k];
    if (!rows.has(row)) rows.set(row, []);
    rows.get(row).push([c, v]);
  });
  const paths = new Map();
  const overlap = side * 0.02; // so that no seam shows between rows
  for (const [row, list] of rows) {
    list.sort((a, b) => a[0] - b[0]);
    for (let k = 0; k < list.length; ) {
      let end = k;
      while (end + 1 < list.length && list[end + 1][1] === list[k][1] && list[end + 1][0] <= list[end][0] + 1) end++;
      const x = cells.x0 + list[k][0] * side;
      const y = cells.y0 + row * side - overlap;
      const w = (list[end][0] - list[k][0] + 1) * side;
      const d = `M${+x.toFixed(4)} ${+y.toFixed(4)}h${+w.toFixed(4)}v${+(side + 2 * overlap).toFixed(4)}h${-w.toFixed(4)}z`;
      paths.set(list[k][1], (paths.get(list[k][1]) ?? "") + d);
      k = end + 1;
    }
  }
  return paths;
}

// The lines between cells of different zones.
export function seams(cells, side) {
  const zone = new Map(cells.col.map((c, k) => [`${c} ${cells.row[k]}`, cells.zone[k]]));
  let d = "";
  cells.col.forEach((c, k) => {
    const r = cells.row[k];
    const z = cells.zone[k];
    const right = zone.get(`${c + 1} ${r}`);
    const up = zone.get(`${c} ${r + 1}`);
    const x = +(cells.x0 + (c + 1) * side).toFixed(4);
    const y = +(cells.y0 + (r + 1) * side).toFixed(4);
    if (right !== undefined && right !== z) d += `M${x} ${y}v${-side}`;
    if (up !== undefined && up !== z) d += `M${x} ${y}h${-side}`;
  });
  return d;
}

// A place well inside the cells of one value: the middle of the largest square of them, and
// how many cells wide that is.
export function heart(cells, side, value, of = (k) => cells.zone[k]) {
  const size = new Map();
  let best = null;
  const order = cells.col.map((c, k) => k).sort((a, b) => cells.row[a] - cells.row[b] || cells.col[a] - cells.col[b]);
  for (const k of order) {
    if (of(k) !== value) continue;
    const c = cells.col[k];
    const r = cells.row[k];
    const at = (x, y) => size.get(`${x} ${y}`) ?? 0;
    const s = 1 + Math.min(at(c - 1, r), at(c, r - 1), at(c - 1, r - 1));
    size.set(`${c} ${r}`, s);
    if (!best || s > best.s) best = { s, c, r };
  }
  return best && { at: [cells.x0 + (best.c + 1 - best.s / 2) * side, cells.y0 + (best.r + 1 - best.s / 2) * side], wide: best.s };
}

// A rectangle with corner i moved to p: the corner across stays, the sides keep their
// directions.
export function rectangleWith(ring, i, p) {
  const across = ring[(i + 2) % 4];
  const u = unit(across, ring[(i + 1) % 4]);
  const v = unit(across, ring[(i + 3) % 4]);
  if (!u || !v) return ring.map((q, k) => (k === i ? p : q));
  const a = onLine(p, across, u);
  const b = onLine(p, across, v);
  const out = [];
  out[i] = [a[0] + b[0] - across[0], a[1] + b[1] - across[1]];
  out[(i + 1) % 4] = a;
  out[(i + 2) % 4] = across;
  out[(i + 3) % 4] = b;
  return out.map(pointToCentimetre);
}

// Whether four corners make a rectangle, to a hundredth of a side.
export const isRectangle = (ring) =>
  ring.length === 4 &&
  ring.every((p, i) => {
    const q = ring[(i + 1) % 4];
    const r = ring[(i + 2) % 4];
    const dot = (q[0] - p[0]) * (r[0] - q[0]) + (q[1] - p[1]) * (r[1] - q[1]);
    return Math.abs(dot) <= 0.01 * distance(p, q) * distance(q, r);
  });

// The rectangle over the line from a to b that reaches out to c.
export function rectangleOver(a, b, c) {
  const u = unit(a, b);
  if (!u) return [a, b, c];
  const off = (c[0] - a[0]) * -u[1] + (c[1] - a[1]) * u[0];
  const n = [-u[1] * off, u[0] * off];
  return [a, b, [b[0] + n[0], b[1] + n[1]], [a[0] + n[0], a[1] + n[1]]].map(pointToCentimetre);
}
