// What of a brief can be drawn: the lawn, what stands around it, points to watch; each as
// one thing with its corners or its place.

import { extent } from "./geometry.js";

const isPoint = (p) => Array.isArray(p) && p.length === 2 && p.every((x) => typeof x === "number" && Number.isFinite(x) && Math.abs(x) <= 5000);
const isRing = (r) => Array.isArray(r) && r.length > 0 && r.every(isPoint);
const tables = (v) => (Array.isArray(v) ? v.filter((t) => t && typeof t === "object" && !Array.isArray(t)) : []);

// The things of a brief in the order they are read. ring is an outline's corners, at the
// place of what has one; of is the path of its table, path that of its corners or place.
export function things(says) {
  const out = [];
  const lawn = says.lawn ?? {};
  if (isRing(lawn.outline)) out.push({ kind: "lawn", name: "lawn", of: ["lawn"], path: ["lawn", "outline"], ring: lawn.outline });
  const parts = tables(lawn.part);
  parts.forEach((p, i) => {
    if (isRing(p.outline)) {
      out.push({ kind: "lawn", name: `lawn part ${i + 1}`, of: ["lawn", "part", i + 1], path: ["lawn", "part", i + 1, "outline"], ring: p.outline });
    }
  });
  tables(says.obstacle).forEach((o, i) => {
    const of = ["obstacle", i + 1];
    const thing = { kind: o.kind ?? "", name: textOr(o.name, `obstacle ${i + 1}`), of, number: i + 1, says: o };
    if (o.kind === "tree") {
      if (isPoint(o.at)) out.push({ ...thing, path: [...of, "at"], at: o.at, crown: typeof o.crown_m === "number" ? o.crown_m : 0 });
      else out.push({ ...thing, path: [...of, "at"] });
    } else out.push({ ...thing, path: [...of, "footprint"], ring: isRing(o.footprint) ? o.footprint : undefined });
  });
  tables(says.probe).forEach((p, i) => {
    const of = ["probe", i + 1];
    out.push({ kind: "probe", name: textOr(p.name, `probe ${i + 1}`), of, number: i + 1, path: [...of, "at"], at: isPoint(p.at) ? p.at : undefined, says: p });
  });
  return out;
}

const textOr = (v, otherwise) => (typeof v === "string" && v.trim() ? v.trim() : otherwise);

export const key = (thing) => thing.of.join(" ");

// Every point of a drawing that has a name: what can be measured from.
export function namedPoints(all) {
  return all.flatMap((t) =>
    t.ring ? t.ring.map((p, i) => ({ name: `${t.name}, corner ${i + 1}`, at: p, thing: key(t), corner: i })) : t.at ? [{ name: t.name, at: t.at, thing: key(t), corner: 0 }] : [],
  );
}

// The box around all that is drawn.
export function around(all) {
  return extent(
    all.flatMap((t) => {
      if (t.ring) return t.ring;
      if (!t.at) return [];
      const r = (t.crown ?? 0) / 2;
      return [
        [t.at[0] - r, t.at[1] - r],
        [t.at[0] + r, t.at[1] + r],
      ];
    }),
  );
}

// What a kind is called where it has no name of its own.
export const kindNames = { lawn: "Lawn", solid: "Wall or building", gable: "Building with a gable", screen: "Screen", tree: "Tree", probe: "Point to watch" };
