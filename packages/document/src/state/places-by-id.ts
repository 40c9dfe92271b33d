/** Where members of a list stand, by their ids; worked out when it is first asked for. */
export class Index {
  #items: readonly { readonly id: string }[] | undefined;
  #at: ReadonlyMap<string, number> | undefined;

  constructor(items: readonly { readonly id: string }[]) {
    this.#items = items;
  }

  at(id: string): number | undefined {
    if (this.#at === undefined) {
      this.#at = new Map(this.#items?.map((item, index) => [item.id, index]));
      // A list that was replaced since is not kept alive.
      this.#items = undefined;
    }
    return this.#at.get(id);
  }
}
