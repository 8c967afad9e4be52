'use client'

import { useEffect, useState } from 'react'
import { Notice } from '#app/_ui/notice.tsx'
import { OneButton } from '#app/(desk)/calls/_parts/one-button.tsx'
import { TAP } from '#lib/words/round-entry.ts'
import { tapped } from '../actions.ts'

type Props = {
  /** What was recorded, and for how long taking back is still offered. */
  readonly sentence: string
  readonly leftMs: number
  readonly fields: Readonly<Record<string, string>>
}

/** What was just recorded, with the way to take it back while it is offered. Without JavaScript the offer stays on the page. */
export function TakeBack({ sentence, leftMs, fields }: Props) {
  const [isOver, setOver] = useState(false)
  useEffect(() => {
    setOver(leftMs <= 0)
    const timer = setTimeout(() => setOver(true), leftMs)
    return () => clearTimeout(timer)
  }, [leftMs])
  const button = <OneButton action={tapped} text={TAP.takeBack} fields={fields} />
  return (
    <Notice kind="done" role="status" sentence={sentence} {...(!isOver && leftMs > 0 && { todo: button })} />
  )
}
