#!/usr/bin/env bash
# check-pdf.sh PLAN.pdf JSON [whole]: looks at a printed plan with qpdf and poppler, from
# outside the program that made it. The figures of the JSON that the client is shown must be
# on the paper; of a whole plan, evidence and all, those of the bills and of the light too.
# What the client and the crew take away has at most eight pages.
set -euo pipefail
pdf=$1 json=$2 whole=${3:-}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() { echo "check-pdf: $pdf: $*" >&2; exit 1; }

qpdf --check "$pdf" >"$work/qpdf" 2>&1 || { cat "$work/qpdf" >&2; fail "qpdf finds faults"; }

pdfinfo "$pdf" >"$work/info"
grep -q '^Title:  *[^ ]' "$work/info" || fail "no title"
qpdf --qdf --object-streams=disable "$pdf" "$work/plain.pdf"
grep -aq '^ */Lang (' "$work/plain.pdf" || fail "the file does not say its language"

# Every font embedded, with a map back to Unicode.
pdffonts "$pdf" | tail -n +3 >"$work/fonts"
[ -s "$work/fonts" ] || fail "no fonts"
awk '{ if ($(NF-4) != "yes" || $(NF-2) != "yes") exit 1 }' "$work/fonts" || { cat "$work/fonts" >&2; fail "a font is not embedded or has no Unicode map"; }

pages=$(pdfinfo "$pdf" | awk '/^Pages:/ { print $2 }')
pdftotext -layout "$pdf" "$work/text"
pdftoppm -r 60 -gray "$pdf" "$work/page"

python3 - "$work" "$pages" "$json" "$whole" <<'PY'
import glob, json, os, re, sys

work, pages, beside, all_parts = sys.argv[1], int(sys.argv[2]), sys.argv[3], sys.argv[4] == "whole"
text = open(work + "/text", encoding="utf-8").read()
sheets = text.split("\f")[:pages]
faults = []

for n, sheet in enumerate(sheets, 1):
    if f"Page {n} of {pages}" not in sheet:
        faults.append(f"page {n} is not numbered {n} of {pages}")

# No ink within 10 mm of the edge, at 60 dots to the inch; and no empty page.
for n, name in enumerate(sorted(glob.glob(work + "/page-*.pgm")), 1):
    raw = open(name, "rb").read()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", raw)
    w, h = int(head[1]), int(head[2])
    rows = [raw[head.end() + y * w: head.end() + (y + 1) * w] for y in range(h)]
    edge = int(10 / 25.4 * 60)
    dark = lambda part: any(p < 200 for p in part)
    if any(dark(r) for r in rows[:edge] + rows[-edge:]) or any(dark(r[:edge]) or dark(r[-edge:]) for r in rows):
        faults.append(f"page {n}: ink in the margin")
    if sum(p < 200 for r in rows for p in r) < 200:
        faults.append(f"page {n}: empty")

# Grouping signs and spaces aside, the figures must be there as they are.
def bare(s):
    return re.sub(r"[\s\u00a0\u202f,’']", "", s).lower()

if not all_parts and pages > 8:
    faults.append(f"{pages} pages")
if os.path.exists(beside):
    plan = json.load(open(beside, encoding="utf-8"))
    first, whole = bare(sheets[0]), bare(text)
    def need(where, what, name):
        if bare(what) not in where:
            faults.append(f"{name}: {what!r} of the JSON is not there")
    def percent(where, share, name):
        # The JSON is rounded already: at a half either neighbour may be the right one.
        either = {f"{round(100 * share - 0.06)}%", f"{round(100 * share + 0.06)}%"}
        if not any(bare(e) in where for e in either):
            faults.append(f"{name}: {share} of the JSON is not there")
    need(first, plan["title"], "title")
    mixture = plan.get("mixture")
    if mixture:
        for c in mixture["components"]:
            need(whole, c["species"], "component")
            need(whole, f'{c["percent_by_weight"]:g}%', "share by weight")
        percent(first, mixture["cover_expected"], "expected cover")
        percent(first, mixture["cover_bad_year"], "cover in bad years")
    for way in plan["cost"]["ways"]:
        need(first, way["total"], "total of " + way["way"])
        for line in way["lines"] if all_parts else []:
            need(whole, line["amount"], "amount of " + line["item"])
    for zone in plan["light"]["zones"] if all_parts else []:
        for key, unit, name in (("dli_season_mol_m2_d", "mol", "light of "), ("sun_hours_season", "h", "sun of ")):
            x = zone[key]
            if not any(f"{x + d:.{n}f}{unit}" in whole for n in (0, 1) for d in (-0.006, 0.006)):
                faults.append(f'{name}{zone["name"]}: {x} of the JSON is not there')

if faults:
    sys.exit("check-pdf: " + "; ".join(faults))
print(f"{pages} pages")
PY
