import { z } from 'zod';
import { After, Done, Id, line, MOST_PACKED, Packed, Person, Sign, Time, words } from './common.ts';
import { route } from './route.ts';

/** What others may do with a template, in the words of open licences. */
export const LICENCES = {
  'cc0-1.0': 'CC0: anyone may do anything with it',
  'cc-by-4.0': 'CC BY: share and change it, and say whose it was',
  'cc-by-sa-4.0':
    'CC BY-SA: share and change it, say whose it was, and share alike what you make of it',
  'cc-by-nc-sa-4.0': 'CC BY-NC-SA: as CC BY-SA, and not for money',
  club: 'For this club alone: ask before it goes further',
} as const;
const Licence = z.enum(Object.keys(LICENCES) as [keyof typeof LICENCES]);

/** What a template says of itself, worked out where it was published and only shown by the server. */
export const Card = z.strictObject({
  about: words(400).optional(),
  /** What is being built: `table`, `case`. */
  kind: line(40).optional(),
  /** What is drawn, over all: `72 × 36 × 29 1/2 in`. */
  size: line(80).optional(),
  /** Its longest measure, mm: filters go by it. */
  longest: z.number().min(0).max(100_000).optional(),
  woods: z.array(line(60)).max(12),
  joints: z.array(line(60)).max(12),
  tags: z.array(line(30)).max(12),
  /** Main results with what they came to. */
  results: z.array(z.tuple([line(80), line(80)])).max(8),
});

/** A picture: a PNG, WebP or JPEG in base64, made from the workbook by the page that publishes. */
export const Picture = z
  .string()
  .max(400_000)
  .regex(/^[A-Za-z0-9+/]+={0,2}$/);

/** One thing that differs from the revision before, in words. */
export const Change = z.strictObject({
  sheet: z.string().max(80),
  what: words(300),
  before: words(2_000),
  after: words(2_000),
});
const Changes = z.array(Change).max(500);

/** Publishing carries the workbook, what it says of itself, and what differs from before. */
const Edition = {
  text: Packed,
  card: Card,
  picture: Picture.optional(),
  /** What the maker says of it. */
  note: words(2_000),
  changes: Changes,
};
const MOST_EDITION = MOST_PACKED + 2 * 1024 * 1024;

const Listed = z.strictObject({
  id: Id,
  title: z.string(),
  by: Person,
  card: Card,
  /** The picture's id; left out where it has none. */
  picture: Id.optional(),
  licence: Licence,
  revision: z.int(),
  changed: Time,
  thanks: z.int(),
  built: z.int(),
  /** A keeper hid it: only its maker and keepers see it. */
  hidden: z.boolean().optional(),
});

const RevisionHead = z.strictObject({
  number: z.int(),
  by: Person,
  note: z.string(),
  made: Time,
  sign: Sign,
  changes: Changes,
  /** It came of a suggestion of this person. */
  suggestedBy: Person.optional(),
});

const template = z.strictObject({ template: Id });
const State = z.enum(['open', 'accepted', 'declined', 'takenBack']);
const SuggestionHead = z.strictObject({
  id: Id,
  template: Id,
  title: z.string(),
  /** The revision it was made from. */
  base: z.int(),
  by: Person,
  note: z.string(),
  made: Time,
  state: State,
  /** The word with which it was accepted or declined. */
  word: z.string().optional(),
  changes: Changes,
});

/** The kinds of things that can be reported. */
export const Reported = z.enum(['template', 'remark', 'built']);

/** The shelf: templates that members publish for each other. */
export const SHELF = {
  browse: route('GET', '/club/templates', 'member', {
    query: z.strictObject({
      /** Words that all have to be found, each from its beginning. */
      find: z.string().max(200).optional(),
      kind: z.string().max(40).optional(),
      wood: z.string().max(60).optional(),
      joint: z.string().max(60).optional(),
      /** Longest measure, mm, as `from-to`. */
      longest: z
        .string()
        .regex(/^\d{1,6}-\d{1,6}$/)
        .optional(),
      by: Id.optional(),
      order: z.enum(['changed', 'thanks', 'built']).optional(),
      after: After,
    }),
    answer: z.strictObject({ templates: z.array(Listed), next: z.string().optional() }),
    token: true,
  }),
  /** The words that filters offer, with how many templates have each, counted up to {@link MOST_COUNTED}. */
  facets: route('GET', '/club/facets', 'member', {
    answer: z.strictObject({
      kinds: z.array(z.tuple([z.string(), z.int()])),
      woods: z.array(z.tuple([z.string(), z.int()])),
      joints: z.array(z.tuple([z.string(), z.int()])),
    }),
  }),
  template: route('GET', '/club/templates/:template', 'member', {
    params: template,
    answer: z.strictObject({
      template: Listed,
      revisions: z.array(RevisionHead),
      /** The template it was made from, where that is on this shelf. */
      from: z.strictObject({ id: Id, title: z.string(), revision: z.int() }).optional(),
      /** Whoever asks made it. */
      mine: z.boolean(),
      thanked: z.boolean(),
      openSuggestions: z.int(),
    }),
    token: true,
  }),
  revision: route('GET', '/club/templates/:template/revisions/:number', 'member', {
    params: z.strictObject({ template: Id, number: z.coerce.number().int().min(1).max(1e9) }),
    answer: z.strictObject({ text: Packed, sign: Sign, number: z.int() }),
    token: true,
  }),
  publish: route('POST', '/club/templates', 'member', {
    body: z.strictObject({
      /** Made by whoever publishes: sent again, it is the same template. */
      id: Id,
      ...Edition,
      licence: Licence,
      from: z.strictObject({ id: Id, revision: z.int() }).optional(),
    }),
    answer: z.strictObject({ id: Id, revision: z.int() }),
    token: true,
    most: MOST_EDITION,
  }),
  /** Refused as `changed`, with what stands, where `parent` is no longer the last one. */
  publishRevision: route('POST', '/club/templates/:template/revisions', 'member', {
    params: template,
    body: z.strictObject({ parent: z.int(), ...Edition }),
    answer: z.strictObject({ id: Id, revision: z.int() }),
    token: true,
    most: MOST_EDITION,
  }),
  setLicence: route('PUT', '/club/templates/:template/licence', 'member', {
    params: template,
    body: z.strictObject({ licence: Licence }),
    answer: Done,
  }),
  /** By its maker or a keeper. */
  takeOffShelf: route('DELETE', '/club/templates/:template', 'member', {
    params: template,
    answer: Done,
  }),
  thank: route('PUT', '/club/templates/:template/thanks', 'member', {
    params: template,
    answer: Done,
  }),
  unthank: route('DELETE', '/club/templates/:template/thanks', 'member', {
    params: template,
    answer: Done,
  }),
  remarks: route('GET', '/club/templates/:template/remarks', 'member', {
    params: template,
    query: z.strictObject({ after: After }),
    answer: z.strictObject({
      remarks: z.array(
        z.strictObject({
          id: Id,
          by: Person,
          text: z.string(),
          made: Time,
          hidden: z.boolean().optional(),
        }),
      ),
      next: z.string().optional(),
    }),
  }),
  remark: route('POST', '/club/templates/:template/remarks', 'member', {
    params: template,
    body: z.strictObject({ text: words(2_000) }),
    answer: z.strictObject({ id: Id }),
  }),
  removeRemark: route('DELETE', '/club/remarks/:remark', 'member', {
    params: z.strictObject({ remark: Id }),
    answer: Done,
  }),
  built: route('GET', '/club/templates/:template/built', 'member', {
    params: template,
    query: z.strictObject({ after: After }),
    answer: z.strictObject({
      built: z.array(
        z.strictObject({
          id: Id,
          by: Person,
          revision: z.int(),
          size: z.string(),
          changed: z.string(),
          photo: Id.optional(),
          made: Time,
          hidden: z.boolean().optional(),
        }),
      ),
      next: z.string().optional(),
    }),
  }),
  /** "Built it": in which size, what was changed, and a photograph without its place and time. */
  tellBuilt: route('POST', '/club/templates/:template/built', 'member', {
    params: template,
    body: z.strictObject({
      revision: z.int(),
      size: line(80),
      changed: words(2_000),
      /** A JPEG, PNG or WebP in base64; the server makes a new one of its pixels. */
      photo: z
        .string()
        .max(11 * 1024 * 1024)
        .optional(),
    }),
    answer: z.strictObject({ id: Id }),
    most: 12 * 1024 * 1024,
  }),
  removeBuilt: route('DELETE', '/club/built/:built', 'member', {
    params: z.strictObject({ built: Id }),
    answer: Done,
  }),
  /** Suggestions about one template: its maker sees all, others their own. */
  suggestions: route('GET', '/club/templates/:template/suggestions', 'member', {
    params: template,
    answer: z.strictObject({ suggestions: z.array(SuggestionHead) }),
  }),
  /** Open ones about my templates, and what became of mine. */
  mySuggestions: route('GET', '/club/suggestions', 'member', {
    answer: z.strictObject({
      toAnswer: z.array(SuggestionHead),
      mine: z.array(SuggestionHead),
    }),
    token: true,
  }),
  suggest: route('POST', '/club/templates/:template/suggestions', 'member', {
    params: template,
    body: z.strictObject({
      id: Id,
      base: z.int(),
      text: Packed,
      note: words(2_000),
      changes: Changes,
    }),
    answer: z.strictObject({ id: Id }),
    token: true,
    most: MOST_EDITION,
  }),
  suggestion: route('GET', '/club/suggestions/:suggestion', 'member', {
    params: z.strictObject({ suggestion: Id }),
    answer: z.strictObject({ suggestion: SuggestionHead, text: Packed }),
    token: true,
  }),
  /** By the template's maker: as its next revision, put together by his own page. */
  accept: route('POST', '/club/suggestions/:suggestion/accept', 'member', {
    params: z.strictObject({ suggestion: Id }),
    body: z.strictObject({ parent: z.int(), word: words(500), ...Edition }),
    answer: z.strictObject({ id: Id, revision: z.int() }),
    most: MOST_EDITION,
  }),
  decline: route('POST', '/club/suggestions/:suggestion/decline', 'member', {
    params: z.strictObject({ suggestion: Id }),
    body: z.strictObject({ word: words(500) }),
    answer: Done,
  }),
  takeBack: route('POST', '/club/suggestions/:suggestion/take-back', 'member', {
    params: z.strictObject({ suggestion: Id }),
    answer: Done,
  }),
  report: route('POST', '/club/reports', 'member', {
    body: z.strictObject({ of: Reported, id: Id, why: words(500) }),
    answer: Done,
  }),
  reports: route('GET', '/club/reports', 'keeper', {
    answer: z.strictObject({
      reports: z.array(
        z.strictObject({
          id: Id,
          of: Reported,
          about: Id,
          /** The template it stands at, to be looked at. */
          template: Id,
          title: z.string(),
          /** The words that were reported. */
          text: z.string(),
          by: Person,
          why: z.string(),
          made: Time,
        }),
      ),
    }),
  }),
  settleReport: route('POST', '/club/reports/:report/settle', 'keeper', {
    params: z.strictObject({ report: Id }),
    body: z.strictObject({ do: z.enum(['hide', 'leave']) }),
    answer: Done,
  }),
  /** Shows again what was hidden. */
  unhide: route('POST', '/club/unhide', 'keeper', {
    body: z.strictObject({ of: Reported, id: Id }),
    answer: Done,
  }),
} as const;

/** What a template says of itself. */
export type Card = z.infer<typeof Card>;
/** One thing that differs, in words. */
export type Change = z.infer<typeof Change>;
/** One of the licences a template may have. */
export type Licence = z.infer<typeof Licence>;
/** A template as lists show it. */
export type ListedTemplate = z.infer<typeof Listed>;
