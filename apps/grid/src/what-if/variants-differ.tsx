import {
  type BuyingPlan,
  bookCard,
  bookFormat,
  type PartDiffers,
  partsDiffer,
  shopPlan,
} from '@kerfbook/drawing';
import { asVariant } from '@kerfbook/guide';
import { breath, errorInWords } from '@kerfbook/keeping';
import type { Variant } from '@kerfbook/studies';
import { type OpenWorkbook, showValue } from '@kerfbook/workbook';
import { useEffect, useState } from 'react';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { Picture } from '../pictures/picture.tsx';

/** What a workbook comes to in the shop, as it stands or as a variant has it. */
interface InShop {
  readonly id: string;
  readonly name: string;
  /** Why it cannot be worked out. */
  readonly failed?: string;
  readonly picture?: string;
  /** Boards and sheets to buy, and what they cost; left out where nothing is planned. */
  readonly boards?: { readonly count: number; readonly cost: string; readonly left: number };
  readonly parts: readonly PartDiffers[];
  /** Checks that stand otherwise than in the workbook, in words. */
  readonly checks: readonly string[];
}

interface VariantsDifferProps {
  readonly book: OpenWorkbook;
  readonly variants: readonly Variant[];
  /** Grows with every change of the workbook. */
  readonly changes: number;
}

/** So many are worked out: each opens the workbook once more. */
const MOST = 12;
/** So many parts are named of each. */
const MOST_PARTS = 30;

/** The variants in the shop: each drawn, with the parts that differ, the boards to buy and the checks that turn. */
export function VariantsDiffer({ book, variants, changes }: VariantsDifferProps) {
  useDrawingStyle();
  const [all, setAll] = useState<readonly InShop[]>([]);
  const key = JSON.stringify(
    variants.map(({ id, name, inputs }) => [id, name, inputs.map(({ value }) => value)]),
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within, and the variants are known by their key
  useEffect(() => {
    let stopped = false;
    const work = async (): Promise<void> => {
      const done: InShop[] = [];
      for (const variant of [undefined, ...variants.slice(0, MOST)]) {
        await breath();
        if (stopped) return;
        done.push(inShop(book, variant));
        setAll([...done]);
      }
    };
    void work();
    return () => {
      stopped = true;
    };
  }, [book, changes, key]);
  return (
    <section
      aria-labelledby="variants-in-shop"
      aria-busy={all.length <= Math.min(variants.length, MOST)}
    >
      <h3 id="variants-in-shop">In the shop</h3>
      <ul className="whatif-shop">
        {all.map(({ id, name, failed, picture, boards, parts, checks }) => (
          <li key={id}>
            <h4>{name}</h4>
            {picture === undefined ? null : <Picture svg={picture} />}
            {failed === undefined ? null : <p className="whatif-says">{failed}</p>}
            {boards === undefined ? null : (
              <p>
                {`${boards.count} ${boards.count === 1 ? 'board' : 'boards'} to buy, ${boards.cost}`}
                {boards.left === 0
                  ? '.'
                  : `; ${boards.left} ${boards.left === 1 ? 'thing is' : 'things are'} left out.`}
              </p>
            )}
            {checks.map((says) => (
              <p key={says}>{says}</p>
            ))}
            {id === '' || failed !== undefined ? null : parts.length === 0 ? (
              <p className="quiet">Its parts are the same.</p>
            ) : (
              <ul className="whatif-parts">
                {parts.slice(0, MOST_PARTS).map((part) => (
                  <li key={`${part.name} ${part.before} ${part.after}`}>{partSays(part)}</li>
                ))}
                {parts.length > MOST_PARTS ? (
                  <li>{`And ${parts.length - MOST_PARTS} more.`}</li>
                ) : null}
              </ul>
            )}
          </li>
        ))}
      </ul>
      {variants.length > MOST ? (
        <p className="quiet">{`The first ${MOST} of ${variants.length} variants.`}</p>
      ) : null}
    </section>
  );
}

const partSays = ({ name, before, after }: PartDiffers): string =>
  after === undefined
    ? `${name}: ${before} goes`
    : before === undefined
      ? `${name}: ${after} comes`
      : `${name}: ${before} → ${after}`;

function inShop(book: OpenWorkbook, variant: Variant | undefined): InShop {
  const [id, name] = [variant?.id ?? '', variant?.name ?? 'As it stands'];
  try {
    const made = variant === undefined ? undefined : asVariant(book, variant);
    if (made?.ok === false) return { id, name, failed: made.problem.says, parts: [], checks: [] };
    const own = made?.book ?? book;
    const shop = shopPlan(own, 'cell');
    const { picture } = bookCard(own);
    const left = shop.unread.length + shop.unplanned.length;
    return {
      id,
      name,
      ...(picture === undefined ? {} : { picture }),
      ...(shop.plan === undefined
        ? {}
        : { boards: { count: boughtIn(shop.plan), cost: moneyIn(own, shop.plan.cost), left } }),
      parts:
        variant === undefined
          ? []
          : partsDiffer(shopPlan(book, 'cell').list.items, shop.list.items, bookFormat(book)),
      checks: variant === undefined ? [] : turned(book, own),
    };
  } catch (error) {
    return { id, name, failed: errorInWords(error), parts: [], checks: [] };
  }
}

const boughtIn = ({ groups }: BuyingPlan): number =>
  groups
    .flatMap(({ buy }) => buy)
    .reduce((all, { stock, count }) => all + (stock.price > 0 ? count : 0), 0);

const moneyIn = ({ units, currency }: OpenWorkbook, amount: number): string =>
  showValue({ kind: 'number', number: amount }, { quantity: 'money', system: units, currency })
    .text;

const STATES = { pass: 'OK', care: 'warning', stop: 'problem', unknown: "can't tell" } as const;

/** The checks that stand otherwise, each with what it was and is. */
function turned(before: OpenWorkbook, after: OpenWorkbook): readonly string[] {
  const was = new Map(before.checks().map((check) => [check.id, check.state]));
  return after.checks().flatMap(({ id, name, state, says }) => {
    const then = was.get(id);
    if (then === undefined || then === state) return [];
    const why = state === 'pass' ? '' : ` ${says}`;
    return [`${name}: ${STATES[then]} → ${STATES[state]}.${why}`];
  });
}
