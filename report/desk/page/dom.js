// Making elements.

const svgTags = new Set(["svg", "g", "path", "polygon", "polyline", "circle", "line", "text", "defs", "pattern", "clipPath", "rect", "title", "desc"]);

// el makes an element: properties are attributes, or with "on" before a name listeners;
// null, undefined and false are left out.
export function el(tag, props = {}, ...kids) {
  const e = svgTags.has(tag) ? document.createElementNS("http://www.w3.org/2000/svg", tag) : document.createElement(tag);
  set(e, props);
  e.append(...kids.flat().filter((k) => k !== null && k !== undefined && k !== false));
  return e;
}

export function set(e, props) {
  for (const [name, v] of Object.entries(props)) {
    if (name.startsWith("on")) e.addEventListener(name.slice(2), v);
    else if (v === null || v === undefined || v === false) e.removeAttribute(name);
    else if (e.getAttribute(name) !== String(v === true ? "" : v)) e.setAttribute(name, v === true ? "" : v);
  }
  return e;
}

// say writes text where it differs, so that readers of the screen hear only changes.
export function say(e, text) {
  if (e.textContent !== text) e.textContent = text;
}

// keyed makes the children of a parent match a list: those with a known key stay the same
// elements, with their focus.
export function keyed(parent, list, keyOf, make, update) {
  const had = parent.keyed ?? new Map();
  const has = new Map();
  let before = null;
  list.forEach((item, i) => {
    const key = keyOf(item, i);
    const e = had.get(key) ?? make(item, i);
    had.delete(key);
    has.set(key, e);
    update(e, item, i);
    const place = before ? before.nextSibling : parent.firstChild;
    if (place !== e) parent.insertBefore(e, place);
    before = e;
  });
  for (const e of had.values()) e.remove();
  parent.keyed = has;
}

let count = 0;
// id makes a name for an element that others refer to.
export const id = (base) => `d-${base}-${++count}`;

export const byId = (name) => document.getElementById(name);
