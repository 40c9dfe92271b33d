import { describe, expect, it } from 'vitest';
import { bench, call } from './testing/fake-io.ts';

type Row = readonly [
  name: string,
  handsOn: number,
  waiting?: number,
  least?: number,
  most?: number,
];

/** The invented bench with an operations table, and more of it as a test needs. */
function jobText(
  rows: readonly Row[],
  { after = [] as readonly string[], title = bench.title } = {},
) {
  const heads = ['operation', 'hands-on', 'waiting', 'least', 'most', 'after'];
  return JSON.stringify({
    ...bench,
    title,
    sheets: [
      ...bench.sheets,
      {
        id: 'days',
        name: 'Days',
        columns: heads.map((_, i) => ({ id: `c${i}` })),
        rows: [
          { id: 'r0', cells: Object.fromEntries(heads.map((value, i) => [`c${i}`, { value }])) },
          ...rows.map((row, i) => ({
            id: `r${i + 1}`,
            cells: Object.fromEntries(
              [
                ...row,
                ...Array.from({ length: 5 - row.length }, () => undefined),
                after[i],
              ].flatMap((value, c) => (value === undefined ? [] : [[`c${c}`, { value }]])),
            ),
          })),
          {
            id: 'rh',
            cells: { c0: { value: 6, quantity: 'duration', name: 'hours_a_day', role: 'input' } },
          },
        ],
      },
    ],
    tables: [
      { id: 't1', kind: 'operations', sheet: 'days', header: 'r0', last: `r${rows.length}` },
    ],
  });
}

const JOB: readonly Row[] = [
  ['Mill', 8],
  ['Glue', 1, 20],
  ['Oil', 2, 48],
  ['Not needed', 0, 0],
  ['Deliver', 1],
];
const days = (text: string, ...args: string[]) =>
  call(['days', 'job.json', ...args], { 'job.json': text });

describe('days', () => {
  it('prints when each operation is done, which day to promise and what to do tomorrow', async () => {
    const { code, out, err } = await days(jobText(JOB));
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.split('\n')).toEqual([
      'operation  hands-on  waiting  who        begins                 work ends             over                  to spare',
      'Mill       8 h                the maker  Mon 30 Nov 2026 08:00  Tue 1 Dec 2026 10:00                        1 h',
      'Glue       1 h       20 h     the maker  Tue 1 Dec 2026 10:00   Tue 1 Dec 2026 11:00  Wed 2 Dec 2026 07:00  1 h',
      'Oil        2 h       48 h     the maker  Wed 2 Dec 2026 08:00   Wed 2 Dec 2026 10:00  Fri 4 Dec 2026 10:00  none',
      'Deliver    1 h                the maker  Fri 4 Dec 2026 10:00   Fri 4 Dec 2026 11:00                        none',
      '',
      'Done by Fri 4 Dec 2026, if every operation takes just as long as it says.',
      'How likely that is cannot be told: give operations a least and a most.',
      '',
      'On Mon 30 Nov 2026:',
      '  08:00 Mill: 6 h, begun',
    ]);
  });

  it('begins on the next working day where it was to begin on a day off, and says so', async () => {
    const { code, out } = await days(jobText(JOB), '--from', '2026-12-05', '--on', '2026-12-08');
    expect(code).toBe(0);
    const lines = out.split('\n');
    expect(lines[0]).toBe('Sat 5 Dec 2026 is a day off: the work begins on Mon 7 Dec 2026.');
    expect(lines.slice(-4)).toEqual([
      'On Tue 8 Dec 2026:',
      '  08:00 Mill: 2 h, to its end',
      '  10:00 Glue: 1 h',
      '  Glue: left alone until Wed 9 Dec 2026 07:00',
    ]);
  });

  it('follows what is set', async () => {
    const { out } = await days(jobText(JOB), '--set', 'hours_a_day=9', '--from', '2026-11-30');
    expect(out).toContain('Glue       1 h       20 h     the maker  Mon 30 Nov 2026 16:00');
  });

  it('tells how likely the day is where operations may take more or less', async () => {
    const rows: readonly Row[] = [
      ['Mill', 8, 0, 4, 30],
      ['Fit', 2],
    ];
    const { out } = await days(jobText(rows), '--draws', '2000', '--seed', '5');
    expect(out).toMatch(
      /\nDone by Tue 1 Dec 2026 in \d+ % of 2000 tries \(seed 5\)\.\nIn half of them it is done by \w+ \d+ Dec 2026, in nine of ten by /,
    );
    const json = JSON.parse((await days(jobText(rows), '--json', '--draws', '2000')).out);
    expect(json.likelihood).toMatchObject({ draws: 2000, seed: 1 });
    const last = json.likelihood.days.at(-1);
    expect(last.by).toBe(1);
    // Thirty hours and two, six a day: the sixth working day at the latest.
    expect(last.day <= '2026-12-07').toBe(true);
  });

  it('prints the same as JSON and as comma-separated values', async () => {
    const json = JSON.parse((await days(jobText(JOB), '--json')).out);
    expect(json).toMatchObject({ promise: '2026-12-04', begins: '2026-11-30', likelihood: null });
    expect(json.operations).toHaveLength(5);
    expect(json.operations[1]).toMatchObject({
      operation: 'Glue',
      begins: { day: '2026-12-01', hour: 10 },
      over: { day: '2026-12-02', hour: 7 },
      critical: false,
      slack: 1,
    });
    const csv = await days(jobText([['=Mill, "all"', 2]]), '--csv');
    expect(csv.out.split('\n')[1]).toBe(
      '"\'=Mill, ""all""",2,0,the maker,,2026-11-30,08:00,2026-11-30,10:00,2026-11-30,10:00,0',
    );
  });

  it('writes a calendar, and the next one as its next state', async () => {
    const first = await days(jobText(JOB), '--ics', 'job.ics');
    const text = first.written?.['job.ics'] ?? '';
    const uids = (file: string) => file.match(/^UID:.*$/gm);
    expect(text).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(uids(text)).toHaveLength(4);
    expect(text.match(/^SEQUENCE:0\r$/gm)).toHaveLength(4);
    const files = {
      'job.json': jobText(JOB.slice(0, 3), { title: 'Another title' }),
      'job.ics': text,
    };
    const second = await call(
      ['days', 'job.json', '--ics', 'next.ics', '--since', 'job.ics'],
      files,
    );
    const next = second.written?.['next.ics'] ?? '';
    expect(uids(next)).toEqual(uids(text));
    expect(next.match(/^SEQUENCE:1\r$/gm)).toHaveLength(4);
    expect(next.match(/^STATUS:CANCELLED\r$/gm)).toHaveLength(1);
    const over = await call(['days', 'job.json', '--ics', 'job.ics'], files);
    expect({ code: over.code, err: over.err }).toEqual({
      code: 2,
      err: 'job.ics is there already.',
    });
    const foreign = {
      ...files,
      'job.ics': 'BEGIN:VCALENDAR\r\nPRODID:-//A//B//EN\r\nEND:VCALENDAR',
    };
    expect(
      (await call(['days', 'job.json', '--ics', 'next.ics', '--since', 'job.ics'], foreign)).err,
    ).toMatch(/^job\.ics is no calendar file that was made here/);
  });

  it('says what it took beside what was thought, in a table, as JSON and as CSV', async () => {
    const heads = ['operation', 'hours', 'spent', 'done', 'day'];
    const took = [
      ['mill', 9.25, 12.5, 'yes'],
      ['Glue', 0.5],
      ['Sharpen', 1],
    ];
    const job = JSON.parse(jobText(JOB));
    const sheet = {
      id: 'took',
      name: 'Hours worked',
      columns: heads.map((_, i) => ({ id: `c${i}` })),
      rows: [heads, ...took].map((row, r) => ({
        id: `r${r}`,
        cells: Object.fromEntries(row.map((value, i) => [`c${i}`, { value }])),
      })),
    };
    const table = { id: 't2', kind: 'hours', sheet: 'took', header: 'r0', last: 'r3' };
    const text = JSON.stringify({
      ...job,
      sheets: [...job.sheets, sheet],
      tables: [...job.tables, table],
    });
    const { code, out, err } = await days(text);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.split('\n').slice(-7)).toEqual([
      'What it took so far:',
      'operation  thought  took    differs  spent',
      'Mill       8 h      9.25 h  +1.25 h   12.5  done',
      'Glue       1 h      0.5 h   -0.5 h',
      'Sharpen             1 h',
      'In all 10.75 h of 12 h, 12.5 spent.',
      'What is done took 9.25 h, and was thought to take 8 h.',
    ]);
    const printed = JSON.parse((await days(text, '--json')).out);
    expect(printed.took).toMatchObject({ estimate: 12, worked: 10.75, spent: 12.5 });
    expect(printed.took.operations[0]).toMatchObject({ name: 'Mill', worked: 9.25, isDone: true });
    const csv = (await days(text, '--csv')).out.split('\n');
    expect(csv[0]).toMatch(/to spare,took,spent,done$/);
    expect(csv[1]).toMatch(/^Mill,8,.*,9\.25,12\.5,yes$/);
    expect(csv.at(-1)).toBe('Sharpen,,,,,,,,,,,,1,0,no');
    const fields = (line = ''): number => line.split(',').length;
    expect(csv.map((line) => fields(line.replaceAll(/"[^"]*"/g, '')))).toEqual(
      csv.map(() => fields(csv[0])),
    );
  });

  it('says what stands in the way of a plan', async () => {
    const circle = await days(
      jobText(
        [
          ['Mill', 1],
          ['Glue', 1],
        ],
        { after: ['Glue', 'Mill'] },
      ),
    );
    expect(circle).toEqual({
      code: 1,
      out: '',
      err: 'Days!F2 "Mill" and "Glue" wait for each other in a circle, so that none can begin. Take one of them out of an after.',
    });
    const none = await call(['days', 'bench.json'], { 'bench.json': JSON.stringify(bench) });
    expect(none).toMatchObject({ code: 1, out: '' });
    expect(none.err).toMatch(/^This workbook has no operations table/);
    const doubtful = await days(
      jobText([
        ['Mill', -1],
        ['Glue', 1],
      ]),
    );
    expect(doubtful).toMatchObject({
      code: 1,
      err: 'Days!B2 Its hands-on should be a number of hours, from 0 to 5000.',
    });
    expect(doubtful.out).toContain('Done by Mon 30 Nov 2026');
  });

  it.each([
    [['--from', 'tomorrow'], '--from takes a day such as 2026-11-30; it got "tomorrow".'],
    [['--on', '2026-02-30'], '--on takes a day such as 2026-11-30; it got "2026-02-30".'],
    [['--draws', '0'], '--draws takes a whole number from 1 to 1000000; it got "0".'],
    [['--json', '--csv'], '--json and --csv are two ways to print the same: give one of them.'],
    [
      ['--since', 'a.ics'],
      '--since names the calendar file that was made last: it takes --ics, where the new one goes.',
    ],
  ])('is called wrongly with %j', async (args, says) => {
    const { code, err } = await days(jobText(JOB), ...args);
    expect(code).toBe(2);
    expect(err.split('\n')[0]).toBe(says);
  });
});
