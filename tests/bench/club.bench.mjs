import { pathToFileURL } from 'node:url';
import { bundled } from '../scripts/bundled.mjs';

/**
 * A club's server under load, on both databases: what it answers in a second and how long the slowest hundredth takes,
 * beside a route of the same server that only answers as many letters, and beside a bare query of the same database.
 * `club-load.ts` is what runs; it reads the server from its sources.
 */
await import(
  pathToFileURL(await bundled(new URL('./club-load.ts', import.meta.url), ['kerfbook-source'])).href
);
