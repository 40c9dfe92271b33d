import type { LengthsJob, LengthsPlan } from '@kerfbook/cutting';
import { provePlan } from '@kerfbook/cutting/proof';

/** What the page asks this worker. */
export type ProofAsked = LengthsJob;
/** What it answers: the plan, or why there is none. */
export type ProofTold = { readonly plan: LengthsPlan } | { readonly failed: string };

const port = globalThis as unknown as {
  onmessage: ((event: { readonly data: ProofAsked }) => void) | null;
  postMessage(told: ProofTold): void;
};

port.onmessage = ({ data }) => {
  provePlan(data).then(
    (plan) => port.postMessage({ plan }),
    (error: unknown) => port.postMessage({ failed: String(error) }),
  );
};
