import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { Answer, Section } from '#app/_ui/section.tsx'
import { Shell } from '#app/_ui/shell.tsx'
import { isDemo } from '#lib/web/demo.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths, safeReturn } from '#lib/web/paths.ts'
import { currentActor } from '#lib/web/session.ts'
import { clockTime, weekdayDate } from '#lib/words/dates.ts'
import { SIGN_IN_WORDS } from '#lib/words/sign-in.ts'
import { SignInForm } from './_parts/sign-in-form.tsx'

export const metadata: Metadata = { title: SIGN_IN_WORDS.title }

type Props = { readonly searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function SignInPage({ searchParams }: Props) {
  const [{ to }, actor, { now, today, zone }] = await Promise.all([
    searchParams,
    currentActor(),
    currentDay(),
  ])
  const returnTo = safeReturn(to)
  if (actor !== undefined) redirect(returnTo)
  return (
    <Shell
      nav={[]}
      home={paths.front()}
      day={`${weekdayDate(today)}, ${clockTime(now, zone)}`}
      demo={isDemo()}
    >
      <Answer sentence={SIGN_IN_WORDS.heading} basis={SIGN_IN_WORDS.basis} />
      <Section id="sign-in" head={SIGN_IN_WORDS.title} strong>
        <SignInForm returnTo={returnTo} />
      </Section>
    </Shell>
  )
}
