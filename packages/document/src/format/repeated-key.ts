/** A key that stands twice in one group of keys, and the line where it stands again, counted from 1. */
interface RepeatedKey {
  readonly key: string;
  readonly line: number;
}

/**
 * The first key that stands twice in a text which was read as JSON. Reading it takes the last one and
 * says nothing: what stood under the first would be lost in silence (rule D1).
 */
export function repeatedKey(json: string): RepeatedKey | undefined {
  /** The keys of each group that is open; nothing for a list. */
  const open: (Set<string> | undefined)[] = [];
  for (let at = 0; at < json.length; at += 1) {
    switch (json[at]) {
      case '{':
        open.push(new Set());
        break;
      case '[':
        open.push(undefined);
        break;
      case '}':
      case ']':
        open.pop();
        break;
      case '"': {
        const end = endOfText(json, at);
        const keys = open.at(-1);
        if (keys !== undefined && isKey(json, end)) {
          const key = wordAt(json, at, end);
          if (keys.has(key)) return { key, line: lineAt(json, at) };
          keys.add(key);
        }
        at = end;
        break;
      }
      default:
        break;
    }
  }
  return undefined;
}

/** Where the quotation mark stands that ends a text begun here. */
function endOfText(json: string, begin: number): number {
  let end = json.indexOf('"', begin + 1);
  while (end > 0 && isEscaped(json, end)) end = json.indexOf('"', end + 1);
  return end < 0 ? json.length : end;
}

function isEscaped(json: string, at: number): boolean {
  let slashes = 0;
  while (json[at - 1 - slashes] === '\\') slashes += 1;
  return slashes % 2 === 1;
}

function isKey(json: string, end: number): boolean {
  let at = end + 1;
  while (json[at] === ' ' || json[at] === '\n' || json[at] === '\t' || json[at] === '\r') at += 1;
  return json[at] === ':';
}

function wordAt(json: string, begin: number, end: number): string {
  const plain = json.slice(begin + 1, end);
  return plain.includes('\\') ? (JSON.parse(json.slice(begin, end + 1)) as string) : plain;
}

const lineAt = (json: string, at: number): number => json.slice(0, at).split(/\r\n|\r|\n/).length;
