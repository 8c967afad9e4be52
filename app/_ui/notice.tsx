import type { ReactNode } from 'react'
import { NOTICE_WORDS, type NoticeKind } from '#lib/words/notice.ts'

export type NoticeProps = {
  readonly kind: NoticeKind
  /** What happened, one sentence without a full stop. */
  readonly sentence: string
  /** What was kept, what it means. */
  readonly kept?: ReactNode
  /** Buttons and links: what to do. */
  readonly todo?: ReactNode
  readonly id?: string | undefined
  /** `alert` for an answer to what was just sent, `status` for news; without it the notice is part of the page. */
  readonly role?: 'alert' | 'status' | undefined
  /** In a narrow column the margin word stands above. */
  readonly inside?: boolean
}

/** The one way a page says that things are not as usual. */
export function Notice({ kind, sentence, kept, todo, id, role, inside = false }: NoticeProps) {
  const { word, weight } = NOTICE_WORDS[kind]
  return (
    <div id={id} role={role} tabIndex={-1} className={`say ${weight}-notice${inside ? ' inside' : ''}`}>
      <p className="word">{word}</p>
      <div>
        <p className="first">{sentence}</p>
        {kept !== undefined && <div className="kept">{kept}</div>}
        {todo !== undefined && <div className="todo do">{todo}</div>}
      </div>
    </div>
  )
}

export type EmptyStateProps = {
  /** What is not there: "Nobody is due today". */
  readonly sentence: string
  /** What will come, and when. */
  readonly coming: ReactNode
  readonly todo?: ReactNode
}

/** An empty list says what will come, and when. */
export function EmptyState({ sentence, coming, todo }: EmptyStateProps) {
  return <Notice kind="nothing-here" sentence={sentence} kept={coming} todo={todo} />
}
