/** Arguments of the standard functions makers use most, in a few words each. */
export interface StandardPage {
  readonly name: string;
  readonly answers: string;
  readonly args: readonly {
    readonly name: string;
    readonly says: string;
    readonly optional: boolean;
  }[];
  /** How many of the last arguments may be given again and again, in turn; 0 where none may. */
  readonly again: number;
}

/**
 * `name: what it answers | argument: what to put | [optional]: what to put …`; with `…` the last
 * argument may be given again, with `… …` the last two.
 */
const LINES = [
  'SUM: adds up | values: numbers or a range …',
  'AVERAGE: the mean | values: numbers or a range …',
  'MIN: the least | values: numbers or a range …',
  'MAX: the most | values: numbers or a range …',
  'MEDIAN: the one in the middle | values: numbers or a range …',
  'COUNT: how many numbers | values: cells or a range …',
  'COUNTA: how many are not empty | values: cells or a range …',
  'COUNTIF: how many meet a condition | range: where to look | condition: a value, or words such as ">5"',
  'SUMIF: adds up those that meet a condition | range: where to look | condition: a value, or words such as ">5" | [sum_range]: what to add up, where it is another range',
  'SUMIFS: adds up those that meet all conditions | sum_range: what to add up | range: where to look | condition: a value, or words such as ">5" … …',
  'AVERAGEIF: mean of those that meet a condition | range: where to look | condition: a value, or words such as ">5" | [average_range]: what to take the mean of',
  'SUMPRODUCT: adds up products, line by line | ranges: ranges of one size …',
  'PRODUCT: multiplies | values: numbers or a range …',
  'IF: one of two answers | condition: what is true or false | then: the answer when it is true | [else]: the answer when it is false',
  'IFS: the first answer whose condition is true | condition: what is true or false | then: the answer … …',
  'IFERROR: an answer that does not fail | value: what may fail | instead: the answer when it does',
  'AND: whether all are true | conditions: what is true or false …',
  'OR: whether any is true | conditions: what is true or false …',
  'NOT: the opposite | condition: what is true or false',
  'ROUND: rounds to places | number: what to round | [places]: decimals to keep',
  'ROUNDUP: rounds away from zero | number: what to round | [places]: decimals to keep',
  'ROUNDDOWN: rounds towards zero | number: what to round | [places]: decimals to keep',
  'CEILING: up to a multiple | number: what to round | step: the multiple',
  'FLOOR: down to a multiple | number: what to round | step: the multiple',
  'MROUND: to the nearest multiple | number: what to round | step: the multiple',
  'INT: down to a whole number | number: what to round',
  'MOD: what is left of a division | number: what is divided | divisor: by what',
  'QUOTIENT: how often it goes in whole | number: what is divided | divisor: by what',
  'ABS: without its sign | number: any number',
  'SQRT: the square root | number: 0 or more',
  'POWER: a number to a power | number: the base | exponent: the power',
  'PI: 3.14159…',
  'SIN: the sine | angle: in radians',
  'COS: the cosine | angle: in radians',
  'TAN: the tangent | angle: in radians',
  'RADIANS: degrees as radians | degrees: an angle',
  'DEGREES: radians as degrees | radians: an angle',
  'VLOOKUP: a value from the line where another stands | value: what to look for | range: where, its first column is searched | column: which column to take, 1 for the first | [sorted]: FALSE for an exact match',
  'HLOOKUP: a value from the column where another stands | value: what to look for | range: where, its first row is searched | row: which row to take, 1 for the first | [sorted]: FALSE for an exact match',
  'INDEX: the value at a place of a range | range: where to look | row: which row, 1 for the first | [column]: which column',
  'MATCH: the place of a value in a range | value: what to look for | range: one row or column | [kind]: 0 for an exact match',
  'CHOOSE: one of several by its number | number: which one, 1 for the first | values: the choices …',
  'CONCATENATE: joins words | texts: words or cells …',
  'TEXT: a number in words | number: what to write | format: how, such as "0.00"',
  'LEFT: the first letters | text: words | [count]: how many',
  'RIGHT: the last letters | text: words | [count]: how many',
  'MID: letters from within | text: words | start: which one first, from 1 | count: how many',
  'LEN: how many letters | text: words',
  'TODAY: the day it is',
  'DATE: a day | year: in full | month: 1 to 12 | day: 1 to 31',
] as const;

export const STANDARD_PAGES: readonly StandardPage[] = LINES.map((line) => {
  const [dots = ''] = /(?: …)*$/.exec(line) ?? [];
  const [head = '', ...args] = line.slice(0, line.length - dots.length).split(' | ');
  const [name = '', answers = ''] = parted(head);
  return {
    name,
    answers,
    again: dots.length / ' …'.length,
    args: args.map((arg) => {
      const [word = '', says = ''] = parted(arg);
      return { name: word.replace(/[[\]]/g, ''), says, optional: word.startsWith('[') };
    }),
  };
});

function parted(text: string): readonly string[] {
  const at = text.indexOf(': ');
  return at < 0 ? [text] : [text.slice(0, at), text.slice(at + 2)];
}
