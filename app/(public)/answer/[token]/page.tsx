import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import { PictureList } from '#app/_parts/picture-list.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, Facts, Section } from '#app/_ui/section.tsx'
import { Shell } from '#app/_ui/shell.tsx'
import { type AnswerPage, readAnswerPage } from '#lib/service/ask-link.ts'
import { isDemo } from '#lib/web/demo.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import {
  ASK_PAGE,
  answerBy,
  askSentence,
  type CaseFact,
  centreFacts,
  thanksWords,
  vetFacts,
} from '#lib/words/ask-page.ts'
import { PICTURES } from '#lib/words/attachment.ts'
import { clockTime, weekdayDate } from '#lib/words/dates.ts'
import { AnswerForm } from '../_parts/answer-form.tsx'
import { answerAsk } from '../actions.ts'
import '../answer.css'

export const metadata: Metadata = {
  title: ASK_PAGE.title,
  robots: { index: false, follow: false, nocache: true },
}

type Props = { readonly params: Promise<{ readonly token: string }> }

export default async function AnswerAskPage({ params }: Props) {
  const [{ token }, { now, today, zone }] = await Promise.all([params, currentDay()])
  const page = await readAnswerPage(token, now)
  return (
    <Shell
      nav={[]}
      home={paths.front()}
      day={`${weekdayDate(today)}, ${clockTime(now, zone)}`}
      demo={isDemo()}
    >
      {page.kind === 'open' ? (
        <Open page={page} token={token} zone={zone} />
      ) : (
        <Over page={page} zone={zone} />
      )}
    </Shell>
  )
}

type OpenPage = Extract<AnswerPage, { kind: 'open' }>

function Open({
  page,
  token,
  zone,
}: {
  readonly page: OpenPage
  readonly token: string
  readonly zone: string
}) {
  const { one, network, phone } = page
  const isVet = one.to.kind === 'practice'
  const facts = isVet ? vetFacts(one, zone) : centreFacts(one, zone)
  return (
    <>
      <Answer
        reference={one.reference}
        place={one.to.name}
        sentence={askSentence(network, one, isVet)}
        basis={
          <>
            {one.lapsesAt !== null && answerBy(one.lapsesAt, zone)} {ASK_PAGE.byPhone} <Tel phone={phone} />.
          </>
        }
      />
      {isVet && one.what !== null && (
        <Section id="question" head={ASK_PAGE.question}>
          <p>{one.what}</p>
        </Section>
      )}
      <Section id="facts" head={ASK_PAGE.facts} note={ASK_PAGE.factsNote} strong>
        <Facts facts={facts.map(factOf)} />
      </Section>
      {one.pictures.length > 0 && (
        <Section id="pictures" head={PICTURES.head} note={PICTURES.note}>
          <PictureList
            pictures={one.pictures}
            addressOf={(id, size) => paths.pictureByLink(token, id, size)}
            zone={zone}
          />
        </Section>
      )}
      {isVet && (
        <Section id="afterwards" head={ASK_PAGE.afterwards}>
          <Facts
            facts={[
              factOf({ term: ASK_PAGE.home, value: one.home }),
              factOf({ term: ASK_PAGE.offers, value: one.offers === '' ? null : one.offers }),
            ]}
          />
        </Section>
      )}
      <Section id="answer" head={ASK_PAGE.answerHead} note={ASK_PAGE.answerNote} strong>
        <AnswerForm action={answerAsk} token={token} isVet={isVet} />
      </Section>
    </>
  )
}

function factOf({ term, value }: CaseFact): { readonly term: string; readonly value: ReactNode } {
  return { term, value: value ?? <span className="gap">{ASK_PAGE.gap}</span> }
}

/** Answered, taken back, over, or no link at all: that and nothing of the case. */
function Over({ page, zone }: { readonly page: Exclude<AnswerPage, OpenPage>; readonly zone: string }) {
  if (page.kind === 'unknown') {
    return (
      <>
        <Answer sentence={ASK_PAGE.unknown} />
        <Notice kind="nothing-here" sentence={ASK_PAGE.unknownNext} />
      </>
    )
  }
  const sentence =
    page.kind === 'answered'
      ? thanksWords(page.isYes, page.by, page.at, page.comesAt, zone)
      : ASK_PAGE.overTitle
  return (
    <>
      <Answer sentence={sentence} />
      <Notice
        kind={page.kind === 'answered' ? 'done' : 'nothing-here'}
        role="status"
        sentence={page.kind === 'answered' ? ASK_PAGE.thanks : ASK_PAGE.over}
        kept={
          <>
            {ASK_PAGE.overNext} <Tel phone={page.phone} />
          </>
        }
      />
    </>
  )
}

function Tel({ phone }: { readonly phone: string }) {
  return <a href={`tel:${phone.replaceAll(' ', '')}`}>{phone}</a>
}
