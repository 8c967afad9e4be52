import type { Metadata } from 'next'
import { ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, Facts, Section } from '#app/_ui/section.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { FieldSpec } from '#app/(desk)/casualties/_parts/field-spec.ts'
import { type AskLine, readAskPage } from '#lib/service/ask.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { ASK, askHead, triedWords } from '#lib/words/ask.ts'
import { Desk } from '../../_parts/desk.tsx'
import { AskLines, Standing } from '../_parts/ask-lines.tsx'
import { MakeLink } from '../_parts/make-link.tsx'
import { answered, madeLink, tookBack, wentOn } from '../actions.ts'
import '../asks.css'

export const metadata: Metadata = { title: ASK.title }

type Props = {
  readonly params: Promise<{ readonly id: string }>
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

export default async function AskPage({ params, searchParams }: Props) {
  const [actor, { id }, query, { now, zone }] = await Promise.all([
    requireActor(),
    params,
    searchParams,
    currentDay(),
  ])
  const { ask, others, text, mayPut } = await load(readAskPage(actor, pageNumber(id)))
  const isOpen = ask.state === 'put'
  return (
    <Desk current="calls">
      <Answer
        reference={ask.reference}
        place={
          <>
            {ask.species}
            <br />
            <a href={paths.casualty(ask.reference)}>{ASK.toAnimal}</a>
          </>
        }
        sentence={askHead(ask)}
        basis={<Standing ask={ask} now={now} zone={zone} />}
      />
      {pageWord(query['done']) === 'yes' && <Notice kind="done" role="status" sentence={ASK.done} />}
      {isOpen && <Ring ask={ask} mayPut={mayPut} />}
      {ask.tries.length > 1 && (
        <Section id="tried" head={ASK.tried}>
          <ol className="shown">
            {ask.tries.map(one => (
              <li key={one.phone}>{triedWords(`${one.name}, ${one.phone}`, one.putAt, zone)}</li>
            ))}
          </ol>
        </Section>
      )}
      {ask.what !== null && (
        <Section id="what" head={ASK.what}>
          <Facts facts={[{ term: ASK.what, value: ask.what }]} />
        </Section>
      )}
      {isOpen && mayPut && text !== null && (
        <Section id="send" head={ASK.send} note={ASK.sendNote}>
          <MakeLink action={madeLink} askId={ask.id} text={text} to={sendTo(ask)} />
        </Section>
      )}
      {others.length > 0 && (
        <Section id="others" head={ASK.others}>
          <AskLines
            asks={others}
            caption={ASK.others}
            isAboutOne
            empty={{ sentence: ASK.none, coming: ASK.noneComing }}
            now={now}
            zone={zone}
          />
        </Section>
      )}
      {ask.callId !== null && (
        <p>
          <ButtonLink href={paths.call(ask.callId)}>{ASK.toCall}</ButtonLink>
        </p>
      )}
    </Desk>
  )
}

/** Whoever is rung now, else the centre or practice itself. */
function sendTo({ tries, to }: AskLine) {
  const { name, phone } = tries.at(-1) ?? to
  return { name, phone, email: tries.at(-1)?.email ?? null }
}

/** The call to make, and what came of it. */
function Ring({ ask, mayPut }: { readonly ask: AskLine; readonly mayPut: boolean }) {
  const { name, phone } = ask.tries.at(-1) ?? ask.to
  return (
    <Section id="ring" head={ASK.ring} note={ASK.note} strong>
      <p className="ask-number">
        {name}
        <br />
        <a href={`tel:${phone.replaceAll(' ', '')}`}>{phone}</a>
      </p>
      {mayPut && (
        <div className="ask-acts">
          <Act
            id="answer"
            action={answered}
            title={ASK.answer}
            submit={ASK.keep}
            isFirst
            hidden={{ askId: String(ask.id) }}
            fields={answerFields(ask)}
          />
          {ask.to.kind === 'centre' && (
            <OneButton action={wentOn} text={ASK.nextNow} fields={{ askId: String(ask.id) }} />
          )}
          <OneButton
            action={tookBack}
            weight="plain"
            text={ASK.takeBack}
            fields={{ askId: String(ask.id) }}
          />
        </div>
      )}
    </Section>
  )
}

function answerFields(ask: AskLine): FieldSpec[] {
  const comesAt: FieldSpec = {
    kind: 'time',
    name: 'comesAt',
    label: ASK.comesAt,
    hint: ASK.comesAtHint,
  }
  return [
    {
      kind: 'one',
      name: 'say',
      label: ASK.said,
      columns: 'row',
      choices: [
        { value: 'yes', label: ASK.saidYes },
        { value: 'no', label: ASK.saidNo },
      ],
    },
    { kind: 'text', name: 'by', label: ASK.by },
    ...(ask.to.kind === 'practice' ? [comesAt] : []),
    { kind: 'text', name: 'reason', label: ASK.reason, hint: ASK.optional },
  ]
}
