import type { Metadata } from 'next'
import { FanIndex } from '#app/_ui/fan/small-fan.tsx'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { HOUSING_TYPES } from '#lib/domain/housing.ts'
import { readWeeks, WEEKS_DAYS, type WeeksShown } from '#lib/service/weeks.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { FAN_WORDS } from '#lib/words/fan.ts'
import { JUDGED } from '#lib/words/judged.ts'
import { RECORDS } from '#lib/words/records.ts'
import {
  daysWords,
  housingHead,
  inAllSentence,
  NOTHING_SET_UP,
  tightestSentence,
  WEEKS,
} from '#lib/words/weeks.ts'
import { Desk } from '../_parts/desk.tsx'
import { Basis } from './_parts/basis.tsx'
import { ClassTable } from './_parts/class-table.tsx'
import { fanData } from './_parts/fan-data.ts'
import { NoNetwork } from './_parts/no-network.tsx'
import { NotInForecast } from './_parts/not-in.tsx'
import { Ways } from './_parts/ways.tsx'
import './weeks.css'

export const metadata: Metadata = { title: WEEKS.title }

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function WeeksPage({ searchParams }: Props) {
  const [actor, query, now] = await Promise.all([requireActor(), searchParams, currentNow()])
  const shown = await load(readWeeks(actor, { days: pageWord(query['days']) }, now))
  if (shown === undefined) return <NoNetwork />
  const { made, classes, tightest, inAll } = shown
  if (tightest === undefined) {
    return (
      <Desk current="weeks-ahead">
        <Answer reference={WEEKS.title} sentence={NOTHING_SET_UP.sentence} />
        <EmptyState sentence={NOTHING_SET_UP.sentence} coming={NOTHING_SET_UP.coming} />
      </Desk>
    )
  }
  const { days } = made
  const ways = WEEKS_DAYS.map(one => ({
    href: paths.weeks({ days: one }),
    text: daysWords(one),
    isCurrent: one === days,
  }))
  return (
    <Desk current="weeks-ahead">
      <Answer
        reference={WEEKS.title}
        sentence={tightestSentence({ ...tightest, ...tightest.worst, lastDay: made.today + days - 1 })}
        basis={<Basis made={made} />}
      >
        <Ways label={WEEKS.days} ways={ways} />
        <p>
          <a className="weeks-records" href={paths.records()}>
            {RECORDS.link}
          </a>
        </p>
        <p>
          <a className="weeks-records" href={paths.cameTrue()}>
            {JUDGED.title}
          </a>
        </p>
      </Answer>
      <Section id="everywhere" head={WEEKS.everywhere} note={WEEKS.everywhereNote} strong>
        <Grid shown={shown} />
        <p className="fan-key">
          {FAN_WORDS.smallKey} {WEEKS.placeIsEnclosure}
        </p>
        <ClassTable classes={classes} days={days} />
        {may(actor, 'export.read') && (
          <p>
            <a className="weeks-csv" href={paths.weeksCsv({ days })}>
              {WEEKS.csv}
            </a>
          </p>
        )}
      </Section>
      <Section id="in-all" head={WEEKS.inAll} note={WEEKS.inAllNote}>
        <p className="weeks-total">{inAllSentence(inAll.placeDays, made.horizonDays, inAll.isNetwork)}</p>
      </Section>
      <NotInForecast shown={shown} />
    </Desk>
  )
}

/** Centres down, housing across: a small fan where the centre has such housing. */
function Grid({ shown: { classes, made } }: { readonly shown: WeeksShown }) {
  const housings = HOUSING_TYPES.filter(type => classes.some(({ housing }) => housing === type))
  const centres = [...new Map(classes.map(one => [one.centreId, one.centre]))]
  const cellOf = (centreId: number, housing: string) => {
    const one = classes.find(each => each.centreId === centreId && each.housing === housing)
    if (one === undefined) return undefined
    const href = paths.weeksOfCentre(centreId, { housing: one.housing, days: made.days })
    return { href, data: fanData(one.fan) }
  }
  return (
    <FanIndex
      caption={WEEKS.everywhere}
      columns={housings.map(housingHead)}
      tightFrom={made.tightFrom}
      rows={centres.map(([id, centre]) => ({
        centre,
        cells: housings.map(housing => cellOf(id, housing)),
      }))}
    />
  )
}
