/**
 * The way of mail to a mail server, where one is set.
 * Promise: nothing of the program's own is read or loaded by a letter (no files, no addresses); a server that hangs
 * is left after a while.
 */
import 'server-only'
import { createTransport } from 'nodemailer'
import { env } from '#lib/env.ts'
import type { Send } from './deliver.ts'

const PATIENCE_MS = 20_000

/** Sends by the mail server of the surroundings; undefined where none is set. */
export function smtpSend(): Send | undefined {
  const { ROOSTWRIGHT_SMTP_URL: server, ROOSTWRIGHT_MAIL_FROM: from } = env()
  return server === undefined || from === undefined ? undefined : sendBy(server, from)
}

/** Sends by one mail server. */
export function sendBy(server: string, from: string): Send {
  const transport = createTransport(
    {
      url: server,
      connectionTimeout: PATIENCE_MS,
      greetingTimeout: PATIENCE_MS,
      socketTimeout: PATIENCE_MS,
      disableFileAccess: true,
      disableUrlAccess: true,
    },
    { from },
  )
  return async ({ to, subject, body }) => {
    await transport.sendMail({ to, subject, text: body })
  }
}
