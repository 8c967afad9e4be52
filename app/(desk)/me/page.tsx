import type { Metadata } from 'next'
import { EmptyState, Notice } from '#app/_ui/notice.tsx'
import { Answer, Facts, Section } from '#app/_ui/section.tsx'
import { type Column, DataTable } from '#app/_ui/table.tsx'
import { getOwnPage, type OwnPage } from '#lib/service/account.ts'
import { getInitials } from '#lib/service/short-code.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { pageWord } from '#lib/web/params.ts'
import { requireActor } from '#lib/web/session.ts'
import { ACCOUNT, accountAnswer, accountKept, signInWords } from '#lib/words/account.ts'
import { dayAndClock } from '#lib/words/dates.ts'
import { heldRoleWords, PERSON_FORM } from '#lib/words/setup-form.ts'
import { SHARED } from '#lib/words/shared-tablet.ts'
import { Desk } from '../_parts/desk.tsx'
import { OneButton } from '../setup/_parts/one-button.tsx'
import { CodeForm } from './_parts/code-form.tsx'
import { PasswordForm } from './_parts/password-form.tsx'
import { changeMyPassword, chooseMyCode, shareThisTablet, signOutEverywhere } from './actions.ts'

export const metadata: Metadata = { title: ACCOUNT.title }

type SignIn = OwnPage['signIns'][number]

export default async function OwnAccountPage({ searchParams }: PageProps<'/me'>) {
  const [actor, { zone }, { kept }] = await Promise.all([requireActor(), currentDay(), searchParams])
  const { name, email, roles, signIns } = await load(getOwnPage(actor))
  const initials = await load(getInitials(actor))
  const done = pageWord(kept) === 'code' ? SHARED.chosen : accountKept(pageWord(kept))
  const held = roles.map(role => heldRoleWords(role.role, role.place))
  return (
    <Desk>
      <Answer sentence={accountAnswer(name, held)} basis={email} />
      {done !== undefined && <Notice kind="done" role="status" sentence={done} />}
      <Section id="roles" head={ACCOUNT.roles} note={ACCOUNT.rolesNote} strong>
        <Facts facts={held.map(role => ({ term: PERSON_FORM.role, value: role }))} />
      </Section>
      <Section id="password" head={ACCOUNT.password} note={ACCOUNT.passwordNote}>
        <PasswordForm action={changeMyPassword} />
      </Section>
      <Section id="code" head={SHARED.head} note={SHARED.note}>
        <CodeForm action={chooseMyCode} initials={initials ?? ''} />
      </Section>
      <Section id="share" head={SHARED.share} note={SHARED.shareNote}>
        <OneButton action={shareThisTablet} text={SHARED.share} fields={{}} />
      </Section>
      <Section id="sign-ins" head={ACCOUNT.signIns} note={ACCOUNT.signInsNote}>
        {signIns.length === 0 ? (
          <EmptyState sentence={ACCOUNT.noSignIns} coming={ACCOUNT.noSignInsComing} />
        ) : (
          <DataTable
            caption={ACCOUNT.signIns}
            hideCaption
            columns={columnsOf(zone)}
            rows={signIns}
            keyOf={row => `${row.at.toISOString()} ${row.wasLetIn} ${row.address}`}
          />
        )}
      </Section>
      <Section id="everywhere" head={ACCOUNT.everywhere} note={ACCOUNT.everywhereNote}>
        <OneButton action={signOutEverywhere} text={ACCOUNT.everywhere} fields={{}} />
      </Section>
    </Desk>
  )
}

function columnsOf(zone: string): Column<SignIn>[] {
  return [
    { key: 'when', head: ACCOUNT.when, isRowHead: true, cell: row => dayAndClock(row.at, zone) },
    { key: 'what', head: ACCOUNT.what, cell: row => signInWords(row.how, row.wasLetIn) },
    { key: 'address', head: ACCOUNT.address, cell: row => row.address },
  ]
}
