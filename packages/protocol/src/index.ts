export { BOOKS, type BookListed } from './books.ts';
export {
  type AnswerOf,
  type Asked,
  ask,
  type ClubAddress,
  ClubRefused,
  pathOf,
} from './client.ts';
export { DONE, Id, MOST_COUNTED, MOST_LISTED, MOST_PACKED, Person, Sign } from './common.ts';
export { MailAddress, MemberName, Password, PEOPLE, Role, Secret } from './people.ts';
export { REFUSALS, RefusalBody, type RefusalCode } from './refusal.ts';
export type { Route, Who } from './route.ts';
export { imagePath, ROUTES, type RouteName } from './routes.ts';
export { RUNNING } from './running.ts';
export { Card, Change, LICENCES, type Licence, type ListedTemplate, SHELF } from './shelf.ts';
