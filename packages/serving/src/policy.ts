/**
 * What a page may load and who may show it. The grid writes its theme into style elements and styles rows in place, hence
 * 'unsafe-inline' for styles; its icons are data addresses. Scripts come from this server's files and nowhere else.
 */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self' data:",
  "img-src 'self' data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** The script of the worker that proves plans: the solver in it is WebAssembly, which nothing else may run. */
const PROVES = /[\\/]assets[\\/]proof-worker-[\w-]+\.js$/;
const PROVING_POLICY = POLICY.replace("script-src 'self'", "script-src 'self' 'wasm-unsafe-eval'");

/** The policy of one file. */
export const policyFor = (file: string): string => (PROVES.test(file) ? PROVING_POLICY : POLICY);

/** Headers of every answer, of errors too. */
export const HEADERS = {
  'Content-Security-Policy': POLICY,
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), geolocation=(), microphone=()',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
} as const;
