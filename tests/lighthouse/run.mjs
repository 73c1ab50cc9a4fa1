// One page through Lighthouse in a browser that is open already, with what it keeps: the scores as a line of JSON.
import lighthouse from "lighthouse";

const { port, name, url } = JSON.parse(process.argv[2]);
const CATEGORIES = ["performance", "accessibility", "best-practices"];

const { lhr } = await lighthouse(
  url,
  // The phone is paired: what it keeps is what its screens are made of.
  { port, output: "json", logLevel: "error", disableStorageReset: true },
  { extends: "lighthouse:default", settings: { onlyCategories: CATEGORIES, disableFullPageScreenshot: true } },
);
const scores = {};
const failed = [];
for (const category of CATEGORIES) {
  const { score, auditRefs } = lhr.categories[category];
  scores[category] = score;
  for (const { id, weight } of auditRefs) {
    const audit = lhr.audits[id];
    if (weight > 0 && audit.score !== null && audit.score < 0.9)
      failed.push({ category, id, title: audit.title, value: audit.displayValue ?? "" });
  }
}
const error = lhr.runtimeError?.message ?? null;
process.stdout.write(`${JSON.stringify({ name, url: lhr.finalDisplayedUrl, error, scores, failed })}\n`);
