/**
 * A real mail server for tests, on a free port of this machine: keeps what it is given, refuses when it is told to.
 */
import type { AddressInfo } from 'node:net'
import { SMTPServer } from 'smtp-server'

export type MailServer = {
  readonly url: string
  /** Whole messages as they came in, headers and all. */
  readonly letters: string[]
  /** How many of the next letters are refused for now (RFC 5321: 451). */
  refuse: number
  readonly close: () => Promise<void>
}

/** Starts the server. */
export async function startMailServer(): Promise<MailServer> {
  const letters: string[] = []
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS', 'AUTH'],
    onData(stream, _session, done) {
      const parts: Buffer[] = []
      stream.on('data', (part: Buffer) => parts.push(part))
      stream.on('end', () => {
        if (running.refuse > 0) {
          running.refuse -= 1
          done(Object.assign(new Error('try again later'), { responseCode: 451 }))
          return
        }
        letters.push(readable(Buffer.concat(parts).toString('utf8')))
        done()
      })
    },
  })
  await new Promise<void>(listening => server.listen(0, '127.0.0.1', listening))
  const { port } = server.server.address() as AddressInfo
  const running: MailServer = {
    url: `smtp://127.0.0.1:${port}`,
    letters,
    refuse: 0,
    close: () => new Promise(closed => server.close(() => closed())),
  }
  return running
}

/** Quoted-printable undone (RFC 2045). */
function readable(letter: string): string {
  return letter
    .replaceAll(/=\r?\n/g, '')
    .replaceAll(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
}
