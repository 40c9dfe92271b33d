export {
  type Answered,
  Clock,
  edition,
  PASSWORD,
  packed,
  smallBook,
  type TestClub,
  testClub,
  textOf,
  Visitor,
} from './club.ts';
export {
  type DatabaseTests,
  type EmptyPlace,
  type Lent,
  type OpenEmpty,
  onBoth,
  onPostgres,
  onSqlite,
  postgresPlace,
  postgresUrl,
  sqlitePlace,
  withoutPostgres,
} from './databases.ts';
export {
  deafPort,
  type MailServerHere,
  type MailServerHow,
  mailServerHere,
  type Received,
} from './mail-server.ts';
export { type PostgresServer, postgresPrograms, startPostgres } from './postgres-server.ts';
export { fillAsOf, ROWS_OF_STEPS, shapeOf } from './schemas.ts';
