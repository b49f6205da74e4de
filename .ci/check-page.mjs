// Looks at a page of a plan in a real browser:
//
//	node check-page.mjs PAGE MOST
//
// At every width nothing scrolls sideways, axe finds nothing, and whatever scrolls can
// be reached by keyboard; printed, the page has at most MOST sheets.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const [file, most] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browser = await puppeteer.launch({
	executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
	args: ["--no-sandbox", "--disable-gpu"],
});
let faults = 0;
const fault = (s) => {
	faults++;
	console.error(`${file}: ${s}`);
};
try {
	for (const width of [1280, 390, 320]) {
		const page = await browser.newPage();
		await page.setViewport({ width, height: 800 });
		await page.goto(pathToFileURL(file).href);
		// What is folded is looked at as well.
		await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
		await page.evaluate(axe);
		const found = await page.evaluate(() => window.axe.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
		for (const v of found.violations) {
			fault(`${width} px: axe ${v.id}: ${v.help}; ${v.nodes.length} places, first ${v.nodes[0].html.slice(0, 160)}`);
		}
		const layout = await page.evaluate(() => {
			const wide = [], small = [], away = [];
			for (const e of document.querySelectorAll("body *")) {
				const box = e.getBoundingClientRect();
				if (box.width === 0 || e.closest(".skip, caption, clipPath")) continue;
				// Of a drawing the words count: its lines are cut off at its edge.
				if (e.ownerSVGElement && e.localName !== "text") continue;
				if (box.right > innerWidth + 1) wide.push(e.outerHTML.slice(0, 160));
				if (e.localName === "text" && box.height < 7) small.push(e.textContent);
				if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX === "auto" && e.tabIndex < 0) away.push(e.outerHTML.slice(0, 120));
			}
			return { page: document.documentElement.scrollWidth, wide, small, away };
		});
		if (layout.page > width) fault(`${width} px: the page is ${layout.page} px wide`);
		if (layout.wide.length) fault(`${width} px: ${layout.wide.length} parts reach past the edge, first ${layout.wide[0]}`);
		if (layout.small.length) fault(`${width} px: ${layout.small.length} words of drawings are under 7 px high, first "${layout.small[0]}"`);
		if (layout.away.length) fault(`${width} px: ${layout.away.length} parts scroll and cannot be reached by keyboard, first ${layout.away[0]}`);
		await page.close();
	}
	const page = await browser.newPage();
	await page.goto(pathToFileURL(file).href);
	const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
	const sheets = Buffer.from(pdf).toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
	if (sheets > Number(most)) fault(`printed it has ${sheets} sheets, the PDF ${most}`);
	console.log(`${file}: ${sheets} sheets printed, ${most} in the PDF`);
} finally {
	await browser.close();
}
process.exit(faults ? 1 : 0);
