import type { ReactNode } from 'react'

export type AnswerProps = {
  /** The animal's or call's name, set large in the margin. */
  readonly reference?: string | undefined
  /** What stands under it: species, link to the card, when the call began. */
  readonly place?: ReactNode
  /** The answer, one sentence without a full stop. */
  readonly sentence: string
  /** What the answer rests on, and its doubt. */
  readonly basis?: ReactNode
  readonly children?: ReactNode
}

/** The head of a page: the answer as a sentence. */
export function Answer({ reference, place, sentence, basis, children }: AnswerProps) {
  return (
    <div className="lede">
      <div className="tag">
        {reference !== undefined && <span className="ref">{reference}</span>}
        {place}
      </div>
      <h1>{sentence}</h1>
      {basis !== undefined && <div className="basis">{basis}</div>}
      {children !== undefined && <div className="more">{children}</div>}
    </div>
  )
}

export type SectionProps = {
  /** Also the target of links; the heading is `<id>-head`. */
  readonly id: string
  readonly head: string
  /** The margin note: how to read it, where it comes from, a link. */
  readonly note?: ReactNode
  /** A heavy line above, for the part that holds the page. */
  readonly strong?: boolean
  readonly children: ReactNode
}

/** A margin heading beside its matter. */
export function Section({ id, head, note, strong = false, children }: SectionProps) {
  return (
    <section id={id} className={strong ? 'sec strong' : 'sec'} aria-labelledby={`${id}-head`}>
      <div className="head">
        <h2 id={`${id}-head`}>{head}</h2>
        {note !== undefined && <div className="note">{note}</div>}
      </div>
      <div className="matter">{children}</div>
    </section>
  )
}

export type Fact = { readonly term: string; readonly value: ReactNode }

/** Facts as ruled lines: term at left, value at right. */
export function Facts({ facts }: { readonly facts: readonly Fact[] }) {
  return (
    <dl className="facts">
      {facts.map(fact => (
        <div key={fact.term}>
          <dt>{fact.term}</dt>
          <dd>{fact.value}</dd>
        </div>
      ))}
    </dl>
  )
}
