import {
  importFile,
  type Onward,
  UNITS_OFFERED,
  writeCsv,
  writeOds,
  writeXlsx,
} from '@kerfbook/interchange';
import { loadLazy, loadText, saveText, Workbook } from '@kerfbook/workbook';
import type { DrawingAlong, OfficeAsked, OfficeFormat, OfficeTold, TakeWishes } from './asked.ts';

const port = globalThis as unknown as {
  onmessage: ((event: { readonly data: OfficeAsked }) => void) | null;
  postMessage(told: OfficeTold): void;
};

let kept: { readonly bytes: Uint8Array; readonly name: string } | undefined;

port.onmessage = ({ data }) => {
  try {
    const told = answerTo(data);
    if (told !== undefined) port.postMessage(told);
  } catch (error) {
    port.postMessage({ is: 'failed', says: String(error) });
  }
};

// A file may have formulas that are worked out by what comes late.
loadLazy().then(
  () => port.postMessage({ is: 'ready' }),
  (error: unknown) => port.postMessage({ is: 'failed', says: String(error) }),
);

function answerTo(asked: OfficeAsked): OfficeTold | undefined {
  switch (asked.do) {
    case 'keep':
      kept = { bytes: new Uint8Array(asked.bytes), name: asked.name };
      return undefined;
    case 'look':
      return lookedAt(asked.wishes);
    case 'take':
      return taken(asked.wishes);
    case 'write':
      return written(asked.text, asked.to, asked.along ?? {});
  }
}

function imported(wishes: TakeWishes): ReturnType<typeof importFile> {
  if (kept === undefined) throw new Error('no file was given');
  const { units, title, answers, parts = false, shop } = wishes;
  // What is read at once has nothing to tell.
  told = performance.now();
  return importFile(kept.bytes, kept.name, {
    ...(units === undefined ? {} : { units }),
    ...(title === undefined ? {} : { title }),
    ...(shop === undefined ? {} : { shop }),
    parts,
    onward,
    takes: (_, at) => {
      const answer = answers[at] ?? 'guessed';
      return typeof answer === 'number' ? (UNITS_OFFERED[answer] ?? false) : answer === 'guessed';
    },
  });
}

/** How much of the whole each stage takes, and where it begins: about as long as each takes of a large file. */
const STAGES = { reading: [0, 0.4], making: [0.4, 0.2], opening: [0.6, 0.4] } as const;
const TOLD_EACH_MS = 100;
let told = 0;

function onward({ stage, share, isHandedOn }: Onward): void {
  const now = performance.now();
  if (now - told < TOLD_EACH_MS && !isHandedOn) return;
  told = now;
  const [from, part] = STAGES[stage];
  port.postMessage({ is: 'onward', share: from + part * share, isHandedOn });
}

function lookedAt(wishes: TakeWishes): OfficeTold {
  const read = imported(wishes);
  if (!read.ok) return { is: 'refused', says: read.says };
  const { document, counts, told, guesses, parts } = read;
  return {
    is: 'seen',
    seen: {
      title: document.title,
      units: document.units ?? 'us',
      counts,
      told,
      guesses: guesses.map(({ cells, ...guess }) => ({
        ...guess,
        count: cells.length,
        sheetName: document.sheets[guess.sheet]?.name ?? '',
      })),
      parts: parts.map(({ rows: _, ...list }) => list),
    },
  };
}

function taken(wishes: TakeWishes): OfficeTold {
  const read = imported(wishes);
  if (!read.ok) return { is: 'refused', says: read.says };
  return { is: 'taken', text: saveText(read.document), title: read.document.title };
}

function written(text: string, to: OfficeFormat, along: DrawingAlong): OfficeTold {
  const loaded = loadText(text);
  if (!loaded.ok) return { is: 'refused', says: loaded.says };
  const book = Workbook.open(loaded.document);
  if (typeof to === 'string') {
    const { bytes, told, formulas } =
      to === 'xlsx' ? writeXlsx(book, along) : writeOds(book, along);
    return { is: 'written', file: new Uint8Array(bytes), told, formulas };
  }
  const csv = writeCsv(book, to.csv, to.how);
  if (csv === undefined) return { is: 'refused', says: 'That sheet is not there any more.' };
  return { is: 'written', file: csv, told: [] };
}
