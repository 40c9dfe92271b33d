import type { Bookcase } from '@kerfbook/keeping';
import { type AnswerOf, LICENCES } from '@kerfbook/protocol';
import { useCallback, useState } from 'react';
import { momentOf } from '../library/moments.ts';
import { BuiltList } from './built.tsx';
import { Complaint, OnItsWay } from './complaint.tsx';
import { askClub, type Me } from './here.ts';
import { Inside } from './inside.tsx';
import { openCopy } from './open-copy.ts';
import { Remarks } from './remarks.tsx';
import { Report } from './report.tsx';
import { Revisions } from './revisions.tsx';
import { ShelfPicture } from './shelf-picture.tsx';
import { SuggestionsHere } from './suggestions.tsx';
import { TakeOff } from './take-off.tsx';
import { useAsked, useDoes } from './use-asked.ts';
import { counted } from './words.ts';

/** A template of the shelf with all that the club tells of it. */
export type TemplateTold = AnswerOf<'template'>;

interface TemplatePageProps {
  readonly id: string;
  readonly me: Me;
  readonly bookcase: Bookcase;
  readonly onTemplate: (id: string) => void;
  readonly onBack: () => void;
  readonly onOpened: () => void;
}

/** One template, looked at before any of it is kept on this device. */
export function TemplatePage(props: TemplatePageProps) {
  const { id, onBack } = props;
  const told = useAsked(
    useCallback((signal) => askClub('template', { params: { template: id } }, signal), [id]),
  );
  return (
    <article className="shelf-template">
      <p className="actions">
        <button type="button" className="button" onClick={onBack}>
          Back to all templates
        </button>
      </p>
      {told.is === undefined ? (
        <OnItsWay says={told.says} what="Reading the template …" again={told.again} />
      ) : (
        <Told {...props} told={told.is} again={told.again} />
      )}
    </article>
  );
}

interface ToldProps extends TemplatePageProps {
  readonly told: TemplateTold;
  readonly again: () => void;
}

function Told({ me, bookcase, told, again, onTemplate, onBack, onOpened }: ToldProps) {
  const { template, from, mine } = told;
  const { id, title, by, card, picture, licence, revision, changed, hidden } = template;
  const copy = useDoes();
  const open = async (number: number): Promise<void> => {
    if (await copy.run(() => openCopy(bookcase, template, number))) onOpened();
  };
  return (
    <>
      <div className="shelf-top">
        <ShelfPicture id={picture} says={`${title}, drawn`} className="shelf-picture" />
        <div className="shelf-about">
          <h2>{title}</h2>
          {hidden === true ? (
            <p className="complaint">
              A keeper of the shelf hid this template after a report: only its maker and the keepers
              see it.
            </p>
          ) : null}
          {card.about === undefined ? null : <p>{card.about}</p>}
          <dl className="title-facts">
            <Fact what="Made by">{by.gone === true ? `${by.name}, who left` : by.name}</Fact>
            {from === undefined ? null : (
              <Fact what="Made from">
                <button type="button" className="button-plain" onClick={() => onTemplate(from.id)}>
                  {from.title}
                </button>
                , revision {from.revision}
              </Fact>
            )}
            <Fact what="License">{LICENCES[licence]}</Fact>
            <Fact what="Revision">
              {revision}, {momentOf(changed)}
            </Fact>
            {card.kind === undefined ? null : <Fact what="What it is">{card.kind}</Fact>}
            {card.size === undefined ? null : <Fact what="Size">{card.size}</Fact>}
            {card.woods.length === 0 ? null : <Fact what="Wood">{card.woods.join(', ')}</Fact>}
            {card.joints.length === 0 ? null : <Fact what="Joinery">{card.joints.join(', ')}</Fact>}
          </dl>
          <p className="actions">
            <button
              type="button"
              className="button button-main"
              disabled={copy.busy}
              onClick={() => void open(revision)}
            >
              Open a copy
            </button>
            <Thanks told={told} again={again} />
            {mine ? null : <Report of="template" id={id} what={`"${title}"`} />}
          </p>
          <p className="quiet">
            The copy is a workbook of yours on this device. When the template is improved, the
            workbook tells you what is new.
          </p>
          <Complaint says={copy.says} />
        </div>
      </div>
      <Inside id={id} revision={revision} />
      <SuggestionsHere told={told} bookcase={bookcase} onAnswered={again} />
      <Revisions told={told} busy={copy.busy} onOpen={(number) => void open(number)} />
      <BuiltList told={told} me={me} onTold={again} />
      <Remarks id={id} me={me} mine={mine} />
      {mine || me.role === 'keeper' ? (
        <TakeOff template={template} mine={mine} onLicence={again} onGone={onBack} />
      ) : null}
    </>
  );
}

function Fact({ what, children }: { readonly what: string; readonly children: React.ReactNode }) {
  return (
    <div>
      <dt>{what}</dt>
      <dd>{children}</dd>
    </div>
  );
}

/** Thanks to whoever made it, once from each member; they can be taken back. */
function Thanks({ told, again }: { readonly told: TemplateTold; readonly again: () => void }) {
  const { template, thanked, mine } = told;
  const { busy, says, run } = useDoes();
  const [now, setNow] = useState({ thanked, many: template.thanks });
  const press = async (): Promise<void> => {
    const asked = { params: { template: template.id } };
    const done = await run(() => askClub(now.thanked ? 'unthank' : 'thank', asked));
    if (!done) return;
    setNow({ thanked: !now.thanked, many: now.many + (now.thanked ? -1 : 1) });
    again();
  };
  const many =
    now.many === 0 ? 'Nobody has said thanks yet' : `${counted(now.many, 'member')} said thanks`;
  return (
    <>
      {mine ? null : (
        <button
          type="button"
          className="button"
          aria-pressed={now.thanked}
          disabled={busy}
          onClick={() => void press()}
        >
          Say thanks
        </button>
      )}
      <span className="quiet" role="status">
        {many}
      </span>
      <Complaint says={says} />
    </>
  );
}
