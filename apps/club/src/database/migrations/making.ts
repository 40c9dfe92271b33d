import { type RawBuilder, type SchemaModule, sql } from 'kysely';

/** Which database it is. */
export type Kind = 'sqlite' | 'postgres';
/** What a column holds; with a question mark it may hold nothing. */
export type Column = 'text' | 'whole' | 'real' | 'bytes' | 'text?' | 'whole?' | 'real?' | 'bytes?';
/** One statement that makes something; carried out a second time it does nothing. */
export type Item = (schema: SchemaModule, kind: Kind) => { execute(): Promise<unknown> };

/** Texts are ordered by their bytes on both, whatever language the machine speaks. */
const TYPES: Record<Kind, Record<string, RawBuilder<unknown>>> = {
  sqlite: { text: sql`text`, whole: sql`integer`, real: sql`real`, bytes: sql`blob` },
  postgres: {
    text: sql`text collate "C"`,
    whole: sql`bigint`,
    real: sql`double precision`,
    bytes: sql`bytea`,
  },
};

/**
 * A table. `strict`: SQLite keeps to the types, as PostgreSQL does. `byKey`: short rows that are found by their key alone
 * lie in its order, without a second copy.
 */
export function table(
  name: string,
  columns: Readonly<Record<string, Column>>,
  key: readonly string[],
  byKey = false,
): Item {
  return (schema, kind) => {
    let making = schema.createTable(name).ifNotExists();
    for (const [column, holds] of Object.entries(columns)) {
      const type = TYPES[kind][holds.replace('?', '')] as RawBuilder<unknown>;
      making = making.addColumn(column, type, (one) => (holds.endsWith('?') ? one : one.notNull()));
    }
    const keyed = making.addPrimaryKeyConstraint(`${name}_key`, [...key] as never[]);
    if (kind === 'postgres') return keyed;
    return keyed.modifyEnd(byKey ? sql`strict, without rowid` : sql`strict`);
  };
}

/** An index, a plain B-tree. */
export function index(name: string, columns: readonly string[], unique = false): Item {
  return (schema) => {
    const making = schema
      .createIndex(`${name}_by_${columns.slice(1).join('_')}`)
      .ifNotExists()
      .on(name)
      .columns([...columns]);
    return unique ? making.unique() : making;
  };
}
