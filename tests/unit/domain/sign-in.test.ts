import { expect, it } from 'vitest'
import { signInForm } from '#lib/domain/sign-in.ts'

const read = (typed: Record<string, unknown>) =>
  signInForm.safeParse({ email: 'a@example.org', password: 'x', ...typed })

it('compares the e-mail in lower case and leaves the password as it is', () => {
  expect(read({ email: '  Nell@Example.org ', password: ' Two Words ' }).data).toEqual({
    email: 'nell@example.org',
    password: ' Two Words ',
  })
})

it('refuses blanks, and lengths that would only make us work', () => {
  const typed = [
    { email: ' ' },
    { password: '' },
    { password: 'x'.repeat(201) },
    { email: 'x'.repeat(255) },
    { email: undefined },
  ]
  expect(typed.map(one => read(one).success)).toEqual(typed.map(() => false))
  expect(read({ password: 'x'.repeat(200), email: 'x'.repeat(254) }).success).toBe(true)
})
