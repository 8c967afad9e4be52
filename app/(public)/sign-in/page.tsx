import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { safeReturn } from '#lib/web/paths.ts'
import { currentActor } from '#lib/web/session.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { SignInForm } from './_parts/sign-in-form.tsx'

export const metadata: Metadata = { title: SIGN_IN_WORDS.title }

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function SignInPage({ searchParams }: Props) {
  const { to } = await searchParams
  const returnTo = safeReturn(to)
  if ((await currentActor()) !== undefined) redirect(returnTo)
  return (
    <main className="page" id="page">
      <header className="lede">
        <h1>{SIGN_IN_WORDS.heading}</h1>
        <p className="basis">{SIGN_IN_WORDS.basis}</p>
      </header>
      <section className="sec strong">
        <div className="matter">
          <SignInForm returnTo={returnTo} />
        </div>
      </section>
    </main>
  )
}
