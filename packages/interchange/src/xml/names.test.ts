import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { expect, it } from 'vitest';
import { Unreadable } from '../unreadable.ts';
import { readXmlOf, type Said } from './read.ts';

const WORDS = new Map([
  ['urn:one', 'one'],
  ['urn:two', 'two'],
]);
type Heard = (readonly [string, string, Said?])[];

/** What is heard of a part; undefined where it is refused. */
function heardOf(xml: string): Heard | undefined {
  const heard: Heard = [];
  try {
    readXmlOf(WORDS, new TextEncoder().encode(xml), 'x.xml', {
      open: (name, said) => heard.push(['open', name, { ...said }]),
      close: (name) => heard.push(['close', name]),
      text: (text) => heard.push(['text', text]),
    });
  } catch (error) {
    if (error instanceof Unreadable) return undefined;
    throw error;
  }
  return heard;
}

/** The same where the library that reads it looks after the names. */
function heardFromLibrary(xml: string): Heard | undefined {
  const heard: Heard = [];
  const called = (uri: string, local: string): string =>
    WORDS.has(uri) ? `${WORDS.get(uri)}:${local}` : local;
  const parser = new SaxesParser({ xmlns: true, position: false });
  let isRefused = false;
  parser.on('error', () => {
    isRefused = true;
  });
  parser.on('opentag', (tag) => {
    const said = Object.values(tag.attributes).map((one) => [
      called(one.uri, one.local),
      one.value,
    ]);
    heard.push(['open', called(tag.uri, tag.local), Object.fromEntries(said)]);
  });
  parser.on('closetag', (tag) => heard.push(['close', called(tag.uri, tag.local)]));
  parser.on('text', (text) => heard.push(['text', text]));
  parser.write(xml).close();
  return isRefused ? undefined : heard;
}

const before = fc.constantFrom('', '', 'a:', 'a:', 'b:', 'c:', 'xml:', 'xmlns:', 'a:b:', ':');
const name = fc.tuple(before, fc.constantFrom('p', 'q', 'xmlnsx')).map((parts) => parts.join(''));
const uris = fc.constantFrom(
  'urn:one',
  'urn:one',
  ' urn:two ',
  'urn:else',
  'urn:other',
  '',
  'http://www.w3.org/XML/1998/namespace',
  'http://www.w3.org/2000/xmlns/',
);
const declared = fc.tuple(
  fc.constantFrom('xmlns', 'xmlns:a', 'xmlns:b', 'xmlns:c', 'xmlns:xml'),
  uris,
);
const said = fc.tuple(name, fc.constantFrom('1', '2'));
const { element } = fc.letrec<{ element: string }>((tie) => ({
  element: fc
    .tuple(
      name,
      fc.uniqueArray(fc.oneof(declared, said), { maxLength: 4, selector: ([key]) => key }),
      fc.oneof(
        { maxDepth: 3, depthIdentifier: 'element' },
        fc.constant<string[]>([]),
        fc.array(tie('element'), { maxLength: 3 }),
      ),
    )
    .map(([of, attributes, inside]) => {
      const about = attributes.map(([key, value]) => ` ${key}="${value}"`).join('');
      return `<${of}${about}>${inside.join('x')}</${of}>`;
    }),
}));
const ROOT = '<r xmlns:a="urn:one" xmlns:b="urn:else" xmlns:c="urn:two" xmlns="urn:two">';

it('calls names as the library does that reads the rest, and refuses those that it refuses', () => {
  let [good, bad] = [0, 0];
  fc.assert(
    fc.property(
      fc.oneof(
        element,
        element.map((of) => `${ROOT}${of}</r>`),
      ),
      (xml) => {
        const heard = heardOf(xml);
        expect(heard).toEqual(heardFromLibrary(xml));
        if (heard === undefined) bad += 1;
        else good += 1;
      },
    ),
    {
      numRuns: 3000,
      examples: [
        [`${ROOT}<a:p a:q="1" xmlns:d="urn:one" d:q="2"/></r>`],
        [`${ROOT}<p xmlns:d="urn:more" d:q="2" b:q="3"/></r>`],
        [`${ROOT}<p xmlns=""/><p/></r>`],
        [`${ROOT}<a:p xmlns:a="urn:two"/><a:p/></r>`],
      ],
    },
  );
  expect(Math.min(good, bad)).toBeGreaterThan(300);
});
