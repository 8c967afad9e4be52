import type { ReactNode } from 'react'
import { type NavLink, Shell } from '#app/_ui/shell.tsx'
import type { SkipLink } from '#app/_ui/skips.tsx'
import { signOut } from '#app/(public)/sign-in/actions.ts'
import { may } from '#lib/authz/demand.ts'
import type { Permission } from '#lib/authz/policy.ts'
import { dayOfDate } from '#lib/domain/day.ts'
import { isDemo } from '#lib/web/demo.ts'
import { currentDueCount, currentLine } from '#lib/web/line.ts'
import { currentDay, currentNetwork } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { isSharedSession, requireActor } from '#lib/web/session.ts'
import { ACCOUNT } from '#lib/words/account.ts'
import { clockTime, weekdayDate } from '#lib/words/dates.ts'
import { SHARED } from '#lib/words/shared-tablet.ts'
import { demoAgeWords, type NavKey } from '#lib/words/shell.ts'
import { LineAlarm, OnTheLine } from './line-alarm.tsx'
import { Live } from './live.tsx'
import { RoadAlarm } from './road-alarm.tsx'
import { SessionWatch } from './session-watch.tsx'
import { SignOutForm } from './sign-out-form.tsx'

type DeskProps = {
  readonly current?: NavKey
  /** Whose page this is, beside the person's name. */
  readonly skips?: readonly SkipLink[]
  /** What the page shows that may change, where it is none of the navigation. */
  readonly follows?: readonly string[]
  /** The page of the line says itself that nobody holds it. */
  readonly isAlarmShown?: boolean
  readonly children: ReactNode
}

const NAV: readonly { readonly key: NavKey; readonly href: string; readonly needs: Permission }[] = [
  { key: 'calls', href: paths.calls(), needs: 'call.read' },
  { key: 'due', href: paths.due(), needs: 'due.read' },
  { key: 'round', href: paths.round(), needs: 'round.read' },
  { key: 'who-is-where', href: paths.casualties(), needs: 'casualty.read' },
  { key: 'moves', href: paths.moves(), needs: 'move.read' },
  { key: 'weeks-ahead', href: paths.weeks(), needs: 'forecast.read' },
  { key: 'setup', href: paths.setup(), needs: 'setup.read' },
]

/** What each page reads again for as it changes, beside the line, whose alarm stands on all of them; the pages of setup are forms and wait for their own reader. */
const PLACES = ['casualty', 'arrival', 'claim', 'enclosure', 'centre']
const FOLLOWS: { readonly [key in NavKey]?: readonly string[] } = {
  due: ['call', 'ask', 'referral', 'line', ...PLACES],
  calls: ['call', 'ask', 'referral', 'line', ...PLACES],
  round: PLACES,
  'who-is-where': [...PLACES, 'release', 'season', 'rule'],
  moves: ['ask', 'transfer', ...PLACES],
  'weeks-ahead': PLACES,
}

/** The frame of every signed-in page: only the words a person may follow, her name, the day and the clock. */
export async function Desk(props: DeskProps) {
  const { current, skips, isAlarmShown = true, children } = props
  const actor = await requireActor()
  const [{ now, today, zone }, network, line, due] = await Promise.all([
    currentDay(),
    currentNetwork(),
    currentLine(),
    currentDueCount(actor),
  ])
  const isShared = await isSharedSession()
  const follows = props.follows ?? (current === undefined ? undefined : FOLLOWS[current])
  const nav: NavLink[] = NAV.filter(link => may(actor, link.needs)).map(({ key, href }) =>
    key === 'due' ? { key, href, waiting: due } : { key, href },
  )
  const age = network.demoMadeOn === null ? 0 : today - dayOfDate(network.demoMadeOn)
  return (
    <Shell
      nav={nav}
      current={current}
      home={paths.front()}
      who={isShared ? SHARED.isShared : actor.name}
      day={`${weekdayDate(today)}, ${clockTime(now, zone)}`}
      account={
        <>
          {may(actor, 'line.read') && <OnTheLine line={line} personId={actor.personId} />}
          <a href={paths.me()}>{ACCOUNT.link}</a>
          <SignOutForm personId={actor.personId} action={signOut} />
        </>
      }
      demo={isDemo()}
      {...(age > 0 && { demoNote: demoAgeWords(age) })}
      {...(skips && { skips })}
    >
      {follows !== undefined && (
        <Live from={paths.events([...new Set([...follows, 'line', 'journey'])].join(','))} />
      )}
      {isAlarmShown && <LineAlarm line={line} mayHold={may(actor, 'line.hold')} now={now} zone={zone} />}
      <RoadAlarm actor={actor} now={now} zone={zone} />
      <SessionWatch signIn={paths.signIn()} />
      {children}
    </Shell>
  )
}
