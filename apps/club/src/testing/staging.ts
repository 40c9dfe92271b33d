/** Clubs with people in them, for whoever measures one without the runner of tests. */
export { findableWords, rankOf } from '../shelf/words.ts';
export { packed, testClub, type Visitor } from './club.ts';
export { startPostgres } from './postgres-server.ts';
