import collection from './instances.json' with { type: 'json' };

/** An instance of one-dimensional cutting stock; the collection's source stands in its file. */
export interface Instance {
  readonly name: string;
  readonly capacity: number;
  /** Fewest bins, proven. */
  readonly optimum: number;
  /** Bins that first-fit decreasing takes. */
  readonly firstFitDecreasing: number;
  /** `read`, `value from memory` or `made up here`. */
  readonly source: string;
  /** Sizes, each with how often it is wanted where that is more than once. */
  readonly sizes: string;
}

export const INSTANCES: readonly Instance[] = collection.instances;

/** Size and count of every line of an instance. */
export function demandOf({ sizes }: Instance): { size: number; count: number }[] {
  return sizes.split(' ').map((entry) => {
    const [size, count = '1'] = entry.split('x');
    return { size: Number(size), count: Number(count) };
  });
}
