import type { FlatMark, Look } from '../flat/flat-book.ts';
import { COLORS, FONT, GROUNDS, lookKey, MARKED, ROLE_NAMES, ROLES } from '../flat/looks.ts';
import { type Attributes, element } from '../xml/write.ts';
import type { NumberStyles } from './number-styles.ts';

/** What marks of a cell say, as conditions of the format. */
export interface Condition {
  readonly when: string;
  readonly severity: FlatMark['severity'];
}

const MARK_NAMES = { care: 'Warning_of_a_check', stop: 'Problem_of_a_check' } as const;
const roleStyle = (role: Look['role']): string =>
  role === undefined ? 'Default' : `Kerfbook_${role}`;

/** The ways cells look, each once, as automatic styles (OpenDocument 1.3 part 3, 16.2). */
export class CellStyles {
  readonly #names = new Map<string, string>();
  /** Those without conditions, by what they are of. */
  readonly #known = new Map<string, string>();
  readonly #numbers: NumberStyles;

  constructor(numbers: NumberStyles) {
    this.#numbers = numbers;
  }

  /** The style's name for a look with a number's format and what it follows. */
  of(look: Look, format: string | undefined, conditions: readonly Condition[], base = ''): string {
    if (conditions.length > 0) return this.#of(look, format, conditions, base);
    const key = lookKey(look, format);
    const name = this.#known.get(key) ?? this.#of(look, format, conditions, base);
    this.#known.set(key, name);
    return name;
  }

  #of(look: Look, format: string | undefined, conditions: readonly Condition[], base: string) {
    const inside = `${properties(look)}${conditions
      .map(({ when, severity }) =>
        element('style:map', {
          'style:condition': when,
          'style:apply-style-name': MARK_NAMES[severity],
          'style:base-cell-address': base,
        }),
      )
      .join('')}`;
    const attributes: Attributes = {
      'style:family': 'table-cell',
      'style:parent-style-name': roleStyle(look.role),
      'style:data-style-name': format === undefined ? undefined : this.#numbers.of(format),
    };
    const key = JSON.stringify([attributes, inside]);
    const name = this.#names.get(key) ?? `ce${this.#names.size + 1}`;
    this.#names.set(key, name);
    return name;
  }

  /** All of them. */
  text(): string {
    return [...this.#names]
      .map(([key, name]) => {
        const [attributes, inside] = JSON.parse(key) as [Attributes, string];
        return element('style:style', { 'style:name': name, ...attributes }, inside);
      })
      .join('');
  }
}

const ALIGN = { start: 'start', centre: 'center', end: 'end' } as const;

function properties({ style, isOverridden }: Look): string {
  const ground = style?.background === undefined ? undefined : GROUNDS[style.background];
  const align = style?.align;
  const cell = {
    'fo:background-color': ground === undefined ? undefined : `#${ground}`,
    'fo:wrap-option': style?.wrap === true ? 'wrap' : undefined,
    'style:text-align-source': align === undefined ? undefined : 'fix',
    // There is no hatched ground; the edge says that something was typed over a formula.
    'fo:border-left': isOverridden === true ? `2pt dashed #${COLORS.inputEdge}` : undefined,
  };
  const text = {
    'fo:font-weight': style?.bold === true ? 'bold' : undefined,
    'fo:font-style': style?.italic === true ? 'italic' : undefined,
  };
  return (
    given('style:table-cell-properties', cell) +
    given('style:paragraph-properties', {
      'fo:text-align': align === undefined ? undefined : ALIGN[align],
    }) +
    given('style:text-properties', text)
  );
}

const given = (name: string, attributes: Attributes): string =>
  Object.values(attributes).every((value) => value === undefined) ? '' : element(name, attributes);

const named = (name: string, shown: string | undefined, inside: string): string =>
  element(
    'style:style',
    {
      'style:name': name,
      'style:display-name': shown,
      'style:family': 'table-cell',
      'style:parent-style-name': name === 'Default' ? undefined : 'Default',
    },
    inside,
  );

/** The styles that go by a name: what roles look like, and cells whose check does not hold. */
export function namedStyles(): string {
  const roles = ROLES.map((role) =>
    named(
      roleStyle(role),
      ROLE_NAMES[role],
      given('style:table-cell-properties', {
        'style:cell-protect': role === 'input' ? 'none' : undefined,
        'fo:background-color': role === 'input' ? `#${COLORS.input}` : undefined,
        'fo:border-bottom': role === 'input' ? `0.5pt dotted #${COLORS.inputEdge}` : undefined,
      }) +
        given('style:text-properties', {
          'fo:font-weight': role === 'heading' ? 'bold' : undefined,
          'fo:font-size': role === 'heading' ? `${FONT.heading}pt` : undefined,
          'fo:font-style': role === 'note' ? 'italic' : undefined,
          'fo:color': role === 'note' ? `#${COLORS.quiet}` : undefined,
        }),
    ),
  );
  const marks = (['care', 'stop'] as const).map((severity) =>
    named(
      MARK_NAMES[severity],
      undefined,
      element('style:table-cell-properties', {
        'fo:background-color': `#${MARKED[severity].ground}`,
      }) +
        element('style:text-properties', {
          'fo:font-weight': 'bold',
          'fo:color': `#${MARKED[severity].ink}`,
        }),
    ),
  );
  const usual = named(
    'Default',
    undefined,
    element('style:table-cell-properties', { 'style:vertical-align': 'top' }) +
      element('style:text-properties', {
        'style:font-name': FONT.name,
        'fo:font-size': `${FONT.size}pt`,
        'fo:color': `#${COLORS.ink}`,
      }),
  );
  return usual + roles.join('') + marks.join('');
}
