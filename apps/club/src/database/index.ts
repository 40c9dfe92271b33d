export { DatabaseAway, DatabaseBusy } from './errors.ts';
export { newId, signOf } from './ids.ts';
export { migrate, schemaOf } from './migrations/migrate.ts';
export { type Database, openDatabase, type Where } from './open.ts';
export type { Tables } from './tables.ts';
