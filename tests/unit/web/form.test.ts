import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readForm, typedList, typedText, typedTick, typedValues } from '#lib/web/form.ts'

function formOf(...pairs: [string, string | Blob][]): FormData {
  const data = new FormData()
  for (const [name, value] of pairs) data.append(name, value)
  return data
}

describe('readForm', () => {
  it('nests by dots, lists by numbers and by brackets', () => {
    const data = formOf(
      ['animal', 'kestrel'],
      ['conditions[]', 'fracture'],
      ['stages.1.days', '12'],
      ['stages.0.days', '3'],
      ['stages.0.kind', 'critical care'],
      ['finder.phone', '0123'],
      ['conditions[]', 'oiled'],
    )
    expect(readForm(data)).toEqual({
      animal: 'kestrel',
      conditions: ['fracture', 'oiled'],
      stages: [{ days: '3', kind: 'critical care' }, { days: '12' }],
      finder: { phone: '0123' },
    })
  })

  it('keeps the last value of a name said twice, leaves out files and what Next adds', () => {
    const data = formOf(['$ACTION_ID_1', 'x'], ['name', 'a'], ['name', 'b'], ['photo', new Blob(['x'])])
    expect(readForm(data)).toEqual({ name: 'b' })
  })

  it('cannot be led into the prototype', () => {
    readForm(formOf(['__proto__.isAdmin', 'yes'], ['constructor.prototype.isAdmin', 'yes']))
    expect(({} as Record<string, unknown>)['isAdmin']).toBeUndefined()
  })

  it('lets a nested name win over a plain one', () => {
    expect(readForm(formOf(['a', 'x'], ['a.b', 'y']))).toEqual({ a: { b: 'y' } })
  })
})

describe('typedValues', () => {
  it('keeps every typed character of every field', () => {
    const name = fc.stringMatching(/^[a-z]{1,8}$/)
    fc.assert(
      fc.property(fc.dictionary(name, fc.array(fc.string(), { minLength: 1, maxLength: 3 })), typed => {
        const pairs = Object.entries(typed).flatMap(([key, all]) =>
          all.map((one): [string, string] => [key, one]),
        )
        const open = Object.fromEntries(Object.entries(typed).filter(([key]) => !key.includes('password')))
        expect(typedValues(formOf(...pairs))).toEqual(open)
      }),
    )
  })

  it('never gives a password back', () => {
    expect(typedValues(formOf(['email', 'a@example.org'], ['newPassword', 'secret']))).toEqual({
      email: ['a@example.org'],
    })
  })
})

describe('reading back', () => {
  const values = typedValues(
    formOf(['name', 'Rush'], ['conditions[]', 'a'], ['conditions[]', 'b'], ['open', 'on']),
  )

  it('gives what was typed, else what the field starts with', () => {
    expect([
      typedText(values, 'name', 'x'),
      typedText(values, 'place', 'x'),
      typedText({}, 'toString'),
    ]).toEqual(['Rush', 'x', ''])
    expect([typedList(values, 'conditions[]'), typedList(values, 'others[]', ['c'])]).toEqual([
      ['a', 'b'],
      ['c'],
    ])
  })

  it('takes a missing box as no once the form was sent', () => {
    expect([typedTick(values, 'open'), typedTick(values, 'shut', true), typedTick({}, 'shut', true)]).toEqual(
      [true, false, true],
    )
  })
})
