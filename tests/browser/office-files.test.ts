import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './support/axe.ts';
import { activity, command, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Files of office programs: asked about before they are taken, refused where they do harm, and written for others. */

const atHand = withMaker();

/** A list of parts that LibreOffice wrote; README.md beside it says how. */
const BENCH = fileURLToPath(new URL('../interchange/fixtures/hall-bench.xlsx', import.meta.url));

type Given = string | { readonly name: string; readonly mimeType: string; readonly buffer: Buffer };

const textFile = (name: string, text: string): Given => ({
  name,
  mimeType: 'text/plain',
  buffer: Buffer.from(text),
});

const zipFile = (name: string, parts: Readonly<Record<string, Uint8Array>>): Given => ({
  name,
  mimeType: 'application/zip',
  buffer: Buffer.from(zipSync({ ...parts }, { level: 9 })),
});

/** A small file of formulas, tens of thousands of them: each goes over all rows, a minute of work, where nothing else is said. */
function heavy(
  name: string,
  rows: number,
  formulasOf = (row: number): readonly string[] =>
    Array.from({ length: 4 }, () => `SUM($A$1:$A$${row})+COUNTIF($A$1:$A$${rows},A${row})`),
): Given {
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
  const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const relation = (kind: string, target: string): string =>
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${office}/${kind}" Target="${target}"/></Relationships>`;
  const lines = Array.from({ length: rows }, (_, i) => {
    const formulas = formulasOf(i + 1).map(
      (formula, at) => `<c r="${'BCDE'[at]}${i + 1}"><f>${formula}</f><v>1</v></c>`,
    );
    return `<row r="${i + 1}"><c r="A${i + 1}"><v>${i % 97}</v></c>${formulas.join('')}</row>`;
  });
  return zipFile(name, {
    '_rels/.rels': strToU8(relation('officeDocument', 'xl/workbook.xml')),
    'xl/workbook.xml': strToU8(
      `<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="S" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(relation('worksheet', 'worksheets/sheet1.xml')),
    'xl/worksheets/sheet1.xml': strToU8(
      `<worksheet xmlns="${main}"><sheetData>${lines.join('')}</sheetData></worksheet>`,
    ),
  });
}

/** Chooses a file in the list of workbooks, and answers with the dialog that asks about it. */
async function choose(file: Given, name: string): Promise<Locator> {
  const { page, maker } = atHand;
  await maker.workbooks();
  await page.getByLabel('Workbook file').setInputFiles(file);
  const dialog = page.getByRole('dialog', { name: `Open ${name}` });
  await dialog.waitFor();
  return dialog;
}

const openButton = (dialog: Locator): Locator =>
  dialog.getByRole('button', { name: 'Open as a workbook' });

const title = (): Promise<string> => words(atHand.page.locator('.top-title').first());

/** Files given to the page as another program's desk would drop them, all at once. */
async function drop(...given: readonly (readonly [name: string, text: string])[]): Promise<void> {
  const { page } = atHand;
  const files = await page.evaluateHandle((all) => {
    const transfer = new DataTransfer();
    for (const [called, content] of all) transfer.items.add(new File([content], called));
    return transfer;
  }, given);
  await page.dispatchEvent('body', 'dragover', { dataTransfer: files });
  await page.dispatchEvent('body', 'drop', { dataTransfer: files });
}

const SHEET =
  'Stool\n\nPart\tQty\tThick\tWide\tLong\nSeat\t1\t1 1/2\t14\t14\nLeg\t3\t1 1/2\t1 1/2\t18\n';

/** Pastes as another program would have left it on the clipboard. */
async function paste(text: string): Promise<void> {
  await atHand.page.evaluate((pasted) => {
    const clipboard = new DataTransfer();
    clipboard.setData('text/plain', pasted);
    (document.activeElement ?? document.body).dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: clipboard, bubbles: true, cancelable: true }),
    );
  }, text);
}

/**
 * What a practised person needs, by the keystroke-level model (Card, Moran and Newell 1980; its times are values from
 * memory): a press of the pointer with finding and thinking, and a letter.
 */
const SECONDS = { press: 1.1 + 0.2 + 1.35, letter: 0.28 } as const;

describe('a spreadsheet that somebody made in an office program', () => {
  it('is a workbook with a drawing, a cut list and a cutting plan in less than two minutes of its maker’s time', async () => {
    const { page, maker } = atHand;
    let [presses, letters] = [0, 0];
    const press = async (what: Locator): Promise<void> => {
      presses += 1;
      await what.click();
    };
    const type = async (field: Locator, text: string): Promise<void> => {
      await press(field);
      letters += text.length;
      await field.pressSequentially(text);
    };
    await maker.workbooks();
    // The menu, the list, the button and the file in the device's own chooser.
    presses += 4;
    await page.getByLabel('Workbook file').setInputFiles(BENCH);
    const dialog = page.getByRole('dialog', { name: 'Open hall-bench.xlsx' });
    await dialog.getByRole('heading', { name: 'A list of parts' }).waitFor();
    await type(dialog.getByLabel('Saw kerf'), '1/8');
    await type(
      dialog.getByLabel(/^Boards to cut them from/),
      '6 @ 4/4 x 8" x 8\' white oak, $9.50/bf\n4 @ 8/4 x 8" x 6\' white oak, $11/bf',
    );
    await expect
      .poll(() => words(dialog.locator('.take-shop').getByRole('status')))
      .toMatch(/^2 rows of boards read\./);
    await press(openButton(dialog));
    await dialog.waitFor({ state: 'detached' });
    await expect.poll(title).toBe('hall-bench');
    // The drawing stands beside the sheet at once: 19 pieces, two of them boards of the seat.
    const pieces = page.locator('.drawing-pane .kb-plan [data-part]');
    await expect.poll(() => pieces.count()).toBe(19);
    await activity(page, 'Cut and buy');
    presses += 1;
    const plan = page.locator('.app-page');
    await expect.poll(() => words(plan)).toMatch(/Seat board/);
    const text = await words(plan);
    // By hand: the legs, 1 3/4 square, come from 8/4, 1 3/4 once planed; 7/8 is thicker than 4/4 planed, so the seat
    // comes from there too. Nothing is left over.
    expect(text).toMatch(/White oak, 1 3\/4 by 8/);
    expect(text).toMatch(/White oak, 13\/16 by 8/);
    expect(text).not.toContain('Left out of the plan');
    await activity(page, 'Shop sheets');
    presses += 1;
    const cut = page.locator('.app-page').getByRole('table').filter({ hasText: 'Shelf slat' });
    expect(await words(cut.first())).toMatch(/Shelf slat .*1\/2.*2 1\/4.*12/);
    const seconds = presses * SECONDS.press + letters * SECONDS.letter;
    expect({ presses, letters }).toEqual({ presses: 9, letters: 76 });
    expect(seconds).toBeLessThan(120);
  });

  it('says what it found, and takes what its maker says instead', async () => {
    const { page, maker } = atHand;
    const dialog = await choose(BENCH, 'hall-bench.xlsx');
    await dialog.getByRole('heading', { name: 'A list of parts' }).waitFor();
    expect(await words(dialog)).toContain(
      '2 sheets, 58 cells, 8 formulas that go on working. 1 formula stands as the last value.',
    );
    expect(await words(dialog)).toContain('Cut list!G12 There is no function AGGREGATE here.');
    expect(await words(dialog.locator('.take-parts table'))).toContain('Seat board 2 7/8 7 1/4 48');
    expect(await violations(page)).toEqual([]);
    await dialog.getByLabel(/^Rows 4 to 9 of Cut list/).uncheck();
    await dialog.getByLabel(/^Cut list, column C/).selectOption('plain numbers');
    await dialog.getByLabel('Workbook name').fill('Bench of oak');
    await openButton(dialog).click();
    await dialog.waitFor({ state: 'detached' });
    await expect.poll(title).toBe('Bench of oak');
    const about = async (column: number): Promise<string> => {
      await maker.cellAt({ sheet: '', row: 3, column }).click();
      return words(maker.thisCell);
    };
    expect(await about(3)).toMatch(/length/i);
    expect(await about(2)).not.toMatch(/length/i);
  });

  it('leaves all as it was where its maker cancels, by the button and by Escape', async () => {
    const { page } = atHand;
    const before = await title();
    const dialog = await choose(BENCH, 'hall-bench.xlsx');
    await dialog.getByRole('button', { name: 'Cancel' }).click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByLabel('Workbook file').setInputFiles(BENCH);
    await dialog.waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    await page.keyboard.press('Escape');
    expect(await title()).toBe(before);
    expect(await page.locator('.sheet-list').getByText('Cut list').count()).toBe(0);
  });

  it('comes into the open workbook in one step, and is gone with one undo', async () => {
    const { page } = atHand;
    const dialog = await choose(BENCH, 'hall-bench.xlsx');
    await dialog.getByLabel('sheets of Dining table').check();
    await dialog.getByLabel(/^Rows 4 to 9 of Cut list/).uncheck();
    await dialog.getByRole('button', { name: 'Add 2 sheets' }).click();
    await dialog.waitFor({ state: 'detached' });
    const sheets = page.locator('.sheet-list');
    await expect.poll(() => sheets.getByText('Cut list', { exact: true }).count()).toBe(1);
    expect(await title()).toBe('Dining table');
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => sheets.getByText('Cut list', { exact: true }).count()).toBe(0);
  });
});

describe('files that are given to the page', () => {
  it('are asked about where they are dropped, rows of text too', async () => {
    const { page } = atHand;
    await drop(['Shelf.csv', 'Part;Qty;Thick (cm);Width (cm);Length (cm)\nSide;2;1,8;30;80\n']);
    const dialog = page.getByRole('dialog', { name: 'Open Shelf.csv' });
    await dialog.getByText('They are turned into mm.').first().waitFor();
    expect(await dialog.getByLabel('Units').inputValue()).toBe('metric');
    await openButton(dialog).click();
    await dialog.waitFor({ state: 'detached' });
    await expect.poll(title).toBe('Shelf');
    await activity(page, 'Shop sheets');
    await expect.poll(() => words(page.locator('.app-page'))).toMatch(/Side .*18.*300.*800/);
  });

  it('are asked about one after the other where several are dropped at once', async () => {
    const { page } = atHand;
    const head = 'Part\tQty\tThick\tWide\tLong\n';
    await drop(
      ['Shelf.tsv', `${head}Side\t2\t3/4\t10\t30\n`],
      ['Box.tsv', `${head}End\t2\t1/2\t6\t8\n`],
      ['Stool.tsv', `${head}Leg\t3\t1 1/2\t1 1/2\t18\n`],
    );
    for (const name of ['Shelf', 'Box', 'Stool']) {
      const dialog = page.getByRole('dialog', { name: `Open ${name}.tsv` });
      await dialog.getByRole('heading', { name: 'A list of parts' }).waitFor();
      // One that is left alone keeps nobody from the next one.
      if (name === 'Box') await page.keyboard.press('Escape');
      else await openButton(dialog).click();
      await dialog.waitFor({ state: 'detached' });
    }
    await expect.poll(title).toBe('Stool');
    const list = await atHand.maker.workbooks();
    expect(await list.getByText('Shelf', { exact: true }).count()).toBeGreaterThan(0);
    expect(await list.getByText('Box', { exact: true }).count()).toBe(0);
  });

  it('are whole sheets that are pasted into the list of workbooks', async () => {
    const { page, maker } = atHand;
    await maker.workbooks();
    await paste(SHEET);
    const dialog = page.getByRole('dialog', { name: 'Open Pasted cells.tsv' });
    await dialog.getByRole('heading', { name: 'A list of parts' }).waitFor();
    await dialog.getByLabel('Workbook name').fill('Stool');
    await openButton(dialog).click();
    await expect.poll(title).toBe('Stool');
    // A few cells are no sheet, and a field takes what is pasted into it.
    await maker.workbooks();
    await paste('1\t2\n');
    await page.locator('.gallery-find input').focus();
    await paste(SHEET);
    expect(await page.getByRole('dialog', { name: /^Open / }).count()).toBe(0);
  });

  it('are offered to be looked at where they are pasted into a blank workbook', async () => {
    const { page, maker } = atHand;
    const list = await maker.workbooks();
    await list.getByRole('button', { name: 'New blank workbook' }).click();
    await page.getByLabel('Workbook name').fill('Blank');
    await page.getByRole('button', { name: 'Begin' }).click();
    await expect.poll(title).toBe('Blank');
    await maker.cellAt({ sheet: '', row: 0, column: 0 }).click();
    await paste(SHEET);
    const cell = page.locator('.ag-row .ag-cell', { hasText: 'Seat' });
    await expect.poll(() => cell.count()).toBe(1);
    await page.getByRole('button', { name: 'Look for parts and units in it' }).click();
    const dialog = page.getByRole('dialog', { name: 'Open Pasted cells.tsv' });
    await dialog.getByLabel('sheets of Blank').check();
    await dialog.getByRole('button', { name: 'Add the sheet' }).click();
    await dialog.waitFor({ state: 'detached' });
    const sheets = page.locator('.sheet-list');
    await expect.poll(() => sheets.getByText('Pasted cells', { exact: true }).count()).toBe(1);
    await activity(page, 'Shop sheets');
    await expect.poll(() => words(page.locator('.app-page'))).toMatch(/Seat .*1.*14.*14/);
  });

  it('are offered where they have thousands of cells, once all of them are pasted', async () => {
    const { page, maker } = atHand;
    const list = await maker.workbooks();
    await list.getByRole('button', { name: 'New blank workbook' }).click();
    await page.getByLabel('Workbook name').fill('Large');
    await page.getByRole('button', { name: 'Begin' }).click();
    await expect.poll(title).toBe('Large');
    await maker.cellAt({ sheet: '', row: 0, column: 0 }).click();
    const rows = Array.from({ length: 500 }, (_, at) => `Slat ${at + 1}\t1\t3/4\t2\t30`);
    await paste(`Part\tQty\tThick\tWide\tLong\n${rows.join('\n')}\n`);
    await page.getByRole('button', { name: 'Look for parts and units in it' }).click();
    const dialog = page.getByRole('dialog', { name: 'Open Pasted cells.tsv' });
    await dialog.getByRole('heading', { name: 'A list of parts' }).waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    // It was taken back before it was looked at.
    await expect.poll(() => page.locator('.ag-cell', { hasText: 'Slat 1' }).count()).toBe(0);
  });

  it('come from the system where the app is installed', async () => {
    const { page } = atHand;
    const link = await page.locator('link[rel="manifest"]').getAttribute('href');
    const said = await page.evaluate(async (href) => {
      const answer = await fetch(href ?? '');
      return { type: answer.headers.get('content-type'), manifest: await answer.json() };
    }, link);
    expect(said.type).toContain('application/manifest+json');
    const { file_handlers: handlers, icons } = said.manifest;
    expect(Object.values(handlers[0].accept).flat()).toEqual(['.xlsx', '.ods', '.csv']);
    const icon = await page.evaluate(async (src) => (await fetch(src)).text(), icons[0].src);
    expect(icon).toContain('<svg');
    // Chromium hands over what was opened by a queue that only an installed app has.
    await page.addInitScript(() => {
      let isHanded = false;
      const launchQueue = {
        setConsumer: (consumer: (launched: unknown) => void) => {
          // Each is handed over once.
          if (isHanded) return;
          isHanded = true;
          const getFile = async () => new File(['Part,Qty,T,W,L\nSide,2,1,12,30\n'], 'Case.csv');
          consumer({ files: [{ getFile }] });
        },
      };
      Object.defineProperty(window, 'launchQueue', { value: launchQueue });
    });
    await page.reload();
    const dialog = page.getByRole('dialog', { name: 'Open Case.csv' });
    await dialog.getByRole('heading', { name: 'A list of parts' }).waitFor({ timeout: 15_000 });
  });
});

describe('a file that does harm', () => {
  const refusals: readonly (readonly [string, Given, RegExp])[] = [
    ['that is none', textFile('a.xlsx', 'no spreadsheet'), /is no xlsx or ods file/],
    [
      'that unpacks to very much',
      zipFile('b.xlsx', { 'xl/workbook.xml': new Uint8Array(60 * 1024 * 1024) }),
      /unpacks to more than a spreadsheet/,
    ],
    [
      'of too many cells',
      textFile('d.csv', `${'1,'.repeat(40)}1\n`.repeat(9_000)),
      /more than 250,000 fields/,
    ],
    [
      'of formulas that take very long',
      heavy('e.xlsx', 9_000),
      /^Reading it takes more than 5 seconds, so it was stopped/,
    ],
  ];
  for (const [what, file, says] of refusals) {
    it(`${what} is refused in a sentence, and the page goes on`, async () => {
      const { page, maker } = atHand;
      const dialog = await choose(file, typeof file === 'string' ? file : file.name);
      await dialog.getByRole('alert').waitFor({ timeout: 15_000 });
      expect(await words(dialog.getByRole('alert'))).toMatch(says);
      expect(await words(dialog)).toContain('Nothing here was changed.');
      await dialog.getByRole('button', { name: 'Close' }).click();
      await page.keyboard.press('Escape');
      await maker.type('top_length', '96');
      expect(await maker.shows('top_length')).toContain('96');
    });
  }

  it('that is large says how far it is while it is read, and is stopped by closing it', async () => {
    const { page, maker } = atHand;
    const file = heavy('f.xlsx', 9_000, (row) =>
      [2, 3, 4, 5].map((by) => `A${row}*${by}+SUM(A$${Math.max(1, row - 40)}:A${row})`),
    );
    const dialog = await choose(file, 'f.xlsx');
    await dialog.getByText(/^\d+ % of it is done\. Closing this stops it/).waitFor();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await dialog.waitFor({ state: 'detached' });
    await page.keyboard.press('Escape');
    await maker.type('top_length', '97');
    expect(await maker.shows('top_length')).toContain('97');
  });

  it('that is very large is refused before it is read', async () => {
    const { page } = atHand;
    const files = await page.evaluateHandle(() => {
      const transfer = new DataTransfer();
      const file = new File([new Uint8Array(41 * 1024 * 1024)], 'c.csv');
      file.arrayBuffer = () => Promise.reject(new Error('It was read.'));
      transfer.items.add(file);
      return transfer;
    });
    await page.dispatchEvent('body', 'drop', { dataTransfer: files });
    const dialog = page.getByRole('dialog', { name: 'Open c.csv' });
    await expect
      .poll(() => words(dialog.getByRole('alert')))
      .toBe('The file has 41 MB; 40 MB is the most that is read.');
  });

  it('keeps nobody from working while it is read', async () => {
    const { page, maker } = atHand;
    const dialog = await choose(heavy('f.xlsx', 9_000), 'f.xlsx');
    await dialog.getByText('Reading f.xlsx').waitFor();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await page.keyboard.press('Escape');
    await maker.type('top_length', '97');
    expect(await maker.shows('top_length')).toContain('97');
  });
});

/** What is in a PNG: its first dot, and whether at least a tenth of its dots are no ground. */
function coloursOf(png: Buffer): Promise<{ corner: number[]; isDrawn: boolean }> {
  return atHand.page.evaluate(async (letters) => {
    const image = new Image();
    image.src = `data:image/png;base64,${letters}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
    const pen = canvas.getContext('2d');
    if (pen === null) throw new Error('there is no pen');
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, canvas.width, canvas.height);
    let drawn = 0;
    for (let at = 0; at < data.length; at += 4) {
      if ((data[at] ?? 0) + (data[at + 1] ?? 0) + (data[at + 2] ?? 0) < 3 * 255) drawn += 1;
    }
    return { corner: [...data.slice(0, 4)], isDrawn: drawn > data.length / 4 / 10 };
  }, png.toString('base64'));
}

describe('a workbook for office programs', () => {
  it('has the surface of joined parts as a formula', async () => {
    const { page } = atHand;
    const path = fileURLToPath(new URL('../../templates/bookcase.json', import.meta.url));
    await drop(['bookcase.json', readFileSync(path, 'utf8')]);
    await expect.poll(title).toBe('Bookcase');
    await command(page, 'Save for office programs');
    const dialog = page.getByRole('dialog', { name: 'Save for office programs' });
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('button', { name: 'Save the file' }).click(),
    ]);
    const parts = unzipSync(readFileSync(await download.path()));
    const sheets = Object.entries(parts).filter(([name]) => name.startsWith('xl/worksheets/'));
    const written = sheets.map(([, bytes]) => strFromU8(bytes)).join('');
    expect(written).toMatch(/<f[^>]*>IF\(SUMPRODUCT\(1\*\(Parts![^<]*,NA\(\)\)<\/f>/);
  });

  it('is a file, and what in it is otherwise is said', async () => {
    const { page } = atHand;
    await command(page, 'Save for office programs');
    const dialog = page.getByRole('dialog', { name: 'Save for office programs' });
    await dialog.waitFor();
    expect(await violations(page)).toEqual([]);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('button', { name: 'Save the file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('dining-table.xlsx');
    const parts = unzipSync(readFileSync(await download.path()));
    expect(strFromU8(parts['xl/workbook.xml'] ?? new Uint8Array())).toContain(
      '<definedName name="top_length">',
    );
    await expect
      .poll(() => words(dialog.getByRole('status')))
      .toMatch(
        /^dining-table\.xlsx is saved\. \d+ formulas go on working there, \d+ stand as their last value\. The drawing is on a sheet of its own, the last one\./,
      );
    const names = strFromU8(parts['xl/workbook.xml'] ?? new Uint8Array()).match(
      /<sheet name="[^"]*"/g,
    );
    expect(names?.at(-1)).toBe('<sheet name="Drawing"');
    const png = Buffer.from(parts['xl/media/drawing.png'] ?? []);
    // ISO/IEC 15948, 11.2.2: width and height follow the word IHDR; twice 940 by 640.
    expect(png.toString('latin1', 12, 16)).toBe('IHDR');
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([1880, 1280]);
    expect(png.length).toBeGreaterThan(10_000);
    expect(await coloursOf(png)).toEqual({ corner: [255, 255, 255, 255], isDrawn: true });
    await dialog.getByLabel(/ods: the same/).check();
    expect(await dialog.getByText('is saved.').count()).toBe(0);
    const [open] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('button', { name: 'Save the file' }).click(),
    ]);
    expect(open.suggestedFilename()).toBe('dining-table.ods');
    const text = unzipSync(readFileSync(await open.path()))['content.xml'] ?? new Uint8Array();
    expect(strFromU8(text)).toContain('table:name="top_length"');
    expect(strFromU8(text)).toContain('table:name="Drawing"');
    const svg =
      unzipSync(readFileSync(await open.path()))['Pictures/drawing.svg'] ?? new Uint8Array();
    // Shaded, as on the customer's pages: faces in the tints of their wood.
    expect(strFromU8(svg)).toMatch(/^<svg [^>]*\bkb-print\b/);
    expect(strFromU8(svg)).toContain('class="kb-face');
    await dialog.getByLabel(/csv: one sheet/).check();
    await dialog.getByLabel(/^Sheet/).selectOption('Parts');
    const [rows] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('button', { name: 'Save the file' }).click(),
    ]);
    expect(rows.suggestedFilename()).toBe('dining-table-parts.csv');
    expect(readFileSync(await rows.path(), 'utf8')).toMatch(/part,count,thickness/);
  });
});
