import { useMemo, useState } from 'react';
import { useSession } from '../page/use-session.ts';
import { sheetsInSight } from '../session/places.ts';
import type { Session } from '../session/session.ts';
import { type Block, Pages } from './blocks.tsx';
import { pageHead, unitsText } from './page-head.ts';
import { fieldSize } from './paper.ts';
import { PaperDesk, Tick, usePaper } from './paper-desk.tsx';
import { sheetBlocks } from './sheet-blocks.tsx';

interface PaperViewProps {
  readonly session: Session;
  readonly onClose: () => void;
}

const NOTHING: Block = { key: 'nothing', node: <p>There is nothing here to print.</p> };

/** Puts the workbook on paper: what goes on it, and every page as it will come out (G62). */
export default function PaperView({ session, onClose }: PaperViewProps) {
  const { book } = session;
  const [page, setPage] = usePaper(book.units);
  const [all, setAll] = useState(false);
  const [formulas, setFormulas] = useState(session.state.value.formulas === true);
  const [remarks, setRemarks] = useState(false);
  const [edges, setEdges] = useState(false);
  const { proving } = useSession(session);
  const { width } = fieldSize(page);
  const blocks = useMemo(() => {
    const sheets = all ? sheetsInSight(book).map(({ id }) => id) : [session.at.sheet];
    const about = { formulas, remarks, edges, proving };
    const found = sheets.flatMap((sheet) => sheetBlocks(session, { sheet, ...about }, width));
    return found.length > 0 ? found : [NOTHING];
  }, [book, all, session, formulas, remarks, edges, proving, width]);
  return (
    <PaperDesk
      title="Print"
      page={page}
      onPage={setPage}
      onClose={onClose}
      chosen={[
        all ? 'every sheet' : 'this sheet',
        ...(formulas ? ['formulas'] : []),
        ...(remarks ? ['remarks'] : []),
        ...(edges ? ['headings'] : []),
      ].join(', ')}
      choices={
        <fieldset>
          <legend>What comes on paper</legend>
          <Tick says="Every sheet" on={all} onTick={setAll} />
          <Tick says="Formulas instead of results" on={formulas} onTick={setFormulas} />
          <Tick says="Remarks" on={remarks} onTick={setRemarks} />
          <Tick says="Row and column headings" on={edges} onTick={setEdges} />
        </fieldset>
      }
    >
      <Pages page={page} blocks={blocks} head={pageHead(book, new Date())} foot={unitsText(book)} />
    </PaperDesk>
  );
}
