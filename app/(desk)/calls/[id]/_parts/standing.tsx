'use client'

import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react'
import { Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { changesBetween, type Standing } from '#lib/domain/standing.ts'
import { CALL, changedWords } from '#lib/words/call.ts'
import { changeWords } from '#lib/words/standing.ts'

/** The answer as the server draws it: each drawing has a stamp of its own, and the version of the sheet behind it. */
export type Drawing = {
  readonly stamp: string
  readonly version: number
  readonly standing: Standing | null
  readonly parts: Readonly<Record<Part, ReactNode>>
}
type Part = 'answer' | 'options' | 'best'

type Held = {
  readonly parts: Drawing['parts']
  readonly changed: readonly string[]
  /** The sheet was kept at a version: the answer to it may be shown. */
  readonly kept: (version: number) => void
  /** A button of the sheet was pressed: whatever the server draws next is the answer to it. */
  readonly asked: () => void
}

const Context = createContext<Held | null>(null)

type Props = {
  readonly drawing: Drawing
  /** Who wrote each field last, unless it was the reader herself. */
  readonly writers: Readonly<Record<string, string>>
  readonly children: ReactNode
}

/**
 * Holds the answer that a person asked for: what changes behind it is said in words, and the order stays until she
 * ranks again. What she types herself is answered at once, unless her hand is on the options.
 */
export function StandingAnswer({ drawing, writers, children }: Props) {
  const [shown, setShown] = useState(drawing)
  const [wanted, setWanted] = useState<{ readonly version?: number; readonly after?: string }>({})
  const newest = useRef(drawing)
  const changes =
    shown.standing === null || drawing.standing === null
      ? []
      : changesBetween(shown.standing, drawing.standing)
  const hasNews = changes.length > 0
  useEffect(() => {
    newest.current = drawing
    if (drawing.stamp === shown.stamp) return
    const isAnswer = wanted.after !== undefined && drawing.stamp !== wanted.after
    const isTyped = wanted.version !== undefined && drawing.version >= wanted.version && !isHandOnOptions()
    if (!hasNews || isAnswer || isTyped) {
      setShown(drawing)
      if (isAnswer || isTyped) setWanted({})
    }
  }, [drawing, shown, wanted, hasNews])
  const kept = useCallback(
    (version: number) => setWanted(before => (version > shown.version ? { ...before, version } : before)),
    [shown.version],
  )
  const asked = useCallback(() => setWanted({ after: newest.current.stamp }), [])
  const changed = changes.map(change => changeWords(change, writers)).join('|')
  const held = useMemo(
    () => ({ parts: shown.parts, changed: changed === '' ? [] : changed.split('|'), kept, asked }),
    [shown, changed, kept, asked],
  )
  return <Context value={held}>{children}</Context>
}

/** A part of the answer that is held. */
export function Shown({ part }: { readonly part: Part }) {
  return useStanding().parts[part]
}

/** What changed since the shown order was ranked; the button ranks again. Inside the form of the call. */
export function ChangedSince() {
  const { changed } = useStanding()
  return (
    <div role="status" className="changed-since">
      {changed.length > 0 && (
        <Notice
          inside
          kind="changed-since"
          sentence={changedWords(changed.length)}
          kept={
            <ul>
              {changed.map(words => (
                <li key={words}>{words}</li>
              ))}
            </ul>
          }
          todo={
            <Button name="do" value="rank">
              {CALL.rank}
            </Button>
          }
        />
      )}
    </div>
  )
}

/** The same in one line, where the options are out of sight. */
export function ChangedLine() {
  const { changed } = useStanding()
  if (changed.length === 0) return null
  return (
    <a className="changed-line" href="#options">
      {changedWords(changed.length)}
    </a>
  )
}

export function useStanding(): Held {
  const held = useContext(Context)
  if (held === null) throw new Error('the call sheet stands outside its answer')
  return held
}

function isHandOnOptions(): boolean {
  const { activeElement } = document
  return activeElement?.closest('.option-list') != null
}
