import { type Node, readTyped } from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';

/**
 * Functions of ours that come to the same when they are written out in functions that every office program has. Each
 * form is of the arguments by name, in the workbook's own units; `a` to `e` stand for the first to the fifth. Where
 * ours refuses an argument (a length below nothing), a form goes on: it is checks that tell of that.
 */
interface Form {
  /** Needed arguments, and what the others are where they are left out. */
  readonly needs: number;
  readonly or?: readonly (string | undefined)[];
  readonly us: string;
  /** Where it is another one in millimeters; the same otherwise. */
  readonly metric?: string;
  /** With all arguments given, where it is another one then. */
  readonly full?: { readonly args: number; readonly as: string };
}

/** Up and down to a whole number, with what is left of binary fractions taken off first. */
const up = (of: string): string => `ROUNDUP(ROUND(${of},9),0)`;
const down = (of: string): string => `ROUNDDOWN(ROUND(${of},9),0)`;

const POINTS = `${up('MAX(0,a-2*c)/b')}+1`;

/** Wood Handbook (FPL-GTR-190), equation 4-5, of °F and percent. */
function emc(t: string): string {
  const w = `(330+0.452*${t}+0.00415*${t}^2)`;
  const k = `(0.791+0.000463*${t}-0.000000844*${t}^2)`;
  const k1 = `(6.34+0.000775*${t}-0.0000935*${t}^2)`;
  const k2 = `(1.09+0.0284*${t}-0.0000904*${t}^2)`;
  const kh = `(${k}*b/100)`;
  return `1800/${w}*(${kh}/(1-${kh})+(${k1}*${kh}+2*${k1}*${k2}*${kh}^2)/(1+${k1}*${kh}+${k1}*${k2}*${kh}^2))`;
}

const FORMS: Readonly<Record<string, Form>> = {
  IN: { needs: 1, us: 'a', metric: 'a*25.4' },
  FT: { needs: 1, us: 'a*12', metric: 'a*304.8' },
  MM: { needs: 1, us: 'a/25.4', metric: 'a' },
  CM: { needs: 1, us: 'a/2.54', metric: 'a*10' },
  BOARDFEET: {
    needs: 3,
    or: ['1'],
    us: 'MAX(1,a)*b*c*d/144',
    metric: 'MAX(25.4,a)*b*c*d/2359737.216',
  },
  APRON_LENGTH: { needs: 3, or: ['0'], us: 'a-2*b-2*c+2*d' },
  RAIL_BETWEEN: { needs: 4, us: 'a-2*(b+c+d)' },
  KNEE_ROOM: { needs: 3, us: 'a-b-c' },
  SEATS_ALONG: { needs: 2, or: ['0'], us: down('MAX(0,a-2*c)/b') },
  SUPPORT_COUNT: { needs: 2, us: `MAX(0,${up('a/b')}-1)` },
  PANEL_BOARDS: { needs: 2, or: ['0'], us: `IF(a<=b,1,MAX(1,${up('(a-c)/(b-c)')}))` },
  PANEL_BOARD_WIDTH: { needs: 2, or: ['0'], us: '(a+(b-1)*c)/b' },
  GLUE_STAGES: { needs: 2, us: up('LOG(a,b)') },
  CLAMP_FORCE: { needs: 3, us: 'a*b*c' },
  CLAMP_COUNT: {
    needs: 2,
    or: ['0', undefined, undefined],
    us: POINTS,
    full: { args: 5, as: `MAX(${POINTS},${up('d/e')})` },
  },
  FASTENER_COUNT: { needs: 2, or: ['0'], us: POINTS },
  EMC: { needs: 2, us: emc('a'), metric: emc('(a*1.8+32)') },
  PRICE_FOR_MARGIN: { needs: 2, us: 'a/(1-b/100)' },
  PRICE_FOR_MARKUP: { needs: 2, us: 'a*(1+b/100)' },
  PRICE_WITH_TAX: { needs: 2, us: 'a*(1+b/100)' },
};

const LETTERS = ['a', 'b', 'c', 'd', 'e'] as const;
const read = new Map<string, Node>();

function formRoot(text: string): Node {
  let root = read.get(text);
  if (root === undefined) {
    // A letter by itself may stand for a column.
    root = readTyped(`=${text.replaceAll(/\b[a-e]\b/g, '$&_')}`).root;
    if (root === undefined) throw new TypeError(`the form ${text} cannot be read`);
    read.set(text, root);
  }
  return root;
}

/** Names of the functions that can be written out. */
export const WRITTEN_OUT: readonly string[] = Object.keys(FORMS);

/**
 * A call of ours written out; undefined where there is no form of it.
 * @param args as they are given, written out already
 */
export function standardForm(
  name: string,
  args: readonly Node[],
  system: UnitSystem,
): Node | undefined {
  const form = Object.hasOwn(FORMS, name) ? FORMS[name] : undefined;
  if (form === undefined) return undefined;
  const given = args.map((arg) => (arg.kind === 'nothing' ? undefined : arg));
  const most = form.needs + (form.or?.length ?? 0);
  if (given.length > most || given.slice(0, form.needs).includes(undefined)) return undefined;
  if (given.length < form.needs) return undefined;
  const isFull =
    form.full !== undefined &&
    given.length === form.full.args &&
    !given.slice(3).includes(undefined);
  // A force without a clamp's rating is for the function itself to refuse.
  if (!isFull && form.full !== undefined && given.slice(3).some((arg) => arg !== undefined))
    return undefined;
  const text = isFull ? form.full?.as : system === 'metric' ? (form.metric ?? form.us) : form.us;
  if (text === undefined) return undefined;
  const values = LETTERS.map((_, at) => {
    const one = given[at];
    if (one !== undefined) return inBrackets(one);
    const otherwise = form.or?.[at - form.needs];
    return otherwise === undefined ? undefined : formRoot(otherwise);
  });
  const whole = placed(
    formRoot(text),
    (name) => values[LETTERS.findIndex((letter) => name === `${letter}_`)],
  );
  return whole === undefined ? undefined : { kind: 'bracket', of: whole };
}

const ATOMS = new Set(['number', 'name', 'reference', 'call', 'bracket', 'text', 'logical']);

const inBrackets = (node: Node): Node =>
  ATOMS.has(node.kind) ? node : { kind: 'bracket', of: node };

/** A tree with its names replaced; undefined where one stands for nothing. */
function placed(node: Node, value: (name: string) => Node | undefined): Node | undefined {
  switch (node.kind) {
    case 'name':
      return value(node.name);
    case 'call': {
      const args = node.args.map((arg) => placed(arg, value));
      return isWhole(args) ? { ...node, args } : undefined;
    }
    case 'sign':
    case 'bracket': {
      const of = placed(node.of, value);
      return of === undefined ? undefined : { ...node, of };
    }
    case 'joined': {
      const [left, right] = [placed(node.left, value), placed(node.right, value)];
      return left === undefined || right === undefined ? undefined : { ...node, left, right };
    }
    default:
      return node;
  }
}

const isWhole = (nodes: readonly (Node | undefined)[]): nodes is readonly Node[] =>
  !nodes.includes(undefined);
