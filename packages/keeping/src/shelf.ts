/** What is done with workbooks now and then: nothing of it is needed to open one and go on in it. */
export { allBooksCopy } from './all-books.ts';
export { type KeptCard, keepCard, keptCards, keptPicture } from './cards.ts';
export { type ChangedKept, changeKept, type EditMaker } from './changing.ts';
export { type CompareSource, documentToCompare } from './comparing.ts';
export {
  type ApplyEdit,
  addLinked,
  copyWithVersions,
  deleteBook,
  destroyBook,
  duplicateBook,
  emptyTrash,
  type FileCopy,
  fileCopy,
  freeTitle,
  importFile,
  listBooks,
  type ReadableFile,
  renameBook,
  restoreBook,
  saveAsOwn,
  startJob,
  tagBook,
  tagsOf,
  templateCopy,
  titlesIn,
} from './filing.ts';
export { cardForShelf, cut, cutLine, differing, signedAs, signedBy } from './for-shelf.ts';
export { changeJob, jobDocument, type KeptJob, type KeptJobs, keptJobs } from './jobs.ts';
export {
  type CameIn,
  type ExchangeOffer,
  exchangeOffer,
  type JoinOffer,
  type JoinSource,
  joinOffer,
  joinsOf,
  keepJoin,
} from './joining.ts';
export {
  baseText,
  dismissNews,
  isDismissed,
  keepBase,
  lineageOf,
  type News,
  newsOf,
  type TemplateHere,
} from './lineage.ts';
export { newBook, newFurnitureBook } from './new-book.ts';
export { newBookId } from './new-id.ts';
export {
  addFromShelf,
  copyForFile,
  restsOnShelf,
  type ShelfRevision,
  shelfText,
  textForShelf,
} from './on-shelf.ts';
export { type OtherBook, otherBooksWith } from './other-books.ts';
export { bringUpToDate } from './reading.ts';
export {
  allAsStored,
  lastThatOpens,
  momentOf,
  openVersion,
  type SetAside,
  setAside,
  type TakenOut,
  textAsStored,
} from './rescue.ts';
export { keepSent, nextNumber, type PageToSend, type SentPage, sentOf, takeSent } from './sent.ts';
export { shopsId } from './shop-mark.ts';
export {
  changeShops,
  keepRacked,
  leaveAsIs,
  leftAsIs,
  makeShops,
  racked,
  type ShopsBook,
  shopsBook,
} from './shops.ts';
export { signOf } from './sign.ts';
export { squeezed, unsqueezed } from './squeeze.ts';
export { takenApart, withVersions } from './with-versions.ts';
