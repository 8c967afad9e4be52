import type { Metadata } from 'next'
import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { isMailSet } from '#lib/service/mail.ts'
import { pageWord } from '#lib/web/params.ts'
import { paths } from '#lib/web/paths.ts'
import { PASSWORD_LINK } from '#lib/words/password-link.ts'
import { PublicPage } from '../../_parts/public-page.tsx'
import { ForgotForm } from '../_parts/forgot-form.tsx'

export const metadata: Metadata = { title: PASSWORD_LINK.forgotTitle }

export default async function ForgotPage({ searchParams }: PageProps<'/sign-in/forgot'>) {
  const { sent } = await searchParams
  const isMailed = isMailSet()
  return (
    <PublicPage>
      <Answer
        sentence={PASSWORD_LINK.forgotHeading}
        basis={isMailed ? PASSWORD_LINK.forgotBasis : PASSWORD_LINK.forgotNoMail}
      />
      {pageWord(sent) !== undefined && (
        <Notice
          kind="done"
          role="status"
          sentence={PASSWORD_LINK.forgotDone}
          kept={PASSWORD_LINK.forgotDoneNext}
        />
      )}
      <Section id="forgot" head={PASSWORD_LINK.forgotTitle} strong>
        {isMailed ? (
          <ForgotForm />
        ) : (
          <Actions>
            <ButtonLink href={paths.signIn()}>{PASSWORD_LINK.toSignIn}</ButtonLink>
          </Actions>
        )}
      </Section>
    </PublicPage>
  )
}
