import type { Metadata } from 'next'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { may } from '#lib/authz/demand.ts'
import { readWeeksOfCentre, WEEKS_DAYS, type WeeksOfCentre } from '#lib/service/weeks.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { pageNumber, pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import {
  classSentence,
  countWords,
  daysWords,
  elsewhereSentence,
  housingHead,
  housingPlural,
  inAllSentence,
  NOTHING_SET_UP,
  noSuchHousing,
  ofThemSentence,
  WEEKS,
} from '#lib/words/weeks.ts'
import { Desk } from '../../_parts/desk.tsx'
import { Basis } from '../_parts/basis.tsx'
import { ClassInFullView } from '../_parts/class-in-full.tsx'
import { Ways } from '../_parts/ways.tsx'
import '../weeks.css'

export const metadata: Metadata = { title: WEEKS.title }

const MS_PER_DAY = 86_400_000

type Props = {
  readonly params: Promise<{ readonly centreId: string }>
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

export default async function CentreWeeksPage({ params, searchParams }: Props) {
  const [actor, { centreId }, query, now] = await Promise.all([
    requireActor(),
    params,
    searchParams,
    currentNow(),
  ])
  const asked = { days: pageWord(query['days']), housing: pageWord(query['housing']) }
  const weeks = await load(readWeeksOfCentre(actor, pageNumber(centreId), asked, now))
  const { made, centre, housing, full, inAll } = weeks
  const mayOpen = (id: number | null) => may(actor, 'casualty.read', { centreIds: id === null ? [] : [id] })
  return (
    <Desk current="weeks-ahead">
      <Answer
        reference={centre.name}
        place={
          <>
            {housing !== undefined && housingPlural(housing)}
            <br />
            <a href={paths.weeks({ days: made.days })}>{WEEKS.chooseAnother}</a>
          </>
        }
        sentence={sentenceOf(weeks)}
        basis={<Basis made={made} counted={countedOf(weeks, now)} />}
      >
        <CentreWays weeks={weeks} />
      </Answer>
      {full === undefined ? (
        <Missing weeks={weeks} />
      ) : (
        <ClassInFullView full={full} made={made} mayOpen={mayOpen} />
      )}
      <Section id="in-all" head={WEEKS.inAll} note={WEEKS.inAllNote}>
        <p className="weeks-total">{inAllSentence(inAll.placeDays, made.horizonDays, inAll.isNetwork)}</p>
        {full !== undefined && (
          <p className="weeks-said weeks-after">{ofThemSentence(full.shown.placeDaysShort)}</p>
        )}
        {full !== undefined && may(actor, 'export.read') && (
          <p>
            <a
              className="weeks-csv"
              href={paths.weeksCsv({ centre: centre.id, housing: full.shown.housing, days: made.days })}
            >
              {WEEKS.csv}
            </a>
          </p>
        )}
      </Section>
    </Desk>
  )
}

function sentenceOf({ made, centre, housing, full }: WeeksOfCentre): string {
  if (full !== undefined) {
    const { tight, shown } = full
    return classSentence({ tight, worst: shown.worst, lastDay: made.today + made.days - 1 })
  }
  return housing === undefined ? NOTHING_SET_UP.sentence : noSuchHousing(centre.name, housing)
}

function countedOf({ made, centre }: WeeksOfCentre, now: Date): string {
  const { countedAt } = centre
  if (countedAt === null) return countWords(null, 0)
  const daysAgo = Math.floor((now.getTime() - countedAt.getTime()) / MS_PER_DAY)
  return countWords(dayAndClock(countedAt, made.zone), daysAgo)
}

/** The same centre further or less far ahead, and its other housing. */
function CentreWays({ weeks }: { readonly weeks: WeeksOfCentre }) {
  const { made, centre, housing, housings } = weeks
  const days = WEEKS_DAYS.map(one => ({
    href: paths.weeksOfCentre(centre.id, { housing, days: one }),
    text: daysWords(one),
    isCurrent: one === made.days,
  }))
  const others = housings.map(one => ({
    href: paths.weeksOfCentre(centre.id, { housing: one, days: made.days }),
    text: housingHead(one),
    isCurrent: one === housing,
  }))
  return (
    <>
      <Ways label={WEEKS.days} ways={days} />
      <Ways label={WEEKS.housing} ways={others} />
    </>
  )
}

/** The centre lacks that housing: who has it. */
function Missing({ weeks: { housing, elsewhere, made } }: { readonly weeks: WeeksOfCentre }) {
  if (housing === undefined) {
    return <EmptyState sentence={NOTHING_SET_UP.sentence} coming={NOTHING_SET_UP.coming} />
  }
  return (
    <EmptyState
      sentence={elsewhereSentence(housing, elsewhere.length > 0)}
      coming={WEEKS.otherHousing}
      todo={elsewhere.map(({ id, name }) => (
        <a key={id} href={paths.weeksOfCentre(id, { housing, days: made.days })}>
          {name}
        </a>
      ))}
    />
  )
}
