'use client'

import { useState, useSyncExternalStore } from 'react'
import { emailHref, textMessageHref } from '#lib/domain/message-link.ts'
import { SEND, textTo } from '#lib/words/send.ts'
import { Actions, Button, ButtonLink } from './button.tsx'

type Props = {
  /** What is sent, with its link. */
  readonly text: string
  readonly subject: string
  readonly name: string | null
  readonly phone: string | null
  readonly email: string | null
}

const never = () => () => undefined

/** Sends prepared words from this phone; copying shows only where the page is alive, the links always. */
export function SendIt({ text, subject, name, phone, email }: Props) {
  const canCopy = useSyncExternalStore(
    never,
    () => true,
    () => false,
  )
  const [said, say] = useState('')
  const copy = () =>
    navigator.clipboard === undefined
      ? say(SEND.notCopied)
      : navigator.clipboard.writeText(text).then(
          () => say(SEND.copied),
          () => say(SEND.notCopied),
        )
  return (
    <>
      <Actions>
        <ButtonLink href={textMessageHref(phone, text)}>{textTo(name, phone)}</ButtonLink>
        <ButtonLink href={emailHref(email, subject, text)} weight="plain">
          {SEND.email}
        </ButtonLink>
        {canCopy && (
          <Button type="button" weight="plain" onClick={copy}>
            {SEND.copy}
          </Button>
        )}
      </Actions>
      <p role="status" className="small">
        {said}
      </p>
    </>
  )
}
