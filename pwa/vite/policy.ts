/** The page's own content security policy, beside the one the server sends: it also holds for a copy served by anything else. */

import type { Plugin } from "vite";

const POLICY = [
  "default-src 'self'",
  // WebAssembly needs a word of its own; it does not let text be run as script.
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "require-trusted-types-for 'script'",
  "trusted-types pinchbolt",
].join("; ");

export function policy(): Plugin {
  return {
    name: "pinchbolt-policy",
    apply: "build",
    transformIndexHtml: () => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: POLICY },
        injectTo: "head-prepend",
      },
    ],
  };
}
