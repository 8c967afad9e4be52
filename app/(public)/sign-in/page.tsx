import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { Notice } from '#app/_ui/notice.tsx'
import { Answer, Section } from '#app/_ui/section.tsx'
import { paths, safeReturn } from '#lib/web/paths.ts'
import { providerName } from '#lib/web/provider.ts'
import { currentActor } from '#lib/web/session.ts'
import { PROVIDER, providerWords, SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { PublicPage } from '../_parts/public-page.tsx'
import { SignInForm } from './_parts/sign-in-form.tsx'

export const metadata: Metadata = { title: SIGN_IN_WORDS.title }

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function SignInPage({ searchParams }: Props) {
  const [{ to, refused, error }, actor] = await Promise.all([searchParams, currentActor()])
  const returnTo = safeReturn(to)
  if (actor !== undefined) redirect(returnTo)
  const provider = providerName()
  return (
    <PublicPage>
      <Answer sentence={SIGN_IN_WORDS.heading} basis={SIGN_IN_WORDS.basis} />
      {(refused ?? error) !== undefined && (
        <Notice
          kind="check-this"
          sentence={refused === 'provider' ? PROVIDER.unknown : PROVIDER.failed}
          kept={PROVIDER.next}
        />
      )}
      {provider !== undefined && (
        <Section id="provider" head={PROVIDER.head} note={PROVIDER.note}>
          <Actions>
            <ButtonLink href={paths.signInProvider(returnTo)}>{providerWords(provider)}</ButtonLink>
          </Actions>
        </Section>
      )}
      <Section id="sign-in" head={SIGN_IN_WORDS.title} strong>
        <SignInForm returnTo={returnTo} />
      </Section>
    </PublicPage>
  )
}
