/**
 * What the club keeps, table by table. Every key begins with the club's id, so that many clubs can share a database and be
 * spread over several; every id is made in code; times are ms since 1970; what is true or false is 1 or 0.
 */

/** A club. */
export interface ClubRow {
  club: string;
  name: string;
  made: number;
}

/** Somebody who is or was in the club. */
export interface MemberRow {
  club: string;
  id: string;
  name: string;
  /** The name in the form in which two names are the same (NFKC, lower case); empty of who is gone. */
  name_key: string;
  role: 'member' | 'keeper';
  state: 'in' | 'left' | 'removed';
  /** Argon2id in its usual text; null where only passkeys open the account. */
  password: string | null;
  joined: number;
  gone: number | null;
}

/** A passkey of a member, by the credential's id. */
export interface PasskeyRow {
  club: string;
  id: string;
  member: string;
  public_key: Buffer;
  counter: number;
  transports: string;
  label: string;
  made: number;
  used: number | null;
}

/** Where a member is signed in; the secret itself is nowhere but in his browser. */
export interface SessionRow {
  club: string;
  /** SHA-256 of the secret. */
  hash: string;
  /** By which it is listed and ended. */
  id: string;
  member: string;
  agent: string;
  made: number;
  seen: number;
  ends: number;
}

/** A token of the command line. */
export interface TokenRow {
  club: string;
  hash: string;
  id: string;
  member: string;
  label: string;
  made: number;
  used: number | null;
  ends: number;
}

/** A link by which one comes in, once. */
export interface InvitationRow {
  club: string;
  hash: string;
  id: string;
  kind: 'join' | 'recover';
  role: 'member' | 'keeper';
  note: string | null;
  /** Who made it; null where the club itself did, for its first keeper. */
  made_by: string | null;
  /** Who is to come back in; null where somebody new joins. */
  member: string | null;
  made: number;
  ends: number;
  used: number | null;
}

/** What a passkey has to sign, once. */
export interface ChallengeRow {
  club: string;
  id: string;
  kind: 'add' | 'signIn';
  challenge: string;
  member: string | null;
  ends: number;
}

/** How often something was tried by an account or from an address, in a stretch of time. */
export interface TryRow {
  club: string;
  /** What was tried, by whom: `signIn:address:…` with the rest hashed. */
  what: string;
  /** When the stretch began. */
  began: number;
  count: number;
}

/** A saved workbook, or the pixels of an image, by its SHA-256: the same bytes are kept once. */
export interface BlobRow {
  club: string;
  sign: string;
  bytes: Buffer;
  made: number;
}

/** A picture or a photograph. */
export interface ImageRow {
  club: string;
  id: string;
  kind: 'picture' | 'photo';
  owner: string;
  type: 'image/jpeg' | 'image/png' | 'image/webp';
  width: number;
  height: number;
  /** Of its bytes. */
  blob: string;
  made: number;
}

/** A template on the shelf. */
export interface TemplateRow {
  club: string;
  id: string;
  maker: string;
  title: string;
  licence: string;
  /** What it says of itself: JSON that the database never looks into. */
  card: string;
  kind: string;
  /** Longest measure, mm; null where it says none. */
  longest: number | null;
  picture: string | null;
  /** Number of its last revision. */
  head: number;
  from_template: string | null;
  from_revision: number | null;
  thanks: number;
  built: number;
  hidden: number;
  made: number;
  changed: number;
}

/** One revision of a template. */
export interface RevisionRow {
  club: string;
  template: string;
  number: number;
  /** Who made it, which is the template's maker. */
  by: string;
  /** Who suggested what it brings. */
  suggested_by: string | null;
  note: string;
  /** What differs from the one before: JSON. */
  changes: string;
  /** SHA-256 of the saved text. */
  sign: string;
  /** Of its packed bytes. */
  blob: string;
  made: number;
}

/** A word by which a template is found; facets are words with a sign before them. */
export interface WordRow {
  club: string;
  word: string;
  /** So that the newest come first by the key alone: a large number minus the moment of the last change. */
  rank: number;
  template: string;
}

/** A change that somebody suggests. */
export interface SuggestionRow {
  club: string;
  id: string;
  template: string;
  base: number;
  by: string;
  note: string;
  changes: string;
  blob: string;
  state: 'open' | 'accepted' | 'declined' | 'takenBack';
  word: string | null;
  made: number;
  answered: number | null;
}

/** Thanks. */
export interface ThanksRow {
  club: string;
  template: string;
  member: string;
  made: number;
}

/** A remark about a template. */
export interface RemarkRow {
  club: string;
  id: string;
  template: string;
  by: string;
  text: string;
  hidden: number;
  made: number;
}

/** Somebody built it. */
export interface BuiltRow {
  club: string;
  id: string;
  template: string;
  revision: number;
  by: string;
  size: string;
  changed: string;
  photo: string | null;
  hidden: number;
  made: number;
}

/** Something was reported to the keepers. */
export interface ReportRow {
  club: string;
  id: string;
  of: 'template' | 'remark' | 'built';
  about: string;
  by: string;
  why: string;
  made: number;
  settled: number | null;
  outcome: 'hide' | 'leave' | null;
  settled_by: string | null;
}

/** A member's own workbook. */
export interface BookRow {
  club: string;
  id: string;
  owner: string;
  title: string;
  /** Number of its last state. */
  head: number;
  made: number;
  changed: number;
}

/** Who else may open and change a workbook. */
export interface BookMemberRow {
  club: string;
  book: string;
  member: string;
  made: number;
}

/** One state of a workbook, on top of the one before. */
export interface BookStateRow {
  club: string;
  book: string;
  number: number;
  by: string;
  device: string;
  sign: string;
  blob: string;
  changes: number;
  made: number;
}

/** Which migrations were carried out. */
export interface SchemaRow {
  step: number;
  at: number;
}

/** All tables, as queries are typed by. */
export interface Tables {
  club: ClubRow;
  member: MemberRow;
  passkey: PasskeyRow;
  session: SessionRow;
  token: TokenRow;
  invitation: InvitationRow;
  challenge: ChallengeRow;
  try: TryRow;
  blob: BlobRow;
  image: ImageRow;
  template: TemplateRow;
  revision: RevisionRow;
  word: WordRow;
  suggestion: SuggestionRow;
  thanks: ThanksRow;
  remark: RemarkRow;
  built: BuiltRow;
  report: ReportRow;
  book: BookRow;
  book_member: BookMemberRow;
  book_state: BookStateRow;
  schema_step: SchemaRow;
}
