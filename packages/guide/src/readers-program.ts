import type { BookDocument } from '@kerfbook/document';
import { partsNeeded } from './readers-needs.ts';

/**
 * A piece of the program: text with the units it needs, or a part with its pieces and what stands in its place where the
 * part is not wanted.
 */
type Segment =
  | readonly [text: string, needs: readonly number[]]
  | readonly [part: string, inside: readonly Segment[], instead: string];

/** A statement of the program's top level; of `var a = 1, b = 2` each is one. */
type Unit = readonly [kind: 'var' | 'let' | 'const' | 'own' | 'does', segments: readonly Segment[]];

const isPart = (
  segment: Segment,
): segment is readonly [part: string, inside: readonly Segment[], instead: string] =>
  segment.length === 3;

/**
 * The program of a page for readers: what it reaches, and of its parts those that a workbook needs.
 * @param program the text of `@kerfbook/guide/readers-program`
 * @param document the workbook as readers get it; all parts where left out
 */
export function readersScript(program: string, document?: BookDocument): string {
  const wants = document === undefined ? () => true : partsNeeded(document);
  return put(JSON.parse(program) as readonly Unit[], wants);
}

/** Puts a program together with the parts that are wanted, or what comes in their place. */
function put(units: readonly Unit[], wants: (part: string) => boolean | string): string {
  const reached = new Set<number>();
  const waiting = units.flatMap(([kind], i) => (kind === 'does' ? [i] : []));
  const follow = (segments: readonly Segment[]): void => {
    for (const segment of segments) {
      if (!isPart(segment)) waiting.push(...segment[1]);
      else if (wants(segment[0]) === true) follow(segment[1]);
    }
  };
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (reached.has(next)) continue;
    reached.add(next);
    follow(units[next]?.[1] ?? []);
  }
  const written = (segments: readonly Segment[]): string =>
    segments
      .map((segment) => {
        if (!isPart(segment)) return segment[0];
        const [part, inside, instead] = segment;
        const wanted = wants(part);
        if (typeof wanted === 'string') return wanted;
        return wanted ? written(inside) : instead;
      })
      .join('');
  let text = '';
  let open: Unit[0] | undefined;
  for (const [i, [kind, segments]] of units.entries()) {
    if (!reached.has(i)) continue;
    const declares = kind === 'var' || kind === 'let' || kind === 'const';
    if (declares && open === kind) text += ',';
    else {
      if (open !== undefined) text += ';';
      if (declares) text += `${kind} `;
    }
    const own = written(segments);
    text += kind === 'does' && !own.endsWith(';') ? `${own};` : own;
    open = declares ? kind : undefined;
  }
  return `(()=>{${text}})();`;
}
