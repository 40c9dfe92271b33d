import { type Node, readTyped } from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';

/**
 * Functions of ours that come to the same when they are written out in functions that every office program has. Each
 * form is of the arguments by name, in the workbook's own units; `a` to `g` stand for the first to the seventh. Where
 * ours refuses an argument (a length below nothing), a form goes on: it is checks that tell of that.
 */
interface Form {
  /** Needed arguments, and what the others are where they are left out. */
  readonly needs: number;
  readonly or?: readonly (string | undefined)[];
  /** The same in millimeters, where that is another number. */
  readonly orMetric?: readonly (string | undefined)[];
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

/**
 * Pressure of water vapour that saturates air, of °F: ASHRAE Handbook, Fundamentals (2017), chapter 1, equations 5 and
 * 6, inch-pound; constants from memory, held in the test against the library that the trade's arithmetic asks.
 */
function saturated(t: string): string {
  const k = `(${t}+459.67)`;
  const ice = `EXP(-10214.165/${k}-4.8932428-0.0053765794*${k}+0.00000019202377*${k}^2+0.00000000035575832*${k}^3-0.000000000000090344688*${k}^4+4.1635019*LN(${k}))`;
  const water = `EXP(-10440.397/${k}-11.29465-0.027022355*${k}+0.00001289036*${k}^2-0.0000000024780681*${k}^3+6.5459673*LN(${k}))`;
  return `IF(${t}<=32.018,${ice},${water})`;
}
const indoors = (outside: string, inside: string): string =>
  `MIN(100,MIN(100,b)*${saturated(outside)}/${saturated(inside)})`;

/** Turns of an angle in degrees: `COS(${radians('c')})`. */
const radians = (of: string): string => `(${of})*PI()/180`;

/** Terms of the series below: ovals twelve times as long as wide are right to nine digits, any to four. */
const OVAL_TERMS = 36;

/**
 * Way around an oval: π (a + b) Σ (1/2 over n)² hⁿ with half lengths a and b and h = ((a − b) / (a + b))² (Kummer's
 * series; Abramowitz and Stegun 17.3.12 says the same of elliptic integrals).
 */
function aroundOval(): string {
  let binomial = 1;
  const terms: string[] = [];
  for (let n = 1; n <= OVAL_TERMS; n += 1) {
    binomial *= (1.5 - n) / n;
    terms.push((binomial ** 2).toPrecision(10));
  }
  const powers = terms.map((_, at) => at + 1);
  return `PI()/2*(a+b)*(1+SUMPRODUCT({${terms.join(',')}},(((a-b)/(a+b))^2)^{${powers.join(',')}}))`;
}

/** Boards of an oval top whose lengths are added up: more than a top is ever glued from. */
const OVAL_BOARDS = Array.from({ length: 60 }, (_, at) => at + 1).join(',');
/** How far from the middle the nearest place of each board is, in half boards beyond its own; 0 where it lies over it. */
const OUT_OF_THE_MIDDLE = `(ABS(2*{${OVAL_BOARDS}}-1-a)-1)`;

/** Grits of the P scale that a sanding sequence goes by; every second one is left out where that still arrives. */
const GRITS = '{40,50,60,80,100,120,150,180,220,240,280,320,360,400,500,600}';

/** Every second grit from the first on, and from the second on: one of the two has all the steps but perhaps the last. */
const EVERY_SECOND =
  'IF(MOD(MATCH(a,GRITS,0),2)=1,"40 → 60 → 100 → 150 → 220 → 280 → 360 → 500","50 → 80 → 120 → 180 → 240 → 320 → 400 → 600")';
const GRITS_APART = 'MATCH(b,GRITS,0)-MATCH(a,GRITS,0)';
const LAST_OF_THOSE = `INDEX(GRITS,1,MATCH(b,GRITS,0)-MOD(${GRITS_APART},2))`;
/** A number is found where it stands by itself: of those before it in its row none has its digits. */
const GRIT_STEPS =
  `IF(a>b,SQRT(-1),MID(${EVERY_SECOND},FIND(a,${EVERY_SECOND}),FIND(${LAST_OF_THOSE},${EVERY_SECOND})+LEN(${LAST_OF_THOSE})-FIND(a,${EVERY_SECOND}))&IF(MOD(${GRITS_APART},2)=1," → "&b,""))`.replaceAll(
    'GRITS',
    GRITS,
  );

/** How far a fastener reaches along the movement; what is no reach but noise of cosines is none. */
const REACH = `a*MIN(COS(${radians('MAX(0,c-b)')})-COS(${radians('c')}),COS(${radians('c')})-COS(${radians('MIN(180,c+b)')}))`;

/** How many of the limits a value is beyond; what is on one to all but the last digits is not. */
const beyond = (of: string, limits: readonly number[]): string =>
  limits.map((most) => `(${of}>${most}+1E-9)`).join('+');

/** Cup hinges of a door by its height and weight, charts of hardware dealers, as `hinges.ts` of the trade's arithmetic. */
const hinges = (height: string, weight: string): string =>
  `MAX(2+${beyond(height, [40, 60, 80])},IF(b>0,2+${beyond(weight, [13, 20, 22.5])},0))`;

/** Length of a pocket screw, as `fastenings.ts` of the trade's arithmetic: a row counts from 3/64 in below it on. */
function pocketScrew(inches: string): string {
  const from = (row: number): string => `(${inches}>=${row}-3/64-1E-9)`;
  return `1+${from(0.75)}/4+${from(0.875)}/4+${from(1.25)}/2+${from(1.5)}/2`;
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
  TENON_COUNT: { needs: 2, us: `MAX(1,${up('a/(6*b)')})` },
  TENON_WIDTH: { needs: 1, or: ['0'], us: 'IF(b=0,a*2/3,a/2-b)' },
  TENON_THICKNESS: {
    needs: 1,
    or: [undefined],
    us: 'a/3',
    full: { args: 2, as: 'ROUND(ROUND(a/3/b,9),0)*b' },
  },
  FENCE_STOP: { needs: 4, us: 'a+MIN((d-1)*c,MAX(0,b-c))' },
  GROOVE_PASSES: { needs: 2, us: `MAX(1,${up('a/b')})` },
  SCREW_LONGEST: { needs: 3, or: ['0.25'], orMetric: ['6.35'], us: `${down('(a+b-c)/d')}*d` },
  SLOT_LENGTH: { needs: 2, or: ['0'], us: 'a+b+c' },
  // A weight of one kilogram presses with 9.80665 N (NIST SP 811, standard gravity).
  TIP_LOAD: { needs: 3, us: 'a*c/b', metric: 'a*9.80665*c/b' },
  TIP_SHARE: {
    needs: 4,
    or: ['0', '0'],
    us: '(c*MAX(0,d)+e*f)/(a*b+c*MAX(0,-d))',
    metric: '(c*MAX(0,d)+e*f)/(a*9.80665*b+c*MAX(0,-d))',
  },
  // 225 in² for a fluid ounce, in mm² for a milliliter: 29.5735295625 mL exactly (NIST Handbook 44, appendix C).
  GLUE_VOLUME: {
    needs: 1,
    or: ['225'],
    orMetric: ['225*645.16/29.5735295625'],
    us: 'a/b',
  },
  FINISH_VOLUME: { needs: 3, or: ['0', '25'], us: 'a*(b+e/100)/c/(1-d/100)' },
  SANDING_HOURS: { needs: 4, us: `a*(${up(`(MATCH(c,${GRITS},0)-MATCH(b,${GRITS},0))/2`)}+1)/d` },
  GRIT_STEPS: { needs: 2, us: GRIT_STEPS },
  // A tongue that holds too little from the start, or that is longer than its groove, travels nowhere: ours refuses it.
  BUTTON_TRAVEL: {
    needs: 2,
    or: [undefined, undefined],
    us: 'IF(a-b<a/3,SQRT(-1),2*MAX(0,MIN(b,a-b-a/3,b)))',
    full: {
      args: 4,
      as: 'IF(OR(a-b<c,d-(a-b)<-1E-9),SQRT(-1),2*MAX(0,MIN(b,a-b-c,d-(a-b))))',
    },
  },
  PRICE_ROUNDED: { needs: 2, or: ['0'], us: `MAX(0,${up('(a+c)/b')}*b-c)` },
  FRAME_RAIL: { needs: 2, or: ['0'], us: 'a-2*b+2*c' },
  DOOR_SIZE: { needs: 2, or: ['1', '0'], us: '(a+2*d-IF(d>0,c-1,c+1)*b)/c' },
  DRAWER_WIDTH: {
    needs: 1,
    or: ['0.5', '1', '0'],
    orMetric: ['12.7', '1', '0'],
    us: '(a-2*c*b-(c-1)*d)/c',
  },
  OVAL_EDGE: { needs: 2, us: aroundOval() },
  OVAL_PINS: { needs: 2, us: 'SQRT(MAX(0,a^2-b^2))' },
  OVAL_BOARD: { needs: 3, us: 'a*SQRT(1-MAX(0,2*(c-1)/b-1,1-2*c/b)^2)' },
  OVAL_WASTE: {
    needs: 0,
    or: ['1'],
    us: `1-PI()/4*a/SUMPRODUCT(SQRT(({${OVAL_BOARDS}}<=a)*(1-((${OUT_OF_THE_MIDDLE}+ABS(${OUT_OF_THE_MIDDLE}))/2/a)^2)))`,
  },
  SWIVEL_REACH: {
    needs: 3,
    // Turned past the line of the movement, the hole comes back again.
    us: `IF(${REACH}<1E-12,0,${REACH})`,
  },
  SLOT_TRAVEL: { needs: 2, us: 'a-b' },
  TIP_LOAD_DRAWERS: {
    needs: 5,
    or: ['0'],
    us: 'MAX(0,a*(b/2-f)+c*(d/2-e-f))/(e+f)',
    metric: '9.80665*MAX(0,a*(b/2-f)+c*(d/2-e-f))/(e+f)',
  },
  HINGE_COUNT: {
    needs: 1,
    or: ['0'],
    us: hinges('a', 'b'),
    metric: hinges('a/25.4', 'b/0.45359237'),
  },
  POCKET_SCREW: {
    needs: 1,
    us: pocketScrew('a'),
    metric: `(${pocketScrew('a/25.4')})*25.4`,
  },
  // At each edge there is half a pin and 1/8 in.
  DOVETAIL_COUNT: {
    needs: 3,
    or: [undefined],
    us: `MAX(1,${up('(a-1/4)/(c+b)')})`,
    metric: `MAX(1,${up('(a-6.35)/(c+b)')})`,
    full: { args: 4, as: `MAX(1,${up('(a-2*d+b)/(c+b)')})` },
  },
  DOVETAIL_TAIL: {
    needs: 3,
    or: [undefined],
    us: '(a-b*c-1/4)/b',
    metric: '(a-b*c-6.35)/b',
    full: { args: 4, as: '(a-(b-1)*c-2*d)/b' },
  },
  TAPER_ANGLE: { needs: 3, or: ['1'], us: 'DEGREES(ATAN((a-b)/d/c))' },
  OVAL_AREA: { needs: 2, us: 'PI()/4*a*b' },
  STRESS_POINT: { needs: 4, or: [undefined], us: '6*(b*a/4)/(c*d^2)' },
  STRESS_UNIFORM: { needs: 4, or: [undefined], us: '6*(b*a^2/8)/(c*d^2)' },
  STRESS_OVERHANG: { needs: 4, or: ['0'], us: '6*(b*a+e*a^2/2)/(c*d^2)' },
  WORK_HOURS: { needs: 3, or: ['0'], us: '(a+b*c)*(1+d/100)' },
  INDOOR_HUMIDITY: {
    needs: 3,
    us: indoors('a', 'c'),
    metric: indoors('(a*1.8+32)', '(c*1.8+32)'),
  },
  PRICE_FOR_MARGIN: { needs: 2, us: 'a/(1-b/100)' },
  PRICE_FOR_MARKUP: { needs: 2, us: 'a*(1+b/100)' },
  PRICE_WITH_TAX: { needs: 2, us: 'a*(1+b/100)' },
};

const LETTERS = ['a', 'b', 'c', 'd', 'e', 'f', 'g'] as const;
/** A figure that is looked up. */
const FIGURE = 'k_';
const read = new Map<string, Node>();

function formRoot(text: string): Node {
  let root = read.get(text);
  if (root === undefined) {
    // A letter by itself may stand for a column.
    root = readTyped(`=${text.replaceAll(/\b[a-gk]\b/g, '$&_')}`).root;
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
  const { full } = form;
  const isFull = full !== undefined && given.length === full.args && !given.includes(undefined);
  const or = system === 'metric' ? (form.orMetric ?? form.or) : form.or;
  // What has no form of its own where it is given is for the function itself.
  const isMore = given.some(
    (arg, at) => arg !== undefined && at >= form.needs && form.or?.[at - form.needs] === undefined,
  );
  if (!isFull && isMore) return undefined;
  const text = isFull ? full.as : system === 'metric' ? (form.metric ?? form.us) : form.us;
  const values = LETTERS.map((_, at) => {
    const otherwise = or?.[at - form.needs];
    return given[at] ?? (otherwise === undefined ? undefined : formRoot(otherwise));
  });
  return placedForm(text, values);
}

/** A form with arguments in their places, within brackets; undefined where one that it needs is missing. */
export function placedForm(
  text: string,
  args: readonly (Node | undefined)[],
  figure?: Node,
): Node | undefined {
  const whole = placed(formRoot(text), (name) => {
    if (name === FIGURE) return figure;
    const one = args[LETTERS.findIndex((letter) => name === `${letter}_`)];
    return one === undefined ? undefined : inBrackets(one);
  });
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
