import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openBuiltApp } from './chromium.mjs';
import { PICTURES, take } from './pictures.mjs';

/** Takes the pictures of the main screens anew, the README's among them. */

const folder = fileURLToPath(new URL('../browser/pictures/', import.meta.url));

const app = await openBuiltApp();
try {
  mkdirSync(folder, { recursive: true });
  for (const picture of PICTURES) {
    const target = `${folder}${picture.name}.png`;
    writeFileSync(target, await take(app.browser, app.address, picture));
    console.log(target);
  }
} finally {
  await app.close();
}
