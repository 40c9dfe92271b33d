import type { ToldIn } from '@kerfbook/interchange';
import { ToldList } from './told-list.tsx';

const KINDS: readonly (readonly [kinds: readonly ToldIn['kind'][], says: string])[] = [
  [['formula'], 'Formulas that stand as their last value'],
  [['differs'], 'Cells that come to something else here'],
  [['name', 'sheet'], 'Names and sheets that are renamed, or left out'],
  [['value', 'cut', 'rule'], 'Cells that come over changed'],
  [['merged', 'beyond', 'left-out'], 'Left out'],
];

/** What of a file does not come over, cell by cell; nothing where all of it does. */
export function CameOver({ told }: { readonly told: readonly ToldIn[] }) {
  if (told.length === 0) return <p className="quiet">All of it comes over.</p>;
  return (
    <section className="take-told">
      <h3>What does not come over as it was</h3>
      <ToldList told={told} kinds={KINDS} rest="formulas have the reason in their remark." />
    </section>
  );
}
