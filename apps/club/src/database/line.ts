import type {
  CompiledQuery,
  DatabaseConnection,
  Driver,
  QueryResult,
  TransactionSettings,
} from 'kysely';
import { BROKEN_OFF, DatabaseAway, told } from './errors.ts';
import { bound, type Value } from './values.ts';

/** What one statement came to. */
export interface Came {
  /** What it answered with. */
  readonly rows: Record<string, unknown>[];
  /** How many rows it changed. */
  readonly changed?: number | undefined;
}

/** What a database has to be able to do on one connection. */
export interface Wire {
  /** Carries out one statement. */
  ask(sql: string, values: readonly Value[]): Promise<Came> | Came;
  /** Begins a transaction. */
  begin(settings: TransactionSettings): Promise<void> | void;
  /** Whether the transaction that was begun is still one: a full disk can end it. */
  inside(): boolean;
  /** Ends it, and what was changed stays. */
  commit(): Promise<void> | void;
  /** Ends it, and nothing was changed. */
  rollback(): Promise<void> | void;
  /** Gives the connection back; `broken` where nobody should have it again. */
  release(broken: boolean): void;
}

/**
 * A connection as Kysely knows one. Both databases behave alike on it: what goes in is checked, what is away says so, and
 * after an error in a transaction nothing more is done in it (PostgreSQL's way; SQLite alone would go on).
 */
export class Line implements DatabaseConnection {
  readonly #wire: Wire;
  #state: 'outside' | 'inside' | 'broken' = 'outside';
  #lost = false;

  constructor(wire: Wire) {
    this.#wire = wire;
  }

  async executeQuery<R>(query: CompiledQuery): Promise<QueryResult<R>> {
    if (this.#state === 'broken') throw new Error(BROKEN_OFF);
    try {
      if (this.#state === 'inside' && !this.#wire.inside()) {
        throw new DatabaseAway(
          'The club’s database ended a transaction on its own. Nothing was changed; try again in a while.',
        );
      }
      const came = await this.#wire.ask(query.sql, query.parameters.map(bound));
      const rows = came.rows as R[];
      return came.changed === undefined
        ? { rows }
        : { rows, numAffectedRows: BigInt(came.changed) };
    } catch (error) {
      if (this.#state === 'inside') this.#state = 'broken';
      throw this.#told(error);
    }
  }

  // biome-ignore lint/correctness/useYield: it never gets that far
  async *streamQuery<R>(): AsyncIterableIterator<QueryResult<R>> {
    throw new Error('Rows are read page by page, by key: a stream would hold a connection.');
  }

  async begin(settings: TransactionSettings): Promise<void> {
    try {
      await this.#wire.begin(settings);
    } catch (error) {
      throw this.#told(error);
    }
    this.#state = 'inside';
  }

  async commit(): Promise<void> {
    if (this.#state === 'broken') throw new Error(BROKEN_OFF);
    try {
      await this.#wire.commit();
    } catch (error) {
      throw this.#told(error);
    }
    this.#state = 'outside';
  }

  /** Never throws: why it is taken back matters more, and what a lost connection had begun is gone with it. */
  async rollback(): Promise<void> {
    try {
      if (this.#wire.inside()) await this.#wire.rollback();
    } catch {
      this.#lost = true;
    }
    this.#state = 'outside';
  }

  release(): void {
    this.#wire.release(this.#lost);
  }

  #told(error: unknown): unknown {
    const thrown = told(error);
    if (thrown instanceof DatabaseAway) this.#lost = true;
    return thrown;
  }
}

/** Lets Kysely have connections of one kind. */
export class Lines implements Driver {
  readonly #wire: () => Promise<Wire>;
  readonly #begins: boolean;

  /**
   * @param wire gets a connection
   * @param begins whether transactions may be begun on it
   */
  constructor(wire: () => Promise<Wire>, begins: boolean) {
    this.#wire = wire;
    this.#begins = begins;
  }

  async init(): Promise<void> {}

  async acquireConnection(): Promise<Line> {
    try {
      return new Line(await this.#wire());
    } catch (error) {
      throw told(error);
    }
  }

  async beginTransaction(connection: Line, settings: TransactionSettings): Promise<void> {
    if (!this.#begins) {
      throw new Error('A transaction is begun by `write` or `snapshot`, not on what only reads.');
    }
    await connection.begin(settings);
  }

  async commitTransaction(connection: Line): Promise<void> {
    await connection.commit();
  }

  async rollbackTransaction(connection: Line): Promise<void> {
    await connection.rollback();
  }

  async releaseConnection(connection: Line): Promise<void> {
    connection.release();
  }

  async destroy(): Promise<void> {}
}
