// One page after another through Lighthouse in a browser that is open already, with what it keeps. Lines of JSON, one a page.
import lighthouse from "lighthouse";

const { port, pages } = JSON.parse(process.argv[2]);
const CATEGORIES = ["performance", "accessibility", "best-practices"];

for (const { name, url } of pages) {
  const { lhr } = await lighthouse(
    url,
    // The phone is paired: what it keeps is what its screens are made of.
    { port, output: "json", logLevel: "error", disableStorageReset: true },
    { extends: "lighthouse:default", settings: { onlyCategories: CATEGORIES } },
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
  const told = { name, url: lhr.finalDisplayedUrl, error: lhr.runtimeError?.message ?? null, scores, failed };
  process.stdout.write(`${JSON.stringify(told)}\n`);
}
