import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { contentsOf } from './contents.mjs';
import { LEFT_OUT } from './leave-out.mjs';

/** Modules of workers, which are built by themselves. @type {Set<string>} */
const inWorkers = new Set();

/**
 * Tells the page of licences what a worker contains.
 * @returns {import('vite').Plugin}
 */
export function workerLicences() {
  return {
    name: 'kerfbook-worker-licences',
    apply: 'build',
    generateBundle(_, bundle) {
      for (const file of Object.values(bundle)) {
        if (file.type === 'chunk') for (const id of file.moduleIds) inWorkers.add(id);
      }
    },
  };
}

/**
 * Adds `licences.html` to the build: what the app contains of others' work, under which licences, and
 * how the app itself may be handed on. The build stops where it may not.
 * @returns {import('vite').Plugin}
 */
export function licences() {
  let [home, root] = ['', ''];
  return {
    name: 'kerfbook-licences',
    apply: 'build',
    enforce: 'post',
    configResolved(config) {
      home = config.root;
      root = resolve(home, '..', '..');
    },
    generateBundle(_, bundle) {
      const ids = Object.values(bundle).flatMap((file) =>
        file.type === 'chunk'
          ? file.moduleIds
          : file.originalFileNames.map((name) => resolve(home, name)),
      );
      const own = readFileSync(join(root, 'LICENSE'), 'utf8');
      this.emitFile({
        type: 'asset',
        fileName: 'licences.html',
        source: pageOf(contentsOf([...ids, ...inWorkers], root), own),
      });
    },
  };
}

/**
 * The page, without a script.
 * @param {readonly import('./contents.mjs').Content[]} contents
 * @param {string} own the text of our own licence
 */
export function pageOf(contents, own) {
  // Packages of one house come with one text: it stands once.
  /** @type {Map<string, string[]>} */
  const texts = new Map();
  for (const { name, texts: its } of contents) {
    for (const text of its) texts.set(text, [...(texts.get(text) ?? []), name]);
  }
  const numbers = new Map([...texts.keys()].map((text, i) => [text, i + 1]));
  const rows = contents.map(({ name, version, licence, texts: its }) => {
    const links = its.map((text) => numbers.get(text)).map((n) => `<a href="#text-${n}">${n}</a>`);
    return `<tr><th scope="row">${escaped(name)}</th><td>${escaped(version)}</td><td>${escaped(licence)}</td><td>${links.join(', ')}</td></tr>`;
  });
  const parts = [...texts].map(
    ([text, names]) =>
      `<section><h3 id="text-${numbers.get(text)}">${numbers.get(text)}. ${escaped(names.join(', '))}</h3>\n<pre>${escaped(text)}</pre></section>`,
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>Licenses: Kerfbook</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>Licenses</h1>
<p>Kerfbook is free software. Its own code is under the GNU General Public License, version 3 or any
later version. The app contains HyperFormula, which is under version 3 only: as a whole the app is
handed on under the GNU General Public License, version 3. It comes without any warranty; sections 15
and 16 of <a href="#own">the licence</a> say so in full.</p>
<p>You may use, change and hand on the app. Whoever hands it on hands on its source too, or says where
it is to be had. The source is the folder in which <code>npm start</code> is run: the app is built from
what lies there.</p>
<h2>What the app contains</h2>
<table>
<thead><tr><th scope="col">Part</th><th scope="col">Version</th><th scope="col">Licence</th><th scope="col">Text</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
${changesOf(contents)}
<h2>Their licenses and notices</h2>
${parts.join('\n')}
<h2 id="own">The licence of Kerfbook</h2>
<pre>${escaped(own.trim())}</pre>
</main>
</body>
</html>
`;
}

/** Who hands on a changed work under the GPL says that it is changed, and since when. @param {readonly { name: string }[]} contents */
function changesOf(contents) {
  const lines = contents.flatMap(({ name }) => {
    const parts = LEFT_OUT.filter((part) => part.of === name);
    const [first] = parts;
    if (first === undefined) return [];
    const what = parts.map((part) => part.what).join(', ');
    return `<li>${escaped(name)}, since ${first.since}: without ${escaped(what)}.</li>`;
  });
  return lines.length === 0
    ? ''
    : `<h2>What was changed in them</h2>\n<ul>\n${lines.join('\n')}\n</ul>`;
}

/** @param {string} text */
const escaped = (text) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

// As the app, by the device's own light or dark (tokens.css).
const STYLE = `
:root { color-scheme: light dark; }
body { margin: 0; background: light-dark(#faf8f3, #1d201e); color: light-dark(#23211d, #ebe7dc);
  font: 1rem/1.5 system-ui, sans-serif; }
main { max-width: 46rem; margin: 0 auto; padding: 1.5rem 1rem 3rem; }
h1, h2 { font-family: Georgia, serif; font-weight: 600; line-height: 1.25; }
h2 { margin-top: 2rem; }
h3 { margin: 1.5rem 0 0.5rem; font-size: 1rem; }
a { color: light-dark(#24588a, #8dbbe8); }
table { border-collapse: collapse; width: 100%; }
th, td { padding: 0.25rem 0.75rem 0.25rem 0; border-bottom: 1px solid light-dark(#d9d3c6, #3b403c);
  text-align: left; vertical-align: top; font-weight: 400; }
thead th { font-weight: 600; }
pre { margin: 0; padding: 0.75rem; background: light-dark(#f2eee5, #181b19); white-space: pre-wrap;
  overflow-wrap: anywhere; font: 0.8125rem/1.45 ui-monospace, monospace; }
`.trim();
