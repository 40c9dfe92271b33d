import { inputOf, type OwnTable, wordOf } from './own-table.ts';
import { inches, type Refusal, refusal } from './refusal.ts';
import type { Stated } from './stated.ts';

/** Wood that is left where something is cut, in. Common practice, no source. */
const LEAST_WOOD = 0.125;
/** Wood between a tenon's end or cheek and the outer face of the leg, in. Common practice, no source. */
const LEAST_WALL = 0.25;
/** A tenon shorter than this has no glue to hold it, in. Common practice, no source. */
const LEAST_TENON = 0.5;
/** The slimmest usual tenon, a part of the apron's thickness: Noyes and handbooks of joinery. */
const SLIM = 1 / 3;
const SLACK = 1e-6;

/** Tenons that meet, come through or hold nothing; grooves that leave the apron. */
export function jointRefusals(stated: Stated, table: OwnTable): readonly Refusal[] {
  return [...tenons(table), ...groove(stated, table)];
}

function tenons({ tenon, leg, apron }: OwnTable): readonly Refusal[] {
  if (tenon === 0) return [];
  const found: Refusal[] = [];
  if (tenon < LEAST_TENON - SLACK)
    found.push(refusal('tenon-short', `A tenon of ${inches(tenon)} is too short to hold.`));
  if (tenon >= leg) {
    found.push(
      refusal(
        'tenon-through',
        `A tenon of ${inches(tenon)} comes through a leg of ${inches(leg)}.`,
      ),
    );
  } else if (leg - tenon < LEAST_WALL - SLACK) {
    found.push(
      refusal(
        'tenon-deep',
        `A tenon of ${inches(tenon)} leaves ${inches(leg - tenon)} of the leg.`,
      ),
    );
  }
  // The tenon of one apron ends at leg - tenon; the near cheek of the other's stands at its middle.
  const cheek = apron.setback + (apron.thickness * (1 + SLIM)) / 2;
  const between = leg - tenon - cheek;
  if (between < LEAST_WOOD - SLACK) {
    found.push(
      refusal(
        'tenons-meet',
        `The tenons of two aprons leave ${inches(between)} between them in the leg: they meet.`,
      ),
    );
  }
  const wall = apron.setback + (apron.thickness * (1 - SLIM)) / 2;
  if (wall < LEAST_WALL - SLACK) {
    found.push(
      refusal('mortise-wall', `The mortise leaves a wall of ${inches(wall)} outside in the leg.`),
    );
  }
  return found;
}

function groove(stated: Stated, { apron }: OwnTable): readonly Refusal[] {
  // Nobody cuts a groove that no fastener reaches into.
  const kinds = ['fastener_long', 'fastener_short'].map((name) => wordOf(stated, name));
  if (!kinds.some((kind) => kind === 'button' || kind === 'clip')) return [];
  const width = inputOf(stated, 'groove_width');
  const edge = inputOf(stated, 'groove_edge');
  const kerf = inputOf(stated, 'kerf');
  const found: Refusal[] = [];
  if (width < kerf - SLACK) {
    found.push(
      refusal('groove-narrow', `No blade of ${inches(kerf)} cuts a groove of ${inches(width)}.`),
    );
  }
  if (edge < LEAST_WOOD - SLACK) {
    found.push(
      refusal('groove-edge', `The groove leaves ${inches(edge)} at the edge: nothing holds there.`),
    );
  }
  const behind = apron.thickness - inputOf(stated, 'groove_depth');
  if (behind < LEAST_WOOD - SLACK) {
    const says = `The groove leaves ${inches(behind)} of an apron of ${inches(apron.thickness)}.`;
    found.push(refusal('groove-deep', says));
  }
  const rest = apron.width - edge - width;
  if (rest < LEAST_WOOD - SLACK) {
    found.push(
      refusal(
        'groove-low',
        `Under the groove are ${inches(rest)} of an apron of ${inches(apron.width)}.`,
      ),
    );
  }
  return found;
}
