/**
 * What a page does with a refused read: a row out of sight or a mistyped address is "nothing here" (404), a refused
 * right is "not allowed" (403), nobody goes to the sign-in page. Anything else stays thrown for the error page.
 */
import 'server-only'
import { forbidden, notFound } from 'next/navigation'
import { isFailure } from '#lib/kernel/failure.ts'
import { toSignIn } from './session.ts'

/** The value that was read. Usage: `const round = await load(getRound(actor, id, now))`. */
export async function load<T>(reading: Promise<T>): Promise<T> {
  try {
    return await reading
  } catch (thrown) {
    if (!isFailure(thrown)) throw thrown
    switch (thrown.code) {
      case 'not-found':
      case 'invalid':
        return notFound()
      case 'forbidden':
        return forbidden()
      case 'signed-out':
        return toSignIn()
      default:
        throw thrown
    }
  }
}
