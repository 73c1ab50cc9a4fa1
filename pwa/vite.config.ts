import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { early } from "./vite/early.ts";
import { packing } from "./vite/packing.ts";
import { policy } from "./vite/policy.ts";
import { sizes } from "./vite/sizes.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const version = /^version = "(.+)"$/m.exec(readFileSync(here("../pyproject.toml"), "utf8"))?.[1];
if (version === undefined) throw new Error("no version in pyproject.toml");

/**
 * What is wanted together comes in one piece: a hundred small files pack badly and are slow to open. The first piece is what every
 * screen needs; the rest is fetched a place at a time.
 */
const LANGUAGES = readdirSync(here("src/languages"), { withFileTypes: true }).filter((one) => one.isDirectory());

const PIECES = [
  { name: "begin", test: /src\/(kernel\/(starting|early|worker)|trusted)\.ts/ },
  {
    name: "app",
    test: /node_modules\/(@?preact|idb|uuidv7)|src\/(store|controls|look|kernel|screens\/(shell|bikes\/bikes|[^/]+$)|sensors\/(enter|phone-button)|languages\/(?!kernel-words)[^/]+$|(?!main)[^/]+$)/,
  },
  // Which drawing there is comes with the bench; the drawings themselves may come after the figures.
  { name: "bench", test: /src\/(screens\/bench\/|drawing\/catalogue)/ },
  { name: "drawings", test: /src\/drawing\// },
  { name: "bike", test: /src\/screens\/(bike|check|bikes)\// },
  { name: "build", test: /src\/screens\/(build|position)\// },
  { name: "lineup", test: /src\/screens\/lineup\/(?!qr|detector)/ },
  { name: "workshop", test: /src\/screens\/(due|checks|device)\// },
  { name: "sensors", test: /src\/sensors\/(?!enter|phone-button|usual-tone)/ },
  // Last: a piece takes along what it imports, and the words in English are nobody else's.
  ...LANGUAGES.map(({ name }) => ({ name: `language-${name}`, test: new RegExp(`src/languages/${name}/`) })),
  { name: "language-any", test: /src\/languages\/kernel-words/ },
  { name: "language-xx", test: /tests\/marked|var\/kernel\/sentences/ },
].map((piece, i, all) => ({ ...piece, priority: all.length - i }));

const ICON = { src: "/icon-192.png", sizes: "192x192", type: "image/png" };

const SHOTS = [
  { name: "bikes", label: "The bikes, those that must not be ridden first" },
  { name: "calculation", label: "A calculation with its drawing" },
  { name: "line", label: "The line of an event" },
];

// `vite build --mode test` builds a second page that lets browser tests reach the store and the kernel without a screen.
export default defineConfig(({ mode }) => {
  const testing = mode === "test";
  return {
    // No browser has Node's process: what the engine brings for Node falls away.
    define: { __VERSION__: JSON.stringify(version), process: "undefined", "globalThis.process": "undefined" },
    oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
    plugins: [
      policy(),
      early(here("src/kernel/early.ts")),
      VitePWA({
        strategies: "injectManifest",
        srcDir: "src",
        filename: "sw.ts",
        injectRegister: false,
        manifest: {
          id: "/",
          name: "Pinchbolt",
          short_name: "Pinchbolt",
          description: "The record and the calculator of a bicycle builder's bench.",
          lang: "en",
          start_url: "/",
          scope: "/",
          display: "standalone",
          orientation: "any",
          background_color: "#F7F4EC",
          theme_color: "#F7F4EC",
          categories: ["sports", "utilities"],
          icons: [
            { src: "/icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" },
            { src: "/icon-192.png", sizes: "192x192", type: "image/png", purpose: "any" },
            { src: "/icon-512.png", sizes: "512x512", type: "image/png", purpose: "any" },
            { src: "/icon-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
          ],
          shortcuts: [
            { name: "Line-up", url: "/lineup", icons: [ICON] },
            { name: "Bench", url: "/bench", icons: [ICON] },
            { name: "Due", url: "/due", icons: [ICON] },
          ],
          // Out of the guide's pictures, which the tests hold to what the app shows.
          screenshots: SHOTS.map(({ name, label }) => ({
            src: `/shot-${name}.png`,
            sizes: "390x844",
            type: "image/png",
            form_factor: "narrow" as const,
            label,
          })),
          share_target: {
            action: "/share",
            method: "POST",
            enctype: "multipart/form-data",
            params: { files: [{ name: "file", accept: ["application/gpx+xml", "application/xml", "text/xml", ".gpx"] }] },
          },
        },
        injectManifest: {
          // The app's own reader of codes is large and many phones have one: kept when first fetched, see sw.ts. Of the languages
          // the list has all, and sw.ts keeps the ones that are spoken here.
          globIgnores: ["**/zxing_reader-*.wasm", "**/ponyfill-*.js"],
          globPatterns: ["**/*.{js,css,html,wasm,bin,woff2,svg,webmanifest}", "icon-192.png"],
          rollupFormat: "iife",
        },
      }),
      // The tests' build goes over no line.
      ...(testing ? [] : [packing(), sizes({ first: 90, everything: 500 })]),
    ],
    worker: { format: "es" as const },
    build: {
      outDir: testing ? "../var/web-test" : "../server/pinchbolt/web",
      emptyOutDir: true,
      target: ["chrome111", "safari16.4", "firefox114"],
      modulePreload: { polyfill: false },
      // An inlined asset would be a data: address, which the policy does not let be fetched.
      assetsInlineLimit: 0,
      rolldownOptions: {
        input: [
          here("index.html"),
          here("src/kernel/early.ts"),
          ...(testing ? [here("tests.html"), here("controls.html")] : []),
        ],
        output: { codeSplitting: { groups: PIECES } },
      },
    },
    // The compiled kernel lies beside this folder: `python hatch_build.py` makes it.
    server: { proxy: { "/api": "http://127.0.0.1:8000" }, fs: { allow: [here("."), here("../var/kernel")] } },
  };
});
