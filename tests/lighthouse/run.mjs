// One page through Lighthouse in a browser that is open already, with what it keeps: the scores as a line of JSON.
import lighthouse from "lighthouse";
import * as constants from "lighthouse/core/config/constants.js";
import { pageFunctions } from "lighthouse/core/lib/page-functions.js";

const { port, name, url } = JSON.parse(process.argv[2]);
const CATEGORIES = ["performance", "accessibility", "best-practices"];

// Lighthouse slows the processor by 4, whatever it is. That makes a middling phone of an idle desktop, whose index by Lighthouse's
// own measure is 2000; one that is busy or slow just now is slowed as much less, so that the phone stays the same one.
const index = pageFunctions.computeBenchmarkIndex();
const slower = Math.min(4, Math.max(1, index / 500));

const settings = {
  onlyCategories: CATEGORIES,
  disableFullPageScreenshot: true,
  throttling: { ...constants.throttling.mobileSlow4G, cpuSlowdownMultiplier: slower },
};

const { lhr } = await lighthouse(
  url,
  // The phone is paired: what it keeps is what its screens are made of.
  { port, output: "json", logLevel: "error", disableStorageReset: true },
  { extends: "lighthouse:default", settings },
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
const blocked = Math.round(lhr.audits["total-blocking-time"].numericValue ?? 0);
const error = lhr.runtimeError?.message ?? null;
process.stdout.write(`${JSON.stringify({ name, url: lhr.finalDisplayedUrl, error, scores, failed, slower, blocked })}\n`);
