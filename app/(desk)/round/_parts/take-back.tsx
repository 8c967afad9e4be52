'use client'

import { useEffect, useRef, useState } from 'react'
import { Button } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { TAP } from '#lib/words/round-entry.ts'
import { TapForm } from './tap-form.tsx'
import { useTakeBackKey } from './use-take-back-key.ts'

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
  const isOffered = !isOver && leftMs > 0
  const own = useRef<HTMLButtonElement>(null)
  const listens = useTakeBackKey(isOffered ? () => own.current?.click() : undefined)
  const { tap = '', ...hidden } = fields
  const button = (
    <TapForm hidden={hidden}>
      {(_state, isPending) => (
        <Button ref={own} name="tap" value={tap} disabled={isPending} {...(listens && { keys: 'Ctrl Z' })}>
          {TAP.takeBack}
        </Button>
      )}
    </TapForm>
  )
  return <Notice kind="done" role="status" sentence={sentence} {...(isOffered && { todo: button })} />
}
