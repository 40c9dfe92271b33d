import type { Said, Words } from './read.ts';

const XML = 'http://www.w3.org/XML/1998/namespace';
const XMLNS = 'http://www.w3.org/2000/xmlns/';

/** What an element declares, and names that were looked up within it. */
interface Scope {
  /** How many elements deep it begins. */
  readonly depth: number;
  readonly around: Scope | undefined;
  /** Addresses by what is put before names; by nothing: of elements without. */
  readonly declared: ReadonlyMap<string, string>;
  /** Two of what is put before names, here or around, stand for one address. */
  readonly hasTwins: boolean;
  readonly elements: Map<string, string>;
  readonly attributes: Map<string, string>;
}

/**
 * Names of a part as its format has them, whatever the file puts before them (Namespaces in XML 1.0). A part has few names,
 * and each of its cells has them again: each is looked up once for all elements that declare nothing of their own.
 */
export class Names {
  readonly #words: Words;
  readonly #refuse: () => never;
  #depth = 0;
  #scope: Scope = {
    depth: 0,
    around: undefined,
    declared: new Map([
      ['xml', XML],
      ['xmlns', XMLNS],
    ]),
    hasTwins: false,
    elements: new Map(),
    attributes: new Map(),
  };

  /** @param refuse where a name is none, or stands for nothing */
  constructor(words: Words, refuse: () => never) {
    this.#words = words;
    this.#refuse = refuse;
  }

  /** An element begins: its name and what it says of itself. */
  begin(name: string, attributes: Said): { readonly name: string; readonly said: Said } {
    this.#depth += 1;
    const declared = this.#declared(attributes);
    if (declared !== undefined) {
      const all = [...declared.values()];
      this.#scope = {
        depth: this.#depth,
        around: this.#scope,
        declared,
        hasTwins: this.#scope.hasTwins || all.some((uri) => this.#isTwin(uri, all)),
        elements: new Map(),
        attributes: new Map(),
      };
    }
    if (this.#scope.hasTwins) this.#apart(attributes);
    return { name: this.#element(name), said: this.#said(attributes) };
  }

  /** It ends: its name. */
  end(name: string): string {
    const called = this.#element(name);
    if (this.#scope.depth === this.#depth) this.#scope = this.#scope.around ?? this.#scope;
    this.#depth -= 1;
    return called;
  }

  #said(attributes: Said): Said {
    let isSame = true;
    for (const key in attributes) isSame = this.#attribute(key) === key && isSame;
    if (isSame) return attributes;
    const said: Record<string, string> = {};
    for (const key in attributes) said[this.#attribute(key)] = attributes[key] ?? '';
    return said;
  }

  #element(name: string): string {
    const known = this.#scope.elements.get(name);
    if (known !== undefined) return known;
    const [before, local] = this.#halves(name);
    if (before === 'xmlns') this.#refuse();
    const uri = this.#address(before) ?? '';
    if (uri === '' && before !== '') this.#refuse();
    const called = this.#called(uri, local);
    this.#scope.elements.set(name, called);
    return called;
  }

  /** What nothing is put before belongs to no format. */
  #attribute(name: string): string {
    const known = this.#scope.attributes.get(name);
    if (known !== undefined) return known;
    const [before, local] = this.#halves(name);
    const uri = before === '' ? '' : this.#address(before);
    const called = this.#called(uri ?? this.#refuse(), local);
    this.#scope.attributes.set(name, called);
    return called;
  }

  #called(uri: string, local: string): string {
    const before = this.#words.get(uri);
    return before === undefined ? local : `${before}:${local}`;
  }

  #halves(name: string): readonly [before: string, local: string] {
    const colon = name.indexOf(':');
    if (colon < 0) return ['', name];
    const [before, local] = [name.slice(0, colon), name.slice(colon + 1)];
    if (before === '' || local === '' || local.includes(':')) this.#refuse();
    return [before, local];
  }

  #address(before: string): string | undefined {
    for (let at: Scope | undefined = this.#scope; at !== undefined; at = at.around) {
      const uri = at.declared.get(before);
      if (uri !== undefined) return uri;
    }
    return undefined;
  }

  #declared(attributes: Said): ReadonlyMap<string, string> | undefined {
    let declared: Map<string, string> | undefined;
    for (const key in attributes) {
      if (!key.startsWith('xmlns') || (key.length > 5 && key[5] !== ':')) continue;
      const [before, uri] = [key.slice(6), (attributes[key] ?? '').trim()];
      const isXml = before === 'xml' && uri === XML;
      if (!isXml && (uri === XML || uri === XMLNS || before === 'xml' || before === 'xmlns'))
        this.#refuse();
      if (uri === '' && before !== '') this.#refuse();
      declared ??= new Map();
      declared.set(before, uri);
    }
    return declared;
  }

  #isTwin(uri: string, all: readonly string[]): boolean {
    if (all.indexOf(uri) !== all.lastIndexOf(uri)) return true;
    for (let at: Scope | undefined = this.#scope; at !== undefined; at = at.around) {
      for (const other of at.declared.values()) if (other === uri) return true;
    }
    return false;
  }

  /** One thing is said twice where two names are one. */
  #apart(attributes: Said): void {
    const seen = new Set<string>();
    for (const key in attributes) {
      const [before, local] = this.#halves(key);
      const name = before === '' ? local : `{${this.#address(before) ?? ''}}${local}`;
      if (seen.has(name)) this.#refuse();
      seen.add(name);
    }
  }
}
