export {
  type BookStore,
  changedHead,
  type HeadChange,
  keysBeside,
  type SnapshotHead,
} from './book-store.ts';
export { Bookcase, type BookcaseInput } from './bookcase.ts';
export {
  type Beside,
  type BookcaseState,
  type Current,
  DONE,
  type Done,
  type Listing,
  type Notice,
  notDone,
  Watched,
} from './bookcase-state.ts';
export { breath, STRETCH } from './breath.ts';
export { fileNameFor } from './file-name.ts';
export type { KeeperOptions } from './keeper.ts';
export type { Locks } from './locks.ts';
export { MemoryStore } from './memory-store.ts';
export type { Keeping, StorageManagerLike } from './persistence.ts';
export {
  type BookHead,
  type BookRecord,
  headOf,
  isOwnTemplate,
  KEPT,
  type KeptBook,
  type LogEntry,
  type Origin,
  type Owed,
  type Values,
} from './records.ts';
export { type SaveState, saveSentence, timeOfDay } from './save-state.ts';
export { type ShelfPort, shelfId, shelfKey, type TemplateOnShelf } from './shelf-port.ts';
export {
  type ShippedTemplate,
  type TemplateHead,
  type TemplateState,
  templatesOf,
  workingCopyId,
} from './templates.ts';
export { errorInWords, HeldByOlder, NO_TEMPLATE, NothingToShow, writeTrouble } from './trouble.ts';
export type { VersionHead, Versions } from './version-list.ts';
