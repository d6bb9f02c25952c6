// Opens pages in headless Chromium and has axe-core look at them: every rule of WCAG 2.2 A and AA, contrast at least 7 (AAA),
// and its best practices, on a phone, a tablet and a screen, light, dark, with forced colors, and as print. Also no
// page may be wider than its screen.
//   node pages.mjs CHROMIUM SHOTS|- PAGE...
// needs axe-core and puppeteer-core beside it (npm). With a folder SHOTS, pictures and printed pages are left there.
import { createRequire } from "node:module";
import { basename, join, resolve } from "node:path";
const require = createRequire(join(process.cwd(), "x.js"));
const puppeteer = require("puppeteer-core");
const axe = require.resolve("axe-core/axe.min.js");

const [chromium, shots, ...pages] = process.argv.slice(2);
const browser = await puppeteer.launch({ executablePath: chromium, args: ["--no-sandbox"] });
const light = [{ name: "prefers-color-scheme", value: "light" }];
const dark = [{ name: "prefers-color-scheme", value: "dark" }];
const looks = [
  ["360", 360, "screen", light], ["800", 800, "screen", light], ["1280", 1280, "screen", light],
  ["dark", 800, "screen", dark], ["forced", 800, "screen", [{ name: "forced-colors", value: "active" }]],
  ["print", 800, "print", light],
];
let count = 0;
let faults = 0;
for (const file of pages) {
  const page = await browser.newPage();
  await page.setBypassCSP(true);
  await page.goto("file://" + resolve(file));
  const devtools = await page.createCDPSession();
  for (const [look, width, media, features] of looks) {
    await page.setViewport({ width, height: 900 });
    await devtools.send("Emulation.setEmulatedMedia", { media, features });
    if (look === "360") await page.addScriptTag({ path: axe });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    if (media === "screen" && wide > 0) {
      faults += 1;
      console.log(`${basename(file)} ${look}: ${wide} pixels too wide`);
    }
    const rules = { "color-contrast-enhanced": { enabled: look !== "forced" } };
    const found = await page.evaluate((rules) => window.axe.run(document, { rules }), rules);
    count += 1;
    for (const { id, help, nodes } of found.violations) {
      faults += nodes.length;
      console.log(`${basename(file)} ${look}: ${id}: ${help}: ${nodes.length} times, as ${nodes[0].html.slice(0, 160)}`);
    }
    if (shots !== "-") {
      const name = join(shots, basename(file, ".html"));
      await page.screenshot({ path: `${name}-${look}.png`, fullPage: true });
      if (look === "print") {
        for (const format of ["A4", "Letter"]) {
          await page.pdf({ path: `${name}-${format}.pdf`, format, preferCSSPageSize: false });
        }
      }
    }
  }
  await page.close();
}
await browser.close();
console.log(`${pages.length} pages looked at ${count} times: ${faults} violations`);
process.exit(faults ? 1 : 0);
