import { expect, it } from 'vitest'
import { emailHref, textMessageHref } from '#lib/domain/message-link.ts'

it('a text message has its number and its words (RFC 5724, 2.2 and the example of 2.5)', () => {
  expect(textMessageHref('+15105550101', 'hello there')).toBe('sms:+15105550101?body=hello%20there')
  expect(textMessageHref('01632 960 101', 'A & B')).toBe('sms:01632960101?body=A%20%26%20B')
  expect(textMessageHref(null, 'x')).toBe('sms:?body=x')
})

it('an e-mail has its words, breaks as CR LF (RFC 6068, 2 and 5)', () => {
  expect(emailHref('desk@example.org', 'A leg', 'one\ntwo')).toBe(
    'mailto:desk@example.org?subject=A%20leg&body=one%0D%0Atwo',
  )
  expect(emailHref(null, 's', 'https://x.example/drive/1?a=b&c')).toBe(
    'mailto:?subject=s&body=https%3A%2F%2Fx.example%2Fdrive%2F1%3Fa%3Db%26c',
  )
})

it('what was written is what arrives', () => {
  const text = 'Rush 12, pick-up 14:20.\r\nHow to carry it: https://x.example/d?a=1&b=2 (100 %)'
  expect(new URL(textMessageHref('0', text)).searchParams.get('body')).toBe(text)
  expect(new URL(emailHref('a@b.example', 's', text)).searchParams.get('body')).toBe(text)
})
