import { createHash } from 'node:crypto';
import { inflateRawSync } from 'node:zlib';
import {
  type AnswerOf,
  type Asked,
  REFUSALS,
  RefusalBody,
  ROUTES,
  type RouteName,
} from '@kerfbook/protocol';
import { loadText } from '@kerfbook/workbook';
import type { BrowserContext, Route } from 'playwright-core';
import { MEMBERS, type Member } from './fake-members.ts';
import { peopleAnswer } from './fake-people.ts';

/**
 * A small club in this process that answers pages in the place of a server: enough of the shelf for what its pages do.
 * What it is asked and what it answers are held to the shapes of the protocol.
 */

type RefusalCode = RefusalBody['refused'];

/** Thrown where the club refuses. */
class Refused extends Error {
  readonly code: RefusalCode;
  readonly head: number | undefined;

  constructor(code: RefusalCode, says: string, head?: number) {
    super(says);
    this.code = code;
    this.head = head;
  }
}

type Revision = AnswerOf<'template'>['revisions'][number] & { readonly text: string };
type Suggestion = AnswerOf<'suggestion'>;
type Told = AnswerOf<'template'>;

interface Template {
  readonly id: string;
  readonly by: Member;
  title: string;
  licence: Told['template']['licence'];
  card: Told['template']['card'];
  picture: string | undefined;
  revisions: Revision[];
  from: Told['from'];
  thanks: Set<string>;
  remarks: AnswerOf<'remarks'>['remarks'];
  built: AnswerOf<'built'>['built'];
}

/** Everyone's. */
export const PASSWORD = 'a made-up password';

/** As few at once that a test comes to the end of the first part. */
const AT_ONCE = 3;

/** A club that all pages of a test share. */
export class FakeClub {
  readonly templates = new Map<string, Template>();
  readonly suggestions = new Map<string, Suggestion>();
  readonly images = new Map<string, Buffer>();
  readonly reports: unknown[] = [];
  /** It cannot be reached. */
  away = false;
  /** It has a mail server. */
  mail = false;
  /** It is at an address at which passkeys can be asked for. */
  passkeys = false;
  /** Everything that was asked, by name. */
  readonly asked: RouteName[] = [];
  #count = 0;

  /** Puts the club behind all pages of a browser, in which a member is signed in or nobody. */
  async serve(context: BrowserContext, who?: keyof typeof MEMBERS): Promise<void> {
    const session: { me: Member | undefined } = {
      me: who === undefined ? undefined : MEMBERS[who],
    };
    await context.route(/\/(?:index\.html)?(?:\?.*)?$/, async (route) => {
      if (route.request().resourceType() !== 'document') return route.fallback();
      const response = await route.fetch();
      const page = (await response.text()).replace(
        '<head>',
        '<head><meta name="kerfbook-club" content="1">',
      );
      return route.fulfill({ response, body: page });
    });
    await context.route(/\/club\//, (route) => this.#answer(route, session));
  }

  async #answer(route: Route, session: { me: Member | undefined }): Promise<void> {
    if (this.away) return route.abort('connectionrefused');
    const request = route.request();
    const url = new URL(request.url());
    const image = /^\/club\/images\/(.+)$/.exec(url.pathname)?.[1];
    if (image !== undefined) {
      const bytes = this.images.get(image);
      if (bytes === undefined) return route.fulfill({ status: 404 });
      return route.fulfill({
        body: bytes,
        contentType: bytes[0] === 0xff ? 'image/jpeg' : 'image/png',
      });
    }
    try {
      const { name, params } = routeOf(request.method(), url.pathname);
      this.asked.push(name);
      const { who, params: of, query, body } = ROUTES[name];
      const asked = {
        params: of.parse(params),
        query: query.parse(Object.fromEntries(url.searchParams)),
        body: body.parse(request.postDataJSON() ?? undefined),
      };
      if (who !== 'anyone' && session.me === undefined) {
        throw new Refused('signedOut', 'Nobody is signed in. Sign in, then try again.');
      }
      const answer = this.#does(name, asked as never, session);
      await route.fulfill({ json: ROUTES[name].answer.parse(answer) });
    } catch (error) {
      if (!(error instanceof Refused)) {
        await route.fulfill({
          status: 400,
          json: { refused: 'unreadable', says: `The test's club could not read it: ${error}` },
        });
        return;
      }
      const { code, message, head } = error;
      await route.fulfill({
        status: REFUSALS[code],
        json: RefusalBody.parse({
          refused: code,
          says: message,
          ...(head === undefined ? {} : { head }),
        }),
      });
    }
  }

  #id(): string {
    this.#count += 1;
    return `made-up-${String(this.#count).padStart(4, '0')}`;
  }

  /** Times go up by a minute each, so that an order is an order. */
  #now(): number {
    this.#count += 1;
    return Date.UTC(2026, 10, 1, 9) + this.#count * 60_000;
  }

  #image(base64: string | undefined): string | undefined {
    if (base64 === undefined) return undefined;
    const id = this.#id();
    this.images.set(id, Buffer.from(base64, 'base64'));
    return id;
  }

  #template(id: string): Template {
    const found = this.templates.get(id);
    if (found === undefined) throw new Refused('notThere', 'That template is not on the shelf.');
    return found;
  }

  #listed({ id, title, by, card, picture, licence, revisions, thanks, built }: Template) {
    return {
      id,
      title,
      by: { id: by.id, name: by.name },
      card,
      ...(picture === undefined ? {} : { picture }),
      licence,
      revision: revisions.length,
      changed: revisions.at(-1)?.made ?? 0,
      thanks: thanks.size,
      built: built.length,
    };
  }

  #revision(
    template: Template,
    by: Member,
    edition: Pick<Asked<'publish'>['body'], 'text' | 'note' | 'changes' | 'card' | 'picture'>,
    more: Partial<Revision> = {},
  ): { id: string; revision: number } {
    const text = inflateRawSync(Buffer.from(edition.text, 'base64')).toString('utf8');
    const loaded = loadText(text);
    if (!loaded.ok) throw new Refused('notSo', loaded.says);
    template.title = loaded.document.title;
    template.card = edition.card;
    template.picture = this.#image(edition.picture);
    template.revisions.push({
      number: template.revisions.length + 1,
      by: { id: by.id, name: by.name },
      note: edition.note,
      made: this.#now(),
      sign: createHash('sha256').update(text).digest('hex'),
      changes: edition.changes,
      text: edition.text,
      ...more,
    });
    return { id: template.id, revision: template.revisions.length };
  }

  #does(name: RouteName, asked: never, session: { me: Member | undefined }): unknown {
    const { params, query, body } = asked as {
      params: Record<string, string>;
      query: Record<string, string | undefined>;
      body: never;
    };
    const me = session.me as Member;
    const person = { id: me?.id ?? '', name: me?.name ?? '' };
    const done = { done: true };
    switch (name) {
      case 'here':
        return {
          club: { name: 'The made-up club' },
          ...(session.me === undefined ? {} : { me }),
          ...(this.mail && session.me?.role === 'keeper' ? { mail: true } : {}),
          passkeys: this.passkeys,
          secure: false,
          mostPacked: 2_000_000,
        };
      case 'signIn': {
        const { name: called, password } = body as Asked<'signIn'>['body'];
        const found = Object.values(MEMBERS).find((one) => one.name === called);
        if (found === undefined || password !== PASSWORD) {
          throw new Refused(
            'notAllowed',
            'Name and password do not go together. Check both, then try again.',
          );
        }
        session.me = found;
        return found;
      }
      case 'signOut':
        session.me = undefined;
        return done;
      case 'browse': {
        const { find = '', kind, wood, joint, longest, order = 'changed', after = '0' } = query;
        const [least = 0, most = 0] = (longest ?? '0-100000').split('-').map(Number);
        const all = [...this.templates.values()]
          .filter(({ title, card }) => {
            const words = [title, card.about ?? '', ...card.woods, ...card.joints].join(' ');
            return (
              find
                .toLowerCase()
                .split(/\s+/)
                .every((word) => words.toLowerCase().includes(word)) &&
              (kind === undefined || card.kind === kind) &&
              (wood === undefined || card.woods.includes(wood)) &&
              (joint === undefined || card.joints.includes(joint)) &&
              (longest === undefined ||
                ((card.longest ?? -1) >= least && (card.longest ?? -1) <= most))
            );
          })
          .map((one) => this.#listed(one))
          .sort((a, b) => b[order as 'thanks'] - a[order as 'thanks'] || b.changed - a.changed);
        const from = Number(after);
        return {
          templates: all.slice(from, from + AT_ONCE),
          ...(all.length > from + AT_ONCE ? { next: String(from + AT_ONCE) } : {}),
        };
      }
      case 'facets': {
        const count = (of: (one: Template) => readonly string[]) => {
          const many = new Map<string, number>();
          for (const one of this.templates.values()) {
            for (const word of of(one)) many.set(word, (many.get(word) ?? 0) + 1);
          }
          return [...many];
        };
        return {
          kinds: count(({ card }) => (card.kind === undefined ? [] : [card.kind])),
          woods: count(({ card }) => card.woods),
          joints: count(({ card }) => card.joints),
        };
      }
      case 'template': {
        const one = this.#template(params.template ?? '');
        return {
          template: this.#listed(one),
          revisions: one.revisions.map(({ text: _text, ...head }) => head),
          ...(one.from === undefined ? {} : { from: one.from }),
          mine: one.by.id === me.id,
          thanked: one.thanks.has(me.id),
          openSuggestions: 0,
        };
      }
      case 'revision': {
        const one = this.#template(params.template ?? '').revisions[Number(params.number) - 1];
        if (one === undefined) throw new Refused('notThere', 'There is no such revision.');
        return { text: one.text, sign: one.sign, number: one.number };
      }
      case 'publish': {
        const given = body as Asked<'publish'>['body'];
        const from = given.from === undefined ? undefined : this.#template(given.from.id);
        const one: Template = {
          id: given.id,
          by: me,
          title: '',
          licence: given.licence,
          card: given.card,
          picture: undefined,
          revisions: [],
          from:
            from === undefined || given.from === undefined
              ? undefined
              : { ...given.from, title: from.title },
          thanks: new Set(),
          remarks: [],
          built: [],
        };
        const published = this.#revision(one, me, given);
        this.templates.set(given.id, one);
        return published;
      }
      case 'publishRevision': {
        const one = this.#template(params.template ?? '');
        const given = body as Asked<'publishRevision'>['body'];
        this.#mayFollow(one, given.parent);
        return this.#revision(one, me, given);
      }
      case 'setLicence':
        this.#template(params.template ?? '').licence = (
          body as Asked<'setLicence'>['body']
        ).licence;
        return done;
      case 'takeOffShelf':
        this.templates.delete(params.template ?? '');
        return done;
      case 'thank':
        this.#template(params.template ?? '').thanks.add(me.id);
        return done;
      case 'unthank':
        this.#template(params.template ?? '').thanks.delete(me.id);
        return done;
      case 'remarks':
        return { remarks: this.#template(params.template ?? '').remarks };
      case 'remark': {
        const id = this.#id();
        const { text } = body as Asked<'remark'>['body'];
        this.#template(params.template ?? '').remarks.unshift({
          id,
          by: person,
          text,
          made: this.#now(),
        });
        return { id };
      }
      case 'removeRemark':
        for (const one of this.templates.values()) {
          one.remarks = one.remarks.filter(({ id }) => id !== params.remark);
        }
        return done;
      case 'built':
        return { built: this.#template(params.template ?? '').built };
      case 'tellBuilt': {
        const id = this.#id();
        const { photo, ...told } = body as Asked<'tellBuilt'>['body'];
        const image = this.#image(photo);
        this.#template(params.template ?? '').built.unshift({
          id,
          by: person,
          ...told,
          ...(image === undefined ? {} : { photo: image }),
          made: this.#now(),
        });
        return { id };
      }
      case 'removeBuilt':
        for (const one of this.templates.values()) {
          one.built = one.built.filter(({ id }) => id !== params.built);
        }
        return done;
      case 'suggestions': {
        const one = this.#template(params.template ?? '');
        const all = [...this.suggestions.values()].map(({ suggestion }) => suggestion);
        return {
          suggestions: all.filter(
            ({ template, by }) => template === one.id && (one.by.id === me.id || by.id === me.id),
          ),
        };
      }
      case 'mySuggestions': {
        const all = [...this.suggestions.values()].map(({ suggestion }) => suggestion);
        return {
          toAnswer: all.filter(
            ({ template, state }) =>
              state === 'open' && this.templates.get(template)?.by.id === me.id,
          ),
          mine: all.filter(({ by }) => by.id === me.id),
        };
      }
      case 'suggest': {
        const { id, text, ...given } = body as Asked<'suggest'>['body'];
        const { title, id: template } = this.#template(params.template ?? '');
        const made = this.#now();
        const suggestion = {
          id,
          template,
          title,
          ...given,
          by: person,
          made,
          state: 'open',
        } as const;
        this.suggestions.set(id, { suggestion, text });
        return { id };
      }
      case 'suggestion':
        return this.#suggestion(params.suggestion);
      case 'accept': {
        const { suggestion } = this.#suggestion(params.suggestion);
        const given = body as Asked<'accept'>['body'];
        const one = this.#template(suggestion.template);
        this.#mayFollow(one, given.parent);
        Object.assign(suggestion, { state: 'accepted', word: given.word });
        return this.#revision(one, me, given, { suggestedBy: suggestion.by });
      }
      case 'decline': {
        const { word } = body as Asked<'decline'>['body'];
        Object.assign(this.#suggestion(params.suggestion).suggestion, { state: 'declined', word });
        return done;
      }
      case 'takeBack':
        Object.assign(this.#suggestion(params.suggestion).suggestion, { state: 'takenBack' });
        return done;
      // Workbooks that follow a member are tried with a club itself.
      case 'books':
        return { books: [] };
      case 'report':
        this.reports.push(body);
        return done;
      default: {
        const told = peopleAnswer(name, body, me);
        if (told !== undefined) return told;
        throw new Refused('notThere', `The test's club does not do "${name}".`);
      }
    }
  }

  #mayFollow({ revisions }: Template, parent: number): void {
    if (parent === revisions.length) return;
    throw new Refused(
      'changed',
      `Revision ${revisions.length} was published meanwhile. Bring it in first.`,
      revisions.length,
    );
  }

  #suggestion(id = ''): Suggestion {
    const found = this.suggestions.get(id);
    if (found === undefined) throw new Refused('notThere', 'That suggestion is not there.');
    return found;
  }
}

/** The route that a path is of, and its parts. */
function routeOf(
  method: string,
  path: string,
): { name: RouteName; params: Record<string, string> } {
  for (const [name, route] of Object.entries(ROUTES)) {
    const parts = route.path.split('/');
    const given = path.split('/');
    if (route.method !== method || parts.length !== given.length) continue;
    if (!parts.every((part, i) => part.startsWith(':') || part === given[i])) continue;
    const params = parts.flatMap((part, i) =>
      part.startsWith(':') ? [[part.slice(1), decodeURIComponent(given[i] ?? '')] as const] : [],
    );
    return { name: name as RouteName, params: Object.fromEntries(params) };
  }
  throw new Refused('notThere', `There is no ${method} ${path}.`);
}
