import type { ReactNode } from 'react'
import { NAV_WORDS, type NavKey, SHELL_WORDS, waitingWords } from '#lib/words/shell.ts'
import { type SkipLink, Skips } from './skips.tsx'

export type NavLink = { readonly key: NavKey; readonly href: string; readonly waiting?: number }

export type ShellProps = {
  readonly nav: readonly NavLink[]
  readonly current?: NavKey | undefined
  /** Where the name leads. */
  readonly home: string
  /** "On the line", "Hollin Ness": whose page this is. */
  readonly who?: string | undefined
  /** "Wed 25 Nov, 23:43". */
  readonly day: string
  /** Sign-out form, own page: stands after who and day. */
  readonly account?: ReactNode
  readonly demo?: boolean
  /** What the demo line says beside its name, such as that it is a day old. */
  readonly demoNote?: ReactNode
  /** Further skip links; the one to the page is always there. */
  readonly skips?: readonly SkipLink[]
  readonly children: ReactNode
}

/** The frame of every page. The navigation is one list: in the head on wide screens, at the foot of a phone. */
export function Shell(props: ShellProps) {
  return (
    <>
      <Skips more={props.skips ?? []} />
      <header>
        <div className="top-rule" />
        <div className="top">
          <a className="name" href={props.home}>
            {SHELL_WORDS.name}
          </a>
          {props.nav.length > 0 && <Words nav={props.nav} current={props.current} />}
          <div className="who">
            <span>{props.who === undefined ? props.day : `${props.who} · ${props.day}`}</span>
            {props.account}
          </div>
        </div>
        {props.demo === true && (
          <p className="demo-line">
            <b>{SHELL_WORDS.demo}</b>
            {props.demoNote !== undefined && <> · {props.demoNote}</>}
          </p>
        )}
      </header>
      <main id="page" className="page" tabIndex={-1}>
        {props.children}
      </main>
    </>
  )
}

function Words({ nav, current }: { nav: readonly NavLink[]; current: NavKey | undefined }) {
  return (
    <nav className="words" aria-label={SHELL_WORDS.navigation}>
      <ul>
        {nav.map(link => (
          <li key={link.key}>
            <a href={link.href} aria-current={link.key === current ? 'page' : undefined}>
              <span className="long">{NAV_WORDS[link.key].long}</span>
              <span className="short">{NAV_WORDS[link.key].short}</span>
              {link.waiting !== undefined && link.waiting > 0 && (
                <>
                  <span className="waiting" aria-hidden="true">
                    {link.waiting}
                  </span>
                  <span className="vh">, {waitingWords(link.waiting)}</span>
                </>
              )}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  )
}
