import type { Metadata } from 'next'
import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { isFailure } from '#lib/kernel/failure.ts'
import { isMailSet } from '#lib/service/mail.ts'
import { readPasswordLink } from '#lib/service/password-link.ts'
import { currentNow } from '#lib/web/clock.ts'
import { load } from '#lib/web/load.ts'
import { paths } from '#lib/web/paths.ts'
import { failureWords } from '#lib/words/failure.ts'
import { doorAnswer, PASSWORD_LINK } from '#lib/words/password-link.ts'
import { PublicPage } from '../../_parts/public-page.tsx'
import { NewPasswordForm } from './_parts/new-password-form.tsx'

export const metadata: Metadata = { title: PASSWORD_LINK.title }

export default async function PasswordPage({ params }: PageProps<'/password/[token]'>) {
  const [{ token }, now] = await Promise.all([params, currentNow()])
  const door = await load(openOrOver(token, now))
  if ('say' in door) {
    return (
      <PublicPage>
        <Answer sentence={door.say} basis={door.next}>
          <Actions>
            <ButtonLink href={paths.signIn()}>{PASSWORD_LINK.toSignIn}</ButtonLink>
            {isMailSet() && <ButtonLink href={paths.forgot()}>{PASSWORD_LINK.toForgot}</ButtonLink>}
          </Actions>
        </Answer>
      </PublicPage>
    )
  }
  return (
    <PublicPage>
      <Answer sentence={doorAnswer(door.name, door.isInvitation)} basis={PASSWORD_LINK.note} />
      <Section id="password" head={PASSWORD_LINK.title} strong>
        <NewPasswordForm token={token} email={door.email} />
      </Section>
    </PublicPage>
  )
}

/** A link that was used or ran out says so; what never was one is nothing here. */
async function openOrOver(token: string, now: Date) {
  try {
    return await readPasswordLink(token, now)
  } catch (thrown) {
    if (isFailure(thrown) && thrown.code === 'rule') return failureWords(thrown)
    throw thrown
  }
}
