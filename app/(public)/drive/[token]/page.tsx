import type { Metadata } from 'next'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, type Fact, Facts, Section } from '#app/_ui/section.tsx'
import { PublicPage } from '#app/(public)/_parts/public-page.tsx'
import { type DrivePage, readDrivePage } from '#lib/service/drive-link.ts'
import { currentDay } from '#lib/web/network.ts'
import { cautionWords } from '#lib/words/caution.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { DRIVE, deliveredWords, driveSentence, kindsWords } from '#lib/words/drive-page.ts'
import { DriveForm } from '../_parts/drive-form.tsx'
import { saidOfDrive } from '../actions.ts'

export const metadata: Metadata = {
  title: DRIVE.title,
  robots: { index: false, follow: false, nocache: true },
}

type Props = { readonly params: Promise<{ readonly token: string }> }

export default async function DriveLinkPage({ params }: Props) {
  const [{ token }, { now, zone }] = await Promise.all([params, currentDay()])
  const page = await readDrivePage(token, now)
  return (
    <PublicPage>
      {page.kind === 'open' ? (
        <Open page={page} token={token} zone={zone} />
      ) : (
        <Over page={page} zone={zone} />
      )}
    </PublicPage>
  )
}

type OpenPage = Extract<DrivePage, { kind: 'open' }>
type OpenProps = { readonly page: OpenPage; readonly token: string; readonly zone: string }

function Open({ page, token, zone }: OpenProps) {
  const { journey, leg, network, phone, cautions } = page
  const open = journey.animals.filter(({ state }) => state === 'open')
  const hasIt = leg.state === 'on the road'
  const turnsTo = journey.turnedAt === null ? null : journey.from
  const kinds = kindsWords(open.map(({ species }) => species))
  return (
    <>
      <Answer
        reference={open.map(({ reference }) => reference).join(', ')}
        sentence={driveSentence(network, kinds, leg, turnsTo, zone)}
        basis={
          <>
            {DRIVE.ring} <Tel phone={phone} />.
          </>
        }
      />
      <Section id="say" head={DRIVE.sayHead} note={DRIVE.sayNote} strong>
        <DriveForm
          action={saidOfDrive}
          token={token}
          say={hasIt ? 'delivered' : 'have'}
          text={hasIt ? DRIVE.delivered : DRIVE.have}
        />
      </Section>
      <Section id="route" head={DRIVE.route}>
        <Facts facts={routeOf(page, zone)} />
      </Section>
      <Section id="carry" head={DRIVE.carryHead}>
        {journey.carry !== '' && <p>{journey.carry}</p>}
        <ul className="shown">
          {cautions.map(caution => {
            const { head, say, mark } = cautionWords(caution)
            return (
              <li key={caution.id}>
                <strong>{head}.</strong> {say} <small>{mark}</small>
              </li>
            )
          })}
        </ul>
      </Section>
      <Section id="cant" head={DRIVE.cantHead} note={hasIt ? DRIVE.cantNote : DRIVE.cantNoteBefore}>
        <DriveForm action={saidOfDrive} token={token} say="cant" text={hasIt ? DRIVE.cantGoOn : DRIVE.cant} />
      </Section>
    </>
  )
}

/** From where by when, to where by when, and who has it then. */
function routeOf({ journey, leg, next }: OpenPage, zone: string): Fact[] {
  const turnsTo = journey.turnedAt === null ? null : journey.from
  const isLast = next === undefined
  const to = turnsTo ?? leg.toWords
  const goal = isLast && turnsTo === null ? { name: journey.to, phone: journey.toPhone } : null
  const back = turnsTo === null ? null : { name: turnsTo, phone: journey.fromPhone ?? '' }
  const there = goal ?? back
  return [
    { term: DRIVE.from, value: leg.fromWords },
    { term: DRIVE.pickUp, value: dayAndClock(leg.pickUpAt, zone) },
    { term: DRIVE.to, value: to },
    { term: DRIVE.due, value: dayAndClock(leg.dueAt, zone) },
    {
      term: DRIVE.afterwards,
      value:
        there === null ? (
          <>
            {next?.driver ?? ''} {next?.phone != null && <Tel phone={next.phone} />}. {DRIVE.meet}
          </>
        ) : (
          <>
            {there.name} {there.phone !== '' && <Tel phone={there.phone} />}
          </>
        ),
    },
  ]
}

/** Delivered, over, given to somebody else, or no link at all: that and nothing of the animals. */
function Over({ page, zone }: { readonly page: Exclude<DrivePage, OpenPage>; readonly zone: string }) {
  if (page.kind === 'unknown') {
    return (
      <>
        <Answer sentence={DRIVE.unknown} />
        <Notice kind="nothing-here" sentence={DRIVE.unknownNext} />
      </>
    )
  }
  if (page.kind === 'delivered') {
    return (
      <>
        <Answer sentence={deliveredWords(page.at, zone)} />
        <Notice kind="done" role="status" sentence={DRIVE.thanks} />
      </>
    )
  }
  return (
    <>
      <Answer sentence={DRIVE.over} />
      <Notice kind="nothing-here" role="status" sentence={DRIVE.overNext} kept={<Tel phone={page.phone} />} />
    </>
  )
}

function Tel({ phone }: { readonly phone: string }) {
  return <a href={`tel:${phone.replaceAll(' ', '')}`}>{phone}</a>
}
