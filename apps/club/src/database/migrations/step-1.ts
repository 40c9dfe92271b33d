import { type Item, index, table } from './making.ts';

/**
 * The first tables. Every key begins with the club, and nothing refers to another table by a foreign key: a club's rows can
 * then lie on any of several databases, and rows of one table on another than those of the next. What belongs together is
 * written and removed in one transaction.
 */
export const STEP_1: readonly Item[] = [
  table('club', { club: 'text', name: 'text', made: 'whole' }, ['club']),

  table(
    'member',
    {
      club: 'text',
      id: 'text',
      name: 'text',
      name_key: 'text',
      role: 'text',
      state: 'text',
      password: 'text?',
      joined: 'whole',
      gone: 'whole?',
    },
    ['club', 'id'],
  ),
  // Of who is gone the name's key is `gone:` and his id, so that the name is free again.
  index('member', ['club', 'name_key'], true),

  table(
    'passkey',
    {
      club: 'text',
      id: 'text',
      member: 'text',
      public_key: 'bytes',
      counter: 'whole',
      transports: 'text',
      label: 'text',
      made: 'whole',
      used: 'whole?',
    },
    ['club', 'id'],
  ),
  index('passkey', ['club', 'member']),

  table(
    'session',
    {
      club: 'text',
      hash: 'text',
      id: 'text',
      member: 'text',
      agent: 'text',
      made: 'whole',
      seen: 'whole',
      ends: 'whole',
    },
    ['club', 'hash'],
  ),
  index('session', ['club', 'member']),
  index('session', ['club', 'ends']),

  table(
    'token',
    {
      club: 'text',
      hash: 'text',
      id: 'text',
      member: 'text',
      label: 'text',
      made: 'whole',
      used: 'whole?',
      ends: 'whole',
    },
    ['club', 'hash'],
  ),
  index('token', ['club', 'member']),

  table(
    'invitation',
    {
      club: 'text',
      hash: 'text',
      id: 'text',
      kind: 'text',
      role: 'text',
      note: 'text?',
      made_by: 'text?',
      member: 'text?',
      made: 'whole',
      ends: 'whole',
      used: 'whole?',
    },
    ['club', 'hash'],
  ),
  index('invitation', ['club', 'id']),
  index('invitation', ['club', 'member']),

  table(
    'challenge',
    {
      club: 'text',
      id: 'text',
      kind: 'text',
      challenge: 'text',
      member: 'text?',
      ends: 'whole',
    },
    ['club', 'id'],
  ),
  index('challenge', ['club', 'ends']),

  // One row for each stretch of time, so that counting one more needs no look at it first.
  table(
    'try',
    { club: 'text', what: 'text', began: 'whole', count: 'whole' },
    ['club', 'what', 'began'],
    true,
  ),
  index('try', ['club', 'began']),

  table('blob', { club: 'text', sign: 'text', bytes: 'bytes', made: 'whole' }, ['club', 'sign']),

  table(
    'image',
    {
      club: 'text',
      id: 'text',
      kind: 'text',
      owner: 'text',
      type: 'text',
      width: 'whole',
      height: 'whole',
      blob: 'text',
      made: 'whole',
    },
    ['club', 'id'],
  ),
  index('image', ['club', 'owner']),
  index('image', ['club', 'blob']),

  table(
    'template',
    {
      club: 'text',
      id: 'text',
      maker: 'text',
      title: 'text',
      licence: 'text',
      card: 'text',
      kind: 'text',
      longest: 'real?',
      picture: 'text?',
      head: 'whole',
      from_template: 'text?',
      from_revision: 'whole?',
      thanks: 'whole',
      built: 'whole',
      hidden: 'whole',
      made: 'whole',
      changed: 'whole',
    },
    ['club', 'id'],
  ),
  index('template', ['club', 'changed', 'id']),
  index('template', ['club', 'maker', 'changed', 'id']),
  index('template', ['club', 'thanks', 'id']),
  index('template', ['club', 'built', 'id']),
  index('template', ['club', 'from_template']),

  table(
    'revision',
    {
      club: 'text',
      template: 'text',
      number: 'whole',
      by: 'text',
      suggested_by: 'text?',
      note: 'text',
      changes: 'text',
      sign: 'text',
      blob: 'text',
      made: 'whole',
    },
    ['club', 'template', 'number'],
  ),
  index('revision', ['club', 'blob']),

  table(
    'word',
    { club: 'text', word: 'text', rank: 'whole', template: 'text' },
    ['club', 'word', 'rank', 'template'],
    true,
  ),
  index('word', ['club', 'template']),

  table(
    'suggestion',
    {
      club: 'text',
      id: 'text',
      template: 'text',
      base: 'whole',
      by: 'text',
      note: 'text',
      changes: 'text',
      blob: 'text',
      state: 'text',
      word: 'text?',
      made: 'whole',
      answered: 'whole?',
    },
    ['club', 'id'],
  ),
  index('suggestion', ['club', 'template', 'made']),
  index('suggestion', ['club', 'by']),
  index('suggestion', ['club', 'blob']),

  table(
    'thanks',
    { club: 'text', template: 'text', member: 'text', made: 'whole' },
    ['club', 'template', 'member'],
    true,
  ),
  index('thanks', ['club', 'member']),

  table(
    'remark',
    {
      club: 'text',
      id: 'text',
      template: 'text',
      by: 'text',
      text: 'text',
      hidden: 'whole',
      made: 'whole',
    },
    ['club', 'id'],
  ),
  index('remark', ['club', 'template', 'made', 'id']),

  table(
    'built',
    {
      club: 'text',
      id: 'text',
      template: 'text',
      revision: 'whole',
      by: 'text',
      size: 'text',
      changed: 'text',
      photo: 'text?',
      hidden: 'whole',
      made: 'whole',
    },
    ['club', 'id'],
  ),
  index('built', ['club', 'template', 'made', 'id']),

  table(
    'report',
    {
      club: 'text',
      id: 'text',
      of: 'text',
      about: 'text',
      by: 'text',
      why: 'text',
      made: 'whole',
      settled: 'whole?',
      outcome: 'text?',
      settled_by: 'text?',
    },
    ['club', 'id'],
  ),
  index('report', ['club', 'settled', 'made']),

  table(
    'book',
    {
      club: 'text',
      id: 'text',
      owner: 'text',
      title: 'text',
      head: 'whole',
      made: 'whole',
      changed: 'whole',
    },
    ['club', 'id'],
  ),
  index('book', ['club', 'owner']),

  table(
    'book_member',
    { club: 'text', book: 'text', member: 'text', made: 'whole' },
    ['club', 'book', 'member'],
    true,
  ),
  index('book_member', ['club', 'member']),

  table(
    'book_state',
    {
      club: 'text',
      book: 'text',
      number: 'whole',
      by: 'text',
      device: 'text',
      sign: 'text',
      blob: 'text',
      changes: 'whole',
      made: 'whole',
    },
    ['club', 'book', 'number'],
  ),
  index('book_state', ['club', 'blob']),
];
