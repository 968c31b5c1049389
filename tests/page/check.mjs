// The sheet in a browser. Usage: node check.mjs CHROMIUM FOLDER ONE_PAGE.html [OTHER.html ...]
// Of each page: valid, accessible (WCAG 2 A and AA), as wide as a phone, quiet, readable by ear
// and by keyboard. Of the first: one sheet of A4. Pictures and PDFs of all go to FOLDER.
// Prints "ok - name" or "not ok - name" a check. SPDX-License-Identifier: GPL-3.0-or-later
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { tmpdir } from "node:os";
import { pathToFileURL } from "node:url";
import axe from "axe-core";
import { HtmlValidate } from "html-validate";
import { chromium } from "playwright-core";

const [executablePath, folder, ...pages] = process.argv.slice(2);
const flags = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
               "--disable-component-update", "--disable-sync"];
const PHONE = 360, DESK = 1280;
let bad = 0;

function check(name, wrong) {
    const list = [wrong].flat().filter(Boolean);
    console.log(`${list.length ? "not ok" : "ok"} - ${name}`);
    list.slice(0, 10).forEach((line) => console.log(`# ${String(line).replace(/\n/g, " ").slice(0, 300)}`));
    bad += list.length > 0;
}

async function valid(file) {
    const rules = new HtmlValidate({ root: true, extends: ["html-validate:recommended"] });
    const report = await rules.validateFile(file);
    return report.results.flatMap((r) => r.messages.map((m) => `${m.line}: ${m.ruleId}: ${m.message}`));
}

async function accessible(page) {
    await page.evaluate(axe.source);
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const found = await page.evaluate((values) => globalThis.axe.run({ runOnly: { type: "tag", values } }), tags);
    const all = found.violations.concat(found.incomplete.filter((r) => r.impact === "critical"));
    return all.flatMap((r) => r.nodes.map((n) => `${r.id}: ${n.target}: ${n.failureSummary}`));
}

// What sticks out on the right, with everything unfolded.
async function tooWide(page, width) {
    await page.setViewportSize({ width, height: 780 });
    return page.evaluate((most) => {
        document.querySelectorAll("details").forEach((d) => { d.open = true; });
        const out = [...document.querySelectorAll("body *")].filter((n) => n.getBoundingClientRect().right > most + 1);
        return out.map((n) => `${n.tagName} ${n.className} reaches beyond ${most}`);
    }, width);
}

async function tabbed(page) {
    const wrong = [], seen = new Set();
    const summaries = await page.locator("summary").count();
    for (let i = 0; i <= summaries; i++) {
        await page.keyboard.press("Tab");
        const at = await page.evaluate(() => {
            const n = document.activeElement;
            const seen = getComputedStyle(n).outlineStyle !== "none" && n.matches(":focus-visible");
            return { tag: n.tagName, place: [...document.querySelectorAll("*")].indexOf(n), seen };
        });
        if (at.tag === "SUMMARY") {
            seen.add(at.place);
            if (!at.seen) {
                wrong.push("the focus on a summary cannot be seen");
            }
        } else if (at.tag !== "BODY") {
            wrong.push(`the focus stops at ${at.tag}`);
        }
    }
    if (seen.size !== summaries) {
        wrong.push(`${seen.size} of ${summaries} summaries are reached`);
    }
    const native = await page.evaluate(() => document.querySelectorAll("[tabindex],[onclick],[role=button],a,input,button").length);
    return native ? wrong.concat(`${native} elements ask for keys in their own way`) : wrong;
}

// Headings and pictures as a screen reader meets them.
async function heard(page) {
    const cdp = await page.context().newCDPSession(page);
    const { nodes } = await cdp.send("Accessibility.getFullAXTree");
    const byId = new Map(nodes.map((n) => [n.nodeId, n]));
    const order = [];
    (function walk(n) {
        if (!n.ignored) {
            const level = n.properties?.find((p) => p.name === "level")?.value.value;
            order.push({ role: n.role?.value, name: n.name?.value ?? "", about: n.description?.value ?? "", level });
        }
        (n.childIds ?? []).forEach((id) => byId.has(id) && walk(byId.get(id)));
    })(nodes[0]);
    return order;
}

function inOrder(order) {
    const wrong = [], headings = order.filter((n) => n.role === "heading");
    headings.forEach((h, i) => {
        if (h.level > (i ? headings[i - 1].level : 0) + 1) {
            wrong.push(`heading ${h.name} skips a level`);
        }
    });
    const at = (name) => headings.findIndex((h) => h.name === name);
    const urgent = Math.max(at("Foot signs come first"), at("The acute case comes first"));
    if (at("This morning") !== (urgent < 0 ? 1 : urgent + headings.slice(urgent + 1).findIndex((h) => h.level === 2) + 1) ||
        urgent > 1) {
        wrong.push(`the action list does not come first: ${headings.map((h) => h.name).join(" | ")}`);
    }
    for (const role of ["banner", "main", "contentinfo"]) {
        if (order.filter((n) => n.role === role).length !== 1) {
            wrong.push(`not one ${role}`);
        }
    }
    return wrong.concat(order.filter((n) => n.role === "image" && !n.name).map(() => "a picture without a name"));
}

// L* of CIE 1976 of a grey; NaN for a colour.
function lightness(rgb) {
    const [r, g, b] = rgb.match(/\d+/g).map(Number);
    const v = r / 255, y = v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    return r === g && g === b ? (y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y) : NaN;
}

async function greys(page) {
    const marks = await page.evaluate(() => [...document.querySelectorAll("#grass ~ .key rect")].map((r) =>
        ({ fill: getComputedStyle(r).fill, high: r.getBoundingClientRect().height })));
    const light = marks.map((m) => lightness(m.fill));
    const steps = light.slice(1).every((l, i) => l < light[i] - 15 && marks[i + 1].high > marks[i].high);
    return marks.length === 4 && steps ? [] : [`marks of free, timed, brief, none: ${JSON.stringify(marks)}`];
}

async function sheets(page, name) {
    await page.emulateMedia({ media: "print" });
    await page.evaluate(() => document.querySelectorAll("details").forEach((d) => { d.open = false; }));
    const pdf = await page.pdf({ preferCSSPageSize: true });
    writeFileSync(join(folder, `${name}.pdf`), pdf);
    const text = pdf.toString("latin1");
    const box = text.match(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/);
    const a4 = box && Math.abs(box[1] - 595.28) < 1 && Math.abs(box[2] - 841.89) < 1;
    return { count: (text.match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length, a4 };
}

async function look(browser, file, onePage) {
    const name = basename(file, ".html"), loud = [], asked = [];
    const page = await browser.newPage({ viewport: { width: DESK, height: 900 } });
    page.on("console", (m) => loud.push(m.text()));
    page.on("pageerror", (e) => loud.push(e.message));
    page.on("request", (r) => asked.push(r.url()));
    await page.goto(pathToFileURL(file).href);
    check(`${name}: valid`, await valid(file));
    check(`${name}: asks for nothing but itself`, asked.slice(1));
    check(`${name}: its style is let in by its hash`, loud.concat(
        await page.evaluate(() => getComputedStyle(document.body).margin === "0px" ? [] : ["no style"])));
    check(`${name}: everything with a key press is reached`, await tabbed(page));
    const order = await heard(page);
    check(`${name}: read out, the action list comes first`, inOrder(order));
    check(`${name}: turnout survives a grey copier`, await greys(page));
    await page.screenshot({ path: join(folder, `${name}-${DESK}.png`), fullPage: true });
    await page.setViewportSize({ width: PHONE, height: 780 });
    await page.screenshot({ path: join(folder, `${name}-${PHONE}.png`), fullPage: true });
    check(`${name}: no wider than a phone`, await tooWide(page, PHONE));
    check(`${name}: accessible, unfolded`, await accessible(page));
    const printed = await sheets(page, name);
    check(`${name}: printed on A4`, printed.a4 ? [] : ["another size"]);
    if (onePage) {
        check(`${name}: printed on one page`, printed.count === 1 ? [] : [`${printed.count} pages`]);
    }
    await page.close();
}

const profile = mkdtempSync(join(tmpdir(), "page-"));
const context = await chromium.launchPersistentContext(profile, { executablePath, args: flags, headless: true });
try {
    for (const [i, file] of pages.entries()) {
        await look(context, file, i === 0);
    }
} finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
}
process.exit(bad ? 1 : 0);
